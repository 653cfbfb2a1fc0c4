package export

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"hash/crc32"
	"io"
)

// zipDate is 1980-01-01 as a zip file holds it, the earliest it can: no clock
// reaches the bundle.
const zipDate = 1<<5 | 1

// packing says how a file lies in the bundle.
type packing uint16

const (
	packed packing = packing(zip.Deflate)
	stored packing = packing(zip.Store) // for files that are compressed already
)

// archive writes a zip whose bytes depend on its files only. Sizes stand before
// each file, so that simple readers can take it as it comes; of a file being
// written only the packed bytes are kept.
type archive struct {
	zip  *zip.Writer
	buf  bytes.Buffer
	pack *flate.Writer
}

func newArchive(w io.Writer) (*archive, error) {
	pack, err := flate.NewWriter(io.Discard, 5)
	if err != nil {
		return nil, err
	}
	return &archive{zip: zip.NewWriter(w), pack: pack}, nil
}

// add puts a file into the archive.
func (a *archive) add(name string, data []byte, how packing) error {
	return a.stream(name, how, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// stream puts a file into the archive that is made as it goes.
func (a *archive) stream(name string, how packing, write func(io.Writer) error) error {
	a.buf.Reset()
	t := &tally{w: &a.buf}
	if how == packed {
		a.pack.Reset(&a.buf)
		t.w = a.pack
	}
	if err := write(t); err != nil {
		return err
	}
	if how == packed {
		if err := a.pack.Close(); err != nil {
			return err
		}
	}
	w, err := a.zip.CreateRaw(&zip.FileHeader{
		Name:               name,
		Method:             uint16(how),
		CRC32:              t.crc,
		UncompressedSize64: t.size,
		CompressedSize64:   uint64(a.buf.Len()),
		ModifiedDate:       zipDate,
	})
	if err != nil {
		return err
	}
	_, err = w.Write(a.buf.Bytes())
	return err
}

func (a *archive) close() error { return a.zip.Close() }

// tally counts what goes through it.
type tally struct {
	w    io.Writer
	crc  uint32
	size uint64
}

func (t *tally) Write(b []byte) (int, error) {
	t.crc = crc32.Update(t.crc, crc32.IEEETable, b)
	t.size += uint64(len(b))
	return t.w.Write(b)
}
