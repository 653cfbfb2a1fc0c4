package gesture_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"sheetsprite/editor/gesture"
)

// told writes what is done as a line of words.
func told(actions []gesture.Action) string {
	var words []string
	for _, a := range actions {
		switch a.Verb {
		case gesture.Begin:
			word := "begin"
			if a.Rub {
				word = "rub"
			}
			words = append(words, fmt.Sprintf("%s %g,%g", word, a.X, a.Y))
		case gesture.Extend:
			words = append(words, fmt.Sprintf("to %g,%g", a.X, a.Y))
		case gesture.End:
			words = append(words, "end")
		case gesture.Abandon:
			words = append(words, "abandon")
		case gesture.Pinch:
			words = append(words, fmt.Sprintf("move %g,%g x%g", a.X-a.FromX, a.Y-a.FromY, a.Factor))
		case gesture.Show:
			words = append(words, "show")
		case gesture.Hide:
			words = append(words, "hide")
		case gesture.Pick:
			words = append(words, fmt.Sprintf("pick %g,%g", a.X, a.Y))
		}
	}
	return strings.Join(words, "; ")
}

const (
	down, move, up, cancel, hover, leave = gesture.Down, gesture.Move, gesture.Up, gesture.Cancel, gesture.Hover, gesture.Leave
	mouse, pen, touch                    = gesture.Mouse, gesture.Pen, gesture.Touch
)

func at(k gesture.Kind, d gesture.Device, id int32, x, y, t float64) gesture.Sample {
	return gesture.Sample{Kind: k, Device: d, ID: id, X: x, Y: y, Time: t, Buttons: 1}
}

func TestWhoDoesWhat(t *testing.T) {
	with := func(s gesture.Sample, buttons uint8, held gesture.Held) gesture.Sample {
		s.Buttons, s.Held = buttons, held
		return s
	}
	cases := []struct {
		name    string
		samples []gesture.Sample
		want    string
	}{
		{"a pen draws", []gesture.Sample{at(hover, pen, 1, 0, 0, 0), at(down, pen, 1, 1, 1, 1), at(move, pen, 1, 2, 1, 2), at(up, pen, 1, 2, 1, 3)},
			"show; begin 1,1; to 2,1; end; hide"},
		{"the pen's other end rubs out", []gesture.Sample{with(at(down, pen, 1, 1, 1, 1), 32, 0), at(up, pen, 1, 1, 1, 2)}, "rub 1,1; end; hide"},
		{"the barrel button picks", []gesture.Sample{with(at(down, pen, 1, 1, 1, 1), 3, 0)}, "pick 1,1"},
		{"with no pen about a finger draws", []gesture.Sample{at(down, touch, 7, 1, 1, 0), at(move, touch, 7, 5, 1, 9), at(up, touch, 7, 5, 1, 20)},
			"begin 1,1; to 5,1; end; hide"},
		{"two fingers move", []gesture.Sample{at(down, touch, 7, 0, 0, 0), at(down, touch, 8, 10, 0, 50), at(move, touch, 8, 20, 0, 60), at(up, touch, 7, 0, 0, 70), at(move, touch, 8, 23, 0, 80)},
			"begin 0,0; abandon; move 5,0 x2; hide; move 3,0 x1"},
		{"a second finger late in a stroke does nothing", []gesture.Sample{at(down, touch, 7, 0, 0, 0), at(move, touch, 7, 30, 0, 500), at(down, touch, 8, 10, 0, 900), at(move, touch, 8, 20, 0, 910), at(move, touch, 7, 31, 0, 920)},
			"begin 0,0; to 30,0; to 31,0"},
		{"a second finger late beside one that rests moves", []gesture.Sample{at(down, touch, 7, 0, 0, 0), at(down, touch, 8, 10, 0, 900), at(move, touch, 8, 20, 0, 910)},
			"begin 0,0; abandon; move 5,0 x2"},
		{"after a pen one finger moves", []gesture.Sample{at(down, pen, 1, 1, 1, 0), at(up, pen, 1, 1, 1, 5), at(leave, pen, 1, 1, 1, 6), at(down, touch, 7, 0, 0, 5000), at(move, touch, 7, 3, 4, 5010)},
			"begin 1,1; end; hide; hide; move 3,4 x1"},
		{"long after a pen a finger draws again", []gesture.Sample{at(down, pen, 1, 1, 1, 0), at(up, pen, 1, 1, 1, 5), at(leave, pen, 1, 1, 1, 6), at(down, touch, 7, 0, 0, 700_000)},
			"begin 1,1; end; hide; hide; begin 0,0"},
		{"a palm beside a pen does nothing", []gesture.Sample{at(down, pen, 1, 1, 1, 0), at(down, touch, 7, 50, 50, 5), at(move, touch, 7, 60, 60, 9), at(move, pen, 1, 2, 1, 10)},
			"begin 1,1; to 2,1"},
		{"a palm under a hovering pen does nothing", []gesture.Sample{at(hover, pen, 1, 1, 1, 0), at(hover, pen, 1, 1, 1, 2990), at(down, touch, 7, 50, 50, 3000), at(move, touch, 7, 60, 60, 3009)}, "show; show"},
		{"a palm down before its pen leaves no trace", []gesture.Sample{at(down, touch, 7, 50, 50, 0), at(move, touch, 7, 52, 50, 5), at(hover, pen, 1, 1, 1, 80), at(down, pen, 1, 1, 1, 120), at(move, touch, 7, 55, 50, 130)},
			"begin 50,50; to 52,50; abandon; show; begin 1,1"},
		{"a cancelled finger is taken back", []gesture.Sample{at(down, touch, 7, 0, 0, 0), at(cancel, touch, 7, 0, 0, 10), at(down, touch, 8, 4, 4, 20)}, "begin 0,0; abandon; hide; begin 4,4"},
		{"the mouse's right button rubs out", []gesture.Sample{with(at(down, mouse, 1, 3, 3, 0), 2, 0), at(up, mouse, 1, 3, 3, 1)}, "rub 3,3; end"},
		{"the mouse's middle button moves", []gesture.Sample{with(at(down, mouse, 1, 3, 3, 0), 4, 0), at(move, mouse, 1, 5, 3, 1), at(up, mouse, 1, 5, 3, 1)}, "move 2,0 x1"},
		{"the hand key moves", []gesture.Sample{with(at(down, mouse, 1, 3, 3, 0), 1, gesture.MoveKey), at(move, mouse, 1, 5, 3, 1)}, "move 2,0 x1"},
		{"the pick key picks", []gesture.Sample{with(at(down, mouse, 1, 3, 3, 0), 1, gesture.PickKey), at(move, mouse, 1, 5, 3, 1)}, "pick 3,3"},
		{"three fingers are two", []gesture.Sample{at(down, touch, 7, 0, 0, 0), at(down, touch, 8, 10, 0, 10), at(down, touch, 9, 10, 9, 20), at(move, touch, 9, 10, 90, 30)}, "begin 0,0; abandon"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			var h gesture.Hands
			var out []gesture.Action
			for _, s := range c.samples {
				out = h.Feed(s, out)
			}
			assert.Equal(t, c.want, told(out))
		})
	}
}
