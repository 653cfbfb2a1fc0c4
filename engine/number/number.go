// Package number gives each part the number by which a maker tells it from all
// others: A2-3 is the third part at height 2 of the first sprite. It depends on
// the drawing and on what the project remembers, never on where a part lies on
// its sheet.
package number

import (
	"strconv"
	"strings"

	"sheetsprite/engine/project"
)

const letters = project.NumberLetters

// Letters is what stands for the sprite at index i, from 0: A, B … Z without I
// and O, then AA, AB …
func Letters(i int) string {
	text := ""
	for i++; i > 0; i /= len(letters) {
		i--
		text = letters[i%len(letters):][:1] + text
	}
	return text
}

// index is what Letters makes text of.
func index(text string) int {
	i := 0
	for _, c := range []byte(text) {
		i = i*len(letters) + strings.IndexByte(letters, c) + 1
	}
	return i - 1
}

// Sprites is the letters of all sprites of a project, empty ones too, so that
// one that gets its first cell doesn't name the others anew, and how many are
// given then. A sprite keeps the letters it had, wherever it is moved; a new one
// gets those of its place as long as nobody has seen any, then the next that
// were never given.
func Sprites(p *project.Project) (all []string, given int) {
	all = make([]string, len(p.Sprites))
	taken := map[string]bool{} // only asked
	next := p.Lettered
	for i := range p.Sprites {
		if had := p.Sprites[i].Numbers.Letters; had != "" && !taken[had] {
			all[i], taken[had] = had, true
			next = max(next, index(had)+1)
		}
	}
	if next == 0 {
		for i := range all {
			all[i] = Letters(i)
		}
		return all, len(all)
	}
	for i := range all {
		if all[i] == "" {
			all[i] = Letters(next)
			next++
		}
	}
	return all, next
}

// Name is a part's number as a maker reads it.
func Name(letters string, height, number int) string {
	return letters + strconv.Itoa(height) + "-" + strconv.Itoa(number)
}
