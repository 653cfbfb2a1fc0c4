package main

import (
	"fmt"
	"go/ast"
	"go/build/constraint"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// goFile is what the rules need to know of a Go file.
type goFile struct {
	path    string   // from the module's root, with slashes
	imports []string // import paths
	uses    []string // "time.Now": what it names in the packages of impureCalls, by import path
	onlyJS  bool     // built only where the tag js holds
}

func (f goFile) dir() string  { return filepath.ToSlash(filepath.Dir(f.path)) }
func (f goFile) isTest() bool { return strings.HasSuffix(f.path, "_test.go") }

// readGoFile reads the imports whatever the build tags say.
func readGoFile(path string, source any) (goFile, error) {
	f := goFile{path: filepath.ToSlash(path)}
	parsed, err := parser.ParseFile(token.NewFileSet(), path, source, parser.ParseComments)
	if err != nil {
		return f, err
	}
	names := map[string]string{} // in this file, to import path
	for _, spec := range parsed.Imports {
		imported := strings.Trim(spec.Path.Value, `"`)
		f.imports = append(f.imports, imported)
		if _, watched := impureCalls[imported]; watched {
			name := strings.TrimSuffix(imported, "/v2")
			name = name[strings.LastIndexByte(name, '/')+1:]
			if spec.Name != nil {
				name = spec.Name.Name
			}
			names[name] = imported
		}
	}
	ast.Inspect(parsed, func(n ast.Node) bool {
		if sel, ok := n.(*ast.SelectorExpr); ok {
			if x, ok := sel.X.(*ast.Ident); ok && x.Obj == nil && names[x.Name] != "" {
				f.uses = append(f.uses, names[x.Name]+"."+sel.Sel.Name)
			}
		}
		return true
	})
	f.onlyJS, err = builtOnlyForJS(f.path, parsed)
	return f, err
}

// builtOnlyForJS tries the file's constraint with the tag js unset and every
// other tag once set and once not.
func builtOnlyForJS(path string, parsed *ast.File) (bool, error) {
	base := strings.TrimSuffix(strings.TrimSuffix(filepath.Base(path), ".go"), "_test")
	if strings.HasSuffix(base, "_js") || strings.HasSuffix(base, "_wasm") {
		return true, nil
	}
	for _, group := range parsed.Comments {
		if group.Pos() > parsed.Package {
			break
		}
		for _, c := range group.List {
			if !constraint.IsGoBuild(c.Text) {
				continue
			}
			expr, err := constraint.Parse(c.Text)
			if err != nil {
				return false, err
			}
			for _, others := range []bool{false, true} {
				if expr.Eval(func(tag string) bool { return others && tag != "js" && tag != "wasm" }) {
					return false, nil
				}
			}
			return true, nil
		}
	}
	return false, nil
}

// complaints says in which way a file breaks the rules.
func complaints(f goFile) []string {
	var out []string
	say := func(format string, a ...any) { out = append(out, f.path+": "+fmt.Sprintf(format, a...)) }
	l, known := layerOf(f.dir())
	if !known {
		say("the folder %s has no place in cmd/check/layers_test.go; say there what it may import", f.dir())
		return out
	}
	if l.js && !f.onlyJS && !f.isTest() {
		say("belongs to the browser: it needs the line //go:build js")
	}
	for _, imported := range f.imports {
		if (imported == "syscall/js" || fromModule([]string{ebiten}, imported)) && !f.onlyJS {
			say("imports %s without //go:build js, so that it needs a window system or a browser", imported)
		}
		if f.isTest() {
			continue
		}
		if dir, ok := ourDir(imported); ok {
			switch {
			case forTests(dir) && !matches("cmd/check/...", f.dir()) && !forTests(f.dir()):
				say("imports %s, which is for tests", imported)
			case strings.HasPrefix(f.dir(), "engine/") && dir == inspectDir:
				say("imports %s: no step knows the findings", imported)
			case !matchesAny(l.ours, dir):
				say("imports %s, which is not below %s", imported, l.dir)
			}
			continue
		}
		switch {
		case standard(imported):
			if l.pure && !f.onlyJS && touchesDisk[f.path] == "" && matchesAny(impure, imported) {
				say("imports %s: %s does no I/O", imported, l.dir)
			}
		case !fromModule(l.outside, imported):
			say("imports %s, which isn't among the libraries chosen for %s", imported, l.dir)
		}
	}
	if l.exact && !f.isTest() {
		for _, use := range f.uses {
			if forbidden(use) {
				say("uses %s: its result isn't the same everywhere and every time", use)
			}
		}
	}
	return out
}

// forbidden looks a use up in impureCalls; a list that starts with "*" forbids
// all lower-case free functions but those after it, types stay allowed.
func forbidden(use string) bool {
	dot := strings.LastIndexByte(use, '.')
	names, name := impureCalls[use[:dot]], use[dot+1:]
	if names[0] != "*" {
		return slices.Contains(names, name)
	}
	types := []string{"Rand", "Source", "Source64", "Zipf", "PCG", "ChaCha8"}
	return !slices.Contains(names[1:], name) && !slices.Contains(types, name)
}

func TestImportsFollowTheTree(t *testing.T) {
	const root = "../.."
	paths, err := sourceFiles(root, ".go")
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for _, p := range paths {
		rel, err := filepath.Rel(root, p)
		require.NoError(t, err)
		f, err := readGoFile(filepath.ToSlash(rel), mustRead(t, p))
		require.NoError(t, err)
		for _, c := range complaints(f) {
			t.Error(c)
		}
	}
}

func TestTheRulesCatch(t *testing.T) {
	for _, c := range []struct {
		path, source string
		want         string // in the complaint; "" for none
	}{
		{"engine/outline/a.go", `package outline; import "sheetsprite/engine/stack"`, ""},
		{"engine/stack/a.go", `package stack; import "sheetsprite/engine/outline"`, "not below"},
		{"engine/shape/a.go", `package shape; import "sheetsprite/engine/project"`, "not below"},
		{"engine/plan.go", `package engine; import "sheetsprite/engine/inspect"`, ""},
		{"engine/nest/a.go", `package nest; import "sheetsprite/engine/inspect"`, "no step"},
		{"engine/inspect/a.go", `package inspect; import "sheetsprite/engine/route"`, ""},
		{"engine/inspect/a.go", `package inspect; import "sheetsprite/engine"`, "not below"},
		{"engine/stack/a.go", `package stack; import "os"`, "no I/O"},
		{"engine/stack/a.go", `package stack; import "net/http"`, "no I/O"},
		{"engine/stack/a_test.go", `package stack; import "os"`, ""},
		{"engine/stack/a.go", `package stack; import "sheetsprite/engine/stack/stacktest"`, "for tests"},
		{"cmd/check/a.go", `package main; import "sheetsprite/engine/stack/stacktest"`, ""},
		{"cmd/sheetsprite/a.go", `package main; import "sheetsprite/engine/stack/stacktest"`, "for tests"},
		{"engine/cut/a.go", `package cut; import "time"; var _ = time.Now()`, "time.Now"},
		{"engine/cut/a.go", `package cut; import clock "time"; var _ = clock.Now()`, "time.Now"},
		{"engine/cut/a.go", `package cut; import "time"; var _ = time.Second`, ""},
		{"engine/cut/a.go", `package cut; import "math"; var _ = math.Pow(2, 3)`, "math.Pow"},
		{"engine/cut/a.go", `package cut; import "math"; var _ = math.Sqrt(2)`, ""},
		{"engine/nest/a.go", `package nest; import "math/rand/v2"; var _ = rand.IntN(3)`, "rand/v2.IntN"},
		{"engine/nest/a.go", `package nest; import "math/rand/v2"; var _ = rand.New(rand.NewPCG(1, 2))`, ""},
		{"editor/gesture/a.go", `package gesture; import "math"; var _ = math.Hypot(3, 4)`, ""},
		{"editor/gesture/a.go", `package gesture; import "os"`, "no I/O"},
		{"engine/colour/a.go", `package colour; import "github.com/lucasb-eyer/go-colorful"`, ""},
		{"engine/colour/a.go", `package colour; import "github.com/spf13/cobra"`, "isn't among"},
		{"export/a.go", `package export; import "sheetsprite/engine/inspect"`, ""},
		{"export/a.go", `package export; import "sheetsprite/editor"`, "not below"},
		{"editor/a.go", `package editor; import "sheetsprite/export"`, "not below"},
		{"editor/canvas/a.go", "//go:build js\n\npackage canvas; import \"github.com/hajimehoshi/ebiten/v2\"", ""},
		{"editor/canvas/a.go", `package canvas; import "github.com/hajimehoshi/ebiten/v2"`, "//go:build js"},
		{"editor/canvas/a.go", "//go:build js || linux\n\npackage canvas; import \"image\"", "//go:build js"},
		{"editor/shell/a.go", "//go:build js && wasm\n\npackage shell; import \"syscall/js\"", ""},
		{"editor/shell/a_js.go", `package shell; import "syscall/js"`, ""},
		{"cmd/sheetsprite-web/a.go", `package main; import "syscall/js"`, "//go:build js"},
		{"cmd/sheetsprite-web/a.go", "//go:build !js\n\npackage main; import \"syscall/js\"", "//go:build js"},
		{"util/a.go", `package util`, "no place"},
		{"engine/helpers/a.go", `package helpers`, "no place"},
	} {
		f, err := readGoFile(c.path, c.source)
		require.NoError(t, err, c.source)
		got := strings.Join(complaints(f), "\n")
		if c.want == "" {
			assert.Empty(t, got, "%s: %s", c.path, c.source)
		} else {
			assert.Contains(t, got, c.want, "%s: %s", c.path, c.source)
		}
	}
}
