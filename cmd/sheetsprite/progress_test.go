package main

import (
	"bytes"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
)

// heldClock stands still until it is told to go on.
type heldClock struct {
	now    time.Duration
	timers []*heldTimer
}

type heldTimer struct {
	at      time.Duration
	f       func()
	stopped bool
}

func (c *heldClock) Now() time.Time { return time.Unix(0, 0).Add(c.now) }

func (c *heldClock) AfterFunc(d time.Duration, f func()) func() {
	t := &heldTimer{at: c.now + d, f: f}
	c.timers = append(c.timers, t)
	return func() { t.stopped = true }
}

// pass lets time pass and fires what is due, in order.
func (c *heldClock) pass(d time.Duration) {
	end := c.now + d
	for i := 0; i < len(c.timers); i++ { // timers set on the way come last
		if t := c.timers[i]; !t.stopped && t.at <= end {
			c.now, t.stopped = t.at, true
			t.f()
		}
	}
	c.now = end
}

func TestProgressKeepsQuietForHalfASecond(t *testing.T) {
	var out bytes.Buffer
	c := &heldClock{}
	p := progress{out: &out, clock: c}
	p.begin("planning sprites", 12)
	c.pass(499 * time.Millisecond)
	p.done(11)
	p.end()
	c.pass(time.Hour)
	assert.Empty(t, out.String())
}

func TestProgressTellsHowFarItIs(t *testing.T) {
	var out bytes.Buffer
	c := &heldClock{}
	p := progress{out: &out, clock: c}
	p.begin("planning sprites", 12)
	p.done(3)
	c.pass(500 * time.Millisecond)
	p.done(7)
	c.pass(time.Second)
	p.done(9)
	p.begin("writing and checking the cutting files", 1)
	c.pass(499 * time.Millisecond)
	c.pass(time.Millisecond)
	p.end()
	c.pass(time.Hour)
	assert.Equal(t, `planning sprites: 3 of 12 done …
planning sprites: 7 of 12 done …
writing and checking the cutting files …
`, out.String())
}

func TestTimings(t *testing.T) {
	var out bytes.Buffer
	c := &heldClock{}
	w := newTimings(c)
	for range 2 {
		leave := w.enter("stack")
		c.pass(1250 * time.Millisecond)
		leave()
	}
	leave := w.enter("read")
	c.pass(time.Millisecond)
	leave()
	w.print(&out)
	assert.Equal(t, "read        0.001 s\nstack       2.500 s\ntotal       2.501 s\n", out.String())
}
