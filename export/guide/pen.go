package guide

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// The guide's colours, those of the page.
var (
	ink    = project.RGB{R: 0x1f, G: 0x2a, B: 0x33}
	quiet  = project.RGB{R: 0x5a, G: 0x63, B: 0x6d}
	edge   = project.RGB{R: 0xb9, G: 0xae, B: 0x9d}
	well   = project.RGB{R: 0xf3, G: 0xee, B: 0xe4}
	lying  = project.RGB{R: 0xe4, G: 0xe2, B: 0xde} // parts that lie there already
	signal = project.RGB{R: 0xc9, G: 0x3f, B: 0x12}
	white  = project.RGB{R: 0xff, G: 0xff, B: 0xff}
)

// weight is how bold a text is.
type weight string

const (
	plain weight = ""
	bold  weight = "B"
)

// points are a size of type.
type points float64

// The sizes of type.
const (
	huge   points = 26
	large  points = 15
	medium points = 10.5
	normal points = 9
	small  points = 7.5
	tiny   points = 6
)

// lead is the way from line to line.
func (s points) lead() shape.Um { return shape.Um(math.Round(float64(s) * 1.38 * 25400 / 72)) }

// cap is how high a capital letter stands.
func (s points) cap() shape.Um { return shape.Um(math.Round(float64(s) * 0.72 * 25400 / 72)) }

// pen writes and draws on pages. Places on a page are µm from its upper left
// corner, y down.
type pen struct {
	pdf    *fpdf.Fpdf
	paper  Paper
	known  map[rune]bool // runes that the fonts hold; only asked
	font   *sfnt.Font
	buffer sfnt.Buffer
	pages  int
	forms  map[[sha256.Size]byte]*form             // by content
	drawn  map[*form]bool                          // the library knows them
	foot   func()                                  // draws the foot of the page that ends
	watch  func(page int, v view, o shape.Outline) // sees every outline; nil: nobody looks
}

func newPen(paper Paper, project string) (*pen, error) {
	font, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil, err
	}
	pdf := fpdf.NewCustom(&fpdf.InitType{
		UnitStr: "pt", Size: fpdf.SizeType{Wd: pt(paper.Width), Ht: pt(paper.Height)},
	})
	// No clock and no map's order reaches the file.
	never := time.Date(1980, 1, 1, 0, 0, 0, 0, time.UTC)
	pdf.SetCreationDate(never)
	pdf.SetModificationDate(never)
	pdf.SetCatalogSort(true)
	pdf.SetAutoPageBreak(false, 0)
	pdf.SetMargins(0, 0, 0)
	pdf.SetCellMargin(0)
	pdf.SetProducer("Sheetsprite", true)
	pdf.SetCreator("Sheetsprite", true)
	pdf.SetLang(english.language)
	pdf.AddUTF8FontFromBytes("guide", string(plain), goregular.TTF)
	pdf.AddUTF8FontFromBytes("guide", string(bold), gobold.TTF)
	p := &pen{pdf: pdf, paper: paper, known: map[rune]bool{}, font: font, forms: map[[sha256.Size]byte]*form{}, drawn: map[*form]bool{}}
	pdf.SetTitle(fmt.Sprintf(english.title, p.legible(project, english.noName)), true)
	return p, nil
}

// pt is a length in the PDF's points.
func pt(v shape.Um) float64 { return float64(v) * 72 / 25400 }

// legible is a maker's name in one short line: what the fonts hold of it, or
// another name where they don't hold most of it.
func (p *pen) legible(s, other string) string {
	if long := []rune(s); len(long) > 200 {
		s = string(long[:200])
	}
	held, all := 0, 0
	for _, r := range s {
		if !unicode.IsSpace(r) && !unseen(r) {
			all++
			if p.holds(r) {
				held++
			}
		}
	}
	if s = p.legibleLong(s); s == "" || 2*held < all {
		return other
	}
	if runes := []rune(s); len(runes) > 60 {
		s = string(runes[:59]) + "…"
	}
	return s
}

// legibleLong keeps what the fonts hold of a text, in one line. Accents of their
// own that they don't hold are left out, the letter stays.
func (p *pen) legibleLong(s string) string {
	return strings.Join(strings.Fields(strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r) || unicode.IsSpace(r):
			return ' '
		case unseen(r):
			return -1
		case p.holds(r):
			return r
		case unicode.Is(unicode.M, r):
			return -1
		}
		return '?'
	}, s)), " ")
}

// unseen says whether a character only says how others are set.
func unseen(r rune) bool { return unicode.IsControl(r) || unicode.Is(unicode.Cf, r) }

