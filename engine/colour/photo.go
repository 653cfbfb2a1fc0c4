package colour

import "slices"

// WhiteSheet is what a plain white sheet of paper counts as: uncoated paper
// reflects about nine tenths of the light, L* 95 (common practice, no source).
var WhiteSheet = RGB{243, 243, 243}

// BadPhoto is the error of a photo from which no colour can be told.
type BadPhoto struct{ Why string }

func (e *BadPhoto) Error() string { return e.Why }

// BesideWhite is a card's colour, told from a photo of it beside a white sheet:
// card and white are pixels of each. In linear light (IEC 61966-2-1), channel
// by channel, the card is to the photo's white as its true colour is to
// WhiteSheet; so neither the lamp's colour nor the exposure matters, as long as
// both lie in the same light. Medians are taken, so that specks don't count.
//
// It fails with a BadPhoto where the white is overexposed, too dark, or darker
// than the card.
func BesideWhite(card, white []RGB) (RGB, error) {
	if len(card) == 0 || len(white) == 0 {
		return RGB{}, &BadPhoto{"mark a piece of the card and a piece of the white sheet in the photo"}
	}
	var out [3]uint8
	of, from, to := middleOf(card), middleOf(white), WhiteSheet.channels()
	brightest := max(Linear(from[0]), Linear(from[1]), Linear(from[2]))
	switch {
	case slices.Contains(from[:], 255):
		return RGB{}, &BadPhoto{"the white sheet is overexposed in the photo, so colours can't be compared with it: take it again a little darker"}
	case brightest < FullLinear/10:
		return RGB{}, &BadPhoto{"the white sheet is too dark in the photo: take it again in more light, or mark the white sheet and not its shadow"}
	case min(Linear(from[0]), Linear(from[1]), Linear(from[2])) < brightest/8:
		return RGB{}, &BadPhoto{"what is marked as white has a strong colour: mark the white sheet, and take the photo in daylight or under a white lamp"}
	}
	for i := range out {
		l := (int64(Linear(of[i]))*int64(Linear(to[i])) + int64(Linear(from[i]))/2) / int64(Linear(from[i]))
		if l > FullLinear*11/10 {
			return RGB{}, &BadPhoto{"the card is brighter than the white sheet: mark them the other way round, or take the photo with both in the same light"}
		}
		out[i] = FromLinear(uint16(min(l, FullLinear)))
	}
	return RGB{out[0], out[1], out[2]}, nil
}

func (c RGB) channels() [3]uint8 { return [3]uint8{c.R, c.G, c.B} }

// middleOf is the median of each channel.
func middleOf(pixels []RGB) (out [3]uint8) {
	values := make([]uint8, len(pixels))
	for i := range out {
		for k, p := range pixels {
			values[k] = p.channels()[i]
		}
		slices.Sort(values)
		out[i] = values[len(values)/2]
	}
	return out
}
