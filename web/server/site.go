package server

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
)

// WriteSite writes the page as a static site into dir: every file of the page,
// the programs of b and, beside each file that gets smaller by it, its .gz and
// .br for web servers that send those. b must have its Brotli files. Files that
// dir holds already are replaced; others are left alone.
func WriteSite(dir string, page *Page, b Build) error {
	write := func(name string, data []byte) error {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		return replaceFile(path, data)
	}
	for name, a := range page.Assets {
		if name == "" {
			continue
		}
		for ending, data := range map[string][]byte{"": a.Raw, ".gz": a.Gzip, ".br": a.Brotli} {
			if data == nil {
				continue
			}
			if err := write(name+ending, data); err != nil {
				return err
			}
		}
	}
	names := []string{"wasm_exec.js"}
	for _, p := range Programs {
		names = append(names, p.Name+".wasm", p.Name+".wasm.gz", p.Name+".wasm.br")
	}
	for _, name := range names {
		data, err := os.ReadFile(filepath.Join(b.Dir, name))
		if err != nil {
			return fmt.Errorf("the built programs: %w", err)
		}
		if err := write(programFolder(b)+name, data); err != nil {
			return err
		}
	}
	status, err := json.Marshal(readyStatus(b))
	if err != nil {
		return err
	}
	// Last, so that a half-written site never says that it is ready.
	return write("build.json", status)
}
