package picture

import (
	"encoding/binary"

	"sheetsprite/engine/colour"
)

// This file takes pictures with wider or other colours to sRGB. It reads ICC
// profiles of three primaries and tone curves (ICC.1:2022, the three-component
// matrix-based kind), which cameras, telephones and screens write; of others
// the colours are taken as sRGB.

// profile is a way from the file's colours to sRGB.
type profile struct {
	tone   [3][256]float64 // light of a channel, 0 to 1
	matrix [3][3]float64   // to linear sRGB
}

// xyzToSRGB takes XYZ under D50, as profiles have it, to linear sRGB. It is the
// inverse of sRGB's primaries adapted to D50 by Bradford's method (IEC
// 61966-2-1 amendment 1, and ICC's sRGB profile).
var xyzToSRGB = [3][3]float64{
	{3.1341359, -1.6173863, -0.4906619},
	{-0.9787955, 1.9162544, 0.0334427},
	{0.0719554, -0.2289768, 1.4053860},
}

// profileOf is the profile in a file; nil where there is none, where it isn't
// of the kind read here, or where it is sRGB within a step of 8 bits.
func profileOf(name string, f file) *profile {
	_, icc := extras(name, f)
	if len(icc) < 132 || string(icc[12:20]) != "mntrRGB " && string(icc[12:20]) != "scnrRGB " || string(icc[20:24]) != "XYZ " {
		return nil
	}
	p := &profile{}
	for c, names := range [3][2]string{{"rXYZ", "rTRC"}, {"gXYZ", "gTRC"}, {"bXYZ", "bTRC"}} {
		place, curve := iccTag(icc, names[0]), iccTag(icc, names[1])
		if len(place) < 20 || string(place[:4]) != "XYZ " {
			return nil
		}
		for i := range 3 {
			for row := range 3 {
				p.matrix[row][c] += float64(xyzToSRGB[row][i] * fixed(place[8+4*i:]))
			}
		}
		for v := range 256 {
			light, ok := tone(curve, float64(v)/255)
			if !ok {
				return nil
			}
			p.tone[c][v] = light
		}
	}
	if p.isSRGB() {
		return nil
	}
	return p
}

// iccTag is the body of a tag.
func iccTag(icc []byte, name string) []byte {
	count := int(binary.BigEndian.Uint32(icc[128:]))
	for i := range min(count, 100) {
		e := 132 + 12*i
		if e+12 > len(icc) {
			return nil
		}
		if string(icc[e:e+4]) != name {
			continue
		}
		from, n := int(binary.BigEndian.Uint32(icc[e+4:])), int(binary.BigEndian.Uint32(icc[e+8:]))
		if from < 0 || n < 0 || from > len(icc) || n > len(icc)-from {
			return nil
		}
		return icc[from : from+n]
	}
	return nil
}

// fixed is an s15Fixed16Number.
func fixed(b []byte) float64 { return float64(int32(binary.BigEndian.Uint32(b))) / 65536 }

// tone is the light of a channel at v, by a curveType or parametricCurveType.
func tone(curve []byte, v float64) (float64, bool) {
	if len(curve) < 12 {
		return 0, false
	}
	switch string(curve[:4]) {
	case "curv":
		n := int(binary.BigEndian.Uint32(curve[8:]))
		switch {
		case n == 0:
			return v, true
		case n < 0 || n > (len(curve)-12)/2:
			return 0, false
		case n == 1:
			return power(v, float64(binary.BigEndian.Uint16(curve[12:]))/256), true
		}
		at := v * float64(n-1)
		i := min(int(at), n-2)
		a, b := float64(binary.BigEndian.Uint16(curve[12+2*i:])), float64(binary.BigEndian.Uint16(curve[14+2*i:]))
		return (a + float64((b-a)*(at-float64(i)))) / 65535, true
	case "para":
		kind := int(binary.BigEndian.Uint16(curve[8:]))
		if kind > 4 {
			return 0, false
		}
		count := []int{1, 3, 4, 5, 7}[kind]
		if len(curve) < 12+4*count {
			return 0, false
		}
		q := [7]float64{}
		for i := range count {
			q[i] = fixed(curve[12+4*i:])
		}
		return parametric(kind, q, v), true
	}
	return 0, false
}

