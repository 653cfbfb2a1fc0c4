// Package gesture tells who does what on the glass: a pen draws, fingers move
// and zoom; with no pen about, one finger draws and two move; a palm that rests
// while a pen is near does nothing. It turns pointer samples into actions and
// knows no browser and no clock: time comes with the samples.
package gesture

import "math"

// Kind is what happened to a pointer.
type Kind uint8

// The kinds, in the order in which the page counts them.
const (
	Down Kind = iota
	Move
	Up
	Cancel // the system took the pointer away
	Hover  // moved without touching
	Leave  // gone from above the glass
)

// Device is what points.
type Device uint8

// The devices, in the order in which the page counts them.
const (
	Mouse Device = iota
	Pen
	Touch
)

// Buttons as the Pointer Events standard numbers them (W3C, "buttons").
const (
	primary   = 1
	secondary = 2 // the mouse's right, the pen's barrel
	middle    = 4
	rubber    = 32 // the pen's other end
)

// Sample is one report about one pointer; places in CSS pixels, time in ms.
type Sample struct {
	Kind    Kind
	Device  Device
	ID      int32
	Buttons uint8
	Held    Held
	X, Y    float64
	Time    float64
}

// Held is a key held down while pointing that changes what is done.
type Held uint8

// The keys.
const (
	NoKey   Held = iota
	MoveKey      // the hand: move instead of draw
	PickKey      // take up the colour under the pointer
)

// Verb is what is to be done.
type Verb uint8

// The verbs. A stroke is Begin, Extend…, then End or Abandon.
const (
	Begin   Verb = iota // of a stroke at X, Y
	Extend              // the stroke to X, Y
	End                 // of the stroke
	Abandon             // the stroke, as if it had never begun
	Pinch               // what lay under FromX, FromY now lies under X, Y, Factor times as large
	Show                // the cell under X, Y
	Hide                // no cell is under the pointer
	Pick                // take up the colour at X, Y
)

// Action is one thing to do.
type Action struct {
	Verb         Verb
	Rub          bool // of Begin: take cells away, whatever the tool
	X, Y         float64
	FromX, FromY float64
	Factor       float64
}

// The spans of time, ms. Typical hands, no source.
const (
	penAbout  = 10 * 60 * 1000 // after its last report a pen still lies ready: fingers don't draw
	palmAfter = 250            // a hand that comes down this soon after a pen's report belongs to it: one that hovers reports all the time
	twoSoon   = 400            // a second finger this soon turns a stroke into a move
)

// still is how far a finger wanders that rests, CSS pixels: a stroke that has
// gone no further turns into a move however late the second finger comes.
const still = 8

type role uint8

const (
	idle role = iota // a palm, or one finger too many
	drawing
	moving
)

type pointer struct {
	id     int32
	device Device
	role   role
	x, y   float64
	gone   bool // further than still from where it came down
	x0, y0 float64
}

// Hands follows all pointers. The zero value has seen none.
type Hands struct {
	down    []pointer
	penDown bool
	penSeen bool
	penTime float64
	began   float64 // when the stroke began
}

// PenAbout says whether a pen has been seen lately.
func (h *Hands) PenAbout(now float64) bool { return h.penSeen && now-h.penTime < penAbout }

// Drawing says whether a stroke is under way.
func (h *Hands) Drawing() bool { return h.find(drawing) != nil }

// Feed takes a sample and appends what is to be done to out.
func (h *Hands) Feed(s Sample, out []Action) []Action {
	if math.IsNaN(s.X+s.Y) || math.IsInf(s.X+s.Y, 0) {
		return out
	}
	if s.Device == Pen {
		h.penSeen, h.penTime = true, s.Time
		out = h.penComes(out)
	}
	switch s.Kind {
	case Down:
		return h.press(s, out)
	case Move:
		return h.move(s, out)
	case Up, Cancel:
		return h.lift(s, out)
	case Hover:
		if s.Device != Touch && !h.Drawing() {
			out = append(out, Action{Verb: Show, X: s.X, Y: s.Y})
		}
	case Leave:
		if !h.Drawing() {
			out = append(out, Action{Verb: Hide})
		}
	}
	return out
}

// penComes takes back what the hand that holds the pen has begun to draw.
func (h *Hands) penComes(out []Action) []Action {
	for i := range h.down {
		p := &h.down[i]
		if p.device == Touch && p.role == drawing {
			p.role = idle
			out = append(out, Action{Verb: Abandon})
		}
	}
	return out
}

