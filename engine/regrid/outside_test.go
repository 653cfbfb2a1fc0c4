package regrid

import (
	"bytes"
	"fmt"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/regrid/picture"
)

// harbour reads one of the demo sprites.
func harbour(t *testing.T, name string) truth {
	data, err := os.ReadFile("../../testdata/harbour/" + name + ".png")
	require.NoError(t, err)
	p, err := picture.Decode(data)
	require.NoError(t, err)
	r := p.Raster(0)
	what := truth{w: r.W, h: r.H, ground: [4]uint8{255, 255, 255, 255}}
	entry := map[colour.RGB]int{}
	for i := 0; i < len(r.Pix); i += 4 {
		if r.Pix[i+3] < 128 {
			what.cells = append(what.cells, 0)
			continue
		}
		c := colour.RGB{R: r.Pix[i], G: r.Pix[i+1], B: r.Pix[i+2]}
		if entry[c] == 0 {
			what.palette = append(what.palette, c)
			entry[c] = len(what.palette)
		}
		what.cells = append(what.cells, entry[c])
	}
	return what
}

// Pictures enlarged, shrunk and written by OpenCV (scalers, JPEG and PNG of its
// own) are read as well as ours. The drawings are those of the harbour, on a
// ground of sea: on white their white card could hardly be told from the page.
func TestPicturesOfOpenCV(t *testing.T) {
	folder := t.TempDir()
	var list strings.Builder
	var wants []truth
	var files []string
	for i, name := range []string{"crab", "ferry", "anchor", "buoy", "fish", "gull"} {
		what := harbour(t, name)
		what.ground = [4]uint8{30, 60, 90, 255}
		small := what.small()
		img := &image.RGBA{Pix: small.Pix, Stride: 4 * small.W, Rect: image.Rect(0, 0, small.W, small.H)}
		var file bytes.Buffer
		require.NoError(t, png.Encode(&file, img))
		require.NoError(t, os.WriteFile(filepath.Join(folder, name+".png"), file.Bytes(), 0o666))
		large := fmt.Sprintf("%s-large.png", name)
		fmt.Fprintf(&list, "%s.png %s %d %d exact 0\n", name, large, what.w*20, what.h*20)
		d := dice(i)
		for _, way := range []struct {
			source, how string
			low, high   float64
			quality     int
		}{
			{name + ".png", "nearest", 2, 30, 0}, {name + ".png", "exact", 2, 30, 0},
			{name + ".png", "linear", 3, 14, 0}, {name + ".png", "cubic", 3, 14, 0}, {name + ".png", "lanczos", 3, 14, 0},
			{large, "area", 2, 3, 0}, {name + ".png", "nearest", 6, 14, 55}, {name + ".png", "cubic", 6, 14, 80},
		} {
			if testing.Short() && i > 0 {
				continue
			}
			by := way.low + d.Float64()*(way.high-way.low)
			out := fmt.Sprintf("%s-%s-%d.png", name, way.how, way.quality)
			if way.quality > 0 {
				out = strings.TrimSuffix(out, ".png") + ".jpg"
			}
			fmt.Fprintf(&list, "%s %s %d %d %s %d\n", way.source, out, int(float64(what.w)*by+0.5), int(float64(what.h)*by+0.5), way.how, way.quality)
			wants, files = append(wants, what), append(files, out)
		}
	}
	cmd := exec.Command("/usr/bin/python3", "../../testdata/outside/regrid_resize.py", folder)
	cmd.Stdin = strings.NewReader(list.String())
	said, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", said)
	var all tally
	for i, file := range files {
		data, err := os.ReadFile(filepath.Join(folder, file))
		require.NoError(t, err)
		p, err := picture.Decode(data)
		require.NoError(t, err, file)
		all.add(t, wants[i], p.Raster(0), len(wants[i].palette), file)
	}
	all.reaches(t, 100, 99.9)
}
