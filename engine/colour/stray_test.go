package colour

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// gridOf reads a picture in text: '.' is 0, 'a' 1 …
func gridOf(picture string) (w, h int, cells []int) {
	rows := strings.Fields(picture)
	for _, row := range rows {
		for _, b := range []byte(row) {
			if b == '.' {
				cells = append(cells, 0)
			} else {
				cells = append(cells, int(b-'a')+1)
			}
		}
	}
	return len(rows[0]), len(rows), cells
}

func ExampleStrays() {
	w, h, cells := gridOf(`
		aaaaaaa
		aabaaaa
		aaaaabb
		aaaaabb
		a.aaaaa
		aaaabab`)
	for _, s := range Strays(w, h, cells) {
		fmt.Println(s.X, s.Y, "is", s.Colour, "among", s.Agreed)
	}
	// Output:
	// 2 1 is 2 among 1
	// 1 4 is 0 among 1
	// 4 5 is 2 among 1
	// 6 5 is 2 among 1
}

func TestStraysLeavesDrawingsAlone(t *testing.T) {
	for name, picture := range map[string]string{
		"one cell":       "a",
		"a pair":         "aaaa abba aaaa",
		"a diagonal":     "aaaaa abaaa aabaa aaaba aaaaa",
		"a chequer":      "abab baba abab baba",
		"a line":         "aaa bbb aaa",
		"sides disagree": "aaaa aabc aaaa cccc",
	} {
		w, h, cells := gridOf(picture)
		assert.Empty(t, Strays(w, h, cells), name)
	}
	assert.Empty(t, Strays(0, 0, nil))
}
