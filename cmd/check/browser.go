package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"time"
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
	ctx, cancel := context.WithTimeoutCause(context.Background(), browserLimit, errBrowserLimit)
	defer cancel()
	server := exec.CommandContext(ctx, command, "--wait")
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
	if ctx.Err() != nil {
		return single(fmt.Errorf("the page's programs weren't built in time: %w", context.Cause(ctx)), "")
	}
	if err != nil {
		return single(fmt.Errorf("the server ended before it was ready: %w", err), "")
	}
	log("served at %s", strings.TrimSpace(address))
	tests := exec.CommandContext(ctx, "node", "--test", "--test-reporter=tap", "page.test.mjs")
	tests.Cancel = func() error { return tests.Process.Signal(os.Interrupt) } // node then says which tests were under way, and ends Chromium
	tests.WaitDelay = 20 * time.Second
	tests.Dir = browserTests
	tests.Env = append(os.Environ(), "SHEETSPRITE_ADDRESS="+strings.TrimSpace(address), "SHEETSPRITE_COMMAND="+command)
	out, err := tests.CombinedOutput()
	for _, m := range measuredLine.FindAllStringSubmatch(string(out), -1) {
		log("%s", m[1])
	}
	if ctx.Err() != nil {
		err = context.Cause(ctx)
	}
	return tapOutcome(string(out), err)
}

// browserLimit is how long the server's build and the tests in Chromium may take
// together: well above what they do on two loaded cores, so that what hangs is
// told rather than cut off by whoever runs the whole check.
const browserLimit = 15 * time.Minute

var errBrowserLimit = fmt.Errorf("the page's tests took more than %v and were ended: the last test named is the one that hung", browserLimit)

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
		if errors.Is(err, errBrowserLimit) {
			o.details += "\n" + err.Error() + "\n"
		}
	}
	return o
}
