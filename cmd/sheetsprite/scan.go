package main

import (
	"fmt"
	"io"
	"os"

	"sheetsprite/engine/regrid/picture"
)

// maxScan is the largest file that is taken for a picture to find a grid in: 40 megapixels
// of 16 bits a channel, unpacked, and a little.
const maxScan = 384 << 20

// decodeFile reads a picture piece by piece.
func decodeFile(path string) (*picture.Picture, error) {
	f, size, err := openFile(path, maxScan, "so it is no picture of up to 40 megapixels")
	if err != nil {
		return nil, err
	}
	defer f.Close()
	if !seekable(f) { // a pipe has no size, and can't be read in any order
		data, err := io.ReadAll(io.LimitReader(f, maxPicture+1))
		if err != nil {
			return nil, fmt.Errorf("can't read %s: %w", quote(path), reason(err))
		}
		return picture.Decode(data)
	}
	return picture.DecodeFile(f, size)
}

// seekable says whether a file can be read in any order.
func seekable(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode().IsRegular()
}
