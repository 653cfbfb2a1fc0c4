package engine

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// cellsOf are a part's stock, height and cells as text, a picture of its own:
// what makes it the same thing, and where it lies.
func cellsOf(s Sprite, layer, part int) (thing, place string) {
	l := s.Layout.Layers[layer]
	p := l.Parts[part]
	thing = fmt.Sprint(s.Stocks[l.Stock].ID, " ", l.Height, " ")
	if p.Tree < 0 {
		low := p.Bounds.Min
		return thing + fmt.Sprint(p.Outline.Moved(shape.Point{}.Sub(low))), fmt.Sprint(low.Sub(s.Layout.Grid))
	}
	left, top := 1<<20, 1<<20
	for _, r := range s.Forest.Parts[p.Tree].Cells {
		left, top = min(left, int(r.X0)), min(top, int(r.Y))
	}
	var cells [][2]int
	for _, r := range s.Forest.Parts[p.Tree].Cells {
		for x := int(r.X0); x < int(r.X1); x++ {
			cells = append(cells, [2]int{x - left, int(r.Y) - top})
		}
	}
	return thing + fmt.Sprint(cells), fmt.Sprint(left, top)
}

// edit changes a project as a maker does.
func edit(r *rand.Rand, p *project.Project) {
	s := &p.Sprites[r.IntN(len(p.Sprites))]
	cells := slices.Clone(s.Frames[0].Cells)
	s.Frames = []project.Frame{{Cells: cells}}
	switch r.IntN(8) {
	case 0: // one more column on the left
		wider := make([]byte, 0, len(cells)+s.H)
		for y := range s.H {
			wider = append(append(wider, project.Empty), cells[y*s.W:(y+1)*s.W]...)
		}
		s.W++
		s.Frames[0].Cells = wider
	case 1:
		a, b := r.IntN(len(p.Sprites)), r.IntN(len(p.Sprites))
		p.Sprites[a], p.Sprites[b] = p.Sprites[b], p.Sprites[a]
	case 2:
		if i := r.IntN(len(p.Sprites)); len(p.Sprites) > 1 {
			p.Sprites = slices.Delete(p.Sprites, i, i+1)
		}
	case 3:
		n := project.NewSprite(fmt.Sprint("new ", r.Uint32()), 3, 3)
		n.Frames[0].Cells[r.IntN(9)] = p.Palette[0].Key
		p.Sprites = slices.Insert(p.Sprites, r.IntN(len(p.Sprites)+1), n)
	default:
		for range 1 + r.IntN(3) {
			key := project.Empty
			if r.IntN(3) > 0 {
				key = p.Palette[r.IntN(len(p.Palette))].Key
			}
			cells[r.IntN(len(cells))] = key
		}
	}
}

// Whatever is edited, a part that is as it was keeps its number, at its place
// before all others of its shape; no number ever comes to stand for another
// thing; planned again from what is remembered all is the same.
func TestAnEditKeepsNumbers(t *testing.T) {
	rounds := uint64(20)
	if testing.Short() {
		rounds = 3
	}
	kept, changed := 0, 0
	for seed := range rounds {
		r := rand.New(rand.NewPCG(seed, 77))
		p := sheetedProject(seed)
		stands := map[string]string{}           // number to thing, since ever
		names := map[string]map[string]string{} // sprite to place and thing to number
		for range 12 {
			plan, err := Plan(p, Options{})
			if err != nil { // nothing is drawn any more
				edit(r, p)
				continue
			}
			seen := map[string]bool{}
			now := map[string]map[string]string{}
			for _, s := range plan.Sprites {
				name := p.Sprites[s.Index].Name
				now[name] = map[string]string{}
				for i, l := range s.Layout.Layers {
					for k, part := range l.Parts {
						number := s.Numbers[part.Index]
						thing, place := cellsOf(s, i, k)
						require.False(t, seen[number], "%s is there twice", number)
						seen[number] = true
						require.Regexp(t, fmt.Sprintf("^%s%d-[1-9][0-9]*$", s.Letters, l.Height), number)
						if was, ok := stands[number]; ok {
							require.Equal(t, was, name+" "+thing, "%s was another thing", number)
						}
						stands[number] = name + " " + thing
						now[name][place+" "+thing] = number
						if was, ok := names[name][place+" "+thing]; ok {
							kept++
							if was != number {
								changed++ // it must then be one of several of its shape, all of which moved
							}
						}
					}
				}
			}
			for name, parts := range names { // as many of a shape as before keep their numbers
				lost := map[string]int{}
				for at, number := range parts {
					if _, there := now[name]; there && now[name][at] != "" && !slices.Contains(values(now[name]), number) {
						lost[number]++
					}
				}
				require.Empty(t, lost, "seed %d: %s", seed, name)
			}
			after := plan.Remembered(p)
			require.NoError(t, after.Validate())
			again, err := Plan(after, Options{})
			require.NoError(t, err)
			require.Equal(t, after, again.Remembered(after))
			for i := range plan.Sprites {
				require.Equal(t, plan.Sprites[i].Numbers, again.Sprites[i].Numbers)
			}
			p, names = after, now
			p.Sprites = slices.Clone(p.Sprites)
			edit(r, p)
		}
	}
	assert.Greater(t, kept, 20*int(rounds))
	assert.Less(t, changed, kept/50)
}

func values(m map[string]string) (out []string) {
	for _, v := range m {
		out = append(out, v)
	}
	return out
}
