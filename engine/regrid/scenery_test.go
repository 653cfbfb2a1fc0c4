package regrid

import (
	"math"
	"math/rand/v2"

	"sheetsprite/engine/regrid/picture"
)

// scenery is a picture without cells: hills and clouds of all sizes (sums of
// waves, weaker the shorter), some round and some straight things before them,
// and a little noise.
func scenery(d *rand.Rand, w, h int) *picture.Raster {
	type wave struct{ u, v, phase, size float64 }
	var waves [3][]wave
	for c := range waves {
		for range 40 {
			f := math.Exp(d.Float64() * 4.5)
			a := d.Float64() * 2 * math.Pi
			waves[c] = append(waves[c], wave{f * math.Cos(a) / 60, f * math.Sin(a) / 60, d.Float64() * 7, 60 / math.Pow(f, 0.9)})
		}
	}
	type disc struct {
		x, y, r float64
		p       [3]float64
		square  bool
	}
	var discs []disc
	for range d.IntN(12) {
		discs = append(discs, disc{d.Float64() * float64(w), d.Float64() * float64(h), 8 + d.Float64()*60,
			[3]float64{d.Float64() * 255, d.Float64() * 255, d.Float64() * 255}, d.IntN(2) == 0})
	}
	out := picture.NewRaster(w, h)
	for y := range h {
		for x := range w {
			var p [4]uint8
			for c := range 3 {
				v := 128.0
				for _, m := range waves[c] {
					v += m.size * math.Sin(m.u*float64(x)+m.v*float64(y)+m.phase) / 3
				}
				for _, k := range discs {
					dx, dy := float64(x)-k.x, float64(y)-k.y
					if k.square && math.Abs(dx+dy/5) < k.r && math.Abs(dy-dx/5) < k.r || !k.square && dx*dx+dy*dy < k.r*k.r {
						v = 0.3*v + 0.7*k.p[c]
					}
				}
				p[c] = uint8(min(max(v+d.NormFloat64()*3, 0), 255))
			}
			p[3] = 255
			out.Set(x, y, p)
		}
	}
	return out
}
