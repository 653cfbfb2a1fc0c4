package readback

// pin is a square hole for a pin through some of a sprite's parts.
type pin struct {
	x0, y0, x1, y1 int64
	through        int // how many parts the manifest names
}

// Distances of pins: pinBack behind every edge of the part that hides one, at
// least what a hand is off; apart as many of their sides.
const (
	pinBack  = 500
	pinSides = 4
)

// takePins takes over what the manifest says of a sprite's pins.
func (s *sprite) takePins(m manifest, at int) error {
	ms := m.Sprites[at]
	if n := len(ms.Pins); n != 0 && n != 2 || n > 0 && s.settings.Pins == 0 {
		return s.fault("the manifest lists %d pins, which the project doesn't ask for", n)
	}
	for _, p := range ms.Pins {
		side := int64(p.Side)
		if side != int64(s.settings.Pins) {
			return s.fault("its pins are of %s mm, and the project wants %s mm", mm(side), mm(int64(s.settings.Pins)))
		}
		x, y := int64(p.At[0])-side/2, int64(p.At[1])-side/2
		s.pins = append(s.pins, pin{x, y, x + side, y + side, len(p.Parts)})
	}
	if len(s.pins) == 2 {
		dx, dy := s.pins[0].x0-s.pins[1].x0, s.pins[0].y0-s.pins[1].y0
		if least := pinSides * int64(s.settings.Pins); dx*dx+dy*dy < least*least {
			return s.fault("its pins stand so near that it turns about them")
		}
	}
	return nil
}

// corners are a hole's, clockwise as holes run.
func (p pin) corners() contour {
	return contour{{x: p.x0, y: p.y0}, {x: p.x0, y: p.y1}, {x: p.x1, y: p.y1}, {x: p.x1, y: p.y0}}
}

// withoutPins are a part's contours less the holes of pins, and which those are.
func (s *sprite) withoutPins(contours []contour) (rest []contour, pins int) {
	if len(s.pins) == 0 {
		return contours, 0
	}
	for i, c := range contours {
		found := false
		for k, p := range s.pins {
			if i > 0 && sameRing(c, p.corners()) {
				pins |= 1 << k
				found = true
			}
		}
		if !found {
			rest = append(rest, c)
		}
	}
	return rest, pins
}

// sameRing says whether two contours have the same straight edges, wherever they
// begin.
func sameRing(a, b contour) bool {
	if len(a) != len(b) {
		return false
	}
next:
	for shift := range a {
		for i := range a {
			v := a[(i+shift)%len(a)]
			if v.arc != 0 || v.x != b[i].x || v.y != b[i].y {
				continue next
			}
		}
		return true
	}
	return false
}

// judgePins looks whether each pin goes through all that lies below the part that
// hides it, and shows nowhere.
func (s *sprite) judgePins() error {
	for k, p := range s.pins {
		x, y := mm((p.x0+p.x1)/2), mm((p.y0+p.y1)/2)
		hole := part{contours: []contour{p.corners()}}
		through, hides := 0, false
		for _, q := range s.parts { // lowest first
			var whole []around
			for _, c := range q.contours {
				whole = append(whole, boxed(c, false))
			}
			has := q.pins&(1<<k) != 0
			if !has && !inside(whole, vertex{x: (p.x0 + p.x1) / 2, y: (p.y0 + p.y1) / 2}) {
				continue
			}
			back := int64(pinBack)
			if has {
				through++
				back = max(back, int64(s.stocks[q.stock].LeastStrip))
			}
			switch {
			case has && (hides || q.height != through):
				return s.fault("the pin at (%s, %s) mm doesn't go through what lies below height %d", x, y, q.height)
			case (has || !hides) && !liesIn(hole, [][]around{whole}, back):
				return s.fault("the hole for a pin at (%s, %s) mm lies too near an edge at height %d", x, y, q.height)
			case !has:
				hides = true
			}
		}
		if !hides || through == 0 || through != p.through {
			return s.fault("the pin at (%s, %s) mm goes through %d parts and is to be hidden above %d", x, y, through, p.through)
		}
	}
	for _, q := range s.parts {
		if q.pins == 1<<len(s.pins)-1 {
			return nil
		}
	}
	if len(s.pins) > 0 {
		return s.fault("no part has the holes of both its pins")
	}
	return nil
}
