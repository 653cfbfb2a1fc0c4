package picture

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

// motif has another colour in each corner, so that turns show; the lower right
// is half transparent.
func motif() *image.NRGBA {
	img := image.NewNRGBA(image.Rect(0, 0, 24, 16))
	for y := range 16 {
		for x := range 24 {
			c := color.NRGBA{200, 40, 40, 255}
			switch {
			case x >= 12 && y >= 8:
				c = color.NRGBA{240, 240, 0, 128}
			case x >= 12:
				c = color.NRGBA{0, 160, 0, 255}
			case y >= 8:
				c = color.NRGBA{0, 0, 200, 255}
			}
			img.SetNRGBA(x, y, c)
		}
	}
	return img
}

func encoded(t testing.TB, write func(*bytes.Buffer) error) []byte {
	var b bytes.Buffer
	require.NoError(t, write(&b))
	return b.Bytes()
}

func fileOf(data []byte) file { return file{bytes.NewReader(data), int64(len(data))} }

func pngOf(t testing.TB, img image.Image) []byte {
	return encoded(t, func(b *bytes.Buffer) error { return png.Encode(b, img) })
}

func TestDecodeFormats(t *testing.T) {
	opaque := motif()
	for i := 3; i < len(opaque.Pix); i += 4 {
		opaque.Pix[i] = 255
	}
	for name, data := range map[string][]byte{
		"PNG":  pngOf(t, opaque),
		"JPEG": encoded(t, func(b *bytes.Buffer) error { return jpeg.Encode(b, opaque, &jpeg.Options{Quality: 100}) }),
		"GIF":  encoded(t, func(b *bytes.Buffer) error { return gif.Encode(b, opaque, nil) }),
		"BMP":  encoded(t, func(b *bytes.Buffer) error { return bmp.Encode(b, opaque) }),
		"TIFF": encoded(t, func(b *bytes.Buffer) error { return tiff.Encode(b, opaque, nil) }),
		"WebP": tinyWebP,
	} {
		p, err := Decode(data)
		require.NoError(t, err, name)
		r := p.Raster(0)
		if name == "WebP" {
			assert.Equal(t, [2]int{1, 1}, [2]int{r.W, r.H})
			continue
		}
		assert.Equal(t, [2]int{24, 16}, [2]int{r.W, r.H}, name)
		for _, at := range [][2]int{{2, 2}, {20, 2}, {2, 14}, {20, 14}} {
			want := opaque.NRGBAAt(at[0], at[1])
			got := r.At(at[0], at[1])
			for c, v := range [4]uint8{want.R, want.G, want.B, want.A} {
				assert.InDelta(t, v, got[c], 30, "%s at %v", name, at) // the GIF encoder's own palette is coarse
			}
		}
	}
}

// tinyWebP is one pixel, lossless: header and bit stream by the specification
// (RFC 9649), written by hand.
var tinyWebP = []byte("RIFF\x1a\x00\x00\x00WEBPVP8L\x0d\x00\x00\x00\x2f\x00\x00\x00\x10\x07\x10\x11\x11\x88\x88\xfe\x07\x00")

// Alpha is kept, premultiplied, also from 16 bits.
func TestAlpha(t *testing.T) {
	deep := image.NewNRGBA64(motif().Rect)
	for y := range 16 {
		for x := range 24 {
			deep.Set(x, y, motif().NRGBAAt(x, y))
		}
	}
	for name, img := range map[string]image.Image{"8 bits": motif(), "16 bits": deep} {
		p, err := Decode(pngOf(t, img))
		require.NoError(t, err)
		got := p.Raster(0).At(20, 14)
		for c, v := range [4]int{120, 120, 0, 128} {
			assert.InDelta(t, v, got[c], 1, name)
		}
	}
}

// exif is a block with an orientation, as the CIPA standard lays it out.
func exif(orientation uint16) []byte {
	b := []byte("MM\x00*\x00\x00\x00\x08\x00\x01\x01\x12\x00\x03\x00\x00\x00\x01")
	b = binary.BigEndian.AppendUint16(b, orientation)
	return append(b, 0, 0, 0, 0, 0, 0)
}

