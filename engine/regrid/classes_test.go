package regrid

import (
	"fmt"
	"os"
	"testing"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/regrid/picture"
)

// score counts the cells of a result that are right: empty where the truth is,
// else nearest to the true palette entry; entries closer than ΔE 4 count as
// one. A result of the wrong size has no right cell.
func (t truth) score(r *Result) (right int, size bool) {
	if r == nil || r.W != t.w || r.H != t.h {
		return 0, false
	}
	for i, want := range t.cells {
		got := r.Cells[i]
		switch {
		case want == 0 || got == 0:
			if want == got {
				right++
			}
		default:
			c := r.Palette[got-1]
			best, at := 1e9, 0
			for k, p := range t.palette {
				if d := colour.Difference(c, p); d < best {
					best, at = d, k
				}
			}
			if at == want-1 || colour.Difference(t.palette[at], t.palette[want-1]) < 4 {
				right++
			}
		}
	}
	return right, true
}

// cut is the truth of a crop.
func (t truth) cut(x0, y0, x1, y1 int) truth {
	out := truth{w: x1 - x0, h: y1 - y0, palette: t.palette, ground: t.ground}
	for y := y0; y < y1; y++ {
		out.cells = append(out.cells, t.cells[y*t.w+x0:y*t.w+x1]...)
	}
	return out
}

// tally is what a class of pictures reached.
type tally struct{ pictures, sizes, cells, right, palettes int }

func (c tally) String() string {
	return fmt.Sprintf("%d palettes, %d pictures, sizes %.1f %%, cells %.3f %% (of right sizes %.3f %%)", c.palettes, c.pictures,
		100*float64(c.sizes)/float64(c.pictures), 100*float64(c.right)/float64(c.pictures*1024),
		100*float64(c.right)/float64(max(1, c.cells)))
}

func (c *tally) add(t *testing.T, what truth, r *picture.Raster, colours int, name string) {
	c.addWith(t, what, r, Options{Colours: colours}, name)
}

func (c *tally) addWith(t *testing.T, what truth, r *picture.Raster, o Options, name string) {
	res, err := Find(r, o)
	c.pictures++
	if err != nil {
		t.Logf("%s (%d×%d): %v", name, r.W, r.H, err)
	}
	right, size := what.score(res)
	if size {
		c.sizes++
		c.cells += len(what.cells)
	} else if res != nil {
		t.Logf("%s (%d×%d): %d×%d cells instead of %d×%d; %+v %s", name, r.W, r.H, res.W, res.H, what.w, what.h, res.Grid, res.Enlarged)
	}
	if size && o.Colours == 0 {
		used := map[int]bool{}
		for _, c := range what.cells {
			used[c] = true
		}
		delete(used, 0)
		if len(used) == len(res.Palette) {
			c.palettes++
		} else {
			t.Logf("%s (%d×%d): %d colours instead of %d: %v instead of %v", name, r.W, r.H, len(res.Palette), len(used), res.Palette, what.palette)
		}
	}
	if size && right < len(what.cells) {
		t.Logf("%s (%d×%d): %d cells wrong, palette %v instead of %v, ground %v, %s", name, r.W, r.H, len(what.cells)-right, res.Palette, what.palette, res.Ground, res.Enlarged)
	}
	c.right += right * 1024 / len(what.cells)
}

func TestZZClasses(t *testing.T) {
	if os.Getenv("ZZ") == "" {
		return
	}
	n := 20
	var near, smooth, jp, sjp, ar, crop, cropj, cropb tally
	for seed := range n {
		d := dice(seed + 1000)
		tr := sprite(seed)
		sp := tr.small()
		N := len(tr.palette)
		if os.Getenv("ZZ") == "n" {
			N = 0
		}
		size := func(lo, hi float64) int { return int(32*(lo+d.Float64()*(hi-lo)) + 0.5) }
		near.add(t, tr, nearest(sp, size(2, 40), size(2, 40), rounded(seed%2)), N, "near")
		w := size(3, 20)
		for i, f := range []func(*picture.Raster, int, int) *picture.Raster{bilinear, bicubic, bicubicSharp, lanczos3} {
			smooth.add(t, tr, f(sp, w, w), N, fmt.Sprint("smooth", seed, " ", i))
		}
		j := size(6, 16)
		q := 50 + d.IntN(41)
		jp.add(t, tr, throughJPEG(t, nearest(sp, j, j, 0), q), N, fmt.Sprint("jpeg ", seed, " ", q))
		sjp.add(t, tr, throughJPEG(t, bicubic(sp, j, j), q), N, fmt.Sprint("bicjpeg ", seed, " ", q))
		ar.add(t, tr, averaged(nearest(sp, 32*20, 32*20, 0), size(2, 3), size(2, 3)), N, fmt.Sprint("area", seed))
		s := float64(j) / 32
		a, b := 1, 30
		c0, c1 := int((float64(a)-0.3)*s), int((float64(b)+0.3)*s)
		cutTruth := tr.cut(a, a, b, b)
		crop.add(t, cutTruth, part(nearest(sp, j, j, 0), c0, c0, c1, c1), N, fmt.Sprint("crop", seed))
		cropj.add(t, cutTruth, throughJPEG(t, part(nearest(sp, j, j, 0), c0, c0, c1, c1), q), N, fmt.Sprint("cropj", seed))
		cropb.add(t, cutTruth, part(bicubic(sp, j, j), c0, c0, c1, c1), N, fmt.Sprint("cropb", seed))
	}
	fmt.Println("near", near, "\nsmooth", smooth, "\njpeg", jp, "\nbicjpeg", sjp, "\narea", ar, "\ncrop", crop, "\ncrop jpeg", cropj, "\ncrop bicubic", cropb)
}