// parametric is table 68 of ICC.1:2022; q holds g, a, b, c, d, e, f.
func parametric(kind int, q [7]float64, v float64) float64 {
	g, a, b, c, d, e, f := q[0], q[1], q[2], q[3], q[4], q[5], q[6]
	bent := power(float64(a*v)+b, g)
	switch kind {
	case 0:
		return power(v, g)
	case 1:
		if a == 0 || v < -b/a {
			return 0
		}
		return bent
	case 2:
		if a == 0 || v < -b/a {
			return c
		}
		return bent + c
	case 3:
		if v < d {
			return c * v
		}
		return bent
	}
	if v < d {
		return float64(c*v) + f
	}
	return bent + e
}

// power is x to the g for x ≥ 0, the same on every machine: by the series of
// the logarithm and of the exponential. 0 for what has no value.
func power(x, g float64) float64 {
	if !(x > 0) || x > 1e6 || g < -20 || g > 20 {
		return 0
	}
	const ln2 = 0.693147180559945309417232121458
	shift := 0.0
	for ; x > 1.5; x /= 2 {
		shift++
	}
	for ; x < 0.75; x *= 2 {
		shift--
	}
	z := (x - 1) / (x + 1)
	ln, term := 0.0, z
	for k := 1.0; k < 40; k += 2 {
		ln += 2 * term / k
		term *= float64(z * z)
	}
	y := float64(g * (ln + float64(shift*ln2)))
	halvings := 0
	for ; y > 0.5 || y < -0.5; y /= 2 {
		halvings++
	}
	out, t := 1.0, 1.0
	for k := 1.0; k < 20; k++ {
		t *= y / k
		out += t
	}
	for range halvings {
		out *= out
	}
	return out
}

// isSRGB says whether no colour of a coarse grid changes.
func (p *profile) isSRGB() bool {
	for _, c := range [][3]uint8{{255, 0, 0}, {0, 255, 0}, {0, 0, 255}, {255, 255, 255}, {128, 64, 32}, {32, 128, 200}, {200, 180, 90}, {20, 20, 20}} {
		for i, v := range p.convert(c[0], c[1], c[2]) {
			if d := int(v) - int(c[i]); d > 1 || d < -1 {
				return false
			}
		}
	}
	return true
}

// convert takes a colour to sRGB; what sRGB can't show is clipped.
func (p *profile) convert(r, g, b uint8) (out [3]uint8) {
	light := [3]float64{p.tone[0][r], p.tone[1][g], p.tone[2][b]}
	for i, row := range p.matrix {
		sum := float64(row[0]*light[0]) + float64(row[1]*light[1]) + float64(row[2]*light[2])
		out[i] = colour.FromLinear(uint16(min(max(sum*colour.FullLinear+0.5, 0), colour.FullLinear)))
	}
	return out
}

// apply takes all pixels to sRGB.
func (p *profile) apply(r *Raster) {
	if p == nil {
		return
	}
	var last, now [3]uint8
	known := false
	for i := 0; i+3 < len(r.Pix); i += 4 {
		px := r.Pix[i : i+4]
		a := uint32(px[3])
		if a == 0 {
			continue
		}
		var c [3]uint8
		for k := range c {
			c[k] = uint8(min(255, (uint32(px[k])*255+a/2)/a))
		}
		if !known || c != last {
			last, now, known = c, p.convert(c[0], c[1], c[2]), true
		}
		for k, v := range now {
			px[k] = uint8((uint32(v)*a + 127) / 255)
		}
	}
}
