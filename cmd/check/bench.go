package main

import (
	"fmt"
	"slices"
	"time"
)

// benchSteps are the figures the project promises. Each row is the median of
// five, with the median time of the reference loop, run in between, beside it:
// a machine that is slow at the moment shows there.
func benchSteps() []step {
	return []step{
		{"tools", installTools},
		{"memory", benchMemory}, // first: a child's peak is never below what its parent has in use when it starts
		{"stack", benchStack},
		{"sheets", benchSheets},
		{"guide", benchGuide},
		{"outlines", benchOutlines},
		{"regrid", benchRegrid},
	}
}

const runs = 5

// median is the middle of an odd number of times.
func median(times []time.Duration) time.Duration {
	sorted := slices.Sorted(slices.Values(times))
	return sorted[len(sorted)/2]
}

// measurement is a job's median time and that of the reference loop.
type measurement struct{ time, reference time.Duration }

// measure runs a job five times.
func measure(job func()) measurement {
	var times, references []time.Duration
	for range runs {
		references = append(references, timed(reference))
		times = append(times, timed(job))
	}
	return measurement{median(times), median(references)}
}

func timed(job func()) time.Duration {
	began := time.Now()
	job()
	return time.Since(began)
}

// referenceSum keeps the loop from being optimised away.
var referenceSum uint64

// reference is a fixed piece of work for the processor alone: ten million steps
// of a generator of pseudo-random numbers (xorshift64, Marsaglia 2003).
func reference() {
	x := uint64(88172645463325252)
	for range 10_000_000 {
		x ^= x << 13
		x ^= x >> 7
		x ^= x << 17
	}
	referenceSum += x
}

// tally judges rows against what is promised.
type tally struct {
	outcome
	log func(string, ...any)
}

// judge prints a row; it fails where ok is false.
func (t *tally) judge(ok bool, format string, a ...any) {
	row := fmt.Sprintf(format, a...)
	if ok {
		t.passed++
		t.log("ok    %s", row)
		return
	}
	t.failed++
	t.log("MISS  %s", row)
	t.details += "too much: " + row + "\n"
}

// within judges a time against its limit.
func (t *tally) within(name string, m measurement, limit time.Duration) {
	t.judge(m.time < limit, "%-46s %9.2f ms  (under %v; reference %.1f ms)",
		name, milliseconds(m.time), limit, milliseconds(m.reference))
}

func milliseconds(d time.Duration) float64 { return float64(d) / float64(time.Millisecond) }
