package main

import (
	"fmt"
	"io"
	"sync"
	"time"
)

// patience is how long a step may take before it says how far it is.
const patience = 500 * time.Millisecond

// progress tells how far a step is, line by line, once it has taken longer than
// patience, and then again whenever twice the time has passed.
type progress struct {
	out   io.Writer
	clock clock

	mu    sync.Mutex
	what  string
	n, of int
	stop  func() // of the timer; nil between steps
	step  int    // counts steps, so that a timer that comes late says nothing
}

// begin starts a step; what is as in "planning sprite 3 of 12", without numbers.
func (p *progress) begin(what string, of int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.quiet()
	p.what, p.n, p.of = what, 0, of
	p.wait(patience)
}

// wait sets the timer; p is locked.
func (p *progress) wait(d time.Duration) {
	step := p.step
	p.stop = p.clock.AfterFunc(d, func() {
		p.mu.Lock()
		defer p.mu.Unlock()
		if p.step != step {
			return
		}
		p.tell()
		p.wait(2 * d)
	})
}

// quiet ends the step; p is locked.
func (p *progress) quiet() {
	if p.stop != nil {
		p.stop()
	}
	p.stop = nil
	p.step++
}

// done says that n of the step's things are done.
func (p *progress) done(n int) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.n = n
}

func (p *progress) end() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.quiet()
}

func (p *progress) tell() {
	if p.of > 1 {
		fmt.Fprintf(p.out, "%s: %d of %d done …\n", p.what, p.n, p.of)
		return
	}
	fmt.Fprintf(p.out, "%s …\n", p.what)
}
