package readback

import (
	"bytes"
	"errors"
	"fmt"
	"math"
)

// A machine file is read by the words' meaning in Kramer, Proctor, Messina: The
// NIST RS274NGC Interpreter, version 3 (2000), as far as our files use them; any
// other word is refused, as nobody knows what a machine would do. The order in
// which a block's words take effect is that paper's: feed, power, beam, units
// and mode, the move, waiting, the end.

// xy is a place in µm.
type xy struct{ x, y int64 }

// ncMove is one move of the machine, in the file's coordinates.
type ncMove struct {
	line     int // of the file, from 1
	from, to xy
	turn     int64 // 0: straight; 1: anticlockwise, -1: clockwise
	centre   xy
	stroke   int   // 0: beam off; else which time the beam is on, from 1
	waits    int   // how often the machine has waited for its maker before
	beam     int64 // 3 or 4, the word that switched it on
	power    int64 // in thousandths, as is feed: mm a minute
	feed     int64
}

// mostWord is the largest value taken of a word, in thousandths: far beyond any
// feed, and small enough to be multiplied by what a sheet measures.
const mostWord = 1_000_000_000_000

// arcSlack is how far, in µm, the ends of an arc may lie from one circle: each of
// them and the centre are rounded.
const arcSlack = 3

// ncReader is a machine while it reads a file.
type ncReader struct {
	take        func(ncMove) error
	line        int
	at          xy
	motion      int64 // -1: none yet
	mm, total   bool  // G21 and G90 were given
	known, on   bool  // the beam's state is known; it is on
	stroke      int
	waits       int
	moved       bool // since the beam was switched on
	beam        int64
	power, feed int64
	ended       bool
}

// block is what one line asks for.
type block struct {
	motion       int64 // -1: none
	mm, total    bool
	beam         int64 // 0: nothing is said; 3, 4 or 5
	wait, end    bool
	has          [256]bool // letters that came with a value
	x, y, i, j   int64
	power, speed int64
}

// readGCode reads a machine file and hands each move to take. The machine begins
// at its coordinates' origin. It refuses a file that moves before units, mode
// and beam are set, whose beam is on in a rapid or without power or feed or on
// the spot, or that doesn't end, with the beam off, at its last line.
func readGCode(data []byte, take func(ncMove) error) error {
	r := &ncReader{take: take, motion: -1}
	for len(data) > 0 {
		var text []byte
		text, data, _ = bytes.Cut(data, []byte{'\n'})
		r.line++
		if err := r.run(bytes.TrimSuffix(text, []byte{'\r'})); err != nil {
			return fmt.Errorf("line %d: %w", r.line, err)
		}
	}
	if !r.ended {
		return errors.New("the file ends without the word for the end")
	}
	return nil
}

func (r *ncReader) run(text []byte) error {
	if r.ended {
		return errors.New("something follows the end")
	}
	b, err := parseBlock(text)
	if err != nil {
		return err
	}
	if b.has['F'] {
		r.feed = b.speed
	}
	if b.has['S'] {
		r.power = b.power
	}
	if err := r.switchBeam(b.beam); err != nil {
		return err
	}
	r.mm, r.total = r.mm || b.mm, r.total || b.total
	if b.motion >= 0 {
		r.motion = b.motion
	}
	if b.has['X'] || b.has['Y'] {
		if err := r.move(b); err != nil {
			return err
		}
	} else if b.has['I'] || b.has['J'] || b.motion >= 0 {
		return errors.New("a move without a place to go to")
	}
	if b.wait {
		if r.on || !r.known {
			return errors.New("the machine waits with the beam on")
		}
		r.waits++
	}
	if b.end {
		if r.on || !r.known {
			return errors.New("the file ends with the beam on")
		}
		r.ended = true
	}
	return nil
}

func (r *ncReader) switchBeam(word int64) error {
	switch {
	case word == 0:
		return nil
	case word == 5:
		if r.on && !r.moved {
			return errors.New("the beam was on without a move")
		}
		r.on, r.known = false, true
		return nil
	case r.on:
		return errors.New("the beam is switched on twice")
	case r.power <= 0:
		return errors.New("the beam is switched on without power")
	}
	r.on, r.known, r.moved, r.beam = true, true, false, word
	r.stroke++
	return nil
}

func (r *ncReader) move(b block) error {
	switch {
	case !r.mm || !r.total:
		return errors.New("a move before millimetres and absolute places are set")
	case !r.known:
		return errors.New("a move before the beam is switched off")
	case r.motion < 0:
		return errors.New("a place without the word for the move")
	case r.motion == 0 && r.on:
		return errors.New("a rapid move with the beam on")
	case r.motion > 0 && r.feed <= 0:
		return errors.New("a move without a feed")
	case r.on && r.power <= 0:
		return errors.New("the beam is on without power")
	case r.motion < 2 && (b.has['I'] || b.has['J']):
		return errors.New("a centre for a straight move")
	}
	m := ncMove{line: r.line, waits: r.waits, from: r.at, to: r.at, power: r.power, feed: r.feed}
	if b.has['X'] {
		m.to.x = b.x
	}
	if b.has['Y'] {
		m.to.y = b.y
	}
	if r.motion >= 2 {
		m.turn, m.centre = 2*r.motion-5, xy{r.at.x + b.i, r.at.y + b.j}
		if err := m.round(); err != nil {
			return err
		}
	}
	if r.on {
		m.stroke, m.beam = r.stroke, r.beam
		r.moved = true
	}
	r.at = m.to
	return r.take(m)
}

