package nest

import (
	"sync"

	"sheetsprite/engine/shape"
)

// nofit remembers where one form must not lie beside another, as few
// rectangles instead of one for each pair of theirs: for shapes of many rows
// that is what takes the time. Places are whole µm, so the places inside an
// open rectangle are a set of unit squares, and a union of those has no
// seams: a place that fits to the µm stays free.
type nofit struct {
	shared *nofitStore
	pairs  map[[2]int32]*nofitPair // the laid form, the one to be laid
	kept   int                     // rectangles in all
}

type nofitPair struct {
	asked int
	rects []shape.Rect // open; the laid form at 0, 0; nil: not asked often enough
}

// nofitStore is what several searches at once have worked out. What a search
// counts as its work doesn't depend on whether another did it before.
type nofitStore struct {
	sync.Mutex
	rects map[[2]int32][]shape.Rect
}

const (
	worthKeeping = 48      // pairs of fewer rectangles are as quick without
	askedEnough  = 3       // before that it isn't worth it: many pairs are met once
	nofitWork    = 25      // steps for each pair of rectangles, measured
	mostKept     = 300_000 // about 10 MB
)

// between are the places of f's corner where it overlaps l lying at 0, 0; nil
// where they are not remembered.
func (n *nofit) between(l, f *form, work *int) []shape.Rect {
	count := len(l.rects) * len(f.rects)
	if n.shared == nil || count < worthKeeping {
		return nil
	}
	if n.pairs == nil {
		n.pairs = map[[2]int32]*nofitPair{}
	}
	k := [2]int32{l.id, f.id}
	p := n.pairs[k]
	if p == nil {
		p = &nofitPair{}
		n.pairs[k] = p
	}
	p.asked++
	if p.rects == nil && p.asked >= askedEnough && n.kept < mostKept {
		*work += nofitWork * count
		p.rects = n.shared.between(k, l, f)
		n.kept += len(p.rects)
	}
	return p.rects
}

func (s *nofitStore) between(k [2]int32, l, f *form) []shape.Rect {
	s.Lock()
	rects := s.rects[k]
	s.Unlock()
	if rects != nil {
		return rects
	}
	all := make([]shape.Rect, 0, len(l.rects)*len(f.rects))
	for _, t := range l.rects {
		for _, a := range f.rects {
			r := overlapping(t, a)
			r.Min = r.Min.Add(shape.Point{X: 1, Y: 1})
			all = append(all, r)
		}
	}
	rects = shape.FromRects(all).Rects()
	for i := range rects {
		rects[i].Min = rects[i].Min.Sub(shape.Point{X: 1, Y: 1})
	}
	s.Lock()
	s.rects[k] = rects
	s.Unlock()
	return rects
}

// overlapping are the places, an open rectangle, where a laid by its corner overlaps t.
func overlapping(t, a shape.Rect) shape.Rect {
	return shape.Rect{
		Min: shape.Point{X: t.Min.X - a.Max.X, Y: t.Min.Y - a.Max.Y},
		Max: shape.Point{X: t.Max.X - a.Min.X, Y: t.Max.Y - a.Min.Y},
	}
}
