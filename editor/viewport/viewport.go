// Package viewport says where on the page a drawing's grid lies: fitting,
// zooming about a point, pinching with two fingers, moving. Pure arithmetic in
// CSS pixels; nothing here reaches a file.
package viewport

import "math"

// Limits of a cell's side on the glass, in CSS pixels.
const (
	MinCell = 1.0
	MaxCell = 128.0
)

// Margin is what fitting leaves free around the drawing, in CSS pixels.
const Margin = 12.0

// keep is how much of the drawing stays within the area whatever is done, in
// CSS pixels, so that it can be found again.
const keep = 48.0

// Area is a rectangle of the page in CSS pixels.
type Area struct{ X, Y, W, H float64 }

// Point is a place on the page in CSS pixels.
type Point struct{ X, Y float64 }

// View is where a grid lies. The zero View shows nothing: give it an area and
// a grid first. Invariant, once it has both: Cell is within its limits and some
// of the drawing is in the area.
type View struct {
	Area   Area    // where the drawing may be seen
	W, H   int     // the grid, in cells
	X, Y   float64 // the top left cell's upper left corner
	Cell   float64 // side of a cell
	Fitted bool    // nobody has zoomed or moved it since it was fitted: it is fitted again when area or grid change
}

// Fit shows the whole drawing, as large as the area allows, in its middle. A
// cell is a whole number of pixels where it is 4 or more, so that lines are crisp.
func (v *View) Fit() {
	v.Cell = v.fitCell()
	v.X = math.Round(v.Area.X + (v.Area.W-v.Cell*float64(v.W))/2)
	v.Y = math.Round(v.Area.Y + (v.Area.H-v.Cell*float64(v.H))/2)
	v.Fitted = true
}

func (v *View) fitCell() float64 {
	w, h := max(v.Area.W-2*Margin, 1), max(v.Area.H-2*Margin, 1)
	c := min(w/float64(max(v.W, 1)), h/float64(max(v.H, 1)))
	if c >= 4 {
		c = math.Floor(c)
	}
	return limit(c, MinCell/4, MaxCell)
}

// SetArea gives the drawing another place on the page (the window was turned
// or resized). A fitted drawing is fitted again; else what was in the middle stays there.
func (v *View) SetArea(a Area) {
	dx, dy := a.X+a.W/2-v.Area.X-v.Area.W/2, a.Y+a.H/2-v.Area.Y-v.Area.H/2
	v.Area = a
	if v.Fitted || v.Cell == 0 {
		v.Fit()
		return
	}
	v.X, v.Y = v.X+dx, v.Y+dy
	v.clamp()
}

// SetGrid says that the drawing is now w × h cells; its upper left corner
// stays, unless it is fitted.
func (v *View) SetGrid(w, h int) {
	if v.W == w && v.H == h {
		return
	}
	v.W, v.H = w, h
	if v.Fitted || v.Cell == 0 {
		v.Fit()
		return
	}
	v.clamp()
}

// Zoom makes cells factor times as large; what lies under p stays there.
func (v *View) Zoom(p Point, factor float64) {
	v.Pinch(p, p, factor)
}

// Pan moves the drawing.
func (v *View) Pan(dx, dy float64) {
	v.Pinch(Point{}, Point{dx, dy}, 1)
}

// Pinch moves what lies under from to under to and makes cells factor times as
// large; from and to are the middle between two fingers before and after.
func (v *View) Pinch(from, to Point, factor float64) {
	for _, n := range [...]float64{from.X, from.Y, to.X, to.Y, factor} {
		if math.IsNaN(n) || math.IsInf(n, 0) {
			return
		}
	}
	// A drawing too large to fit at the least zoom may still be seen whole.
	cell := limit(v.Cell*factor, min(MinCell, v.fitCell()), MaxCell)
	factor = cell / v.Cell
	if v.Cell == 0 {
		return
	}
	v.X = to.X - (from.X-v.X)*factor
	v.Y = to.Y - (from.Y-v.Y)*factor
	v.Cell = cell
	v.Fitted = false
	v.clamp()
}

// clamp brings enough of the drawing back into the area.
func (v *View) clamp() {
	v.X = within(v.X, v.Cell*float64(v.W), v.Area.X, v.Area.W)
	v.Y = within(v.Y, v.Cell*float64(v.H), v.Area.Y, v.Area.H)
}

// within moves a line of length n at x so that at least keep of it (or half of
// what can be seen, where that is less) lies in the area's a to a+w.
func within(x, n, a, w float64) float64 {
	k := min(keep, n/2, w/2)
	return limit(x, a+k-n, a+w-k)
}

func limit(v, least, most float64) float64 { return max(least, min(most, v)) }

// ToCells is the place p in cell coordinates: the cell in column c covers c ≤ x < c+1.
func (v *View) ToCells(p Point) (x, y float64) {
	if v.Cell == 0 {
		return 0, 0
	}
	return (p.X - v.X) / v.Cell, (p.Y - v.Y) / v.Cell
}

// ToPage is the place on the page of a point in cell coordinates.
func (v *View) ToPage(x, y float64) Point {
	return Point{v.X + x*v.Cell, v.Y + y*v.Cell}
}

// Middle is the middle of the area.
func (v *View) Middle() Point { return Point{v.Area.X + v.Area.W/2, v.Area.Y + v.Area.H/2} }

// Show moves the drawing just as far as needed for the cell in column cx, row
// cy to lie in the area whole (the cell the keyboard is at).
func (v *View) Show(cx, cy int) {
	p := v.ToPage(float64(cx), float64(cy))
	dx := limit(0, v.Area.X-p.X, v.Area.X+v.Area.W-p.X-v.Cell)
	dy := limit(0, v.Area.Y-p.Y, v.Area.Y+v.Area.H-p.Y-v.Cell)
	if dx != 0 || dy != 0 {
		v.Pan(dx, dy)
	}
}
