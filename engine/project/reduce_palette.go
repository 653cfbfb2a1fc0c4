package project

import (
	"slices"
	"strings"

	"sheetsprite/engine/colour"
)

// ReduceColours reduces all sprites together to one palette of at most n
// colours: entries that go are replaced by the nearest one that stays, in the
// frames and in the stacks' rules. Colours that stay keep key, name and stock;
// those that no cell uses go. Where at most n entries are used, nothing changes.
func (p *Project) ReduceColours(n int) error {
	if n < 1 || n > MaxPalette {
		return wrong("--colours is %d, but must be 1 to %d", n, MaxPalette)
	}
	var all, contour colour.Histogram
	used := [256]bool{}
	for i := range p.Sprites {
		s := &p.Sprites[i]
		for _, f := range s.Frames {
			p.raster(s, f).count(&all, &contour)
		}
		for _, key := range s.Keys() {
			used[key] = true
		}
	}
	before := slices.Clone(p.Palette)
	before = slices.DeleteFunc(before, func(c Colour) bool { return !used[c.Key] })
	if len(before) <= n {
		return nil
	}
	counts := all.Counts()
	few := colour.Reduce(counts, n, colour.Outline(counts, contour.Counts())...)
	var stays []Colour // an entry for each of few: the first in the palette
	for _, rgb := range few {
		i := slices.IndexFunc(before, func(c Colour) bool { return c.RGB == rgb })
		stays = append(stays, before[i])
	}
	var to [256]byte
	for key := range to {
		to[key] = byte(key)
	}
	for _, c := range p.Palette {
		to[c.Key] = stays[colour.Nearest(few, c.RGB)].Key
	}
	p.Palette = slices.DeleteFunc(slices.Clone(p.Palette), func(c Colour) bool {
		return !slices.ContainsFunc(stays, func(s Colour) bool { return s.Key == c.Key })
	})
	for i := range p.Sprites {
		p.Sprites[i].replaceKeys(to)
	}
	return nil
}

// raster is a frame as a picture.
func (p *Project) raster(s *Sprite, f Frame) raster {
	var paint [256]pixel
	for _, c := range p.Palette {
		paint[c.Key] = pixel{rgb: c.RGB, full: true}
	}
	r := raster{w: s.W, h: s.H, pixels: make([]pixel, len(f.Cells))}
	for i, key := range f.Cells {
		r.pixels[i] = paint[key]
	}
	return r
}

// replaceKeys puts to[key] in the place of each key.
func (s *Sprite) replaceKeys(to [256]byte) {
	for _, f := range s.Frames {
		for i, key := range f.Cells {
			f.Cells[i] = to[key]
		}
	}
	for _, keys := range []*string{&s.Stack.Order, &s.Stack.Lowest, &s.Stack.Highest, &s.Stack.OutlineOnTop, &s.Stack.Spare} {
		var b strings.Builder
		for _, key := range []byte(*keys) {
			if strings.IndexByte(b.String(), to[key]) < 0 {
				b.WriteByte(to[key])
			}
		}
		*keys = b.String()
	}
	s.Stack.Highest = strings.Map(func(key rune) rune { // a colour pinned both ways stays lowest
		if strings.ContainsRune(s.Stack.Lowest, key) {
			return -1
		}
		return key
	}, s.Stack.Highest)
	var under []Under
	for _, u := range s.Stack.Under {
		u.Under, u.Over = to[u.Under], to[u.Over]
		same := func(v Under) bool { return v.Under == u.Under && v.Over == u.Over }
		if u.Under != u.Over && !slices.ContainsFunc(under, same) {
			under = append(under, u)
		}
	}
	s.Stack.Under = under
}
