package outline

import (
	"fmt"

	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
)

// raster is a picture with a pixel for each µm: the plain judge of what the
// exact shapes do. Pixel (x, y) is the square from x, y to x+1, y+1, y up.
type raster struct {
	w, h int
	at   []bool
}

func newRaster(w, h int) raster { return raster{w, h, make([]bool, w*h)} }

func (r raster) get(x, y int) bool {
	return x >= 0 && y >= 0 && x < r.w && y < r.h && r.at[y*r.w+x]
}

// paint draws rings: on each pixel row, every second stretch between the
// vertical edges that cross it.
func (r raster) paint(p shape.Polygon) {
	flip := make([]bool, r.w)
	for y := range r.h {
		clear(flip)
		for _, ring := range append([]shape.Ring{p.Outer}, p.Holes...) {
			for i, a := range ring {
				b := ring[(i+1)%len(ring)]
				if a.X == b.X && min(a.Y, b.Y) <= shape.Um(y) && shape.Um(y) < max(a.Y, b.Y) && int(a.X) < r.w {
					flip[a.X] = !flip[a.X]
				}
			}
		}
		in := false
		for x := range r.w {
			if flip[x] {
				in = !in
			}
			if in {
				r.at[y*r.w+x] = true
			}
		}
	}
}

// pieces is the number of pieces by sides of what's set, and of holes: of what
// isn't, joined by corners too, that doesn't reach the edge.
func (r raster) pieces() (pieces, holes int) {
	seen := make([]bool, len(r.at))
	var todo [][2]int
	flood := func(x, y int, corners bool) (edge bool) {
		value := r.get(x, y)
		todo = append(todo[:0], [2]int{x, y})
		for len(todo) > 0 {
			p := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			if p[0] < 0 || p[1] < 0 || p[0] >= r.w || p[1] >= r.h {
				edge = true
				continue
			}
			i := p[1]*r.w + p[0]
			if seen[i] || r.at[i] != value {
				continue
			}
			seen[i] = true
			for dx := -1; dx <= 1; dx++ {
				for dy := -1; dy <= 1; dy++ {
					if (dx != 0) != (dy != 0) || corners && dx != 0 {
						todo = append(todo, [2]int{p[0] + dx, p[1] + dy})
					}
				}
			}
		}
		return edge
	}
	for y := range r.h {
		for x := range r.w {
			if seen[y*r.w+x] {
				continue
			}
			if r.get(x, y) {
				pieces++
				flood(x, y, false)
			} else if !flood(x, y, true) {
				holes++
			}
		}
	}
	return pieces, holes
}

// pinch is a point where two pixels touch at a corner only.
func (r raster) pinch() (x, y int, found bool) {
	for y := 0; y <= r.h; y++ {
		for x := 0; x <= r.w; x++ {
			a, b, c, d := r.get(x-1, y-1), r.get(x, y-1), r.get(x-1, y), r.get(x, y)
			if a && d && !b && !c || b && c && !a && !d {
				return x, y, true
			}
		}
	}
	return 0, 0, false
}

// judged is a layout drawn µm by µm, and what it should be.
type judged struct {
	l       *Layout
	f       *stack.Forest
	o       Options
	parts   []raster // by Index
	cells   []raster // the same from the forest's cells, joins put in and openings taken out, nothing drawn back
	heights []int
	stocks  []int
}

func judge(f *stack.Forest, o Options, l *Layout) *judged {
	j := &judged{l: l, f: f, o: o}
	w, h := int(l.Size.X), int(l.Size.Y)
	n := 0
	for _, y := range l.Layers {
		n += len(y.Parts)
	}
	j.parts, j.cells = make([]raster, n), make([]raster, n)
	j.heights, j.stocks = make([]int, n), make([]int, n)
	for _, y := range l.Layers {
		for _, p := range y.Parts {
			j.parts[p.Index] = newRaster(w, h)
			j.parts[p.Index].paint(p.Outline.Polygon())
			j.heights[p.Index], j.stocks[p.Index] = y.Height, y.Stock
			if p.Tree >= 0 {
				j.cells[p.Index] = j.plain(p)
			}
		}
	}
	return j
}

