package engine

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
)

// Worked by hand: a plate of 20 × 10 cells of 5 mm is 50 cm²; on A4 (623.7 cm²)
// 92 % are left; at 250 g/m² it weighs 1.25 g.
func TestFiguresOfAPlate(t *testing.T) {
	row := "kkkkkkkkkkkkkkkkkkkk\n"
	p := drawn(row + row + row + row + row + row + row + row + row + row)
	p.Sprites[0].Cell = 5 * shape.Mm
	for i := range p.Stocks {
		p.Stocks[i].Weight = 250
	}
	_, s := sheetsOf(t, p)
	f := s.Figures()
	require.Len(t, f, 1)
	assert.Equal(t, shape.Um2(50e8), f[0].Parts)
	assert.Equal(t, shape.Um2(623.7e8), f[0].Card)
	assert.Equal(t, 92, f[0].Waste())
	assert.EqualValues(t, 1250, f[0].Mass)
	assert.Equal(t, 1, f[0].Sheets)
	assert.Equal(t, s.List[0].Seconds, f[0].Seconds)
}
