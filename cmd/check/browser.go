package main

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
)

// browserTests is where the page's tests lie, with what they need from npm.
const browserTests = "testdata/browser"

// checkScripts checks the types of the page's scripts, which stand in their comments.
func checkScripts(func(string, ...any)) outcome {
	install := exec.Command("npm", "ci", "--no-audit", "--no-fund")
	install.Dir = browserTests
	if out, err := install.CombinedOutput(); err != nil {
		return single(err, string(out))
	}
	types := exec.Command("npx", "--no-install", "tsc", "-p", "tsconfig.json")
	types.Dir = browserTests
	out, err := types.CombinedOutput()
	return single(err, string(out))
}

// checkBrowser serves the page and runs its tests in Chromium. Pictures of the
// page go to the folder screenshots.
func checkBrowser(log func(string, ...any)) outcome {
	folder, err := os.MkdirTemp("", "sheetsprite-page-")
	if err != nil {
		return single(err, "")
	}
	defer os.RemoveAll(folder)
	command := filepath.Join(folder, "sheetsprite")
	if out, err := exec.Command("go", "build", "-o", command, "./cmd/sheetsprite").CombinedOutput(); err != nil {
		return single(err, string(out))
	}
	server := exec.Command(command, "--wait")
	server.Stderr = os.Stderr
	printed, err := server.StdoutPipe()
	if err != nil {
		return single(err, "")
	}
	if err := server.Start(); err != nil {
		return single(err, "")
	}
	defer func() {
		server.Process.Kill()
		server.Wait()
	}()
	address, err := bufio.NewReader(printed).ReadString('\n')
	if err != nil {
		return single(fmt.Errorf("the server ended before it was ready: %w", err), "")
	}
	log("served at %s", strings.TrimSpace(address))
	tests := exec.Command("node", "--test", "--test-reporter=tap", "page.test.mjs")
	tests.Dir = browserTests
	tests.Env = append(os.Environ(), "SHEETSPRITE_ADDRESS="+strings.TrimSpace(address), "SHEETSPRITE_COMMAND="+command)
	out, err := tests.CombinedOutput()
	for _, m := range measuredLine.FindAllStringSubmatch(string(out), -1) {
		log("%s", m[1])
	}
	return tapOutcome(string(out), err)
}

// measuredLine is a figure that the tests tell and don't judge: it depends on the machine.
var measuredLine = regexp.MustCompile(`(?m)^\s*# measured: (.*)$`)

var tapCount = regexp.MustCompile(`(?m)^# (pass|fail) (\d+)$`)

// tapOutcome reads the closing lines of node's test runner.
func tapOutcome(out string, err error) outcome {
	var o outcome
	for _, m := range tapCount.FindAllStringSubmatch(out, -1) {
		n, _ := strconv.Atoi(m[2]) // digits, by the expression
		if m[1] == "pass" {
			o.passed = n
		} else {
			o.failed = n
		}
	}
	if err != nil || o.failed > 0 || o.passed == 0 {
		o.failed = max(o.failed, 1)
		o.details = out
	}
	return o
}
