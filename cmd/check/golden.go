package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
)

// goldenProject is what the bundles are made from.
const goldenProject = "testdata/harbour/harbour.json"

// checkGolden makes the same bundles natively, one sprite after the other and
// four at a time, and in WebAssembly under node: byte for byte the same. Each
// bundle is one test.
func checkGolden(log func(string, ...any)) outcome {
	folder, err := os.MkdirTemp("", "sheetsprite-golden-")
	if err != nil {
		return single(err, "")
	}
	defer os.RemoveAll(folder)
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return single(err, "")
	}
	native, wasm := filepath.Join(folder, "golden"), filepath.Join(folder, "golden.wasm")
	for _, b := range []struct {
		binary string
		env    []string
	}{{native, os.Environ()}, {wasm, wasmEnv()}} {
		build := exec.Command("go", "build", "-o", b.binary, "./cmd/check/golden")
		build.Env = b.env
		if out, err := build.CombinedOutput(); err != nil {
			return single(err, string(out))
		}
	}
	node := filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "go_js_wasm_exec")
	var sums [3][]string
	var errs [3]error
	var running sync.WaitGroup
	for i, command := range [][]string{
		{native, goldenProject, "1"},
		{native, goldenProject, "4"},
		{node, wasm, goldenProject, "1"},
	} {
		running.Go(func() {
			out, err := exec.Command(command[0], command[1:]...).CombinedOutput()
			if err != nil {
				errs[i] = fmt.Errorf("%s: %w\n%s", strings.Join(command, " "), err, out)
			}
			sums[i] = strings.Split(strings.TrimSpace(string(out)), "\n")
		})
	}
	running.Wait()
	if err := errors.Join(errs[:]...); err != nil {
		return single(err, err.Error())
	}
	return compareSums(log, sums[0], sums[1], sums[2])
}

// compareSums holds the lines of three runs against one another.
func compareSums(log func(string, ...any), one, four, wasm []string) outcome {
	if len(one) != len(four) || len(one) != len(wasm) {
		return outcome{failed: 1, details: fmt.Sprintf("golden: %d, %d and %d bundles", len(one), len(four), len(wasm))}
	}
	var o outcome
	for i, line := range one {
		if line == four[i] && line == wasm[i] {
			o.passed++
			log("same  %s", line)
			continue
		}
		o.failed++
		o.details += fmt.Sprintf("bundles differ:\n  one at a time  %s\n  four at a time %s\n  WebAssembly    %s\n", line, four[i], wasm[i])
	}
	return o
}
