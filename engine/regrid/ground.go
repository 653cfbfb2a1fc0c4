package regrid

import (
	"slices"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/regrid/pixels"
)

// GroundKind is what lies behind a drawing.
type GroundKind int

const (
	NoGround     GroundKind = iota // the drawing fills the picture
	Transparent                    // alpha below one half
	OneColour                      // Ground.Colour
	Gradient                       // colours that change evenly over the picture
	Checkerboard                   // two colours in squares, as programs show transparency
)

// Ground is what lies behind the drawing; its cells are empty.
type Ground struct {
	Kind   GroundKind
	Colour colour.RGB // of OneColour
}

const (
	leastShare = 10 // percent of the grid's edge that the ground must have
	leastArea  = 3  // percent of the grid's cells, in blocks of 2×2
	// surelyOneColour is the percentage of the edge at which no gradient is looked for.
	surelyOneColour = 70
)

// nearGround is the square of how far from the ground's colour a cell still
// counts as ground: ΔE of about 5.
const nearGround = 600 * 600

// cellColour is a cell's colour on its way into the palette.
type cellColour struct {
	rgb   colour.RGB
	place colour.Spot
	empty bool
}

// coloured gives each cell of a grid its colour.
func coloured(r *pixels.Raster, g placed, o Options) *Result {
	var s sampled
	p := colour.Noisy
	res := &Result{}
	g.describe(res)
	if g.exact != nil {
		s, p = flat(r, g.exact[0], g.exact[1]), colour.Pure
	} else if o.board != nil { // kernels are compared once it is known what is empty
		s = sample(r, g.x, g.y)
	} else {
		s, g.x, g.y = byRendering(r, g.x, g.y)
		res.Enlarged = g.x.kernel.name
	}
	if o.board != nil {
		s.emptied(*o.board, g.x, g.y, r.W, r.H)
		if g.exact == nil {
			s, g.x, g.y = o.board.resampled(s, g.x, g.y)
			res.Enlarged = g.x.kernel.name
		}
	}
	if g.exact == nil && o.board == nil {
		var ok bool
		if s, g.x, g.y, ok = s.withoutSlope(r, g.x, g.y); ok {
			res.Enlarged, res.Ground.Kind = g.x.kernel.name, Gradient
		}
	}
	paint(res, s, o, p)
	return res
}

// paint decides what is ground and reduces the rest to a palette.
func paint(res *Result, s sampled, o Options, p colour.Purity) {
	res.W, res.H = s.w, s.h
	cells := s.straight()
	clear := 0
	for _, c := range cells {
		if c.empty {
			clear++
		}
	}
	switch one, share := edgeColour(cells, s.w, s.h); {
	case o.board != nil:
		res.Ground.Kind = Checkerboard
	case res.Ground.Kind == Gradient: // taken away already
	case clear > 0:
		res.Ground.Kind = Transparent
	case share < surelyOneColour && sloped(cells, s.w, s.h, share):
		res.Ground.Kind = Gradient
	case share > 0:
		res.Ground = Ground{OneColour, one}
	}
	reduce(res, cells, o.Colours, p)
}

// sloped empties the cells of a ground whose colour changes evenly.
func sloped(cells []cellColour, w, h, oneColour int) bool {
	_, ok := slope(cells, w, h, oneColour)
	return ok
}

// straight are the cells' colours as RGB. Places in the space of colours take long to work
// out, and most cells' colours were met before.
func (s sampled) straight() []cellColour {
	const met = 1 << 12
	var known [met]cellColour
	cells := make([]cellColour, len(s.colour))
	for i, c := range s.colour {
		one := straight(c)
		k := &known[(uint32(one.rgb.R)<<16|uint32(one.rgb.G)<<8|uint32(one.rgb.B))*0x9e3779b1>>20]
		if !one.empty && (k.rgb != one.rgb || k.place == colour.Spot{}) {
			*k = one
			k.place = colour.SpotOf(one.rgb)
		}
		if one.place = k.place; one.empty {
			one.place = colour.Spot{}
		}
		cells[i] = one
	}
	return cells
}

// straight is a premultiplied colour as RGB, its place not yet known.
func straight(c [4]int32) cellColour {
	if c[3] < 128*fine {
		return cellColour{empty: true}
	}
	channel := func(v int32) uint8 { return uint8(min(255, (v*255+c[3]/2)/c[3])) }
	rgb := colour.RGB{R: channel(c[0]), G: channel(c[1]), B: channel(c[2])}
	return cellColour{rgb: rgb}
}

