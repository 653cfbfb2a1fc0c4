package export

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxName is the most characters that a name in the bundle has.
const maxName = 40

// names hands out file names that every file system takes: lower-case a-z, 0-9
// and '-', 1 to 40 characters, never a reserved device name, each one once.
type names struct {
	fallback string          // used where nothing of a name is left, and before a reserved one
	taken    map[string]bool // what was handed out; only asked, never listed
}

func newNames(fallback string) *names {
	return &names{fallback: fallback, taken: map[string]bool{}}
}

// name makes s safe. Equal or equal-looking names get a number at their end.
func (n *names) name(s string) string {
	base := safeName(s)
	if base == "" {
		base = n.fallback
	}
	if reserved(base) {
		base = n.fallback + "-" + base
	}
	out := base
	for i := 2; n.taken[out]; i++ {
		tail := "-" + strconv.Itoa(i)
		out = strings.TrimRight(base[:min(len(base), maxName-len(tail))], "-") + tail
	}
	n.taken[out] = true
	return out
}

// safeName keeps what is safe of s: letters in lower case, digits, and a '-'
// for each run of anything else. It may be empty.
func safeName(s string) string {
	out := make([]byte, 0, maxName)
	gap := false
	add := func(c byte) {
		if len(out) < maxName {
			out = append(out, c)
		}
	}
	for _, r := range s {
		for _, c := range plainLetters(unicode.ToLower(r)) {
			if gap && len(out) > 0 {
				add('-')
			}
			gap = false
			add(byte(c))
		}
		if plainLetters(unicode.ToLower(r)) == "" {
			gap = true
		}
		if len(out) == maxName {
			break
		}
	}
	return strings.TrimRight(string(out), "-")
}

// accented pairs letters outside ASCII with the plain ones that stand for them
// in a file name, so that a name stays legible.
var accented = map[rune]string{
	'à': "a", 'á': "a", 'â': "a", 'ã': "a", 'ä': "a", 'å': "a", 'ā': "a", 'ą': "a", 'æ': "ae",
	'ç': "c", 'ć': "c", 'č': "c", 'ď': "d", 'ð': "d", 'đ': "d",
	'è': "e", 'é': "e", 'ê': "e", 'ë': "e", 'ē': "e", 'ę': "e", 'ě': "e", 'ğ': "g",
	'ì': "i", 'í': "i", 'î': "i", 'ï': "i", 'ī': "i", 'ı': "i", 'ł': "l",
	'ñ': "n", 'ń': "n", 'ň': "n",
	'ò': "o", 'ó': "o", 'ô': "o", 'õ': "o", 'ö': "o", 'ø': "o", 'ō': "o", 'ő': "o", 'œ': "oe",
	'ř': "r", 'ś': "s", 'š': "s", 'ş': "s", 'ß': "ss", 'ť': "t", 'þ': "th",
	'ù': "u", 'ú': "u", 'û': "u", 'ü': "u", 'ū': "u", 'ů': "u", 'ű': "u",
	'ý': "y", 'ÿ': "y", 'ź': "z", 'ż': "z", 'ž': "z",
}

// plainLetters is what stands for a lower-case r in a file name; "" for a gap.
func plainLetters(r rune) string {
	if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
		return string(r)
	}
	return accented[r]
}

// reserved says whether s is a device name on some file system; such a name
// opens a device instead of a file, whatever its ending.
func reserved(s string) bool {
	switch s {
	case "con", "prn", "aux", "nul", "clock", "com", "lpt":
		return true
	}
	return len(s) == 4 && (s[:3] == "com" || s[:3] == "lpt") && s[3] >= '0' && s[3] <= '9'
}

// maxShown is the most characters of a maker's name that a text shows.
const maxShown = 80

// shown makes a maker's name fit for one line of a text: control characters and
// marks that turn the writing direction become spaces, and a long name is cut.
func shown(s string) string {
	var b strings.Builder
	n := 0
	for _, r := range stripControls(s) {
		if n == maxShown {
			b.WriteString("…")
			break
		}
		n++
		b.WriteRune(r)
	}
	out := strings.Join(strings.Fields(b.String()), " ")
	if out == "" {
		return english.noName
	}
	return out
}

// stripControls puts a space in the place of whatever would break a line, turn
// the writing direction or isn't a character.
func stripControls(s string) string {
	return strings.Map(func(r rune) rune {
		if r == utf8.RuneError || unicode.IsControl(r) || unicode.Is(unicode.Cf, r) ||
			unicode.Is(unicode.Zl, r) || unicode.Is(unicode.Zp, r) {
			return ' '
		}
		return r
	}, s)
}
