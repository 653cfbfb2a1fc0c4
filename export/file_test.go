package export

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func say(s string) func(io.Writer) error {
	return func(w io.Writer) error {
		_, err := io.WriteString(w, s)
		return err
	}
}

// listed is what lies in a folder: nothing temporary may stay.
func listed(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

func TestWriteFile(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "out.zip")
	require.NoError(t, WriteFile(path, say("one")))
	require.NoError(t, os.Chmod(path, 0o600))
	require.NoError(t, WriteFile(path, say("two")))
	got, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "two", string(got))
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm(), "the file's rights stay")
	assert.Equal(t, []string{"out.zip"}, listed(t, folder))
}

func TestWriteFileLeavesTheOldOne(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "out.zip")
	require.NoError(t, WriteFile(path, say("old")))
	for _, c := range []struct {
		name string
		err  error
		want string
	}{
		{"full disk", &fs.PathError{Op: "write", Path: "/x/.sheetsprite-1.tmp", Err: syscall.ENOSPC}, "the disk is full; make room or name a place on another disk"},
		{"device error", &fs.PathError{Op: "write", Path: "/x/.sheetsprite-1.tmp", Err: syscall.EIO}, "can't write " + path},
		{"refused bundle", errors.New("the drawing would not show"), "the drawing would not show"},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := WriteFile(path, func(w io.Writer) error {
				if _, err := io.WriteString(w, "half of it"); err != nil {
					return err
				}
				return c.err
			})
			require.ErrorIs(t, err, c.err)
			assert.ErrorContains(t, err, c.want)
			assert.NotContains(t, err.Error(), ".tmp")
			got, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, "old", string(got))
			assert.Equal(t, []string{"out.zip"}, listed(t, folder))
		})
	}
}

// /dev/full takes nothing: every write to it fails as on a full disk (Linux,
// full(4)).
func TestWriteFileOnAFullDisk(t *testing.T) {
	path := filepath.Join(t.TempDir(), "out.zip")
	err := WriteFile(path, func(io.Writer) error {
		full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
		require.NoError(t, err)
		defer full.Close()
		return say("anything")(full)
	})
	assert.EqualError(t, err, "can't write "+path+": the disk is full; make room or name a place on another disk")
	assert.NoFileExists(t, path)
}

func TestWriteFileRefusals(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "file")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	for _, c := range []struct{ path, want string }{
		{filepath.Join(folder, "no", "out.zip"), "the folder " + filepath.Join(folder, "no") + " doesn't exist; make it first or name another"},
		{filepath.Join(file, "out.zip"), file + " isn't a folder; name another place"},
		{folder, "it is a folder; name a file"},
		{"/dev/null", "it isn't an ordinary file; name another"},
		{"/proc/out.zip", "/proc"},
	} {
		err := WriteFile(c.path, say("x"))
		require.Error(t, err, c.path)
		assert.Contains(t, err.Error(), "can't write "+c.path+": ")
		assert.Contains(t, err.Error(), c.want)
		assert.NotContains(t, err.Error(), ".tmp")
	}
	assert.Equal(t, []string{"file"}, listed(t, folder))
}

func TestWriteErrorSaysWhatToDo(t *testing.T) {
	for _, c := range []struct {
		err  error
		want string
	}{
		{syscall.EACCES, "can't write a/b.zip: the folder a can't be written to; name another"},
		{syscall.EROFS, "can't write a/b.zip: the folder a can't be written to; name another"},
		{syscall.ENOENT, "can't write a/b.zip: the folder a doesn't exist; make it first or name another"},
		{syscall.EIO, "can't write a/b.zip: input/output error"},
	} {
		err := writeError("a/b.zip", &fs.PathError{Op: "open", Path: "a/.sheetsprite-1.tmp", Err: c.err})
		assert.EqualError(t, err, c.want)
		assert.ErrorIs(t, err, c.err)
	}
}
