//go:build js

package canvas

import (
	"image"
	"image/color"

	"github.com/hajimehoshi/ebiten/v2"
)

// blank is a white image to take plain colours from: its middle, so that no
// neighbour bleeds in.
var blank = func() *ebiten.Image {
	img := ebiten.NewImage(3, 3)
	img.Fill(color.White)
	return img.SubImage(image.Rect(1, 1, 2, 2)).(*ebiten.Image)
}()

// Paint is a colour, its channels 0 to 1 and not multiplied by A.
type Paint struct{ r, g, b, a float32 }

// RGB is an opaque colour.
func RGB(r, g, b uint8) Paint { return Paint{float32(r) / 255, float32(g) / 255, float32(b) / 255, 1} }

func (p Paint) faded(a float32) Paint { p.a *= a; return p }

func (p Paint) color() color.Color {
	return color.NRGBA{uint8(p.r*255 + 0.5), uint8(p.g*255 + 0.5), uint8(p.b*255 + 0.5), uint8(p.a*255 + 0.5)}
}

// mesh gathers plain quads and draws them in few calls. It is kept between
// frames, so that drawing allocates nothing once it has grown.
type mesh struct {
	vertices []ebiten.Vertex
	indices  []uint16
}

// full is where a mesh is drawn, before its indices overflow.
const full = 65000

func (m *mesh) flush(to, from *ebiten.Image, o *ebiten.DrawTrianglesOptions) {
	if len(m.indices) > 0 {
		to.DrawTriangles(m.vertices, m.indices, from, o)
	}
	m.vertices, m.indices = m.vertices[:0], m.indices[:0]
}

// quad adds four corners in order around.
func (m *mesh) quad(x, y, u, v *[4]float32, p Paint) {
	first := uint16(len(m.vertices))
	for i := range 4 {
		m.vertices = append(m.vertices, ebiten.Vertex{
			DstX: x[i], DstY: y[i], SrcX: u[i], SrcY: v[i],
			ColorR: p.r * p.a, ColorG: p.g * p.a, ColorB: p.b * p.a, ColorA: p.a,
		})
	}
	m.indices = append(m.indices, first, first+1, first+2, first, first+2, first+3)
}

var plain = [4]float32{1.5, 1.5, 1.5, 1.5}

// rect adds a plain rectangle.
func (m *mesh) rect(x0, y0, x1, y1 float32, p Paint) {
	m.quad(&[4]float32{x0, x1, x1, x0}, &[4]float32{y0, y0, y1, y1}, &plain, &plain, p)
}

// frame adds the outline of a rectangle, its line w wide and inside.
func (m *mesh) frame(x0, y0, x1, y1, w float32, p Paint) {
	m.rect(x0, y0, x1, y0+w, p)
	m.rect(x0, y1-w, x1, y1, p)
	m.rect(x0, y0+w, x0+w, y1-w, p)
	m.rect(x1-w, y0+w, x1, y1-w, p)
}
