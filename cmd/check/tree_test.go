package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// mostLines is the longest a file written by hand may be: longer ones have more
// than one job.
const mostLines = 700

// leftOpen are the words that people leave where something is to be done still,
// put together here so that this file doesn't hold them.
var leftOpen = regexp.MustCompile(`\b(TO` + `DO|FIX` + `ME|XX` + `X|HA` + `CK)\b|(?i)not (yet )?imple` + `mented`)

// evasive are ways for a test not to test.
var evasive = regexp.MustCompile(`\bt\.Sk` + `ip(f|Now)?\(|test\.sk` + `ip\b|time\.Sle` + `ep\(|waitFor` + `Timeout`)

func TestFilesAreShortAndFinished(t *testing.T) {
	paths, err := sourceFiles("../..", ".go", ".js", ".mjs", ".css", ".html", ".py", ".sh", ".md", ".txtar", "/run")
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for _, p := range paths {
		text := mustRead(t, p)
		if n := bytes.Count(text, []byte("\n")); n > mostLines {
			t.Errorf("%s has %d lines; %d is the most: it has more than one job", p, n, mostLines)
		}
		if w := leftOpen.Find(text); w != nil {
			t.Errorf("%s says %q: finish it or take it out", p, w)
		}
		if w := evasive.Find(text); w != nil {
			t.Errorf("%s says %q: a test waits for what happens and doesn't leave itself out", p, w)
		}
	}
}

func TestOpenEndsAreRecognised(t *testing.T) {
	assert.True(t, leftOpen.MatchString("// TO"+"DO later"))
	assert.True(t, leftOpen.MatchString("panic(\"Not imple"+"mented\")"))
	assert.False(t, leftOpen.MatchString("todos los colores"))
	assert.True(t, evasive.MatchString("t.Sk"+"ip(\"no python\")"))
	assert.False(t, evasive.MatchString("skip := 3"))
}

func mustRead(t *testing.T, path string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.FromSlash(path))
	require.NoError(t, err)
	return text
}
