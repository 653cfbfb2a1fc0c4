package main

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/project/projecttest"
	"sheetsprite/engine/shape"
)

// call runs the command in this process.
func call(args ...string) (code int, stdout, stderr string) {
	var out, err bytes.Buffer
	code = run(args, &out, &err, &heldClock{})
	return code, out.String(), err.String()
}

// smallProject is a drawing or two with settings that matter for the bundle.
func smallProject(rng *rand.Rand) *project.Project {
	p := &project.Project{Name: "small", Settings: project.DefaultSettings()}
	for range 1 + rng.IntN(4) {
		c := project.RGB{R: uint8(rng.IntN(256)), G: uint8(rng.IntN(256)), B: uint8(rng.IntN(256))}
		card := project.CardFor(c)
		key, _ := project.NewKey(p.Palette)
		if _, twice := p.StockByID(card.ID); !twice {
			p.Stocks = append(p.Stocks, card)
		}
		p.Palette = append(p.Palette, project.Colour{Key: key, Name: c.String(), RGB: c, Stock: card.ID})
	}
	if rng.IntN(3) == 0 {
		p.Settings.Corners = project.Apart
	}
	p.Settings.Border = shape.Um(rng.IntN(2) * rng.IntN(4000))
	p.Settings.Edge = []project.Edge{project.Square, project.Chamfered, project.Round}[rng.IntN(3)]
	for i := range 1 + rng.IntN(3) {
		s := project.NewSprite(fmt.Sprint("sprite ", i), 1+rng.IntN(10), 1+rng.IntN(10))
		s.Copies = 1 + rng.IntN(3)
		s.Cell = shape.Um(1000 + rng.IntN(50)*100)
		if rng.IntN(3) == 0 {
			s.Stack.Style = project.SideBySide
		}
		for j := range s.Frames[0].Cells {
			if k := rng.IntN(len(p.Palette) + 1); k < len(p.Palette) {
				s.Frames[0].Cells[j] = p.Palette[k].Key
			}
		}
		s.Frames[0].Cells[0] = p.Palette[0].Key
		p.Sprites = append(p.Sprites, s)
	}
	return p
}

var partsLine = regexp.MustCompile(`([0-9,]+) parts?(?: \(one part a patch would be ([0-9,]+)\))?\n`)

// The same input gives the same zip, the project in the zip too; the summary
// counts what job.json counts.
func TestCutAgainIsTheSame(t *testing.T) {
	dir := t.TempDir()
	in, one, two := filepath.Join(dir, "in.json"), filepath.Join(dir, "1.zip"), filepath.Join(dir, "2.zip")
	seeds := uint64(16)
	if testing.Short() {
		seeds = 2
	}
	for seed := range seeds {
		save(t, in, smallProject(rand.New(rand.NewPCG(seed, 8))))
		code, stdout, stderr := call("cut", in, "-o", one)
		require.Zero(t, code, "seed %d: %s", seed, stderr)
		code, _, stderr = call("cut", in, "-o", two)
		require.Zero(t, code, "seed %d: %s", seed, stderr)
		first := read(t, one)
		require.True(t, bytes.Equal(first, read(t, two)), "seed %d: twice the same input", seed)

		require.NoError(t, os.WriteFile(in, member(t, first, "project.json"), 0o666))
		code, _, stderr = call("cut", "-o", two, in)
		require.Zero(t, code, "seed %d: %s", seed, stderr)
		require.True(t, bytes.Equal(first, read(t, two)), "seed %d: the zip's own project", seed)

		var job struct {
			Totals struct {
				Parts   int `json:"parts"`
				ByPatch int `json:"parts_by_patch"`
			} `json:"totals"`
		}
		require.NoError(t, json.Unmarshal(member(t, first, "job.json"), &job))
		found := partsLine.FindStringSubmatch(stdout)
		require.NotNil(t, found, stdout)
		assert.Equal(t, strconv.Itoa(job.Totals.Parts), strings.ReplaceAll(found[1], ",", ""), "seed %d", seed)
		if found[2] != "" {
			assert.Equal(t, strconv.Itoa(job.Totals.ByPatch), strings.ReplaceAll(found[2], ",", ""), "seed %d", seed)
		}
	}
}

// Any project within the rules is cut or refused with a sentence; a refusal
// leaves no file.
func TestAnyProjectIsCutOrRefused(t *testing.T) {
	dir := t.TempDir()
	in, out := filepath.Join(dir, "in.json"), filepath.Join(dir, "out.zip")
	cut := 0
	for seed := range uint64(6) {
		save(t, in, projecttest.Random(seed))
		code, _, stderr := call("cut", in, "-o", out)
		if code == 0 {
			cut++
			require.NoError(t, os.Remove(out))
			continue
		}
		require.Equal(t, 2, code, "seed %d: %s", seed, stderr)
		assert.Equal(t, 1, strings.Count(stderr, "\n"), stderr)
		assert.NoFileExists(t, out)
	}
	assert.Positive(t, cut)
}

func save(t *testing.T, path string, p *project.Project) {
	t.Helper()
	f, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, p.Write(f))
	require.NoError(t, f.Close())
}

func read(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	return data
}

// member is a file of a zip.
func member(t *testing.T, data []byte, name string) []byte {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	require.NoError(t, err)
	f, err := z.Open(name)
	require.NoError(t, err)
	defer f.Close()
	content, err := io.ReadAll(f)
	require.NoError(t, err)
	return content
}
