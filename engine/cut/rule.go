package cut

import (
	"slices"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Rule is how the parts of one stock are cut.
type Rule struct {
	Kerf  shape.Um
	Tab   shape.Um // what is left standing; 0: no tabs
	Marks project.Marks
	Face  project.Face
	Whole []int    // numbers of the layers whose parts stay in a frame
	Stay  shape.Um // what is left standing at their tabs
	Rooms []Room   // of all sheets and offcuts that there are
	Large project.Large
}

// tabOf is what is left standing at the tabs of a layer's parts; 0: no tabs.
func (r Rule) tabOf(layer *outline.Layer) shape.Um {
	if slices.Contains(r.Whole, layer.Number) {
		return r.Stay
	}
	return r.Tab
}

// Room is what a sheet's margins leave for cut lines.
type Room struct {
	W, H  shape.Um
	Grain bool // parts may not be turned by a quarter
}

// Rules say how each stock of a project is cut.
func Rules(p *project.Project, stocks []project.Stock) []Rule {
	m := p.Machine()
	rules := make([]Rule, len(stocks))
	for i, st := range stocks {
		r := Rule{Kerf: p.Settings.KerfOf(st), Marks: m.Marks, Face: st.Face, Rooms: rooms(p, st), Large: project.LargeWhole}
		if m.Kind == project.LaserCutter && p.Settings.Hold == project.Tabs {
			r.Tab = p.Settings.Tab
		}
		if CanSplit(p) {
			r.Large = p.Settings.Large
		}
		rules[i] = r
	}
	return rules
}

// CanSplit says whether parts can be cut in pieces at all: not where every layer
// stays at its true place.
func CanSplit(p *project.Project) bool { return p.Settings.Layout != project.InRegister }

// Margins are what must stay free of cut lines along the edges of a sheet on the
// machine.
func Margins(p *project.Project) (left, right, bottom, top shape.Um) {
	m, margin := p.Machine(), p.Settings.Margin
	over := Reach(m)
	return max(margin, m.Left+over), max(margin, m.Right+over), max(margin, m.Bottom+over), max(margin, m.Top+over)
}

// Reach is how far a machine runs on past a corner: a knife by its blade's offset.
func Reach(m project.Machine) shape.Um {
	if m.Kind == project.Knife {
		return m.BladeOffset
	}
	return 0
}

// rooms are what all sheets and offcuts of a stock leave within their margins.
func rooms(p *project.Project, st project.Stock) []Room {
	left, right, bottom, top := Margins(p)
	grain := st.HasGrain()
	var out []Room
	add := func(w, h shape.Um) { out = append(out, Room{w - left - right, h - bottom - top, grain}) }
	offcuts, sheets, more := p.SheetSizes(st)
	for _, c := range offcuts {
		add(c.W, c.H)
	}
	for _, s := range sheets {
		add(s.W, s.H)
	}
	add(more.W, more.H)
	return out
}

// Holds says whether a finished part of w × h fits one of the sheets.
func (r Rule) Holds(w, h shape.Um) bool {
	half := HalfKerf(r.Kerf)
	return r.Takes(w+2*half, h+2*half)
}

// Takes says whether a cut line of w × h fits one of the sheets, as the grain lets
// it be turned.
func (r Rule) Takes(w, h shape.Um) bool {
	return slices.ContainsFunc(r.Rooms, func(room Room) bool {
		return w <= room.W && h <= room.H || !room.Grain && h <= room.W && w <= room.H
	})
}
