package nest

import (
	"cmp"
	"slices"

	"sheetsprite/engine/shape"
)

// problem is a job made ready: copies are counted out, equal outlines share a
// kind, fixed placements lie on their sheets.
type problem struct {
	job    Job
	kinds  []kind
	copies []oneCopy // those to be placed, by piece, then copy
	units  []unit    // what is placed at once
	large  []Unplaced
	held   []heldCopy // fixed placements that hold
	freed  []Released
	forms  int // of all kinds together
	nofit  nofitStore
}

type oneCopy struct {
	piece, copy int
	kind        int
}

// unit is copies that go onto one sheet: one copy, or those kept together.
type unit struct {
	copies []int     // indices into problem.copies, the largest first
	area   shape.Um2 // of all of them
	name   string    // "" for one by itself
	copy   int
	home   int // sheet of those that are held and share it; -1: none
}

type heldCopy struct {
	placement Placement
	kind      int
	spot      spot
}

// spot is where a copy lies, in a sheet's inner coordinates: 0, 0 is the
// lower left corner of what the margins leave.
type spot struct {
	sheet int32 // -1: nowhere
	form  int8  // of its kind
	at    shape.Point
}

func newProblem(j Job) *problem {
	p := &problem{job: j, nofit: nofitStore{rects: map[[2]int32][]shape.Rect{}}}
	fixed := map[[2]int]bool{}
	kindOf := make([]int, len(j.Pieces))
	for i, piece := range j.Pieces {
		k := newKind(piece.Outline, piece.Turns, j.Gap)
		kindOf[i] = slices.IndexFunc(p.kinds, k.equal)
		if kindOf[i] < 0 {
			kindOf[i] = len(p.kinds)
			k.first = p.forms
			for n := range k.forms {
				k.forms[n].id = int32(p.forms + n)
			}
			p.kinds = append(p.kinds, k)
			p.forms += len(k.forms)
		}
	}
	p.hold(kindOf)
	for _, h := range p.held {
		fixed[[2]int{h.placement.Piece, h.placement.Copy}] = true
	}
	together := map[groupKey]int{} // to the unit
	for i, piece := range j.Pieces {
		for c := range piece.Copies {
			if fixed[[2]int{i, c}] {
				continue
			}
			if !p.fitsSomewhere(kindOf[i]) {
				p.large = append(p.large, Unplaced{i, c, TooLarge})
				continue
			}
			p.addUnit(oneCopy{i, c, kindOf[i]}, groupKey{piece.Together, c}, together)
		}
	}
	for _, u := range p.units {
		slices.SortStableFunc(u.copies, func(a, b int) int {
			return cmp.Compare(p.kindOf(b).area, p.kindOf(a).area)
		})
	}
	return p
}

type groupKey struct {
	name string
	copy int
}

func (p *problem) addUnit(c oneCopy, g groupKey, together map[groupKey]int) {
	i := len(p.copies)
	p.copies = append(p.copies, c)
	area := p.kinds[c.kind].area
	if u, ok := together[g]; ok && g.name != "" {
		p.units[u].copies = append(p.units[u].copies, i)
		p.units[u].area += area
		return
	}
	together[g] = len(p.units)
	home := -1
	for _, h := range p.held {
		if g.name != "" && h.placement.Copy == g.copy && p.job.Pieces[h.placement.Piece].Together == g.name {
			home = h.placement.Sheet
			break
		}
	}
	p.units = append(p.units, unit{[]int{i}, area, g.name, g.copy, home})
}

func (p *problem) kindOf(copy int) *kind { return &p.kinds[p.copies[copy].kind] }

// sheetSpec is a sheet of the supply, with the gap added to what the margins
// leave, as every form has it added too.
type sheetSpec struct {
	size    Size
	origin  Origin
	index   int // into the supply
	w, h    shape.Um
	endless bool // there are as many as needed
}

// sheet is the n-th of the supply.
func (p *problem) sheet(n int) (sheetSpec, bool) {
	s := p.job.Supply
	if n < len(s.Offcuts) {
		return p.spec(s.Offcuts[n], FromOffcuts, n, false), true
	}
	n -= len(s.Offcuts)
	for i, sh := range s.Sheets {
		if sh.Count == 0 || n < sh.Count {
			return p.spec(sh.Size, FromSheets, i, sh.Count == 0), true
		}
		n -= sh.Count
	}
	return sheetSpec{}, false
}

func (p *problem) spec(size Size, o Origin, index int, endless bool) sheetSpec {
	m := p.job.Supply.Margins
	return sheetSpec{
		size: size, origin: o, index: index, endless: endless,
		w: size.Width - m.Left - m.Right + p.job.Gap, h: size.Height - m.Bottom - m.Top + p.job.Gap,
	}
}

// fitsSomewhere says whether an empty sheet of the supply would take the kind.
func (p *problem) fitsSomewhere(kind int) bool {
	s := p.job.Supply
	for i, o := range s.Offcuts {
		if p.kinds[kind].fits(p.spec(o, FromOffcuts, i, false)) {
			return true
		}
	}
	for i, sh := range s.Sheets {
		if p.kinds[kind].fits(p.spec(sh.Size, FromSheets, i, false)) {
			return true
		}
	}
	return false
}

func (k *kind) fits(s sheetSpec) bool {
	return slices.ContainsFunc(k.forms, func(f form) bool { return f.w <= s.w && f.h <= s.h })
}
