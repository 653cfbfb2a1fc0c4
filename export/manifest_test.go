package export

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"io"
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/inspect"
	"sheetsprite/engine/project"
	"sheetsprite/engine/project/projecttest"
	"sheetsprite/engine/shape"
	"sheetsprite/export/readback"
)

// contents are a bundle's files in their order.
func contents(t *testing.T, bundle []byte) (names []string, data map[string]string) {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(bundle), int64(len(bundle)))
	require.NoError(t, err)
	data = map[string]string{}
	for _, f := range z.File {
		assert.Equal(t, uint16(0x21), f.ModifiedDate, "1980-01-01")
		assert.Zero(t, f.ModifiedTime)
		assert.Zero(t, f.Flags&8, "sizes stand before the file")
		r, err := f.Open()
		require.NoError(t, err)
		b, err := io.ReadAll(r)
		require.NoError(t, err)
		names = append(names, f.Name)
		data[f.Name] = string(b)
	}
	return names, data
}

func TestBundleFiles(t *testing.T) {
	p := drawn(3000, grid("aab", ".a."), grid("...", "..."), grid("a"))
	p.Sprites[1].Name = "Empty"
	p.Sprites[2].Name = "SPRITE 0"
	bundle, err := Build(planned(t, p))
	require.NoError(t, err)
	names, data := contents(t, bundle)
	assert.Equal(t, []string{
		"job.json",
		"sprites/sprite-0/01-card-31f096.dxf", "sprites/sprite-0/01-card-31f096.svg",
		"sprites/sprite-0/02-card-28fa50.dxf", "sprites/sprite-0/02-card-28fa50.svg",
		"sprites/sprite-0/all.dxf", "sprites/sprite-0/picture.png",
		"sprites/sprite-0-2/01-card-28fa50.dxf", "sprites/sprite-0-2/01-card-28fa50.svg",
		"sprites/sprite-0-2/all.dxf", "sprites/sprite-0-2/picture.png",
		"project.json", "README.txt",
	}, names)
	saved, err := project.Read(strings.NewReader(data["project.json"]))
	require.NoError(t, err)
	again, err := Build(planned(t, saved))
	require.NoError(t, err)
	assert.True(t, bytes.Equal(bundle, again), "the saved project gives the same bundle")
}

// Worked out by hand: a border of 1.25 about cells of 3, an edge of the middle
// part drawn back by 0.3 on the three cells that are covered.
func TestManifest(t *testing.T) {
	p := drawn(3000, grid("ab", "bb"))
	p.Sprites[0].Copies = 3
	p.Settings.Border = 1250
	j := planned(t, p)
	j.Plan.Findings = []inspect.Finding{
		{Code: "strip-narrow", Severity: "look", Text: "Thin.", Sprite: "Sprite 0", Layer: 2, Part: "A2-1", Count: 1,
			Places: []inspect.Place{{Sprite: "Sprite 0", Layer: 2, Part: "A2-1", At: shape.Point{X: 1500, Y: 20}}}},
		{Code: "sprite-empty", Severity: "look", Text: "Empty.", Sprite: "Other", Count: 1},
	}
	bundle, err := Build(j)
	require.NoError(t, err)
	_, data := contents(t, bundle)
	assert.JSONEq(t, `{
		"format": "sheetsprite-job", "version": 1,
		"sprites": [{
			"name": "Sprite 0", "copies": 3, "cell_mm": 3, "size_mm": [8.5, 8.5],
			"grid_cells": [2, 2], "grid_origin_mm": [1.25, 1.25],
			"picture": "sprites/sprite-0/picture.png", "all_dxf": "sprites/sprite-0/all.dxf",
			"layers": [
				{"layer": 1, "height": 1, "stock": "card-28fa50", "colour": "#28fa50",
				 "dxf": "sprites/sprite-0/01-card-28fa50.dxf", "svg": "sprites/sprite-0/01-card-28fa50.svg",
				 "parts": 1, "cut_mm": 34, "joins": 0},
				{"layer": 2, "height": 2, "stock": "card-28fa50", "colour": "#28fa50",
				 "dxf": "sprites/sprite-0/02-card-28fa50.dxf", "svg": "sprites/sprite-0/02-card-28fa50.svg",
				 "parts": 1, "cut_mm": 22.8, "joins": 0},
				{"layer": 3, "height": 3, "stock": "card-31f096", "colour": "#31f096",
				 "dxf": "sprites/sprite-0/03-card-31f096.dxf", "svg": "sprites/sprite-0/03-card-31f096.svg",
				 "parts": 1, "cut_mm": 24, "joins": 0}],
			"parts": 3, "parts_by_patch": 2, "heights": 3, "corner_mm2": 0}],
		"sheets": [],
		"totals": {"parts": 9, "parts_by_patch": 6, "cut_mm": 242.4, "travel_mm": 0, "sheets": 0, "seconds": 0},
		"findings": [
			{"code": "strip-narrow", "severity": "look", "text": "Thin.", "sprite": "Sprite 0", "layer": 2, "part": "A2-1", "at_mm": [1.5, 0.02],
			 "count": 1, "places": [{"sprite": "Sprite 0", "layer": 2, "part": "A2-1", "at_mm": [1.5, 0.02]}]},
			{"code": "sprite-empty", "severity": "look", "text": "Empty.", "sprite": "Other", "count": 1}]
	}`, data["job.json"])
	assert.NotRegexp(t, `\.\d*0[,\s\]]`, data["job.json"], "no trailing noughts")
}

