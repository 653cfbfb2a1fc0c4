package editor

// Bounds of what undo keeps.
const (
	MaxSteps     = 10_000
	MaxStepBytes = 64 << 20
)

// step is what one undo takes back: one stroke, one command.
type step struct {
	title    string // what it did: "Line", "Add a colour"
	edits    []edit
	benchWas bench
	benchNow bench
	selected bool // the step also changed what is selected
	was, now *Selection
	bytes    int
}

// history is the steps made so far. steps[:done] can be undone, the rest redone.
// Invariant: the steps kept are at most MaxSteps and, but for the newest one,
// at most MaxStepBytes.
type history struct {
	steps []step
	done  int
	bytes int
}

// add puts a new step on top, drops what could have been redone, and forgets
// the oldest steps beyond the bounds.
func (h *history) add(s step) {
	for i := h.done; i < len(h.steps); i++ {
		h.bytes -= h.steps[i].bytes
		h.steps[i] = step{}
	}
	h.steps = h.steps[:h.done]
	s.bytes = s.size()
	h.bytes += s.bytes
	h.steps = append(h.steps, s)
	drop := 0
	for n := len(h.steps); n-drop > 1 && (n-drop > MaxSteps || h.bytes > MaxStepBytes); drop++ {
		h.bytes -= h.steps[drop].bytes
		h.steps[drop] = step{}
	}
	h.steps = h.steps[drop:]
	h.done = len(h.steps)
}

func (s *step) size() int {
	n := 160 + len(s.title)
	for _, e := range s.edits {
		n += 16 + e.size()
	}
	if s.selected && s.now != nil && s.now.lifted() && (s.was == nil || !s.was.lifted()) {
		n += len(s.now.under) + len(s.now.Ink.Cells) // shared by the moves that follow
	}
	return n
}
