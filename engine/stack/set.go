package stack

import "math/bits"

// word is a set of up to 64, 128 or 256 patches, a bit each.
type word interface {
	[1]uint64 | [2]uint64 | [4]uint64
}

// wordMost is the most patches that a word can hold.
const wordMost = 256

func has[W word](s W, p int32) bool { return p >= 0 && s[p>>6]>>(p&63)&1 != 0 }

func with[W word](s W, p int32) W {
	s[p>>6] |= 1 << (p & 63)
	return s
}

func and[W word](s, t W) W {
	for i := range len(s) {
		s[i] &= t[i]
	}
	return s
}

func or[W word](s, t W) W {
	for i := range len(s) {
		s[i] |= t[i]
	}
	return s
}

func andNot[W word](s, t W) W {
	for i := range len(s) {
		s[i] &^= t[i]
	}
	return s
}

func isEmpty[W word](s W) bool {
	any := uint64(0)
	for i := range len(s) {
		any |= s[i]
	}
	return any == 0
}

// meet says whether two sets have a patch in common. Sets of several words are
// not kept in registers, so it takes them where they are.
func meet[W word](s, t *W) bool {
	for i := range len(*s) {
		if (*s)[i]&(*t)[i] != 0 {
			return true
		}
	}
	return false
}

func size[W word](s W) int {
	n := 0
	for i := range len(s) {
		n += bits.OnesCount64(s[i])
	}
	return n
}

// lowest is the set of s's first patch.
func lowest[W word](s W) W {
	var t W
	for i := range len(s) {
		if s[i] != 0 {
			t[i] = s[i] & -s[i]
			return t
		}
	}
	return t
}

// nextSubset is the subset of all that comes before s, down to the empty one:
// from all on it meets each subset once.
func nextSubset[W word](s, all W) W {
	for i := range len(s) {
		borrow := s[i] == 0
		s[i] = (s[i] - 1) & all[i]
		if !borrow {
			break
		}
	}
	return s
}

// each calls do for the patches of s, ascending.
func each[W word](s W, do func(p int32)) {
	for i := range len(s) {
		for b := s[i]; b != 0; b &= b - 1 {
			do(int32(i<<6 + bits.TrailingZeros64(b)))
		}
	}
}
