package editor

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestEveryCommandIsDescribed(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range Commands() {
		assert.False(t, seen[c.Name], "%s is there twice", c.Name)
		seen[c.Name] = true
		assert.Regexp(t, `^[a-z][A-Za-z]+$`, c.Name)
		assert.Regexp(t, `^[A-Z]`, c.Title)
		assert.NotEmpty(t, c.Group)
		for _, a := range c.Args {
			assert.NotEmpty(t, a.Name, c.Name)
			assert.NotEmpty(t, a.About, "%s: %s", c.Name, a.Name)
			for _, v := range a.OneOf {
				assert.True(t, v != "" || a.Need == "if wanted", "%s: %s", c.Name, a.Name)
			}
		}
	}
	for _, name := range []string{"new", "open", "showSprite", "showView", "choose", "undo", "redo", "calibrate"} {
		assert.True(t, seen[name], name)
	}
}

// Presses that the browser or the system needs itself.
var taken = regexp.MustCompile(`^(Tab|F5|F11|F12|Ctrl\+[NTWRLPQ]|Ctrl\+Shift\+[NTWRIJC]|Alt\+Arrow(Left|Right))$`)

func TestKeysAreFreeAndWork(t *testing.T) {
	by := map[string]string{}
	for _, c := range Commands() {
		for _, k := range c.Keys {
			assert.Empty(t, by[k.Press], "%s is there twice", k.Press)
			by[k.Press] = c.Name
			assert.False(t, taken.MatchString(k.Press), k.Press)
			e := quay(t)
			run(t, e, "copy", "")
			run(t, e, "calibrate", `{"pxPerMm":4}`)
			run(t, e, "draw", `{"points":[0.5,0.5]}`)
			if c.Name == "redo" {
				run(t, e, "undo", "")
			}
			run(t, e, c.Name, k.Args)
			sound(t, e, k.Press)
		}
	}
	for _, tool := range titles {
		assert.NotEmpty(t, tool)
	}
}

// All of it can be done from the keyboard: by a key, or from the list of keys,
// which has each command with its arguments.
func TestTheListOfKeysHasEverything(t *testing.T) {
	e := quay(t)
	listed := map[string]bool{}
	result := run(t, e, "keys", "")
	for _, g := range result.([]KeyGroup) {
		assert.NotEmpty(t, g.Commands)
		for _, c := range g.Commands {
			listed[c.Command] = true
		}
	}
	assert.Len(t, listed, len(Commands()))
	_, err := json.Marshal(result)
	require.NoError(t, err)
}

func TestArgumentsAreReadStrictly(t *testing.T) {
	e := quay(t)
	for _, c := range []struct{ name, args, said string }{
		{"line", `{"x0":1}`, "line: y0 is missing"},
		{"line", `{"x0":"a","y0":1,"x1":1,"y1":1}`, "line: x0 must be a whole number, but it is string"},
		{"line", `{"x0":1.5,"y0":1,"x1":1,"y1":1}`, "line: x0 must be a whole number"},
		{"line", `[1]`, "line: its arguments aren't"},
		{"choose", `{"key":"A","and":1}`, `choose: it has nothing called "and"`},
		{"choose", `{"key":null}`, "choose: key is missing"},
		{"choose", `{"KEY":"A"}`, "choose: key is missing"},
		{"choose", `{"key":"A"} {}`, "choose: its arguments are followed by something else"},
		{"choose", `{"key":"AB"}`, `the palette has no colour "AB"`},
		{"tool", `{"tool":"spoon"}`, `tool: tool is "spoon", but must be one of pencil, rub`},
		{"draw", `{"points":[1,"x"]}`, "draw: points must be a number"},
		{"paintCells", `{"cells":[[1,2]]}`, "a cell is [column, row, key]"},
		{"paintCells", `{"cells":[[99,2,"A"]]}`, "isn't on the grid"},
		{"spoon", ``, `there is nothing called "spoon"`},
	} {
		assert.Contains(t, refused(t, e, c.name, c.args), c.said)
	}
}

// A fault of our own is told, and changes nothing.
func TestAFaultLeavesEverythingAsItWas(t *testing.T) {
	broken := command("broken", "Broken", func(e *Editor, _ none) (any, error) {
		return nil, e.do("Broken", func(c *change) error {
			e.session.Key = "Z"
			c.setSprite(e.doc.id(), nil)
			return nil
		})
	})
	all()
	list.byName["broken"] = &broken
	defer delete(list.byName, "broken")
	e := quay(t)
	was := print(e)
	_, err := e.Run("broken", nil)
	require.ErrorAs(t, err, new(*Fault))
	assert.True(t, strings.Contains(err.Error(), "nothing was changed"))
	assert.Equal(t, was, print(e))
	sound(t, e, "broken")
}
