//go:build js

// Sheetsprite-web is the page's program: the editor and its canvas.
package main

import (
	"fmt"
	"os"

	"sheetsprite/editor/shell"
	"sheetsprite/testdata/harbour"
)

func main() {
	s, err := shell.New(harbour.Project)
	if err == nil {
		err = s.Run()
	}
	if err != nil {
		fmt.Fprintln(os.Stderr, "sheetsprite:", err)
		os.Exit(1)
	}
}
