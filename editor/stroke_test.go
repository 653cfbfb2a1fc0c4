package editor

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func small(t testing.TB, w, h string) *Editor {
	e := quay(t)
	run(t, e, "new", `{"width":`+w+`,"height":`+h+`}`)
	return e
}

func TestAStrokeIsOneStepWithoutGaps(t *testing.T) {
	e := small(t, "8", "4")
	require.NoError(t, e.Begin([]float64{0.1, 0.1}))
	e.Extend([]float64{7.9, 3.9})
	e.Extend([]float64{7.9, 0.2, 6.2, 0.2})
	assert.True(t, e.Drawing())
	e.End()
	assert.Equal(t, grid(`
		AA....AA
		..AA...A
		....AA.A
		......AA`), rows(e))
	assert.Equal(t, 1, e.State().Undo)
	run(t, e, "undo", "")
	assert.Equal(t, grid("........ ........ ........ ........"), rows(e))
}

func TestAStrokeOutsideTheGrid(t *testing.T) {
	e := small(t, "4", "3")
	require.NoError(t, e.Begin([]float64{-2, 1.5, math.NaN(), 1, 1e300, 1.5}))
	e.End()
	assert.Equal(t, grid(".... AAAA ...."), rows(e), "a line through the grid leaves its cells")
	require.NoError(t, e.Begin(nil), "no point, no stroke")
	assert.False(t, e.Drawing())
	e.Extend([]float64{1, 1})
	e.End()
	assert.Equal(t, 1, e.State().Undo)
}

func TestToolsOnTheGrid(t *testing.T) {
	for name, c := range map[string]struct{ prepare, want string }{
		"line": {"", `A..... .A.... ..A... ...A..`},
		"box":  {"", `AAAA.. A..A.. A..A.. AAAA..`},
		"oval": {"", `.AA... A..A.. A..A.. .AA...`},
		"rub":  {`{"x0":0,"y0":0,"x1":5,"y1":3,"body":"filled"}`, `.AAAAA A.AAAA AA.AAA AAA.AA`},
	} {
		e := small(t, "6", "4")
		if c.prepare != "" {
			run(t, e, "box", c.prepare)
		}
		run(t, e, "tool", `{"tool":"`+name+`"}`)
		require.NoError(t, e.Begin([]float64{0.5, 0.5}))
		e.Extend([]float64{5.5, 0.5, 2.5, 3.5}) // a figure goes where the last point is
		e.Cancel()
		was := rows(e)
		require.NoError(t, e.Begin([]float64{0.5, 0.5}))
		e.Extend([]float64{3.5, 3.5})
		e.End()
		assert.Equal(t, grid(c.want), rows(e), name)
		run(t, e, "undo", "")
		assert.Equal(t, was, rows(e), name)
	}
}

func TestFillAndPickAreDoneAtOnce(t *testing.T) {
	e := quay(t)
	run(t, e, "choose", `{"key":"D"}`)
	run(t, e, "tool", `{"tool":"fill"}`)
	require.NoError(t, e.Begin([]float64{4.5, 3.5}))
	assert.False(t, e.Drawing())
	assert.Equal(t, "..ADDDA..", e.State().Sprite.Rows[3])
	run(t, e, "fill", `{"x":0,"y":0,"reach":"everywhere","key":"E"}`)
	assert.Equal(t, "EEEEAEEEE", e.State().Sprite.Rows[0])
	run(t, e, "tool", `{"tool":"pick"}`)
	require.NoError(t, e.Begin([]float64{4.5, 5.5}))
	assert.Equal(t, "C", e.State().Hand.Key)
	assert.Equal(t, Pencil, e.State().Hand.Tool, "to draw with what was picked")
	assert.Contains(t, refused(t, quay(t), "pick", `{"x":0,"y":0}`), "empty")
}

func TestBothSides(t *testing.T) {
	e := small(t, "7", "4")
	run(t, e, "bothSides", `{"sides":"left-right"}`)
	run(t, e, "draw", `{"points":[0.5,0.5,2.5,2.5]}`)
	assert.Equal(t, grid("A.....A .A...A. ..A.A.. ......."), rows(e))
	run(t, e, "bothSides", `{"sides":"all-four"}`)
	run(t, e, "fill", `{"x":3,"y":0,"key":"B"}`)
	assert.Equal(t, grid("ABBBBBA BABBBAB BBABABB BBBBBBB"), rows(e))
	run(t, e, "new", `{"width":4,"height":4}`)
	assert.Equal(t, "off", string(e.State().Hand.Sides), "a new project draws one side")
}

func TestTheKeyboardDraws(t *testing.T) {
	e := small(t, "5", "3")
	key := func(presses ...string) {
		for _, p := range presses {
			for _, c := range Commands() {
				for _, k := range c.Keys {
					if k.Press == p {
						run(t, e, c.Name, k.Args)
					}
				}
			}
		}
	}
	key("ArrowRight", "Space", "Shift+ArrowDown", "Shift+ArrowRight")
	assert.Equal(t, grid(".A... .AA.. ....."), rows(e))
	assert.Equal(t, &CellState{2, 1}, e.State().Cursor)
	key("B", "Space", "ArrowRight", "ArrowDown", "Space")
	assert.Equal(t, grid(".A... .AAA. ..AA."), rows(e))
	assert.Equal(t, 4, e.State().Undo)
	key("R", "Space", "Escape")
	assert.Equal(t, grid(".A... .AAA. ..A.."), rows(e))
	assert.Nil(t, e.State().Cursor)
	key("O", "Space", "ArrowLeft", "Escape")
	assert.Equal(t, grid(".A... .AAA. ..A.."), rows(e), "let go")
	key("ArrowDown", "ArrowDown", "ArrowDown")
	assert.Equal(t, 2, e.State().Cursor.Y, "it stays on the grid")
}

func TestNoMoreThanTwentyFourColours(t *testing.T) {
	e := small(t, "30", "2")
	for i := range 24 {
		run(t, e, "addColour", `{"colour":"#0000`+string("0123456789abcdef"[i/16])+string("0123456789abcdef"[i%16])+`"}`)
		require.NoError(t, e.Begin([]float64{float64(i) + 0.5, 0.5}))
		e.End()
	}
	run(t, e, "choose", `{"key":"A"}`)
	said := e.Begin([]float64{28.5, 0.5})
	require.Error(t, said)
	assert.Contains(t, said.Error(), "may have 24")
	assert.False(t, e.Drawing())
	refused(t, e, "fill", `{"x":29,"y":0}`)
	refused(t, e, "outline", `{}`)
	refused(t, e, "replaceColour", `{"from":".","to":"A"}`)
	refused(t, e, "paintCells", `{"cells":[[0,1,"A"]]}`)
	run(t, e, "addFrame", "") // frames share the limit
	refused(t, e, "draw", `{"points":[0.5,0.5]}`)
	run(t, e, "rub", `{"points":[0.5,0.5]}`)
	require.NoError(t, e.Project().Validate())
}