func withChunk(data []byte, name string, body []byte) []byte {
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	chunk = append(append(chunk, name...), body...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	const header = 8 + 25
	return append(append(append([]byte(nil), data[:header]...), chunk...), data[header:]...)
}

// Which stored corner is seen at the upper left, and whether the sides change,
// by the standard's own words: 1 row 0 top, column 0 left; 2 top, right; 3
// bottom, right; 4 bottom, left; 5 left, top; 6 right, top; 7 right, bottom; 8
// left, bottom.
func TestTurn(t *testing.T) {
	red, green, blue, yellow := [4]uint8{200, 40, 40, 255}, [4]uint8{0, 160, 0, 255}, [4]uint8{0, 0, 200, 255}, [4]uint8{120, 120, 0, 128}
	for orientation, want := range map[uint16][3][4]uint8{ // stored corners at upper left, upper right, lower left
		1: {red, green, blue}, 2: {green, red, yellow}, 3: {yellow, blue, green}, 4: {blue, yellow, red},
		5: {red, blue, green}, 6: {blue, red, yellow}, 7: {yellow, green, blue}, 8: {green, yellow, red},
		9: {red, green, blue}, 0: {red, green, blue},
	} {
		p, err := Decode(withChunk(pngOf(t, motif()), "eXIf", exif(orientation)))
		require.NoError(t, err)
		r := p.Raster(0)
		w, h := 24, 16
		if orientation >= 5 && orientation <= 8 {
			w, h = 16, 24
		}
		require.Equal(t, [2]int{w, h}, [2]int{r.W, r.H})
		assert.Equal(t, want, [3][4]uint8{r.At(1, 1), r.At(w-2, 1), r.At(1, h-2)}, "orientation %d", orientation)
	}
	// In a JPEG it stands in a segment of its own.
	data := encoded(t, func(b *bytes.Buffer) error { return jpeg.Encode(b, motif(), nil) })
	body := append([]byte("Exif\x00\x00"), exif(6)...)
	segment := append([]byte{0xff, 0xe1, 0, byte(len(body) + 2)}, body...)
	p, err := Decode(append(append(append([]byte(nil), data[:2]...), segment...), data[2:]...))
	require.NoError(t, err)
	assert.Equal(t, 16, p.Raster(0).W)
}

func TestAnimation(t *testing.T) {
	palette := color.Palette{color.Transparent, color.RGBA{200, 0, 0, 255}, color.RGBA{0, 0, 200, 255}}
	frame := func(rect image.Rectangle, index uint8) *image.Paletted {
		f := image.NewPaletted(rect, palette)
		for i := range f.Pix {
			f.Pix[i] = index
		}
		return f
	}
	data := encoded(t, func(b *bytes.Buffer) error {
		return gif.EncodeAll(b, &gif.GIF{
			Image: []*image.Paletted{frame(image.Rect(0, 0, 4, 4), 1), frame(image.Rect(2, 2, 4, 4), 2), frame(image.Rect(0, 0, 1, 1), 2)},
			Delay: []int{1, 1, 1}, Disposal: []byte{gif.DisposalNone, gif.DisposalBackground, gif.DisposalNone},
		})
	})
	p, err := Decode(data)
	require.NoError(t, err)
	require.Equal(t, 3, p.Frames())
	red, blue := [4]uint8{200, 0, 0, 255}, [4]uint8{0, 0, 200, 255}
	assert.Equal(t, red, p.Raster(0).At(3, 3))
	assert.Equal(t, [2][4]uint8{red, blue}, [2][4]uint8{p.Raster(1).At(0, 0), p.Raster(1).At(3, 3)})
	assert.Equal(t, [2][4]uint8{blue, {}}, [2][4]uint8{p.Raster(2).At(0, 0), p.Raster(2).At(3, 3)})
	side, across, down, err := p.SideBySide()
	require.NoError(t, err)
	require.Equal(t, [2]int{2, 2}, [2]int{across, down})
	for i := range 4 {
		one := p.Raster(min(i, 2)) // the last one again
		for y := range one.H {
			for x := range one.W {
				require.Equal(t, one.At(x, y), side.At(i%2*one.W+x, i/2*one.H+y), "frame %d", i)
			}
		}
	}
	n, pixels := gifFrames(fileOf(data))
	assert.Equal(t, [2]int{3, 16 + 4 + 1}, [2]int{n, pixels})
}

// claim is a PNG whose header claims a size; hardly any pixels follow.
func claim(w, h uint32, depth byte) []byte {
	body := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32([]byte("IHDR"), w), h)
	body = append(body, depth, 6, 0, 0, 0)
	data := append([]byte("\x89PNG\r\n\x1a\n"), 0, 0, 0, 13)
	data = append(data, body...)
	return binary.BigEndian.AppendUint32(data, crc32.ChecksumIEEE(body))
}

// indexPNG has a palette of two colours and a pixel of an eighth.
func indexPNG(t *testing.T) []byte {
	var body bytes.Buffer
	z := zlib.NewWriter(&body)
	_, err := z.Write([]byte{0, 0, 1, 0, 7, 1}) // two rows of two pixels, each after its filter
	require.NoError(t, err)
	require.NoError(t, z.Close())
	data := []byte("\x89PNG\r\n\x1a\n")
	for _, c := range [][2]string{{"IHDR", "\x00\x00\x00\x02\x00\x00\x00\x02\x08\x03\x00\x00\x00"}, {"PLTE", "abcdef"}, {"IDAT", body.String()}, {"IEND", ""}} {
		data = binary.BigEndian.AppendUint32(data, uint32(len(c[1])))
		data = append(data, c[0]+c[1]...)
		data = binary.BigEndian.AppendUint32(data, crc32.ChecksumIEEE([]byte(c[0]+c[1])))
	}
	return data
}

