package picture

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"image"
	"image/color"
	"image/png"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// icc is a profile of three primaries (XYZ under D50) and one tone curve.
func icc(primaries [3][3]float64, curve []byte) []byte {
	number := func(b []byte, v float64) []byte {
		return binary.BigEndian.AppendUint32(b, uint32(int32(math.Round(v*65536))))
	}
	names := []string{"rXYZ", "gXYZ", "bXYZ", "rTRC", "gTRC", "bTRC"}
	var bodies [][]byte
	for _, p := range primaries {
		b := []byte("XYZ \x00\x00\x00\x00")
		for _, v := range p {
			b = number(b, v)
		}
		bodies = append(bodies, b)
	}
	bodies = append(bodies, curve, curve, curve)
	out := make([]byte, 128)
	copy(out[12:], "mntrRGB XYZ ")
	out = binary.BigEndian.AppendUint32(out, uint32(len(names)))
	at := 132 + 12*len(names)
	var tail []byte
	for i, name := range names {
		out = append(out, name...)
		out = binary.BigEndian.AppendUint32(out, uint32(at+len(tail)))
		out = binary.BigEndian.AppendUint32(out, uint32(len(bodies[i])))
		tail = append(tail, bodies[i]...)
	}
	return append(out, tail...)
}

// sRGBCurve is IEC 61966-2-1 as a parametric curve of kind 3.
func sRGBCurve() []byte {
	b := []byte("para\x00\x00\x00\x00\x00\x03\x00\x00")
	for _, v := range []float64{2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045} {
		b = binary.BigEndian.AppendUint32(b, uint32(int32(math.Round(v*65536))))
	}
	return b
}

// The primaries of Display P3 and of sRGB adapted to D50 (from memory: those
// of the profiles that ICC and screens' makers publish).
var (
	displayP3 = [3][3]float64{{0.51512, 0.24120, -0.00105}, {0.29198, 0.69225, 0.04189}, {0.15710, 0.06657, 0.78407}}
	sRGB      = [3][3]float64{{0.43607, 0.22249, 0.01392}, {0.38515, 0.71687, 0.09708}, {0.14307, 0.06061, 0.71410}}
)

func pngWith(t *testing.T, profile []byte, c color.NRGBA) []byte {
	img := image.NewNRGBA(image.Rect(0, 0, 4, 4))
	for i := range 16 {
		img.SetNRGBA(i%4, i/4, c)
	}
	return withChunk(pngOf(t, img), "iCCP", packedProfile(t, profile))
}

func packedProfile(t *testing.T, profile []byte) []byte {
	var packed bytes.Buffer
	packed.WriteString("a profile\x00\x00")
	z := zlib.NewWriter(&packed)
	z.Write(profile)
	require.NoError(t, z.Close())
	return packed.Bytes()
}

// sRGB's red is color(display-p3 0.9175 0.2003 0.1386) and its green
// color(display-p3 0.4584 0.9853 0.2983) (CSS Color 4, conversion matrices):
// the file's 234,51,35 and 117,251,76 must come out as 255,0,0 and 0,255,0.
func TestProfileWide(t *testing.T) {
	for _, c := range []struct{ in, want [3]uint8 }{
		{[3]uint8{234, 51, 35}, [3]uint8{255, 0, 0}},
		{[3]uint8{117, 251, 76}, [3]uint8{0, 255, 0}},
		{[3]uint8{128, 128, 128}, [3]uint8{128, 128, 128}},
		{[3]uint8{255, 255, 255}, [3]uint8{255, 255, 255}},
	} {
		data := pngWith(t, icc(displayP3, sRGBCurve()), color.NRGBA{c.in[0], c.in[1], c.in[2], 255})
		p, err := Decode(data)
		require.NoError(t, err)
		require.NotNil(t, profileOf("PNG", fileOf(data)))
		got := p.Raster(0).At(1, 1)
		for i, v := range c.want {
			// In the dark one step of light is many steps of 8 bits.
			assert.InDelta(t, v, got[i], 12, "%v", c)
		}
	}
}

