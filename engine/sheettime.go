package engine

import (
	"time"

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

// seconds is how long a route takes on a machine, there and back, rounded up.
func seconds(m project.Machine, u project.Use, start shape.Point, r route.Route) int {
	if len(r.Strokes) == 0 {
		return 0
	}
	t := r.Estimate(start, route.AtStart, route.Motion{
		Cut: perSecond(m, u.Speed, typicalCut), Mark: perSecond(m, u.MarkSpeed, typicalMark),
		Travel: shape.Um(m.TravelSpeed) * shape.Mm, Accel: shape.Um(m.Acceleration) * shape.Mm,
	})
	return int((t + time.Second - 1) / time.Second)
}

// perSecond is a speed in the machine's unit in µm/s; usual where it is 0.
func perSecond(m project.Machine, speed, usual int) shape.Um {
	switch {
	case speed <= 0:
		return shape.Um(usual) * shape.Mm
	case m.Unit == project.PerMinute:
		return shape.Um(speed) * shape.Mm / 60
	}
	return shape.Um(speed) * shape.Mm
}
