package colour

// Place is where c lies in OKLab, in steps of 1/10000, so that 100 is about
// what an eye just tells apart: lightness, green to red, blue to yellow.
func Place(c RGB) (l, a, b int64) {
	p := labOf(c)
	return p.l, p.a, p.b
}
