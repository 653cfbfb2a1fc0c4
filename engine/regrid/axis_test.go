package regrid

import (
	"fmt"
	"os"
	"testing"

	"sheetsprite/engine/regrid/picture"
)

func TestZZAxis(t *testing.T) {
	if os.Getenv("ZZ") == "" {
		return
	}
	bad, all := map[string]int{}, map[string]int{}
	for seed := range 40 {
		d := dice(seed)
		sp := sprite(seed).small()
		do := func(name string, r *picture.Raster, nx, ny int) {
			x, y := sketches(r)
			for i, s := range []*sketch{&x, &y} {
				fits := fitsAlong(s)
				want := []int{nx, ny}[i]
				all[name]++
				if len(fits) == 0 || fits[0].cells != want {
					bad[name]++
				}
				if len(fits) > 0 && (fits[0].cells != want || fits[0].dip > 0.3) {
					fmt.Printf("%d %s %d %d want %d:", seed, name, i, s.size, want)
					for _, f := range fits[:min(4, len(fits))] {
						fmt.Printf(" %d cells of %.2f from %.2f %s left %.1f dip %.3f;", f.cells, f.size, f.start, f.kernel.name, f.left, f.dip)
					}
					fmt.Println()
				}
			}
		}
		w := int(32 * (3 + d.Float64()*17))
		j := int(32 * (6 + d.Float64()*10))
		a := int(32 * (2 + d.Float64()))
		do("bil", bilinear(sp, w, w), 32, 32)
		do("bic", bicubic(sp, w, w), 32, 32)
		do("bics", bicubicSharp(sp, w, w), 32, 32)
		do("lan", lanczos3(sp, w, w), 32, 32)
		do("jpeg50", throughJPEG(t, nearest(sp, j, j, 0), 50), 32, 32)
		do("bicjpeg50", throughJPEG(t, bicubic(sp, j, j), 50), 32, 32)
		do("area", averaged(nearest(sp, 640, 640, 0), a, a), 32, 32)
		// crops in mid-cell
		s := float64(j) / 32
		c0, c1 := d.IntN(int(4*s)), int(27*s)+d.IntN(int(4*s))
		l := lattice{s, 0, 32}
		n := cropped(l.size, -float64(c0), c1-c0).cells
		do("cropjpeg", throughJPEG(t, part(nearest(sp, j, j, 0), c0, c0, c1, c1), 70), n, n)
		do("cropbil", part(bilinear(sp, j, j), c0, c0, c1, c1), n, n)
		do("cropbic", part(bicubic(sp, j, j), c0, c0, c1, c1), n, n)
		do("croplan", part(lanczos3(sp, j, j), c0, c0, c1, c1), n, n)
		do("cropbicjpeg", throughJPEG(t, part(bicubic(sp, j, j), c0, c0, c1, c1), 70), n, n)
	}
	fmt.Println(bad, all)
}
