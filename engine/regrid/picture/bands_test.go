package picture

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

// noise fills a picture of any kind with pixels at random, smooth in places so that
// encoders choose all of their ways.
func noise(seed uint64, img image.Image) {
	d := rand.New(rand.NewPCG(seed, 5))
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			v := color.NRGBA64{uint16(d.Uint32()), uint16(x * 900), uint16(y * 1300), uint16(max(0xffff-x*y*11, 0))}
			if y/8%2 == 0 {
				v.R = uint16(x * y * 37)
			}
			switch img := img.(type) {
			case *image.Paletted:
				img.SetColorIndex(x, y, uint8(d.IntN(len(img.Palette))))
			case interface{ Set(x, y int, c color.Color) }:
				img.Set(x, y, v)
			}
		}
	}
}

// whole is a picture as the library decodes it in one go, banded as it is drawn some rows
// at a time.
func whole(t testing.TB, f format, data []byte) *Raster {
	img, err := f.decode(bytes.NewReader(data))
	require.NoError(t, err)
	r, err := FromImage(img)
	require.NoError(t, err)
	return r
}

func banded(t testing.TB, f format, data []byte, band int) *Raster {
	config, err := f.size(bytes.NewReader(data))
	require.NoError(t, err)
	c := newCanvas(config.Width, config.Height)
	require.NoError(t, f.draw(fileOf(data), c, band))
	return c.finish()
}

func named(name string) format {
	for _, f := range formats {
		if f.name == name {
			return f
		}
	}
	panic(name)
}

// kinds are pictures of all kinds that the standard library writes.
func kinds(w, h int) map[string]image.Image {
	rect := image.Rect(0, 0, w, h)
	list := map[string]image.Image{
		"grey": image.NewGray(rect), "16 bits grey": image.NewGray16(rect), "colour": image.NewRGBA(rect),
		"alpha": image.NewNRGBA(rect), "16 bits": image.NewRGBA64(rect), "16 bits alpha": image.NewNRGBA64(rect),
	}
	for name, n := range map[string]int{"2 inks": 2, "3 inks": 3, "16 inks": 16, "256 inks": 256} {
		p := make(color.Palette, n)
		for i := range p {
			p[i] = color.NRGBA{uint8(i * 7), uint8(i * 31), uint8(255 - i), uint8(255 - i%2*(i%256))}
		}
		list[name] = image.NewPaletted(rect, p)
	}
	for _, img := range list {
		noise(uint64(len(list)), img)
	}
	return list
}

// Row by row a PNG is what image/png makes of it in one go.
func TestPNGInBands(t *testing.T) {
	for name, img := range kinds(83, 61) {
		data := pngOf(t, img)
		for _, band := range []int{1, 700, 1 << 20} {
			assert.Equal(t, whole(t, named("PNG"), data), banded(t, named("PNG"), data, band), "%s, %d bytes at a time", name, band)
		}
	}
	for _, level := range []png.CompressionLevel{png.NoCompression, png.BestSpeed, png.BestCompression} {
		data := encoded(t, func(b *bytes.Buffer) error {
			return (&png.Encoder{CompressionLevel: level}).Encode(b, kinds(83, 61)["16 bits alpha"])
		})
		assert.Equal(t, whole(t, named("PNG"), data), banded(t, named("PNG"), data, 900))
	}
}

// interlaced is a PNG in seven passes (ISO/IEC 15948, 8.2), row after row with all five
// filters, of bits bits a pixel, which come from at.
func interlaced(t testing.TB, w, h int, depth, kind byte, bits int, row func(y int, xs []int) []byte) []byte {
	var body bytes.Buffer
	z := zlib.NewWriter(&body)
	filter := byte(0)
	for _, p := range pngPasses {
		var before []byte
		for y := p.y; y < h; y += p.rows {
			var xs []int
			for x := p.x; x < w; x += p.columns {
				xs = append(xs, x)
			}
			if len(xs) == 0 {
				continue
			}
			line := row(y, xs)
			if before == nil {
				before = make([]byte, len(line))
			}
			at := func(b []byte, i int) int {
				if i < 0 {
					return 0
				}
				return int(b[i])
			}
			out := []byte{filter}
			step := max(1, bits/8)
			for i, v := range line {
				a, b, c := at(line, i-step), at(before, i), at(before, i-step)
				out = append(out, v-[]uint8{0, uint8(a), uint8(b), uint8((a + b) / 2), paeth(a, b, c)}[filter])
			}
			_, err := z.Write(out)
			require.NoError(t, err)
			before, filter = line, (filter+1)%5
		}
	}
	require.NoError(t, z.Close())
	head := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, uint32(w)), uint32(h))
	c := pngCutter{}
	c.file.WriteString("\x89PNG\r\n\x1a\n")
	c.chunk("IHDR", append(head, depth, kind, 0, 0, 1))
	for rest := body.Bytes(); len(rest) > 0; { // in several chunks
		n := min(len(rest), 100)
		c.chunk("IDAT", rest[:n])
		rest = rest[n:]
	}
	c.chunk("IEND", nil)
	return c.file.Bytes()
}

