package main

import (
	"fmt"
	"os/exec"
	"strings"
)

// fuzzTime is how long each fuzz target looks for new inputs. Its seeds run
// with the ordinary tests too.
const fuzzTime = "3s"

// runFuzz gives every fuzz target some seconds: each is one test.
func runFuzz(log func(string, ...any)) outcome {
	targets, err := fuzzTargets()
	var o outcome
	if err != nil {
		o = single(err, "")
	}
	for _, t := range targets {
		out, err := t.run()
		if err != nil && ranOutOfTime(out) {
			out, err = t.run()
		}
		if err != nil {
			o.failed++
			o.details += fmt.Sprintf("--- %s %s\n%s", t.pkg, t.name, out)
			continue
		}
		log("pass %s %s", t.pkg, t.name)
		o.passed++
	}
	return o
}

type fuzzTarget struct{ pkg, name string }

func (t fuzzTarget) run() (string, error) {
	out, err := exec.Command("go", "test", "-run=^$", "-fuzz=^"+t.name+"$", "-fuzztime="+fuzzTime, t.pkg).CombinedOutput()
	return string(out), err
}

// ranOutOfTime recognises the fuzzing engine itself stopping late on a busy
// machine: it names no input that fails.
func ranOutOfTime(out string) bool {
	return strings.Contains(out, "context deadline exceeded") && !strings.Contains(out, "Failing input written")
}

// fuzzTargets finds all fuzz targets; those of packages that build even if
// others don't.
func fuzzTargets() ([]fuzzTarget, error) {
	out, err := exec.Command("go", "test", "-list=^Fuzz", "./...").CombinedOutput()
	if err != nil {
		err = fmt.Errorf("go test -list: %w\n%s", err, out)
	}
	return readTargets(string(out)), err
}

// readTargets reads what go test -list prints: the names of a package's
// targets, then a line "ok" with the package.
func readTargets(list string) []fuzzTarget {
	var targets []fuzzTarget
	var names []string
	for line := range strings.Lines(list) {
		f := strings.Fields(line)
		switch {
		case len(f) == 1 && strings.HasPrefix(f[0], "Fuzz"):
			names = append(names, f[0])
		case len(f) >= 2 && f[0] == "ok":
			for _, n := range names {
				targets = append(targets, fuzzTarget{f[1], n})
			}
			names = nil
		}
	}
	return targets
}
