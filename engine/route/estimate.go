package route

import (
	"math"
	"time"

	"sheetsprite/engine/shape"
)

// Motion is how a machine moves.
type Motion struct {
	Cut    shape.Um // µm/s along a cut, at least 1
	Mark   shape.Um // µm/s along a mark, at least 1
	Travel shape.Um // µm/s with the beam off, at least 1
	Accel  shape.Um // µm/s², at least 1
}

// Estimate is the time a route takes, rounded to the millisecond: every move
// speeds up and slows down with the same acceleration (a trapezoid of speed
// over time, a triangle where it is too short to reach full speed); a travel
// begins and ends at rest; within a stroke a corner is passed at full speed
// times the cosine of the angle by which the direction changes, at rest from
// a right angle on; an arc is run no faster than its radius allows at that
// acceleration. Motion's speeds below 1 count as 1.
// (Common practice, no source; the test holds it against sums done by hand.)
func (r Route) Estimate(start shape.Point, end End, m Motion) time.Duration {
	accel := atLeast1(m.Accel)
	var seconds float64
	here := start
	travel := func(to shape.Point) {
		seconds += ramp(float64(length(here, to)), 0, 0, atLeast1(m.Travel), accel)
		here = to
	}
	for i := range r.Strokes {
		s := r.Strokes[i]
		if r.skips(&s) {
			continue
		}
		travel(s.From())
		speed := atLeast1(m.Cut)
		if s.Kind == Marking {
			speed = atLeast1(m.Mark)
		}
		if s.Lead != nil { // straight onto the line, so there it stands
			seconds += ramp(float64(length(*s.Lead, s.Begin())), 0, 0, speed, accel)
		}
		here = s.To()
		if len(s.Drive) > 0 {
			s = Stroke{Path: s.Drive}
		}
		seconds += s.seconds(speed, accel)
	}
	if end == AtStart {
		travel(start)
	}
	return time.Duration(math.Round(float64(seconds*1000))) * time.Millisecond
}

func atLeast1(v shape.Um) float64 { return float64(max(v, 1)) }

// run is one edge of a stroke: its length, its top speed, and its direction
// at both ends, not of length 1.
type run struct {
	length, top float64
	from, to    [2]float64
}

// seconds is the time of one stroke, from rest to rest.
func (s Stroke) seconds(speed, accel float64) float64 {
	runs := s.runs(speed, accel)
	if len(runs) == 0 {
		return 0
	}
	// The speed at each corner: what the corner allows, then what can be
	// reached from the one before, then what can be braked from.
	at := make([]float64, len(runs)+1)
	for i := 1; i < len(runs); i++ {
		at[i] = math.Min(runs[i-1].top, runs[i].top) * cosine(runs[i-1].to, runs[i].from)
		at[i] = math.Min(at[i], math.Sqrt(float64(at[i-1]*at[i-1])+float64(2*accel*runs[i-1].length)))
	}
	for i := len(runs) - 1; i > 0; i-- {
		at[i] = math.Min(at[i], math.Sqrt(float64(at[i+1]*at[i+1])+float64(2*accel*runs[i].length)))
	}
	var sum float64
	for i, r := range runs {
		sum += ramp(r.length, at[i], at[i+1], r.top, accel)
	}
	return sum
}

func (s Stroke) runs(speed, accel float64) []run {
	n := len(s.Path)
	if !s.Closed {
		n--
	}
	var out []run
	for i := range n {
		v, end := s.Path[i], s.Path[(i+1)%len(s.Path)].Point
		d := end.Sub(v.Point)
		r := run{length: float64(edgeLength(v, end)), top: speed, from: vector(d), to: vector(d)}
		if v.Arc != nil {
			r.top = math.Min(speed, math.Sqrt(float64(accel*float64(max(v.Arc.Radius, 1)))))
			r.from, r.to = tangent(v, v.Point), tangent(v, end)
		}
		if r.length > 0 {
			out = append(out, r)
		}
	}
	return out
}

func vector(p shape.Point) [2]float64 { return [2]float64{float64(p.X), float64(p.Y)} }

// tangent is the direction of v's arc at p.
func tangent(v shape.Vertex, p shape.Point) [2]float64 {
	r := p.Sub(v.Arc.Centre)
	t := float64(v.Arc.Turn)
	return [2]float64{-t * float64(r.Y), t * float64(r.X)}
}

// cosine is that of the angle between two directions, 0 from a right angle on.
func cosine(a, b [2]float64) float64 {
	dot := float64(a[0]*b[0]) + float64(a[1]*b[1])
	size := math.Sqrt(float64(a[0]*a[0])+float64(a[1]*a[1])) * math.Sqrt(float64(b[0]*b[0])+float64(b[1]*b[1]))
	if size == 0 || dot <= 0 {
		return 0
	}
	return math.Min(1, dot/size)
}

// ramp is the time for a length, from speed u to speed w, at most at top.
func ramp(length, u, w, top, accel float64) float64 {
	if length <= 0 {
		return 0
	}
	// The highest speed that speeding up and slowing down have room for.
	peak := math.Sqrt(float64(accel*length) + float64(float64(float64(u*u)+float64(w*w))/2))
	peak = math.Max(math.Min(peak, top), math.Max(u, w))
	ramps := (2*peak - u - w) / accel
	way := (float64(2*peak*peak) - float64(u*u) - float64(w*w)) / (2 * accel)
	return ramps + math.Max(0, length-way)/peak
}
