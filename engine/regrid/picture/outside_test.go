package picture

import (
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Pictures that GDAL and OpenCV wrote in many ways (strips, tiles, all packings, passes,
// restarts, four inks, with and without loss): some rows at a time they are what the
// standard library and golang.org/x/image make of them in one go.
func TestPicturesOfOthersInBands(t *testing.T) {
	folder := t.TempDir()
	out, err := exec.Command("/usr/bin/python3", "../../../testdata/outside/pictures.py", folder).CombinedOutput()
	require.NoError(t, err, string(out))
	files, err := filepath.Glob(filepath.Join(folder, "*.*"))
	require.NoError(t, err)
	require.Greater(t, len(files), 60)
	read := map[string]*Raster{}
	for _, path := range files {
		name := filepath.Base(path)
		data, err := os.ReadFile(path)
		require.NoError(t, err)
		if strings.HasPrefix(name, "four-inks") { // GDAL doesn't say that they are: colours by Adobe's mark, 0 for CMYK
			data = slices.Concat(data[:2], []byte("\xff\xee\x00\x0eAdobe\x00\x64\x00\x00\x00\x00\x00"), data[2:])
		}
		f, ok := formatOf(fileOf(data))
		if !ok { // what GDAL writes beside a picture
			continue
		}
		read[name] = banded(t, f, data, 5000)
		if strings.HasPrefix(name, "passes-restarts") {
			continue // the standard library doesn't read them
		}
		want := whole(t, f, data)
		for _, r := range []*Raster{read[name], banded(t, f, data, 1)} {
			assert.True(t, reflect.DeepEqual(want, r), name)
		}
	}
	for _, quality := range []string{"40", "95"} { // restarts change no coefficient
		assert.True(t, reflect.DeepEqual(read["passes-"+quality+".jpg"], read["passes-restarts-"+quality+".jpg"]), quality)
	}
}
