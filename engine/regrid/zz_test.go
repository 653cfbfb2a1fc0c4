package regrid

import (
	"fmt"
	"math"
	"os"
	"testing"

	"sheetsprite/engine/regrid/picture"
)

// blurredPicture blurs evenly.
func blurredPicture(r *picture.Raster, sigma float64) *picture.Raster {
	side := max(r.W, r.H)
	var out = picture.NewRaster(r.W, r.H)
	in := make([][3]float64, side*side)
	for y := range side {
		for x := range side {
			p := r.At(min(x, r.W-1), min(y, r.H-1))
			in[y*side+x] = [3]float64{float64(p[0]), float64(p[1]), float64(p[2])}
		}
	}
	b := blurred(in, side, sigma)
	for y := range r.H {
		for x := range r.W {
			v := b[y*side+x]
			out.Set(x, y, [4]uint8{uint8(math.Round(v[0])), uint8(math.Round(v[1])), uint8(math.Round(v[2])), 255})
		}
	}
	return out
}

// over puts the picture on a ground that differs from place to place.
func over(r *picture.Raster, ground func(x, y int) [3]float64) *picture.Raster {
	out := picture.NewRaster(r.W, r.H)
	for y := range r.H {
		for x := range r.W {
			p, g := r.At(x, y), ground(x, y)
			rest := float64(255-p[3]) / 255
			for c := range 3 {
				p[c] = uint8(math.Round(min(255, float64(p[c])+rest*g[c])))
			}
			p[3] = 255
			out.Set(x, y, p)
		}
	}
	return out
}

func TestZZBeyond(t *testing.T) {
	if os.Getenv("ZZ") == "" {
		return
	}
	n := 20
	var lines, linesj, linecrop, blur, grad, check, gradb, checkb tally
	for seed := range n {
		d := dice(seed + 4000)
		tr := sprite(seed)
		N := len(tr.palette)
		s := 6 + d.IntN(20)
		colours := [][4]uint8{{128, 128, 128, 255}, {255, 255, 255, 255}, {0, 0, 0, 255}, {200, 200, 220, 255}}
		width := 1 + d.IntN(2)
		ground := tr
		if tr.ground[3] == 0 { // on white
			ground.ground = [4]uint8{255, 255, 255, 255}
		}
		l := lined(nearest(ground.small(), 32*s, 32*s, 0), s, width, colours[d.IntN(4)])
		lines.add(t, tr, l, N, fmt.Sprintf("lines %d s%d w%d", seed, s, width))
		c0, c1 := s+d.IntN(s), 30*s+d.IntN(s)
		k := cropped(float64(s), -float64(c0), c1-c0)
		first := int(math.Round((float64(c0) + k.start) / float64(s)))
		linecrop.add(t, tr.cut(first, first, first+k.cells, first+k.cells), part(l, c0, c0, c1, c1), N, fmt.Sprintf("linecrop %d s%d w%d", seed, s, width))
		linesj.add(t, tr, throughJPEG(t, l, 60+d.IntN(30)), N, fmt.Sprintf("linesj %d s%d w%d", seed, s, width))
		f := 5 + d.Float64()*12
		e := nearest(ground.small(), int(32*f), int(32*f), 0)
		blur.add(t, tr, blurredPicture(e, f*(0.1+0.25*d.Float64())), N, fmt.Sprint("blur", seed))
		clear := tr
		clear.ground = [4]uint8{}
		a, b := [3]float64{float64(d.IntN(256)), float64(d.IntN(256)), float64(d.IntN(256))}, [3]float64{float64(d.IntN(256)), float64(d.IntN(256)), float64(d.IntN(256))}
		w := int(32 * f)
		g := func(x, y int) (p [3]float64) {
			for c := range p {
				p[c] = a[c] + (b[c]-a[c])*(float64(x)*0.3+float64(y)*0.7)/float64(w)
			}
			return p
		}
		sq := 4 + d.IntN(13)
		ck := func(x, y int) [3]float64 {
			if (x/sq+y/sq)%2 == 0 {
				return [3]float64{255, 255, 255}
			}
			return [3]float64{204, 204, 204}
		}
		grad.add(t, clear, over(nearest(clear.small(), w, w, 0), g), N, fmt.Sprint("grad", seed))
		gradb.add(t, clear, over(bicubic(clear.small(), w, w), g), N, fmt.Sprint("gradb", seed))
		check.add(t, clear, over(nearest(clear.small(), w, w, 0), ck), N, fmt.Sprintf("check %d f%.2f sq%d", seed, f, sq))
		checkb.add(t, clear, over(bicubic(clear.small(), w, w), ck), N, fmt.Sprintf("checkb %d f%.2f sq%d", seed, f, sq))
	}
	fmt.Println("lines", lines, "\nlines crop", linecrop, "\nlines jpeg", linesj, "\nblur", blur, "\ngradient", grad, "\ngradient bicubic", gradb, "\nchecker", check, "\nchecker bicubic", checkb)
}

func TestZZNone(t *testing.T) {
	if os.Getenv("ZZ") == "" {
		return
	}
	for seed := range 30 {
		d := dice(seed)
		r := scenery(d, 300+d.IntN(400), 300+d.IntN(400))
		for _, q := range []int{0, 60, 90} {
			p := r
			if q > 0 {
				p = throughJPEG(t, r, q)
			}
			res, err := Find(p, Options{})
			if err == nil {
				fmt.Println("taken for a sprite:", seed, q, res.W, res.H, res.GridSure, res.Corners, res.Grid)
			}
		}
	}
}