// round says whether the ends lie on one circle, at most half of it apart.
func (m ncMove) round() error {
	begin, end := m.radius(m.from), m.radius(m.to)
	side := (m.to.x-m.from.x)*(m.centre.y-m.from.y) - (m.to.y-m.from.y)*(m.centre.x-m.from.x)
	chord := hypot(float64(m.to.x-m.from.x), float64(m.to.y-m.from.y))
	switch {
	case m.from == m.to:
		return errors.New("an arc that ends where it begins")
	case math.Abs(begin-end) > arcSlack:
		return errors.New("an arc whose ends lie on different circles")
	case float64(side*m.turn) < -arcSlack*chord:
		return errors.New("an arc of more than half a turn")
	}
	return nil
}

func (m ncMove) radius(p xy) float64 {
	return hypot(float64(p.x-m.centre.x), float64(p.y-m.centre.y))
}

// length is the move's, in µm.
func (m ncMove) length() float64 {
	chord := hypot(float64(m.to.x-m.from.x), float64(m.to.y-m.from.y))
	if m.turn == 0 {
		return chord
	}
	r := (m.radius(m.from) + m.radius(m.to)) / 2
	return 2 * r * math.Asin(math.Min(1, chord/(2*r)))
}

// parseBlock reads a line's words, less its comments.
func parseBlock(text []byte) (block, error) {
	b := block{motion: -1}
	for i := 0; i < len(text); {
		c := text[i]
		switch {
		case c == ' ' || c == '\t':
			i++
			continue
		case c == '(':
			n := bytes.IndexByte(text[i:], ')')
			if n < 0 || bytes.IndexByte(text[i+1:i+n], '(') >= 0 {
				return b, errors.New("a comment isn't closed")
			}
			i += n + 1
			continue
		case c < 'A' || c > 'Z':
			return b, fmt.Errorf("%.20q is no word", text[i:])
		}
		n := i + 1
		for n < len(text) && (text[n] >= '0' && text[n] <= '9' || text[n] == '.' || text[n] == '-' || text[n] == '+') {
			n++
		}
		v, ok := thousandths(text[i+1 : n])
		if !ok {
			return b, fmt.Errorf("%.20q has no number with at most 3 decimals", text[i:])
		}
		if err := b.word(c, v); err != nil {
			return b, err
		}
		i = n
	}
	return b, nil
}

// word takes one word over.
func (b *block) word(letter byte, v int64) error {
	const one = 1000
	twice := false
	switch {
	case letter == 'G' && v >= 0 && v <= 3*one && v%one == 0:
		twice = b.motion >= 0
		b.motion = v / one
	case letter == 'G' && v == 21*one:
		twice, b.mm = b.mm, true
	case letter == 'G' && v == 90*one:
		twice, b.total = b.total, true
	case letter == 'M' && v >= 3*one && v <= 5*one && v%one == 0:
		twice = b.beam != 0
		b.beam = v / one
	case letter == 'M' && v == 0:
		twice, b.wait = b.wait, true
	case letter == 'M' && v == 2*one:
		twice, b.end = b.end, true
	case letter == 'S' && v >= 0:
		b.power = v
	case letter == 'F' && v >= 0:
		b.speed = v
	case v > farthest || v < -farthest:
		return errors.New("a place further than any machine reaches")
	case letter == 'X':
		b.x = v
	case letter == 'Y':
		b.y = v
	case letter == 'I':
		b.i = v
	case letter == 'J':
		b.j = v
	default:
		return fmt.Errorf("the word %c%s isn't one of these files'", letter, mm(v))
	}
	if letter != 'G' && letter != 'M' {
		twice, b.has[letter] = b.has[letter], true
	}
	if twice {
		return fmt.Errorf("two words %c that don't go together", letter)
	}
	return nil
}

// thousandths reads a decimal number exactly.
func thousandths(s []byte) (int64, bool) {
	negative := false
	if len(s) > 0 && (s[0] == '-' || s[0] == '+') {
		negative, s = s[0] == '-', s[1:]
	}
	var v int64
	digits, decimals := 0, -1
	for _, c := range s {
		switch {
		case c == '.' && decimals < 0:
			decimals = 0
			continue
		case c < '0' || c > '9':
			return 0, false
		case decimals >= 3 && c != '0':
			return 0, false
		}
		digits++
		if decimals >= 3 {
			continue
		}
		if decimals >= 0 {
			decimals++
		}
		if v = v*10 + int64(c-'0'); v > mostWord {
			return 0, false
		}
	}
	for d := max(decimals, 0); d < 3; d++ {
		v *= 10
	}
	if digits == 0 || v > mostWord {
		return 0, false
	}
	if negative {
		v = -v
	}
	return v, true
}
