package nest

import "sheetsprite/engine/shape"

// hold sorts the fixed placements into those that hold and those that don't:
// each must fit its sheet and keep the gap from those before it.
func (p *problem) hold(kindOf []int) {
	boards := map[int]*board{}
	for _, f := range p.job.Fixed {
		spec, ok := p.sheet(f.Sheet)
		if !ok {
			p.freed = append(p.freed, Released{f, NoSuchSheet})
			continue
		}
		b := boards[f.Sheet]
		if b == nil {
			b = &board{sheetSpec: spec}
			boards[f.Sheet] = b
		}
		k := kindOf[f.Piece]
		s, why := p.check(b, k, f)
		if why != Fits {
			p.freed = append(p.freed, Released{f, why})
			continue
		}
		b.put(&p.kinds[k].forms[s.form], s.at)
		p.held = append(p.held, heldCopy{f, k, s})
	}
}

// check says whether a piece of the kind fits where f wants it.
func (p *problem) check(b *board, kind int, f Placement) (spot, Clash) {
	form := p.kinds[kind].byTurn[f.Turn&3]
	if form < 0 {
		return spot{}, TurnedWrong
	}
	at := f.At.Sub(p.corner())
	fm := &p.kinds[kind].forms[form]
	if at.X < 0 || at.Y < 0 || at.X+fm.w > b.w || at.Y+fm.h > b.h {
		return spot{}, OutsideSheet
	}
	if b.overlaps(fm, at) {
		return spot{}, TooClose
	}
	return spot{int32(f.Sheet), form, at}, Fits
}

// corner is where a sheet's inner coordinates start.
func (p *problem) corner() shape.Point {
	return shape.Point{X: p.job.Supply.Margins.Left, Y: p.job.Supply.Margins.Bottom}
}
