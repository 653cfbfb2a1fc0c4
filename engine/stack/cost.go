package stack

import "cmp"

// Cost is what a forest costs the maker. Less is better, field by field in
// this order.
type Cost struct {
	Parts   int // pieces to handle
	Small   int // of them for tweezers
	Heights int // the largest height
	Joins   int // joins that show
	Cut     int // length of all contours, in sides of a cell
}

// Compare is negative where c is better than d, positive where it is worse.
func (c Cost) Compare(d Cost) int {
	return cmp.Or(
		cmp.Compare(c.Parts, d.Parts),
		cmp.Compare(c.Small, d.Small),
		cmp.Compare(c.Heights, d.Heights),
		cmp.Compare(c.Joins, d.Joins),
		cmp.Compare(c.Cut, d.Cut),
	)
}

// beside is the cost of both, lying side by side.
func (c Cost) beside(d Cost) Cost {
	return Cost{c.Parts + d.Parts, c.Small + d.Small, max(c.Heights, d.Heights), c.Joins + d.Joins, c.Cut + d.Cut}
}

// on is the cost of c lying on one part of cost d.
func (c Cost) on(d Cost) Cost {
	return Cost{c.Parts + d.Parts, c.Small + d.Small, c.Heights + d.Heights, c.Joins + d.Joins, c.Cut + d.Cut}
}
