package shape

import "math/bits"

// root is ⌊√n⌋ by Newton's method on whole numbers; 0 for negative n.
func root(n Um2) Um2 {
	if n <= 0 {
		return 0
	}
	s := n
	for t := s/2 + 1; t < s; t = (s + n/s) / 2 {
		s = t
	}
	return s
}

// nearestRoot is √n rounded to the nearest whole number; there are no ties,
// since (s + ½)² is never whole.
func nearestRoot(n Um2) Um {
	s := root(n)
	if n-s*s > s {
		s++
	}
	return Um(s)
}

// crossings is the two points where the circles of radius d about p and q
// meet, each coordinate rounded to the nearest µm, halves up: exactly, so that
// both circles and all that meet there find the same points. They are
// (p+q)/2 ± h·(p−q turned by a right angle) with h² = (4d²−D)/(4D), D = |q−p|².
// The first is to the left of the way from p to q. ok is false where the
// circles are more than 2d apart or have one centre.
func crossings(p, q Point, d Um) (left, right Point, ok bool) {
	c := q.Sub(p)
	d2, rest := distance2(p, q), Um2(0)
	if rest = 4*Um2(d)*Um2(d) - d2; d2 == 0 || rest < 0 {
		return left, right, false
	}
	x0, x1 := plusMinus(p.X+q.X, c.Y, d2, rest)
	y0, y1 := plusMinus(p.Y+q.Y, c.X, d2, rest)
	if c.Y > 0 { // left is at x − h·c.Y
		x0, x1 = x1, x0
	}
	if c.X < 0 { // left is at y + h·c.X
		y0, y1 = y1, y0
	}
	return Point{x0, y0}, Point{x1, y1}, true
}

// plusMinus is (a ± |c|·√(rest/d2))/2, rounded, halves up.
func plusMinus(a, c Um, d2, rest Um2) (plus, minus Um) {
	hi, lo := bits.Mul64(uint64(c*c), uint64(rest))
	w, rem := bits.Div64(hi, lo, uint64(d2)) // c² ≤ d2, so that w ≤ rest
	s := root(Um2(w))
	down, up := Um(s), Um(s)
	if rem != 0 || Um2(w) != s*s {
		up++
	}
	return floorDiv(a+1+down, 2), floorDiv(a+1-up, 2)
}

// notNegative says whether a + s·√(rest/d2) ≥ 0, exactly, for d2 > 0 ≤ rest.
func notNegative(a, s Um, d2, rest Um2) bool {
	if a >= 0 && s >= 0 {
		return true
	}
	h1, l1 := bits.Mul64(uint64(a*a), uint64(d2))
	h2, l2 := bits.Mul64(uint64(s*s), uint64(rest))
	less := h1 < h2 || h1 == h2 && l1 < l2 // a²·d2 < s²·rest
	if a >= 0 {
		return !less
	}
	return s > 0 && (less || h1 == h2 && l1 == l2)
}
