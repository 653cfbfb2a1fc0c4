package project

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode/utf8"

	"sheetsprite/engine/project/strictjson"
)

func (s *Sprite) validate(keys keySet) error {
	if s.Name == "" {
		return wrong("has no name: give it one")
	}
	err := first(
		checkName(s.Name),
		between("copies", s.Copies, 1, MaxCopies),
		within("cell_mm", s.Cell, MinCell, MaxCell),
		checkExtra(s.Extra, names(spriteFields)),
		in("stack", s.Stack.validate(keys)),
		in("numbers", s.Numbers.validate()),
	)
	switch {
	case err != nil:
		return err
	case len(s.Frames) == 0:
		return wrong("has no frames: give it at least one, with rows")
	case len(s.Frames) > MaxFrames:
		return wrong("has %d frames, but may have %d", len(s.Frames), MaxFrames)
	case s.W < 1 || s.H < 1 || s.W > MaxSide || s.H > MaxSide:
		return wrong("is %d × %d cells, but a sprite has 1 to %d a side", s.W, s.H, MaxSide)
	}
	for i, f := range s.Frames {
		where := label("frame", i, "")
		if len(f.Cells) != s.W*s.H {
			return in(where, wrong("has %d cells, but %d × %d need %d", len(f.Cells), s.W, s.H, s.W*s.H))
		}
		for at, key := range f.Cells {
			if key != Empty && !keys[key] {
				return &InputError{place(i, at%s.W, at/s.W),
					fmt.Sprintf("%q isn't the key of a palette colour: add that colour or change the cell", rune(key))}
			}
		}
		if err := checkExtra(f.Extra, frameFields); err != nil {
			return in(where, err)
		}
	}
	if used := len(s.Keys()); used > MaxSpriteColours {
		return wrong("has %d colours, but a sprite may have %d: use fewer or split it", used, MaxSpriteColours)
	}
	return nil
}

func (s *Stack) validate(keys keySet) error {
	err := first(
		oneOf("style", s.Style, Fewest, SideBySide, ByHand),
		between("extra_heights", s.ExtraHeights, 0, MaxExtraHeights),
		checkKeys("order", s.Order, keys),
		checkKeys("lowest", s.Lowest, keys),
		checkKeys("highest", s.Highest, keys),
		checkKeys("outline_on_top", s.OutlineOnTop, keys),
		checkKeys("spare", s.Spare, keys),
		s.validateFloat(),
		checkExtra(s.Extra, names(stackFields)),
	)
	if err != nil {
		return err
	}
	if len(s.OutlineOnTop) > 1 {
		return wrong("outline_on_top is %s, but must be one key", quote(s.OutlineOnTop))
	}
	if i := strings.IndexAny(s.Lowest, s.Highest); i >= 0 {
		return wrong("%q is both lowest and highest: choose one", rune(s.Lowest[i]))
	}
	if len(s.Whole) > MaxWhole {
		return wrong("%d layers are left whole, but %d may be", len(s.Whole), MaxWhole)
	}
	for i, l := range s.Whole {
		if err := first(between("height", l.Height, 1, MaxHeights), checkExtra(l.Extra, names(wholeFields))); err != nil {
			return in(label("whole", i, l.Stock), err)
		}
	}
	if len(s.Jigs) > MaxHeights {
		return wrong("there are %d jigs, but there may be %d", len(s.Jigs), MaxHeights)
	}
	jigs := map[int]bool{} // only asked
	for i, j := range s.Jigs {
		where := label("jig", i, j.Stock)
		if err := first(between("height", j.Height, 1, MaxHeights), checkExtra(j.Extra, names(jigFields))); err != nil {
			return in(where, err)
		}
		if jigs[j.Height] {
			return in(where, wrong("height %d has a jig already: take one out", j.Height))
		}
		jigs[j.Height] = true
	}
	if len(s.Under) > MaxUnder {
		return wrong("there are %d pairs of what lies under what, but there may be %d", len(s.Under), MaxUnder)
	}
	for i, u := range s.Under {
		where := label("under", i, "")
		switch {
		case !keys[u.Under] || !keys[u.Over]:
			return in(where, wrong("%q under %q names a key that the palette doesn't have", rune(u.Under), rune(u.Over)))
		case u.Under == u.Over:
			return in(where, wrong("%q can't lie under itself: take the pair out", rune(u.Under)))
		}
		if err := checkExtra(u.Extra, names(underFields)); err != nil {
			return in(where, err)
		}
	}
	return nil
}

// checkKeys checks that a text is of the palette's keys, none twice.
func checkKeys(name, text string, keys keySet) error {
	for i := range len(text) {
		switch key := text[i]; {
		case !keys[key]:
			return wrong("%s names the key %q, which the palette doesn't have", name, rune(key))
		case strings.IndexByte(text[:i], key) >= 0:
			return wrong("%s names the key %q twice", name, rune(key))
		}
	}
	return nil
}

// extraDepth is how deep an unknown field's value may be nested, so that with
// the objects around it the file stays within strictjson's limit.
const extraDepth = strictjson.MaxDepth - 10

// checkExtra checks that unknown fields can be written: strict JSON, not too
// deep, under names that the object doesn't have itself.
func checkExtra(extra Extra, known []string) error {
	for _, name := range slices.Sorted(maps.Keys(extra)) {
		c := strictjson.New(extra[name])
		err := c.Skip()
		if err == nil {
			err = c.End()
		}
		switch {
		case err != nil:
			return wrong("the unknown field %s doesn't hold JSON (%v)", quote(name), err)
		case !json.Valid(extra[name]): // a byte order mark, which only a whole file may have
			return wrong("the unknown field %s doesn't hold JSON", quote(name))
		case slices.Contains(known, name):
			return wrong("the field %s is among the unknown ones, but it is known", quote(name))
		case !utf8.ValidString(name):
			return wrong("the unknown field %s has a name that isn't UTF-8 text", quote(name))
		case c.Deepest() > extraDepth:
			return wrong("the unknown field %s is nested more than %d deep", quote(name), extraDepth)
		}
	}
	if len(extra) > strictjson.MaxFields-len(known) {
		return wrong("there are more than %d unknown fields", strictjson.MaxFields-len(known))
	}
	return nil
}
