package readback

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// A sheet's cuts are held against what its parts ask for: nothing else is cut,
// nothing twice, and all of it but the tabs.

// oddSlack is how far, in µm beyond half a kerf, the end of a straight cut may
// lie from where its edge ends, if the contour goes on round or aslant; and how
// far a round cut may be off by the rounding of its ends.
const oddSlack = 3

// cuts are a sheet's lines, sorted out.
type cuts struct {
	want, got []cutEdge
	odd       []oddEdge
	half      int64
	slack     int64 // 0 where all is along the axes
}

// add takes a line of the file.
func (k *cuts) add(l line) error {
	n := len(l.contour)
	if n < 2 {
		return fmt.Errorf("a line at (%s, %s) mm has no length", mm(l.contour[0].x), mm(l.contour[0].y))
	}
	for i, a := range l.contour {
		if l.open && i == n-1 {
			break
		}
		b := l.contour[(i+1)%n]
		switch {
		case straightAlong(a, b):
			e := cutEdge{upright: a.x == b.x, at: a.y, from: min(a.x, b.x), to: max(a.x, b.x)}
			if e.upright {
				e.at, e.from, e.to = a.x, min(a.y, b.y), max(a.y, b.y)
			}
			k.got = append(k.got, e)
		case a.x == b.x && a.y == b.y:
			return fmt.Errorf("a line has the same vertex twice at (%s, %s) mm", mm(a.x), mm(a.y))
		case !k.beside(a, b):
			return fmt.Errorf("a line from (%s, %s) mm is cut along no part", mm(a.x), mm(a.y))
		}
	}
	return nil
}

// beside finds the odd edge beside which a cut from a to b runs, and counts it.
func (k *cuts) beside(a, b vertex) bool {
	for i := range k.odd {
		o := &k.odd[i]
		if !o.cut && o.holds(a, k.half) && o.holds(b, k.half) && sameBend(a, b, o, k.half) {
			o.cut = true
			return true
		}
	}
	return false
}

// sameBend says whether the cut from a to b bends as its edge does, half a kerf
// further out or in.
func sameBend(a, b vertex, o *oddEdge, half int64) bool {
	if o.a.arc == 0 || a.arc == 0 {
		return o.a.arc == 0 && a.arc == 0
	}
	want := max(o.a.arc, -o.a.arc) + half*step(o.a.arc) // the stock is on the left
	got := max(a.arc, -a.arc)                           // either way round
	// The radius is worked out from a bulge of nine decimals and ends that are
	// rounded: the flatter the arc, the less it says.
	chord := hypot(float64(b.x-a.x), float64(b.y-a.y))
	off := oddSlack + 8*float64(got)*float64(got)/(chord*chord)
	return math.Abs(float64(want-got)) <= off
}

// holds says whether p lies half a kerf to the right of the edge.
func (o *oddEdge) holds(p vertex, half int64) bool {
	if o.a.arc == 0 {
		dx, dy := float64(o.b.x-o.a.x), float64(o.b.y-o.a.y)
		long := hypot(dx, dy)
		away := (float64(p.x-o.a.x)*dy - float64(p.y-o.a.y)*dx) / long
		along := (float64(p.x-o.a.x)*dx + float64(p.y-o.a.y)*dy) / long
		reach := 3*float64(half) + oddSlack
		return math.Abs(away-float64(half)) <= oddSlack && along >= -reach && along <= long+reach
	}
	cx, cy := o.centre()
	r := math.Abs(float64(o.a.arc)) + float64(half*step(o.a.arc))
	return math.Abs(hypot(float64(p.x)-cx, float64(p.y)-cy)-r) <= oddSlack
}

// centre is that of a round edge: to the left of its chord where it runs
// anticlockwise, at most a half turn.
func (o *oddEdge) centre() (x, y float64) {
	dx, dy := float64(o.b.x-o.a.x), float64(o.b.y-o.a.y)
	chord := hypot(dx, dy)
	r := math.Abs(float64(o.a.arc))
	rise := math.Sqrt(math.Max(0, r*r-chord*chord/4)) * float64(step(o.a.arc)) / chord
	return float64(o.a.x+o.b.x)/2 - dy*rise, float64(o.a.y+o.b.y)/2 + dx*rise
}

// judge compares line by line. stand is the length in µm that tabs leave.
func (k *cuts) judge(stand int64, shared sharing) error {
	for _, o := range k.odd {
		if !o.cut {
			return fmt.Errorf("nothing is cut beside the part's edge at (%s, %s) mm", mm(o.a.x), mm(o.a.y))
		}
	}
	order := func(a, b cutEdge) int {
		return cmp.Or(btoi(a.upright)-btoi(b.upright), cmp.Compare(a.at, b.at), cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to))
	}
	slices.SortFunc(k.want, order)
	slices.SortFunc(k.got, order)
	want, twice := united(k.want, 2*k.slack)
	if twice > k.slack && shared == apart {
		return fmt.Errorf("two parts ask for one cut")
	}
	var left int64
	g := 0
	for i := range k.got[:max(0, len(k.got)-1)] {
		if a, b := k.got[i], k.got[i+1]; a.upright == b.upright && a.at == b.at && b.from < a.to-k.slack {
			x, y := b.place(b.from)
			return fmt.Errorf("the line at (%s, %s) mm is cut twice", mm(x), mm(y))
		}
	}
	for _, w := range want {
		at := w.from
		for ; g < len(k.got) && sameLine(k.got[g], w) && k.got[g].from <= w.to+k.slack; g++ {
			e := k.got[g]
			if e.from < w.from-k.slack || e.to > w.to+k.slack {
				return e.astray()
			}
			left += max(0, e.from-at)
			at = max(at, e.to)
		}
		left += max(0, w.to-at)
		if g < len(k.got) && order(k.got[g], w) < 0 {
			return k.got[g].astray()
		}
	}
	if g < len(k.got) {
		return k.got[g].astray()
	}
	spare := k.slack * int64(2*len(k.want))
	if left > stand+spare || shared == apart && left < stand-spare {
		return fmt.Errorf("%s mm of the cut lines are left uncut, where tabs ask for %s mm", mm(left), mm(stand))
	}
	return nil
}

// sharing says whether neighbours may share a cut.
type sharing bool

const (
	apart  sharing = false
	shares sharing = true
)

func sameLine(a, b cutEdge) bool { return a.upright == b.upright && a.at == b.at }

func (e cutEdge) place(v int64) (x, y int64) {
	if e.upright {
		return e.at, v
	}
	return v, e.at
}

func (e cutEdge) astray() error {
	x, y := e.place(e.from)
	return fmt.Errorf("the cut from (%s, %s) mm runs along no part", mm(x), mm(y))
}

// united makes one of sorted edges that overlap or touch, or are no further apart
// than near, and says by how much two overlap at most.
func united(list []cutEdge, near int64) (out []cutEdge, twice int64) {
	for _, e := range list {
		if n := len(out); n > 0 && sameLine(out[n-1], e) && e.from <= out[n-1].to+near {
			twice = max(twice, min(out[n-1].to, e.to)-e.from)
			out[n-1].to = max(out[n-1].to, e.to)
			continue
		}
		out = append(out, e)
	}
	return out, twice
}

func btoi(b bool) int {
	if b {
		return 1
	}
	return 0
}

// hypot is the length of a vector; roots come out the same on every machine.
func hypot(x, y float64) float64 { return math.Sqrt(float64(x*x) + float64(y*y)) }
