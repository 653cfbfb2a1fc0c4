package project_test

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/project/projecttest"
)

func encode(t testing.TB, name string, img image.Image) project.NamedBytes {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, png.Encode(&out, img))
	return project.NamedBytes{Name: name, Data: out.Bytes()}
}

// picture draws rows, with the colours of their keys.
func picture(t testing.TB, name string, colours map[byte]color.Color, rows ...string) project.NamedBytes {
	img := image.NewNRGBA(image.Rect(0, 0, len(rows[0]), len(rows)))
	for y, row := range rows {
		for x := range row {
			if row[x] != '.' {
				img.Set(x, y, colours[row[x]])
			}
		}
	}
	return encode(t, name, img)
}

// many is a picture of w × h with n colours, each at least once.
func many(t testing.TB, name string, w, h, n int) project.NamedBytes {
	img := image.NewNRGBA(image.Rect(0, 0, w, h))
	for i := range w * h {
		c := i % n
		copy(img.Pix[4*i:], []byte{uint8(c), uint8(c >> 8), 7, 255})
	}
	return encode(t, name, img)
}

// rowsOf is a sprite's first frame as text.
func rowsOf(s project.Sprite) []string {
	var rows []string
	for y := range s.H {
		rows = append(rows, string(s.Frames[0].Cells[y*s.W:(y+1)*s.W]))
	}
	return rows
}

var inks = map[byte]color.Color{
	'k': color.NRGBA{20, 20, 24, 255}, 'w': color.NRGBA{240, 240, 230, 255}, 'r': color.NRGBA{200, 40, 40, 255},
	'h': color.NRGBA{200, 40, 40, 128}, 'e': color.NRGBA{200, 40, 40, 127},
}

func TestFromPNGs(t *testing.T) {
	p, err := project.FromPNGs([]project.NamedBytes{
		picture(t, "harbour/gull.png", inks, ".wk", "hwe"),
		picture(t, "other/gull.PNG", inks, "kr"),
		picture(t, `C:\art\buoy.png`, inks, "r"),
	}, project.PNGOptions{})
	require.NoError(t, err)
	require.NoError(t, p.Validate())
	assert.Equal(t, "Sprites", p.Name)
	assert.Equal(t, project.DefaultSettings(), p.Settings)
	var colours, stocks, names []string
	for i, c := range p.Palette {
		colours = append(colours, string(rune(c.Key))+c.RGB.String())
		stocks = append(stocks, c.Stock)
		assert.Equal(t, project.CardFor(c.RGB), p.Stocks[i])
	}
	// In the order of first appearance, row by row.
	assert.Equal(t, []string{"A#f0f0e6", "B#141418", "C#c82828"}, colours)
	assert.Equal(t, []string{"card-f0f0e6", "card-141418", "card-c82828"}, stocks)
	for _, s := range p.Sprites {
		names = append(names, s.Name)
		assert.Equal(t, project.NewSprite("", 1, 1).Cell, s.Cell)
	}
	assert.Equal(t, []string{"gull", "gull-2", "buoy"}, names)
	assert.Equal(t, []string{".AB", "CA."}, rowsOf(p.Sprites[0]), "alpha 128 is a cell, 127 isn't")
	assert.Equal(t, []string{"BC"}, rowsOf(p.Sprites[1]))
}

func TestFromPNGsNames(t *testing.T) {
	var inputs []project.NamedBytes
	dot := picture(t, "", inks, "k").Data
	for _, name := range append(projecttest.HostileNames(), ".png", "a.png", "b/a.png", "a-2.png", "\xff.png", "gull.png.png") {
		inputs = append(inputs, project.NamedBytes{Name: name, Data: dot})
	}
	p, err := project.FromPNGs(inputs, project.PNGOptions{})
	require.NoError(t, err)
	require.NoError(t, p.Validate(), "names are unique, UTF-8 and not empty")
	tail := p.Sprites[len(p.Sprites)-6:]
	assert.Regexp(t, `^sprite(-\d+)?$`, tail[0].Name)
	assert.Equal(t, []string{"a", "a-2", "a-2-2"}, []string{tail[1].Name, tail[2].Name, tail[3].Name})
	assert.Equal(t, "\ufffd-2", tail[4].Name)
	assert.Equal(t, "gull.png", tail[5].Name)
}

