package readback

import (
	"cmp"
	"fmt"
	"slices"
)

// bucket is the side of the squares in which neighbours are looked for, in µm.
const bucket = 8000

// keepApart says whether the cuts of different parts come nearer than the gap,
// along both axes, or one part lies on another. Round and slanted edges aren't
// looked at, nor what lies within a part that has some.
func keepApart(edges []cutEdge, odd []oddEdge, gap int64) error {
	uneven := map[int]bool{} // only asked
	for _, o := range odd {
		uneven[o.part] = true
	}
	plain := slices.DeleteFunc(slices.Clone(edges), func(e cutEdge) bool { return uneven[e.part] })
	if err := onePartDeep(plain); err != nil {
		return err
	}
	if gap == 0 {
		return nil
	}
	type square struct{ x, y int64 }
	near := map[square][]int{} // only asked
	for i, e := range edges {
		x0, y0 := e.place(e.from)
		x1, y1 := e.place(e.to)
		for x := floor(x0-gap, bucket); x <= floor(x1+gap, bucket); x++ {
			for y := floor(y0-gap, bucket); y <= floor(y1+gap, bucket); y++ {
				s := square{x, y}
				for _, k := range near[s] {
					if o := edges[k]; o.part != e.part && boxesNear(e, o, gap) {
						return fmt.Errorf("two parts come nearer than %s mm at (%s, %s) mm", mm(gap), mm(x0), mm(y0))
					}
				}
				near[s] = append(near[s], i)
			}
		}
	}
	return nil
}

func floor(v, by int64) int64 {
	q := v / by
	if v%by < 0 {
		q--
	}
	return q
}

// boxesNear says whether two edges are nearer than gap in x and in y.
func boxesNear(a, b cutEdge, gap int64) bool {
	ax0, ay0 := a.place(a.from)
	ax1, ay1 := a.place(a.to)
	bx0, by0 := b.place(b.from)
	bx1, by1 := b.place(b.to)
	return max(ax0-bx1, bx0-ax1) < gap && max(ay0-by1, by0-ay1) < gap
}

// onePartDeep walks up the sheet band by band and across each: with the upright
// cuts in order, a part ends before another begins.
func onePartDeep(edges []cutEdge) error {
	var upright []cutEdge
	var ys []int64
	for _, e := range edges {
		if e.upright {
			upright = append(upright, e)
			ys = append(ys, e.from, e.to)
		}
	}
	slices.Sort(ys)
	ys = slices.Compact(ys)
	slices.SortFunc(upright, func(a, b cutEdge) int { return cmp.Compare(a.from, b.from) })
	var active []cutEdge
	for _, y := range ys {
		active = slices.DeleteFunc(active, func(e cutEdge) bool { return e.to <= y })
		for len(upright) > 0 && upright[0].from == y {
			active = append(active, upright[0])
			upright = upright[1:]
		}
		slices.SortStableFunc(active, func(a, b cutEdge) int { return cmp.Compare(a.at, b.at) })
		// Two cuts on one line end one part and begin another.
		inside := none
		for i := 0; i < len(active); i++ {
			e := active[i]
			if i+1 < len(active) && active[i+1].at == e.at && inside != none && e.part != inside {
				e, active[i+1] = active[i+1], e
				active[i] = e
			}
			switch inside {
			case none:
				inside = e.part
			case e.part:
				inside = none
			default:
				return fmt.Errorf("two parts lie over one another at (%s, %s) mm", mm(e.at), mm(y))
			}
		}
	}
	return nil
}