// plain is a forest part from its cells.
func (j *judged) plain(p Part) raster {
	out := newRaster(int(j.l.Size.X), int(j.l.Size.Y))
	c := int(j.l.Cell)
	set := func(x0, y0, side int, v bool) {
		for y := max(0, y0); y < min(out.h, y0+side); y++ {
			for x := max(0, x0); x < min(out.w, x0+side); x++ {
				out.at[y*out.w+x] = v
			}
		}
	}
	has := map[[2]int]bool{}
	for _, r := range j.f.Parts[p.Tree].Cells {
		for x := int(r.X0); x < int(r.X1); x++ {
			has[[2]int{x, int(r.Y)}] = true
			set(int(j.l.Grid.X)+x*c, int(j.l.Grid.Y)+(j.l.Rows-1-int(r.Y))*c, c, true)
		}
	}
	for _, o := range j.l.Opened {
		if o.Parts[0] == p.Index || o.Parts[1] == p.Index {
			set(int(o.At.X-o.Side/2), int(o.At.Y-o.Side/2), int(o.Side), false)
		}
	}
	for _, k := range j.l.Joins {
		if k.Height != j.heights[p.Index] {
			continue
		}
		// Side by side, a join takes its square from the others.
		set(int(k.At.X-k.Side/2), int(k.At.Y-k.Side/2), int(k.Side), k.Part == p.Index)
	}
	return out
}

// shown is what one sees at a pixel: the stock of the highest part there, -1
// for none.
func (j *judged) shown(parts []raster, x, y int) int {
	best, stock := 0, -1
	for i, r := range parts {
		if r.at != nil && r.get(x, y) && j.heights[i] > best {
			best, stock = j.heights[i], j.stocks[i]
		}
	}
	return stock
}

// differing is the area that doesn't show the drawing; on empty cells nothing
// and the backer are as they should be.
func (j *judged) differing(d stack.Drawing) shape.Um2 {
	var sum shape.Um2
	c := int(j.l.Cell)
	for y := range int(j.l.Size.Y) {
		for x := range int(j.l.Size.X) {
			gx, gy := x-int(j.l.Grid.X), y-int(j.l.Grid.Y)
			colour := stack.Colour(0)
			if gx >= 0 && gy >= 0 {
				colour = d.At(gx/c, d.H-1-gy/c)
			}
			seen := j.shown(j.parts, x, y)
			if colour != 0 {
				if seen != j.o.Stocks[colour-1].Index {
					sum++
				}
			} else if seen >= 0 && !(j.o.Backer != nil && j.onlyBacker(x, y)) {
				sum++
			}
		}
	}
	return sum
}

func (j *judged) onlyBacker(x, y int) bool {
	for i, r := range j.parts {
		if r.get(x, y) && j.heights[i] > 1 {
			return false
		}
	}
	return true
}

// overhang is a pixel of a part that lies on nothing of the part below as
// it was before its hidden edges were drawn back: allowed only in a join's
// quarter outside the cells, and over an opened corner.
func (j *judged) overhang() error {
	on := map[int]int{}
	for _, y := range j.l.Layers {
		for _, p := range y.Parts {
			on[p.Index] = p.On
		}
	}
	for i, r := range j.parts {
		below := on[i]
		if below < 0 || j.cells[below].at == nil {
			continue
		}
		for y := range r.h {
			for x := range r.w {
				if r.get(x, y) && !j.cells[below].get(x, y) && !j.excused(i, below, x, y) {
					return fmt.Errorf("part %d hangs over part %d at %d, %d", i, below, x, y)
				}
			}
		}
	}
	return nil
}

func (j *judged) excused(part, below, x, y int) bool {
	within := func(c Corner) bool {
		h := c.Side / 2
		return c.At.X-h <= shape.Um(x) && shape.Um(x) < c.At.X+h && c.At.Y-h <= shape.Um(y) && shape.Um(y) < c.At.Y+h
	}
	for _, k := range j.l.Joins {
		if k.Part == part && within(k.Corner) {
			return true
		}
	}
	for _, o := range j.l.Opened {
		if (o.Parts[0] == below || o.Parts[1] == below) && within(o.Corner) {
			return true
		}
	}
	return false
}
