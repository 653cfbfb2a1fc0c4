package readback

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
)

// ncText is a machine file with a body between its head and its end.
func ncText(body string) string {
	return "(Cut: a test)\nG21\nG90\nM5\n" + body + "M5\nG0 X0 Y0\nM2\n"
}

const ncSquare = "G0 X1 Y1\nM4 S400\nG1 X3 Y1 F1500\nG1 X3 Y3\nG1 X1 Y3\nG1 X1 Y1\nM5\n"

func movesOf(s string) (moves []ncMove, err error) {
	err = readGCode([]byte(s), func(m ncMove) error {
		moves = append(moves, m)
		return nil
	})
	return moves, err
}

// Words by RS-274's meaning: what isn't said again stays as it was, feed and power
// come before the beam, and the beam before the move.
func TestReadGCode(t *testing.T) {
	moves, err := movesOf(ncText(ncSquare))
	require.NoError(t, err)
	require.Len(t, moves, 6)
	assert.Equal(t, ncMove{line: 5, to: xy{1000, 1000}}, moves[0])
	assert.Equal(t, ncMove{line: 7, from: xy{1000, 1000}, to: xy{3000, 1000}, stroke: 1, beam: 4, power: 400000, feed: 1500000}, moves[1])
	assert.Equal(t, ncMove{line: 13, from: xy{1000, 1000}, to: xy{}, power: 400000, feed: 1500000}, moves[5])
	for _, same := range []string{
		"G0X1Y1\nM4S400\nG1X3F1500\nY3\nX1\nY1\nM5\n",
		"G0 X1.000 Y+1.0\r\nS400.0 M4 (on)\r\nF1500 X3 G1\r\n\r\nY3.0000\nX1\nY1\nM5\n",
	} {
		again, err := movesOf(ncText(same))
		require.NoError(t, err, same)
		for i := range again {
			again[i].line = moves[i].line
		}
		assert.Equal(t, moves, again)
	}
	moves, err = movesOf(ncText("G0 X2 Y0\nM3 S0.4\nG3 X0 Y2 I-2 J0 F10\nG2 X2 Y0 J-2\nM5\n"))
	require.NoError(t, err)
	assert.EqualValues(t, []int64{1, -1}, []int64{moves[1].turn, moves[2].turn})
	assert.Equal(t, xy{}, moves[1].centre)
	assert.InDelta(t, 3141.593, moves[1].length(), 0.001)
	least, most := moves[1].bounds()
	assert.Equal(t, []xy{{0, 0}, {2000, 2000}}, []xy{least, most})
}

func TestReadGCodeRefuses(t *testing.T) {
	whole := ncText(ncSquare)
	change := func(old, with string) string {
		require.Contains(t, whole, old)
		return strings.Replace(whole, old, with, 1)
	}
	for _, c := range []struct{ give, want string }{
		{"", "without the word for the end"},
		{change("M2\n", ""), "without the word for the end"},
		{whole + "G0 X1 Y1\n", "something follows the end"},
		{change("G21\n", ""), "before millimetres"},
		{change("G90\n", ""), "absolute places"},
		{change("G90\nM5\n", "G90\n"), "before the beam is switched off"},
		{change("Y1\nM5\nM5\nG0 X0", "Y1\nG0 X0"), "a rapid move with the beam on"},
		{change("Y1\nM5\nM5\nG0 X0 Y0\n", "Y1\n"), "ends with the beam on"},
		{change("M4 S400", "M4"), "without power"},
		{change("M4 S400", "M4 S0"), "without power"},
		{change(" F1500", ""), "without a feed"},
		{change("M4 S400\n", "M4 S400\nM4\n"), "switched on twice"},
		{change("M4 S400\n", "M4 S400\nM5\nM4\n"), "without a move"},
		{change("G1 X3 Y3", "G1 X3 Y3 I1"), "a centre for a straight move"},
		{change("G1 X3 Y3", "G1"), "without a place"},
		{change("G1 X3 Y3", "G2 X3 Y3 I1 J0"), "different circles"},
		{change("G1 X3 Y3", "G2 X3 Y1 I1 J0"), "ends where it begins"},
		{change("G1 X3 Y3", "G2 X3 Y3 I-0.1 J1"), "more than half a turn"},
		{change("G1 X3 Y3", "G5 X3 Y3"), "G5 isn't one of these"},
		{change("G90", "G91"), "G91 isn't one of these"},
		{change("G21", "G20"), "G20 isn't one of these"},
		{change("G1 X3 Y3", "G1 G0 X3 Y3"), "don't go together"},
		{change("G1 X3 Y3", "G1 X3 X3"), "don't go together"},
		{change("G1 X3 Y3", "G1 X3.0001 Y3"), "at most 3 decimals"},
		{change("G1 X3 Y3", "G1 X Y3"), "at most 3 decimals"},
		{change("G1 X3 Y3", "G1 X99999999 Y3"), "further than any machine"},
		{change("G1 X3 Y3", "G1 Z3"), "Z3 isn't one of these"},
		{change("G1 X3 Y3", "g1 x3"), "is no word"},
		{change("(Cut: a test)", "(Cut: a test"), "isn't closed"},
		{change("(Cut: a test)", "(Cut: (a) test)"), "isn't closed"},
		{change("F1500", "F-1500"), "isn't one of these"},
	} {
		_, err := movesOf(c.give)
		if assert.Error(t, err, c.want) {
			assert.Contains(t, err.Error(), c.want)
		}
	}
}

