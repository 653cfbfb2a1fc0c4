package colour

import "slices"

// MaxCounted is how many colours a Histogram tells apart: as many as the
// largest sprite has cells.
const MaxCounted = 1 << 16

// Count is a colour and how many cells have it.
type Count struct {
	Colour RGB
	Cells  int
}

// Histogram counts the cells of each colour in bounded memory. Up to
// MaxCounted colours are counted exactly; beyond that the lowest bits of each
// channel are dropped, one after the other, and colours that then agree are
// counted together. The result doesn't depend on the order of the colours.
// The zero value is empty and ready.
type Histogram struct {
	dropped uint // bits dropped of each channel
	bins    map[RGB]bin
}

// bin is the sum of the colours in it.
type bin struct{ r, g, b, cells int }

// Add counts cells more cells of colour c.
func (h *Histogram) Add(c RGB, cells int) {
	if h.bins == nil {
		h.bins = map[RGB]bin{}
	}
	h.put(c.coarse(h.dropped), bin{int(c.R) * cells, int(c.G) * cells, int(c.B) * cells, cells})
	for len(h.bins) > MaxCounted {
		fine := h.bins
		h.bins = make(map[RGB]bin, len(fine)/2)
		h.dropped++
		for key, b := range fine { // sums don't depend on the order
			h.put(key.coarse(h.dropped), b)
		}
	}
}

func (h *Histogram) put(key RGB, b bin) {
	old := h.bins[key]
	h.bins[key] = bin{old.r + b.r, old.g + b.g, old.b + b.b, old.cells + b.cells}
}

// coarse is c without the lowest bits of each channel.
func (c RGB) coarse(dropped uint) RGB {
	mask := uint8(0xff << dropped)
	return RGB{c.R & mask, c.G & mask, c.B & mask}
}

// Counts lists the colours by red, green and blue. Colours counted together
// are listed as their mean, so that one colour may come twice.
func (h *Histogram) Counts() []Count {
	counts := make([]Count, 0, len(h.bins))
	for _, b := range h.bins {
		mean := func(sum int) uint8 { return uint8(divide(int64(sum), int64(b.cells))) }
		counts = append(counts, Count{RGB{mean(b.r), mean(b.g), mean(b.b)}, b.cells})
	}
	slices.SortFunc(counts, func(p, q Count) int {
		if d := p.Colour.number() - q.Colour.number(); d != 0 {
			return d
		}
		return p.Cells - q.Cells
	})
	return counts
}