// Every kind of PNG that the standard has: grey, grey with alpha, true colour,
// paletted, 8 and 16 bits.
func TestFromPNGsKinds(t *testing.T) {
	at := func(img interface {
		image.Image
		Set(x, y int, c color.Color)
	}) image.Image {
		img.Set(0, 0, color.NRGBA{0x80, 0x80, 0x80, 0xff})
		img.Set(1, 0, color.NRGBA{0, 0, 0, 0})
		return img
	}
	r := image.Rect(0, 0, 2, 1)
	grey, clear := color.NRGBA{0x80, 0x80, 0x80, 0xff}, color.NRGBA{}
	for name, c := range map[string]struct {
		img  image.Image
		want []string
	}{
		"grey":      {at(image.NewGray(r)), []string{"AB"}},
		"grey 16":   {at(image.NewGray16(r)), []string{"AB"}},
		"opaque 16": {at(image.NewRGBA64(r)), []string{"A."}},
		"straight":  {at(image.NewNRGBA(r)), []string{"A."}},
		"16 bits":   {at(image.NewNRGBA64(r)), []string{"A."}},
		"paletted":  {at(image.NewPaletted(r, color.Palette{clear, grey})), []string{"A."}},
	} {
		p, err := project.FromPNGs([]project.NamedBytes{encode(t, "x.png", c.img)}, project.PNGOptions{})
		require.NoError(t, err, name)
		assert.Equal(t, c.want, rowsOf(p.Sprites[0]), name)
		assert.Equal(t, "#808080", p.Palette[0].RGB.String(), name)
	}
	// 16 bits, half transparent: the upper 8 bits as stored, not by way of
	// premultiplied colour.
	deep := image.NewNRGBA64(image.Rect(0, 0, 1, 1))
	deep.Pix = []uint8{0x12, 0xff, 0x34, 0xff, 0x56, 0xff, 0x80, 0x00}
	p, err := project.FromPNGs([]project.NamedBytes{encode(t, "x.png", deep)}, project.PNGOptions{})
	require.NoError(t, err)
	assert.Equal(t, "#123456", p.Palette[0].RGB.String())
	// A colour that tRNS makes transparent, in grey and in true colour.
	for _, kind := range []struct {
		colourType byte
		trns, raw  string
	}{
		{0, "\x00\x05", "\x00\x80\x05"},
		{2, "\x00\x05\x00\x05\x00\x05", "\x00\x80\x80\x80\x05\x05\x05"},
	} {
		p, err := project.FromPNGs([]project.NamedBytes{{Name: "x.png", Data: byHand(kind.colourType, kind.trns, kind.raw)}}, project.PNGOptions{})
		require.NoError(t, err)
		assert.Equal(t, []string{"A."}, rowsOf(p.Sprites[0]))
	}
}

// byHand is a PNG of 2 × 1 pixels, 8 bits a channel, with a tRNS chunk.
func byHand(colourType byte, trns, raw string) []byte {
	adler := func() []byte {
		a, b := uint32(1), uint32(0)
		for _, c := range []byte(raw) {
			a = (a + uint32(c)) % 65521
			b = (b + a) % 65521
		}
		return binary.BigEndian.AppendUint32(nil, b<<16|a)
	}
	stored := append([]byte{0x78, 0x01, 1, byte(len(raw)), 0, ^byte(len(raw)), 0xff}, raw...)
	out := []byte("\x89PNG\r\n\x1a\n")
	out = append(out, chunk("IHDR", []byte{0, 0, 0, 2, 0, 0, 0, 1, 8, colourType, 0, 0, 0})...)
	out = append(out, chunk("tRNS", []byte(trns))...)
	out = append(out, chunk("IDAT", append(stored, adler()...))...)
	return append(out, chunk("IEND", nil)...)
}

func chunk(kind string, data []byte) []byte {
	out := binary.BigEndian.AppendUint32(nil, uint32(len(data)))
	out = append(append(out, kind...), data...)
	return binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(out[4:]))
}