// edgeColour is the colour of the largest area that reaches the grid's edge;
// none, of share 0, where no colour does so over a fair part of it. An area is counted by
// its blocks of 2×2 cells: a drawing may touch the edge too, but there it shows
// its thin outline.
func edgeColour(cells []cellColour, w, h int) (c colour.RGB, share int) {
	const near = nearGround
	var tried []colour.Spot
	best := 0
	for i, tryIt := range cells {
		x, y := i%w, i/w
		if tryIt.empty || x > 0 && y > 0 && x < w-1 && y < h-1 {
			continue
		}
		if slices.ContainsFunc(tried, func(t colour.Spot) bool { return t.Apart(tryIt.place) <= near/9 }) {
			continue
		}
		tried = append(tried, tryIt.place)
		if len(tried) > 40 {
			break
		}
		isAlike := func(j int) bool { return !cells[j].empty && tryIt.place.Apart(cells[j].place) <= near }
		if 100*alongEdge(w, h, isAlike) < (2*w+2*h)*leastShare { // most colours, and looking at the edge is quick
			continue
		}
		alike := make([]bool, len(cells))
		for j := range cells {
			alike[j] = isAlike(j)
		}
		area, edge := reaching(alike, w, h)
		area += corners(alike, w, h) * w * h / 12 // ground mostly lies in the corners
		if tryIt.rgb == (colour.RGB{R: 255, G: 255, B: 255}) || tryIt.rgb == (colour.RGB{}) {
			area += area / 4 // as pages are
		}
		if area > best && edge*100 >= (2*w+2*h)*leastShare && area*100 >= w*h*leastArea {
			best, c, share = area, tryIt.rgb, 100*edge/(2*w+2*h-4)
		}
	}
	return c, share
}

// alongEdge counts the cells at the grid's edge that are alike.
func alongEdge(w, h int, alike func(i int) bool) (n int) {
	for y := range h {
		step := max(1, w-1)
		if y == 0 || y == h-1 {
			step = 1
		}
		for x := 0; x < w; x += step {
			if alike(y*w + x) {
				n++
			}
		}
	}
	return n
}

// corners counts the grid's corners that are alike.
func corners(alike []bool, w, h int) (n int) {
	for _, i := range []int{0, w - 1, w * (h - 1), w*h - 1} {
		if alike[i] {
			n++
		}
	}
	return n
}

// reaching counts, of the cells that hang together with the edge, those in
// blocks of 2×2, and those at the edge itself.
func reaching(alike []bool, w, h int) (area, edge int) {
	seen := make([]bool, len(alike))
	var stack []int
	push := func(x, y int) {
		if x >= 0 && y >= 0 && x < w && y < h && alike[y*w+x] && !seen[y*w+x] {
			seen[y*w+x] = true
			stack = append(stack, y*w+x)
		}
	}
	for x := range w {
		push(x, 0)
		push(x, h-1)
	}
	for y := range h {
		push(0, y)
		push(w-1, y)
	}
	edge = len(stack)
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		x, y := i%w, i/w
		push(x-1, y)
		push(x+1, y)
		push(x, y-1)
		push(x, y+1)
	}
	at := func(x, y int) bool { return x >= 0 && y >= 0 && x < w && y < h && seen[y*w+x] }
	for y := range h {
		for x := range w {
			if !at(x, y) {
				continue
			}
			for _, d := range [][2]int{{1, 1}, {-1, 1}, {1, -1}, {-1, -1}} {
				if at(x+d[0], y) && at(x, y+d[1]) && at(x+d[0], y+d[1]) {
					area++
					break
				}
			}
		}
	}
	return area, edge
}

// reduce groups the cells' colours and fills in the result; n is the number of
// colours without the ground, or 0.
func reduce(res *Result, cells []cellColour, n int, p colour.Purity) {
	var places []colour.Spot
	var all colour.Histogram
	for _, c := range cells {
		if !c.empty {
			places = append(places, c.place)
			all.Add(c.rgb, 1)
		}
	}
	groups := colour.Gather(all.Counts())
	few, ground := n, 0
	if res.Ground.Kind == OneColour {
		ground = 1
	}
	if n == 0 {
		few = colour.Suggest(groups, p, MaxColours+1)
	} else {
		few += ground
	}
	if list := colour.Errors(groups, mostErrors+ground); len(list) > ground {
		res.Errors = list[ground:]
	}
	outline := outlineOf(res, cells)
	means := settled(places, colour.Merge(groups, few, outline...))
	own := -1
	if ground > 0 {
		own = nearestMean(means, colour.SpotOf(res.Ground.Colour))
	}
	assign(res, cells, means, own, outline)
}

