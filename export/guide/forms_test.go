package guide

import (
	"bytes"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// What lies there looks the same drawn as forms of forms and part by part, as
// poppler draws both on one page.
func TestAPileLooksLikeItsParts(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 7))
	p, err := newPen(A4, "pile")
	require.NoError(t, err)
	p.newPage()
	size := shape.Point{X: 80 * shape.Mm, Y: 80 * shape.Mm}
	left, right := view{X: 12700, Y: 114300, Scale: trueScale}, view{X: 114300, Y: 114300, Scale: trueScale}
	pile := newPile(p, size)
	var all []shape.Outline
	for range 13 { // 8 + 4 + 1
		var step []shape.Outline
		for range 1 + random.IntN(4) {
			var teeth shape.Ring // a comb: long enough for a form of its own
			x, y := shape.Um(random.IntN(60))*shape.Mm, shape.Um(random.IntN(60))*shape.Mm
			n := 1 + random.IntN(12)
			for k := range shape.Um(n) {
				teeth = append(teeth, shape.Point{X: x + 2*k*shape.Mm/2, Y: y + 9*shape.Mm}, shape.Point{X: x + (2*k+1)*shape.Mm/2, Y: y + 9*shape.Mm},
					shape.Point{X: x + (2*k+1)*shape.Mm/2, Y: y + 2*shape.Mm}, shape.Point{X: x + (k+1)*shape.Mm, Y: y + 2*shape.Mm})
			}
			teeth = append(teeth, shape.Point{X: x + shape.Um(n)*shape.Mm, Y: y}, shape.Point{X: x, Y: y})
			step = append(step, shape.Outline{Outer: teeth.Contour()})
		}
		pile.put(step)
		all = append(all, step...)
	}
	p.onPage(left)
	pile.draw(left)
	p.offPage()
	p.onPage(right)
	for _, o := range all {
		p.paint(right, lyingLook, o.Outer)
	}
	p.offPage()
	assert.Len(t, pile.forms, 3)
	var b bytes.Buffer
	require.NoError(t, p.pdf.Output(&b))

	img := inColour(t, saved(t, b.Bytes()), 1)
	w := pixel(90*shape.Mm) / 100
	grey, other := 0, 0
	for y := range img.h {
		for x := range w {
			a, b := pixel(12700)/100+x-20, pixel(114300)/100+x-20
			if img.step(a, y, 0, 0) > 3*5 { // from the paper's corner
				grey++
			}
			if img.step(a, y, b, y) > 3*2 {
				other++
			}
		}
	}
	assert.Greater(t, grey, 10_000)
	assert.Zero(t, other, "pixels that differ")
}

// A guide grows with the parts, not with their square: on noise, each cell's
// colour by chance.
func TestAGuideGrowsWithItsParts(t *testing.T) {
	length := func(side int) (bytes, parts int) {
		j := harbour(t, 1, func(p *project.Project) {
			random := rand.New(rand.NewPCG(uint64(side), 2))
			s := project.NewSprite("spray", side, side)
			for i := range s.Frames[0].Cells {
				s.Frames[0].Cells[i] = p.Palette[random.IntN(8)].Key
			}
			p.Sprites[0] = s
		})
		pdf, err := Write(j)
		require.NoError(t, err)
		return len(pdf), len(j.Plan.Sheets.Parts)
	}
	const fonts = 60_000 // and what else each guide holds
	smaller, few := length(10)
	larger, many := length(30)
	assert.Greater(t, many, 6*few)
	assert.Less(t, (larger-fonts)*few, 2*(smaller-fonts)*many, "%d bytes for %d parts, %d for %d", smaller, few, larger, many)
}
