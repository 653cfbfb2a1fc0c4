package project

import "slices"

// Choice is what of a project is cut now: some sprites, tonight, or single parts
// again. The zero value is all of it.
type Choice struct {
	Sprites []Chosen // in no order; none: all, with their own copies
	Parts   []string // numbers of parts, as A2-3: only these go on sheets, one each; none: all
	Extra   Extra
}

// Chosen is how often a sprite is cut now.
type Chosen struct {
	Sprite string // its name
	Copies int    // at least 1
	Extra  Extra
}

// MaxChosenParts is how many single parts are cut again at once.
const MaxChosenParts = 1000

// CopiesOf is how many copies of a sprite are cut now; 0 where others were
// chosen.
func (p *Project) CopiesOf(sprite int) int {
	s := &p.Sprites[sprite]
	if len(p.Choice.Sprites) == 0 {
		return max(1, s.Copies)
	}
	for _, c := range p.Choice.Sprites {
		if c.Sprite == s.Name {
			return c.Copies
		}
	}
	return 0
}

// Wants says whether a part of that number goes on a sheet.
func (c Choice) Wants(number string) bool {
	return len(c.Parts) == 0 || slices.Contains(c.Parts, number)
}

func (c Choice) empty() bool { return len(c.Sprites)+len(c.Parts)+len(c.Extra) == 0 }

// validate checks the choice against the sprites' names.
func (c Choice) validate(sprites map[string]int) error {
	if err := checkExtra(c.Extra, names(choiceFields)); err != nil {
		return err
	}
	seen := map[string]bool{}
	for i, s := range c.Sprites {
		where := label("sprite", i, s.Sprite)
		_, known := sprites[s.Sprite]
		switch {
		case !known:
			return in(where, wrong("isn't in the project: choose one that is"))
		case seen[s.Sprite]:
			return in(where, wrong("is chosen twice: choose it once, with its copies"))
		}
		seen[s.Sprite] = true
		if err := first(between("copies", s.Copies, 1, MaxCopies), checkExtra(s.Extra, names(chosenFields))); err != nil {
			return in(where, err)
		}
	}
	for i, n := range c.Parts {
		if n == "" || len(n) > 40 || slices.Contains(c.Parts[:i], n) {
			return wrong("part %s is no number or stands twice: give each once, as in A2-3", quote(n))
		}
	}
	return nil
}
