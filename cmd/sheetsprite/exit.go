package main

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"sheetsprite/engine/project"
)

// usageError is about how the command was called.
type usageError struct{ text string }

func (e *usageError) Error() string { return e.text }

func badUsage(format string, args ...any) error { return &usageError{fmt.Sprintf(format, args...)} }

// exitCode is 2 for what the caller can put right by calling otherwise or by
// giving another input, 1 for what the machine couldn't do.
func exitCode(err error) int {
	var usage *usageError
	var input *project.InputError
	switch {
	case errors.As(err, &usage), errors.As(err, &input):
		return 2
	// cobra has no type for these.
	case strings.HasPrefix(err.Error(), "unknown command"), strings.HasPrefix(err.Error(), "accepts "):
		return 2
	}
	return 1
}

// oneLine makes text from outside fit for a terminal's line: what doesn't
// print, line ends and direction marks included, becomes a space or a dot.
func oneLine(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			return ' '
		case !unicode.IsPrint(r):
			return '·'
		}
		return r
	}, text)
}

// quote shows what the caller typed, at most 40 characters of it.
func quote(text string) string {
	if runes := []rune(text); len(runes) > 40 {
		text = string(runes[:40]) + "…"
	}
	return fmt.Sprintf("%q", text)
}