// mostErrors is up to how many colours Result.Errors goes.
const mostErrors = 16

// outlineOf is the colour on most of the drawing's free sides, or none.
func outlineOf(res *Result, cells []cellColour) []colour.RGB {
	free := func(i int) bool { return cells[i].empty }
	if res.Ground.Kind == OneColour {
		ground := colour.SpotOf(res.Ground.Colour)
		free = func(i int) bool { return cells[i].empty || cells[i].place.Apart(ground) <= nearGround }
	}
	var contour colour.Histogram
	for i, c := range cells {
		if free(i) {
			continue
		}
		if x := i % res.W; x > 0 && free(i-1) {
			contour.Add(c.rgb, 1)
		}
		if x := i % res.W; x < res.W-1 && free(i+1) {
			contour.Add(c.rgb, 1)
		}
		if i >= res.W && free(i-res.W) {
			contour.Add(c.rgb, 1)
		}
		if i+res.W < len(cells) && free(i+res.W) {
			contour.Add(c.rgb, 1)
		}
	}
	if counts := contour.Counts(); len(counts) > 0 {
		return colour.Outline(nil, counts)
	}
	return nil
}

// assign gives each cell the nearest mean, lists the palette by how many cells
// have each, and says how sure that is. The outline's colour is its own, also
// where more cells of other colours are nearest to it.
func assign(res *Result, cells []cellColour, means []colour.Spot, ground int, outline []colour.RGB) {
	members := make([][]colour.RGB, len(means))
	outlineMean, outlineColour := -1, colour.RGB{}
	own, next, sure := make([]int, len(cells)), make([]int, len(cells)), make([]int, len(cells))
	for i, c := range cells {
		if c.empty {
			own[i], next[i], sure[i] = -1, -1, 100
			continue
		}
		own[i], next[i], sure[i] = twoNearest(means, c.place)
		members[own[i]] = append(members[own[i]], c.rgb)
	}
	for _, o := range outline {
		at := colour.SpotOf(o)
		k := nearestMean(means, at)
		line := slices.DeleteFunc(slices.Clone(members[k]), func(c colour.RGB) bool { return colour.SpotOf(c).Apart(at) > colour.Clearly*colour.Clearly })
		if k != ground && len(line) > 0 {
			outlineMean, outlineColour = k, middle(line)
		}
	}
	order := make([]int, 0, len(means))
	for k, m := range members {
		if k != ground && len(m) > 0 {
			order = append(order, k)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return len(members[b]) - len(members[a]) })
	entry := make([]int, len(means)+1)[1:] // of the palette, +1; 0 for ground
	for i, k := range order {
		entry[k] = i + 1
		if k == outlineMean {
			res.Palette = append(res.Palette, outlineColour)
			continue
		}
		res.Palette = append(res.Palette, middle(members[k]))
	}
	if ground >= 0 {
		res.Ground.Colour = middle(members[ground])
	}
	number := func(k int) int {
		if k < 0 {
			return 0
		}
		return entry[k]
	}
	res.Cells, res.Second, res.Sure = make([]int, len(cells)), make([]int, len(cells)), sure
	for i := range cells {
		res.Cells[i], res.Second[i] = number(own[i]), number(next[i])
	}
}

// twoNearest are the nearest and second-nearest means, and how clearly the
// first wins, 0 to 100.
func twoNearest(means []colour.Spot, p colour.Spot) (first, second, sure int) {
	a, b := int64(1)<<62, int64(1)<<62
	first, second = -1, -1
	for k, m := range means {
		switch d := m.Apart(p); {
		case d < a:
			a, b, first, second = d, a, k, first
		case d < b:
			b, second = d, k
		}
	}
	if second < 0 {
		return first, first, 100
	}
	if a+b == 0 {
		return first, second, 0
	}
	return first, second, int(100 * (b - a) / (a + b))
}

// middle is the median of colours, channel by channel.
func middle(colours []colour.RGB) colour.RGB {
	if len(colours) == 0 {
		return colour.RGB{}
	}
	pick := func(channel func(colour.RGB) uint8) uint8 {
		v := make([]uint8, len(colours))
		for i, c := range colours {
			v[i] = channel(c)
		}
		slices.Sort(v)
		return v[len(v)/2]
	}
	return colour.RGB{
		R: pick(func(c colour.RGB) uint8 { return c.R }),
		G: pick(func(c colour.RGB) uint8 { return c.G }),
		B: pick(func(c colour.RGB) uint8 { return c.B }),
	}
}
