package editor

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
)

// drawSomething is a step such as a maker makes.
func drawSomething(t testing.TB, e *Editor, r *rand.Rand) {
	w, h := e.doc.sprite().W, e.doc.sprite().H
	n := r.IntN(20)
	switch {
	case n < 14:
		points := make([]float64, 0, 40)
		x, y := r.Float64()*float64(w), r.Float64()*float64(h)
		for range 2 + r.IntN(18) {
			points = append(points, x, y)
			x, y = x+r.NormFloat64()*3, y+r.NormFloat64()*3
		}
		run(t, e, "chooseNext", fmt.Sprintf(`{"by":%d}`, r.IntN(8)))
		require.NoError(t, e.Begin(points))
		e.End()
	case n == 14:
		run(t, e, "fill", fmt.Sprintf(`{"x":%d,"y":%d}`, r.IntN(w), r.IntN(h)))
	case n == 15:
		run(t, e, "oval", fmt.Sprintf(`{"x0":%d,"y0":%d,"x1":%d,"y1":%d,"body":"filled"}`, r.IntN(w), r.IntN(h), r.IntN(w), r.IntN(h)))
	case n == 16:
		run(t, e, "shift", fmt.Sprintf(`{"dx":%d,"dy":%d}`, r.IntN(9)-4, r.IntN(9)-4))
	case n == 17:
		run(t, e, "flip", `{"over":"sideways"}`)
	case n == 18:
		if !e.doc.grid().Inked().Empty() {
			run(t, e, "move", fmt.Sprintf(`{"dx":%d,"dy":%d}`, r.IntN(3)-1, r.IntN(3)-1))
		}
	default:
		run(t, e, "setCell", fmt.Sprintf(`{"mm":%d}`, 1+r.IntN(9)))
	}
}

// canvasOf is an editor with one empty sprite of n × n cells.
func canvasOf(t testing.TB, n int) *Editor {
	p := StarterProject()
	p.Sprites = []project.Sprite{project.NewSprite("Big", n, n)}
	e, err := New(p)
	require.NoError(t, err)
	return e
}

func TestTenThousandStepsInSixtyFourMiB(t *testing.T) {
	for _, n := range []int{32, 64} {
		e := canvasOf(t, n)
		r := rand.New(rand.NewPCG(1, uint64(n)))
		for e.past.done < 5000 { // a drawing to begin with, so that steps are not all alike
			drawSomething(t, e, r)
		}
		e.past = history{}
		first := print(e)
		before := heap()
		for e.past.done < MaxSteps {
			drawSomething(t, e, r)
		}
		taken := heap() - before
		require.Len(t, e.past.steps, MaxSteps, "none was dropped")
		assert.LessOrEqual(t, e.past.bytes, MaxStepBytes)
		assert.LessOrEqual(t, taken, int64(MaxStepBytes), "as the runtime counts it")
		assert.LessOrEqual(t, taken, int64(e.past.bytes)*3/2+1<<20, "and as the history counts it itself, about")
		t.Logf("%d × %d: %.1f MiB counted, %.1f MiB taken", n, n, float64(e.past.bytes)/(1<<20), float64(taken)/(1<<20))

		last := print(e)
		for e.past.done > 0 {
			require.NoError(t, e.Undo())
		}
		assert.Equal(t, first, print(e), "all undone")
		assert.EqualError(t, e.Undo(), "there is nothing to undo")
		for e.past.done < len(e.past.steps) {
			require.NoError(t, e.Redo())
		}
		assert.Equal(t, last, print(e), "all redone")
		assert.EqualError(t, e.Redo(), "there is nothing to redo")
	}
}

// heap is how much memory is in use.
func heap() int64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return int64(m.HeapAlloc)
}

func TestTheOldestStepsGo(t *testing.T) {
	e := canvasOf(t, 8)
	for i := range MaxSteps + 50 {
		run(t, e, "setCell", fmt.Sprintf(`{"mm":%d}`, 1+i%9))
	}
	assert.Equal(t, MaxSteps, e.past.done)

	// Steps too large for the bound: the newest is always kept.
	var h history
	big := func(n int) step { return step{edits: []edit{&cellsEdit{delta: make(delta, n)}}} }
	for range 5 {
		h.add(big(MaxStepBytes / 2))
	}
	assert.Equal(t, 1, h.done)
	h.add(big(2 * MaxStepBytes))
	assert.Equal(t, 1, h.done)
	h.add(big(10))
	h.add(big(10))
	assert.Equal(t, 2, h.done)
	assert.LessOrEqual(t, h.bytes, MaxStepBytes)
}

func TestANewStepForgetsWhatWasUndone(t *testing.T) {
	e := quay(t)
	run(t, e, "draw", `{"points":[0.5,0.5]}`)
	run(t, e, "draw", `{"points":[1.5,0.5]}`)
	run(t, e, "undo", "")
	assert.Equal(t, 1, e.State().Redo)
	run(t, e, "draw", `{"points":[2.5,0.5]}`)
	s := e.State()
	assert.Equal(t, 2, s.Undo)
	assert.Zero(t, s.Redo)
	assert.Equal(t, "Pencil", s.UndoTitle)
	assert.Equal(t, "A.A.A....", s.Sprite.Rows[0])
}

func TestDeltasGoBothWays(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 9))
	for range 3000 {
		n := 1 + r.IntN(300)
		was, is := make([]byte, n), make([]byte, n)
		for i := range was {
			was[i] = "..aab"[r.IntN(5)]
			is[i] = was[i]
		}
		for range r.IntN(3) {
			at := r.IntN(n)
			for i := at; i < min(n, at+r.IntN(40)); i++ {
				is[i] = "abc."[r.IntN(4)]
			}
		}
		d := difference(was, is)
		assert.Equal(t, bytes.Equal(was, is), len(d) == 0)
		assert.LessOrEqual(t, len(d), n+5)
		there := bytes.Clone(was)
		d.apply(there)
		require.Equal(t, is, there)
		d.apply(there)
		require.Equal(t, was, there)
		require.Equal(t, is, unpack(pack(is), n))
	}
	was, is := make([]byte, 100), make([]byte, 100) // noise: the plain form
	for i := range is {
		is[i] = byte(i*37 + 1)
	}
	d := difference(was, is)
	assert.Len(t, d, 102)
	d.apply(was)
	assert.Equal(t, is, was)
}