// claims is a PNG of which there is a header only.
func claims(w, h uint32) []byte {
	size := binary.BigEndian.AppendUint32(binary.BigEndian.AppendUint32(nil, w), h)
	return append([]byte("\x89PNG\r\n\x1a\n"), chunk("IHDR", append(size, 8, 6, 0, 0, 0))...)
}

func TestFromPNGsRefusals(t *testing.T) {
	good := picture(t, "good.png", inks, "k")
	blank := picture(t, "blank.png", inks, "...", "...")
	gullPNG := many(t, "gull.png", 16, 16, 20)
	flipped := bytes.Clone(gullPNG.Data)
	flipped[len(flipped)-1] ^= 0x40 // the last checksum
	one := func(name string, data []byte) []project.NamedBytes {
		return []project.NamedBytes{good, {Name: name, Data: data}}
	}
	const tooLarge = ` pixels, but a sprite has at most 256 cells a side: if each cell is many pixels large, or it is a photograph, make one pixel of each cell with sheetsprite regrid PICTURE -o OUT.png --colours N`
	var many90 []project.NamedBytes
	for i := range 5 {
		img := image.NewNRGBA(image.Rect(0, 0, 20, 1))
		for x := range 20 {
			img.Set(x, 0, color.NRGBA{uint8(i), uint8(x), 9, 255})
		}
		many90 = append(many90, encode(t, "p.png", img))
	}
	for _, c := range []struct {
		inputs  []project.NamedBytes
		options project.PNGOptions
		message string
	}{
		{nil, project.PNGOptions{}, `no picture is given: give a PNG with one pixel for each cell`},
		{make([]project.NamedBytes, 1001), project.PNGOptions{}, `1001 pictures are given, but a project may have 1000 sprites: make several projects`},
		{one("gull.png", gullPNG.Data), project.PNGOptions{Colours: 91}, `--colours is 91, but must be 1 to 90`},
		{one("gull.png", gullPNG.Data), project.PNGOptions{Colours: -1}, `--colours is -1, but must be 1 to 90`},
		{one("gull.png", nil), project.PNGOptions{}, `gull.png: the file is empty: give a PNG with one pixel for each cell`},
		{one("gull.jpg", []byte("\xff\xd8\xff\xe0")), project.PNGOptions{}, `gull.jpg: this isn't a PNG but looks like a JPEG: give a PNG with one pixel for each cell`},
		{one("notes", []byte("hello")), project.PNGOptions{Colours: 5}, `notes: this isn't a PNG: give a PNG with one pixel for each cell`},
		{one("gull.png", gullPNG.Data[:4]), project.PNGOptions{}, `gull.png: the PNG ends too early (it is truncated): export or copy it again`},
		{one("gull.png", gullPNG.Data[:20]), project.PNGOptions{}, `gull.png: the PNG ends too early (it is truncated): export or copy it again`},
		{one("gull.png", gullPNG.Data[:len(gullPNG.Data)/2]), project.PNGOptions{}, `gull.png: the PNG ends too early (it is truncated): export or copy it again`},
		{one("gull.png", gullPNG.Data[:len(gullPNG.Data)-12]), project.PNGOptions{}, `gull.png: the PNG ends too early (it is truncated): export or copy it again`},
		{one("gull.png", flipped), project.PNGOptions{}, `gull.png: the PNG is damaged (png: invalid format: invalid checksum): export or copy it again`},
		{one("gull.png", append([]byte("\x89PNG\r\n\x1a\n"), chunk("junk", make([]byte, 20))...)), project.PNGOptions{}, `gull.png: the PNG is damaged (it doesn't start with its header): export or copy it again`},
		{one("gull.png", claims(0, 5)), project.PNGOptions{}, `gull.png: the PNG ends too early (it is truncated): export or copy it again`},
		{one("huge.png", claims(60000, 60000)), project.PNGOptions{}, `huge.png: the picture is 60000 × 60000` + tooLarge},
		{one("huge.png", claims(1<<31-1, 1<<31-1)), project.PNGOptions{Colours: 9}, `huge.png: the picture is 2147483647 × 2147483647` + tooLarge},
		{one("tall.png", claims(1, 257)), project.PNGOptions{}, `tall.png: the picture is 1 × 257` + tooLarge},
		{one("photo.png", many(t, "", 250, 200, 50000).Data), project.PNGOptions{}, `photo.png: the picture has 50000 colours, but a sprite has at most 24: reduce them with --colours N (up to 24), or, if it is a photograph or an enlarged sprite, make one pixel of each cell with sheetsprite regrid`},
		{one("fan.png", many(t, "", 25, 1, 25).Data), project.PNGOptions{}, `fan.png: the picture has 25 colours, but a sprite has at most 24: reduce them with --colours N (up to 24), or, if it is a photograph or an enlarged sprite, make one pixel of each cell with sheetsprite regrid`},
		{one("fan.png", many(t, "", 60, 1, 60).Data), project.PNGOptions{Colours: 30}, `fan.png: the picture has 29 colours of the 30 left, but a sprite has at most 24: give a smaller number with --colours`},
		{many90, project.PNGOptions{}, `the pictures have 100 colours together, but a project has at most 90: reduce them together with --colours N, or, where they are photographs, make sprites of them with sheetsprite regrid`},
		{[]project.NamedBytes{blank}, project.PNGOptions{}, `blank.png: no pixel is opaque (alpha 128 or more), so there is nothing to cut: colour at least one`},
		{[]project.NamedBytes{blank, blank}, project.PNGOptions{Colours: 3}, `no pixel of the 2 pictures is opaque (alpha 128 or more), so there is nothing to cut: colour at least one`},
		{one("a\nb.png", nil), project.PNGOptions{}, `"a\nb.png": the file is empty: give a PNG with one pixel for each cell`},
		{one("\u202e"+strings.Repeat("x", 10000), nil), project.PNGOptions{}, `"\u202e` + strings.Repeat("x", 39) + `…": the file is empty: give a PNG with one pixel for each cell`},
	} {
		_, err := project.FromPNGs(c.inputs, c.options)
		assert.EqualError(t, err, c.message)
		var input *project.InputError
		assert.ErrorAs(t, err, &input)
	}
}

