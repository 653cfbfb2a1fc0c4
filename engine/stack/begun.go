package stack

import "slices"

// Begun keeps the first step of the last drawing that First was asked for, so
// that Fewest of the same drawing and rules goes on from there: it gives the
// same forest as without, sooner. The zero value is ready. Once First has ended
// several may use it at once.
type Begun struct {
	d       Drawing
	rules   Rules
	limit   int
	pieces  []*options // of each connected piece
	bounded bool
}

// keep notes the first step of a drawing.
func (b *Begun) keep(d Drawing, r Rules, limit int, pieces []*options, bounded bool) {
	if b == nil {
		return
	}
	d.Cells = slices.Clone(d.Cells)
	b.d, b.rules, b.limit, b.pieces, b.bounded = d, r, limit, pieces, bounded
}

// first is the first step where it is the one that was kept.
func (b *Begun) first(d Drawing, r Rules, limit int) (pieces []*options, bounded, ok bool) {
	if b == nil {
		return nil, false, false
	}
	k := &b.rules
	same := b.pieces != nil && limit == b.limit && d.W == b.d.W && d.H == b.d.H && slices.Equal(d.Cells, b.d.Cells) &&
		r.Joins == k.Joins && r.SmallCells == k.SmallCells && r.Below == k.Below
	return b.pieces, b.bounded, same
}
