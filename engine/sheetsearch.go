package engine

import (
	"fmt"
	"slices"

	"sheetsprite/engine/cut"
	"sheetsprite/engine/inspect"
	"sheetsprite/engine/nest"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// PlanSheets lays all parts of a plan on sheets, or those that are chosen, and
// adds what it finds to the plan's findings; where there are more than MostParts
// there are no sheets. The same project always gives the same sheets, whatever
// the options.
//
// Errors: a *project.InputError where a part is chosen that isn't there; else
// only of broken invariants: what is wrong with a project is a finding.
func PlanSheets(p *project.Project, plan *Planned, o Options) error {
	n, err := newSheetSearch(p, plan, o)
	if err != nil {
		return err
	}
	if err := n.settle(o); err != nil {
		return err
	}
	sheets, findings, err := n.Best(o)
	if err != nil {
		return err
	}
	plan.Sheets, plan.Findings = sheets, findings
	return nil
}

// SheetSearch lays a plan's parts on sheets and goes on improving that for as
// long as it is told to; it always holds the best.
type SheetSearch struct {
	p      *project.Project
	plan   *Planned
	parts  []Part
	pieces [][]cut.Piece // as Sheets.Pieces
	facts  inspect.Cutting
	stocks []stockSearch
	next   int // stock that is improved next
	many   bool
}

// stockSearch is the search for one stock's sheets.
type stockSearch struct {
	stock  project.Stock
	job    nest.Job
	who    [][]int      // by piece, then copy: index into parts
	search *nest.Search // nil in register
	found  nest.Nesting // in register, or known from before
	kept   *keptNest    // what is known from before; nil: nothing
}

// StartSheets makes a first answer for a plan; for a stock that o.Cache knows, the
// answer that Run found then.
//
// Errors: as for PlanSheets.
func StartSheets(p *project.Project, plan *Planned, o Options) (*SheetSearch, error) {
	n, err := newSheetSearch(p, plan, o)
	if err != nil {
		return nil, err
	}
	return n, n.eachStock(o, func(s *stockSearch) error { return n.first(s, o) })
}

// newSheetSearch makes the pieces and sorts them by stock; nothing is laid yet.
func newSheetSearch(p *project.Project, plan *Planned, o Options) (*SheetSearch, error) {
	n := &SheetSearch{p: p, plan: plan, facts: inspect.Cutting{Machine: p.Machine()}}
	total := 0
	for _, sp := range plan.Sprites {
		total += sp.Parts() * p.CopiesOf(sp.Index)
	}
	if total > MostParts {
		n.facts.TooMany(total, MostParts)
		n.many = true
		return n, nil
	}
	leave := o.enter(StageCut)
	n.cut(o)
	leave()
	for _, number := range p.Choice.Parts {
		if !slices.ContainsFunc(n.parts, func(q Part) bool { return q.Piece.Called() == number }) {
			return nil, &project.InputError{Where: "choice", What: fmt.Sprintf("there is no part %q to be cut again: numbers are as in A2-3, and stand in the guide and in job.json", number)}
		}
	}
	defer o.enter(StageNest)()
	for _, stock := range stocksInOrder(p, plan) {
		if n.facts.Faulty(stock.ID) {
			continue
		}
		s := stockSearch{stock: stock}
		s.job, s.who = nestJob(p, plan, n.parts, stock)
		if len(s.job.Pieces) == 0 {
			continue // none of its parts was chosen
		}
		n.stocks = append(n.stocks, s)
	}
	all := 0
	for i := range n.stocks {
		all += n.stocks[i].copies()
	}
	for i := range n.stocks {
		n.stocks[i].job.Beside = all - n.stocks[i].copies()
	}
	return n, nil
}

// copies is how much is laid of a stock.
func (s *stockSearch) copies() (sum int) {
	for _, who := range s.who {
		sum += len(who)
	}
	return sum
}

// first makes a stock's first answer.
func (n *SheetSearch) first(s *stockSearch, o Options) (err error) {
	if n.p.Settings.Layout == project.InRegister {
		s.found, err = inRegister(n.p, n.plan, n.parts, s.job, s.who)
		return err
	}
	if s.kept = o.Cache.nested(s.job, n.p.Settings.Effort); s.kept != nil {
		s.found = s.kept.found
		return nil
	}
	s.search, err = nest.Start(s.job)
	return err
}

// settle is first and Run for each stock, several at a time; what a search holds
// goes as soon as it is through, as there is much of it.
func (n *SheetSearch) settle(o Options) error {
	return n.eachStock(o, func(s *stockSearch) error {
		if err := n.first(s, o); err != nil {
			return err
		}
		if s.search != nil {
			n.run(s, o)
			s.found, s.search = s.search.Best(), nil
		}
		return nil
	})
}

// eachStock does something for each stock, several at a time.
func (n *SheetSearch) eachStock(o Options, job func(s *stockSearch) error) error {
	defer o.enter(StageNest)()
	errs := make([]error, len(n.stocks))
	o.each(len(n.stocks), func(i int) { errs[i] = job(&n.stocks[i]) })
	for i, err := range errs {
		if err != nil {
			return fmt.Errorf("stock %s: %w", n.stocks[i].stock.ID, err)
		}
	}
	return nil
}

// Run searches for as long as the project's effort asks.
func (n *SheetSearch) Run(o Options) {
	defer o.enter(StageNest)()
	for i := range n.stocks {
		if q := &n.stocks[i]; q.search != nil {
			n.run(q, o)
		}
	}
}

// run searches one stock for as long as the project's effort asks.
func (n *SheetSearch) run(s *stockSearch, o Options) {
	s.search.Run(nest.Effort(n.p.Settings.Effort), max(1, o.Workers))
	o.Cache.keepNest(keptNest{s.job, n.p.Settings.Effort, s.search.Best(), s.search.Done()})
}

// cut makes the pieces and lists the parts.
func (n *SheetSearch) cut(o Options) {
	p := n.p
	for i, sp := range n.plan.Sprites {
		src := &p.Sprites[sp.Index]
		pieces, whole := n.piecesOf(sp, o)
		n.pieces = append(n.pieces, pieces)
		n.facts.Add(src, sp.Stocks, pieces)
		if p.Settings.Layout == project.InRegister {
			meetings(src, sp, pieces, &n.facts)
		}
		for c := range p.CopiesOf(sp.Index) {
			if c > 0 && len(p.Choice.Parts) > 0 {
				break // one of each again
			}
			from := len(n.parts)
			for k := range pieces {
				if !p.Choice.Wants(pieces[k].Number) {
					continue
				}
				for _, piece := range pieces[k].Cut() {
					n.parts = append(n.parts, Part{Sprite: i, Copy: c + 1, Piece: piece, Sheet: -1, Numbered: OnMap})
				}
			}
			n.frame(i, c+1, from, whole)
		}
	}
}

// Improve searches for some rounds more, in one stock after the other, and says
// whether the best answer is better than before. It depends on the rounds spent,
// not on the workers.
func (n *SheetSearch) Improve(rounds, workers int) (better bool) {
	for range n.stocks {
		q := &n.stocks[n.next%len(n.stocks)]
		n.next++
		if q.done() {
			continue
		}
		if q.search == nil {
			var err error
			if q.search, err = nest.Start(q.job); err != nil {
				panic("engine: a job that was nested before: " + err.Error())
			}
			q.search.Run(nest.Effort(n.p.Settings.Effort), max(1, workers))
			if q.search.Done() {
				continue
			}
		}
		return bool(q.search.Improve(rounds, max(1, workers)))
	}
	return false
}

// Done says that going on is no use.
func (n *SheetSearch) Done() bool {
	return !slices.ContainsFunc(n.stocks, func(s stockSearch) bool { return !s.done() })
}

// done says that going on is no use for a stock.
func (s *stockSearch) done() bool {
	switch {
	case s.search != nil:
		return s.search.Done()
	case s.kept != nil:
		return s.kept.done
	}
	return true // in register
}

// Best is the best answer so far, with its cuts in order, and the plan's findings
// with those that sheets bring about. The plan stays as it is.
//
// Errors: only of broken invariants.
func (n *SheetSearch) Best(o Options) (*Sheets, []inspect.Finding, error) {
	facts := n.facts
	if n.many {
		return nil, inspect.WithCutting(n.p, n.plan.bare(), facts), nil
	}
	s := &Sheets{Machine: n.p.Machine(), Parts: slices.Clone(n.parts), Pieces: n.pieces}
	for i := range n.stocks {
		q := &n.stocks[i]
		found := q.found
		if q.search != nil {
			found = q.search.Best()
		}
		facts.Supplied(n.p, q.stock, found)
		s.lay(n.p, q.stock, q.job, q.who, found)
	}
	if err := s.order(o); err != nil {
		return nil, nil, err
	}
	if err := s.jigs(n.p, n.plan, &facts); err != nil {
		return nil, nil, err
	}
	return s, inspect.WithCutting(n.p, n.plan.bare(), facts), nil
}

// bare are the plan's findings without those that sheets bring about.
func (plan *Planned) bare() []inspect.Finding {
	return slices.DeleteFunc(slices.Clone(plan.Findings), func(f inspect.Finding) bool { return inspect.OfSheets(f.Code) })
}

// meetings finds, for every layer that stays in register, the first place where
// the cuts of two of its parts would meet.
func meetings(src *project.Sprite, sp Sprite, pieces []cut.Piece, facts *inspect.Cutting) {
	for _, l := range slices.Concat(sp.Layout.Layers, sp.Spacers) {
		var taken shape.Region
		for k := range l.Parts {
			piece := &pieces[l.Parts[k].Index]
			if len(piece.Faults) > 0 || !piece.Straight() {
				continue // a border's parts lie further apart
			}
			line := shape.FromPolygons(piece.Line.Polygon()).Grow(1) // beside one another is too near
			if both := line.Intersect(taken); !both.Empty() {
				facts.Meet(src, sp.Stocks[l.Stock], l.Number, both.Rects()[0].Min)
				break
			}
			taken = taken.Union(line)
		}
	}
}

// stocksInOrder are the stocks that have parts.
func stocksInOrder(p *project.Project, plan *Planned) []project.Stock {
	var out []project.Stock
	add := func(st project.Stock) {
		if !slices.ContainsFunc(out, func(o project.Stock) bool { return o.ID == st.ID }) {
			out = append(out, st)
		}
	}
	for _, st := range p.Stocks {
		for _, sp := range plan.Sprites {
			for _, l := range slices.Concat(sp.Layout.Layers, sp.Spacers) {
				if sp.Stocks[l.Stock].ID == st.ID {
					add(st)
				}
			}
		}
	}
	return out
}
