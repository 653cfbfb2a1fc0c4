package nest

import (
	"slices"

	"sheetsprite/engine/shape"
)

// layout is an answer in work: a spot for every copy, and the boards.
type layout struct {
	p      *problem
	spots  []spot   // for each of problem.copies
	boards []*board // by number; those between may be empty
	apart  []int    // units that were taken apart
	ask    *search
	rooms  []shape.Um2 // room for leastRoom to work in
}

func newLayout(p *problem, ask *search) *layout {
	return &layout{p: p, ask: ask, spots: make([]spot, len(p.copies))}
}

// clear takes everything off but what is held.
func (l *layout) clear() {
	for i := range l.spots {
		l.spots[i] = spot{sheet: -1}
	}
	l.apart = l.apart[:0]
	for _, b := range l.boards {
		b.back(0)
	}
	for _, h := range l.p.held {
		for len(l.boards) <= int(h.spot.sheet) {
			l.open()
		}
		l.boards[h.spot.sheet].put(&l.p.kinds[h.kind].forms[h.spot.form], h.spot.at)
	}
}

// open adds the supply's next sheet.
func (l *layout) open() bool {
	if len(l.boards) == maxSheets {
		return false
	}
	spec, ok := l.p.sheet(len(l.boards))
	if !ok {
		return false
	}
	l.boards = append(l.boards, &board{sheetSpec: spec})
	return true
}

// place puts a unit onto the first sheet that takes it, opening new ones
// while that may help; where some of it is held already, onto that sheet.
// Where the whole unit finds no room its copies go where each of them can.
func (l *layout) place(u int) {
	un := &l.p.units[u]
	if un.home >= 0 {
		if l.placeOn(u, un.home) {
			return
		}
	} else if l.anywhere(un.area, func(n int) bool { return l.placeOn(u, n) }) || len(un.copies) == 1 {
		return
	}
	l.apart = append(l.apart, u)
	for _, c := range un.copies {
		l.anywhere(l.p.kindOf(c).area, func(n int) bool { return l.placeCopy(c, n) })
	}
}

// mostSheetsTried is on how many of the sheets that are begun something is
// tried: those with most room left. On a large job nearly all of the others are
// full, and finding that out costs most of the time (measured: 1,032 parts on
// 260 sheets).
const mostSheetsTried = 10

// anywhere tries one sheet after the other for something of an area.
func (l *layout) anywhere(area shape.Um2, try func(sheet int) bool) bool {
	least := l.leastRoom(area)
	for n, b := range l.boards {
		if b.room() >= least && try(n) {
			return true
		}
	}
	for !l.lastIsEmptyAndEndless() && l.open() {
		if try(len(l.boards) - 1) {
			return true
		}
	}
	return false
}

// leastRoom is the room that a sheet must have left to be tried.
func (l *layout) leastRoom(area shape.Um2) shape.Um2 {
	if len(l.boards) <= mostSheetsTried {
		return 0
	}
	rooms := l.rooms[:0]
	for _, b := range l.boards {
		if r := b.room(); r >= area {
			rooms = append(rooms, r)
		}
	}
	l.rooms = rooms
	if len(rooms) <= mostSheetsTried {
		return area
	}
	slices.Sort(rooms)
	return rooms[len(rooms)-mostSheetsTried]
}

func (l *layout) lastIsEmptyAndEndless() bool {
	if len(l.boards) == 0 {
		return false
	}
	b := l.boards[len(l.boards)-1]
	return b.endless && len(b.laid) == 0
}

// placeOn puts the whole unit onto a sheet, or nothing of it.
func (l *layout) placeOn(u, sheet int) bool {
	un, b := &l.p.units[u], l.boards[sheet]
	if b.w <= 0 || b.h <= 0 || b.area+un.area > shape.Um2(b.w)*shape.Um2(b.h) {
		return false
	}
	if len(un.copies) == 1 {
		return l.placeCopy(un.copies[0], sheet)
	}
	before := len(b.laid)
	for i, c := range un.copies {
		if !l.placeCopy(c, sheet) {
			b.back(before)
			for _, c := range un.copies[:i] {
				l.spots[c] = spot{sheet: -1}
			}
			return false
		}
	}
	return true
}

// never is a floor above every sheet.
const never = 4 * largest

// placeCopy puts one copy where its top comes lowest, of all its forms; where
// two are level the lower and then the more left one.
func (l *layout) placeCopy(c, sheet int) bool {
	b, k := l.boards[sheet], l.p.kindOf(c)
	if b.area+k.area > shape.Um2(max(b.w, 0))*shape.Um2(max(b.h, 0)) {
		return false
	}
	if b.low == nil {
		b.low = make([]shape.Um, l.p.forms)
	}
	best, top := spot{sheet: -1}, b.h
	for i := range k.forms {
		f := &k.forms[i]
		low := &b.low[k.first+i]
		if *low > top-f.h {
			continue
		}
		at, ok := l.ask.lowest(b, f, *low, top-f.h)
		switch {
		case !ok: // nothing up to the ceiling
			*low = max(*low, top-f.h+1)
			continue
		default:
			*low = at.Y
		}
		if best.sheet < 0 || at.Y+f.h < top || at.Y < best.at.Y || at.Y == best.at.Y && at.X < best.at.X {
			best, top = spot{int32(sheet), int8(i), at}, at.Y+f.h
		}
	}
	if best.sheet < 0 {
		return false
	}
	l.putCopy(c, best)
	return true
}

func (l *layout) putCopy(c int, s spot) {
	l.spots[c] = s
	l.boards[s.sheet].put(&l.p.kindOf(c).forms[s.form], s.at)
}
