package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
)

// concurrent are the folders below root, as go test takes them, whose code or
// tests start goroutines or guard something against them: a go statement, or
// an import of sync or sync/atomic. Nothing else can have a race of its own.
func concurrent(root string) ([]string, error) {
	var found []string
	err := filepath.WalkDir(root, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if e.IsDir() && path != root && (strings.HasPrefix(e.Name(), ".") || e.Name() == "node_modules" || e.Name() == "testdata") {
			return filepath.SkipDir
		}
		folder := "./" + filepath.ToSlash(filepath.Dir(path))
		if e.IsDir() || filepath.Ext(path) != ".go" || slices.Contains(found, folder) {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		if startsGoroutines(file) {
			found = append(found, folder)
		}
		return nil
	})
	return found, err
}

func startsGoroutines(file *ast.File) bool {
	for _, i := range file.Imports {
		if i.Path.Value == `"sync"` || i.Path.Value == `"sync/atomic"` {
			return true
		}
	}
	found := false
	ast.Inspect(file, func(n ast.Node) bool {
		if _, ok := n.(*ast.GoStmt); ok {
			found = true
		}
		return !found
	})
	return found
}
