package readback

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// dxfText is a small drawing with the given entities.
func dxfText(entities string) string {
	return "  0\nSECTION\n  2\nHEADER\n  9\n$ACADVER\n  1\nAC1015\n  9\n$INSUNITS\n 70\n4\n" +
		"  9\n$EXTMIN\n 10\n0.0\n 20\n0\n  9\n$EXTMAX\n 10\n6.0\n 20\n3.5\n  0\nENDSEC\n" +
		"  0\nSECTION\n  2\nENTITIES\n" + entities + "  0\nENDSEC\n  0\nEOF\n"
}

const (
	dxfSquare = "  0\nLWPOLYLINE\n  8\nCUT-1\n 90\n4\n 70\n1\n 10\n0\n 20\n0\n 10\n3.0\n 20\n0\n 10\n3\n 20\n3\n 10\n0\n 20\n3\n"
	dxfDisc   = "  0\nLWPOLYLINE\n  8\nCUT-1\n 90\n2\n 70\n1\n 10\n1\n 20\n0\n 42\n1\n 10\n-1.0\n 20\n0\n 42\n1.0\n"
)

func readDXFText(s string) (w, h int64, layers []string, contours []contour, err error) {
	w, h, err = readDXF(strings.NewReader(s), func(layer string, c contour) error {
		layers, contours = append(layers, layer), append(contours, c)
		return nil
	})
	return w, h, layers, contours, err
}

func TestReadDXF(t *testing.T) {
	for _, newline := range []string{"\n", "\r\n"} {
		w, h, layers, contours, err := readDXFText(strings.ReplaceAll(dxfText(dxfSquare+dxfDisc), "\n", newline))
		require.NoError(t, err)
		assert.Equal(t, []int64{6000, 3500}, []int64{w, h})
		assert.Equal(t, []string{"CUT-1", "CUT-1"}, layers)
		assert.Equal(t, []contour{
			{{0, 0, 0}, {3000, 0, 0}, {3000, 3000, 0}, {0, 3000, 0}},
			{{1000, 0, 1000}, {-1000, 0, 1000}},
		}, contours)
	}
}

func TestReadDXFRefuses(t *testing.T) {
	whole := dxfText(dxfSquare)
	change := func(old, with string) string {
		require.Contains(t, whole, old)
		return strings.Replace(whole, old, with, 1)
	}
	for _, c := range []struct{ give, want string }{
		{"", "the file ends too early"},
		{"x\ny\n", "line 1: a group code is expected"},
		{"  0\n", "line 1: unexpected EOF"},
		{whole[:len(whole)-len("  0\nEOF\n")], "the file ends too early"},
		{whole + "  0\nEOF\n", "something follows the end of the file"},
		{change("AC1015", "AC1032"), `version is "AC1032"`},
		{change("$INSUNITS\n 70\n4", "$INSUNITS\n 70\n1"), `unit is "1"`},
		{change("$EXTMIN\n 10\n0.0", "$EXTMIN\n 10\n0.001"), "doesn't begin at the origin"},
		{change(" 70\n1\n 10", " 70\n0\n 10"), "not closed"},
		{change(" 90\n4", " 90\n5"), "has 4 vertices and says 5"},
		{change(" 90\n4", " 90\n-1"), "a number of vertices is expected"},
		{change("3.0\n", "3.0001\n"), `"3.0001" isn't a length`},
		{change("3.0\n", "1e3\n"), `"1e3" isn't a length`},
		{change("3.0\n", "99999999999\n"), "isn't a length"},
		{change(" 20\n0\n 10\n3.0", " 30\n0\n 10\n3.0"), "the y of a vertex is expected"},
		{change(" 10\n3.0", " 42\n2\n 10\n3.0"), "a bulge from -1 to 1"},
		{change(" 10\n3.0", " 42\nNaN\n 10\n3.0"), "a bulge from -1 to 1"},
		{change(" 10\n0\n", " 43\n0.5\n 10\n0\n"), "not a plain one"},
		{dxfText("  0\nCIRCLE\n"), `holds a "CIRCLE"`},
		{dxfText("  0\n" + strings.Repeat("x", 5000) + "\n"), "is too long"},
	} {
		_, _, _, _, err := readDXFText(c.give)
		require.Error(t, err, c.want)
		assert.Contains(t, err.Error(), c.want)
	}
}

func svgText(body string) string {
	return `<?xml version="1.0" encoding="UTF-8"?>` + "\n" +
		`<svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="6mm" height="3.5mm" viewBox="0 0 6 3.5">` + body + `</svg>`
}

func svgPart(d string) string {
	return `<path id="part-1" fill="#aabbcc" fill-rule="evenodd" d="` + d + `"/>`
}

func TestReadSVG(t *testing.T) {
	square := []contour{{{0, 3500, 0}, {0, 500, 0}, {3000, 500, 0}, {3000, 3500, 0}}}
	for _, d := range []string{
		"M0 0V3H3V0Z", "M0,0L0,3,3,3,3,0z", "m0 0v3h3v-3z", "M 0 0 0 3 3 3 3 0 Z", "m0 0l0 3l3 0l0-3Z", "M0 0V3H3V0H0Z",
	} {
		parts, w, h, err := readSVG(strings.NewReader(svgText("<title>a</title>" + svgPart(d))))
		require.NoError(t, err, d)
		assert.Equal(t, []int64{6000, 3500}, []int64{w, h})
		assert.Equal(t, []part{{"part-1", square}}, parts, d)
	}
	parts, _, _, err := readSVG(strings.NewReader(svgText(svgPart("M2 1A1 1 0 0 0 0 1A1 1 0 0 0 2 1ZM1.5 1V1.5H.5V1Z"))))
	require.NoError(t, err)
	assert.Equal(t, []contour{
		{{2000, 2500, 1000}, {0, 2500, 1000}},
		{{1500, 2500, 0}, {1500, 2000, 0}, {500, 2000, 0}, {500, 2500, 0}},
	}, parts[0].contours)
}

