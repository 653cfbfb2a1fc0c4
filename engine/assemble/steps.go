package assemble

import (
	"cmp"
	"slices"
)

// Step is what is placed in one go: parts of one stock at one height, each on
// something that lies there already.
type Step struct {
	Stock  int
	Height int
	Layer  int   // index into Layout.Layers
	Parts  []int // by Index
}

// steps orders the parts. A part comes after the one that it rests on, and
// nothing else can ever lie beneath it, since parts above one another in plan
// rest on one another. As long as parts of the stock in hand can be placed the
// stock stays (a layer that is laid down at once waits for all that its parts rest
// on); then comes the one of which most can be placed in a row, of
// equals the one that comes first.
func (b *builder) steps() []Step {
	stocks := 0
	for _, p := range b.plan.Parts {
		stocks = max(stocks, p.Stock+1)
	}
	placed := make([]bool, len(b.plan.Parts))
	var out []Step
	for left := len(placed); left > 0; {
		var run []int
		for s := range stocks {
			if r := b.run(s, placed); len(r) > len(run) {
				run = r
			}
		}
		if len(run) == 0 {
			panic("assemble: parts rest on one another in a circle")
		}
		left -= len(run)
		for _, i := range run {
			placed[i] = true
			p := b.plan.Parts[i]
			if n := len(out); n == 0 || out[n-1].Stock != p.Stock || out[n-1].Height != p.Height {
				out = append(out, Step{Stock: p.Stock, Height: p.Height, Layer: p.Layer})
			}
			step := &out[len(out)-1]
			step.Parts = append(step.Parts, i)
		}
	}
	return out
}

// run is the parts of a stock that can be placed one after the other, by height
// and then Index.
func (b *builder) run(stock int, placed []bool) []int {
	var run []int
	now := slices.Clone(placed)
	for again := true; again; {
		again = false
		for i, p := range b.plan.Parts {
			if p.Stock == stock && !now[i] && b.ready(i, now) {
				now[i] = true
				run = append(run, i)
				again = true
			}
		}
	}
	slices.SortFunc(run, func(i, k int) int {
		return cmp.Or(cmp.Compare(b.plan.Parts[i].Height, b.plan.Parts[k].Height), cmp.Compare(i, k))
	})
	return run
}

// ready says whether what a part rests on lies there; of a layer that is laid down at
// once, what all of its parts rest on.
func (b *builder) ready(index int, placed []bool) bool {
	lies := func(i int) bool { on := b.plan.Parts[i].On; return on < 0 || placed[on] }
	layer := b.plan.Parts[index].Layer
	if !slices.Contains(b.options.Whole, layer) {
		return lies(index)
	}
	for _, p := range b.layout.Layers[layer].Parts {
		if !lies(p.Index) {
			return false
		}
	}
	return true
}

// leastApart is from how many parts on it a part is worth making up apart from
// the rest.
const leastApart = 3

// Apart is the parts that can be made up with all that lies on them before they
// are placed, by Index: the lowest ones, above the first height, that carry at
// least leastApart others, where as many are left to be placed beside them.
func (p *Plan) Apart() []int {
	carries := make([]int, len(p.Parts))
	order := make([]int, len(p.Parts))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, k int) int { return cmp.Compare(p.Parts[k].Height, p.Parts[i].Height) })
	for _, i := range order { // highest first
		if on := p.Parts[i].On; on >= 0 {
			carries[on] += carries[i] + 1
		}
	}
	chain := make([]int, len(p.Parts)) // what a part rests on, down to the board
	var out []int
	inside := make([]bool, len(p.Parts))
	slices.Reverse(order)
	for _, i := range order {
		q := p.Parts[i]
		if q.On < 0 {
			continue
		}
		inside[i], chain[i] = inside[q.On], chain[q.On]+1
		rest := len(p.Parts) - chain[i] - 1 - carries[i]
		if !inside[i] && carries[i] >= leastApart && rest >= leastApart {
			out = append(out, i)
			inside[i] = true
		}
	}
	slices.Sort(out)
	return out
}
