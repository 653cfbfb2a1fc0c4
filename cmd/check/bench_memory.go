//go:build unix

package main

import (
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"syscall"

	"sheetsprite/engine/stack/stacktest"
)

const (
	// mostResident is how much memory the command may hold at a time for a drawing
	// of 256×256 cells in 16 colours.
	mostResident = 96 << 20
	// mostToRead is how much it may hold while it finds a grid in 40 megapixels.
	mostToRead = 200 << 20
)

// benchMemory runs the command on such a drawing and on such pictures, and asks the system
// for its peak resident size.
func benchMemory(log func(string, ...any)) outcome {
	t := &tally{log: log}
	folder, err := os.MkdirTemp("", "sheetsprite-memory-")
	if err != nil {
		return single(err, "")
	}
	defer os.RemoveAll(folder)
	command := filepath.Join(folder, "sheetsprite")
	if out, err := exec.Command("go", "build", "-o", command, "./cmd/sheetsprite").CombinedOutput(); err != nil {
		return single(err, string(out))
	}
	picture := filepath.Join(folder, "field.png")
	if err := writePicture(picture, 256, 16); err != nil {
		return single(err, "")
	}
	if err := t.peak("256×256, 16 colours: sheetsprite cut", mostResident, command, "cut", picture, "-o", filepath.Join(folder, "field.zip")); err != nil {
		return single(err, "")
	}
	if out, err := exec.Command(python, "testdata/outside/large_pictures.py", folder).CombinedOutput(); err != nil {
		return single(err, string(out))
	}
	for _, name := range []string{"plain.jpg", "passes.jpg", "lossy-alpha.webp", "alpha.bmp", "deep.png", "deep.tif"} {
		err := t.peak("40 megapixels, "+name+": sheetsprite regrid", mostToRead, command, "regrid", filepath.Join(folder, name), "-o", filepath.Join(folder, "out.png"))
		if err != nil {
			return single(err, "")
		}
	}
	return t.outcome
}

// peak judges how much memory a command held at most.
func (t *tally) peak(name string, most int64, command string, args ...string) error {
	cmd := exec.Command(command, args...)
	if out, err := cmd.CombinedOutput(); err != nil {
		return fmt.Errorf("sheetsprite %s: %w\n%s", args[0], err, out)
	}
	usage, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage)
	if !ok {
		return errors.New("the system doesn't say how much memory a process took")
	}
	peak := usage.Maxrss << 10
	if runtime.GOOS == "darwin" { // there in bytes, elsewhere in KiB
		peak = usage.Maxrss
	}
	t.judge(peak < most, "%-56s %6.1f MiB  (under %d MiB; %.1f s)", name, float64(peak)/(1<<20), most>>20,
		(cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime()).Seconds())
	return nil
}

// writePicture writes a tiled drawing as a PNG, one pixel a cell.
func writePicture(path string, n, colours int) error {
	d := stacktest.Tile(n, colours)
	palette := color.Palette{color.NRGBA{}}
	for c := range colours {
		palette = append(palette, color.NRGBA{uint8(c * 15), uint8(255 - c*9), uint8(c * 53), 255})
	}
	picture := image.NewPaletted(image.Rect(0, 0, n, n), palette)
	for i, c := range d.Cells {
		picture.Pix[i] = uint8(c)
	}
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	if err := png.Encode(f, picture); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
