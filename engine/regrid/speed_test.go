package regrid

import "testing"

func BenchmarkFind2MP(b *testing.B) {
	s := sprite(3)
	for _, c := range []struct {
		name string
		side int
	}{{"bilinear", 1414}} {
		r := bilinear(s.small(), c.side, c.side)
		j := throughJPEG(b, r, 80)
		b.Run(c.name, func(b *testing.B) {
			for range b.N {
				Find(r, Options{Colours: len(s.palette)})
			}
		})
		b.Run(c.name+" jpeg", func(b *testing.B) {
			for range b.N {
				Find(j, Options{Colours: len(s.palette)})
			}
		})
	}
	n := nearest(s.small(), 1414, 1414, byCentre)
	b.Run("nearest", func(b *testing.B) {
		for range b.N {
			Find(n, Options{Colours: len(s.palette)})
		}
	})
}
