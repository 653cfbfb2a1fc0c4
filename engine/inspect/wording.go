package inspect

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// mm is a length in millimetres with its unit: "0.6 mm".
func mm(v shape.Um) string { return fmt.Sprintf(english.mm, decimal(v)) }

// size is a width and a height in millimetres: "210 × 297 mm".
func size(w, h shape.Um) string { return fmt.Sprintf(english.size, decimal(w), mm(h)) }

// decimal is a length in millimetres, exact, without trailing zeros.
func decimal(v shape.Um) string { return project.FormatMm(v) }

// number is a length in millimetres as plain data.
func number(v shape.Um) float64 { return float64(v) / 1000 }

// root is the length whose square is v, rounded down to 0.01 mm.
func root(v shape.Um2) shape.Um {
	r := shape.Um(math.Sqrt(float64(v)))
	for r*r > shape.Um(v) {
		r--
	}
	for (r+1)*(r+1) <= shape.Um(v) {
		r++
	}
	return r / 10 * 10
}

// quoted is a name that a maker gave, fit for a sentence: what doesn't print
// becomes a dot, what is long is cut.
func quoted(name string) string {
	const most = 40
	var b strings.Builder
	n := 0
	for _, r := range name {
		if n == most {
			b.WriteString(english.longName)
			break
		}
		if !unicode.IsPrint(r) {
			r = '·'
		}
		b.WriteRune(r)
		n++
	}
	return fmt.Sprintf(english.quoted, b.String())
}

// bent is a sentence in the form that goes with n.
func bent(n int, f forms, values ...any) string {
	return fmt.Sprintf(f[english.plural(n)], values...)
}

// listed is names as a sentence lists them, at most six.
func listed(names []string) string {
	const most = 6
	if len(names) > most {
		return strings.Join(names[:most-1], english.comma) + fmt.Sprintf(english.andMore, len(names)-most+1)
	}
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], english.comma) + english.and + names[len(names)-1]
}
