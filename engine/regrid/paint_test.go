package regrid

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"testing"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/regrid/picture"
	"sheetsprite/engine/stack/stacktest"
)

// truth is a drawing and what it is shown on.
type truth struct {
	w, h    int
	cells   []int        // 0 is empty, else palette entry + 1
	palette []colour.RGB // of the drawing
	ground  [4]uint8     // what empty cells show
}

// dice is a generator for tests, the same for the same seed.
func dice(seed int) *rand.Rand { return rand.New(rand.NewPCG(uint64(seed), 77)) }

// sprite is a drawing of 32×32 cells in 4 to 7 colours, no two of them nor the
// ground alike (ΔE 12 and more: what card on a shelf differs by).
func sprite(seed int) truth {
	d := dice(seed)
	n := 4 + seed%4
	drawing := stacktest.Sprite32(seed, n)
	grounds := [][4]uint8{{}, {255, 255, 255, 255}, {64, 160, 220, 255}, {24, 24, 32, 255}, {200, 200, 200, 255}}
	t := truth{w: drawing.W, h: drawing.H, ground: grounds[seed/4%len(grounds)]}
	apart := func(c colour.RGB) bool {
		if t.ground[3] > 0 && colour.Difference(c, colour.RGB{R: t.ground[0], G: t.ground[1], B: t.ground[2]}) < 12 {
			return false
		}
		for _, p := range t.palette {
			if colour.Difference(c, p) < 12 {
				return false
			}
		}
		return true
	}
	t.palette = append(t.palette, colour.RGB{R: 34, G: 20, B: 28})
	if t.ground == grounds[3] {
		t.palette[0] = colour.RGB{R: 90, G: 20, B: 28}
	}
	for len(t.palette) < n {
		c := colour.RGB{R: uint8(d.IntN(256)), G: uint8(d.IntN(256)), B: uint8(d.IntN(256))}
		if apart(c) {
			t.palette = append(t.palette, c)
		}
	}
	for _, c := range drawing.Cells {
		t.cells = append(t.cells, int(c))
	}
	return t
}

// small is the drawing at one pixel a cell.
func (t truth) small() *picture.Raster {
	r := picture.NewRaster(t.w, t.h)
	for i, c := range t.cells {
		p := t.ground
		if c > 0 {
			rgb := t.palette[c-1]
			p = [4]uint8{rgb.R, rgb.G, rgb.B, 255}
		}
		copy(r.Pix[4*i:], p[:])
	}
	return r
}

// rounded says which way a writer decides which cell a pixel is of.
type rounded int

const (
	byCentre rounded = iota // the cell in which the pixel's centre lies
	byCorner                // the cell in which its upper left corner lies
)

// nearest repeats pixels; the picture becomes w×h.
func nearest(r *picture.Raster, w, h int, how rounded) *picture.Raster {
	out := picture.NewRaster(w, h)
	off := 0.5
	if how == byCorner {
		off = 0
	}
	for y := range h {
		for x := range w {
			sx := int((float64(x) + off) * float64(r.W) / float64(w))
			sy := int((float64(y) + off) * float64(r.H) / float64(h))
			out.Set(x, y, r.At(min(sx, r.W-1), min(sy, r.H-1)))
		}
	}
	return out
}

// resampled enlarges or shrinks with a kernel, in floating point, clipping at
// the end. When shrinking the kernel is as wide as the result's pixels.
func resampled(r *picture.Raster, w, h int, radius float64, weight func(float64) float64) *picture.Raster {
	pass := func(in []float64, n, m, lines int, at func(line, i int) int, outAt func(line, i int) int, out []float64) {
		scale := float64(n) / float64(m)
		wide := math.Max(1, scale)
		for i := range m {
			centre := (float64(i) + 0.5) * scale
			lo, hi := int(math.Floor(centre-radius*wide)), int(math.Ceil(centre+radius*wide))
			var ws []float64
			sum := 0.0
			for j := lo; j <= hi; j++ {
				v := weight((float64(j) + 0.5 - centre) / wide)
				ws = append(ws, v)
				sum += v
			}
			for line := range lines {
				for c := range 4 {
					acc := 0.0
					for j := lo; j <= hi; j++ {
						acc += ws[j-lo] * in[4*at(line, min(max(j, 0), n-1))+c]
					}
					out[4*outAt(line, i)+c] = acc / sum
				}
			}
		}
	}
	in := make([]float64, len(r.Pix))
	for i, v := range r.Pix {
		in[i] = float64(v)
	}
	mid := make([]float64, 4*w*r.H)
	pass(in, r.W, w, r.H, func(l, i int) int { return l*r.W + i }, func(l, i int) int { return l*w + i }, mid)
	end := make([]float64, 4*w*h)
	pass(mid, r.H, h, w, func(l, i int) int { return i*w + l }, func(l, i int) int { return i*w + l }, end)
	out := picture.NewRaster(w, h)
	for i, v := range end {
		out.Pix[i] = uint8(math.Round(min(max(v, 0), 255)))
	}
	for i := 0; i < len(out.Pix); i += 4 {
		for c := range 3 { // premultiplied
			out.Pix[i+c] = min(out.Pix[i+c], out.Pix[i+3])
		}
	}
	return out
}

