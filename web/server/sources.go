package server

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
)

// Program is one of the page's WebAssembly programs.
type Program struct {
	Name    string // of the built file, without its ending
	Package string
	Flags   []string // for go build, besides buildFlags
}

// Programs are the page's programs, the last needed first. The one that draws
// computes little, and without inlining it is an eighth smaller to load; the
// worker and the maker of cutting files are for speed.
var Programs = []Program{
	{"maker", "./cmd/sheetsprite-maker", nil},
	{"web", "./cmd/sheetsprite-web", []string{"-gcflags=all=-l"}},
	{"worker", "./cmd/sheetsprite-worker", nil},
}

// toolchain runs the Go at hand for WebAssembly in the source tree.
type toolchain struct{ tree string }

func (t toolchain) command(ctx context.Context, args ...string) *exec.Cmd {
	cmd := exec.CommandContext(ctx, "go", args...)
	cmd.Dir = t.tree
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "GOWORK=off")
	return cmd
}

// output runs go and returns what it printed; its complaints become the error.
func (t toolchain) output(ctx context.Context, args ...string) ([]byte, error) {
	cmd := t.command(ctx, args...)
	var out, complaints bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &complaints
	err := cmd.Run()
	if errors.Is(err, exec.ErrNotFound) {
		return nil, errors.New("the page is built with Go, and no go command was found on the PATH: install Go and start again")
	}
	if err != nil {
		return nil, fmt.Errorf("go %s failed: %w\n%s", args[0], err, strings.TrimSpace(complaints.String()))
	}
	return out.Bytes(), nil
}

// listed is what go list tells about one package.
type listed struct {
	Dir        string
	Standard   bool
	Module     *struct{ Main bool }
	GoFiles    []string
	EmbedFiles []string
}

// sourceKey is a hash over everything that the built programs depend on: the
// toolchain's version, go.mod and go.sum, and each of our own files that the
// programs are built from, by name and content.
func (t toolchain) sourceKey(ctx context.Context) (string, error) {
	version, err := t.output(ctx, "env", "GOVERSION")
	if err != nil {
		return "", err
	}
	args := []string{"list", "-deps", "-json=Dir,Standard,Module,GoFiles,EmbedFiles"}
	for _, p := range Programs {
		args = append(args, p.Package)
	}
	out, err := t.output(ctx, args...)
	if err != nil {
		return "", err
	}
	files := []string{filepath.Join(t.tree, "go.mod"), filepath.Join(t.tree, "go.sum")}
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := dec.Decode(&p); err == io.EOF {
			break
		} else if err != nil {
			return "", fmt.Errorf("go list: %w", err)
		}
		if p.Standard || p.Module == nil || !p.Module.Main {
			continue
		}
		for _, name := range append(p.GoFiles, p.EmbedFiles...) {
			files = append(files, filepath.Join(p.Dir, name))
		}
	}
	sort.Strings(files)
	sum := sha256.New()
	fmt.Fprintf(sum, "%s %s %s\n", bytes.TrimSpace(version), buildFlags, Programs)
	for _, path := range files {
		data, err := os.ReadFile(path)
		if err != nil {
			return "", err
		}
		name, err := filepath.Rel(t.tree, path)
		if err != nil {
			return "", err
		}
		fmt.Fprintf(sum, "%s %x\n", filepath.ToSlash(name), sha256.Sum256(data))
	}
	return hex.EncodeToString(sum.Sum(nil))[:20], nil
}
