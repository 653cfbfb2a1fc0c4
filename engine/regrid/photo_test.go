package regrid

import (
	"math"
	"math/rand/v2"

	"sheetsprite/engine/regrid/picture"
)

// photo is a photograph of a sprite on a screen, and where its corners are.
func photo(t truth, d *rand.Rand) (*picture.Raster, Corners) { return scene{}.photo(t, d) }

// photoThrough is a photograph through a lens that shows what lies at ρ half
// diagonals from the middle at ρ(1 + bend ρ²).
func photoThrough(t truth, d *rand.Rand, bend float64) (*picture.Raster, Corners) {
	return scene{bend: bend}.photo(t, d)
}

// scene is what a screen stands in, and how it is photographed. The zero value has one dark
// colour round the drawing.
type scene struct {
	bend   float64
	frame  float64                       // of the screen, dark: its width in sides of the drawing
	around func(x, y float64) [3]float64 // nil: one dark colour
}

// desks are surroundings of 720 pixels that aren't of one colour, or light.
var desks = map[string]func(x, y float64) [3]float64{
	"light": func(x, y float64) [3]float64 { return [3]float64{188, 200, 204} },
	"grain": func(x, y float64) [3]float64 { // as of wood
		v := 14*math.Sin(y/9+2*math.Sin(x/70)) + 9*math.Sin(y/2.3+math.Sin(x/31)) + 6*math.Sin(x/3+y/5)
		return [3]float64{150 + v, 110 + v, 75 + v}
	},
	"cloth": func(x, y float64) [3]float64 {
		v := 12*math.Sin(x/1.9)*math.Sin(y/2.1) + 9*math.Sin((x+y)/41)
		return [3]float64{80 + v, 84 + v, 110 + v}
	},
	"table before a wall": func(x, y float64) [3]float64 {
		if y < 250+x/8 {
			return [3]float64{200, 196, 188}
		}
		return [3]float64{104, 76, 58}
	},
}

// photo is a photograph of a drawing in the scene, and where its corners are.
func (s scene) photo(t truth, d *rand.Rand) (*picture.Raster, Corners) {
	const size = 720
	bend := s.bend
	cells := (420 + d.Float64()*200) / (1 + 2*s.frame) // side of the drawing in the picture, in pixels
	// Turned about all three axes by up to 10°, seen from 3 sides away.
	ax, ay, az := (d.Float64()*2-1)*math.Pi/18, (d.Float64()*2-1)*math.Pi/18, (d.Float64()*2-1)*math.Pi/36
	var corners Corners
	for i, p := range [][2]float64{{-0.5, -0.5}, {0.5, -0.5}, {0.5, 0.5}, {-0.5, 0.5}} {
		x, y, z := p[0], p[1], 0.0
		x, z = x*math.Cos(ay)+z*math.Sin(ay), -x*math.Sin(ay)+z*math.Cos(ay)
		y, z = y*math.Cos(ax)-z*math.Sin(ax), y*math.Sin(ax)+z*math.Cos(ax)
		x, y = x*math.Cos(az)-y*math.Sin(az), x*math.Sin(az)+y*math.Cos(az)
		f := 3 / (3 + z) * cells
		corners[i] = Point{size/2 + x*f, size/2 + y*f}
	}
	small := t.small()
	around := [3]float64{float64(30 + d.IntN(60)), float64(30 + d.IntN(60)), float64(30 + d.IntN(60))}
	flat := inverted(corners)
	seen := func(x, y float64) (float64, float64) {
		f := 1 + bend*((x-size/2)*(x-size/2)+(y-size/2)*(y-size/2))/(size*size/2)
		return size/2 + (x-size/2)*f, size/2 + (y-size/2)*f
	}
	unbent := func(x, y float64) (float64, float64) { // Newton's method along the radius
		rho := math.Hypot(x-size/2, y-size/2) / (size / math.Sqrt2)
		p := rho
		for range 20 {
			p -= (p + bend*p*p*p - rho) / (1 + 3*bend*p*p)
		}
		if rho == 0 {
			return x, y
		}
		return size/2 + (x-size/2)*p/rho, size/2 + (y-size/2)*p/rho
	}
	for i, c := range corners {
		corners[i].X, corners[i].Y = seen(c.X, c.Y)
	}
	inverse := flat
	if bend != 0 {
		inverse = func(x, y float64) (float64, float64) { return flat(unbent(x, y)) }
	}
	const sub = 3
	light := make([][3]float64, size*size)
	for y := range size {
		for x := range size {
			var sum [3]float64
			for j := range sub {
				for i := range sub {
					u, v := inverse((float64(x) + (float64(i)+0.5)/sub), (float64(y) + (float64(j)+0.5)/sub))
					c := around
					switch f := s.frame; {
					case u >= -f && v >= -f && u < 1+f && v < 1+f:
						c = [3]float64{24, 22, 26}
					case s.around != nil:
						c = s.around(float64(x), float64(y))
					}
					if u >= 0 && v >= 0 && u < 1 && v < 1 {
						p := small.At(int(u*float64(t.w)), int(v*float64(t.h)))
						for k := range c {
							c[k] = float64(p[k]) + float64(255-p[3])
						}
					}
					for k := range c {
						sum[k] += c[k] / (sub * sub)
					}
				}
			}
			light[y*size+x] = sum
		}
	}
	light = blurred(light, size, 0.8+d.Float64()*1.2)
	dark, noise := 0.15+d.Float64()*0.25, 2+d.Float64()*4
	out := picture.NewRaster(size, size)
	for y := range size {
		for x := range size {
			dx, dy := (float64(x)-size/2)/(size/2), (float64(y)-size/2)/(size/2)
			l := 1 - dark*(dx*dx+dy*dy)/2
			var p [4]uint8
			for k := range 3 {
				p[k] = uint8(math.Round(min(max(light[y*size+x][k]*l+d.NormFloat64()*noise, 0), 255)))
			}
			p[3] = 255
			out.Set(x, y, p)
		}
	}
	return out, corners
}

