package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// imported finds what a module of the page loads, at once or later; types alone
// stand in comments and tie nothing.
var imported = regexp.MustCompile(`(?m)^(?:import|export) [^'\n]*from '\./([a-z]+\.js)'|^[^*\n]*\bimport\('\./([a-z]+\.js)'\)`)

// The page's modules import one another in one direction: whoever reads one
// needs to know those below it only.
func TestThePagesModulesMakeNoCircle(t *testing.T) {
	files, err := filepath.Glob("../../web/js/*.js")
	require.NoError(t, err)
	require.Greater(t, len(files), 40)
	uses := map[string][]string{}
	arrows := 0
	for _, file := range files {
		source, err := os.ReadFile(file)
		require.NoError(t, err)
		name := filepath.Base(file)
		for _, m := range imported.FindAllStringSubmatch(string(source), -1) {
			uses[name] = append(uses[name], m[1]+m[2])
			arrows++
		}
	}
	require.Greater(t, arrows, 150)
	var path []string
	done := map[string]bool{}
	var walk func(name string)
	walk = func(name string) {
		if at := slices.Index(path, name); at >= 0 {
			assert.Fail(t, "a circle of imports", "%v", append(slices.Clone(path[at:]), name))
			return
		}
		if done[name] {
			return
		}
		path = append(path, name)
		for _, used := range uses[name] {
			walk(used)
		}
		path = path[:len(path)-1]
		done[name] = true
	}
	for _, file := range files {
		walk(filepath.Base(file))
	}
}
