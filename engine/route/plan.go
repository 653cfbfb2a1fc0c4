package route

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// Route is what the machine does on one sheet, in order.
type Route struct {
	Strokes []Stroke
	Cut     shape.Um // length of all cuts, every pass counted, without lead-ins; with a blade what the machine drives
	Leads   shape.Um // length of all lead-ins
	Marked  shape.Um // length of all marks
	Travel  shape.Um // beam off, each move rounded to the nearest µm
	Floor   shape.Um // no order has less travel than this (see Sheet.floor)
	Skips   Skips    // what the machine file leaves out, which counts neither as travel nor as time
}

// Stroke is one uninterrupted line.
type Stroke struct {
	Path   shape.Contour // from its first vertex on; an open one ends in its last vertex, whose Turn counts for nothing
	Closed Closed        // returns to its first vertex
	Kind   Kind
	Source int           // index into Sheet.Loops or Sheet.Marks
	Pass   int           // from 0
	Lead   *shape.Point  // where a lead-in begins; nil: there is none
	Drive  shape.Contour // an open line that the machine drives so that a blade cuts Path; nil: Path itself
}

// Skips says what a machine file leaves out.
type Skips uint8

// What is left out.
const (
	Nothing   Skips = iota
	SkipMarks       // nobody entered how to draw them
)

// skips says whether a stroke is left out.
func (r *Route) skips(s *Stroke) bool { return r.Skips == SkipMarks && s.Kind == Marking }

// Kind says what a stroke does.
type Kind uint8

// The kinds of strokes.
const (
	Cutting Kind = iota
	Marking
)

// Begin is where the stroke begins, Finish where it ends.
func (s Stroke) Begin() shape.Point { return s.Path[0].Point }

// Finish is where the stroke ends.
func (s Stroke) Finish() shape.Point {
	if s.Closed {
		return s.Path[0].Point
	}
	return s.Path[len(s.Path)-1].Point
}

// Plan orders a sheet. The same sheet always gives the same route.
//
// Errors: the first rule of Sheet that is broken.
func Plan(s Sheet) (Route, error) {
	if err := s.Validate(); err != nil {
		return Route{}, err
	}
	passes := max(1, s.Passes)
	repeats := 1
	if s.Repeat == WholeSheet {
		passes, repeats = 1, passes
	}
	var r Route
	here := s.Start
	marks := s.markNodes()
	cuts := s.cutNodes(passes)
	end := s.End
	if len(cuts) > 0 {
		end = Anywhere
	}
	for _, st := range s.shortest(marks, here, end).strokes(Marking, 1) {
		r.add(st, &here)
	}
	if len(cuts) > 0 {
		// The rounds over the whole sheet are equal; all but the last go on
		// to the next one's first cut.
		once := s.byRank(cuts, here, passes)
		for p := range repeats {
			for _, st := range once {
				st.Pass += p
				r.add(st, &here)
			}
		}
	}
	if s.End == AtStart && len(r.Strokes) > 0 {
		r.Travel += length(here, s.Start)
	}
	r.Floor = s.floor(marks, cuts)
	return r, nil
}

// add appends a stroke and counts its length and the way to it.
func (r *Route) add(st Stroke, here *shape.Point) {
	r.Travel += length(*here, st.Begin())
	*here = st.Finish()
	n := st.Length()
	if st.Kind == Marking {
		r.Marked += n
	} else {
		r.Cut += n
	}
	r.Strokes = append(r.Strokes, st)
}

// shortest orders nodes.
func (s Sheet) shortest(nodes []node, start shape.Point, end End) *tour {
	t := newTour(nodes, start, end)
	if len(nodes) == 0 {
		return t
	}
	m := newImprover(t, s.Share)
	m.wakeAll()
	m.run()
	m.shake(t.kicks(s.Share))
	t.bestWays()
	m.wakeAll()
	m.run()
	t.everyStart()
	return t
}

