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
// each file, so that simple readers can take it as it comes.
type archive struct {
	zip  *zip.Writer
	buf  bytes.Buffer
	pack *flate.Writer
}

func newArchive(w io.Writer) (*archive, error) {
	pack, err := flate.NewWriter(io.Discard, 6)
	if err != nil {
		return nil, err
	}
	return &archive{zip: zip.NewWriter(w), pack: pack}, nil
}

// add puts a file into the archive.
func (a *archive) add(name string, data []byte, how packing) error {
	h := &zip.FileHeader{
		Name:               name,
		Method:             uint16(how),
		CRC32:              crc32.ChecksumIEEE(data),
		UncompressedSize64: uint64(len(data)),
		ModifiedDate:       zipDate,
	}
	if how == packed {
		a.buf.Reset()
		a.pack.Reset(&a.buf)
		if _, err := a.pack.Write(data); err != nil {
			return err
		}
		if err := a.pack.Close(); err != nil {
			return err
		}
		data = a.buf.Bytes()
	}
	h.CompressedSize64 = uint64(len(data))
	w, err := a.zip.CreateRaw(h)
	if err != nil {
		return err
	}
	_, err = w.Write(data)
	return err
}

func (a *archive) close() error { return a.zip.Close() }
