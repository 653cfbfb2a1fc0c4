package main

import (
	"fmt"
	"io"
	"strings"
	"time"
)

// step is one stretch of the run.
type step struct {
	name string
	do   func(log func(format string, a ...any)) outcome
}

// outcome is what a step found.
type outcome struct {
	passed, failed int
	note           string // a word beside the step's name
	details        string // what failed, in full
}

// single is the outcome of a step that is one test.
func single(err error, details string) outcome {
	if err == nil {
		return outcome{passed: 1}
	}
	if details == "" {
		details = err.Error()
	}
	return outcome{failed: 1, details: details}
}

// report prints the steps as they go and counts.
type report struct {
	out            io.Writer
	began          time.Time
	passed, failed int
	broken         []string // names of steps with a failure
}

func newReport(out io.Writer) *report { return &report{out: out, began: time.Now()} }

func (r *report) run(s step) {
	began := time.Now()
	fmt.Fprintf(r.out, "== %s\n", s.name)
	o := s.do(func(format string, a ...any) { fmt.Fprintf(r.out, "   "+format+"\n", a...) })
	r.passed += o.passed
	r.failed += o.failed
	if d := strings.TrimRight(o.details, "\n"); d != "" {
		fmt.Fprintln(r.out, d)
	}
	word := "ok"
	if o.failed > 0 {
		word = "FAILED"
		r.broken = append(r.broken, s.name)
	}
	fmt.Fprintf(r.out, "%-7s%-18s %7.1f s  %d passed, %d failed  %s\n",
		word, s.name, time.Since(began).Seconds(), o.passed, o.failed, o.note)
}

// finish prints the last line and gives the exit code.
func (r *report) finish() int {
	fmt.Fprintf(r.out, "== total %.1f s\n", time.Since(r.began).Seconds())
	if len(r.broken) > 0 {
		fmt.Fprintf(r.out, "failed: %s\n", strings.Join(r.broken, "; "))
	}
	if r.passed+r.failed == 0 {
		fmt.Fprintln(r.out, "nothing ran")
		r.failed = 1
	}
	fmt.Fprintf(r.out, "%d passed, %d failed\n", r.passed, r.failed)
	if r.failed > 0 {
		return 1
	}
	return 0
}
