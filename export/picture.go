package export

import (
	"bytes"
	"image"
	"image/png"
	"slices"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Size of the picture in pixels. Each cell is a whole number of them.
const (
	pictureSide = 1000 // most that the sprite takes along its longer side
	pictureCell = 32   // most a cell
	pictureEdge = 48   // most bench around the sprite
)

// bench is the ground that the sprite lies on, as on the page.
var bench = project.RGB{R: 0xea, G: 0xe3, B: 0xd6}

// encodePicture draws the sprite as it will lie on the bench, seen from above,
// as a PNG: real outlines, real thicknesses, light from the upper left. Whole
// numbers only, so that every machine draws the same.
func encodePicture(l *outline.Layout, how project.Stack, stocks []project.Stock) ([]byte, error) {
	c := newCanvas(l)
	under := l.Undersides(how, stocks)
	id := uint16(0)
	for _, layer := range l.Layers {
		id++
		stock := stocks[layer.Stock]
		for _, p := range layer.Parts {
			c.lay(p, stock.Colour, int32(under[p.Index]+stock.Thickness), id)
		}
	}
	c.light()
	var b bytes.Buffer
	e := png.Encoder{CompressionLevel: png.BestSpeed}
	err := e.Encode(&b, c.img)
	return b.Bytes(), err
}

// canvas is the sprite in pixels; (0,0) is the upper left one.
type canvas struct {
	img     *image.RGBA
	w, h    int
	cell    shape.Um
	perCell int         // pixels a cell
	grid    shape.Point // lower left corner of the grid in the layout
	left    int         // the grid's left edge, in pixels from the left
	foot    int         // the grid's lower edge, in pixels from the top
	height  []int32     // µm above the bench of what is seen
	layer   []uint16    // of what is seen, from 1; 0 for the bench
	ink     []int32     // reused: how the cover of a part changes from pixel to pixel
}

func newCanvas(l *outline.Layout) *canvas {
	c := &canvas{cell: l.Cell, grid: l.Grid}
	longer := max(l.Size.X, l.Size.Y)
	c.perCell = int(max(1, min(pictureCell, pictureSide*l.Cell/longer)))
	px := func(v shape.Um) int { return int((v*shape.Um(c.perCell) + l.Cell - 1) / l.Cell) }
	edge := min(pictureEdge, max(8, px(longer)/12))
	c.left = edge + px(l.Grid.X)
	c.foot = edge + px(l.Size.Y-l.Grid.Y)
	c.w = c.left + px(l.Size.X-l.Grid.X) + edge
	c.h = c.foot + px(l.Grid.Y) + edge
	c.img = image.NewRGBA(image.Rect(0, 0, c.w, c.h))
	c.height = make([]int32, c.w*c.h)
	c.layer = make([]uint16, c.w*c.h)
	for i := 0; i < len(c.img.Pix); i += 4 {
		c.img.Pix[i], c.img.Pix[i+1], c.img.Pix[i+2], c.img.Pix[i+3] = bench.R, bench.G, bench.B, 255
	}
	return c
}

// dot is a place on the canvas in 1/256 of a pixel, y down.
type dot struct{ x, y int }

func (c *canvas) dot(p shape.Point) dot {
	q := p.Sub(c.grid)
	scale := shape.Um(c.perCell) * 256
	return dot{c.left*256 + floorDiv(q.X*scale, c.cell), c.foot*256 - floorDiv(q.Y*scale, c.cell)}
}

func floorDiv(a, b shape.Um) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return int(q)
}

// bandRows is how many rows of pixels of a part are filled at a time.
const bandRows = 64

// lay puts a part on top of what lies there.
func (c *canvas) lay(p outline.Part, colour project.RGB, top int32, layer uint16) {
	lo, hi := c.dot(p.Bounds.Min), c.dot(p.Bounds.Max)
	x0, x1 := max(0, lo.x>>8), min(c.w, hi.x>>8+1)
	y0, y1 := max(0, hi.y>>8), min(c.h, lo.y>>8+1)
	if x0 >= x1 {
		return
	}
	stride := x1 - x0 + 2
	c.ink = slices.Grow(c.ink[:0], stride*bandRows)
	for y := y0; y < y1; y += bandRows {
		to := min(y1, y+bandRows)
		r := raster{c.ink[:stride*(to-y)], stride, x0, y, x1, to}
		clear(r.ink)
		r.contour(c, p.Outline.Outer)
		for _, h := range p.Outline.Holes {
			r.contour(c, h)
		}
		c.fill(r, colour, top, layer)
	}
}

// fill colours what a part covers of a band.
func (c *canvas) fill(r raster, colour project.RGB, top int32, layer uint16) {
	for y := r.y0; y < r.y1; y++ {
		row := r.ink[(y-r.y0)*r.stride:]
		sum := int32(0)
		for x := r.x0; x < r.x1; x++ {
			sum += row[x-r.x0]
			a := min(256, (max(sum, -sum)+128)>>8) // 0 to 256
			if a == 0 {
				continue
			}
			i := y*c.w + x
			pix := c.img.Pix[4*i : 4*i+3]
			if a == 256 {
				pix[0], pix[1], pix[2] = colour.R, colour.G, colour.B
			} else {
				pix[0], pix[1], pix[2] = mix(pix[0], colour.R, a), mix(pix[1], colour.G, a), mix(pix[2], colour.B, a)
			}
			if a >= 128 {
				c.height[i], c.layer[i] = top, layer
			}
		}
	}
}

// mix is a of 256 parts b, the rest from a.
func mix(from, to uint8, a int32) uint8 {
	return uint8((int32(from)*(256-a) + int32(to)*a + 128) >> 8)
}

// raster gathers, for each pixel of a rectangle, by how much the cover grows
// from the pixel to its left: edges add in 1/65536 of a pixel, so that a sum
// along the row is the covered area, exact for upright edges.
type raster struct {
	ink            []int32
	stride         int
	x0, y0, x1, y1 int
}

func (r *raster) contour(c *canvas, k shape.Contour) {
	for i, v := range k {
		next := k[(i+1)%len(k)].Point
		if v.Arc == nil {
			r.edge(c.dot(v.Point), c.dot(next))
			continue
		}
		from := v.Point
		for _, p := range chords(v, next) {
			r.edge(c.dot(from), c.dot(p))
			from = p
		}
	}
}

// edge adds an edge, a quarter of a pixel row at a time where it is slanted.
func (r *raster) edge(a, b dot) {
	sign := int32(1)
	if a.y > b.y {
		a, b, sign = b, a, -1
	}
	end := min(b.y, r.y1<<8)
	for y := max(a.y, r.y0<<8); y < end; {
		step := 256
		if a.x != b.x {
			step = 64
		}
		to := min(end, (y/step+1)*step)
		x := a.x
		if a.x != b.x {
			x += (b.x - a.x) * ((y+to)/2 - a.y) / (b.y - a.y)
		}
		r.add(x, y, int32(to-y)*sign)
		y = to
	}
}

// add adds the rise of cover at x for part of the row that holds y.
func (r *raster) add(x, y int, amount int32) {
	col := min(max(x>>8, r.x0), r.x1)
	part := int32(x - col<<8)
	i := (y>>8-r.y0)*r.stride + col - r.x0
	r.ink[i] += amount * (256 - part)
	r.ink[i+1] += amount * part
}
