package inspect

import (
	"fmt"
	"strings"
	"unicode"

	"sheetsprite/engine/project"
)

// neverWords are in the names of stocks whose smoke ruins lungs or machine, or
// that burn rather than cut. Common practice, no source.
var neverWords = map[string]*string{
	"pvc":           &english.chloride,
	"vinyl":         &english.chloride,
	"chlorinated":   &english.chloride,
	"fluorinated":   &english.fluoride,
	"ptfe":          &english.fluoride,
	"abs":           &english.melts,
	"polycarbonate": &english.chars,
}

// neverLaser reports stocks that mustn't go on a laser, as marked or by their
// names, and those nobody knows enough about.
func neverLaser(p *project.Project, sprites []Measured) []Finding {
	if p.Machine().Kind != project.LaserCutter {
		return nil // a blade makes no smoke
	}
	var fs []Finding
	for _, st := range allUsed(p, sprites) {
		other := Remedy{
			Command: SetStock, Args: map[string]any{"keys": keysOf(p, st.ID)}, Asks: []string{"stock"},
			Text: english.otherStock,
		}
		why, never := neverReason(st.Name)
		switch {
		case never || st.Laser == project.LaserNever:
			if !never {
				why = english.marked
			}
			fs = append(fs, Finding{
				Code:     StockNeverLaser,
				Text:     fmt.Sprintf(english.never, st.Name, why),
				Places:   spritesWith(sprites, st.ID),
				Remedies: []Remedy{other},
			})
		case st.Laser != project.LaserFine:
			fs = append(fs, Finding{
				Code:   StockUnknown,
				Text:   fmt.Sprintf(english.unknown, st.Name),
				Places: spritesWith(sprites, st.ID),
				Remedies: []Remedy{{
					Command: SetLaser, Args: map[string]any{"stock": st.ID}, Asks: []string{"laser"},
					Text: english.sayLaser,
				}, other},
			})
		}
	}
	return fs
}

// neverReason finds a word of a stock's name that bars it from a laser;
// "pvc-free" doesn't.
func neverReason(name string) (string, bool) {
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
	for i, w := range words {
		if why, ok := neverWords[w]; ok && (i+1 == len(words) || words[i+1] != "free") {
			return *why, true
		}
	}
	return "", false
}