func (h *Hands) press(s Sample, out []Action) []Action {
	h.forget(s.ID) // a pointer whose end was never told
	p := pointer{id: s.ID, device: s.Device, x: s.X, y: s.Y, x0: s.X, y0: s.Y}
	switch {
	case s.Device == Touch:
		out = h.pressFinger(&p, s, out)
	case h.Drawing() || h.find(moving) != nil && s.Device == Mouse:
		// one stroke at a time
	case s.Held == MoveKey || s.Device == Mouse && s.Buttons&middle != 0:
		p.role = moving
	case s.Held == PickKey || s.Device == Pen && s.Buttons&secondary != 0:
		out = append(out, Action{Verb: Pick, X: s.X, Y: s.Y})
	default:
		p.role = drawing
		h.began = s.Time
		rub := s.Buttons&rubber != 0 || s.Device == Mouse && s.Buttons&secondary != 0
		out = append(out, Action{Verb: Begin, Rub: rub, X: s.X, Y: s.Y})
	}
	if s.Device == Pen {
		h.penDown = true
		for i := range h.down { // the hand lies beside the pen
			if h.down[i].device == Touch {
				h.down[i].role = idle
			}
		}
	}
	h.down = append(h.down, p)
	return out
}

func (h *Hands) pressFinger(p *pointer, s Sample, out []Action) []Action {
	fingers := 0
	for _, q := range h.down {
		if q.device == Touch && q.role != idle {
			fingers++
		}
	}
	stroke := h.find(drawing)
	switch {
	case h.penDown, h.penSeen && s.Time-h.penTime < palmAfter:
		// a palm
	case stroke != nil && (stroke.device != Touch || stroke.gone && s.Time-h.began > twoSoon):
		// the other hand, while a stroke is under way
	case stroke != nil:
		stroke.role, p.role = moving, moving
		out = append(out, Action{Verb: Abandon})
	case fingers >= 2:
		// one too many
	case fingers == 1 || h.PenAbout(s.Time) || s.Held == MoveKey:
		p.role = moving
	case s.Held == PickKey:
		out = append(out, Action{Verb: Pick, X: s.X, Y: s.Y})
	default:
		p.role = drawing
		h.began = s.Time
		out = append(out, Action{Verb: Begin, X: s.X, Y: s.Y})
	}
	return out
}

func (h *Hands) move(s Sample, out []Action) []Action {
	i := h.index(s.ID)
	if i < 0 {
		return out
	}
	p := &h.down[i]
	before := *p
	p.x, p.y = s.X, s.Y
	p.gone = p.gone || math.Abs(p.x-p.x0) > still || math.Abs(p.y-p.y0) > still
	switch p.role {
	case drawing:
		out = append(out, Action{Verb: Extend, X: s.X, Y: s.Y})
	case moving:
		out = append(out, h.pinch(i, before))
	}
	return out
}

// pinch is the action of one moving pointer, with the other one at rest.
func (h *Hands) pinch(i int, before pointer) Action {
	after := h.down[i]
	for j, q := range h.down {
		if j == i || q.role != moving {
			continue
		}
		was := math.Hypot(before.x-q.x, before.y-q.y)
		is := math.Hypot(after.x-q.x, after.y-q.y)
		factor := 1.0
		if was > 1 && is > 1 {
			factor = is / was
		}
		return Action{Verb: Pinch, FromX: (before.x + q.x) / 2, FromY: (before.y + q.y) / 2,
			X: (after.x + q.x) / 2, Y: (after.y + q.y) / 2, Factor: factor}
	}
	return Action{Verb: Pinch, FromX: before.x, FromY: before.y, X: after.x, Y: after.y, Factor: 1}
}

func (h *Hands) lift(s Sample, out []Action) []Action {
	i := h.index(s.ID)
	if i < 0 {
		return out
	}
	if h.down[i].role == drawing {
		if s.Kind == Cancel {
			out = append(out, Action{Verb: Abandon})
		} else {
			out = append(out, Action{Verb: End})
		}
	}
	h.forget(s.ID)
	if s.Device == Pen {
		h.penDown = false
	}
	if s.Device != Mouse {
		out = append(out, Action{Verb: Hide})
	}
	return out
}

func (h *Hands) find(r role) *pointer {
	for i := range h.down {
		if h.down[i].role == r {
			return &h.down[i]
		}
	}
	return nil
}

func (h *Hands) index(id int32) int {
	for i := range h.down {
		if h.down[i].id == id {
			return i
		}
	}
	return -1
}

func (h *Hands) forget(id int32) {
	if i := h.index(id); i >= 0 {
		h.down = append(h.down[:i], h.down[i+1:]...)
	}
}
