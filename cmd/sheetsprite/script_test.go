package main

import (
	"archive/zip"
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"sheetsprite": main})
}

// TestScripts runs testdata/script: what is typed, what is printed, which files
// appear. They read as the command's manual.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir: "testdata/script",
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"draw": draw, "enlarge": enlarge, "animate": animate, "photograph": photograph, "claim": claim, "shorten": shortenFile, "unzip": unzip, "repeat": repeat,
		},
	})
}

// inks are the letters of a picture drawn as text.
var inks = map[rune]color.NRGBA{
	'k': {32, 32, 36, 255}, 'w': {250, 250, 245, 255}, 'r': {200, 30, 40, 255},
	'b': {30, 60, 200, 255}, 'y': {245, 200, 40, 255}, '.': {},
	'h': {200, 30, 40, 127}, // half transparent: empty
}

// draw TEXT PNG makes a picture of a text, one letter a pixel.
func draw(ts *testscript.TestScript, _ bool, args []string) {
	rows := strings.Fields(ts.ReadFile(args[0]))
	img := image.NewNRGBA(image.Rect(0, 0, len(rows[0]), len(rows)))
	for y, row := range rows {
		for x, letter := range row {
			img.SetNRGBA(x, y, inks[letter])
		}
	}
	write(ts, args[1], encoded(ts, img))
}

// photograph N PNG makes a picture with N colours, as square as can be.
func photograph(ts *testscript.TestScript, _ bool, args []string) {
	n := number(ts, args[0])
	side := 1
	for side*side < n {
		side++
	}
	img := image.NewNRGBA(image.Rect(0, 0, side, side))
	for i := range side * side {
		c := min(i, n-1)
		img.SetNRGBA(i%side, i/side, color.NRGBA{uint8(c), uint8(c >> 8), uint8(c >> 16), 255})
	}
	write(ts, args[1], encoded(ts, img))
}

// claim WIDTH HEIGHT PNG makes a file whose header claims that size; hardly any
// pixels follow. See the PNG specification (ISO/IEC 15948), IHDR.
func claim(ts *testscript.TestScript, _ bool, args []string) {
	header := append([]byte("IHDR"), 0, 0, 0, 0, 0, 0, 0, 0, 8, 6, 0, 0, 0)
	binary.BigEndian.PutUint32(header[4:], uint32(number(ts, args[0])))
	binary.BigEndian.PutUint32(header[8:], uint32(number(ts, args[1])))
	data := append([]byte("\x89PNG\r\n\x1a\n"), 0, 0, 0, 13)
	data = append(data, header...)
	data = binary.BigEndian.AppendUint32(data, crc32.ChecksumIEEE(header))
	data = append(data, 0, 0, 0, 4)
	data = append(data, "IDATabcd"...)
	write(ts, args[2], binary.BigEndian.AppendUint32(data, crc32.ChecksumIEEE([]byte("IDATabcd"))))
}

// shorten FILE N keeps the first N bytes of a file.
func shortenFile(ts *testscript.TestScript, _ bool, args []string) {
	write(ts, args[0], []byte(ts.ReadFile(args[0]))[:number(ts, args[1])])
}

// repeat N TEXT FILE writes a text N times; the first word of the text stands
// for all before "|", what follows closes it.
func repeat(ts *testscript.TestScript, _ bool, args []string) {
	n := number(ts, args[0])
	open, inner, _ := strings.Cut(args[1], "|")
	write(ts, args[2], []byte(strings.Repeat(open, n)+inner))
}

// unzip ZIP FOLDER takes a bundle apart.
func unzip(ts *testscript.TestScript, _ bool, args []string) {
	data := []byte(ts.ReadFile(args[0]))
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	ts.Check(err)
	for _, f := range z.File {
		path := ts.MkAbs(filepath.Join(args[1], f.Name))
		ts.Check(os.MkdirAll(filepath.Dir(path), 0o777))
		r, err := f.Open()
		ts.Check(err)
		content, err := io.ReadAll(r)
		ts.Check(err)
		ts.Check(os.WriteFile(path, content, 0o666))
	}
}

func encoded(ts *testscript.TestScript, img image.Image) []byte {
	var b bytes.Buffer
	ts.Check(png.Encode(&b, img))
	return b.Bytes()
}

func write(ts *testscript.TestScript, name string, data []byte) {
	path := ts.MkAbs(name)
	ts.Check(os.MkdirAll(filepath.Dir(path), 0o777))
	ts.Check(os.WriteFile(path, data, 0o666))
}

func number(ts *testscript.TestScript, text string) int {
	n, err := strconv.Atoi(text)
	ts.Check(err)
	return n
}
