// Package server builds the page's WebAssembly from the source tree and serves
// the page on the loopback interface, or writes it as a static site.
package server

import (
	"bufio"
	"errors"
	"os"
	"path/filepath"
	"strings"
)

// Module is the name in the go.mod of the source tree.
const Module = "sheetsprite"

// ErrNoTree says that no source tree was found above the folder asked about.
var ErrNoTree = errors.New("the editor is built from Sheetsprite's source tree and this folder is outside of it: change into the folder that holds its go.mod and start sheetsprite there")

// FindTree returns the root of the source tree that dir lies in, or ErrNoTree.
// Where the binary itself lies does not matter.
func FindTree(dir string) (string, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	for {
		if moduleName(filepath.Join(dir, "go.mod")) == Module {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", ErrNoTree
		}
		dir = up
	}
}

// moduleName reads the module line of a go.mod; "" where there is none.
func moduleName(path string) string {
	f, err := os.Open(path)
	if err != nil {
		return ""
	}
	defer f.Close()
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		if name, ok := strings.CutPrefix(strings.TrimSpace(lines.Text()), "module "); ok {
			return strings.TrimSpace(name)
		}
	}
	return ""
}
