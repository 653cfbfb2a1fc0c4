package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"sheetsprite/engine/project"
)

// maxPicture is the largest file that is taken for a picture. A sprite has at
// most 256 × 256 pixels; photographs, which are refused with advice, may be large.
const maxPicture = 64 << 20

// load reads PNGs, or one project file, and reduces their colours where asked.
func load(paths []string, colours int) (*project.Project, error) {
	files := make([]project.NamedBytes, len(paths))
	projects := 0
	for i, path := range paths {
		data, err := readFile(path)
		if err != nil {
			return nil, err
		}
		files[i] = project.NamedBytes{Name: path, Data: data}
		if isProject(path, data) {
			projects++
		}
	}
	switch {
	case projects == 0:
		return project.FromPNGs(files, project.PNGOptions{Colours: colours})
	case len(paths) > 1:
		return nil, badUsage("give either PNG pictures or one project file, not %s together", several(projects))
	}
	p, err := project.Read(bytes.NewReader(files[0].Data))
	if err != nil {
		return nil, inFile(paths[0], err)
	}
	if colours > 0 {
		err = p.ReduceColours(colours)
	}
	return p, err
}

func several(projects int) string {
	if projects > 1 {
		return "several project files"
	}
	return "both"
}

// isProject says whether a file is to be read as a project: it starts like JSON
// or is called so.
func isProject(path string, data []byte) bool {
	start := bytes.TrimLeft(bytes.TrimPrefix(data, []byte("\ufeff")), " \t\r\n")
	return bytes.HasPrefix(start, []byte("{")) || strings.EqualFold(filepath.Ext(path), ".json")
}

// inFile puts the file's name in front of what is wrong with it.
func inFile(path string, err error) error {
	var e *project.InputError
	if !errors.As(err, &e) {
		return err
	}
	where := filepath.Base(path)
	if e.Where != "" {
		where += ", " + e.Where
	}
	return &project.InputError{Where: where, What: e.What}
}

// readFile reads an input whole.
func readFile(path string) ([]byte, error) {
	most := int64(max(maxPicture, project.MaxFile))
	f, _, err := openFile(path, most, "so it is neither a sprite nor a project file")
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, most+1))
	if err != nil {
		return nil, fmt.Errorf("can't read %s: %w", quote(path), reason(err))
	}
	if bytes.HasPrefix(data, []byte("PK\x03\x04")) {
		return nil, badUsage("%s is a zip: take the project.json out of it and give that", quote(path))
	}
	return data, nil
}

// openFile opens an input of at most so many bytes, says how many it has, and refuses a
// larger one with what follows from that.
func openFile(path string, most int64, otherwise string) (*os.File, int64, error) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist), err == nil && path == "":
		return nil, 0, badUsage("%s: there is no such file", quote(path))
	case err != nil:
		return nil, 0, fmt.Errorf("can't read %s: %w", quote(path), reason(err))
	case info.IsDir():
		return nil, 0, badUsage("%s is a folder: name the files in it", quote(path))
	case info.Size() > most:
		return nil, 0, badUsage("%s is larger than %d MiB, %s", quote(path), most>>20, otherwise)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, 0, fmt.Errorf("can't read %s: %w", quote(path), reason(err))
	}
	return f, info.Size(), nil
}

// reason is what the system says, without the path that it repeats.
func reason(err error) error {
	var in *fs.PathError
	if errors.As(err, &in) {
		return in.Err
	}
	return err
}
