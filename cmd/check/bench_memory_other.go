//go:build !unix

package main

import "errors"

// benchMemory can't be done here: only Unix says what a process took at most.
func benchMemory(func(string, ...any)) outcome {
	return single(errors.New("a process's peak resident size is measured on Unix only"), "")
}
