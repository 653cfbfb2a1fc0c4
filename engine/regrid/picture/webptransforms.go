package picture

// This file undoes what a WebP without loss does to pixels before it packs them (RFC
// 9649, "Transforms" of its lossless bit stream).

// The kinds of transforms, by their numbers in the file.
const (
	predicted = iota // each pixel is what a guess from those before it lacks
	crossed          // red and blue are what a share of green, and of red, lacks
	greenless        // red and blue are what green lacks
	indexed          // green is the number of a colour, several in a pixel where there are few
)

type transform struct {
	kind    int
	w       int     // of rows, in pixels
	squares uint    // 1<<squares pixels wide and high are the squares that data is of; for indexed: pixels in one
	data    []pixel // guesses, shares or colours
	before  []pixel // the row before, undone
}

// undone is a row as it was before the transform; it may use all of the row's room.
func (t *transform) undone(row []pixel, y int) []pixel {
	row = row[:t.w]
	switch t.kind {
	case predicted:
		t.unpredict(row, y)
	case crossed:
		across := inSquares(t.w, t.squares)
		shares := t.data[(y>>t.squares)*across:][:across]
		for x, v := range row {
			s := shares[x>>t.squares]
			green := int8(v >> 8)
			red := uint8(v>>16) + share(int8(s), green)
			blue := uint8(v) + share(int8(s>>8), green) + share(int8(s>>16), int8(red))
			row[x] = v&0xff00ff00 | pixel(red)<<16 | pixel(blue)
		}
	case greenless:
		for x, v := range row {
			green := v >> 8 & 0xff
			row[x] = v&0xff00ff00 | (v&0xff00ff+green<<16+green)&0xff00ff
		}
	case indexed:
		bits := uint(8) >> t.squares
		for x := t.w - 1; x >= 0; x-- { // from the right, as several come from one
			number := row[x>>t.squares] >> 8 & 0xff
			number = number >> (uint(x&(1<<t.squares-1)) * bits) & (1<<bits - 1)
			row[x] = 0
			if int(number) < len(t.data) {
				row[x] = t.data[number]
			}
		}
	}
	return row
}

// share is what a channel owes to another (color transform delta).
func share(part, channel int8) uint8 { return uint8(int32(part) * int32(channel) >> 5) }

// plus adds channel by channel.
func plus(a, b pixel) pixel {
	return (a&0xff00ff00+b&0xff00ff00)&0xff00ff00 | (a&0xff00ff+b&0xff00ff)&0xff00ff
}

// mean is the mean channel by channel, rounded down.
func mean(a, b pixel) pixel { return a&b + (a^b)&0xfefefefe>>1 }

const black = pixel(0xff000000)

// unpredict adds the guess of each pixel (predictor transform).
func (t *transform) unpredict(row []pixel, y int) {
	if t.before == nil {
		t.before = make([]pixel, t.w)
	}
	guesses := t.data[(y>>t.squares)*inSquares(t.w, t.squares):]
	for x, v := range row {
		var guess pixel
		switch {
		case x == 0 && y == 0:
			guess = black
		case y == 0:
			guess = row[x-1]
		case x == 0:
			guess = t.before[0]
		default:
			right := row[0] // of the last column: what follows in the file
			if x+1 < t.w {
				right = t.before[x+1]
			}
			guess = guessed(int(guesses[x>>t.squares]>>8&15), row[x-1], t.before[x], right, t.before[x-1])
		}
		row[x] = plus(v, guess)
	}
	copy(t.before, row)
}

// guessed is a guess from the pixels on the left, above, above on the right, and above on
// the left.
func guessed(how int, left, top, right, corner pixel) pixel {
	switch how {
	case 1:
		return left
	case 2:
		return top
	case 3:
		return right
	case 4:
		return corner
	case 5:
		return mean(mean(left, right), top)
	case 6:
		return mean(left, corner)
	case 7:
		return mean(left, top)
	case 8:
		return mean(corner, top)
	case 9:
		return mean(top, right)
	case 10:
		return mean(mean(left, corner), mean(top, right))
	case 11:
		toLeft, toTop := 0, 0
		for shift := 0; shift < 32; shift += 8 {
			l, t, c := int(left>>shift&0xff), int(top>>shift&0xff), int(corner>>shift&0xff)
			toLeft += max(t-c, c-t)
			toTop += max(l-c, c-l)
		}
		if toLeft < toTop {
			return left
		}
		return top
	case 12:
		return byChannel(func(shift int) int {
			return int(left>>shift&0xff) + int(top>>shift&0xff) - int(corner>>shift&0xff)
		})
	case 13:
		middle := mean(left, top)
		return byChannel(func(shift int) int {
			m := int(middle >> shift & 0xff)
			return m + (m-int(corner>>shift&0xff))/2
		})
	}
	return black
}

// byChannel puts channels together, each cut off at 0 and 255.
func byChannel(channel func(shift int) int) (v pixel) {
	for shift := 0; shift < 32; shift += 8 {
		v |= pixel(min(max(channel(shift), 0), 255)) << shift
	}
	return v
}
