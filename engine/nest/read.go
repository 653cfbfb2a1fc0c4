package nest

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// nesting turns an answer into what the outside reads.
func (p *problem) nesting(a answer) Nesting {
	n := Nesting{Unplaced: slices.Clone(p.large), Released: slices.Clone(p.freed)}
	for _, h := range p.held {
		n.Placements = append(n.Placements, h.placement)
	}
	for i, s := range a.spots {
		c := p.copies[i]
		if s.sheet < 0 {
			n.Unplaced = append(n.Unplaced, Unplaced{c.piece, c.copy, OutOfRoom})
			continue
		}
		n.Placements = append(n.Placements, Placement{
			Piece: c.piece, Copy: c.copy, Sheet: int(s.sheet), At: s.at.Add(p.corner()),
			Turn: p.kindOf(i).forms[s.form].turn,
		})
	}
	sortPlacements(n.Placements)
	sortUnplaced(n.Unplaced)
	for _, u := range a.apart {
		n.Apart = append(n.Apart, Apart{p.units[u].name, p.units[u].copy})
	}
	n.Apart = append(n.Apart, p.heldApart()...)
	slices.SortFunc(n.Apart, func(a, b Apart) int {
		return cmp.Or(cmp.Compare(a.Together, b.Together), cmp.Compare(a.Copy, b.Copy))
	})
	n.Apart = slices.Compact(n.Apart)
	n.Sheets = p.sheetsOf(n.Placements)
	return n
}

// heldApart are the copies of those kept together that are held on different sheets.
func (p *problem) heldApart() []Apart {
	var apart []Apart
	home := map[Apart]int{}
	for _, h := range p.held {
		g := Apart{p.job.Pieces[h.placement.Piece].Together, h.placement.Copy}
		if g.Together == "" {
			continue
		}
		if sheet, ok := home[g]; ok && sheet != h.placement.Sheet {
			apart = append(apart, g)
		} else {
			home[g] = h.placement.Sheet
		}
	}
	return apart
}

// sheetsOf lists the sheets that the placements lie on.
func (p *problem) sheetsOf(placements []Placement) []Sheet {
	var byNumber [maxSheets]*Sheet
	for _, pl := range placements {
		w, h := p.job.Pieces[pl.Piece].Outline.Bounds().Size()
		if pl.Turn&1 == 1 {
			w, h = h, w
		}
		s := byNumber[pl.Sheet]
		if s == nil {
			spec, _ := p.sheet(pl.Sheet)
			s = &Sheet{Number: pl.Sheet, Size: spec.size, Origin: spec.origin, Index: spec.index}
			byNumber[pl.Sheet] = s
		}
		s.Parts++
		s.Used = s.Used.Union(shape.Rect{Min: pl.At, Max: pl.At.Add(shape.Point{X: w, Y: h})})
	}
	var out []Sheet
	for _, s := range byNumber {
		if s != nil {
			out = append(out, *s)
		}
	}
	return out
}

func sortPlacements(ps []Placement) {
	slices.SortFunc(ps, func(a, b Placement) int {
		return cmp.Or(cmp.Compare(a.Piece, b.Piece), cmp.Compare(a.Copy, b.Copy))
	})
}

func sortUnplaced(us []Unplaced) {
	slices.SortFunc(us, func(a, b Unplaced) int {
		return cmp.Or(cmp.Compare(a.Piece, b.Piece), cmp.Compare(a.Copy, b.Copy))
	})
}
