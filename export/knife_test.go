package export

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// A knife's blade offset and overcut are the bench's, and are told on every sheet's
// drawing and in README.txt; where there are none both are left to the machine's
// own program. The lines are the same either way; the machine files hold the blade's
// way already and say so.
func TestBladesAreToldOnTheFiles(t *testing.T) {
	lines := map[string]string{}
	for _, c := range []struct {
		offset, overcut shape.Um
		want            []string
	}{
		{0, 0, []string{"Blade offset: left to your machine's program.", "Overcut, beyond where a contour began: left to your machine's program."}},
		{250, 1500, []string{"Blade offset: set 0.25 mm in your machine's program.", "Overcut, beyond where a contour began: set 1.5 mm in your machine's program."}},
		{250, 0, []string{"Blade offset: set 0.25 mm in your machine's program.", "Overcut, beyond where a contour began: left to your machine's program."}},
	} {
		m := project.NewMachine("Knife", project.Knife)
		m.BladeOffset, m.Overcut = c.offset, c.overcut
		j := sheeted(t, quay(t, m, nil))
		bundle, err := Build(j)
		require.NoError(t, err)
		_, files := contents(t, bundle)
		_, sheets := nameFiles(j)
		require.NotEmpty(t, sheets)
		for _, w := range c.want {
			assert.Contains(t, files["README.txt"], w)
			for _, f := range sheets {
				require.NotEmpty(t, f.gcode)
				held := strings.ReplaceAll(strings.ReplaceAll(w, " set ", " "), " in your machine's program.", ", already applied.")
				if strings.Contains(w, "left to") {
					held = w
				}
				assert.Contains(t, files[f.gcode], held)
				assert.Contains(t, files["README.txt"], held)
				assert.Contains(t, strings.ReplaceAll(files[f.svg], "&#39;", "'"), w)
			}
		}
		for _, f := range sheets {
			if lines[f.dxf] == "" {
				lines[f.dxf] = files[f.dxf]
			}
			assert.Equal(t, lines[f.dxf], files[f.dxf])
		}
	}
	m := project.NewMachine("Laser", project.LaserCutter)
	bundle, err := Build(sheeted(t, quay(t, m, nil)))
	require.NoError(t, err)
	_, files := contents(t, bundle)
	assert.NotContains(t, files["README.txt"], "Blade offset")
}
