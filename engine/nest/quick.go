package nest

import "sheetsprite/engine/shape"

// A large job's first answer is wanted soon: it lays shapes of few rectangles
// that hold the true ones, so that no place it finds is too near. Lanes with the
// true shapes join later, when so much is granted that their own first answers
// are worth waiting for.

const (
	// manyCopies is how many copies, all stocks together, make a job large.
	manyCopies = 300
	// trueShapes is how many times the work of a quick first answer one of true
	// shapes takes, at the most seen (measured: 1,032 parts of the harbour).
	trueShapes = 20
)

// isLarge says whether the first answer is to be a quick one.
func (p *problem) isLarge() bool { return len(p.copies)+p.job.Beside > manyCopies }

// coarse is the problem with shapes of few rectangles. Its answers are answers
// to p as they are, at the same cost.
func (p *problem) coarse() *problem {
	q := &problem{
		job: p.job, copies: p.copies, units: p.units, large: p.large, held: p.held, freed: p.freed, forms: p.forms,
		nofit: nofitStore{rects: map[[2]int32][]shape.Rect{}},
	}
	for _, k := range p.kinds {
		q.kinds = append(q.kinds, k.coarsened())
	}
	return q
}