// ring is a closed line to be cut with the power and feed of ncSquare.
func ring(c ...vertex) drawn {
	return drawn{line: line{contour: c}, layer: "CUT-a", power: 400000, feed: 1500000}
}

func openLine(c ...vertex) drawn {
	l := ring(c...)
	l.open = true
	return l
}

func laserTool(passes int, whole bool) tool {
	m := project.NewMachine("Laser", project.LaserCutter)
	u := project.Use{Passes: passes, Order: project.ContourByContour}
	if whole {
		u.Order = project.WholeSheet
	}
	return toolOf(m, u, 10000, 10000)
}

// What several lines that touch or lie over one another leave open is closed by
// their order; passes are run to and fro, or all lines again and again; closed
// lines may begin elsewhere when the whole sheet is run again.
func TestMachineFileDrawsTheLines(t *testing.T) {
	square := ring(vertex{x: 1000, y: 1000}, vertex{x: 3000, y: 1000}, vertex{x: 3000, y: 3000}, vertex{x: 1000, y: 3000})
	begun := ring(vertex{x: 2000, y: 1000}, vertex{x: 3000, y: 1000}, vertex{x: 3000, y: 3000}, vertex{x: 1000, y: 3000}, vertex{x: 1000, y: 1000})
	a := openLine(vertex{x: 5000, y: 1000}, vertex{x: 6000, y: 1000}, vertex{x: 6000, y: 2000})
	b := openLine(vertex{x: 6000, y: 2500}, vertex{x: 6000, y: 4000})
	const (
		on    = "M4 S400\n"
		aText = "G0 X5 Y1\n" + on + "G1 X6 Y1 F1500\nG1 X6 Y2\nM5\n"
		aBack = "G0 X6 Y2\n" + on + "G1 X6 Y1\nG1 X5 Y1\nM5\n"
		bText = "G0 X6 Y2.5\n" + on + "G1 X6 Y4 F1500\nM5\n"
		bBack = "G0 X6 Y4\n" + on + "G1 X6 Y2.5\nM5\n"
		mid   = "G0 X2 Y1\n" + on + "G1 X3 Y1 F1500\nG1 X3 Y3\nG1 X1 Y3\nG1 X1 Y1\nG1 X2 Y1\nM5\n"
		led   = "G0 X2 Y0.5\n" + on + "G1 X2 Y1 F1500\nG1 X3 Y1\nG1 X3 Y3\nG1 X1 Y3\nG1 X1 Y1\nG1 X2 Y1\nM5\n"
	)
	for _, c := range []struct {
		what  string
		tool  tool
		lines []drawn
		text  string
		wrong string // "" where all is well
	}{
		{"in order", laserTool(1, false), []drawn{square, a, b}, ncSquare + aText + bText, ""},
		{"in another order", laserTool(1, false), []drawn{square, a, b}, ncSquare + bText + aText, "next line"},
		{"twice", laserTool(1, false), []drawn{square}, ncSquare + ncSquare, "goes on after"},
		{"not at all", laserTool(1, false), []drawn{square, a}, ncSquare, "isn't drawn"},
		{"from its other end", laserTool(1, false), []drawn{a}, "G0 X6 Y2\n" + on + "G1 X6 Y1 F1500\nG1 X5 Y1\nM5\n", "next line"},
		{"lines that are equal", laserTool(1, false), []drawn{a, a, square, square}, aText + aText + ncSquare + ncSquare, ""},
		{"to and fro", laserTool(2, false), []drawn{a, b, square}, aText + bText + bBack + aBack + ncSquare + ncSquare, ""},
		{"to and fro, line by line", laserTool(2, false), []drawn{a, b}, aText + aBack + bText + bBack, ""},
		{"three times", laserTool(3, false), []drawn{a}, aText + aBack + aText, ""},
		{"a pass too few", laserTool(3, false), []drawn{a}, aText + aBack, "as often as it must"},
		{"all again", laserTool(2, true), []drawn{begun, a}, mid + aText + ncSquare + aText, ""},
		{"begun elsewhere at first", laserTool(1, true), []drawn{begun}, ncSquare, "next line"},
		{"all again, backwards", laserTool(2, true), []drawn{a}, aText + aBack, "next line"},
		{"with a lead-in", laserTool(1, false), []drawn{begun}, led, ""},
		{"another power", laserTool(1, false), []drawn{square}, strings.Replace(ncSquare, "S400", "S401", 1), "power and feed"},
		{"another feed", laserTool(1, false), []drawn{square}, strings.Replace(ncSquare, "F1500", "F1501", 1), "power and feed"},
		{"another beam", laserTool(1, false), []drawn{square}, strings.Replace(ncSquare, "M4", "M3", 1), "asks for M4"},
		{"another feed in between", laserTool(1, false), []drawn{square}, strings.Replace(ncSquare, "X3 Y3", "X3 Y3 F2000", 1), "within a line"},
		{"off the sheet", laserTool(1, false), []drawn{square}, ncSquare + "G0 X11 Y1\n", "leaves the sheet"},
		{"not closed", laserTool(1, false), []drawn{square}, strings.Replace(ncSquare, "G1 X1 Y1\n", "", 1), "next line"},
	} {
		t.Run(c.what, func(t *testing.T) {
			f, leads, err := c.tool.machineFile([]byte(ncText(c.text)), c.lines)
			if c.wrong != "" {
				require.Error(t, err)
				assert.Contains(t, err.Error(), c.wrong)
				return
			}
			require.NoError(t, err)
			assert.Positive(t, f.cut)
			if c.what == "with a lead-in" {
				require.Len(t, leads, 1)
				assert.InDelta(t, 500, f.lead, 1e-9)
				assert.InDelta(t, 8500, f.cut, 1e-9)
			}
		})
	}
}

