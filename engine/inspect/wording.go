package inspect

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// mm is a length in millimetres with its unit: "0.6 mm".
func mm(v shape.Um) string { return decimal(v) + " mm" }

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
			b.WriteRune('…')
			break
		}
		if !unicode.IsPrint(r) {
			r = '·'
		}
		b.WriteRune(r)
		n++
	}
	return "“" + b.String() + "”"
}

// count is n with its noun: "1 part", "3 parts".
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

// verb is the form that goes with n.
func verb(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// listed is names as a sentence lists them, at most six.
func listed(names []string) string {
	const most = 6
	if len(names) > most {
		return strings.Join(names[:most-1], ", ") + fmt.Sprintf(" and %d more", len(names)-most+1)
	}
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}
