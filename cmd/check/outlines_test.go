package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/shape"
	"sheetsprite/engine/stack"
	"sheetsprite/engine/stack/stacktest"
)

// Checked against GDAL's polygonize (4-connected), which shares nothing with us.
func TestOutlinesEqualThoseOfGDAL(t *testing.T) {
	noise := stacktest.Noise(61, 47, 3, 5)
	for i, c := range noise.Cells {
		noise.Cells[i] = c - 1 // a third of the cells empty
	}
	field := stack.Drawing{W: 256, H: 256}
	for _, c := range tiledLabels(256) {
		field.Cells = append(field.Cells, stack.Colour(c))
	}
	for _, c := range []struct {
		name    string
		drawing stack.Drawing
	}{
		{"one cell", stack.Drawing{W: 1, H: 1, Cells: []stack.Colour{1}}},
		{"rings in rings", nested(17)},
		{"a sprite", stacktest.Sprite32(3, 6)},
		{"noise with holes", noise},
		{"noise of two colours", stacktest.Noise(64, 64, 2, 9)},
		{"a field of sprites", field},
	} {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, gdalPolygons(t, c.drawing), ourPolygons(c.drawing))
		})
	}
}

// nested is squares within squares, of three colours and none by turns.
func nested(n int) stack.Drawing {
	d := stack.Drawing{W: n, H: n}
	for y := range n {
		for x := range n {
			d.Cells = append(d.Cells, stack.Colour(min(x, y, n-1-x, n-1-y)%4))
		}
	}
	return d
}

// gdalPolygons is one line for each polygon: label, area, left, top, right,
// bottom; sorted.
func gdalPolygons(t *testing.T, d stack.Drawing) []string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "labels")
	require.NoError(t, os.WriteFile(path, rasterOf(d), 0o600))
	out, err := exec.Command(python, "../../testdata/outside/outlines_areas.py", path, strconv.Itoa(d.W), strconv.Itoa(d.H)).CombinedOutput()
	require.NoError(t, err, "%s\nGDAL for Python is needed: apt-get install python3-gdal python3-numpy", out)
	lines := strings.Split(strings.TrimSpace(string(out)), "\n")
	slices.Sort(lines)
	return lines
}

func ourPolygons(d stack.Drawing) []string {
	polygons, labels := shape.TraceLabels(rasterOf(d), d.W, d.H, shape.BySides).Polygons(1)
	var lines []string
	for i, p := range polygons {
		area := p.Outer.Area()
		for _, h := range p.Holes {
			area += h.Area() // a hole's is negative
		}
		b := p.Outer.Bounds()
		lines = append(lines, fmt.Sprintf("%d %d.000000 %d %d %d %d", labels[i], area,
			b.Min.X, shape.Um(d.H)-b.Max.Y, b.Max.X, shape.Um(d.H)-b.Min.Y))
	}
	slices.Sort(lines)
	return lines
}

func rasterOf(d stack.Drawing) []uint8 {
	raster := make([]uint8, len(d.Cells))
	for i, c := range d.Cells {
		raster[i] = uint8(c)
	}
	return raster
}
