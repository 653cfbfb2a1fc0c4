package outline

import "sheetsprite/engine/shape"

// nothing is what one sees where no part lies.
const nothing = -1

// differing is the area where what is seen isn't the drawing: in each cell
// about a corner with joins or openings, what lies on top in the squares that
// they put in or take out is held against the cell's colour. Where the cell
// is empty, nothing and the backer are as they should be.
func (l *levels) differing(contacts []contact, joinSide, openSide []shape.Um, o Options) shape.Um2 {
	var sum shape.Um2
	for i := 0; i < len(contacts); {
		first := i
		for i < len(contacts) && contacts[i].col == contacts[first].col && contacts[i].row == contacts[first].row {
			i++
		}
		small, large := joinSide[first]/2, openSide[first]/2
		if small > large {
			small, large = large, small
		}
		for q := quadrant(0); q < 4; q++ {
			if small > 0 && l.differs(contacts[first:i], q, small, joinSide[first], openSide[first], o) {
				sum += shape.Um2(small) * shape.Um2(small)
			}
			if large > small && l.differs(contacts[first:i], q, large, joinSide[first], openSide[first], o) {
				sum += shape.Um2(large)*shape.Um2(large) - shape.Um2(small)*shape.Um2(small)
			}
		}
	}
	return sum
}

// differs compares within one quadrant at the distance reach from the corner,
// just inside.
func (l *levels) differs(contacts []contact, q quadrant, reach, joinSide, openSide shape.Um, o Options) bool {
	col, row := q.of(contacts[0].col, contacts[0].row)
	seen, wanted := nothing, nothing
	backer := o.Backer != nil
	byBacker := false
	for height := 1; height <= len(l.at); height++ {
		p := l.piece(height, col, row)
		isBacker := backer && height == 1
		if p >= 0 && !isBacker {
			wanted = l.pieces[p].stock.Index
		}
		for _, c := range contacts {
			d := diagonals[boolIndex(c.rising)]
			if c.height == height && !c.joined && (d[0] == q || d[1] == q) && 2*reach <= openSide {
				p = nothing
			}
		}
		for _, c := range contacts {
			d := diagonals[boolIndex(c.rising)]
			if c.height == height && c.joined && d[0] != q && d[1] != q && 2*reach <= joinSide {
				p = c.pieces[0]
			}
		}
		if p >= 0 {
			seen, byBacker = l.pieces[p].stock.Index, isBacker
		}
	}
	if wanted == nothing && byBacker {
		return false
	}
	return seen != wanted
}
