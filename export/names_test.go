package export

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestNamesAreSafe(t *testing.T) {
	for _, c := range []struct{ give, want string }{
		{"Lighthouse", "lighthouse"},
		{"Möwe über Fähre", "mowe-uber-fahre"},
		{"card-1a2b3c", "card-1a2b3c"},
		{`"><script>alert(1)</script>`, "script-alert-1-script"},
		{"../../x", "x"},
		{`C:\windows\win.ini`, "c-windows-win-ini"},
		{"", "sprite"},
		{"   ", "sprite"},
		{"🦀", "sprite"},
		{"crab 🦀 red", "crab-red"},
		{"\u202egnp.exe", "gnp-exe"},
		{"a\x00b\nc\td", "a-b-c-d"},
		{"\xff\xfe", "sprite"},
		{"CON", "sprite-con"},
		{"con.txt", "con-txt"},
		{"Lpt1", "sprite-lpt1"},
		{"COM¹", "sprite-com"},
		{"nul", "sprite-nul"},
		{"-rf", "rf"},
		{"灯台", "sprite"},
		{strings.Repeat("long", 2500), strings.Repeat("long", 10)},
		{strings.Repeat("x", 39) + " y", strings.Repeat("x", 39)},
	} {
		assert.Equal(t, c.want, newNames("sprite").name(c.give), "%.40q", c.give)
	}
}

func TestNamesAreUnique(t *testing.T) {
	n := newNames("sprite")
	for _, c := range []struct{ give, want string }{
		{"Gull", "gull"},
		{"gull", "gull-2"},
		{"GULL", "gull-3"},
		{"gull-2", "gull-2-2"},
		{"gull 4", "gull-4"},
		{"gull!", "gull-5"}, // 4 is taken
		{"🦀", "sprite"},
		{"⚓", "sprite-2"},
		{strings.Repeat("a", 50), strings.Repeat("a", 40)},
		{strings.Repeat("a", 51), strings.Repeat("a", 38) + "-2"},
		{"con", "sprite-con"},
		{"sprite con", "sprite-con-2"},
	} {
		assert.Equal(t, c.want, n.name(c.give), "%q", c.give)
	}
}

func FuzzNames(f *testing.F) {
	for _, s := range []string{"gull", "../../x", "CON", "\u202e", "a\x00b", "🦀", strings.Repeat("é", 100)} {
		f.Add(s, s)
	}
	safe := regexp.MustCompile(`^[a-z0-9]([a-z0-9-]{0,38}[a-z0-9])?$`)
	f.Fuzz(func(t *testing.T, a, b string) {
		n := newNames("sprite")
		x, y := n.name(a), n.name(b)
		assert.Regexp(t, safe, x)
		assert.Regexp(t, safe, y)
		assert.NotEqual(t, x, y)
		assert.False(t, reserved(x) || reserved(y))
		for _, r := range shown(a) {
			assert.True(t, r >= ' ' && r != 0x7f && r != 0x202e && r != 0x200f, "%q", r)
		}
	})
}