// indexBMP has a palette of two colours and a pixel of an eighth.
func indexBMP() []byte {
	const head, palette = 14 + 40, 8
	data := append([]byte("BM"), make([]byte, head-2)...)
	put := binary.LittleEndian.PutUint32
	put(data[10:], head+palette)
	put(data[14:], 40)
	put(data[18:], 4)
	put(data[22:], 1)
	data[26], data[28] = 1, 8
	put(data[46:], 2)
	return append(data, "abc\x00def\x00\x00\x07\x01\x00"...)
}

// Everything hostile is refused with one sentence.
func TestDecodeRefuses(t *testing.T) {
	whole := pngOf(t, motif())
	photo := encoded(t, func(b *bytes.Buffer) error { return jpeg.Encode(b, motif(), nil) })
	animation := encoded(t, func(b *bytes.Buffer) error { return gif.Encode(b, motif(), nil) })
	header := 13 + 3<<(animation[10]&7+1)
	many := append([]byte(nil), animation[:len(animation)-1]...)
	for range MaxFrames {
		many = append(many, animation[header:len(animation)-1]...)
	}
	many = append(many, ';')
	for name, c := range map[string]struct {
		data []byte
		say  string
	}{
		"index beyond PLTE":  {indexPNG(t), "colour number 8 of a palette of 2"},
		"index beyond BMP's": {indexBMP(), "the BMP is damaged"},
		"nothing":            {nil, "empty"},
		"text":               {[]byte("hello"), "no picture of a known kind"},
		"other RIFF":         {[]byte("RIFF\x10\x00\x00\x00WAVEfmt "), "no picture of a known kind"},
		"truncated PNG":      {whole[:60], "ends too early"},
		"truncated JPEG":     {photo[:len(photo)-20], "the JPEG ends too early"},
		"truncated GIF":      {animation[:len(animation)-20], "the GIF ends too early"},
		"truncated WebP":     {tinyWebP[:len(tinyWebP)-4], "the WebP ends too early"},
		"bomb":               {claim(60000, 60000, 8), "60000 × 60000"},
		"narrow":             {claim(1, 40000000, 8), "1 × 40000000"},
		"41 megapixels":      {claim(6500, 6500, 8), "42 megapixels"},
		"no size":            {claim(0, 5, 8), "PNG"},
		"beyond int32":       {claim(1<<31, 1<<31, 8), "PNG"},
		"many frames":        {many, "frames"},
		"broken checksum":    {append(append([]byte(nil), whole[:20]...), whole[21:]...), "PNG"},
	} {
		_, err := Decode(c.data)
		var refused *Refused
		if assert.ErrorAs(t, err, &refused, name) {
			assert.Contains(t, err.Error(), c.say, name)
			assert.NotContains(t, err.Error(), "\n", name)
		}
	}
}

// A larger picture is shrunk by a whole factor while it is read.
func TestShrunk(t *testing.T) {
	img := image.NewGray(image.Rect(0, 0, 3000, 3000))
	for y := range 3000 {
		for x := range 3000 {
			if x/2%2 == 0 {
				img.Pix[y*3000+x] = 200
			}
		}
	}
	r, err := FromImage(img)
	require.NoError(t, err)
	assert.Equal(t, [3]int{1500, 1500, 2}, [3]int{r.W, r.H, r.Shrunk})
	assert.Equal(t, [2][4]uint8{{200, 200, 200, 255}, {0, 0, 0, 255}}, [2][4]uint8{r.At(0, 700), r.At(1, 1499)})
}

func FuzzDecode(f *testing.F) {
	for _, img := range []image.Image{motif(), image.NewGray(image.Rect(0, 0, 3, 3))} {
		f.Add(pngOf(f, img))
		f.Add(encoded(f, func(b *bytes.Buffer) error { return jpeg.Encode(b, img, nil) }))
		f.Add(encoded(f, func(b *bytes.Buffer) error { return gif.Encode(b, img, nil) }))
		f.Add(encoded(f, func(b *bytes.Buffer) error { return bmp.Encode(b, img) }))
		f.Add(encoded(f, func(b *bytes.Buffer) error { return tiff.Encode(b, img, nil) }))
	}
	f.Add(tinyWebP)
	f.Fuzz(func(t *testing.T, data []byte) {
		p, err := Decode(data)
		if err != nil {
			if text := err.Error(); strings.Contains(text, "\n") || text == "" {
				t.Fatal(fmt.Sprintf("%q", text))
			}
			return
		}
		r := p.Raster(p.Frames() - 1)
		if len(r.Pix) != 4*r.W*r.H || r.W < 1 || r.H < 1 || r.W*r.H > MaxWorking {
			t.Fatal(r.W, r.H, len(r.Pix))
		}
	})
}
