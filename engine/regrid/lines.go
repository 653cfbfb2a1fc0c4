package regrid

import "math"

// This file finds grids by the lines drawn between the cells, where JPEG or a
// scaler left nothing exact. A line differs from what lies on both of its
// sides. Where line and cells are of one colour none shows, so a lattice is
// fitted to the ridges that do. Smooth enlargement has ridges in the middle of
// cells too, but there the picture changes all over, with lines only beside
// them.

const (
	// leastBeside is the share of all change, in percent, that must lie beside
	// the lines.
	leastBeside = 55
	// leastRidged is the share of all change that ridges must make up, before any
	// lattice is laid over them: with lines on every side of a cell it is nearly
	// all, less where they are of a cell's colour.
	leastRidged = 0.25
	// leastLined is the smallest cell with lines that is looked for, in pixels.
	leastLined = 5
)

// linedFit is the best grid with lines; false if none stands out.
func linedFit(s *sketch) (axisFit, bool) {
	if s.size < 4*leastLined {
		return axisFit{}, false
	}
	best, found := axisFit{}, false
	totals := runningTotals(s)
	change := changesOf(s)
	for line := 1; line <= maxLine; line++ {
		ridge := ridges(s, line)
		if 2*total(ridge) < leastRidged*total(change) {
			continue // most pictures have none, and combing them takes long
		}
		size, start, ok := comb(ridge, line)
		if !ok || !besides(change, size, start, line) {
			continue
		}
		f := axisFit{lattice: cropped(size, start+float64(line)/2, s.size), kernel: area, line: line}
		f = f.polished(s, totals)
		if !found || f.dip < best.dip {
			best, found = f, true
		}
	}
	return best, found
}

// changesOf is how much the signals change between a pixel and the one before.
func changesOf(s *sketch) []float64 {
	change := make([]float64, s.size)
	for _, row := range s.rows {
		for i := 1; i < s.size; i++ {
			change[i] += math.Abs(row[i] - row[i-1])
		}
	}
	return change
}

func total(v []float64) (sum float64) {
	for _, x := range v {
		sum += x
	}
	return sum
}

// ridges is how much the line pixels from each place on stand out from both sides.
func ridges(s *sketch, line int) []float64 {
	out := make([]float64, s.size)
	for _, row := range s.rows {
		for i := 1; i+line < s.size; i++ {
			mean := 0.0
			for _, v := range row[i : i+line] {
				mean += v
			}
			mean /= float64(line)
			a, b := row[i-1], row[i+line]
			stands := math.Min(math.Abs(mean-a), math.Abs(mean-b))
			if (mean-a)*(mean-b) > 0 {
				out[i] += stands
			}
		}
	}
	return out
}

// comb finds the size and start whose places carry the highest ridges, near the
// periods at which they beat.
func comb(ridge []float64, line int) (size, start float64, ok bool) {
	n := len(ridge)
	mean, squares := 0.0, 0.0
	for _, v := range ridge {
		mean += v
		squares += float64(v * v)
	}
	mean /= float64(n)
	spread := math.Sqrt(math.Max(1e-12, squares/float64(n)-float64(mean*mean)))
	b := beatsOf(ridge, 0)
	best := 0.0
	for _, c := range append(b.strongest(12, b.chord()), b.strongest(12, b.loud())...) {
		const around, step = 0.3, 0.05 // cells more or fewer in the picture's length
		for by := -around; by <= around+1e-9; by += step {
			s := float64(n) / (c.count + by)
			if s < float64(max(leastLined, 2*line+2)) || s > float64(n)/4 {
				continue
			}
			const part = 1 << 20 // of a pixel: whole numbers are faster here
			wide := int(s * part)
			for p := range int(s) {
				sum, count := 0.0, 0.0
				for at := p*part + part/2; at < (n-1)*part; at += wide {
					sum += ridge[at/part]
					count++
				}
				if z := (sum/count - mean) * math.Sqrt(count) / spread; z > best*1.0001 {
					best, size, start = z, s, float64(p)
				}
			}
		}
	}
	return size, start, best > 4
}

// besides says whether nearly all change lies on both sides of the lines.
func besides(change []float64, size, start float64, line int) bool {
	var all, before, after float64
	for _, v := range change {
		all += v
	}
	at := func(i int) float64 {
		if i < 1 || i >= len(change) {
			return 0
		}
		return change[i]
	}
	for p := start; p < float64(len(change)); p += size {
		i := int(p + 0.5)
		before += at(i) + at(i-1)
		after += at(i+line) + at(i+line+1)
	}
	if line == 1 { // the two sides overlap in neither, but their outer pixels are four in a row
		return 100*(before+after) >= leastBeside*all && 4*min(before, after) >= max(before, after)
	}
	return 100*(before+after) >= leastBeside*all && 3*min(before, after) >= max(before, after)
}

// linedResidual is what flat cells and flat lines leave.
func linedResidual(s *sketch, totals [][]float64, size, start float64, line int) float64 {
	bounds := []int{0}
	add := func(b float64) {
		if i := int(math.Floor(b + 0.5)); i > bounds[len(bounds)-1] && i < s.size {
			bounds = append(bounds, i)
		}
	}
	for at := start - float64(size*math.Ceil(start/size+1)); at < float64(s.size)+size; at += size {
		add(at - float64(line)/2)
		add(at + float64(line)/2)
	}
	bounds = append(bounds, s.size)
	left := 0.0
	for k, t := range totals {
		explained := 0.0
		for i := 1; i < len(bounds); i++ {
			sum := t[bounds[i]] - t[bounds[i-1]]
			explained += float64(sum*sum) / float64(bounds[i]-bounds[i-1])
		}
		left += math.Max(0, s.sum[k/width][k%width]-explained)
	}
	return left / (signals * math.Max(1, float64(s.size-len(bounds)+1)))
}

// polished moves size and start to where least is left and fills in the dip.
func (f axisFit) polished(s *sketch, totals [][]float64) axisFit {
	n := float64(s.size)
	middle := n / 2
	count, phase := n/f.size, (middle-f.start)/f.size
	at := func(count, phase float64) float64 {
		size := n / count
		return linedResidual(s, totals, size, middle-float64(phase*size), f.line)
	}
	best := at(count, phase)
	for dc := -0.5; dc <= 0.5; dc += 0.025 {
		for dp := -8; dp <= 8; dp++ {
			c, p := n/f.size+dc, (middle-f.start)/f.size+float64(dp)*0.25/f.size
			if left := at(c, p); left < best*0.9999 {
				best, count, phase = left, c, p
			}
		}
	}
	side := func(a, b float64) float64 { return (at(count+a, phase) + at(count+b, phase)) / 2 }
	f.left = best
	f.dip = (best + 0.5) / (math.Min(side(-1, -2), side(1, 2)) + 0.5)
	size := n / count
	if w := math.Round(size); math.Abs(w-size)*count < 0.7 { // programs zoom by whole factors
		size = w
	}
	f.lattice = cropped(size, middle-float64(phase*size), s.size)
	return f
}