// byRank orders the cuts, those of one rank after the other.
func (s Sheet) byRank(cuts []node, here shape.Point, passes int) []Stroke {
	ranks := s.ranks(cuts)
	levels := slices.Clone(ranks)
	slices.Sort(levels)
	levels = slices.Compact(levels)
	if len(levels) == 1 {
		return s.shortest(cuts, here, s.End).strokes(Cutting, passes)
	}
	var out []Stroke
	for i, level := range levels {
		var some []node
		to := make([]int32, len(cuts)) // where each comes to stand
		for k, n := range cuts {
			to[k] = int32(len(some))
			if ranks[k] == level {
				some = append(some, n)
			}
		}
		for k := range some {
			var must []int32
			for _, m := range some[k].must { // those of higher ranks come later anyway
				if ranks[m] == level {
					must = append(must, to[m])
				}
			}
			some[k].must = must
		}
		end := Anywhere
		if i == len(levels)-1 {
			end = s.End
		}
		out = append(out, s.shortest(some, here, end).strokes(Cutting, passes)...)
		here = out[len(out)-1].Finish()
	}
	return out
}

// ranks are those of the nodes' loops, raised where something of a higher one
// must come before.
func (s Sheet) ranks(cuts []node) []int {
	ranks := make([]int, len(cuts))
	for i, n := range cuts {
		ranks[i] = s.Loops[n.item].Rank
	}
	for changed := true; changed; {
		changed = false
		for i, n := range cuts {
			for _, m := range n.must {
				if ranks[m] < ranks[i] {
					ranks[m], changed = ranks[i], true
				}
			}
		}
	}
	return ranks
}

// markNodes are the marks.
func (s Sheet) markNodes() []node {
	var nodes []node
	for i, m := range s.Marks {
		if m.Closed || len(m.Path) == 1 {
			nodes = append(nodes, closedNode(i, m.Path))
		} else {
			nodes = append(nodes, openNode(i, []shape.Contour{m.Path}, 1))
		}
	}
	return nodes
}

// cutNodes are the loops, with what must come before what: what lies inside a
// loop before it. Where a loop's whole line is cut with others', what lies
// inside comes before all of those, unless it is one of them.
func (s Sheet) cutNodes(passes int) []node {
	parent := inside(s.Loops)
	depth := make([]int, len(parent))
	for i := range parent {
		for p := parent[i]; p >= 0; p = parent[p] {
			depth[i]++
		}
	}
	first := make([]int, len(parent)) // the deepest first
	for i := range first {
		first[i] = i
	}
	slices.SortStableFunc(first, func(a, b int) int { return cmp.Compare(depth[b], depth[a]) })
	gaps, owners := leaveOut(s.Loops, first)
	var nodes []node
	nodeOf := make([]int32, len(parent))
	for i, l := range s.Loops {
		nodeOf[i] = -1
		n := node{item: i}
		if len(gaps[i]) == 0 {
			n = closedNode(i, l.Contour)
		} else if lines := openLines(l.Contour, gaps[i]); len(lines) > 0 {
			n = openNode(i, lines, passes)
		} else {
			continue
		}
		nodeOf[i] = int32(len(nodes))
		nodes = append(nodes, n)
	}
	for i, n := range nodeOf {
		if n < 0 {
			continue
		}
		for p := parent[i]; p >= 0; p = parent[p] {
			if nodeOf[p] >= 0 {
				nodes[n].must = append(nodes[n].must, nodeOf[p])
				break
			}
			if slices.Contains(owners[p], i) {
				continue
			}
			for _, o := range owners[p] {
				if nodeOf[o] >= 0 && o != i {
					nodes[n].must = append(nodes[n].must, nodeOf[o])
				}
			}
		}
	}
	return nodes
}

// strokes writes the tour out.
func (t *tour) strokes(kind Kind, passes int) []Stroke {
	var out []Stroke
	for _, n := range t.order {
		nd := &t.nodes[n]
		lines := nd.lines(nd.ways[t.way[n]])
		for p := range passes {
			for k, l := range lines {
				if p%2 == 1 && nd.shut == nil { // back the way it came
					l = backwards(lines[len(lines)-1-k])
				}
				out = append(out, Stroke{Path: l, Closed: Closed(nd.shut != nil), Kind: kind, Source: nd.item, Pass: p})
			}
		}
	}
	return out
}

// Length is the stroke's length, rounded to the nearest µm.
func (s Stroke) Length() shape.Um {
	if s.Closed {
		return s.Path.Length()
	}
	n := len(s.Path)
	var sum shape.Um
	for i := range n - 1 {
		sum += edgeLength(s.Path[i], s.Path[i+1].Point)
	}
	return sum
}
