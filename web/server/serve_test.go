package server_test

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"errors"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/andybalholm/brotli"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/web"
	"sheetsprite/web/server"
)

var pageFiles = fstest.MapFS{
	"index.html": {Data: []byte(`<script type="module" src="a/0/js/main.js"></script>`)},
	"js/main.js": {Data: []byte(strings.Repeat("export const word = 'sheet';\n", 40))},
	"css/x.css":  {Data: []byte("a{}")},
}

// fakeBuild is a build as BuildPrograms leaves it, with small programs.
func fakeBuild(t *testing.T) server.Build {
	b := server.Build{Key: "0123abcd", Dir: t.TempDir()}
	for _, p := range server.Programs {
		wasm := []byte("\x00asm\x01\x00\x00\x00" + strings.Repeat(p.Name, 500))
		write(t, filepath.Join(b.Dir, p.Name+".wasm"), wasm)
		var gz bytes.Buffer
		w := gzip.NewWriter(&gz)
		w.Write(wasm)
		require.NoError(t, w.Close())
		write(t, filepath.Join(b.Dir, p.Name+".wasm.gz"), gz.Bytes())
	}
	write(t, filepath.Join(b.Dir, "wasm_exec.js"), []byte("globalThis.Go = class {}"))
	return b
}

func write(t *testing.T, path string, data []byte) {
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, data, 0o644))
}

func newPage(t *testing.T) *server.Page {
	p, err := server.NewPage(pageFiles)
	require.NoError(t, err)
	return p
}

type ask struct {
	method, path, host, encodings, tag string
}

func (a ask) of(s *server.Server) *http.Response {
	if a.method == "" {
		a.method = http.MethodGet
	}
	r := httptest.NewRequest(a.method, a.path, nil)
	r.Host = a.host
	if a.host == "" {
		r.Host = "127.0.0.1:4711"
	}
	if a.encodings != "" {
		r.Header.Set("Accept-Encoding", a.encodings)
	}
	if a.tag != "" {
		r.Header.Set("If-None-Match", a.tag)
	}
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	return w.Result()
}

func body(t *testing.T, r *http.Response) string {
	b, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	return string(b)
}

func TestHosts(t *testing.T) {
	s := server.New(newPage(t))
	for host, status := range map[string]int{
		"127.0.0.1:80": 200, "127.0.0.1": 200, "localhost:9": 200, "[::1]:7": 200, "[::1]": 200,
		"evil.example": 403, "evil.example:80": 403, "127.0.0.1.evil.example": 403, "localhost.evil.example:80": 403,
		"192.168.0.2:80": 403, "0.0.0.0:80": 403,
	} {
		assert.Equal(t, status, ask{path: "/", host: host}.of(s).StatusCode, host)
		assert.Equal(t, status, ask{path: "/build.json", host: host}.of(s).StatusCode, host)
	}
}

func TestEveryAnswerIsGuarded(t *testing.T) {
	s := server.New(newPage(t))
	for _, a := range []ask{{path: "/"}, {path: "/none"}, {path: "/build.json"}, {path: "/", host: "evil.example"}, {path: "/", method: "POST"}} {
		h := a.of(s).Header
		policy := h.Get("Content-Security-Policy")
		assert.Contains(t, policy, "default-src 'none'")
		assert.Contains(t, policy, "script-src 'self' 'wasm-unsafe-eval';")
		assert.NotContains(t, policy, "unsafe-inline")
		assert.NotContains(t, policy, "http")
		assert.Equal(t, "nosniff", h.Get("X-Content-Type-Options"))
	}
	assert.Equal(t, 405, ask{path: "/", method: "POST"}.of(s).StatusCode)
	assert.Equal(t, 404, ask{path: "/../../etc/passwd"}.of(s).StatusCode)
}

func TestAddressesChangeWithTheContent(t *testing.T) {
	one := newPage(t)
	s := server.New(one)
	index := ask{path: "/"}.of(s)
	assert.Equal(t, "text/html; charset=utf-8", index.Header.Get("Content-Type"))
	assert.Equal(t, "no-cache", index.Header.Get("Cache-Control"))
	text := body(t, index)
	assert.Contains(t, text, one.Folder+"js/main.js")
	assert.NotContains(t, text, server.Placeholder)

	script := ask{path: "/" + one.Folder + "js/main.js"}.of(s)
	assert.Equal(t, "text/javascript; charset=utf-8", script.Header.Get("Content-Type"))
	assert.Contains(t, script.Header.Get("Cache-Control"), "immutable")

	changed := fstest.MapFS{}
	for name, f := range pageFiles {
		changed[name] = f
	}
	changed["css/x.css"] = &fstest.MapFile{Data: []byte("b{}")}
	two, err := server.NewPage(changed)
	require.NoError(t, err)
	assert.NotEqual(t, one.Folder, two.Folder)

	again := ask{path: "/", tag: index.Header.Get("ETag")}.of(s)
	assert.Equal(t, 304, again.StatusCode)
}

