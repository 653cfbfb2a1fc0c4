package stack

import "slices"

// second is the second step: only some of a colour's patches show at one
// height, the others higher up, where that keeps the rest together. Small
// pieces are searched exhaustively, others by annealing orders from the first
// step's forest on. The result is never worse than that forest.
type second struct {
	g      *patches
	rules  Rules
	limit  int // most heights
	rounds int // for each piece
}

// The usual effort, and how many patches may be laid in all: pieces of more
// than pieceLayings/usualRounds patches, and drawings of more than
// drawingLayings/usualRounds, get fewer rounds, so that noise ends, too.
const (
	usualRounds    = 24_000
	pieceLayings   = 48 * usualRounds
	drawingLayings = 600 * usualRounds
)

func newSecond(g *patches, rules Rules, limit int) *second {
	n := max(1, len(g.colour))
	rounds := rules.Rounds
	if rounds == 0 {
		rounds = min(usualRounds, drawingLayings/n)
	}
	return &second{g: g, rules: rules, limit: limit, rounds: rounds}
}

// options are the best ways known to cut the piece of which start is one.
func (s *second) options(start tree) *options {
	members := start.patches()
	return s.search(members, start, s.limit)
}

// search improves a tree over the given patches.
func (s *second) search(members []int32, start tree, limit int) *options {
	g := s.g.sub(members)
	local := start.renamed(members)
	if len(members) <= exactMost {
		if o := solve(g, s.rules, anyShow, limit, exactBound); o != nil {
			return o.renamed(members)
		}
	}
	a := newAnnealer(g, s.rules, limit)
	rounds := min(s.rounds, pieceLayings/len(members))
	a.run(local.orderOf(), rounds)
	if len(members) > windowMost {
		t := a.trial.tree(a.best().order)
		inner := &second{g: g, rules: s.rules, limit: limit, rounds: rounds}
		a.keepFull(inner.windows(t, limit).orderOf())
	}
	var o options
	for i, f := range a.found {
		if f.order != nil {
			o.add(f.cost, i+1, func() tree { return a.trial.tree(f.order) })
		}
	}
	return o.renamed(members)
}

// windowMost is how many patches a window has at most: what one word holds.
const windowMost = 64

// windows searches again within each largest subtree of a large tree that is
// small enough to be searched well.
func (s *second) windows(t tree, limit int) tree {
	h := t.heights()
	size := make([]int, len(t))
	for i := len(t) - 1; i >= 0; i-- {
		size[i] += len(t[i].shows)
		if t[i].on >= 0 {
			size[t[i].on] += size[i]
		}
	}
	var out tree
	at := make([]int, len(t)) // where a part went; -1: into a window
	for i, p := range t {
		if p.on >= 0 && at[p.on] < 0 {
			at[i] = -1
			continue
		}
		on := -1
		if p.on >= 0 {
			on = at[p.on]
		}
		if size[i] <= windowMost && size[i] > 3 {
			at[i] = -1
			sub := t.subtree(i)
			o, ok := s.search(sub.patches(), sub, limit-h[i]+1).within(limit - h[i] + 1)
			if ok {
				sub = o.grow()
			}
			out = out.graft(sub, on)
			continue
		}
		at[i] = len(out)
		out = append(out, treePart{colour: p.colour, on: on, shows: p.shows})
	}
	return out
}

// subtree is part i with all that lies on it.
func (t tree) subtree(i int) tree {
	at := map[int]int{i: 0}
	out := tree{{colour: t[i].colour, on: -1, shows: t[i].shows}}
	for k := i + 1; k < len(t); k++ {
		if on, ok := at[t[k].on]; ok {
			at[k] = len(out)
			out = append(out, treePart{colour: t[k].colour, on: on, shows: t[k].shows})
		}
	}
	return out
}

// patches of all parts, ascending.
func (t tree) patches() []int32 {
	var all []int32
	for _, p := range t {
		all = append(all, p.shows...)
	}
	slices.Sort(all)
	return all
}

// renamed is the tree with each patch called by its place among members, which ascend.
func (t tree) renamed(members []int32) tree {
	out := slices.Clone(t)
	for i := range out {
		out[i].shows = slices.Clone(t[i].shows)
		for k, p := range out[i].shows {
			at, _ := slices.BinarySearch(members, p)
			out[i].shows[k] = int32(at)
		}
	}
	return out
}

// renamed are the options with patch i called members[i] again.
func (o *options) renamed(members []int32) *options {
	for i := range o.list {
		grow := o.list[i].grow
		o.list[i].grow = func() tree {
			t := grow()
			for k := range t {
				shows := make([]int32, len(t[k].shows))
				for j, p := range t[k].shows {
					shows[j] = members[p]
				}
				t[k].shows = shows
			}
			return t
		}
	}
	return o
}
