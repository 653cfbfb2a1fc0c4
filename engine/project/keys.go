package project

import "strings"

// keys are all the keys there can be, in the order in which NewKey gives them.
const keys = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789" +
	"!#$%&'()*+,-/:;<=>?@[]^_`{|}~"

// GoodKey says whether b can be a palette entry's key: printable ASCII, but not
// '.', which is an empty cell, nor a space, '"' or '\', which a row of keys in
// a file would hide or need escapes for.
func GoodKey(b byte) bool { return strings.IndexByte(keys, b) >= 0 }

// NewKey is the next free key for one more palette entry: letters first, then
// digits, then signs. ok is false only where all 91 are taken, which is more
// than a palette may have.
func NewKey(palette []Colour) (key byte, ok bool) {
	var taken [256]bool
	for _, c := range palette {
		taken[c.Key] = true
	}
	for i := range len(keys) {
		if !taken[keys[i]] {
			return keys[i], true
		}
	}
	return 0, false
}
