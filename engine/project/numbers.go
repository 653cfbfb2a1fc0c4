package project

import (
	"cmp"
	"slices"
	"strings"
)

// Numbers is what a sprite's parts have ever been called where a maker saw it:
// its letters, and which number stands for what. A number never comes to stand
// for another thing, so that no label that is lying about lies. The zero value
// is a sprite whose numbers nobody has seen.
type Numbers struct {
	Letters string     // "A" … "Z" without I and O, "AA" …; "" for none yet
	Parts   []Numbered // in order of height, then number; never changed in place
	Extra   Extra
}

// Numbered is a part that has a number.
type Numbered struct {
	Height   int    // 1 is lowest
	Number   int    // from 1 at each height
	Print    string // what makes it the same thing wherever it lies: 16 hexadecimal digits
	Col, Row int    // of the grid, where it lay last
	Extra    Extra
}

// Limits of what is remembered.
const (
	MaxNumbered   = 20000 // parts of a sprite
	MaxPartNumber = 999999
	MaxLettered   = 100000
	maxLetters    = 4
)

// NumberLetters are what sprites are called by: without I and O, which look
// like 1 and 0.
const NumberLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ"

func (n *Numbers) empty() bool { return n.Letters == "" && len(n.Parts)+len(n.Extra) == 0 }

func (n *Numbers) validate() error {
	if len(n.Letters) > maxLetters || strings.Trim(n.Letters, NumberLetters) != "" {
		return wrong("letters is %s, but must be up to %d of %s", quote(n.Letters), maxLetters, NumberLetters)
	}
	if err := checkExtra(n.Extra, names(numbersFields)); err != nil {
		return err
	}
	if len(n.Parts) > MaxNumbered {
		return wrong("there are %d numbered parts, but there may be %d", len(n.Parts), MaxNumbered)
	}
	for i := range n.Parts {
		q := &n.Parts[i]
		err := first(
			between("height", q.Height, 1, MaxHeights),
			between("number", q.Number, 1, MaxPartNumber),
			between("at", min(q.Col, q.Row), 0, MaxSide),
			between("at", max(q.Col, q.Row), 0, MaxSide),
			checkExtra(q.Extra, names(numberedFields)),
		)
		if err == nil && (len(q.Print) != 16 || strings.Trim(q.Print, "0123456789abcdef") != "") {
			err = wrong("print is %s, but must be 16 hexadecimal digits", quote(q.Print))
		}
		if err == nil && i > 0 && CompareNumbered(n.Parts[i-1], *q) >= 0 {
			err = wrong("isn't in order of height, then number, each once")
		}
		if err != nil {
			return in(label("part", i, ""), err)
		}
	}
	return nil
}

// CompareNumbered is the order of a sprite's numbered parts.
func CompareNumbered(a, b Numbered) int {
	return cmp.Or(cmp.Compare(a.Height, b.Height), cmp.Compare(a.Number, b.Number))
}

// Follows says whether n can come after m: it names nothing otherwise, and its
// numbers go as high at each height.
func (n *Numbers) Follows(m *Numbers) bool {
	if m.Letters != "" && m.Letters != n.Letters {
		return false
	}
	most := map[int]int{} // by height; only asked
	for _, q := range n.Parts {
		most[q.Height] = max(most[q.Height], q.Number)
	}
	for _, q := range m.Parts {
		if q.Number > most[q.Height] {
			return false
		}
		if i, ok := slices.BinarySearchFunc(n.Parts, q, CompareNumbered); ok && n.Parts[i].Print != q.Print {
			return false
		}
	}
	return true
}
