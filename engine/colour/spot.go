package colour

// Spot is a colour's place in OKLab in steps of 1/10000, so that 100 is about
// what an eye just tells apart: lightness, green to red, blue to yellow. The darkest
// colours lie nearer to one another than there, as they do in CIE Lab.
type Spot [3]int64

// SpotOf places c.
func SpotOf(c RGB) Spot {
	p := labBy(c, eased)
	return Spot{p.l, p.a, p.b}
}

// Apart is the square of the distance of s and t.
func (s Spot) Apart(t Spot) int64 {
	l, a, b := s[0]-t[0], s[1]-t[1], s[2]-t[2]
	return l*l + a*a + b*b
}
