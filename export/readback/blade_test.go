package readback

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
)

// A square of 4 mm begun in the middle of its lower edge, worked out by hand: the
// machine is 0.5 mm in front of the tip, turns about each corner, and ends 0.8 mm past
// the beginning.
const ncBlade = "G0 X4.5 Y2\nM3 S400\n" +
	"G1 X6.5 Y2 F1500\nG3 X6 Y2.5 I-0.5 J0\nG1 X6 Y6.5\nG3 X5.5 Y6 I0 J-0.5\n" +
	"G1 X1.5 Y6\nG3 X2 Y5.5 I0.5 J0\nG1 X2 Y1.5\nG3 X2.5 Y2 I0 J0.5\nG1 X4.5 Y2\nG1 X5.3 Y2\nM5\n"

func knifeTool(offset, overcut int64) tool {
	m := project.NewMachine("Knife", project.Knife)
	m.Beam = project.M3
	t := toolOf(m, project.Use{Passes: 1}, 10000, 10000)
	t.offset, t.overcut = offset, overcut
	return t
}

func TestTheBladesTipIsFollowed(t *testing.T) {
	square := ring(vertex{x: 4000, y: 2000}, vertex{x: 6000, y: 2000}, vertex{x: 6000, y: 6000}, vertex{x: 2000, y: 6000}, vertex{x: 2000, y: 2000})
	other := ring(vertex{x: 4000, y: 2000}, vertex{x: 6000, y: 2000}, vertex{x: 6000, y: 6010}, vertex{x: 2000, y: 6010}, vertex{x: 2000, y: 2000})
	pen := drawn{line: line{contour: contour{{x: 3000, y: 3000}, {x: 4000, y: 3000}}, open: true}, mark: true, power: 90000, feed: 4800000}
	const penText = "G0 X3 Y3\nM3 S90\nG1 X4 Y3 F4800\nM5\n"
	change := func(old, with string) string {
		require.Contains(t, ncBlade, old)
		return strings.Replace(ncBlade, old, with, 1)
	}
	for _, c := range []struct {
		what  string
		tool  tool
		text  string
		lines []drawn
		wrong string
	}{
		{"as worked out", knifeTool(500, 800), ncBlade, []drawn{square}, ""},
		{"another overcut", knifeTool(500, 700), ncBlade, []drawn{square}, "next line"},
		{"no overcut", knifeTool(500, 800), change("G1 X5.3 Y2\n", ""), []drawn{square}, "next line"},
		{"another line", knifeTool(500, 800), ncBlade, []drawn{other}, "next line"},
		{"another offset", knifeTool(400, 800), ncBlade, []drawn{square}, "aslant"},
		{"no swivel", knifeTool(500, 800), change("G3 X6 Y2.5 I-0.5 J0\nG1 X6 Y6.5", "G1 X6 Y6.5"), []drawn{square}, "aslant"},
		{"backwards", knifeTool(500, 800), change("G1 X5.3 Y2\n", "G1 X4 Y2\n"), []drawn{square}, "aslant"},
		{"overcut aside", knifeTool(500, 800), change("G1 X5.3 Y2\n", "G3 X4 Y2.5 I-0.5 J0\nG1 X4 Y3.3\n"), []drawn{square}, "next line"},
		{"a pen before it", knifeTool(500, 800), penText + "M0\n" + ncBlade, []drawn{pen, square}, ""},
		{"nobody changes the pen", knifeTool(500, 800), penText + ncBlade, []drawn{pen, square}, "waits"},
		{"a wait too many", knifeTool(500, 800), "M0\n" + ncBlade, []drawn{square}, "waits"},
		{"the blade down while waiting", knifeTool(500, 800), change("F1500\n", "F1500\nM0\n"), []drawn{square}, "with the beam on"},
	} {
		t.Run(c.what, func(t *testing.T) {
			_, leads, err := c.tool.machineFile([]byte(ncText(c.text)), c.lines)
			if c.wrong != "" {
				require.Error(t, err)
				assert.Contains(t, err.Error(), c.wrong)
				return
			}
			require.NoError(t, err)
			assert.Empty(t, leads)
		})
	}
}
