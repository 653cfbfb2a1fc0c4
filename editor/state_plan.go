package editor

import (
	"slices"

	"sheetsprite/editor/plan"
)

// FindingState is a finding as the page shows it.
type FindingState struct {
	Code     string        `json:"code"`
	Severity string        `json:"severity"`
	Text     string        `json:"text"`
	Count    int           `json:"count"`
	Places   []PlaceState  `json:"places"` // in cells of the grid
	Remedies []RemedyState `json:"remedies"`
}

// PlaceState is a place in cell coordinates.
type PlaceState struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// RemedyState is a remedy: a button that runs a command.
type RemedyState struct {
	Text    string   `json:"text"`
	Command string   `json:"command"`
	Args    string   `json:"args"` // JSON
	Asks    []string `json:"asks"`
	Sure    bool     `json:"sure"`
}

func planState(p *plan.Summary, stale bool) PlanState {
	s := PlanState{Stale: stale, Findings: []FindingState{}}
	if p == nil {
		return s
	}
	s.Top = mm(p.Top)
	s.Parts, s.Heights, s.Patches, s.Tweezers, s.Seconds, s.Problem = p.Parts, p.Heights, p.Patches, p.Tweezers, p.Seconds, p.Problem
	for _, f := range p.Findings {
		g := FindingState{Code: f.Code, Severity: f.Severity, Text: f.Text, Count: f.Count, Places: []PlaceState{}, Remedies: []RemedyState{}}
		for _, at := range f.Places {
			g.Places = append(g.Places, PlaceState(at))
		}
		for _, r := range f.Remedies {
			g.Remedies = append(g.Remedies, RemedyState{r.Text, r.Command, string(r.Args), slices.Concat([]string{}, r.Asks), r.Sure})
		}
		s.Findings = append(s.Findings, g)
	}
	return s
}

// stackEntries are the colours as the newest plan has them, highest place
// first, then those that it doesn't have yet or that the sprite doesn't use.
func (e *Editor) stackEntries(p *plan.Summary) []StackEntry {
	st := &e.doc.sprite().Stack
	list := []StackEntry{}
	known := map[string]bool{}
	if p != nil {
		for _, c := range p.Colours {
			s := StackEntry{Stock: c.Stock, Heights: slices.Clone(c.Heights), Parts: c.Parts}
			if c.Key != 0 {
				if e.doc.colour(c.Key) < 0 {
					continue // gone since
				}
				s.Key = string(c.Key)
				known[s.Key] = true
			}
			list = append(list, s)
		}
	}
	for _, c := range e.doc.Project.Palette {
		if k := string(c.Key); !known[k] {
			list = append(list, StackEntry{Key: k, Stock: c.Stock, Heights: []int{}})
		}
	}
	for i := range list {
		s := &list[i]
		s.Over = []string{}
		if s.Key == "" {
			continue
		}
		k := s.Key[0]
		switch {
		case has(st.Lowest, k):
			s.Pinned = "lowest"
		case has(st.Highest, k):
			s.Pinned = "highest"
		}
		if has(st.Spare, k) {
			s.Spare = "spare"
		}
		if has(st.OutlineOnTop, k) {
			s.Outline = "on top"
		}
		for _, u := range st.Under {
			if u.Over == k {
				s.Over = append(s.Over, string(u.Under))
			}
		}
	}
	return list
}
