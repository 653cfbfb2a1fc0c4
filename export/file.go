package export

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"sheetsprite/export/readback"
)

// WriteFile writes a file whole or not at all: write fills a temporary file in
// the same folder, which then takes path's place. Where that fails, what stood
// at path is untouched and nothing is left behind. The error is one sentence
// that says what to do; it wraps its cause.
func WriteFile(path string, write func(io.Writer) error) error {
	return replaceFile(path, func(f *os.File) error { return write(f) })
}

// replaceFile is WriteFile where what was written is read again.
func replaceFile(path string, write func(*os.File) error) error {
	mode := fs.FileMode(0o644)
	if info, err := os.Stat(path); err == nil {
		if info.IsDir() {
			return fmt.Errorf("can't write %s: it is a folder; name a file", path)
		}
		if !info.Mode().IsRegular() {
			return fmt.Errorf("can't write %s: it isn't an ordinary file; name another", path)
		}
		mode = info.Mode().Perm()
	}
	temp, err := os.CreateTemp(filepath.Dir(path), ".sheetsprite-*.tmp")
	if err != nil {
		return writeError(path, err)
	}
	err = fill(temp, mode, write)
	if err == nil {
		err = os.Rename(temp.Name(), path)
	}
	if err != nil {
		os.Remove(temp.Name())
		return writeError(path, err)
	}
	return nil
}

// BundleFile writes the zip of j to a file, whole or not at all, and says how large it
// is. What is read back are the bytes on the disk, before they take path's place; the
// zip is never held in memory, and the plan's sheets lose their strokes as they are
// written: they are a large part of it.
//
// Errors: as for WriteFile and Build.
func BundleFile(path string, j Job) (size int64, err error) {
	err = replaceFile(path, func(f *os.File) error {
		if err := assembleTo(f, j, encodePicture, letGo); err != nil {
			return err
		}
		if size, err = f.Seek(0, io.SeekCurrent); err != nil {
			return err
		}
		if err := readback.CheckFile(f, size, j.Project); err != nil {
			return notShown(err)
		}
		return nil
	})
	return size, err
}

// fill writes, stores on the disk and closes the temporary file.
func fill(f *os.File, mode fs.FileMode, write func(*os.File) error) error {
	err := write(f)
	if err == nil {
		err = f.Chmod(mode)
	}
	if err == nil {
		err = f.Sync()
	}
	if closed := f.Close(); err == nil {
		err = closed
	}
	return err
}

// fileError is a sentence of ours that wraps its cause without repeating its
// words, which would name the temporary file.
type fileError struct {
	text  string
	cause error
}

func (e *fileError) Error() string { return e.text }
func (e *fileError) Unwrap() error { return e.cause }

// writeError says why path could not be written and what to do.
func writeError(path string, err error) error {
	folder := filepath.Dir(path)
	why := ""
	var inPath *fs.PathError
	var inLink *os.LinkError
	switch {
	case errors.Is(err, syscall.ENOTDIR):
		why = fmt.Sprintf("%s isn't a folder; name another place", folder)
	case errors.Is(err, fs.ErrNotExist):
		why = fmt.Sprintf("the folder %s doesn't exist; make it first or name another", folder)
	case errors.Is(err, syscall.ENOSPC):
		why = "the disk is full; make room or name a place on another disk"
	case errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		why = fmt.Sprintf("the folder %s can't be written to; name another", folder)
	case errors.As(err, &inPath):
		why = inPath.Err.Error()
	case errors.As(err, &inLink):
		why = inLink.Err.Error()
	default:
		return err // what write itself had to say
	}
	return &fileError{fmt.Sprintf("can't write %s: %s", path, why), err}
}
