package readback

// stretch looks at what lies between a and b in the band.
func (w *sweep) stretch(a, b int64) error {
	if a >= b {
		return nil
	}
	if w.fresh {
		if err := w.support(a); err != nil {
			return err
		}
	}
	seen := empty
	if w.top > 0 {
		seen = w.parts[w.open[w.top]].stock
	}
	onlyBacker := w.top == 0 || w.top == 1 && w.backed != unbacked
	g0, g1 := w.x, w.x+int64(w.cols)*w.cell
	if (w.row < 0 || a < g0 || b > g1) && !onlyBacker {
		return w.faultNear(w.parts[w.open[w.top]].layer, a, w.ya, "card stands out of the drawing's grid")
	}
	a, b = max(a, g0), min(b, g1)
	if w.row < 0 || a >= b {
		return nil
	}
	for col := int((a - g0) / w.cell); col < w.cols; col++ {
		x0 := g0 + int64(col)*w.cell
		if x0 >= b {
			break
		}
		i := w.row*w.cols + col
		if centre := x0 + w.cell/2; w.isCentred && a <= centre && centre < b {
			for h := 1; h <= w.top; h++ {
				w.owner[h][i] = int32(w.open[h])
			}
		}
		want := w.want[i]
		for _, h := range w.loose {
			q, corner, reach := w.nearCorner(col, max(a, x0), min(b, x0+w.cell))
			at := (h*w.cols+col)*4 + q
			l := &w.line[at]
			if l.reach > 0 && l.part != w.open[h] {
				w.beside = append(w.beside, besides{at, *l})
				l.reach = 0
			}
			*l = hang{w.open[h], corner, max(l.reach, reach)}
		}
		if want == seen || want == empty && onlyBacker {
			continue
		}
		xa, xb := max(a, x0), min(b, x0+w.cell)
		_, corner, reach := w.nearCorner(col, xa, xb)
		s := &w.differ[corner]
		if s.area == 0 {
			s.cell, s.seen = i, seen
		}
		s.area += (xb - xa) * (w.yb - w.ya)
		s.reach = max(s.reach, reach)
		w.area += (xb - xa) * (w.yb - w.ya)
	}
	return nil
}

// nearCorner is the corner of the grid nearest to the band from a to b in a
// column, in which quarter of the cell it lies, and how far from it the farther
// end is.
func (w *sweep) nearCorner(col int, a, b int64) (q, corner int, reach int64) {
	x0 := w.x + int64(col)*w.cell
	y0 := w.y + int64(w.rows-1-w.row)*w.cell
	c, r := col, w.row+1
	dx, dy := b-x0, w.yb-y0
	if right := x0 + w.cell - a; right < dx {
		q, c, dx = q|1, col+1, right
	}
	if up := y0 + w.cell - w.ya; up < dy {
		q, r, dy = q|2, w.row, up
	}
	return q, r*w.corners() + c, max(dx, dy)
}

// endRow keeps of a row of cells those places where a part has nothing right
// below it although it isn't one of its cells, on one of the part's below: there
// only the edge below is drawn back, and that is for the outlines to show.
func (w *sweep) endRow() {
	if w.row < 0 {
		return
	}
	keep := func(at int, l hang) {
		h, cell := at/4/w.cols, w.row*w.cols+at/4%w.cols
		if w.owner[h][cell] != int32(l.part) || w.owner[h-1][cell] == none {
			w.hang = append(w.hang, l)
		}
	}
	for _, l := range w.beside {
		keep(l.at, l.hang)
	}
	w.beside = w.beside[:0]
	for i, l := range w.line {
		if l.reach > 0 {
			w.line[i] = hang{}
			keep(i, l)
		}
	}
}

// support sees what each part rests on: one part, and everywhere the same.
func (w *sweep) support(x int64) error {
	w.fresh = false
	w.loose = w.loose[:0]
	for h := 2; h <= w.top; h++ {
		p := w.open[h]
		if p == none {
			continue
		}
		below := w.open[h-1]
		switch {
		case below == none:
			w.loose = append(w.loose, h)
		case w.parts[p].on == none:
			w.parts[p].on = below
		case w.parts[p].on != below:
			return w.faultNear(w.parts[p].layer, x, w.ya, "a part lies on two others")
		}
	}
	return nil
}