// An empty picture among others stays as an empty sprite.
func TestFromPNGsEmptyAmongOthers(t *testing.T) {
	p, err := project.FromPNGs([]project.NamedBytes{picture(t, "blank.png", inks, "ee"), picture(t, "k.png", inks, "k")}, project.PNGOptions{})
	require.NoError(t, err)
	require.NoError(t, p.Validate())
	assert.NoError(t, p.CanCut())
	assert.True(t, p.Sprites[0].IsEmpty())
	assert.False(t, p.Sprites[1].IsEmpty())
}

// A noisy drawing with a thin outline, reduced: the colours are few, the same
// for all pictures, and the outline is still its own.
func TestFromPNGsReduced(t *testing.T) {
	noise := rand.New(rand.NewPCG(1, 2))
	boat := func(name string) project.NamedBytes {
		img := image.NewNRGBA(image.Rect(0, 0, 64, 64))
		base := [][3]int{{90, 60, 50}, {200, 80, 60}, {90, 140, 200}, {230, 220, 200}}
		for y := 2; y < 62; y++ {
			for x := 2; x < 62; x++ {
				b := base[(x/15+y/15)%4]
				for i := range 3 {
					img.Pix[4*(y*64+x)+i] = uint8(b[i] + noise.IntN(40) - 20)
				}
				if x == 2 || y == 2 || x == 61 || y == 61 {
					copy(img.Pix[4*(y*64+x):], []byte{60, 38, 30})
				}
				img.Pix[4*(y*64+x)+3] = 255
			}
		}
		return encode(t, name, img)
	}
	inputs := []project.NamedBytes{boat("a.png"), boat("b.png")}
	p, err := project.FromPNGs(inputs, project.PNGOptions{Colours: 5})
	require.NoError(t, err)
	assert.Len(t, p.Palette, 5)
	assert.Equal(t, "#3c261e", p.Palette[0].RGB.String())
	for _, s := range p.Sprites {
		assert.Len(t, s.Keys(), 5)
		assert.Equal(t, p.Palette[0].Key, s.At(2, 30))
		assert.NotEqual(t, p.Palette[0].Key, s.At(30, 30))
	}
	again, err := project.FromPNGs(inputs, project.PNGOptions{Colours: 5})
	require.NoError(t, err)
	assert.Equal(t, p, again)
	// Few enough already: nothing changes.
	whole, err := project.FromPNGs(inputs[:1], project.PNGOptions{Colours: 24})
	require.NoError(t, err)
	few := encode(t, "a.png", whole.Sprites[0].Image(whole.Palette))
	same, err := project.FromPNGs([]project.NamedBytes{few}, project.PNGOptions{Colours: 24})
	require.NoError(t, err)
	assert.Equal(t, whole.Palette, same.Palette)
	assert.Equal(t, whole.Sprites, same.Sprites)
}

