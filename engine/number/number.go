// Package number gives each part the number by which a maker tells it from all
// others: A2-3 is the third part at height 2 of the first sprite. It depends on
// the drawing only, never on where a part lies on its sheet.
package number

import (
	"slices"
	"strconv"

	"sheetsprite/engine/outline"
)

// letters leave out I and O, which look like 1 and 0.
const letters = "ABCDEFGHJKLMNPQRSTUVWXYZ"

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

// Parts is the number of each part of a layout by its Index. sprite is the
// sprite's index in its project, so that an empty one that gets its first cell
// doesn't number the others anew. Within a height parts are counted from the
// top row, there from the left: that is the order of their indices (see
// stack.Forest).
func Parts(sprite int, l *outline.Layout) []string {
	type at struct{ index, height int }
	var parts []at
	for _, layer := range l.Layers {
		for _, p := range layer.Parts {
			parts = append(parts, at{p.Index, layer.Height})
		}
	}
	slices.SortFunc(parts, func(a, b at) int { return a.index - b.index })
	out := make([]string, len(parts))
	count := make([]int, l.Heights+1)
	for _, p := range parts {
		count[p.height]++
		out[p.index] = Letters(sprite) + strconv.Itoa(p.height) + "-" + strconv.Itoa(count[p.height])
	}
	return out
}
