package readback

import (
	"fmt"
	"strconv"
)

// farthest is the largest coordinate taken, 1 km in µm: far beyond any sheet,
// and small enough that no product of two overflows.
const farthest = 1_000_000_000

// parseMm reads a decimal number of mm as whole µm. More than three decimals
// are taken only if the rest are noughts: nothing is rounded.
func parseMm(s string) (int64, error) {
	bad := func() (int64, error) { return 0, fmt.Errorf("%.20q isn't a length in mm with at most 3 decimals", s) }
	i, negative := 0, false
	if i < len(s) && (s[i] == '-' || s[i] == '+') {
		negative = s[i] == '-'
		i++
	}
	var v int64
	digits, decimals, dot := 0, 0, false
	for ; i < len(s); i++ {
		c := s[i]
		switch {
		case c == '.' && !dot:
			dot = true
		case c >= '0' && c <= '9':
			digits++
			if dot {
				decimals++
			}
			if decimals > 3 {
				if c != '0' {
					return bad()
				}
				continue
			}
			v = v*10 + int64(c-'0')
			if v > farthest {
				return bad()
			}
		default:
			return bad()
		}
	}
	if digits == 0 {
		return bad()
	}
	for ; decimals < 3; decimals++ {
		v *= 10
	}
	if v > farthest {
		return bad()
	}
	if negative {
		v = -v
	}
	return v, nil
}

// mm is v in mm for a message.
func mm(v int64) string { return strconv.FormatFloat(float64(v)/1000, 'f', -1, 64) }
