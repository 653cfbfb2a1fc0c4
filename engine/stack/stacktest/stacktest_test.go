package stacktest

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"sheetsprite/engine/stack"
)

func TestSpritesAreOfTheKindPeopleDraw(t *testing.T) {
	const n = 120
	sides, corners := 0, 0
	for i := range n {
		d := Sprite32(i, 4+i%4)
		sides += Patches(d, BySides)
		corners += Patches(d, ByCorners)
	}
	assert.InDelta(t, 118, float64(sides)/n, 5, "patches joined by sides")
	assert.InDelta(t, 39, float64(corners)/n, 5, "patches joined by corners too")
}

func TestSpriteUsesItsColours(t *testing.T) {
	for colours := 2; colours <= stack.MaxColours; colours++ {
		for seed := range 40 {
			used := map[stack.Colour]bool{}
			for _, c := range Sprite32(seed, colours).Cells {
				used[c] = true
			}
			delete(used, 0)
			assert.Len(t, used, colours, "seed %d", seed)
		}
	}
}

func TestDrawingsFollowFromTheirArguments(t *testing.T) {
	assert.Equal(t, Sprite32(7, 6), Sprite32(7, 6))
	assert.NotEqual(t, Sprite32(7, 6), Sprite32(8, 6))
	assert.Equal(t, Noise(9, 7, 24, 3), Noise(9, 7, 24, 3))
	assert.Equal(t, Tile(100, 16), Tile(100, 16))
}

func TestTileUsesItsColours(t *testing.T) {
	used := map[stack.Colour]bool{}
	for _, c := range Tile(96, 16).Cells {
		used[c] = true
	}
	delete(used, 0)
	assert.Len(t, used, 16)
}

// ExampleSprite32 shows one; '.' is empty, '#' the outline.
func ExampleSprite32() {
	fmt.Print(text(Sprite32(5, 5)))
	// Output:
	// ................................
	// ................................
	// ................................
	// ................................
	// ........#..............#........
	// .....###d###........###d###.....
	// #####ddddddc#......#ddddddd#####
	// #bbbb#ddddcdc#....#cdddddd#bbbb#
	// #bbbb#da#abcc#....#dcba#ac#bbbb#
	// #bbba#cda##bc#....#cb##acc#bbbb#
	// #bbba#ccccac########cacccc#bbbb#
	// #bb#####c####dddddd####c#####ba#
	// #ba###..#.###d####d###.#..###ab#
	// #aaaa#..##ddddddddcdcd##..#baba#
	// #aaaa#.#dddddddddcdcdccc#.#abaa#
	// #aaaa#.#ddddddcdcdcccccc#.#baaa#
	// #aaaa###dd#c#cdcccc#c#cc###aaaa#
	// #aaaa#bb##c#c##cc##c#c##ba#aaaa#
	// #####bbbbb##c##cc##c##aaaaa#####
	// ....#bbb##bb###cc###aa##aaa#....
	// ...#bbbb#abbb######aaaa#aaaa#...
	// ....#bbb##bbb#aaaa#aaa##aaa#....
	// ....#bb###ab#bbaabb#ba###aa#....
	// .....#b##aaaa#a##a#aada##a#.....
	// ......##aaaaaa####aaaaaa##......
	// ........###aaabaabaaa###........
	// ...........##########...........
	// ................................
	// ................................
	// ................................
	// ................................
	// ................................
}

func text(d stack.Drawing) string {
	var b strings.Builder
	for y := range d.H {
		for x := range d.W {
			b.WriteByte(".#abcdefghijklmnopqrstuvw"[d.At(x, y)])
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func TestPatchesAreCounted(t *testing.T) {
	d := stack.Drawing{W: 3, H: 3, Cells: []stack.Colour{
		1, 0, 1,
		2, 1, 0,
		2, 2, 1,
	}}
	assert.Equal(t, 5, Patches(d, BySides))
	assert.Equal(t, 2, Patches(d, ByCorners))
}