// Whatever the maker calls things, nothing breaks out of its place.
func TestHostileNames(t *testing.T) {
	hostile := append(projecttest.HostileNames(), `"><script>alert(1)</script>`, "../../x", "CON", "gull", "GULL", "🦀⚓",
		"\u202egnp.exe\u200f", "a\x00b\x1b[31m\nc\r\n  0\nEOF", strings.Repeat("long ", 2000), "]]>", "${x}", "%s%d", "\xff\xfe")
	p := drawn(3000)
	taken := map[string]bool{}
	for _, name := range hostile {
		if taken[name] {
			continue
		}
		taken[name] = true
		s := project.NewSprite(name, 1, 1)
		s.Frames[0].Cells[0] = 'a'
		p.Sprites = append(p.Sprites, s)
	}
	p.Name = hostile[0]
	p.Stocks[0].Name = "stock \u202e\n<script>\x07"
	p.Stocks[0].ID, p.Palette[0].Stock = "con", "con"
	j := Job{p, planned(t, drawn(3000, grid("a"))).Plan} // names that validation refuses must be safe as well
	one := j.Plan.Sprites[0]
	one.Stocks = []project.Stock{p.Stocks[0]}
	j.Plan.Sprites = nil
	for i := range p.Sprites {
		one.Index = i
		j.Plan.Sprites = append(j.Plan.Sprites, one)
	}
	j.Plan.Findings = []inspect.Finding{{Code: "x", Text: "<script>\u202e\nline", Sprite: hostile[len(hostile)-1]}}
	var saved bytes.Buffer
	if p.Write(&saved) != nil {
		// The project file itself refuses what isn't UTF-8; all others must go through.
		p.Sprites, j.Plan.Sprites = p.Sprites[:len(p.Sprites)-1], j.Plan.Sprites[:len(p.Sprites)-1]
		require.NoError(t, p.Write(&saved))
	}
	names, data := contents(t, unpainted(t, j))
	require.NoError(t, readback.Check(unpainted(t, j), p))
	seen := map[string]bool{}
	file := regexp.MustCompile(`^(job\.json|project\.json|README\.txt|sprites/[a-z0-9-]{1,40}/([0-9]{2}-stock-con\.(dxf|svg)|all\.dxf|picture\.png))$`)
	for _, name := range names {
		assert.Regexp(t, file, name)
		assert.False(t, seen[strings.ToLower(name)], name)
		seen[strings.ToLower(name)] = true
		text := data[name]
		if path.Ext(name) == ".png" {
			continue
		}
		for _, r := range text {
			bad := r < ' ' && r != '\n' || r == 0x7f || r == 0x202e || r == 0x200f || r == 0xfeff
			require.False(t, bad && name != "project.json" && name != "job.json", "%q in %s", r, name)
		}
		switch path.Ext(name) {
		case ".dxf":
			assert.Regexp(t, `^[ -~\n]*$`, text)
			assert.Equal(t, 1, strings.Count(text, "\nEOF\n"))
		case ".svg":
			assert.NotContains(t, text, "<script")
		case ".json":
			assert.True(t, json.Valid([]byte(text)), name)
			assert.False(t, name == "job.json" && strings.Contains(text, "<script"), "encoded so that it can stand in a page")
		}
	}
	for line := range strings.SplitSeq(data["README.txt"], "\n") {
		assert.Less(t, len([]rune(line)), 200)
	}
}

// The README names what must be said before a cut (CRAFT: safety lines).
func TestReadme(t *testing.T) {
	p := target()
	p.Sprites[0].Copies = 2
	_, data := contents(t, unpainted(t, planned(t, p)))
	text := data["README.txt"]
	for _, want := range []string{
		"Test: cutting files", "Sprite 0: 33 x 24 mm, 8 parts, to be cut twice", "01-card-", "0.3 mm",
		"machine's manual and your local rules come first", "Never leave a running laser alone", "PVC", "Extraction on",
		"extinguisher", "away from you", "Inner corners keep the radius of the beam", "typical", "finished size, without any of that",
	} {
		assert.Contains(t, strings.Join(strings.Fields(text), " "), want)
	}
}
