// Package colour compares colours and reduces many to few.
//
// Colours are sRGB, 8 bits a channel. Everything that chooses a colour works
// in whole numbers, so that every machine chooses the same one; differences
// that are shown or compared with a limit are rounded to 1e-6.
package colour

import "fmt"

// RGB is an sRGB colour, 8 bits a channel.
type RGB struct{ R, G, B uint8 }

// String is the colour as "#rrggbb", lower-case.
func (c RGB) String() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// Parse reads "#rrggbb"; upper-case digits are taken too. It fails on anything
// else, the short form with three digits included.
func Parse(s string) (RGB, error) {
	if len(s) != 7 || s[0] != '#' {
		return RGB{}, notAColour
	}
	var channels [3]uint8
	for i := range channels {
		high, low := digit(s[1+2*i]), digit(s[2+2*i])
		if high < 0 || low < 0 {
			return RGB{}, notAColour
		}
		channels[i] = uint8(high<<4 | low)
	}
	return RGB{channels[0], channels[1], channels[2]}, nil
}

var notAColour = fmt.Errorf("a colour is # and six hexadecimal digits, such as #1a2b3c")

// digit is the value of a hexadecimal digit, -1 for anything else.
func digit(b byte) int {
	switch {
	case b >= '0' && b <= '9':
		return int(b - '0')
	case b >= 'a' && b <= 'f':
		return int(b-'a') + 10
	case b >= 'A' && b <= 'F':
		return int(b-'A') + 10
	}
	return -1
}

// number orders colours by red, then green, then blue.
func (c RGB) number() int { return int(c.R)<<16 | int(c.G)<<8 | int(c.B) }