func TestReadSVGRefuses(t *testing.T) {
	good := svgPart("M0 0V3H3V0Z")
	for _, c := range []struct{ give, want string }{
		{"", "holds no drawing"},
		{"<svg", "EOF"},
		{`<!DOCTYPE svg [<!ENTITY a "b">]>` + svgText(good), "document type"},
		{`<svg width="1mm"/>`, "isn't SVG's"},
		{svgText("<script>alert(1)</script>"), `"script" stands where a path`},
		{svgText("<g>" + good + "</g>"), `"g" stands where a path`},
		{svgText(strings.Replace(good, "id=", `onclick="x" id=`, 1)), `"onclick" isn't expected`},
		{svgText(strings.Replace(good, `id="part-1"`, ``, 1)), "no id"},
		{svgText(good + good), "id stands twice"},
		{svgText(strings.Replace(good, "evenodd", "nonzero", 1)), "fill-rule"},
		{svgText(svgPart("")), "no contour"},
		{svgText(svgPart("M0 0V3H3V0")), "isn't closed"},
		{svgText(svgPart("V3H3V0Z")), "doesn't begin with a move"},
		{svgText(svgPart("M0 0V3M1 1H3V0Z")), "isn't closed"},
		{svgText(svgPart("M0 0Q1 1 3 3Z")), "isn't a command"},
		{svgText(svgPart("M0 0V3.0001H3V0Z")), "isn't a length"},
		{svgText(svgPart("M0 0A1 2 0 0 0 2 0Z")), "up to a half turn"},
		{svgText(svgPart("M0 0A1 1 0 1 0 2 0Z")), "up to a half turn"},
		{svgText(svgPart("M0 0A1 1 0 0 7 2 0Z")), "a flag is expected"},
		{svgText(svgPart("M0 0H3V3H0Z")), "a hole, and no part"},
		{svgText(svgPart("M0 0V3H3V0ZM4 0V3H5V0Z")), "holds 2 parts"},
		{svgText(svgPart("M0 0V3H3V3Z")), "the same vertex twice"},
		{svgText(svgPart("M0 0V3V1Z")), "encloses nothing"},
		{strings.Replace(svgText(good), `width="6mm"`, `width="6in"`, 1), "size in mm"},
		{strings.Replace(svgText(good), `viewBox="0 0 6`, `viewBox="1 0 6`, 1), "view box"},
	} {
		_, _, _, err := readSVG(strings.NewReader(c.give))
		require.Error(t, err, c.want)
		assert.Contains(t, err.Error(), c.want)
	}
}

func TestParseMm(t *testing.T) {
	for s, want := range map[string]int64{
		"0": 0, "0.0": 0, "12": 12000, "-0.05": -50, "1.234": 1234, "+1.": 1000, ".5": 500, "1.2340000": 1234, "1000000": 1e9,
	} {
		got, err := parseMm(s)
		assert.NoError(t, err, s)
		assert.Equal(t, want, got, s)
	}
	for _, s := range []string{"", ".", "-", "1.2345", "1e3", "NaN", "inf", "1,5", " 1", "0x1", "1000001", "99999999999999999999", "--1"} {
		_, err := parseMm(s)
		assert.Error(t, err, s)
	}
}

func FuzzReadDXF(f *testing.F) {
	f.Add(dxfText(dxfSquare + dxfDisc))
	f.Add("")
	f.Add(dxfText("  0\nCIRCLE\n"))
	f.Fuzz(func(t *testing.T, s string) {
		w, h, _, contours, err := readDXFText(s)
		if err != nil {
			return
		}
		assert.True(t, w <= farthest && h <= farthest)
		for _, c := range contours {
			for _, v := range c {
				assert.True(t, max(v.x, -v.x, v.y, -v.y, v.arc, -v.arc) <= farthest)
			}
		}
		_, _ = split(contours)
	})
}

func FuzzReadSVG(f *testing.F) {
	f.Add(svgText("<title>a</title>" + svgPart("M0 0V3H3V0Z")))
	f.Add(svgText(svgPart("M2 1A1 1 0 0 0 0 1A1 1 0 0 0 2 1Z")))
	f.Add(svgText(svgPart("m0 0v3h3v-3z")))
	f.Fuzz(func(t *testing.T, s string) {
		parts, w, h, err := readSVG(strings.NewReader(s))
		if err != nil {
			return
		}
		assert.True(t, w > 0 && h > 0)
		for _, p := range parts {
			require.NotEmpty(t, p.contours)
			assert.Positive(t, p.contours[0].turn())
			for _, c := range p.contours {
				assert.NoError(t, c.check())
			}
		}
	})
}

func FuzzCheck(f *testing.F) {
	f.Add([]byte("PK\x05\x06" + strings.Repeat("\x00", 18)))
	f.Add([]byte(`{"format":"sheetsprite-job","version":1,"sprites":[{"corner_mm2":0.000001}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		_, _ = readManifest(data)
		assert.Error(t, Check(data, demo()))
	})
}
