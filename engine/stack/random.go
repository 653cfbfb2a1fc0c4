package stack

import "math/bits"

// random is a small generator of pseudo-random numbers (splitmix64: Steele,
// Lea and Flood, Fast splittable pseudorandom number generators, 2014), kept
// here so that no release of Go changes a forest.
type random uint64

func (s *random) next() uint64 {
	*s += 0x9e3779b97f4a7c15
	z := uint64(*s)
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// below is a number from 0 to n-1.
func (s *random) below(n int) int { return int((s.next() >> 32) * uint64(n) >> 32) }

// fall is a random number that halves its chance with each unit, in units of
// 1/1024: the binary logarithm of a uniform number, negated, with straight
// lines between powers of two. Whole numbers, so that all machines agree.
func (s *random) fall() int {
	u := s.next() | 1
	zeros := bits.LeadingZeros64(u)
	fraction := int(u << zeros << 1 >> 54) // 10 bits below the leading one
	return zeros<<10 + 1024 - fraction
}