func TestInterlacedPNGInBands(t *testing.T) {
	for _, size := range [][2]int{{1, 1}, {3, 2}, {8, 8}, {61, 47}} {
		colours := interlaced(t, size[0], size[1], 8, 6, 32, func(y int, xs []int) (line []byte) {
			for _, x := range xs {
				line = append(line, byte(x*5), byte(y*7), byte(x*y), byte(255-x))
			}
			return line
		})
		bits := interlaced(t, size[0], size[1], 1, 0, 1, func(y int, xs []int) []byte {
			line := make([]byte, (len(xs)+7)/8)
			for i, x := range xs {
				line[i/8] |= byte((x*x+y)/3&1) << (7 - i%8)
			}
			return line
		})
		for _, data := range [][]byte{colours, bits} {
			assert.Equal(t, whole(t, named("PNG"), data), banded(t, named("PNG"), data, 60), "%v", size)
		}
	}
}

// Damage shows in a PNG read row by row, too.
func TestDamagedPNGInBands(t *testing.T) {
	data := pngOf(t, kinds(83, 61)["alpha"])
	for at := 8 + 25; at < len(data)-12; at += 97 { // not of the last chunk, which is not looked at
		hurt := bytes.Clone(data)
		hurt[at] ^= 0x10
		assert.Error(t, drawPNG(fileOf(hurt), newCanvas(83, 61), 500), "byte %d", at)
		assert.Error(t, drawPNG(fileOf(data[:at]), newCanvas(83, 61), 500), "up to byte %d", at)
	}
	var refused *Refused
	assert.ErrorAs(t, drawPNG(fileOf(indexPNG(t)), newCanvas(2, 2), 1), &refused)
}

func TestBMPInBands(t *testing.T) {
	for name, img := range kinds(83, 61) {
		data := encoded(t, func(b *bytes.Buffer) error { return bmp.Encode(b, img) })
		turned := bytes.Clone(data) // its rows from above
		binary.LittleEndian.PutUint32(turned[22:], uint32(-61&0xffffffff))
		for _, data := range [][]byte{data, turned} {
			assert.Equal(t, whole(t, named("BMP"), data), banded(t, named("BMP"), data, 900), name)
		}
		assert.Error(t, drawBMP(fileOf(data[:len(data)-5]), newCanvas(83, 61), 900))
	}
}

func TestTIFFInBands(t *testing.T) {
	for name, img := range kinds(83, 61) {
		for _, o := range []*tiff.Options{nil, {Compression: tiff.Deflate}, {Compression: tiff.Deflate, Predictor: true}} {
			data := encoded(t, func(b *bytes.Buffer) error { return tiff.Encode(b, img, o) })
			for _, band := range []int{1, 700, 1 << 20} {
				assert.Equal(t, whole(t, named("TIFF"), data), banded(t, named("TIFF"), data, band), "%s, %v", name, o)
			}
			assert.Error(t, drawTIFF(fileOf(data[:len(data)/2]), newCanvas(83, 61), 900))
		}
	}
}

// Runs of bytes: the example of the TIFF specification's section 9.
func TestPackBits(t *testing.T) {
	packed := []byte{0xfe, 0xaa, 0x02, 0x80, 0x00, 0x2a, 0xfd, 0xaa, 0x03, 0x80, 0x00, 0x2a, 0x22, 0xf7, 0xaa}
	want := []byte{0xaa, 0xaa, 0xaa, 0x80, 0x00, 0x2a, 0xaa, 0xaa, 0xaa, 0xaa, 0x80, 0x00, 0x2a, 0x22, 0xaa, 0xaa, 0xaa, 0xaa, 0xaa, 0xaa, 0xaa, 0xaa, 0xaa, 0xaa}
	got := make([]byte, len(want)+5)
	n, err := (&packBits{r: bytes.NewReader(packed)}).Read(got)
	assert.Error(t, err)
	assert.Equal(t, want, got[:n])
}

