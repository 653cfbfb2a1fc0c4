package relief

import "math"

// Shade is the shadow that lies on what is seen from straight above.
type Shade struct {
	X0, Y1 int32   // µm: left and upper side of the map
	Texel  float64 // µm: side of a texel
	W, H   int32   // texels
	Dark   []uint8 // row by row from the top; 0 in full light, 255 in full shadow
}

// The light comes from the upper left, low enough that a card's thickness
// shows: a face one unit higher throws a shadow half as long again. It is a wide light:
// a shadow is sharp where it begins and fades with its length.
const (
	throw    = 1.5
	penumbra = 0.9 // width of a shadow's soft side, as a share of its length
)

// texels bounds a map's size, so that shading stays within some ten
// milliseconds in the worker.
const texels = 120_000

// rowsAtOnce are shaded before it is asked whether to go on: about a
// millisecond's work.
const rowsAtOnce = 8

// reach is how far shadows are drawn, in lengths of their sharp part: there about a
// fiftieth of their darkness is left.
const reach = 4

// NewShade computes the shadows of a scene, on the board as far as they reach,
// which is right and below.
// stop is asked now and then, nil for never; once it says true, the shade is
// worth nothing.
func NewShade(s Scene, stop func() bool) Shade {
	top := float32(s.Top())
	margin := math.Ceil(float64(top) * reach * throw / math.Sqrt2)
	width, height := float64(s.Size[0])+margin, float64(s.Size[1])+margin
	if len(s.Parts) == 0 || width <= 0 || height <= 0 {
		return Shade{}
	}
	texel := math.Max(math.Sqrt(width*height/texels), 100)
	m := Shade{Y1: s.Size[1], Texel: texel,
		W: int32(math.Ceil(width / texel)), H: int32(math.Ceil(height / texel))}
	m.Dark = make([]uint8, m.W*m.H)
	heights := m.heights(s)
	// One step of the ray toward the light goes up and left by a texel each.
	rise := float32(texel * math.Sqrt2 / throw)
	soft := rise * penumbra
	for y := range m.H {
		if y%rowsAtOnce == 0 && stop != nil && stop() {
			return m
		}
		for x := range m.W {
			z := heights[y*m.W+x]
			least := float32(1) // how near the ray passes over its surroundings
			ray, width := z, float32(0)
			for i := int32(1); i <= min(x, y); i++ {
				ray += rise
				width += soft
				if ray > top+width {
					break
				}
				over := ray - heights[(y-i)*m.W+x-i]
				if over < width*least {
					least = max(over/width, -1)
				}
			}
			if least < 1 {
				t := (1 - least) / 2
				m.Dark[y*m.W+x] = uint8(255 * t * t * (3 - 2*t))
			}
		}
	}
	return m
}

// heights is the highest face at each texel's middle, µm over the board.
func (m Shade) heights(s Scene) []float32 {
	h := make([]float32, m.W*m.H)
	column := func(x int32) int32 { return int32(math.Ceil((float64(x-m.X0))/m.Texel - 0.5)) }
	row := func(y int32) int32 { return int32(math.Ceil((float64(m.Y1-y))/m.Texel - 0.5)) }
	for _, p := range s.Parts { // what lies below stands before what lies on it
		z := float32(p.Z1)
		for _, q := range s.Quads[p.Quad0:p.Quad1] {
			for y := max(row(q.Y1), 0); y < min(row(q.Y0), m.H); y++ {
				t := 0.0
				if q.XL0 != q.XL1 || q.XR0 != q.XR1 {
					at := float64(m.Y1) - (float64(y)+0.5)*m.Texel
					t = (at - float64(q.Y0)) / float64(q.Y1-q.Y0)
				}
				l := q.XL0 + int32(t*float64(q.XL1-q.XL0))
				r := q.XR0 + int32(t*float64(q.XR1-q.XR0))
				for x := max(column(l), 0); x < min(column(r), m.W); x++ {
					h[y*m.W+x] = max(h[y*m.W+x], z)
				}
			}
		}
	}
	return h
}
