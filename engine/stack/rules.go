package stack

import (
	"fmt"
	"math/bits"
)

// Colours is a set of colours: bit c is set where Colour c belongs to it.
type Colours uint32

// Of is the set of the colours given.
func Of(colours ...Colour) Colours {
	var s Colours
	for _, c := range colours {
		s |= 1 << c
	}
	return s
}

// Has says whether c belongs to s.
func (s Colours) Has(c Colour) bool { return s>>c&1 != 0 }

// Len is the number of colours in s.
func (s Colours) Len() int { return bits.OnesCount32(uint32(s)) }

// Rules say what a forest must honour and how long to search for it. The zero
// value joins no corner, allows no height beyond the colours and searches as
// long as is usual.
type Rules struct {
	Joins        Colours // colours whose stock can hold two cells together at a corner
	ExtraHeights int     // heights allowed beyond the number of colours; the first step needs none
	SmallCells   int     // a part whose bounding box is at most this many cells on its longer side is for tweezers
	Below        [MaxColours + 1]Colours
	// Below[c] are the colours no part of which may lie on a part of colour c,
	// however many parts are between them: c lies over them.
	Rounds int // of the second step for each connected piece; 0 for the usual number, negative for none
	// Stop is asked now and then in the second step; once it says true the search
	// ends with what it has, which then is no answer that comes out again. Nil: never.
	Stop func() bool
	// Begun keeps the first step between First and Fewest. Nil: it is found anew.
	Begun *Begun
}

func (r *Rules) stopped() bool { return r.Stop != nil && r.Stop() }

// Lowest rules that no part of colour c rests on one of another colour.
func (r *Rules) Lowest(c Colour, all Colours) {
	for o := Colour(1); o <= MaxColours; o++ {
		if o != c && all.Has(o) {
			r.Below[o] |= Of(c)
		}
	}
}

// Highest rules that nothing rests on a part of colour c: it is cut no larger
// than it shows.
func (r *Rules) Highest(c Colour, all Colours) { r.Below[c] |= all &^ Of(c) }

// Under rules that no part of colour over lies beneath a part of colour under.
func (r *Rules) Under(under, over Colour) { r.Below[over] |= Of(under) }

// Validate returns an error where the rules contradict one another, naming the
// colours that would all have to lie over the next one.
func (r Rules) Validate() error {
	// A colour none of whose bounds is left can go lowest; what never becomes
	// free lies on a circle.
	left := Colours(0)
	for c := Colour(1); c <= MaxColours; c++ {
		left |= Of(c)
	}
	for again := true; again; {
		again = false
		for c := Colour(1); c <= MaxColours; c++ {
			if left.Has(c) && r.Below[c]&left == 0 {
				left &^= Of(c)
				again = true
			}
		}
	}
	if left != 0 {
		return &ContradictionError{Colours: left}
	}
	return nil
}

// ContradictionError says that rules can't all be met: each of Colours would
// have to lie over another one of them, or over itself.
type ContradictionError struct{ Colours Colours }

func (e *ContradictionError) Error() string {
	return fmt.Sprintf("%d colours are each to lie over another one of them: take one of these rules back", e.Colours.Len())
}