// Photographs of more colours than are told apart are reduced all the same.
func TestFromPNGsReducedFromVeryMany(t *testing.T) {
	noise := rand.New(rand.NewPCG(3, 4))
	var inputs []project.NamedBytes
	for range 2 {
		img := image.NewNRGBA(image.Rect(0, 0, 256, 256))
		for i := range img.Pix {
			img.Pix[i] = uint8(noise.IntN(256)) | 0x80*uint8(i%4/3)
		}
		inputs = append(inputs, encode(t, "photo.png", img))
	}
	p, err := project.FromPNGs(inputs, project.PNGOptions{Colours: 16})
	require.NoError(t, err)
	assert.Len(t, p.Palette, 16)
}

// A random sprite as a picture and back is the same drawing.
func TestImageComesBack(t *testing.T) {
	for seed := range uint64(30) {
		p := projecttest.Random(seed)
		for i := range p.Palette { // one key for each colour
			p.Palette[i].RGB = project.RGB{R: uint8(i), G: 200}
		}
		for _, s := range p.Sprites {
			if s.IsEmpty() {
				continue
			}
			back, err := project.FromPNGs([]project.NamedBytes{encode(t, "s.png", s.Image(p.Palette))}, project.PNGOptions{})
			require.NoError(t, err)
			got := back.Sprites[0]
			require.Equal(t, [2]int{s.W, s.H}, [2]int{got.W, got.H})
			require.True(t, bytes.Equal(s.Image(p.Palette).Pix, got.Image(back.Palette).Pix))
			if len(s.Frames) == 1 {
				require.Len(t, got.Keys(), len(s.Keys()))
			}
		}
	}
}

// Whatever comes in: a project within the rules or one sentence.
func FuzzFromPNGs(f *testing.F) {
	for _, seed := range []project.NamedBytes{
		picture(f, "gull.png", inks, ".wk", "hwe"), many(f, "photo.png", 30, 30, 900),
		encode(f, "grey.png", image.NewGray16(image.Rect(0, 0, 3, 2))),
		encode(f, "pal.png", image.NewPaletted(image.Rect(0, 0, 3, 2), color.Palette{color.NRGBA{1, 2, 3, 4}, color.Black})),
		{Name: "trns.png", Data: byHand(2, "\x00\x05\x00\x05\x00\x05", "\x00\x80\x80\x80\x05\x05\x05")},
		{Name: "huge.png", Data: claims(60000, 60000)}, {Name: "x", Data: []byte("GIF89a")},
	} {
		f.Add(seed.Name, seed.Data, 0)
		f.Add(seed.Name, seed.Data, 3)
	}
	f.Fuzz(func(t *testing.T, name string, data []byte, colours int) {
		inputs := []project.NamedBytes{{Name: name, Data: data}, {Name: name, Data: data}}
		p, err := project.FromPNGs(inputs, project.PNGOptions{Colours: colours % 32})
		if err != nil {
			var input *project.InputError
			require.ErrorAs(t, err, &input)
			require.NotContains(t, err.Error(), "\n")
			return
		}
		require.NoError(t, p.Validate())
		require.NoError(t, p.CanCut())
		if colours%32 > 0 {
			require.LessOrEqual(t, len(p.Palette), colours%32)
		}
	})
}
