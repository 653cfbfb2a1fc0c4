package plan

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"math"
)

// The first byte of a summary; another one means that page and worker are of
// different builds.
const wireVersion = 1

// Encode is s in binary: whole numbers as varints, lists with their length
// before them, coordinates as the difference from the one two places before,
// so that an edge parallel to an axis takes few bytes.
func (s *Summary) Encode() []byte {
	w := writer{wireVersion}
	w.uint(s.Revision)
	w.int(s.Sprite)
	w.bool(s.Final)
	w.string(s.Problem)
	for _, n := range []int{s.Parts, s.Patches, s.Heights, s.Tweezers, s.Seconds} {
		w.int(n)
	}
	w.int(len(s.Colours))
	for _, c := range s.Colours {
		w.int(int(c.Key))
		w.string(c.Stock)
		w.int(len(c.Heights))
		for _, h := range c.Heights {
			w.int(h)
		}
		w.int(c.Parts)
	}
	w.int(len(s.Findings))
	for _, f := range s.Findings {
		w.finding(f)
	}
	g := &s.Geometry
	for _, n := range g.scalars() {
		w.int(int(*n))
	}
	for _, l := range g.lists() {
		w.list(*l.numbers, l.stride)
	}
	return w
}

// DecodeSummary reads what Encode wrote; anything else is an error, never a panic.
func DecodeSummary(data []byte) (*Summary, error) {
	r := reader{rest: data}
	if r.byte() != wireVersion {
		return nil, errors.New("the worker is of another build than the page: reload the page")
	}
	s := &Summary{Revision: r.uint(), Sprite: r.int(), Final: r.byte() != 0, Problem: r.string()}
	for _, n := range []*int{&s.Parts, &s.Patches, &s.Heights, &s.Tweezers, &s.Seconds} {
		*n = r.int()
	}
	for range r.len() {
		c := Colour{Key: byte(r.int()), Stock: r.string()}
		for range r.len() {
			c.Heights = append(c.Heights, r.int())
		}
		c.Parts = r.int()
		s.Colours = append(s.Colours, c)
	}
	for range r.len() {
		s.Findings = append(s.Findings, r.finding())
	}
	g := &s.Geometry
	for _, n := range g.scalars() {
		*n = int32(r.int())
	}
	for _, l := range g.lists() {
		*l.numbers = r.list(l.stride)
	}
	if r.bad || len(r.rest) > 0 || !g.sound() {
		return nil, errors.New("the worker's answer can't be read: reload the page")
	}
	return s, nil
}

func (g *Geometry) scalars() []*int32 {
	return []*int32{&g.Cell, &g.Cols, &g.Rows, &g.GridX, &g.GridY, &g.SizeX, &g.SizeY}
}

type list struct {
	numbers *[]int32
	stride  int // each number is written as the difference from the one this many before
}

func (g *Geometry) lists() []list {
	return []list{
		{&g.Heights, 1}, {&g.On, 1}, {&g.Colours, 1}, {&g.Layers, 1}, {&g.Bounds, 4},
		{&g.Rings, 1}, {&g.Starts, 1}, {&g.Points, 2},
	}
}

// sound says whether all indexes stay within the lists, so that whoever draws
// the geometry need not look.
func (g *Geometry) sound() bool {
	n := g.Len()
	if len(g.On) != n || len(g.Colours) != n || len(g.Layers) != n || len(g.Bounds) != 4*n || len(g.Points)%2 != 0 {
		return false
	}
	if n == 0 {
		return len(g.Rings) == 0 && len(g.Starts) == 0 && len(g.Points) == 0
	}
	for _, p := range g.On {
		if p < -1 || int(p) >= n {
			return false
		}
	}
	return steps(g.Rings, n+1, len(g.Starts)-1) && steps(g.Starts, len(g.Starts), len(g.Points)/2)
}

// steps says whether l has n numbers that rise from 0 to end.
func steps(l []int32, n, end int) bool {
	if len(l) != n || n == 0 || l[0] != 0 || int(l[n-1]) != end {
		return false
	}
	for i := 1; i < n; i++ {
		if l[i] <= l[i-1] {
			return false
		}
	}
	return true
}

type writer []byte

func (w *writer) uint(n uint64) { *w = binary.AppendUvarint(*w, n) }
func (w *writer) int(n int)     { *w = binary.AppendVarint(*w, int64(n)) }
func (w *writer) float(f float64) {
	*w = binary.LittleEndian.AppendUint64(*w, math.Float64bits(f))
}
func (w *writer) bool(b bool) {
	if b {
		*w = append(*w, 1)
	} else {
		*w = append(*w, 0)
	}
}

func (w *writer) string(s string) {
	w.int(len(s))
	*w = append(*w, s...)
}

func (w *writer) list(l []int32, stride int) {
	w.int(len(l))
	for i, n := range l {
		if i >= stride {
			n -= l[i-stride]
		}
		w.int(int(n))
	}
}

func (w *writer) finding(f Finding) {
	w.string(f.Code)
	w.string(f.Text)
	w.int(len(f.Places))
	for _, p := range f.Places {
		w.float(p.X)
		w.float(p.Y)
		w.int(p.Part)
	}
	w.bool(f.Remedy != nil)
	if f.Remedy != nil {
		w.string(f.Remedy.Title)
		w.string(f.Remedy.Command)
		w.string(string(f.Remedy.Args))
	}
}

// reader reads what writer wrote. Once something is wrong it is bad and reads
// zeros.
type reader struct {
	rest []byte
	bad  bool
}

func (r *reader) fail() { r.rest, r.bad = nil, true }

func (r *reader) take(n int) []byte {
	if n < 0 || n > len(r.rest) {
		r.fail()
		return make([]byte, 8)
	}
	b := r.rest[:n]
	r.rest = r.rest[n:]
	return b
}

func (r *reader) byte() byte { return r.take(1)[0] }

func (r *reader) uint() uint64 {
	n, l := binary.Uvarint(r.rest)
	if l <= 0 {
		r.fail()
		return 0
	}
	r.rest = r.rest[l:]
	return n
}

func (r *reader) int() int {
	n, l := binary.Varint(r.rest)
	if l <= 0 {
		r.fail()
		return 0
	}
	r.rest = r.rest[l:]
	return int(n)
}

func (r *reader) float() float64 {
	return math.Float64frombits(binary.LittleEndian.Uint64(r.take(8)))
}

// len is a list's length: never more than there are bytes left.
func (r *reader) len() int {
	n := r.int()
	if n < 0 || n > len(r.rest) {
		r.fail()
		return 0
	}
	return n
}

func (r *reader) string() string {
	n := r.len()
	return string(r.take(n)[:n])
}

func (r *reader) list(stride int) []int32 {
	n := r.len()
	if n == 0 {
		return nil
	}
	l := make([]int32, n)
	for i := range l {
		l[i] = int32(r.int())
		if i >= stride {
			l[i] += l[i-stride]
		}
	}
	return l
}

func (r *reader) finding() Finding {
	f := Finding{Code: r.string(), Text: r.string()}
	for range r.len() {
		f.Places = append(f.Places, Place{X: r.float(), Y: r.float(), Part: r.int()})
	}
	if r.byte() != 0 {
		f.Remedy = &Remedy{Title: r.string(), Command: r.string()}
		if args := r.string(); args != "" {
			f.Remedy.Args = json.RawMessage(args)
		}
	}
	return f
}
