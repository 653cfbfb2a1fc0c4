package guide

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// asked is what an outside program says about a guide.
func asked(t *testing.T, program string, args ...string) string {
	t.Helper()
	out, err := exec.Command(program, args...).CombinedOutput()
	require.NoError(t, err, "%s %v: %s", program, args, out)
	return string(out)
}

func saved(t *testing.T, pdf []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "guide.pdf")
	require.NoError(t, os.WriteFile(path, pdf, 0o600))
	return path
}

// sound requires that qpdf has no complaint, and that both fonts are embedded, with
// a table to Unicode.
func sound(t *testing.T, path string) {
	t.Helper()
	check := asked(t, "qpdf", "--check", path)
	assert.Contains(t, check, "No syntax or stream encoding errors found")
	assert.NotContains(t, check, "WARNING")
	fonts := strings.Split(strings.TrimSpace(asked(t, "pdffonts", path)), "\n")[2:]
	assert.Len(t, fonts, 2)
	for _, f := range fonts {
		assert.Regexp(t, `yes +no +yes +\d+ +0$`, f)
	}
}

// Readers that share nothing with us take it: qpdf and poppler.
func TestOutsideReadersTakeTheGuide(t *testing.T) {
	papers := []Paper{A4, Letter}
	if testing.Short() {
		papers = papers[1:]
	}
	for _, paper := range papers {
		j := harbour(t, 2, func(p *project.Project) { p.Sprites[1].Copies, p.Name = 2, "Quay \u202e\x07 № 7 ✨" })
		j.Paper = paper
		pdf, err := Write(j)
		require.NoError(t, err)
		path := saved(t, pdf)
		sound(t, path)
		info := asked(t, "pdfinfo", path)
		assert.Contains(t, info, "Quay № 7 ?: how to put it together")
		assert.Contains(t, info, "CreationDate:    Tue Jan  1 00:00:00 1980")
		assert.Contains(t, info, map[string]string{"A4": "(A4)", "Letter": "612 x 792 pts (letter)"}[paper.Name])
		catalog := asked(t, "qpdf", "--show-object=trailer", path)
		assert.Contains(t, catalog, "/ID [ <")
		assert.Regexp(t, `/Lang \(en\)`, asked(t, "qpdf", "--qdf", "--object-streams=disable", path, "-"))

		text := asked(t, "pdftotext", "-layout", path, "-")
		for _, part := range j.Plan.Sheets.Parts {
			// In the key or a step, on the mat and on its sheet.
			assert.GreaterOrEqual(t, strings.Count(text, part.Piece.Number), 3, part.Piece.Number)
		}
		assert.Contains(t, text, "A Lighthouse")
		assert.Contains(t, text, "two of these")
		assert.Contains(t, text, "50 mm. Print at 100 %")
		assert.Equal(t, bool(paper.Inches), strings.Contains(text, " in)"))
	}
}

// pixel is a place on paper in pixels of 300 dpi, in hundredths: 1 in is 25.4 mm.
func pixel(v shape.Um) int { return int(v * 300 * 100 / 25400) }

// The same job gives the same bytes, pictures of equal widths included: eight of
// them have 40,320 orders.
func TestGuideIsTheSameEachTime(t *testing.T) {
	j := harbour(t, 8, func(p *project.Project) {
		for i := range p.Sprites {
			p.Sprites[i].W, p.Sprites[i].H = 2, 1
			p.Sprites[i].Frames[0].Cells = p.Sprites[i].Frames[0].Cells[:2]
			copy(p.Sprites[i].Frames[0].Cells, []byte{p.Palette[i].Key, p.Palette[0].Key})
		}
	})
	for i := range j.Pictures {
		img := image.NewRGBA(image.Rect(0, 0, 20, 10+i))
		draw.Draw(img, img.Bounds(), image.White, image.Point{}, draw.Src)
		var b bytes.Buffer
		require.NoError(t, png.Encode(&b, img))
		j.Pictures[i] = b.Bytes()
	}
	a, err := Write(j)
	require.NoError(t, err)
	for range 3 {
		b, err := Write(j)
		require.NoError(t, err)
		require.True(t, bytes.Equal(a, b))
	}
}
