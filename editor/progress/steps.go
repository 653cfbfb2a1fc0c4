package progress

import "slices"

// At is the step that a copy is at, from 0; as many as there are steps where
// it is all together. A copy whose steps have changed is at the step that the
// part belongs to which the maker had before him, else at the first step in
// which something is still to be placed.
func (b Book) At(c Copy) int {
	steps := c.Sprite.Steps
	states := b.States(c)
	for _, p := range b.Places {
		if p.ID != c.ID || p.Copy != c.Number {
			continue
		}
		if p.Step <= len(steps) && p.Print == firstOf(c, p.Step) {
			return p.Step
		}
		for n := range steps {
			if p.Print != "" && firstOf(c, n) == p.Print {
				return n
			}
		}
	}
	for n, step := range steps {
		for _, i := range step {
			if states[i].Is != Stuck {
				return n
			}
		}
	}
	return len(steps)
}

// firstOf is the print of the first part of a step, "" behind the last.
func firstOf(c Copy, step int) string {
	if step >= len(c.Sprite.Steps) || len(c.Sprite.Steps[step]) == 0 {
		return ""
	}
	return c.Sprite.Parts[c.Sprite.Steps[step][0]].Print
}

// GoTo opens a step; one beyond the last means that all is together.
func (b Book) GoTo(c Copy, step int) Book {
	step = max(0, min(step, len(c.Sprite.Steps)))
	places := slices.DeleteFunc(slices.Clone(b.Places), func(p Place) bool { return p.ID == c.ID && p.Copy == c.Number })
	places = append(places, Place{ID: c.ID, Copy: c.Number, Step: step, Print: firstOf(c, step)})
	b.Places = places[max(0, len(places)-maxPlaces):]
	return b
}

// Next goes on a step: what belongs to this one is stuck then, but for what is
// lost. It says how long that typically takes, s; 0 where nothing was stuck.
func (b Book) Next(c Copy) (next Book, seconds int) {
	at := b.At(c)
	if at == len(c.Sprite.Steps) {
		return b, 0
	}
	states := b.States(c)
	var now []int
	for _, i := range c.Sprite.Steps[at] {
		if states[i].Is != Stuck && states[i].Is != Lost {
			now = append(now, i)
			seconds += c.Sprite.Parts[i].Seconds
		}
	}
	return b.mark(c, now, Stuck, ByStep).GoTo(c, at+1), seconds
}

// Back goes back a step, and takes back that its parts were said to be stuck
// when the maker went on from it.
func (b Book) Back(c Copy) Book {
	at := b.At(c)
	if at == 0 {
		return b
	}
	states := b.States(c)
	was := map[Is][]int{} // asked in a fixed order
	for _, i := range c.Sprite.Steps[at-1] {
		if states[i].Is == Stuck && states[i].By == ByStep {
			was[states[i].Was] = append(was[states[i].Was], i)
		}
	}
	return b.mark(c, was[InSheet], InSheet, ByHand).mark(c, was[Out], Out, ByHand).GoTo(c, at-1)
}

// Left is how long the parts typically take that aren't stuck yet, s, and how
// many are stuck and lost.
func (b Book) Left(c Copy) (seconds, stuck, lost int) {
	for i, m := range b.States(c) {
		switch m.Is {
		case Stuck:
			stuck++
			continue
		case Lost:
			lost++
		}
		seconds += c.Sprite.Parts[i].Seconds
	}
	return seconds, stuck, lost
}
