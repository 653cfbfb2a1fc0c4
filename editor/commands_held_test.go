package editor

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// What broke on a test piece becomes wider, each time a step that can be taken back.
func TestWhatBrokeBecomesWider(t *testing.T) {
	e := quay(t)
	st := e.doc.Project.Stocks[0]
	cell := e.doc.Project.Sprites[0].Cell
	strip := func() shape.Um { s, _ := e.doc.Project.StockByID(st.ID); return s.LeastStrip }

	was := strip()
	run(t, e, "itBroke", `{"stock":"`+st.ID+`","what":"strip"}`)
	assert.Greater(t, strip(), was)
	run(t, e, "undo", `{}`)
	assert.Equal(t, was, strip())

	run(t, e, "itBroke", `{"stock":"`+st.ID+`","what":"tab"}`)
	assert.Equal(t, shape.Um(500), e.doc.Project.Settings.Tab, "a quarter more than 0.4 mm")
	run(t, e, "undo", `{}`)
	assert.Equal(t, project.UsualTab, e.doc.Project.Settings.Tab)
	run(t, e, "setTab", `{"mm":4.5}`)
	assert.Contains(t, refused(t, e, "itBroke", `{"stock":"`+st.ID+`","what":"tab"}`), "4.5 mm already")

	steps := 0
	for ; steps < 20; steps++ {
		was := e.doc.Project.Settings.Join
		if _, err := e.Run("itBroke", []byte(`{"stock":"`+st.ID+`","what":"join"}`)); err != nil {
			assert.Contains(t, err.Error(), "has no room in cells")
			break
		}
		assert.Greater(t, e.doc.Project.Settings.Join, was)
		assert.LessOrEqual(t, 2*e.doc.Project.Settings.Join, cell)
	}
	assert.Positive(t, steps)
	assert.Less(t, steps, 20)
	assert.Contains(t, refused(t, e, "itBroke", `{"stock":"none","what":"strip"}`), "no stock")
	assert.NotEmpty(t, refused(t, e, "itBroke", `{"stock":"`+st.ID+`","what":"beam"}`))
}
