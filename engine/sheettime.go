package engine

import (
	"math"

	"sheetsprite/engine/project"
	"sheetsprite/engine/route"
	"sheetsprite/engine/shape"
)

// Typical speeds where the maker entered none, in mm/s. Common practice, no
// source.
const (
	typicalCut  = 15
	typicalMark = 60
)

// seconds is how long a route takes on a machine, rounded up: each move begins
// and ends standing still, as at a corner, and reaches its speed with the
// machine's acceleration (a trapezoid of speed over time).
func seconds(m project.Machine, u project.Use, start shape.Point, r route.Route) int {
	cut, mark := m.PerSecond(u.Speed, typicalCut), m.PerSecond(u.MarkSpeed, typicalMark)
	travel := float64(m.TravelSpeed)
	accel := float64(m.Acceleration)
	var us int64
	here := start
	for _, s := range r.Strokes {
		us += moveTime(distance(here, s.Begin()), travel, accel)
		speed := cut
		if s.Kind == route.Marking {
			speed = mark
		}
		for i, v := range s.Path {
			next := s.Path[(i+1)%len(s.Path)]
			if i+1 == len(s.Path) && !s.Closed {
				break
			}
			us += moveTime(wayLength(v, next.Point), speed, accel)
		}
		here = s.Finish()
	}
	if len(r.Strokes) > 0 {
		us += moveTime(distance(here, start), travel, accel)
	}
	return int((us + 999_999) / 1_000_000)
}

// moveTime is how long a move of a length takes in µs, from standing still to
// standing still: with v²/a of way or more the speed v is reached, and it takes
// s/v + v/a; else 2·√(s/a).
func moveTime(length shape.Um, speed, accel float64) int64 {
	s := float64(length) / 1000
	if s <= 0 {
		return 0
	}
	t := 2 * math.Sqrt(s/accel)
	if s >= float64(speed*speed)/accel {
		t = s/speed + speed/accel
	}
	return int64(math.Floor(t*1e6 + 0.5))
}

func distance(p, q shape.Point) shape.Um {
	return wayLength(shape.Vertex{Point: p}, q)
}

// wayLength is the length of the way from a vertex to the next point.
func wayLength(v shape.Vertex, end shape.Point) shape.Um {
	back := shape.Vertex{Point: end}
	if v.Turn == shape.Straight {
		return shape.Contour{v, back}.Length() / 2
	}
	return shape.Contour{v, back}.Length() - wayLength(back, v.Point)
}
