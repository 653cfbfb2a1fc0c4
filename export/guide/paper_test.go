package guide

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

func TestPaperFor(t *testing.T) {
	in := A4
	in.Inches = true
	mm := Letter
	mm.Inches = false
	for _, c := range []struct {
		w, h  shape.Um
		paper project.GuidePaper
		units project.Units
		want  Paper
	}{
		{210000, 297000, "", "", A4},
		{279400, 215900, "", "", Letter},
		{304800, 304800, "", "", Letter}, // 12 in
		{210000, 297000, project.PaperLetter, "", Letter},
		{304800, 304800, project.PaperA4, "", A4},
		{210000, 297000, "", project.MmAndInch, in},
		{210000, 297000, project.PaperLetter, project.OnlyMm, mm},
	} {
		p := &project.Project{Settings: project.Settings{SheetW: c.w, SheetH: c.h, Paper: c.paper, Units: c.units}}
		assert.Equal(t, c.want, PaperFor(p), c)
	}
}