// So they do from 16 bits a channel, with transparency, in a picture that is shrunk while
// it is read.
func TestProfileWideAndDeep(t *testing.T) {
	img := image.NewNRGBA64(image.Rect(0, 0, 2100, 2050))
	for y := range 2050 {
		for x := range 2100 {
			c := color.NRGBA64{234 * 257, 51 * 257, 35 * 257, 0xffff}
			if x >= 1050 {
				c = color.NRGBA64{117 * 257, 251 * 257, 76 * 257, 0x8080}
			}
			img.SetNRGBA64(x, y, c)
		}
	}
	data := encoded(t, func(b *bytes.Buffer) error { return (&png.Encoder{CompressionLevel: png.BestSpeed}).Encode(b, img) })
	p, err := Decode(withChunk(data, "iCCP", packedProfile(t, icc(displayP3, sRGBCurve()))))
	require.NoError(t, err)
	r := p.Raster(0)
	require.Equal(t, 2, r.Shrunk)
	for i, v := range [4]uint8{255, 0, 0, 255} {
		assert.InDelta(t, v, r.At(300, 200)[i], 12)
	}
	for i, v := range [4]uint8{0, 128, 0, 128} {
		assert.InDelta(t, v, r.At(800, 1000)[i], 8)
	}
}

// A profile of sRGB changes nothing, nor does one that can't be read.
func TestProfileWithoutEffect(t *testing.T) {
	broken := icc(displayP3, sRGBCurve())
	binary.BigEndian.PutUint32(broken[136:], 1<<31)
	for name, profile := range map[string][]byte{
		"sRGB": icc(sRGB, sRGBCurve()), "broken": broken, "short": broken[:90], "none": nil,
		"a curve of no kind": icc(displayP3, []byte("none\x00\x00\x00\x00\x00\x00\x00\x00")),
		"a curve too short":  icc(displayP3, []byte("curv\x00\x00\x00\x00\x00\x00\xff\xff")),
	} {
		data := pngWith(t, profile, color.NRGBA{10, 200, 90, 255})
		p, err := Decode(data)
		require.NoError(t, err, name)
		assert.Nil(t, profileOf("PNG", fileOf(data)), name)
		assert.Equal(t, [4]uint8{10, 200, 90, 255}, p.Raster(0).At(0, 0), name)
	}
}

func TestToneCurves(t *testing.T) {
	gamma := []byte("curv\x00\x00\x00\x00\x00\x00\x00\x01\x02\x00") // 2.0
	table := []byte("curv\x00\x00\x00\x00\x00\x00\x00\x03\x00\x00\x40\x00\xff\xff")
	straight := []byte("curv\x00\x00\x00\x00\x00\x00\x00\x00")
	for _, c := range []struct {
		curve   []byte
		v, want float64
	}{
		{gamma, 0.5, 0.25}, {gamma, 0, 0}, {gamma, 1, 1}, {straight, 0.3, 0.3},
		{table, 0.5, 0.25}, {table, 0.25, 0.125}, {table, 1, 1}, {sRGBCurve(), 0.5, 0.21404}, {sRGBCurve(), 0.02, 0.02 / 12.92},
	} {
		got, ok := tone(c.curve, c.v)
		assert.True(t, ok)
		assert.InDelta(t, c.want, got, 1e-4, "%q at %g", c.curve[:4], c.v)
	}
}

// power against the standard library's.
func TestPower(t *testing.T) {
	for x := 0.0005; x < 3; x *= 1.07 {
		for g := 0.3; g < 3.2; g += 0.31 {
			assert.InEpsilon(t, math.Pow(x, g), power(x, g), 1e-12)
		}
	}
	assert.Zero(t, power(0, 2.4))
	assert.Zero(t, power(-1, 2.4))
	assert.Zero(t, power(math.NaN(), 2.4))
}
