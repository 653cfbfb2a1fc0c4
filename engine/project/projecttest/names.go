// Package projecttest makes projects for the tests of any package: names as
// nasty as makers and files can bring them, and random projects that are
// within the rules.
package projecttest

import (
	"slices"
	"strings"
)

// HostileNames are names that a sprite, a colour or a project may have and
// that no writer may let through unencoded: markup, paths, names that file
// systems reserve, names equal but for case, text that runs from right to
// left, characters that don't show, and 10,000 characters. All are UTF-8, none
// is empty, none comes twice.
func HostileNames() []string { return slices.Clone(hostile) }

var hostile = []string{
	`"><script>alert(1)</script>`,
	`<!--`, `]]>`, `&amp;&#60;`, `--><svg onload=alert(1)>`,
	`../../x`, `..\..\x`, `/etc/passwd`, `C:\x`, `.`, `..`, `.hidden`, `~`,
	`CON`, `con`, `NUL.txt`, `com1`, `LPT9`, `aux.png`, `prn `,
	"Gull", "gull", "GULL", "gull ", "gull.", "g-u-l-l", "g u l l", "Gu\u0308ll", "G\u00fcll",
	"a\x00b", "a\nb", "a\r\nb", "a\tb", "\x1b[31mred\x1b[0m", "a\x7fb", "a\u0085b", "a\u2028b",
	"\u202egnp.llug", "\u2066gull\u2069", "\u200b", "\ufeff", "gull\u200d", "\u00ad",
	" ", "   ", "-", "--help", "-rf", "%s%n%d", "%2e%2e%2f", "${HOME}", "`id`", "$(id)", "; rm -rf x", "|", "*", "?",
	`"`, `\`, `'`, `\"`, "\\u0000", "{\"a\":1}", "0", "null", "true", "  0\nSECTION\n", "EOF", "%%EOF", "(gull", "M3 S1000",
	"🦀", "👩‍🔧", "灯台", "القارب", "קטר", "ﬁ", "ß", "İ", "\U0010ffff", "\ufffd",
	strings.Repeat("x", 10000),
	strings.Repeat("🦀", 10000),
	strings.Repeat("\n", 300),
	strings.Repeat("../", 200),
}
