package colour

// This file places colours in OKLab, in which equal distances look about
// equally large, with whole numbers only. Source of the constants: B. Ottosson,
// "A perceptual color space for image processing" (2020), from memory; the
// test compares them with go-colorful's.

// lab is a place in OKLab in units of 1/labUnit.
type lab struct{ l, a, b int64 }

// labUnit is 1.0 of OKLab; a step of 1/10000 is far below what an eye sees.
const labUnit = 10000

// toLMS and toLab hold the two matrices of OKLab times 1e10.
var (
	toLMS = [3][3]int64{
		{4122214708, 5363325363, 514459929},
		{2119034982, 6806995451, 1073969566},
		{883024619, 2817188376, 6299787005},
	}
	toLab = [3][3]int64{
		{2104542553, 7936177850, -40720468},
		{19779984951, -24285922050, 4505937099},
		{259040371, 7827717662, -8086757660},
	}
)

// labOf places c in OKLab, each coordinate rounded.
func labOf(c RGB) lab { return labBy(c, steep) }

// labBy is labOf with another function in place of the cube root, of so many parts of
// fullLight, in units of 1/rootUnit.
func labBy(c RGB, response func(light int64) int64) lab {
	light := [3]int64{int64(linear[c.R]), int64(linear[c.G]), int64(linear[c.B])}
	var root [3]int64
	for i, row := range toLMS {
		root[i] = response(row[0]*light[0] + row[1]*light[1] + row[2]*light[2])
	}
	var out [3]int64
	for i, row := range toLab {
		// The roots are below 2^21, the constants below 2^35.
		sum := row[0]*root[0] + row[1]*root[1] + row[2]*root[2]
		out[i] = divide(sum, rootUnit*1e10/labUnit)
	}
	return lab{out[0], out[1], out[2]}
}

// fullLight is the lightest sum.
const fullLight = FullLinear * 10000000000

// steep is the cube root. The sum is of 50 bits at most; shifted by 12 it still fits.
func steep(light int64) int64 { return cubeRoot(uint64(light) << 12) }

// eased is the cube root above 216/24389 of full light, and below it a straight line to
// 4/29, as CIE Lab has it (CIE 15:2004, section 8.2.1): the cube root alone is so steep
// there that what compression makes of black would look like many colours.
func eased(light int64) int64 {
	if light > fullLight/24389*216 {
		return steep(light)
	}
	return light*841/108/(fullLight/rootUnit) + rootUnit*4/29
}

// rootUnit is the cube root of the lightest sum: 65535 × 1e10 × 2^12.
var rootUnit = cubeRoot(fullLight << 12)

// cubeRoot is the largest whole number whose cube is at most x, for x below 2^63.
func cubeRoot(x uint64) int64 {
	var root uint64
	for bit := uint64(1) << 20; bit > 0; bit >>= 1 {
		if next := root | bit; next*next*next <= x {
			root = next
		}
	}
	return int64(root)
}

// divide is x/y rounded to the nearest, halves away from zero; y > 0.
func divide(x, y int64) int64 {
	if x < 0 {
		return -((-x + y/2) / y)
	}
	return (x + y/2) / y
}

// apart is the square of the distance of p and q.
func (p lab) apart(q lab) int64 {
	l, a, b := p.l-q.l, p.a-q.a, p.b-q.b
	return l*l + a*a + b*b
}
