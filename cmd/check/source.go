package main

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// checkFormat fails if gofmt would change a file.
func checkFormat(log func(string, ...any)) outcome {
	files, err := sourceFiles(".", ".go")
	if err != nil {
		return single(err, "")
	}
	out, err := exec.Command("gofmt", append([]string{"-l"}, files...)...).CombinedOutput()
	wrong := len(strings.Fields(string(out)))
	if err != nil && wrong == 0 {
		wrong = 1
	}
	if wrong == 0 {
		return single(nil, "")
	}
	return outcome{failed: 1, details: "gofmt -w would change:\n" + string(out)}
}

func vetNative(log func(string, ...any)) outcome {
	out, err := exec.Command("go", "vet", "./...").CombinedOutput()
	return single(err, string(out))
}

// vetWasm looks at everything that the page's and the worker's WebAssembly may
// be built from; the files behind the js tag are seen only here.
func vetWasm(log func(string, ...any)) outcome {
	cmd := exec.Command("go", "vet", "./...")
	cmd.Env = wasmEnv()
	out, err := cmd.CombinedOutput()
	return single(err, string(out))
}

// wasmEnv is the environment that builds for the browser.
func wasmEnv() []string {
	return append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
}

// sourceFiles lists the files of ours under dir whose names end in one of the
// given ways, in order of their paths. Installed and generated folders are left out.
func sourceFiles(dir string, endings ...string) ([]string, error) {
	if len(endings) == 0 {
		return nil, errors.New("no endings of names given")
	}
	var files []string
	err := filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			switch d.Name() {
			case ".git", "node_modules", "screenshots":
				return fs.SkipDir
			}
			return nil
		}
		for _, e := range endings {
			if strings.HasSuffix(path, e) {
				files = append(files, path)
				break
			}
		}
		return nil
	})
	return files, err
}
