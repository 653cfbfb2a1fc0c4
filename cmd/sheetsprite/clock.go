package main

import "time"

// clock is the time, so that tests can hold it.
type clock interface {
	Now() time.Time
	// AfterFunc calls f on its own goroutine once d has passed, unless stopped.
	AfterFunc(d time.Duration, f func()) (stop func())
}

type realClock struct{}

func (realClock) Now() time.Time { return time.Now() }

func (realClock) AfterFunc(d time.Duration, f func()) func() {
	t := time.AfterFunc(d, f)
	return func() { t.Stop() }
}