// A lead-in beside its line lies in scrap; one that runs through a part, or out of
// a neighbour that shares the line, doesn't.
func TestLeadsLieInScrap(t *testing.T) {
	own := ring(vertex{x: 2000, y: 1000}, vertex{x: 3000, y: 1000}, vertex{x: 3000, y: 3000}, vertex{x: 1000, y: 3000}, vertex{x: 1000, y: 1000})
	box := func(x0, y0, x1, y1 int64) []around {
		return []around{boxed(contour{{x: x0, y: y0}, {x: x1, y: y0}, {x: x1, y: y1}, {x: x0, y: y1}}, false)}
	}
	mine := box(1050, 1050, 2950, 2950) // half a kerf of 50 µm within the line
	from := func(x, y int64) []lead {
		return []lead{{own: &own, from: vertex{x: x, y: y}, to: own.contour[0]}}
	}
	neighbour := box(1050, 0, 2950, 950)
	round := []around{boxed(contour{{x: 2000, y: 900, arc: 400}, {x: 2000, y: 100, arc: 400}}, false)}
	for _, c := range []struct {
		leads []lead
		parts [][]around
		fine  bool
	}{
		{from(2000, 500), [][]around{mine}, true},
		{from(2000, 1500), [][]around{mine}, false},
		{from(2000, 500), [][]around{mine, neighbour}, false},
		{from(2000, 500), [][]around{mine, append(box(0, 0, 4000, 4000), box(900, 400, 3100, 3100)...)}, true},
		{from(2000, 500), [][]around{mine, append(box(0, 0, 4000, 4000), box(900, 540, 3100, 3100)...)}, false},
		{from(2000, 500), [][]around{mine, round}, false},
	} {
		err := outsideParts(c.leads, c.parts, 50)
		assert.Equal(t, c.fine, err == nil, "%v", err)
	}
	other := openLine(vertex{x: 1500, y: 700}, vertex{x: 2500, y: 700})
	assert.NoError(t, besideLines(from(2000, 500), []drawn{own}, 100))
	assert.Error(t, besideLines(from(2000, 1500), []drawn{own}, 100))
	assert.Error(t, besideLines(from(2000, 500), []drawn{own, other}, 100))
}

func FuzzReadGCode(f *testing.F) {
	f.Add(ncText(ncSquare))
	f.Add(ncText("G0 X2 Y0\nM3 S0.4\nG3 X0 Y2 I-2 J0 F10\nM5\n"))
	f.Add("G21 G90 M5\nG0 X1\nM2")
	f.Fuzz(func(t *testing.T, s string) {
		moves, err := movesOf(s)
		at := xy{}
		for _, m := range moves {
			assert.Equal(t, at, m.from)
			assert.True(t, max(m.to.x, -m.to.x, m.to.y, -m.to.y) <= farthest)
			assert.True(t, m.stroke == 0 || m.power > 0 && m.feed > 0)
			at = m.to
		}
		if err == nil {
			assert.True(t, strings.Contains(s, "M") && strings.Contains(s, "2"))
		}
		_, _, _ = laserTool(2, false).machineFile([]byte(s), []drawn{ring(vertex{x: 1000, y: 1000}, vertex{x: 3000, y: 1000}, vertex{x: 3000, y: 3000}, vertex{x: 1000, y: 3000})})
	})
}
