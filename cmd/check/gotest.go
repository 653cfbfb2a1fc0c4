package main

import (
	"bufio"
	"encoding/json"
	"io"
	"os"
	"os/exec"
	"sort"
	"strings"
)

// event is a line of `go test -json` (see go doc test2json).
type event struct {
	Action     string
	Package    string
	ImportPath string // of a build's output
	Test       string
	Output     string
	Elapsed    float64
}

// testRun gathers the events of one `go test -json`.
type testRun struct {
	outcomes map[string]string           // "package test" to pass, fail or skip
	output   map[string]*strings.Builder // what a test, package or build printed
	packages map[string]string           // package to pass, fail or skip
	note     func(string, ...any)
}

func newTestRun(note func(string, ...any)) *testRun {
	return &testRun{map[string]string{}, map[string]*strings.Builder{}, map[string]string{}, note}
}

// read takes the events until the end; lines that aren't events are kept as
// output of no test.
func (t *testRun) read(r io.Reader) error {
	lines := bufio.NewReader(r)
	for {
		line, err := lines.ReadString('\n')
		if line != "" {
			t.line(line)
		}
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

func (t *testRun) line(line string) {
	var e event
	if json.Unmarshal([]byte(line), &e) != nil {
		t.print("", line)
		return
	}
	name := e.Package
	if e.Test != "" {
		name += " " + e.Test
	}
	switch e.Action {
	case "output":
		t.print(name, e.Output)
	case "build-output":
		t.print(e.ImportPath, e.Output)
	case "pass", "fail", "skip":
		if e.Test != "" {
			t.outcomes[name] = e.Action
			return
		}
		t.packages[e.Package] = e.Action
		if e.Action != "skip" { // skip: no test files
			t.note("%-5s%-45s %6.1f s", e.Action, e.Package, e.Elapsed)
		}
	}
}

func (t *testRun) print(name, text string) {
	b := t.output[name]
	if b == nil {
		b = &strings.Builder{}
		t.output[name] = b
	}
	b.WriteString(text)
}

// sum counts tests. One with tests of its own inside counts only for them,
// unless it failed although they passed. A skipped test counts as failed:
// nothing here may be skipped. So does a package that failed outside its tests.
func (t *testRun) sum() outcome {
	parents := map[string]string{} // a test with tests inside: "" or "fail" if one of them failed
	for name, action := range t.outcomes {
		for p := parent(name); p != ""; p = parent(p) {
			if action != "pass" {
				parents[p] = "fail"
			} else if _, ok := parents[p]; !ok {
				parents[p] = ""
			}
		}
	}
	var o outcome
	var shown []string
	broken := map[string]bool{} // packages with a failed test
	for name, action := range t.outcomes {
		inside, isParent := parents[name]
		switch {
		case action == "pass" && isParent:
		case action == "pass":
			o.passed++
		case isParent && inside == "fail":
			broken[packageOf(name)] = true
			shown = append(shown, name)
		default:
			o.failed++
			broken[packageOf(name)] = true
			shown = append(shown, name)
		}
	}
	for p, action := range t.packages {
		if action == "fail" && !broken[p] {
			o.failed++
			shown = append(shown, p)
		}
	}
	sort.Strings(shown)
	o.details = t.text(shown)
	return o
}

// text is what the named tests and packages printed, and what builds did.
func (t *testRun) text(names []string) string {
	var b strings.Builder
	if len(names) == 0 {
		return ""
	}
	var builds []string
	for name := range t.output {
		_, isPackage := t.packages[name]
		if !strings.Contains(name, " Test") && !strings.Contains(name, " Fuzz") && !strings.Contains(name, " Example") && !isPackage {
			builds = append(builds, name)
		}
	}
	sort.Strings(builds)
	for _, name := range append(builds, names...) {
		if out := t.output[name]; out != nil {
			b.WriteString("--- " + name + "\n" + out.String())
		}
	}
	return b.String()
}

// parent is the test that a test is inside of, "" for none.
func parent(name string) string {
	_, test, _ := strings.Cut(name, " ")
	i := strings.LastIndexByte(test, '/')
	if i < 0 {
		return ""
	}
	return name[:len(name)-len(test)+i]
}

func packageOf(name string) string {
	p, _, _ := strings.Cut(name, " ")
	return p
}

// goTest runs go test -json with some arguments and counts.
func goTest(log func(string, ...any), env []string, args ...string) outcome {
	cmd := exec.Command("go", append([]string{"test", "-json", "-count=1"}, args...)...)
	cmd.Env = env
	var stderr strings.Builder
	cmd.Stderr = &stderr
	pipe, err := cmd.StdoutPipe()
	if err != nil {
		return single(err, "")
	}
	if err := cmd.Start(); err != nil {
		return single(err, "")
	}
	t := newTestRun(log)
	readErr := t.read(pipe)
	err = cmd.Wait()
	o := t.sum()
	switch {
	case readErr != nil:
		o.failed++
		o.details += readErr.Error() + "\n"
	case err != nil && o.failed == 0:
		o.failed++
		o.details += err.Error() + "\n"
	case o.passed+o.failed == 0:
		o.failed++
		o.details += "no tests ran\n"
	}
	if o.failed > 0 {
		o.details += stderr.String()
	}
	return o
}

// runTests runs every test at its full size.
func runTests(log func(string, ...any)) outcome {
	return goTest(log, os.Environ(), "-timeout=10m", "./...")
}

// slowLibraries leaves the compressor unwatched: it starts no goroutine, and
// watched it takes ten minutes for what it else does in one.
const slowLibraries = "-gcflags=github.com/andybalholm/brotli=-race=false"

// runRace runs them again under the race detector, which makes them some ten
// times slower: only where something runs at the same time, and with -short, so
// that tests of many rounds run fewer. The tests are counted already, so here
// each package counts as one.
func runRace(log func(string, ...any)) outcome {
	if _, err := exec.LookPath("gcc"); err != nil {
		return single(err, "the race detector needs a C compiler; as root on Debian: apt-get install gcc libc6-dev")
	}
	at, err := concurrent(".")
	if err != nil {
		return single(err, "the sources must be readable")
	}
	env := append(os.Environ(), "CGO_ENABLED=1")
	packages := 0
	o := goTest(func(format string, a ...any) {
		packages++
		log(format, a...)
	}, env, append([]string{"-race", "-short", slowLibraries, "-timeout=15m"}, at...)...)
	if o.failed == 0 {
		o.passed = packages
	} else {
		o.passed = 0
	}
	return o
}
