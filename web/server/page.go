package server

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io/fs"
	"mime"
	"path"
	"sort"
)

// Placeholder stands in index.html where the folder of hashed files is meant.
const Placeholder = "a/0/"

// Asset is one file of the page.
type Asset struct {
	Type   string // media type
	Raw    []byte
	Gzip   []byte // nil where it would not be smaller
	Brotli []byte // nil where it would not be smaller, or not yet
	Fixed  bool   // the address changes with the content: keep it for ever
	hash   string // of Raw
}

// Page is the page's own files, by address without the leading slash: "" and
// index.html, and all others below a folder named by the hash of all of them.
type Page struct {
	Folder string // "a/HASH/"
	Assets map[string]*Asset
}

// NewPage reads the page's files, hashes and compresses them.
func NewPage(files fs.FS) (*Page, error) {
	raw := map[string][]byte{}
	err := fs.WalkDir(files, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		raw[name], err = fs.ReadFile(files, name)
		return err
	})
	if err != nil {
		return nil, fmt.Errorf("the page's files: %w", err)
	}
	if raw["index.html"] == nil {
		return nil, fmt.Errorf("the page's files: index.html is missing")
	}
	names := make([]string, 0, len(raw))
	for name := range raw {
		names = append(names, name)
	}
	sort.Strings(names)
	sum := sha256.New()
	for _, name := range names {
		fmt.Fprintf(sum, "%s %x\n", name, sha256.Sum256(raw[name]))
	}
	p := &Page{Folder: "a/" + hex.EncodeToString(sum.Sum(nil))[:16] + "/", Assets: map[string]*Asset{}}
	for _, name := range names {
		data := raw[name]
		if name == "index.html" {
			data = bytes.ReplaceAll(data, []byte(Placeholder), []byte(p.Folder))
			p.Assets[name] = newAsset(name, data)
			p.Assets[""] = p.Assets[name]
			continue
		}
		a := newAsset(name, data)
		a.Fixed = true
		p.Assets[p.Folder+name] = a
	}
	return p, nil
}

// newAsset compresses a small file both ways at once.
func newAsset(name string, data []byte) *Asset {
	a := &Asset{Type: mediaType(name), Raw: data, hash: contentHash(data)}
	if gz := gzipped(data); len(gz) < len(data) {
		a.Gzip = gz
	}
	if br, err := brotliCompressed(context.Background(), data); err == nil && len(br) < len(data) {
		a.Brotli = br
	}
	return a
}

func contentHash(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])[:16]
}

// mediaType is the type of a file by its ending, whatever the machine's own
// tables say.
func mediaType(name string) string {
	switch path.Ext(name) {
	case ".html":
		return "text/html; charset=utf-8"
	case ".css":
		return "text/css; charset=utf-8"
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".json":
		return "application/json"
	case ".webmanifest":
		return "application/manifest+json"
	case ".wasm":
		return "application/wasm"
	case ".svg":
		return "image/svg+xml"
	case ".png":
		return "image/png"
	}
	if t := mime.TypeByExtension(path.Ext(name)); t != "" {
		return t
	}
	return "application/octet-stream"
}
