// Package route puts the cuts of one sheet in order: marks first, what lies
// inside a contour before that contour, and between these rules the shortest
// travel with the beam off or the knife up.
//
// Lengths are whole micrometres. Every travel is rounded to the nearest
// micrometre before it is compared or added, so that the order is the same on
// every machine. Effort is a fixed number of rounds, there is no clock.
package route

import (
	"fmt"

	"sheetsprite/engine/shape"
)

// Sheet is what is to be cut and marked on one sheet.
type Sheet struct {
	Loops  []Loop
	Marks  []Mark
	Start  shape.Point // where the machine stands before the first move
	End    End
	Passes int // over every cut, at least 1 (0 counts as 1); marks are drawn once
	Repeat Repeat
	Share  int // of a large job: how many times less is sought than for a sheet by itself; 0 counts as 1
}

// Loop is a closed contour to be cut, outer or inner; which contains which is
// found out here. A closed contour may be begun at any of its vertices.
type Loop struct {
	Contour shape.Contour
	Tabs    []Tab // in no order; a contour with tabs is cut as open lines, one after the other
	Rank    int   // all loops of a lower rank come first, as far as what lies inside what allows
}

// Tab is a stretch of a straight edge that is left standing.
type Tab struct {
	Edge     int      // from vertex Edge to the next one
	From, To shape.Um // along the edge, 0 ≤ From < To ≤ its length
}

// Mark is a line on the surface. It may be drawn from either end; a closed
// one from any vertex.
type Mark struct {
	Path   shape.Contour // an open one ends in its last vertex, whose Turn counts for nothing
	Closed Closed
}

// Closed says whether a path returns to where it began.
type Closed bool

// End says where the machine is to stand at the end.
type End uint8

// The ends.
const (
	Anywhere End = iota // the last cut's end; travel there isn't counted
	AtStart             // the way back is travel too
)

// Repeat says how passes are made.
type Repeat uint8

// The ways of making several passes.
const (
	EachContour Repeat = iota // all passes over a contour before the next one
	WholeSheet                // all contours once, then all again
)

// Validate names the first rule that s breaks.
func (s Sheet) Validate() error {
	if s.Passes < 0 {
		return fmt.Errorf("passes are %d, but must be at least 1", s.Passes)
	}
	if s.Share < 0 {
		return fmt.Errorf("the share is 1 in %d, but that must be at least 1", s.Share)
	}
	for i, l := range s.Loops {
		if len(l.Contour) == 0 {
			return fmt.Errorf("loop %d has no vertex", i)
		}
		if err := l.validateTabs(); err != nil {
			return fmt.Errorf("loop %d: %w", i, err)
		}
	}
	for i, m := range s.Marks {
		if len(m.Path) == 0 {
			return fmt.Errorf("mark %d has no vertex", i)
		}
	}
	return nil
}

func (l Loop) validateTabs() error {
	for k, t := range l.Tabs {
		if t.Edge < 0 || t.Edge >= len(l.Contour) {
			return fmt.Errorf("tab %d is on edge %d, which isn't there", k, t.Edge)
		}
		a, b := l.Contour[t.Edge], l.Contour[(t.Edge+1)%len(l.Contour)]
		if a.Arc != nil || a.X != b.X && a.Y != b.Y {
			return fmt.Errorf("tab %d is on edge %d, which is not a straight run along an axis", k, t.Edge)
		}
		if n := length(a.Point, b.Point); t.From < 0 || t.From >= t.To || t.To > n {
			return fmt.Errorf("tab %d runs from %d to %d µm on an edge of %d µm", k, t.From, t.To, n)
		}
	}
	return nil
}