// inverted takes places in the picture to the unit square, by solving the
// eight equations of the other direction.
func inverted(c Corners) func(x, y float64) (u, v float64) {
	var a [8][9]float64
	for i, uv := range [][2]float64{{0, 0}, {1, 0}, {1, 1}, {0, 1}} {
		x, y := c[i].X, c[i].Y
		a[2*i] = [9]float64{x, y, 1, 0, 0, 0, -uv[0] * x, -uv[0] * y, uv[0]}
		a[2*i+1] = [9]float64{0, 0, 0, x, y, 1, -uv[1] * x, -uv[1] * y, uv[1]}
	}
	for i := range 8 {
		p := i
		for j := i; j < 8; j++ {
			if math.Abs(a[j][i]) > math.Abs(a[p][i]) {
				p = j
			}
		}
		a[i], a[p] = a[p], a[i]
		for j := range 8 {
			if j != i {
				f := a[j][i] / a[i][i]
				for k := i; k < 9; k++ {
					a[j][k] -= f * a[i][k]
				}
			}
		}
	}
	var h [8]float64
	for i := range h {
		h[i] = a[i][8] / a[i][i]
	}
	return func(x, y float64) (float64, float64) {
		w := h[6]*x + h[7]*y + 1
		return (h[0]*x + h[1]*y + h[2]) / w, (h[3]*x + h[4]*y + h[5]) / w
	}
}

func blurred(in [][3]float64, size int, sigma float64) [][3]float64 {
	reach := int(3*sigma) + 1
	ws := make([]float64, 2*reach+1)
	sum := 0.0
	for i := range ws {
		d := float64(i - reach)
		ws[i] = math.Exp(-d * d / (2 * sigma * sigma))
		sum += ws[i]
	}
	pass := func(in [][3]float64, dx, dy int) [][3]float64 {
		out := make([][3]float64, len(in))
		for y := range size {
			for x := range size {
				for i, w := range ws {
					u, v := min(max(x+dx*(i-reach), 0), size-1), min(max(y+dy*(i-reach), 0), size-1)
					for k := range 3 {
						out[y*size+x][k] += in[v*size+u][k] * w / sum
					}
				}
			}
		}
		return out
	}
	return pass(pass(in, 1, 0), 0, 1)
}