// holds says whether the fonts have a glyph for a character.
func (p *pen) holds(r rune) bool {
	ok, asked := p.known[r]
	if !asked {
		i, err := p.font.GlyphIndex(&p.buffer, r)
		ok = err == nil && i != 0 && r < 0x10000
		p.known[r] = ok
	}
	return ok
}

// fit shortens a line so that it isn't wider than width.
func (p *pen) fit(s string, width shape.Um, size points, w weight) string {
	if p.wide(s, size, w) <= width {
		return s
	}
	runes := []rune(s)
	for n := len(runes) - 1; n > 0; n-- {
		if short := strings.TrimRight(string(runes[:n]), " ") + "…"; p.wide(short, size, w) <= width {
			return short
		}
	}
	return "…"
}

// pngSize is the width and height in a PNG's header.
func pngSize(png []byte) (w, h int) {
	if len(png) < 24 {
		return 1, 1
	}
	return int(binary.BigEndian.Uint32(png[16:])), int(binary.BigEndian.Uint32(png[20:]))
}

// newPage ends the page and begins another.
func (p *pen) newPage() {
	p.endPage()
	p.pdf.AddPage()
	p.pages++
	p.foot = nil
}

func (p *pen) endPage() {
	if p.foot != nil {
		p.foot()
	}
}

func (p *pen) set(size points, w weight, c project.RGB) {
	p.pdf.SetFont("guide", string(w), float64(size))
	p.pdf.SetTextColor(int(c.R), int(c.G), int(c.B))
}

// wide is the width of a text.
func (p *pen) wide(s string, size points, w weight) shape.Um {
	p.pdf.SetFont("guide", string(w), float64(size))
	return shape.Um(math.Round(p.pdf.GetStringWidth(s) * 25400 / 72))
}

// write puts a line of text with its base at y.
func (p *pen) write(x, y shape.Um, s string, size points, w weight, c project.RGB) {
	p.set(size, w, c)
	p.pdf.Text(pt(x), pt(y), s)
}

// writeMiddle puts a line of text with its middle at x, y.
func (p *pen) writeMiddle(x, y shape.Um, s string, size points, w weight, c project.RGB) {
	p.write(x-p.wide(s, size, w)/2, y+size.cap()/2, s, size, w, c)
}

// lines breaks a text so that no line is wider than width; a word that is wider
// by itself is broken too.
func (p *pen) lines(s string, width shape.Um, size points, w weight) []string {
	var out []string
	line := ""
	for word := range strings.FieldsSeq(s) {
		for p.wide(word, size, w) > width {
			n := p.longest(word, width, size, w)
			if line != "" {
				out = append(out, line)
			}
			out, line, word = append(out, word[:n]), "", word[n:]
		}
		longer := word
		if line != "" {
			longer = line + " " + word
		}
		if line != "" && p.wide(longer, size, w) > width {
			out = append(out, line)
			longer = word
		}
		line = longer
	}
	return append(out, line)
}

// longest is how many bytes of a word are no wider than width, at least a
// character.
func (p *pen) longest(word string, width shape.Um, size points, w weight) int {
	most := 0
	for i := range word {
		if i > 0 && p.wide(word[:i], size, w) > width {
			break
		}
		most = i
	}
	if most == 0 {
		_, most = utf8.DecodeRuneInString(word)
	}
	return most
}

// paragraph writes a text from y down and says where the next one begins.
func (p *pen) paragraph(x, y, width shape.Um, s string, size points, w weight, c project.RGB) shape.Um {
	for _, line := range p.lines(s, width, size, w) {
		y += size.lead()
		p.write(x, y-size.lead()/4, line, size, w, c)
	}
	return y
}

// image puts a picture with its upper left corner at x, y. Equal pictures are
// one object in the file.
func (p *pen) image(png []byte, x, y, w, h shape.Um) {
	o := fpdf.ImageOptions{ImageType: "PNG"}
	name := fmt.Sprintf("%x", sha256.Sum256(png))
	if p.pdf.GetImageInfo(name) == nil {
		p.pdf.RegisterImageOptionsReader(name, o, bytes.NewReader(png))
	}
	p.pdf.ImageOptions(name, pt(x), pt(y), pt(w), pt(h), false, o, 0, "")
}

// raw writes operators into the page's content.
func (p *pen) raw(b []byte) { p.pdf.RawWriteStr(string(b)) }

// appendNumber writes a coordinate that has at most 4 decimals.
func appendNumber(b []byte, v float64) []byte {
	b = strconv.AppendFloat(b, v, 'f', 4, 64)
	b = bytes.TrimRight(b, "0")
	return bytes.TrimSuffix(b, []byte("."))
}