// Bands that don't fall together with the squares of pixels that are joined.
func TestBandsShrunk(t *testing.T) {
	img := image.NewNRGBA(image.Rect(0, 0, 2600, 2100))
	noise(3, img)
	data := encoded(t, func(b *bytes.Buffer) error { return (&png.Encoder{CompressionLevel: png.NoCompression}).Encode(b, img) })
	got := banded(t, named("PNG"), data, 70000)
	assert.Equal(t, 2, got.Shrunk)
	assert.Equal(t, whole(t, named("PNG"), data), got)
}

// A GIF of two frames on a screen that is shrunk: the second covers a part.
func TestFramesShrunk(t *testing.T) {
	inks := color.Palette{color.Transparent, color.RGBA{200, 0, 0, 255}, color.RGBA{0, 0, 200, 255}}
	first := image.NewPaletted(image.Rect(0, 0, 2601, 2101), inks)
	for i := range first.Pix {
		first.Pix[i] = 1
	}
	second := image.NewPaletted(image.Rect(100, 50, 104, 52), inks)
	for i := range second.Pix {
		second.Pix[i] = uint8(i / 4 * 2) // a row that isn't there, a blue one
	}
	p, err := Decode(encoded(t, func(b *bytes.Buffer) error {
		return gif.EncodeAll(b, &gif.GIF{Image: []*image.Paletted{first, second}, Delay: []int{1, 1}})
	}))
	require.NoError(t, err)
	r := p.Raster(1)
	assert.Equal(t, [3]int{1300, 1050, 2}, [3]int{r.W, r.H, r.Shrunk})
	red, mixed := [4]uint8{200, 0, 0, 255}, [4]uint8{100, 0, 100, 255}
	assert.Equal(t, [3][4]uint8{red, mixed, red}, [3][4]uint8{r.At(49, 25), r.At(50, 25), r.At(52, 25)})
	assert.Equal(t, red, p.Raster(0).At(50, 25))
	side, across, down, err := p.SideBySide()
	require.NoError(t, err)
	assert.Equal(t, [5]int{2, 1, 2600, 1050, 2}, [5]int{across, down, side.W, side.H, side.Shrunk})
	for y := range side.H { // the last column, which is half a pixel, is in neither
		require.Equal(t, red, side.At(1299, y))
		require.Equal(t, red, side.At(1300, y))
	}
	assert.Equal(t, mixed, side.At(1300+50, 25))
}

// What is drawn some rows at a time is as what is decoded in one go, whatever the file.
func FuzzBands(f *testing.F) {
	for _, img := range kinds(9, 5) {
		f.Add(pngOf(f, img), uint16(30))
		f.Add(encoded(f, func(b *bytes.Buffer) error { return bmp.Encode(b, img) }), uint16(30))
		f.Add(encoded(f, func(b *bytes.Buffer) error { return tiff.Encode(b, img, &tiff.Options{Compression: tiff.Deflate}) }), uint16(30))
		f.Add(encoded(f, func(b *bytes.Buffer) error { return jpeg.Encode(b, img, nil) }), uint16(30))
	}
	f.Add(tinyWebP, uint16(1))
	f.Fuzz(func(t *testing.T, data []byte, band uint16) {
		format, ok := formatOf(fileOf(data))
		if !ok || format.draw == nil {
			return
		}
		config, err := format.size(bytes.NewReader(data))
		if err != nil || config.Width < 1 || config.Height < 1 || config.Width > 1<<12 || config.Height > 1<<12 || config.Width*config.Height > 1<<16 {
			return
		}
		c := newCanvas(config.Width, config.Height)
		if format.draw(fileOf(data), c, int(band)+1) != nil {
			return
		}
		if img, err := format.decode(bytes.NewReader(data)); err == nil {
			want, err := FromImage(img)
			require.NoError(t, err)
			require.Equal(t, want, c.finish())
		}
	})
}
