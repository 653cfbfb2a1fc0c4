package shape

// Turn says how a contour runs from one vertex to the next.
type Turn int8

// The ways to the next vertex.
const (
	Straight      Turn = 0
	Anticlockwise Turn = 1  // along an arc about Centre
	Clockwise     Turn = -1 // along an arc about Centre
)

// Vertex is a corner of a contour and the way from it to the next one.
type Vertex struct {
	Point
	Turn   Turn
	Centre Point // of the arc that starts here; meaningless where Turn is Straight
	Radius Um    // of that arc
}

// Contour is a closed line of straight edges and arcs. It is what is cut and
// what the files hold. Arcs appear only where a shape is meant to be round:
// whole-µm centre and radius, end points rounded to the nearest µm, each at
// most a half turn. Orientation as for Ring.
type Contour []Vertex

// Outline is a part's boundary: one outer contour and the holes in it.
type Outline struct {
	Outer Contour
	Holes []Contour
}
