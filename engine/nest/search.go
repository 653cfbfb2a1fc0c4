package nest

import (
	"slices"
	"sync"

	"sheetsprite/engine/shape"
)

// Search goes on improving an answer for as long as it is told to, and always
// holds the best one. Between two calls of Improve it may be left or dropped.
type Search struct {
	p       *problem
	lanes   []lane
	through *through // among the lanes; nil where the set is too large
	best    answer
	sheets  int // bounds that no answer goes below
	top     shape.Um

	quick     bool // the first answer lays coarse shapes
	firstWork int  // what the first answer took
	lanesFrom int  // granted work from which on there are other lanes
	granted   int  // work that each lane was given so far
}

// lane is one way of searching; lanes know nothing of one another.
type lane interface {
	improve(until int) // goes on until so much work is spent in all; what one step takes too much counts
	spent() int
	found() answer
	idle() bool // there is nothing left to try
}

// laneCount is the same on every machine, so that the answer is too.
const laneCount = 4

// roundWork is what each lane does in a round, in elementary steps: about
// 5 ms on the machine it was written on, so that a page stays live.
const roundWork = 400_000

// Start checks the job and makes the first answer.
//
// Errors: the first rule of Job that is broken.
func Start(j Job) (*Search, error) {
	if err := j.Validate(); err != nil {
		return nil, err
	}
	p := newProblem(j)
	s := &Search{p: p}
	s.sheets, s.top = p.least()
	s.quick = p.isLarge() && !p.suitsSkyline()
	var first lane
	if s.quick {
		first = newReorder(p.coarse(), 0)
	} else {
		first = s.newLane(0)
	}
	s.lanes = []lane{first}
	s.best = first.found()
	s.firstWork = first.spent()
	s.lanesFrom = s.firstWork
	if s.quick {
		s.lanesFrom *= trueShapes
	}
	return s, nil
}

// Better says whether an answer was improved.
type Better bool

// Improve searches for some rounds more, with so many lanes at a time as
// there are workers (at least one), and says whether the best answer is better
// than before. The answer depends on the rounds spent so far, not on the
// workers.
func (s *Search) Improve(rounds, workers int) Better {
	if rounds <= 0 || s.Done() {
		return false
	}
	s.granted += rounds * roundWork
	if s.quick && s.granted < s.firstWork {
		return false // another answer takes as long as the first one did
	}
	// Another lane begins with an answer of its own: not before that much is granted.
	for i := len(s.lanes); i < laneCount && s.granted >= s.lanesFrom; i++ {
		s.lanes = append(s.lanes, s.newLane(i))
	}
	next := make(chan lane)
	var working sync.WaitGroup
	for range min(max(1, workers), len(s.lanes)) {
		working.Go(func() {
			for l := range next {
				l.improve(s.firstWork + s.granted)
			}
		})
	}
	for _, l := range s.lanes {
		next <- l
	}
	close(next)
	working.Wait()
	better := Better(false)
	for _, l := range s.lanes {
		if a := l.found(); a.cost.compare(s.best.cost) < 0 {
			better = true
			s.best = a
		}
	}
	if s.through != nil && s.best.cost.sheets <= s.sheets {
		s.top = max(s.top, s.through.lowest())
	}
	return better
}

// Done says that going on is no use: no answer uses less, as the area of the
// parts asks for as many sheets and as much of the last one; or all lanes have
// tried all they know.
func (s *Search) Done() bool {
	c := s.best.cost
	if c.unplaced == 0 && c.apart == 0 && c.sheets == s.sheets && c.top <= s.top {
		return true
	}
	return len(s.lanes) == laneCount && !slices.ContainsFunc(s.lanes, func(l lane) bool { return !l.idle() })
}

// Best is the best answer so far.
func (s *Search) Best() Nesting { return s.p.nesting(s.best) }

// Effort is how long Nest searches, 0 to 9.
type Effort int

// effortRounds grow so that 7 takes at most 20 s and 9 about a minute on two
// cores, whatever the number of parts (the first answer and a last try of each
// lane not counted).
var effortRounds = [10]int{0, 1, 2, 3, 20, 100, 350, 1000, 2000, 4000}

// Nest is Start and as many rounds as the effort stands for (values beyond 0
// to 9 count as the nearest).
//
// Errors: as for Start.
func Nest(j Job, e Effort, workers int) (Nesting, error) {
	s, err := Start(j)
	if err != nil {
		return Nesting{}, err
	}
	s.Run(e, workers)
	return s.Best(), nil
}

// Run improves as many rounds as an effort stands for, or until that is no use.
func (s *Search) Run(e Effort, workers int) {
	for left := effortRounds[min(max(e, 0), 9)]; left > 0 && !s.Done(); left -= step {
		s.Improve(min(left, step), workers)
	}
}

// step is how many rounds Run does at a time.
const step = 10

// newLane makes the i-th lane.
func (s *Search) newLane(i int) lane {
	if i == laneCount-1 {
		if t := newThrough(s.p); t != nil {
			s.through = t
			return t
		}
	}
	if s.p.suitsSkyline() {
		return newSkyline(s.p, i)
	}
	return newReorder(s.p, i)
}
