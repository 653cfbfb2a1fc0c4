package cut

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"sheetsprite/engine/shape"
)

// A round edge that runs tangentially into a straight one going the other way
// leaves a notch of no angle: no kerf can cut it, however narrow.
func TestANotchOfNoAngleIsTold(t *testing.T) {
	at := func(x, y shape.Um) shape.Vertex { return shape.Vertex{Point: shape.Point{X: x, Y: y}} }
	arc := at(15000, 5000) // a quarter about 10000, 5000, up to where it heads back
	arc.Arc = &shape.Arc{Turn: shape.Anticlockwise, Centre: shape.Point{X: 10000, Y: 5000}, Radius: 5000}
	o := shape.Outline{Outer: shape.Contour{at(0, 0), at(15000, 0), arc, at(10000, 10000), at(20000, 10000), at(20000, 20000), at(0, 20000)}}
	for _, kerf := range []shape.Um{20, 100, 300} {
		_, faults := Kerfed(o, kerf)
		assert.Equal(t, []Fault{{shape.Point{X: 10000, Y: 10000}}}, faults, "%d", kerf)
	}
	_, faults := Kerfed(o, 0)
	assert.Empty(t, faults)
	// With room between them all is well.
	o.Outer[3], o.Outer[4] = at(10000, 10000), at(10000, 11000)
	o.Outer = append(o.Outer[:5:5], at(20000, 11000), at(20000, 20000), at(0, 20000))
	_, faults = Kerfed(o, 100)
	assert.Empty(t, faults)
}
