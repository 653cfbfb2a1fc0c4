package server

import (
	"bytes"
	"compress/gzip"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/andybalholm/brotli"
)

// buildFlags strip what the browser has no use for.
var buildFlags = []string{"-trimpath", "-ldflags=-s -w"}

// Build is the programs of one state of the sources, in a folder of the cache:
// NAME.wasm and NAME.wasm.gz for each program, wasm_exec.js beside them, and
// NAME.wasm.br once Brotli has run.
type Build struct {
	Key string // hash of the sources
	Dir string
}

// CacheDir is where builds are kept: a folder of the user's cache.
func CacheDir() (string, error) {
	dir, err := os.UserCacheDir()
	if err != nil {
		return "", fmt.Errorf("no folder for caching the built page: %w", err)
	}
	return filepath.Join(dir, "sheetsprite", "page"), nil
}

// BuildPrograms builds the programs of the source tree with the Go at hand, or
// takes them from the cache where the same sources were built before. A folder
// of the cache appears whole or not at all.
func BuildPrograms(ctx context.Context, tree, cache string) (Build, error) {
	t := toolchain{tree}
	key, err := t.sourceKey(ctx)
	if err != nil {
		return Build{}, err
	}
	b := Build{Key: key, Dir: filepath.Join(cache, key)}
	if _, err := os.Stat(b.Dir); err == nil {
		return b, nil
	}
	if err := os.MkdirAll(cache, 0o755); err != nil {
		return Build{}, err
	}
	work, err := os.MkdirTemp(cache, "building-")
	if err != nil {
		return Build{}, err
	}
	defer os.RemoveAll(work)
	if err := t.build(ctx, work); err != nil {
		return Build{}, err
	}
	if err := os.Rename(work, b.Dir); err != nil {
		// Another process may have been faster; its build is as good as ours.
		if _, there := os.Stat(b.Dir); there != nil {
			return Build{}, err
		}
	}
	return b, nil
}

// build fills dir.
func (t toolchain) build(ctx context.Context, dir string) error {
	for _, p := range Programs {
		out := filepath.Join(dir, p.Name+".wasm")
		args := slices.Concat([]string{"build"}, buildFlags, p.Flags, []string{"-o", out, p.Package})
		if _, err := t.output(ctx, args...); err != nil {
			return err
		}
		wasm, err := os.ReadFile(out)
		if err != nil {
			return err
		}
		if err := os.WriteFile(out+".gz", gzipped(wasm), 0o644); err != nil {
			return err
		}
	}
	root, err := t.output(ctx, "env", "GOROOT")
	if err != nil {
		return err
	}
	glue, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm", "wasm_exec.js"))
	if err != nil {
		return fmt.Errorf("this Go has no wasm_exec.js: %w", err)
	}
	return os.WriteFile(filepath.Join(dir, "wasm_exec.js"), glue, 0o644)
}

// Brotli compresses the build's programs, what is needed first before, and calls done
// with the file name of each. What the cache already holds is not done again.
// It takes some ten seconds for each MiB-sized program, so it runs behind.
func (b Build) Brotli(ctx context.Context, done func(name string)) error {
	for i := len(Programs) - 1; i >= 0; i-- {
		name := Programs[i].Name + ".wasm"
		path := filepath.Join(b.Dir, name)
		if _, err := os.Stat(path + ".br"); err != nil {
			wasm, err := os.ReadFile(path)
			if err != nil {
				return err
			}
			small, err := brotliCompressed(ctx, wasm)
			if err != nil {
				return err
			}
			if err := replaceFile(path+".br", small); err != nil {
				return err
			}
		}
		done(name)
	}
	return nil
}

// replaceFile writes data under a temporary name, then renames.
func replaceFile(path string, data []byte) error {
	f, err := os.CreateTemp(filepath.Dir(path), "writing-")
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Chmod(0o644)
	}
	if closeErr := f.Close(); err == nil {
		err = closeErr
	}
	if err == nil {
		err = os.Rename(f.Name(), path)
	}
	if err != nil {
		os.Remove(f.Name())
	}
	return err
}

func gzipped(data []byte) []byte {
	var b bytes.Buffer
	w, _ := gzip.NewWriterLevel(&b, gzip.BestCompression) // the level is a valid one
	w.Write(data)
	w.Close()
	return b.Bytes()
}

// brotliCompressed is data at the highest level, with the largest window that
// browsers take (RFC 7932: 16 MiB). It stops early when ctx ends.
func brotliCompressed(ctx context.Context, data []byte) ([]byte, error) {
	var b bytes.Buffer
	w := brotli.NewWriterOptions(&b, brotli.WriterOptions{Quality: brotli.BestCompression, LGWin: 24})
	for len(data) > 0 {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		n := min(len(data), 1<<18)
		if _, err := w.Write(data[:n]); err != nil {
			return nil, err
		}
		data = data[n:]
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}
