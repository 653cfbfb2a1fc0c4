package server_test

import (
	"bytes"
	"context"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/web/server"
)

// smallTree is a source tree whose programs are one line each.
func smallTree(t *testing.T) string {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "go.mod"), []byte("module sheetsprite\n\ngo 1.24\n"))
	write(t, filepath.Join(dir, "go.sum"), nil)
	write(t, filepath.Join(dir, "engine/word.go"), []byte("package engine\n\nconst Word = 1\n"))
	for _, p := range server.Programs {
		write(t, filepath.Join(dir, p.Package, "main.go"), []byte("package main\n\nimport \"sheetsprite/engine\"\n\nfunc main() { print(engine.Word) }\n"))
	}
	return dir
}

func TestFindTree(t *testing.T) {
	tree := smallTree(t)
	inner := filepath.Join(tree, "cmd", "sheetsprite-web")
	for _, dir := range []string{tree, inner} {
		found, err := server.FindTree(dir)
		require.NoError(t, err)
		assert.Equal(t, tree, found)
	}
	other := t.TempDir()
	write(t, filepath.Join(other, "go.mod"), []byte("module sheetsprites\n"))
	_, err := server.FindTree(other)
	require.ErrorIs(t, err, server.ErrNoTree)
	assert.Contains(t, err.Error(), "go.mod", "it says what to do")
}

func TestBuildIsKeyedByItsSources(t *testing.T) {
	tree, cache := smallTree(t), t.TempDir()
	first, err := server.BuildPrograms(t.Context(), tree, cache)
	require.NoError(t, err)
	for _, p := range server.Programs {
		wasm, err := os.ReadFile(filepath.Join(first.Dir, p.Name+".wasm"))
		require.NoError(t, err)
		assert.True(t, bytes.HasPrefix(wasm, []byte("\x00asm")), "the mark of WebAssembly (W3C, core specification)")
	}
	// What is in the cache is taken, not built again.
	write(t, filepath.Join(first.Dir, "web.wasm"), []byte("mine"))
	again, err := server.BuildPrograms(t.Context(), tree, cache)
	require.NoError(t, err)
	assert.Equal(t, first, again)
	kept, err := os.ReadFile(filepath.Join(again.Dir, "web.wasm"))
	require.NoError(t, err)
	assert.Equal(t, "mine", string(kept))

	// A test or a text beside the sources changes nothing, a source does.
	write(t, filepath.Join(tree, "engine/word_test.go"), []byte("package engine\n"))
	again, err = server.BuildPrograms(t.Context(), tree, cache)
	require.NoError(t, err)
	assert.Equal(t, first.Key, again.Key)
	write(t, filepath.Join(tree, "engine/word.go"), []byte("package engine\n\nconst Word = 2\n"))
	changed, err := server.BuildPrograms(t.Context(), tree, cache)
	require.NoError(t, err)
	assert.NotEqual(t, first.Key, changed.Key)

	write(t, filepath.Join(tree, "engine/word.go"), []byte("package engine\n\nconst Word = \n"))
	_, err = server.BuildPrograms(t.Context(), tree, cache)
	require.Error(t, err)
	entries, err := os.ReadDir(cache)
	require.NoError(t, err)
	assert.Len(t, entries, 2, "a build that fails leaves nothing")
}

// printed gathers what Run prints and tells when a line is complete.
type printed struct {
	mu    sync.Mutex
	text  strings.Builder
	lines chan string
}

func (p *printed) Write(b []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.text.Write(b)
	if bytes.ContainsRune(b, '\n') {
		p.lines <- p.text.String()
	}
	return len(b), nil
}

func serve(t *testing.T, o server.Options) (string, <-chan error) {
	out := &printed{lines: make(chan string, 4)}
	o.Out, o.Log, o.Files = out, io.Discard, pageFiles
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- server.Run(ctx, o) }()
	done := make(chan error, 1)
	t.Cleanup(func() { stop(); <-done })
	var line string
	select {
	case line = <-out.lines:
	case err := <-ended:
		done <- err
		return "", nil
	}
	go func() { done <- <-ended }()
	return strings.TrimSpace(line), done
}

