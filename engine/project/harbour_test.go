package project_test

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/project"
)

// The demo project. After a change to its rows:
// go run testdata/harbour/generate.go
const harbour = "../../testdata/harbour"

// ink is the key of the colour that outlines every demo sprite.
const ink = 'k'

func readHarbour(t *testing.T) (*project.Project, []byte) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(harbour, "harbour.json"))
	require.NoError(t, err)
	p, err := project.Read(bytes.NewReader(text))
	require.NoError(t, err)
	require.NotEmpty(t, p.Sprites)
	return p, text
}

func TestHarbourIsSavedAsWeSave(t *testing.T) {
	p, text := readHarbour(t)
	var saved bytes.Buffer
	require.NoError(t, p.Write(&saved))
	assert.Equal(t, string(text), saved.String())
}

func TestHarbourPictures(t *testing.T) {
	p, _ := readHarbour(t)
	files, err := filepath.Glob(filepath.Join(harbour, "*.png"))
	require.NoError(t, err)
	assert.Len(t, files, len(p.Sprites), "one picture a sprite")
	for i := range p.Sprites {
		s := &p.Sprites[i]
		file, err := os.ReadFile(filepath.Join(harbour, strings.ToLower(s.Name)+".png"))
		require.NoError(t, err)
		decoded, err := png.Decode(bytes.NewReader(file))
		require.NoError(t, err)
		got := image.NewNRGBA(decoded.Bounds())
		draw.Draw(got, got.Bounds(), decoded, image.Point{}, draw.Src)
		assert.True(t, sameImage(got, s.Image(p.Palette)), "%s: picture and rows differ", s.Name)
	}
}

func sameImage(a, b *image.NRGBA) bool {
	return a.Rect == b.Rect && bytes.Equal(a.Pix, b.Pix)
}

func TestHarbourSpritesAreWellMade(t *testing.T) {
	p, _ := readHarbour(t)
	assert.GreaterOrEqual(t, len(p.Sprites), 8)
	for i := range p.Sprites {
		s := &p.Sprites[i]
		assert.True(t, 16 <= s.W && s.W <= 48 && 16 <= s.H && s.H <= 48, "%s: %d × %d cells", s.Name, s.W, s.H)
		keys := s.Keys()
		assert.True(t, 3 <= len(keys) && len(keys) <= 8, "%s: %d colours", s.Name, len(keys))
		assert.Contains(t, keys, byte(ink), s.Name)
		for f := range s.Frames {
			checkDrawing(t, s, f)
		}
	}
}

// checkDrawing: only ink meets the air, so that the outline is closed, and no
// colour but ink has a cell by itself, which would be a part for tweezers.
func checkDrawing(t *testing.T, s *project.Sprite, frame int) {
	t.Helper()
	one := *s
	one.Frames = s.Frames[frame:]
	for y := range s.H {
		for x := range s.W {
			key := one.At(x, y)
			if key == project.Empty || key == ink {
				continue
			}
			next := []byte{one.At(x-1, y), one.At(x+1, y), one.At(x, y-1), one.At(x, y+1)}
			assert.NotContains(t, next, project.Empty, "%s, frame %d: the outline is open at column %d, row %d", s.Name, frame, x, y)
			assert.Contains(t, next, key, "%s, frame %d: a lone cell at column %d, row %d", s.Name, frame, x, y)
		}
	}
}

func TestHarbourSilhouettesMirror(t *testing.T) {
	p, _ := readHarbour(t)
	mirrored := map[string]bool{"Lighthouse": true, "Crab": true, "Buoy": true, "Anchor": true, "Octopus": true, "Bollard": true}
	for i := range p.Sprites {
		s := &p.Sprites[i]
		if !mirrored[s.Name] {
			continue
		}
		delete(mirrored, s.Name)
		for y := range s.H {
			for x := range s.W {
				if (s.At(x, y) == project.Empty) != (s.At(s.W-1-x, y) == project.Empty) {
					t.Errorf("%s: row %d isn't the same from both sides", s.Name, y)
				}
			}
		}
	}
	assert.Empty(t, mirrored, "sprites that are gone")
}

// Ink is the darkest card, and no two cards look alike: 5 is where a finding
// begins.
func TestHarbourPalette(t *testing.T) {
	p, _ := readHarbour(t)
	used := map[byte]bool{}
	for i := range p.Sprites {
		for _, key := range p.Sprites[i].Keys() {
			used[key] = true
		}
	}
	for i, a := range p.Palette {
		assert.True(t, used[a.Key], "no sprite uses %s", a.Name)
		stock, ok := p.StockOf(a.Key)
		require.True(t, ok)
		assert.Equal(t, a.RGB, stock.Colour, a.Name)
		if a.Key != ink {
			assert.Greater(t, colour.Lightness(colour.RGB(a.RGB)), colour.Lightness(colour.RGB(p.Palette[0].RGB)), a.Name)
		}
		for _, b := range p.Palette[:i] {
			assert.Greater(t, colour.Difference(colour.RGB(a.RGB), colour.RGB(b.RGB)), 5.0, "%s and %s", a.Name, b.Name)
		}
	}
	assert.Equal(t, byte(ink), p.Palette[0].Key)
}

// The lighthouse's second frame is its lamp turned away.
func TestHarbourHasFrames(t *testing.T) {
	p, _ := readHarbour(t)
	s := p.Sprites[0]
	require.Equal(t, "Lighthouse", s.Name)
	require.Len(t, s.Frames, 2)
	changed := 0
	for i, key := range s.Frames[0].Cells {
		other := s.Frames[1].Cells[i]
		assert.Equal(t, key == ink, other == ink, "the outline stays")
		assert.Equal(t, key == project.Empty, other == project.Empty, "the silhouette stays")
		if key != other {
			changed++
		}
	}
	assert.Positive(t, changed)
}
