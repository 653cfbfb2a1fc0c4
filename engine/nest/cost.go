package nest

import (
	"cmp"

	"sheetsprite/engine/shape"
)

// cost says how good an answer is; less is better, the earlier field first.
type cost struct {
	unplaced shape.Um2 // area of the copies without a place
	apart    int       // units taken apart
	sheets   int       // sheets used, offcuts not counted
	top      shape.Um  // height used on the last one
	weight   int64     // each copy's area by the height of its top there, so that a search sees which way is down
}

func (c cost) compare(d cost) int {
	return cmp.Or(
		cmp.Compare(c.unplaced, d.unplaced), cmp.Compare(c.apart, d.apart), cmp.Compare(c.sheets, d.sheets),
		cmp.Compare(c.top, d.top), cmp.Compare(c.weight, d.weight),
	)
}

// cost judges a layout.
func (p *problem) cost(spots []spot, apart int) cost {
	c := cost{apart: apart}
	last := int32(-1)
	var used [maxSheets]bool
	for _, h := range p.held {
		used[h.spot.sheet] = true
		last = max(last, h.spot.sheet)
	}
	for i, s := range spots {
		if s.sheet < 0 {
			c.unplaced += p.kindOf(i).area
			continue
		}
		used[s.sheet] = true
		last = max(last, s.sheet)
	}
	for n := len(p.job.Supply.Offcuts); n <= int(last); n++ {
		if used[n] {
			c.sheets++
		}
	}
	for _, h := range p.held {
		if h.spot.sheet == last {
			c.top = max(c.top, h.spot.at.Y+p.kinds[h.kind].forms[h.spot.form].h)
		}
	}
	for i, s := range spots {
		if s.sheet == last && last >= 0 {
			k := p.kindOf(i)
			y := s.at.Y + k.forms[s.form].h
			c.top = max(c.top, y)
			c.weight += int64(k.area/1000) * int64(y/10)
		}
	}
	return c
}

// least is a bound that no answer goes below, as far as sheets and top are
// concerned: what the area asks for.
func (p *problem) least() (sheets int, top shape.Um) {
	var area shape.Um2
	for _, c := range p.copies {
		area += p.kinds[c.kind].area
	}
	for _, h := range p.held {
		area += p.kinds[h.kind].area
	}
	for n := 0; ; n++ {
		s, ok := p.sheet(n)
		if !ok {
			return sheets, top
		}
		if s.w <= 0 || s.h <= 0 {
			continue
		}
		if s.origin == FromSheets {
			sheets++
		}
		top = shape.Um((area + shape.Um2(s.w) - 1) / shape.Um2(s.w))
		if room := shape.Um2(s.w) * shape.Um2(s.h); area > room {
			area -= room
			continue
		}
		for _, c := range p.copies {
			k := &p.kinds[c.kind]
			low := never
			for _, f := range k.forms {
				low = min(low, f.h)
			}
			if n == 0 {
				top = max(top, low)
			}
		}
		return sheets, top
	}
}
