package project

import (
	"io"

	"sheetsprite/engine/project/strictjson"
)

// ReadBench reads a bench file (see BenchFormat) and checks it: what it returns
// passes Validate. It fails with an InputError that says what is wrong, where
// and what to do, or with r's own error.
func ReadBench(r io.Reader) (*Bench, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxFile+1))
	if err != nil {
		return nil, err
	}
	if len(data) > MaxFile {
		return nil, wrong("the bench file is larger than %d MiB: take out what you don't use", MaxFile>>20)
	}
	b := &Bench{}
	err = checkHeadOf(data, fileKind{"bench", BenchFormat, BenchVersion})
	if err == nil {
		err = readObject(strictjson.New(data), b, benchFileFields, &b.Extra)
	}
	if err != nil {
		return nil, asInput(err)
	}
	if err := b.Validate(); err != nil {
		return nil, err
	}
	return b, nil
}

// Write writes the bench as a file: the same bench always as the same bytes,
// and ReadBench gives it back. A bench that Validate refuses isn't written.
func (b *Bench) Write(w io.Writer) error {
	if err := b.Validate(); err != nil {
		return err
	}
	var out writer
	writeObject(&out, b, benchFileFields, b.Extra, manyLines)
	out.buf.WriteByte('\n')
	if out.buf.Len() > MaxFile {
		return wrong("the bench file would be larger than %d MiB: take out what you don't use", MaxFile>>20)
	}
	_, err := w.Write(out.buf.Bytes())
	return err
}