func get(t *testing.T, address string) (int, string) {
	r, err := http.Get(address)
	require.NoError(t, err)
	defer r.Body.Close()
	b, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	return r.StatusCode, string(b)
}

func TestRun(t *testing.T) {
	tree, cache := smallTree(t), t.TempDir()
	address, _ := serve(t, server.Options{Tree: tree, Cache: cache})
	require.Regexp(t, regexp.MustCompile(`^http://127\.0\.0\.1:\d+/$`), address)
	code, _ := get(t, address)
	assert.Equal(t, 200, code, "at once, before anything is built")
	code, text := get(t, address+"build.json?wait=1")
	assert.Equal(t, 200, code)
	assert.Contains(t, text, `"ready"`)

	waited, _ := serve(t, server.Options{Tree: tree, Cache: cache, When: server.WhenReady})
	_, text = get(t, waited+"build.json")
	assert.Contains(t, text, `"ready"`)
	brs, err := filepath.Glob(filepath.Join(cache, "*", "*.br"))
	require.NoError(t, err)
	assert.Len(t, brs, len(server.Programs), "the address came after Brotli")
}

func TestRunRefusesATakenPort(t *testing.T) {
	tree, cache := smallTree(t), t.TempDir()
	address, _ := serve(t, server.Options{Tree: tree, Cache: cache})
	m := regexp.MustCompile(`:(\d+)/`).FindStringSubmatch(address)
	require.NotNil(t, m)
	port := 0
	for _, d := range m[1] {
		port = port*10 + int(d-'0')
	}
	err := server.Run(t.Context(), server.Options{Tree: tree, Cache: cache, Files: pageFiles, Port: port, Out: io.Discard, Log: io.Discard})
	require.Error(t, err)
	assert.Contains(t, err.Error(), "--port")
}

func TestRunWaitingTellsWhyNothingCanBeBuilt(t *testing.T) {
	tree := smallTree(t)
	write(t, filepath.Join(tree, "engine/word.go"), []byte("package engine\n\nfunc {\n"))
	err := server.Run(t.Context(), server.Options{Tree: tree, Cache: t.TempDir(), Files: pageFiles, When: server.WhenReady, Out: io.Discard, Log: io.Discard})
	require.Error(t, err)
	assert.Contains(t, err.Error(), "word.go")
}

func TestSite(t *testing.T) {
	tree, dir := smallTree(t), filepath.Join(t.TempDir(), "new", "site")
	require.NoError(t, server.Site(t.Context(), server.Options{Tree: tree, Cache: t.TempDir(), Files: pageFiles}, dir))
	// Every file that a plain web server needs is there, under the names that
	// index.html and build.json give.
	site := http.FileServer(http.Dir(dir))
	fetch := func(path string) string {
		w := &recorder{header: http.Header{}}
		r, err := http.NewRequest(http.MethodGet, path, nil)
		require.NoError(t, err)
		site.ServeHTTP(w, r)
		assert.Equal(t, 200, w.status(), path)
		return w.body.String()
	}
	index := fetch("/")
	script := regexp.MustCompile(`src="([^"]+)"`).FindStringSubmatch(index)
	require.NotNil(t, script)
	assert.Contains(t, fetch("/"+script[1]), "sheet")
	names := regexp.MustCompile(`"(a/[^"]+)"`).FindAllStringSubmatch(fetch("/build.json"), -1)
	assert.Len(t, names, 4)
	for _, n := range names {
		fetch("/" + n[1])
		if strings.HasSuffix(n[1], ".wasm") {
			fetch("/" + n[1] + ".br")
			fetch("/" + n[1] + ".gz")
		}
	}
}

// recorder is a bare http.ResponseWriter.
type recorder struct {
	header http.Header
	code   int
	body   bytes.Buffer
}

func (r *recorder) Header() http.Header         { return r.header }
func (r *recorder) WriteHeader(code int)        { r.code = code }
func (r *recorder) Write(b []byte) (int, error) { return r.body.Write(b) }
func (r *recorder) status() int {
	if r.code == 0 {
		return 200
	}
	return r.code
}
