package picture

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"io"
)

// This file finds the pieces of a file that decoders leave unread: which way
// up it is, and in which colours.

// jpegSegments calls see with each marker up to the picture itself, and says where its
// body begins.
func jpegSegments(f file, see func(marker byte, from int64, body []byte)) {
	for at := int64(2); ; {
		head := f.part(at, 4)
		if head == nil || head[0] != 0xff {
			return
		}
		marker := head[1]
		if marker == 0xff { // filling
			at++
			continue
		}
		n := int(binary.BigEndian.Uint16(head[2:]))
		body := f.part(at+4, n-2)
		if n < 2 || body == nil {
			return
		}
		see(marker, at+4, body)
		if marker == 0xda {
			return
		}
		at += 2 + int64(n)
	}
}

// pngChunks calls see with the place and length of each chunk's body, until it says
// that it is enough.
func pngChunks(f file, see func(name string, from int64, n int) bool) {
	for at := int64(8); ; {
		head := f.part(at, 8)
		if head == nil {
			return
		}
		n := int64(binary.BigEndian.Uint32(head))
		if n > f.size-at-12 || !see(string(head[4:]), at+8, int(n)) {
			return
		}
		at += 12 + n
	}
}

// riffChunks calls see with the place and length of each chunk's body in a WebP (RFC
// 9649, sections 2.3 to 2.7), until it says that it is enough.
func riffChunks(f file, see func(name string, from int64, n int) bool) {
	for at := int64(12); ; {
		head := f.part(at, 8)
		if head == nil {
			return
		}
		n := int64(binary.LittleEndian.Uint32(head[4:]))
		if n > f.size-at-8 || !see(string(head[:4]), at+8, int(n)) {
			return
		}
		at += 8 + n + n&1
	}
}

// mostExtra bounds what is read in one piece of anything but pixels, and what is
// unpacked of a colour profile.
const mostExtra = 1 << 20

// extras finds the EXIF block, which begins like a TIFF, and the ICC profile;
// nil where there is none.
func extras(name string, f file) (exif file, icc []byte) {
	block := func(b []byte) file {
		b = bytes.TrimPrefix(b, []byte("Exif\x00\x00"))
		return file{bytes.NewReader(b), int64(len(b))}
	}
	exif = block(nil)
	switch name {
	case "JPEG":
		jpegSegments(f, func(marker byte, _ int64, body []byte) {
			if marker == 0xe1 && bytes.HasPrefix(body, []byte("Exif\x00\x00")) {
				exif = block(body)
			}
			if rest, ok := bytes.CutPrefix(body, []byte("ICC_PROFILE\x00")); ok && marker == 0xe2 && len(rest) > 2 && len(icc) < mostExtra {
				icc = append(icc, rest[2:]...)
			}
		})
	case "PNG":
		pngChunks(f, func(chunk string, from int64, n int) bool {
			switch chunk {
			case "eXIf":
				exif = block(f.part(from, n))
			case "iCCP":
				body := f.part(from, n)
				if end := bytes.IndexByte(body, 0); end >= 0 && end+2 <= len(body) {
					icc = unpacked(body[end+2:])
				}
			}
			return true
		})
	case "WebP":
		riffChunks(f, func(chunk string, from int64, n int) bool {
			switch chunk {
			case "EXIF":
				exif = block(f.part(from, n))
			case "ICCP":
				icc = f.part(from, n)
			}
			return true
		})
	case "TIFF":
		exif = f
		icc = tiffFieldOf(f, 34675).value
	}
	return exif, icc
}

func unpacked(packed []byte) []byte {
	r, err := zlib.NewReader(bytes.NewReader(packed))
	if err != nil {
		return nil
	}
	out, err := io.ReadAll(io.LimitReader(r, mostExtra))
	if err != nil {
		return nil
	}
	return out
}

// tiffField is an entry of a TIFF's directory.
type tiffField struct {
	tag, kind uint16
	count     uint32
	value     []byte // count numbers in the file's order
}

// tiffFieldOf is a field of the first directory; without count where there is none of
// bytes or whole numbers.
func tiffFieldOf(f file, tag uint16) tiffField {
	order, ok := tiffOrder(f)
	start := f.part(4, 4)
	if !ok || start == nil {
		return tiffField{}
	}
	at := int64(order.Uint32(start))
	count := f.part(at, 2)
	if at < 8 || count == nil {
		return tiffField{}
	}
	directory := f.part(at+2, 12*int(order.Uint16(count)))
	for e := directory; len(e) >= 12; e = e[12:] {
		if order.Uint16(e) != tag {
			continue
		}
		field := tiffField{tag: tag, kind: order.Uint16(e[2:]), count: order.Uint32(e[4:])}
		size := map[uint16]int{1: 1, 2: 1, 3: 2, 4: 4, 7: 1}[field.kind]
		n := int(field.count) * size
		switch {
		case size == 0 || n < 1 || n > mostExtra:
			return tiffField{}
		case n <= 4:
			field.value = e[8 : 8+n]
		default:
			field.value = f.part(int64(order.Uint32(e[8:])), n)
		}
		if field.value == nil {
			return tiffField{}
		}
		return field
	}
	return tiffField{}
}

// byteOrder reads and writes numbers.
type byteOrder interface {
	binary.ByteOrder
	binary.AppendByteOrder
}

func tiffOrder(f file) (byteOrder, bool) {
	switch string(f.part(0, 2)) {
	case "II":
		return binary.LittleEndian, true
	case "MM":
		return binary.BigEndian, true
	}
	return nil, false
}
