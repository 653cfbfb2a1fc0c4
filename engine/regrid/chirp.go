package regrid

import "math"

// This file takes a train of values to its beats: a Fourier transform at steps of any
// size, by L. I. Bluestein's way, "A linear filtering approach to the computation of
// discrete Fourier transform" (1970), over the fast one of J. W. Cooley and J. W.
// Tukey, "An algorithm for the machine calculation of complex Fourier series" (1965).

// sound is a list of complex numbers.
type sound struct{ re, im []float64 }

func newSound(n int) sound { return sound{make([]float64, n), make([]float64, n)} }

// times multiplies two numbers; written out, so that no machine fuses a product
// and a sum.
func times(aRe, aIm, bRe, bIm float64) (re, im float64) {
	return float64(aRe*bRe) - float64(aIm*bIm), float64(aRe*bIm) + float64(aIm*bRe)
}

// tones are the sums of v[n]·exp(2πi·n·k/(parts·len(v))), for k from 0 to count-1.
func tones(v []float64, parts, count int) sound {
	n := len(v)
	period := 2 * parts * n // of the square in the chirp's angle
	chirp := newSound(max(n, count))
	for k := range chirp.re {
		angle := 2 * math.Pi * float64(k*k%period) / float64(period)
		chirp.im[k], chirp.re[k] = math.Sincos(angle)
	}
	size := 1
	for size < n+count-1 {
		size *= 2
	}
	a, b := newSound(size), newSound(size)
	for i, x := range v {
		a.re[i], a.im[i] = x*chirp.re[i], x*chirp.im[i]
	}
	for k := range max(n, count) { // the chirp backwards, to both sides of 0
		if k < count {
			b.re[k], b.im[k] = chirp.re[k], -chirp.im[k]
		}
		if k > 0 && k < n {
			b.re[size-k], b.im[size-k] = chirp.re[k], -chirp.im[k]
		}
	}
	turns := newSound(size / 2)
	for k := range turns.re {
		turns.im[k], turns.re[k] = math.Sincos(2 * math.Pi * float64(k) / float64(size))
	}
	a.transform(turns)
	b.transform(turns)
	for k := range a.re { // a conjugate's transform is the way back, conjugated
		re, im := times(a.re[k], a.im[k], b.re[k], b.im[k])
		a.re[k], a.im[k] = re/float64(size), -im/float64(size)
	}
	a.transform(turns)
	out := newSound(count)
	for k := range count {
		out.re[k], out.im[k] = times(a.re[k], -a.im[k], chirp.re[k], chirp.im[k])
	}
	return out
}

// transform is the fast Fourier transform, with positive angles, of a list whose
// length is a power of two; turns are the angles' cosines and sines over half a turn.
func (w sound) transform(turns sound) {
	n := len(w.re)
	for i, j := 1, 0; i < n; i++ { // into the order of their digits' mirror images
		bit := n / 2
		for ; j&bit != 0; bit /= 2 {
			j ^= bit
		}
		j ^= bit
		if i < j {
			w.re[i], w.re[j] = w.re[j], w.re[i]
			w.im[i], w.im[j] = w.im[j], w.im[i]
		}
	}
	for half := 1; half < n; half *= 2 {
		every := n / (2 * half)
		for from := 0; from < n; from += 2 * half {
			aRe, aIm := w.re[from:from+half], w.im[from:from+half]
			bRe, bIm := w.re[from+half:from+2*half], w.im[from+half:from+2*half]
			for k := range half {
				re, im := times(bRe[k], bIm[k], turns.re[k*every], turns.im[k*every])
				bRe[k], bIm[k] = aRe[k]-re, aIm[k]-im
				aRe[k], aIm[k] = aRe[k]+re, aIm[k]+im
			}
		}
	}
}
