package picture

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"io"
)

// This file finds the pieces of a file that decoders leave unread: which way
// up it is, and in which colours.

// jpegSegments calls see with each marker up to the picture itself.
func jpegSegments(data []byte, see func(marker byte, body []byte)) {
	for at := 2; at+4 <= len(data); {
		if data[at] != 0xff {
			return
		}
		marker := data[at+1]
		if marker == 0xff { // filling
			at++
			continue
		}
		n := int(binary.BigEndian.Uint16(data[at+2:]))
		if n < 2 || at+2+n > len(data) {
			return
		}
		see(marker, data[at+4:at+2+n])
		if marker == 0xda {
			return
		}
		at += 2 + n
	}
}

// pngChunks calls see with each chunk.
func pngChunks(data []byte, see func(name string, body []byte)) {
	for at := 8; at+12 <= len(data); {
		n := int(binary.BigEndian.Uint32(data[at:]))
		if n < 0 || n > len(data)-at-12 {
			return
		}
		see(string(data[at+4:at+8]), data[at+8:at+8+n])
		at += 12 + n
	}
}

// riffChunks calls see with each chunk of a WebP.
func riffChunks(data []byte, see func(name string, body []byte)) {
	for at := 12; at+8 <= len(data); {
		n := int(binary.LittleEndian.Uint32(data[at+4:]))
		if n < 0 || n > len(data)-at-8 {
			return
		}
		see(string(data[at:at+4]), data[at+8:at+8+n])
		at += 8 + n + n&1
	}
}

// mostExtra bounds what is unpacked of a colour profile.
const mostExtra = 1 << 20

// extras finds the EXIF block, which begins like a TIFF, and the ICC profile;
// nil where there is none.
func extras(name string, data []byte) (exif, icc []byte) {
	switch name {
	case "JPEG":
		jpegSegments(data, func(marker byte, body []byte) {
			if rest, ok := bytes.CutPrefix(body, []byte("Exif\x00\x00")); ok && marker == 0xe1 {
				exif = rest
			}
			if rest, ok := bytes.CutPrefix(body, []byte("ICC_PROFILE\x00")); ok && marker == 0xe2 && len(rest) > 2 && len(icc) < mostExtra {
				icc = append(icc, rest[2:]...)
			}
		})
	case "PNG":
		pngChunks(data, func(chunk string, body []byte) {
			switch chunk {
			case "eXIf":
				exif = body
			case "iCCP":
				if end := bytes.IndexByte(body, 0); end >= 0 && end+2 <= len(body) {
					icc = unpacked(body[end+2:])
				}
			}
		})
	case "WebP":
		riffChunks(data, func(chunk string, body []byte) {
			switch chunk {
			case "EXIF":
				exif = bytes.TrimPrefix(body, []byte("Exif\x00\x00"))
			case "ICCP":
				icc = body
			}
		})
	case "TIFF":
		exif = data
		icc = tiffEntry(data, 34675)
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

// tiffEntry is the value of a field in the first directory of a TIFF: its
// bytes; of a short number two, in the file's order. nil where there is none.
func tiffEntry(data []byte, tag uint16) []byte {
	order, ok := tiffOrder(data)
	if !ok || len(data) < 8 {
		return nil
	}
	at := int(order.Uint32(data[4:]))
	if at < 8 || at+2 > len(data) {
		return nil
	}
	count := int(order.Uint16(data[at:]))
	for i := range count {
		e := at + 2 + 12*i
		if e+12 > len(data) {
			return nil
		}
		if order.Uint16(data[e:]) != tag {
			continue
		}
		size := map[uint16]int{1: 1, 2: 1, 3: 2, 4: 4, 7: 1}[order.Uint16(data[e+2:])]
		n := int(order.Uint32(data[e+4:]))
		if size == 0 || n < 1 || n > mostExtra {
			return nil
		}
		if n*size <= 4 {
			return data[e+8 : e+8+n*size]
		}
		from := int(order.Uint32(data[e+8:]))
		if from < 0 || n*size > len(data)-from {
			return nil
		}
		return data[from : from+n*size]
	}
	return nil
}

// tiffRows is how many rows of a TIFF are stored in one piece, at most all.
// Tiles, which are a thousand pixels wide and high at most, count as one row.
func tiffRows(data []byte, all int) int {
	if tiffEntry(data, 322) != nil { // width of tiles
		return 1
	}
	order, _ := tiffOrder(data)
	rows := all
	switch v := tiffEntry(data, 278); len(v) {
	case 2:
		rows = int(order.Uint16(v))
	case 4:
		rows = int(order.Uint32(v))
	}
	if rows < 1 || rows > all {
		return all
	}
	return rows
}

func tiffOrder(data []byte) (binary.ByteOrder, bool) {
	switch {
	case bytes.HasPrefix(data, []byte("II")):
		return binary.LittleEndian, true
	case bytes.HasPrefix(data, []byte("MM")):
		return binary.BigEndian, true
	}
	return nil, false
}