// The textbook kernels, written apart from those that the package uses.
func textbookLinear(t float64) float64 { return max(0, 1-math.Abs(t)) }
func textbookCubic(a float64) func(float64) float64 {
	return func(t float64) float64 {
		x := math.Abs(t)
		if x <= 1 {
			return (a+2)*x*x*x - (a+3)*x*x + 1
		} else if x < 2 {
			return a*x*x*x - 5*a*x*x + 8*a*x - 4*a
		}
		return 0
	}
}
func textbookLanczos(t float64) float64 {
	sinc := func(x float64) float64 {
		if x == 0 {
			return 1
		}
		return math.Sin(math.Pi*x) / (math.Pi * x)
	}
	if math.Abs(t) >= 3 {
		return 0
	}
	return sinc(t) * sinc(t/3)
}

func bilinear(r *picture.Raster, w, h int) *picture.Raster {
	return resampled(r, w, h, 1, textbookLinear)
}
func bicubic(r *picture.Raster, w, h int) *picture.Raster {
	return resampled(r, w, h, 2, textbookCubic(-0.5))
}
func bicubicSharp(r *picture.Raster, w, h int) *picture.Raster {
	return resampled(r, w, h, 2, textbookCubic(-0.75))
}
func lanczos3(r *picture.Raster, w, h int) *picture.Raster {
	return resampled(r, w, h, 3, textbookLanczos)
}

// averaged shrinks by the exact mean over each pixel's area.
func averaged(r *picture.Raster, w, h int) *picture.Raster {
	out := picture.NewRaster(w, h)
	cover := func(i int, scale float64, j int) float64 {
		return max(0, min(float64(i+1)*scale, float64(j+1))-max(float64(i)*scale, float64(j)))
	}
	sx, sy := float64(r.W)/float64(w), float64(r.H)/float64(h)
	for y := range h {
		for x := range w {
			var acc [4]float64
			for v := int(float64(y) * sy); v <= int(float64(y+1)*sy); v++ {
				for u := int(float64(x) * sx); u <= int(float64(x+1)*sx); u++ {
					a := cover(x, sx, u) * cover(y, sy, v)
					for c, p := range r.At(min(u, r.W-1), min(v, r.H-1)) {
						acc[c] += a * float64(p)
					}
				}
			}
			var p [4]uint8
			for c := range p {
				p[c] = uint8(math.Round(acc[c] / (sx * sy)))
			}
			out.Set(x, y, p)
		}
	}
	return out
}

// throughJPEG writes and reads the picture; what is transparent becomes white.
func throughJPEG(t testing.TB, r *picture.Raster, quality int) *picture.Raster {
	img := image.NewRGBA(image.Rect(0, 0, r.W, r.H))
	for i := 0; i < len(r.Pix); i += 4 {
		rest := 255 - r.Pix[i+3]
		copy(img.Pix[i:], []uint8{r.Pix[i] + rest, r.Pix[i+1] + rest, r.Pix[i+2] + rest, 255})
	}
	var file bytes.Buffer
	if err := jpeg.Encode(&file, img, &jpeg.Options{Quality: quality}); err != nil {
		t.Fatal(err)
	}
	back, err := jpeg.Decode(&file)
	if err != nil {
		t.Fatal(err)
	}
	out := picture.NewRaster(r.W, r.H)
	for y := range r.H {
		for x := range r.W {
			red, green, blue, _ := back.At(x, y).RGBA()
			out.Set(x, y, [4]uint8{uint8(red >> 8), uint8(green >> 8), uint8(blue >> 8), 255})
		}
	}
	return out
}

// part is a crop of the picture.
func part(r *picture.Raster, x0, y0, x1, y1 int) *picture.Raster {
	out := picture.NewRaster(x1-x0, y1-y0)
	for y := range out.H {
		copy(out.Pix[4*y*out.W:][:4*out.W], r.Pix[4*((y+y0)*r.W+x0):])
	}
	return out
}

// lined draws lines of the given width at the start of each cell of s pixels.
func lined(r *picture.Raster, s, width int, p [4]uint8) *picture.Raster {
	out := picture.NewRaster(r.W, r.H)
	copy(out.Pix, r.Pix)
	for y := range r.H {
		for x := range r.W {
			if x%s < width || y%s < width {
				out.Set(x, y, p)
			}
		}
	}
	return out
}

// scalers are the smooth ways to enlarge.
var scalers = map[string]func(r *picture.Raster, w, h int) *picture.Raster{
	"bilinear": bilinear, "bicubic": bicubic, "sharper bicubic": bicubicSharp, "Lanczos": lanczos3,
}

// evenlyBlurred blurs evenly.
func evenlyBlurred(r *picture.Raster, sigma float64) *picture.Raster {
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
