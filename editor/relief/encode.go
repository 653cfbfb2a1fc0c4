package relief

import (
	"encoding/binary"
	"errors"
	"math"
)

// errShort says that bytes are not an encoded scene.
var errShort = errors.New("the planned relief is cut short")

// encodingMark begins an encoded scene; it changes with the form.
const encodingMark int32 = 0x53525031

// Encode packs a scene and its shade for the way from the worker to the page:
// little-endian 32-bit numbers, texts after their length, the shade's bytes last.
func Encode(s Scene, m Shade) []byte {
	n := 14 + len(s.Parts)*partFields + len(s.Quads)*6 + len(s.Edges)*4 + len(s.Runs)*3
	b := make([]byte, 0, 4*n+16+len(m.Dark))
	put := func(vs ...int32) {
		for _, v := range vs {
			b = binary.LittleEndian.AppendUint32(b, uint32(v))
		}
	}
	put(encodingMark, s.Cell, s.Cols, s.Rows, s.Grid[0], s.Grid[1], s.Size[0], s.Size[1])
	put(int32(len(s.Stocks)))
	for _, id := range s.Stocks {
		put(int32(len(id)))
		b = append(b, id...)
	}
	put(int32(len(s.Parts)), int32(len(s.Quads)), int32(len(s.Edges)), int32(len(s.Runs)))
	for _, p := range s.Parts {
		put(p.Layer, p.Height, p.Stock, p.On, p.Z0, p.Z1, p.X0, p.Y0, p.X1, p.Y1, p.R, p.G, p.B,
			p.Quad0, p.Quad1, p.Edge0, p.Edge1, p.Run0, p.Run1)
	}
	for _, q := range s.Quads {
		put(q.Y0, q.Y1, q.XL0, q.XR0, q.XL1, q.XR1)
	}
	for _, e := range s.Edges {
		put(e.X0, e.Y0, e.X1, e.Y1)
	}
	for _, r := range s.Runs {
		put(r.Y, r.X0, r.X1)
	}
	put(m.X0, m.Y1, m.W, m.H)
	b = binary.LittleEndian.AppendUint64(b, math.Float64bits(m.Texel))
	return append(b, m.Dark...)
}

const partFields = 19

// Decode unpacks what Encode packed.
func Decode(b []byte) (Scene, Shade, error) {
	r := reader{b: b}
	if r.int() != encodingMark {
		return Scene{}, Shade{}, errors.New("these bytes are no planned relief")
	}
	s := Scene{Cell: r.int(), Cols: r.int(), Rows: r.int(), Grid: [2]int32{r.int(), r.int()}, Size: [2]int32{r.int(), r.int()}}
	for range r.count(1) {
		s.Stocks = append(s.Stocks, r.text())
	}
	parts, quads, edges, runs := r.count(partFields), r.count(6), r.count(4), r.count(3)
	if r.short || 4*(parts*partFields+quads*6+edges*4+runs*3) > len(r.b) {
		return Scene{}, Shade{}, errShort
	}
	s.Parts, s.Quads, s.Edges, s.Runs = make([]Part, parts), make([]Quad, quads), make([]Edge, edges), make([]Run, runs)
	for i := range s.Parts {
		s.Parts[i] = Part{r.int(), r.int(), r.int(), r.int(), r.int(), r.int(), r.int(), r.int(), r.int(), r.int(),
			r.int(), r.int(), r.int(), r.int(), r.int(), r.int(), r.int(), r.int(), r.int()}
		p := s.Parts[i]
		if !within(p.Quad0, p.Quad1, quads) || !within(p.Edge0, p.Edge1, edges) || !within(p.Run0, p.Run1, runs) ||
			p.On < -1 || p.On >= int32(i) || p.Stock < 0 || int(p.Stock) >= len(s.Stocks) {
			return Scene{}, Shade{}, errShort
		}
	}
	for i := range s.Quads {
		s.Quads[i] = Quad{r.int(), r.int(), r.int(), r.int(), r.int(), r.int()}
	}
	for i := range s.Edges {
		s.Edges[i] = Edge{r.int(), r.int(), r.int(), r.int()}
	}
	for i := range s.Runs {
		s.Runs[i] = Run{r.int(), r.int(), r.int()}
	}
	m := Shade{X0: r.int(), Y1: r.int(), W: r.int(), H: r.int()}
	if r.short || len(r.b) < 8 || m.W < 0 || m.H < 0 || int64(m.W)*int64(m.H) != int64(len(r.b)-8) {
		return Scene{}, Shade{}, errShort
	}
	m.Texel = math.Float64frombits(binary.LittleEndian.Uint64(r.b))
	m.Dark = append([]uint8{}, r.b[8:]...)
	return s, m, nil
}

// within says whether a to b is a stretch of a list of n.
func within(a, b int32, n int) bool { return 0 <= a && a <= b && int(b) <= n }

// reader takes numbers off the front; short once there were too few bytes.
type reader struct {
	b     []byte
	short bool
}

func (r *reader) int() int32 {
	if len(r.b) < 4 {
		r.short = true
		return 0
	}
	v := int32(binary.LittleEndian.Uint32(r.b))
	r.b = r.b[4:]
	return v
}

// text is a length and so many bytes.
func (r *reader) text() string {
	n := int(r.int())
	if n < 0 || n > len(r.b) {
		r.short = true
		return ""
	}
	t := string(r.b[:n])
	r.b = r.b[n:]
	return t
}

// count is a length of a list whose elements have that many numbers; a length
// that the bytes can't hold marks the reader as short.
func (r *reader) count(fields int) int {
	n := int(r.int())
	if n < 0 || n > len(r.b)/(4*fields) {
		r.short = true
		return 0
	}
	return n
}
