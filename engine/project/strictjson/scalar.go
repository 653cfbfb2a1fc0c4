package strictjson

import (
	"unicode/utf16"
	"unicode/utf8"
)

// Text reads a text.
func (c *Cursor) Text() (string, error) {
	if err := c.expect(Text); err != nil {
		return "", err
	}
	start := c.at
	if err := c.passText(); err != nil {
		return "", err
	}
	return unescape(c.data[start+1 : c.at-1]), nil
}

// passText passes over a text, checking it.
func (c *Cursor) passText() error {
	for c.at++; c.at < len(c.data); {
		switch b := c.data[c.at]; {
		case b == '"':
			c.at++
			return nil
		case b == '\\':
			if err := c.passEscape(); err != nil {
				return err
			}
		case b < ' ':
			return c.fail(c.at, "a control character in a text must be written as \\u00…")
		case b < utf8.RuneSelf:
			c.at++
		default:
			r, size := utf8.DecodeRune(c.data[c.at:])
			if r == utf8.RuneError && size == 1 {
				return c.fail(c.at, "this isn't UTF-8 text")
			}
			c.at += size
		}
	}
	return c.fail(c.at, "the data ends within a text")
}

// passEscape passes over an escape, or over two that are one character.
func (c *Cursor) passEscape() error {
	if c.at+1 >= len(c.data) {
		return c.fail(c.at, "the data ends within a text")
	}
	switch c.data[c.at+1] {
	case '"', '\\', '/', 'b', 'f', 'n', 'r', 't':
		c.at += 2
		return nil
	case 'u':
		r := hex4(c.data[c.at:])
		switch {
		case r < 0:
			return c.fail(c.at, "\\u needs four hexadecimal digits")
		case !utf16.IsSurrogate(r):
			c.at += 6
			return nil
		case utf16.DecodeRune(r, hex4(c.data[c.at+6:])) == utf8.RuneError:
			return c.fail(c.at, "this is half a character")
		}
		c.at += 12
		return nil
	}
	return c.fail(c.at, "this escape doesn't exist in JSON")
}

// hex4 is the value of the \uXXXX that data starts with, -1 if it doesn't.
func hex4(data []byte) rune {
	if len(data) < 6 || data[0] != '\\' || data[1] != 'u' {
		return -1
	}
	var r rune
	for _, b := range data[2:6] {
		switch {
		case b >= '0' && b <= '9':
			r = r<<4 | rune(b-'0')
		case b >= 'a' && b <= 'f':
			r = r<<4 | rune(b-'a'+10)
		case b >= 'A' && b <= 'F':
			r = r<<4 | rune(b-'A'+10)
		default:
			return -1
		}
	}
	return r
}

// unescape is the text that the checked data between the quotes stands for.
func unescape(data []byte) string {
	out := make([]byte, 0, len(data))
	for i := 0; i < len(data); {
		if data[i] != '\\' {
			out = append(out, data[i])
			i++
			continue
		}
		if r := hex4(data[i:]); r >= 0 {
			i += 6
			if utf16.IsSurrogate(r) {
				r = utf16.DecodeRune(r, hex4(data[i:]))
				i += 6
			}
			out = utf8.AppendRune(out, r)
			continue
		}
		out = append(out, escapes[data[i+1]])
		i += 2
	}
	return string(out)
}

var escapes = [256]byte{'"': '"', '\\': '\\', '/': '/', 'b': '\b', 'f': '\f', 'n': '\n', 'r': '\r', 't': '\t'}

// Number reads a number and returns it as it is written, so that no digit is
// lost.
func (c *Cursor) Number() (string, error) {
	if err := c.expect(Number); err != nil {
		return "", err
	}
	start := c.at
	if c.data[c.at] == '-' {
		c.at++
	}
	first := c.at
	if !c.digits() {
		return "", c.unexpected()
	}
	if c.data[first] == '0' && c.at > first+1 {
		return "", c.fail(first, "a number can't start with 0 and go on")
	}
	if c.at < len(c.data) && c.data[c.at] == '.' {
		c.at++
		if !c.digits() {
			return "", c.unexpected()
		}
	}
	if c.at < len(c.data) && (c.data[c.at] == 'e' || c.data[c.at] == 'E') {
		c.at++
		if c.at < len(c.data) && (c.data[c.at] == '+' || c.data[c.at] == '-') {
			c.at++
		}
		if !c.digits() {
			return "", c.unexpected()
		}
	}
	return string(c.data[start:c.at]), nil
}

// digits passes over digits and says whether there were any.
func (c *Cursor) digits() bool {
	start := c.at
	for c.at < len(c.data) && c.data[c.at] >= '0' && c.data[c.at] <= '9' {
		c.at++
	}
	return c.at > start
}