func TestEncodings(t *testing.T) {
	page := newPage(t)
	s := server.New(page)
	b := fakeBuild(t)
	require.NoError(t, s.Add(b))
	path := "/a/" + b.Key + "/worker.wasm"
	wasm, err := os.ReadFile(filepath.Join(b.Dir, "worker.wasm"))
	require.NoError(t, err)

	plain := ask{path: path}.of(s)
	assert.Equal(t, "application/wasm", plain.Header.Get("Content-Type"))
	assert.Equal(t, string(wasm), body(t, plain))

	before := ask{path: path, encodings: "gzip, deflate, br, zstd"}.of(s)
	assert.Equal(t, "gzip", before.Header.Get("Content-Encoding"), "until Brotli is ready")
	z, err := gzip.NewReader(before.Body)
	require.NoError(t, err)
	unpacked, err := io.ReadAll(z)
	require.NoError(t, err)
	assert.Equal(t, wasm, unpacked)

	var order []string
	require.NoError(t, b.Brotli(t.Context(), func(name string) {
		order = append(order, name)
		require.NoError(t, s.AddBrotli(b, name))
	}))
	assert.Equal(t, []string{"worker.wasm", "web.wasm", "maker.wasm"}, order)
	after := ask{path: path, encodings: "gzip, deflate, br"}.of(s)
	assert.Equal(t, "br", after.Header.Get("Content-Encoding"))
	assert.Contains(t, after.Header.Get("Vary"), "Accept-Encoding")
	unpacked, err = io.ReadAll(brotli.NewReader(after.Body))
	require.NoError(t, err)
	assert.Equal(t, wasm, unpacked)
	assert.NotEqual(t, before.Header.Get("ETag"), after.Header.Get("ETag"))

	assert.Equal(t, "gzip", ask{path: path, encodings: "br;q=0, gzip"}.of(s).Header.Get("Content-Encoding"))
	assert.Empty(t, ask{path: path, encodings: "identity"}.of(s).Header.Get("Content-Encoding"))
	head := ask{path: path, method: "HEAD", encodings: "br"}.of(s)
	assert.Equal(t, 200, head.StatusCode)
	assert.Empty(t, body(t, head))
}

func status(t *testing.T, s *server.Server, path string) (st server.Status) {
	require.NoError(t, json.Unmarshal([]byte(body(t, ask{path: path}.of(s))), &st))
	return st
}

func TestThePageWaitsForTheBuild(t *testing.T) {
	s := server.New(newPage(t))
	assert.Equal(t, server.Status{State: server.Building}, status(t, s, "/build.json"))

	answered := make(chan server.Status)
	go func() { answered <- status(t, s, "/build.json?wait=1") }()
	require.NoError(t, s.Add(fakeBuild(t)))
	st := <-answered
	assert.Equal(t, server.Ready, st.State)
	for _, name := range []string{st.Web, st.Worker, st.Glue} {
		assert.Equal(t, 200, ask{path: "/" + name}.of(s).StatusCode, name)
	}

	failed := server.New(newPage(t))
	failed.Fail(errors.New("no Go here"))
	assert.Equal(t, server.Status{State: server.Failed, Message: "no Go here"}, status(t, failed, "/build.json?wait=1"))
}

// The page as it is: every file that it names exists, and nothing is inline or
// from elsewhere.
func TestThePageHoldsTogether(t *testing.T) {
	page, err := server.NewPage(web.Files)
	require.NoError(t, err)
	html := string(page.Assets["index.html"].Raw)
	n := 0
	for _, piece := range strings.Split(html, `"`) {
		if strings.HasPrefix(piece, page.Folder) {
			n++
			assert.NotNil(t, page.Assets[piece], piece)
		}
	}
	assert.Greater(t, n, 3)
	assert.NotContains(t, html, "<style")
	assert.NotContains(t, html, "style=")
	assert.NotContains(t, html, " onclick")
	for name, a := range page.Assets {
		if strings.HasSuffix(name, ".js") || strings.HasSuffix(name, ".css") || strings.HasSuffix(name, ".html") {
			assert.NotContains(t, string(a.Raw), "https://", name)
		}
	}
}
