package inspect_test

import (
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"

	"sheetsprite/engine/inspect"
)

// named are the names that the cases give to sprites, stocks and machines.
var named = regexp.MustCompile(`“[a-f]”|Card #[0-9a-f]{6}|“Small”|“Knife”|PVC sheet|Foam`)

// Every word of every finding and every remedy comes from the table: written in
// another one, no word of the first is left. The sentences of all codes occur.
func TestEveryWordComesFromTheTable(t *testing.T) {
	defer inspect.InForeignLetters()()
	seen := map[inspect.Code]bool{}
	remedies := 0
	for i, c := range cases {
		look := findings
		if i >= firstOfSheets {
			look = sheetFindings
		}
		for _, f := range look(t, c.make()) {
			seen[f.Code] = true
			assert.Regexp(t, `^[^A-Za-z]+$`, named.ReplaceAllString(f.Text, ""), string(f.Code))
			for _, r := range f.Remedies {
				assert.Regexp(t, `^[^A-Za-z]+$`, named.ReplaceAllString(r.Text, ""), string(f.Code))
				remedies++
			}
		}
	}
	for _, m := range inspect.Meanings() {
		assert.True(t, seen[m.Code], "%s doesn't occur", m.Code)
	}
	assert.Greater(t, remedies, 20)
}
