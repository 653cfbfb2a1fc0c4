package project

import (
	"errors"
	"fmt"
)

// InputError says what is wrong with what was given, where, and what to do.
// Errors of reading and writing themselves (disk full …) are never of this type.
type InputError struct {
	Where string // such as `sprite 2 ("gull"), frame 1, row 3`; "" for the whole
	What  string
}

func (e *InputError) Error() string {
	if e.Where == "" {
		return e.What
	}
	return e.Where + ": " + e.What
}

// wrong is an InputError about the whole of what is looked at.
func wrong(format string, args ...any) error {
	return &InputError{What: fmt.Sprintf(format, args...)}
}

// in puts a place in front of that of an InputError; it leaves other errors alone.
func in(where string, err error) error {
	var e *InputError
	if !errors.As(err, &e) {
		return err
	}
	if e.Where != "" {
		where += ", " + e.Where
	}
	return &InputError{where, e.What}
}

// label is how the i-th thing of a list is called in a message.
func label(thing string, i int, name string) string {
	if name == "" {
		return fmt.Sprintf("%s %d", thing, i+1)
	}
	return fmt.Sprintf("%s %d (%s)", thing, i+1, quote(name))
}

// quote makes text from outside fit for a message: in quotes, control and
// direction characters escaped, at most 40 characters.
func quote(text string) string {
	if runes := []rune(text); len(runes) > 40 {
		text = string(runes[:40]) + "…"
	}
	return fmt.Sprintf("%q", text)
}
