package editor

import (
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
)

// Whatever is done, in whatever order: the project stays valid, what fails
// changes nothing, and undo and redo give exactly what was.
func TestAnyCommandsCanBeUndone(t *testing.T) {
	ran, worked := map[string]int{}, map[string]int{}
	for seed := range uint64(25) {
		e := quay(t)
		e.setShelf(project.StarterShelves()[0].Shelf)
		c := chance{rand.New(rand.NewPCG(seed, 7)), e}
		prints := []uint64{print(e)} // after each step that can be undone
		for i := range 250 {
			// Opening forgets the steps; it has a test of its own.
			cmd := c.some("open", "new", "reopen")
			for range c.IntN(4) * 3 { // rather one that hasn't worked yet
				if worked[cmd.Name] == 0 {
					break
				}
				cmd = c.some("open", "new", "reopen")
			}
			args := c.args(cmd)
			if c.IntN(4) > 0 {
				e.LaidArrived(c.laid())
				e.AssemblyArrived(c.assembly())
			}
			if e.stroke != nil && !cmd.inStroke { // as Run does, but seen
				e.End()
				prints = remember(prints, e)
			}
			what := fmt.Sprintf("seed %d, %d: %s %.200s", seed, i, cmd.Name, args)
			was, depth, drawing := print(e), e.past.done, e.stroke != nil
			_, err := e.Run(cmd.Name, args)
			ran[cmd.Name]++
			var fault *Fault
			require.False(t, errors.As(err, &fault), "%s: %v", what, err)
			sound(t, e, what)
			if err == nil {
				worked[cmd.Name]++
			}
			if err != nil && !drawing {
				require.Equal(t, was, print(e), what)
				require.Equal(t, depth, e.past.done, what)
			}
			if e.stroke != nil {
				continue
			}
			if len(prints) > e.past.done && prints[e.past.done] != 0 && (cmd.Name == "undo" || cmd.Name == "redo") && !drawing {
				require.Equal(t, prints[e.past.done], print(e), what)
			}
			prints = remember(prints, e)
		}
		e.End()
		for e.past.done < len(e.past.steps) {
			require.NoError(t, e.Redo())
		}
		last, n := print(e), e.past.done
		prints = remember(prints, e)
		for e.past.done > 0 {
			require.NoError(t, e.Undo())
			sound(t, e, "undo")
			if e.past.done < len(prints) && prints[e.past.done] != 0 {
				require.Equal(t, prints[e.past.done], print(e), "seed %d, undone to %d", seed, e.past.done)
			}
		}
		require.Equal(t, prints[0], print(e), "seed %d: all undone", seed)
		for e.past.done < n {
			require.NoError(t, e.Redo())
			sound(t, e, "redo")
		}
		require.Equal(t, last, print(e), "seed %d: all redone", seed)
	}
	for _, cmd := range Commands() {
		switch cmd.Name {
		case "open", "new", "reopen":
			continue
		}
		require.Positive(t, ran[cmd.Name], cmd.Name)
		require.Positive(t, worked[cmd.Name], "%s never worked with random arguments", cmd.Name)
	}
}

// remember notes how the document is after the steps done so far; 0 where it
// wasn't seen.
func remember(prints []uint64, e *Editor) []uint64 {
	for len(prints) <= len(e.past.steps) {
		prints = append(prints, 0)
	}
	prints[e.past.done] = print(e)
	return prints[:len(e.past.steps)+1]
}

func FuzzRun(f *testing.F) {
	e := quay(f)
	c := chance{rand.New(rand.NewPCG(1, 8)), e}
	for _, cmd := range Commands() {
		f.Add(cmd.Name, []byte(c.args(named(cmd.Name))), "undo", []byte(""))
	}
	f.Add("begin", []byte(`{"points":[0,0]}`), "extend", []byte(`{"points":[5,5]}`))
	f.Add("open", []byte(`{"project":"{"}`), "reopen", []byte("{"))
	f.Fuzz(func(t *testing.T, name string, args []byte, name2 string, args2 []byte) {
		e := quay(t)
		for _, step := range []struct {
			name string
			args []byte
		}{{name, args}, {name2, args2}, {"markAll", nil}, {name, args}} {
			was, drawing := print(e), e.stroke != nil
			_, err := e.Run(step.name, json.RawMessage(step.args))
			var fault *Fault
			require.False(t, errors.As(err, &fault), "%v", err)
			if err != nil && !drawing {
				require.Equal(t, was, print(e))
			}
			sound(t, e, step.name)
			_ = e.State()
		}
	})
}
