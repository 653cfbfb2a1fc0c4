// Command check is the whole test run: what README and .ci/run call.
//
//	go run ./cmd/check          format, vet, tests, race detector, fuzz targets,
//	                            WebAssembly, and the checks against outside tools
//	go run ./cmd/check --bench  the speed and the memory that the project promises
//
// It installs the tools it needs on Debian when it may, else it says which are
// missing and fails. Its last line is "N passed, N failed"; it exits with 1 if
// anything failed or nothing ran.
package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

func main() {
	bench := flag.Bool("bench", false, "measure speed and memory against what is promised")
	flag.Parse()
	if flag.NArg() > 0 {
		fmt.Fprintln(os.Stderr, "check takes no arguments; go run ./cmd/check --help lists its options")
		os.Exit(2)
	}
	if err := enterRoot(); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	steps := testSteps()
	if *bench {
		steps = benchSteps()
	}
	r := newReport(os.Stdout)
	for _, s := range steps {
		r.run(s)
	}
	os.Exit(r.finish())
}

// testSteps is the whole test run, quick complaints first.
func testSteps() []step {
	return []step{
		{"tools", installTools},
		{"gofmt", checkFormat},
		{"go vet", vetNative},
		{"go vet, js/wasm", vetWasm},
		{"go test", runTests},
		{"go test -race", runRace},
		{"same bytes", checkGolden},
		{"page's scripts", checkScripts},
		{"page in Chromium", checkBrowser},
		{"fuzz", runFuzz},
	}
}

// enterRoot makes the module's root the working directory.
func enterRoot() error {
	out, err := exec.Command("go", "env", "GOMOD").Output()
	if err != nil {
		return fmt.Errorf("go env GOMOD: %w; run check inside the source tree", err)
	}
	mod := strings.TrimSpace(string(out))
	if filepath.Base(mod) != "go.mod" {
		return fmt.Errorf("there is no go.mod here or above; run check inside the source tree")
	}
	return os.Chdir(filepath.Dir(mod))
}
