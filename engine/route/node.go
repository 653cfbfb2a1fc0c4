package route

import (
	"sheetsprite/engine/shape"
)

// node is what is run without a choice of another order in between: a closed
// contour, or all open lines of one contour, or a mark.
type node struct {
	item int             // loop or mark
	shut shape.Contour   // a closed contour; nil where there are lines
	open []shape.Contour // the lines, in the contour's order
	ways []way           // at least one
	box  shape.Rect      // of all points where a way may begin or end
	must []int32         // nodes that come later, always
}

// way is one way to run a node.
type way struct {
	in, out shape.Point
	inner   shape.Um // travel between its lines
	reverse int32    // the way that runs the other way round; itself where in and out are one
	first   int32    // vertex or line to begin with
	back    bool     // lines from their ends
}

// mostStarts is how many vertices of one contour are tried while the order is
// sought; all of them are tried at the end.
const mostStarts = 16

func closedNode(item int, c shape.Contour) node {
	n := node{item: item, shut: c}
	step := max(1, (len(c)+mostStarts-1)/mostStarts)
	for i := 0; i < len(c); i += step {
		n.addStart(i)
	}
	n.measure()
	return n
}

// addStart adds the way that begins at a vertex of a closed contour.
func (n *node) addStart(vertex int) int32 {
	i, p := int32(len(n.ways)), n.shut[vertex].Point
	n.ways = append(n.ways, way{in: p, out: p, reverse: i, first: int32(vertex)})
	return i
}

// openNode is a contour's lines: begun with any of them, run round the contour
// either way. With an even number of passes it ends where it began.
func openNode(item int, lines []shape.Contour, passes int) node {
	n := node{item: item, open: lines}
	k := len(lines)
	last := func(c shape.Contour) shape.Point { return c[len(c)-1].Point }
	for s := range k {
		var inner shape.Um
		for i := range k - 1 {
			inner += length(last(lines[(s+i)%k]), lines[(s+i+1)%k][0].Point)
		}
		forth := way{in: lines[s][0].Point, out: last(lines[(s+k-1)%k]), inner: inner * shape.Um(passes), first: int32(s)}
		back := way{in: forth.out, out: forth.in, inner: forth.inner, first: int32((s + k - 1) % k), back: true}
		i := int32(len(n.ways))
		forth.reverse, back.reverse = i+1, i
		if passes%2 == 0 {
			forth.out, back.out = forth.in, back.in
			forth.reverse, back.reverse = i, i+1
		}
		n.ways = append(n.ways, forth, back)
	}
	n.measure()
	return n
}

func (n *node) measure() {
	ends := n.shut.Ring()
	for _, w := range n.ways {
		ends = append(ends, w.in, w.out)
	}
	n.box = ends.Bounds()
}

// lines is how the way runs the node once, in order.
func (n *node) lines(w way) []shape.Contour {
	if n.shut != nil {
		k := int(w.first)
		return []shape.Contour{append(n.shut[k:len(n.shut):len(n.shut)], n.shut[:k]...)}
	}
	k := len(n.open)
	out := make([]shape.Contour, k)
	for i := range out {
		if w.back {
			out[i] = backwards(n.open[(int(w.first)-i+k)%k])
		} else {
			out[i] = n.open[(int(w.first)+i)%k]
		}
	}
	return out
}
