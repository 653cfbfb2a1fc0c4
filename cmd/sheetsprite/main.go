// Command sheetsprite turns pixel sprites into cutting files for coloured card.
package main

import (
	"fmt"
	"io"
	"os"
	"runtime/debug"
)

func main() {
	// Collecting earlier than is usual keeps the peak of a large sprite's files low, for a
	// twentieth of the time; thrift.go does the rest.
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(40)
	}
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr, realClock{}))
}

// run runs the command and gives its exit code: 0 done, 1 could not, 2 bad
// input or usage. What went wrong goes to stderr, in one sentence.
func run(args []string, stdout, stderr io.Writer, c clock) int {
	root := newRoot(c)
	root.SetArgs(args)
	root.SetOut(stdout)
	root.SetErr(stderr)
	err := root.Execute()
	if err == nil {
		return 0
	}
	fmt.Fprintln(stderr, "sheetsprite: "+oneLine(err.Error()))
	return exitCode(err)
}
