package regrid

import (
	"math"

	"sheetsprite/engine/regrid/pixels"
)

// This file boils a picture down to a few signals along each axis. Every row
// is added, with a sign drawn by lot, to one of few sums (a count sketch: M.
// Charikar, K. Chen, M. Farach-Colton, "Finding frequent items in data
// streams", 2002). Least squares on the sums cost as much less as there are
// fewer of them, and their residuals have the same expectation as those of all
// rows together, up to a common factor.

// signals is how many sums there are for each axis: residuals then vary by
// about one part in sqrt(signals × length), far less than dips are deep.
const signals = 16

// block is how many neighbouring rows share a lot: they are mostly of one row
// of cells, so that noise is averaged and the drawing is not.
const block = 2

// sketch is one axis of a picture, boiled down.
type sketch struct {
	size   int               // pixels along the axis
	rows   [][]float64       // signals of that length; rounding to 8 bits has variance 1
	bundle [2][]lane         // the same, side by side: bundle[k/width][pixel][k%width]
	sum    [2][width]float64 // of squares, signal by signal
	fit    solver            // of the last look at it: room for the next
}

// width is how many signals are worked on at a time.
const width = signals / 2

// lane is what the signals of a bundle have in one place.
type lane [width]float64

// sketches boils r down along x and along y.
func sketches(r *pixels.Raster) (x, y sketch) {
	sumX := make([]int32, signals*r.W)
	sumY := make([]int32, signals*r.H)
	lotX := make([][4]lot, r.W/block+1) // which of y's sums column block takes part in
	for i := range lotX {
		lotX[i] = lots(i, 1)
	}
	for row := range r.H {
		line := r.Pix[4*r.W*row:][:4*r.W]
		up := lots(row/block, 0)
		s0, s1, s2, s3 := sumX[up[0].to*r.W:][:r.W], sumX[up[1].to*r.W:][:r.W], sumX[up[2].to*r.W:][:r.W], sumX[up[3].to*r.W:][:r.W]
		var across [signals]int32
		for b := 0; b*block < r.W; b++ {
			var v [4]int32
			for col := b * block; col < min(r.W, b*block+block); col++ {
				red, green, blue, alpha := int32(line[4*col]), int32(line[4*col+1]), int32(line[4*col+2]), int32(line[4*col+3])
				// Lightness, two differences of colour, alpha.
				c0, c1, c2, c3 := red+2*green+blue, red-green, blue-green, 2*alpha
				s0[col] += up[0].sign * c0
				s1[col] += up[1].sign * c1
				s2[col] += up[2].sign * c2
				s3[col] += up[3].sign * c3
				v[0] += c0
				v[1] += c1
				v[2] += c2
				v[3] += c3
			}
			for c, l := range lotX[b] {
				across[l.to] += l.sign * v[c]
			}
		}
		for k, s := range across {
			sumY[k*r.H+row] = s
		}
	}
	return newSketch(sumX, r.W, r.H), newSketch(sumY, r.H, r.W)
}

// lot is the sum that a row takes part in, and with which sign.
type lot struct {
	to   int
	sign int32
}

// lots draws for each channel of a block of rows, or of columns.
func lots(block, axis int) (l [4]lot) {
	for c := range l {
		z := uint64(block*8+c*2+axis+1) * 0x9e3779b97f4a7c15 // splitmix64 (Steele, Lea and Flood 2014)
		z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
		z = (z ^ z>>27) * 0x94d049bb133111eb
		z ^= z >> 31
		l[c] = lot{int(z >> 8 % signals), int32(z&1)*2 - 1}
	}
	return l
}

// newSketch scales the sums so that rounding of the pixels to whole values,
// whose variance is 1/12, has variance 1.
func newSketch(sums []int32, size, summed int) sketch {
	// The weights of the channels in c0…c3 squared: 1+4+1, 1+1, 1+1, 4.
	noise := float64(summed) * 14 / 12 / signals
	scale := 1 / math.Sqrt(noise)
	s := sketch{size: size, rows: make([][]float64, signals)}
	for k := range s.rows {
		if k%width == 0 {
			s.bundle[k/width] = make([]lane, size)
		}
		row := make([]float64, size)
		for i := range row {
			row[i] = float64(sums[k*size+i]) * scale
			s.bundle[k/width][i][k%width] = row[i]
			s.sum[k/width][k%width] += float64(row[i] * row[i])
		}
		s.rows[k] = row
	}
	return s
}
