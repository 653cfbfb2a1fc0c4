package readback

import (
	"errors"
	"fmt"
)

// pathReader reads path data (SVG 1.1, chapter 8.3), as far as closed contours
// of straight edges and circular arcs need it.
type pathReader struct {
	s      string
	at     int
	height int64 // of the drawing: y runs down from it
	x, y   int64 // where the pen is, y up
	done   []contour
	open   contour
}

func readPathData(s string, height int64) ([]contour, error) {
	p, err := readPathText(s, height)
	if err != nil {
		return nil, err
	}
	if p.open != nil {
		return nil, errors.New("its last contour isn't closed")
	}
	if len(p.done) == 0 {
		return nil, errors.New("it has no contour")
	}
	return p.done, nil
}

// readLineData reads path data of a single line, open or closed.
func readLineData(s string, height int64) (line, error) {
	p, err := readPathText(s, height)
	switch {
	case err != nil:
		return line{}, err
	case len(p.done) == 1 && p.open == nil:
		return line{contour: p.done[0]}, nil
	case len(p.done) == 0 && len(p.open) > 0:
		return line{contour: append(p.open, vertex{x: p.x, y: p.y}), open: true}, nil
	}
	return line{}, errors.New("it isn't a single line")
}

func readPathText(s string, height int64) (*pathReader, error) {
	p := &pathReader{s: s, height: height, y: height}
	for {
		p.space()
		if p.at == len(p.s) {
			break
		}
		command := p.s[p.at]
		p.at++
		if err := p.run(command); err != nil {
			return nil, fmt.Errorf("at character %d of its data: %w", p.at, err)
		}
	}
	return p, nil
}

// run carries out one command with all its arguments.
func (p *pathReader) run(command byte) error {
	if command == 'Z' || command == 'z' {
		return p.close()
	}
	for first := true; first || p.more(); first = false {
		relative := command >= 'a'
		bx, by := int64(0), p.height // where coordinates count from, y down
		if relative {
			bx, by = p.x, p.y
		}
		var x, y, arc int64
		x, y = p.x, p.y
		var err error
		switch command &^ 0x20 {
		case 'M', 'L':
			x, y, err = p.point(bx, by)
		case 'H':
			if x, err = p.number(); err == nil {
				x += bx
			}
		case 'V':
			if y, err = p.number(); err == nil {
				y = by - y
			}
		case 'A':
			if arc, err = p.arc(); err == nil {
				x, y, err = p.point(bx, by)
			}
		default:
			return fmt.Errorf("%q isn't a command that is expected", command)
		}
		if err != nil {
			return err
		}
		if x > farthest || x < -farthest || y > farthest || y < -farthest {
			return errors.New("a point lies too far out")
		}
		if command&^0x20 == 'M' && first {
			if p.open != nil {
				return errors.New("a contour isn't closed")
			}
			p.open = contour{}
		} else {
			if p.open == nil {
				return errors.New("a contour doesn't begin with a move")
			}
			p.open = append(p.open, vertex{p.x, p.y, arc})
		}
		p.x, p.y = x, y
	}
	return nil
}

// close ends a contour: with a straight edge, unless the pen is back already.
func (p *pathReader) close() error {
	if len(p.open) == 0 {
		return errors.New("there is no contour to close")
	}
	if start := p.open[0]; p.x != start.x || p.y != start.y {
		p.open = append(p.open, vertex{p.x, p.y, 0})
		p.x, p.y = start.x, start.y
	}
	p.done = append(p.done, p.open)
	p.open = nil
	return nil
}

// point reads x and y from a base; y runs down.
func (p *pathReader) point(bx, by int64) (x, y int64, err error) {
	if x, err = p.number(); err != nil {
		return 0, 0, err
	}
	if y, err = p.number(); err != nil {
		return 0, 0, err
	}
	return bx + x, by - y, nil
}

// arc reads what stands before an arc's end: one radius twice, no rotation, at
// most a half turn. y runs down, so a growing angle runs clockwise as we see it.
func (p *pathReader) arc() (int64, error) {
	var v [5]int64
	for i := range v {
		var err error
		if i < 3 {
			v[i], err = p.number()
		} else {
			v[i], err = p.flag()
		}
		if err != nil {
			return 0, err
		}
	}
	if v[0] <= 0 || v[0] != v[1] || v[3] != 0 {
		return 0, errors.New("an arc isn't part of a circle up to a half turn")
	}
	if v[4] == 0 {
		return v[0], nil
	}
	return -v[0], nil
}

func (p *pathReader) flag() (int64, error) {
	p.separator()
	if p.at < len(p.s) && (p.s[p.at] == '0' || p.s[p.at] == '1') {
		p.at++
		return int64(p.s[p.at-1] - '0'), nil
	}
	return 0, errors.New("a flag is expected")
}

// number reads a length in mm as µm.
func (p *pathReader) number() (int64, error) {
	p.separator()
	from, dot := p.at, false
	for ; p.at < len(p.s); p.at++ {
		c := p.s[p.at]
		if c == '.' && !dot {
			dot = true
			continue
		}
		if !(c >= '0' && c <= '9') && !(p.at == from && (c == '-' || c == '+')) {
			break
		}
	}
	return parseMm(p.s[from:p.at])
}

// more says whether another argument follows.
func (p *pathReader) more() bool {
	p.separator()
	if p.at == len(p.s) {
		return false
	}
	c := p.s[p.at]
	return c == '-' || c == '+' || c == '.' || c >= '0' && c <= '9'
}

func (p *pathReader) space() {
	for p.at < len(p.s) {
		switch p.s[p.at] {
		case ' ', '\t', '\n', '\r':
			p.at++
		default:
			return
		}
	}
}

// separator skips spaces and at most one comma.
func (p *pathReader) separator() {
	p.space()
	if p.at < len(p.s) && p.s[p.at] == ',' {
		p.at++
		p.space()
	}
}
