package main

import (
	"path"
	"slices"
	"strings"
)

// module is the name in go.mod.
const module = "sheetsprite"

// layer is what the packages of one folder may import, tests apart: tests may
// import more.
type layer struct {
	dir     string   // "engine/shape"; "export/..." for a folder with all below it
	ours    []string // folders of ours it may import, in the same form
	outside []string // modules of others it may import
	pure    bool     // no I/O
	exact   bool     // the same result on every machine at every time
	js      bool     // only ever built for the browser
}

var (
	bottom = []string{"engine/shape", "engine/colour", "engine/project/..."}
	// Each step may use the ones before it.
	steps = []string{"engine/stack", "engine/outline", "engine/number", "engine/cut", "engine/nest", "engine/route", "engine/assemble"}
	// Libraries without I/O, chosen for the engine.
	pureLibraries = []string{"golang.org/x/image", "github.com/lucasb-eyer/go-colorful"}
	ebiten        = "github.com/hajimehoshi/ebiten/v2"
)

// layers is DEVELOPERS.md's tree as a table. A folder with Go files that isn't
// here is a mistake: add it, where it belongs.
var layers = slices.Concat([]layer{
	{dir: "engine/shape", pure: true, exact: true},
	{dir: "engine/colour", ours: bottom, outside: pureLibraries, pure: true, exact: true},
	{dir: "engine/project/...", ours: bottom, outside: pureLibraries, pure: true, exact: true},
	{dir: "engine/regrid/...", ours: append([]string{"engine/regrid/..."}, bottom...), outside: pureLibraries, pure: true, exact: true},
	{dir: "engine/stack/stacktest", ours: []string{"engine/stack"}, pure: true, exact: true},
	{dir: "engine/project/projecttest", ours: bottom, pure: true, exact: true},
	{dir: "engine/inspect", ours: slices.Concat(bottom, steps, []string{"engine/regrid/..."}), outside: pureLibraries, pure: true, exact: true},
	{dir: "engine", ours: []string{"engine/..."}, outside: pureLibraries, pure: true, exact: true},
	{dir: "export/...", ours: []string{"engine/...", "export/..."}, outside: pureLibraries, pure: true, exact: true},
	{dir: "export/guide", ours: []string{"engine/..."}, outside: append([]string{"codeberg.org/go-pdf/fpdf"}, pureLibraries...), pure: true, exact: true},
	{dir: "editor/canvas/...", ours: []string{"engine/...", "editor/..."}, outside: append([]string{ebiten}, pureLibraries...), js: true},
	{dir: "editor/shell/...", ours: []string{"engine/...", "editor/..."}, js: true},
	{dir: "editor/...", ours: []string{"engine/...", "editor/..."}, outside: pureLibraries, pure: true},
	{dir: "web"},
	{dir: "web/server", ours: []string{"web"}, outside: []string{"github.com/andybalholm/brotli"}},
	{dir: "testdata/harbour", ours: []string{"engine/...", "export/..."}}, // a program that draws the pictures again
	{dir: "cmd/...", ours: []string{"..."}, outside: []string{"*"}},
	{dir: "testdata/harbour", ours: []string{"engine/project"}},
}, stepLayers())

func stepLayers() []layer {
	var ls []layer
	for i, s := range steps {
		ls = append(ls, layer{dir: s, ours: slices.Concat(bottom, steps[:i]), outside: pureLibraries, pure: true, exact: true})
	}
	return ls
}

// inspectDir is known only to the pipeline and to what stands outside the engine.
const inspectDir = "engine/inspect"

// forTests says whether a folder holds what tests need, such as drawings: its
// name ends in "test" and nothing that ships imports it.
func forTests(dir string) bool { return strings.HasSuffix(dir, "test") }

// impure is what the engine, the export and the editor keep away from.
// Standard packages end in "/..." with all below them.
var impure = []string{
	"os/...", "net/...", "syscall/...", "log/...", "crypto/rand", "plugin", "unsafe", "testing/...", "path/filepath",
	"io/ioutil", "runtime/...", "database/...", "flag",
}

// touchesDisk are the files of pure folders that do I/O all the same, with why.
var touchesDisk = map[string]string{
	"export/file.go": "puts a finished file in its place whole or not at all",
}

// impureCalls depend on a clock, on a hidden seed, or on the processor: the
// functions of math listed here have their own assembly on some machines.
var impureCalls = map[string][]string{
	"time":         {"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker", "Local"},
	"math":         {"Exp", "Exp2", "Expm1", "Pow", "Log", "Log2", "Log10", "Log1p", "Hypot", "Sinh", "Cosh", "Tanh", "FMA"},
	"math/rand":    {"*", "New", "NewSource", "NewZipf"},
	"math/rand/v2": {"*", "New", "NewPCG", "NewChaCha8", "NewZipf"},
}

// matches says whether dir is the pattern, or lies in it where it ends in "...".
func matches(pattern, dir string) bool {
	if pattern == "..." {
		return true
	}
	if tree, ok := strings.CutSuffix(pattern, "/..."); ok {
		return dir == tree || strings.HasPrefix(dir, tree+"/")
	}
	return dir == pattern
}

func matchesAny(patterns []string, dir string) bool {
	return slices.ContainsFunc(patterns, func(p string) bool { return matches(p, dir) })
}

// layerOf is the layer with the closest fitting folder.
func layerOf(dir string) (layer, bool) {
	var best layer
	found := false
	for _, l := range layers {
		if matches(l.dir, dir) && (!found || len(l.dir) > len(best.dir)) {
			best, found = l, true
		}
	}
	return best, found
}

// standard says whether an import path is of Go's standard library: its first
// element has no dot.
func standard(imported string) bool {
	first, _, _ := strings.Cut(imported, "/")
	return !strings.Contains(first, ".") && first != module
}

// fromModule says whether an import path is of one of the modules; "*" is all.
func fromModule(modules []string, imported string) bool {
	return slices.ContainsFunc(modules, func(m string) bool { return m == "*" || matches(m+"/...", imported) })
}

// ourDir is the folder of an import path of ours.
func ourDir(imported string) (string, bool) {
	if imported == module {
		return ".", true
	}
	dir, ok := strings.CutPrefix(imported, module+"/")
	return path.Clean(dir), ok
}
