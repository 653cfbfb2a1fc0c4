package shape

// Ring is a closed line through its points; the last one joins the first.
//
// Invariant: at least four points, no point twice in a row, no three in one
// line, edges parallel to an axis unless a doc comment says otherwise; it
// touches neither itself nor another ring of its shape. An outer ring runs
// anticlockwise (positive area), a hole clockwise (negative area).
type Ring []Point

// Polygon is a piece of stock with straight edges: one outer ring and the
// holes in it.
type Polygon struct {
	Outer Ring
	Holes []Ring
}
