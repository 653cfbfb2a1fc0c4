package guide

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/project/projecttest"
)

// word is a word of a page as poppler places it, in points.
var word = regexp.MustCompile(`<word xMin="([0-9.-]+)" yMin="([0-9.-]+)" xMax="([0-9.-]+)" yMax="([0-9.-]+)">`)

// Whatever project, sprites and stocks are called, the guide is a sound PDF with its
// fonts in it, and no word of it runs off the page; a name that the fonts don't hold
// is replaced by what tells the thing: a sprite's letter, a stock's ID.
func TestAnyNameFitsTheGuide(t *testing.T) {
	names := append(projecttest.HostileNames(), strings.Repeat("W", 300), strings.Repeat("Wide ", 60), "Cafe\u0301", "Гавань", "λιμάνι")
	const each = 12
	if testing.Short() {
		names = names[len(names)-each:]
	}
	j := harbour(t, each, func(p *project.Project) {
		for i := range p.Sprites {
			s := &p.Sprites[i]
			s.W, s.H = 2, 1
			s.Frames = []project.Frame{{Cells: []byte{p.Palette[i%4].Key, p.Palette[i%4+1].Key}}}
		}
	})
	for from := 0; from < len(names); from += each {
		rename(j, names[from:])
		pdf, err := Write(j)
		require.NoError(t, err)
		path := saved(t, pdf)
		sound(t, path)
		boxes := word.FindAllStringSubmatch(asked(t, "pdftotext", "-bbox", path, "-"), -1)
		require.Greater(t, len(boxes), 200)
		for _, b := range boxes {
			left, _ := strconv.ParseFloat(b[1], 64)
			right, _ := strconv.ParseFloat(b[3], 64)
			assert.GreaterOrEqual(t, left, pt(side)-1)
			assert.LessOrEqual(t, right, pt(j.Paper.Width-side)+1, fmt.Sprintf("names from %d", from))
		}
		text := asked(t, "pdftotext", "-layout", path, "-")
		for _, s := range j.Plan.Sprites {
			assert.Regexp(t, `(?m)^\f?\s*`+s.Letters+`( .*)?$`, text, "the page of sprite %s", s.Letters)
		}
	}
}

// rename gives all that has a name one of the names; a plan has copies of stocks.
func rename(j Job, names []string) {
	j.Project.Name = names[0]
	for i := range j.Project.Sprites {
		j.Project.Sprites[i].Name = names[i%len(names)]
	}
	called := map[string]string{}
	for i := range j.Project.Stocks {
		st := &j.Project.Stocks[i]
		st.Name = names[i%len(names)]
		called[st.ID] = st.Name
	}
	for _, s := range j.Plan.Sprites {
		for i := range s.Stocks {
			s.Stocks[i].Name = called[s.Stocks[i].ID]
		}
	}
	for i := range j.Plan.Sheets.List {
		st := &j.Plan.Sheets.List[i].Stock
		st.Name = called[st.ID]
	}
}

func TestNamesAsTheyArePrinted(t *testing.T) {
	p, err := newPen(A4, "")
	require.NoError(t, err)
	for name, want := range map[string]string{
		"Gull": "Gull", "Gu\u0308ll": "Gull", "G\u00fcll": "G\u00fcll", "Гавань": "Гавань", "\u202egnp.llug": "gnp.llug",
		"a\x00b\nc": "a b c", "灯台": "other", "🦀": "other", "\u200b": "other", "   ": "other", "": "other", "Pier 🦀": "Pier ?",
		"קטר": "other", "Wharf 灯": "Wharf ?", "?": "?",
		strings.Repeat("x", 10000): strings.Repeat("x", 59) + "…",
	} {
		assert.Equal(t, want, p.legible(name, "other"), "%q", name[:min(len(name), 20)])
	}
}
