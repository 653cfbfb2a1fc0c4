package picture

import (
	"bufio"
	"io"
)

// file is what is read, in any order and piece by piece: a picture of 40 megapixels
// may be stored in more bytes than there is room for.
type file struct {
	io.ReaderAt
	size int64
}

// part is some bytes of the file; nil where it has none there, or where they are more
// than anything but pixels may be.
func (f file) part(from int64, n int) []byte {
	if from < 0 || n < 0 || n > mostExtra || from > f.size-int64(n) {
		return nil
	}
	b := make([]byte, n)
	if _, err := f.ReadAt(b, from); err != nil && err != io.EOF {
		return nil
	}
	return b
}

// reader reads the file from its beginning.
func (f file) reader() io.Reader {
	return bufio.NewReaderSize(io.NewSectionReader(f, 0, f.size), 1<<16)
}

// section reads some bytes of the file.
func (f file) section(from, n int64) *io.SectionReader { return io.NewSectionReader(f, from, n) }

// window reads a file byte by byte, at places that mostly follow one another.
type window struct {
	file
	from int64
	buf  []byte
}

// at is the byte at a place; 0 beyond the end.
func (w *window) at(i int64) byte {
	if i < w.from || i >= w.from+int64(len(w.buf)) {
		if i < 0 || i >= w.size {
			return 0
		}
		w.from, w.buf = i, w.part(i, int(min(1<<16, w.size-i)))
		if len(w.buf) == 0 {
			return 0
		}
	}
	return w.buf[i-w.from]
}
