package project

import (
	"strconv"
	"strings"

	"sheetsprite/engine/colour"
)

// PNGOptions say how FromPNGs reads pictures. The zero value is right for
// pictures drawn as sprites.
type PNGOptions struct {
	Colours int // 1..MaxPalette: reduce all pictures together to so many colours; 0: don't
}

// FromPNGs makes a project of pictures: a sprite each, one cell a pixel, empty
// where alpha is below 128, named after the file, with default settings. All
// have one palette, in the order in which the colours first appear, picture by
// picture and row by row; each colour is cut from card of its own (CardFor).
//
// A picture without any cell becomes an empty sprite (Sprite.IsEmpty), which
// is for the caller to tell; only where all are empty FromPNGs fails. Its
// errors are InputErrors that start with the picture's name. Memory is bounded
// by the sprites themselves: what claims to be larger is refused unread.
func FromPNGs(inputs []NamedBytes, options PNGOptions) (*Project, error) {
	switch {
	case len(inputs) == 0:
		return nil, wrong("no picture is given: %s", wantPicture)
	case len(inputs) > MaxSprites:
		return nil, wrong("%d pictures are given, but a project may have %d sprites: make several projects", len(inputs), MaxSprites)
	case options.Colours < 0 || options.Colours > MaxPalette:
		return nil, wrong("--colours is %d, but must be 1 to %d", options.Colours, MaxPalette)
	}
	var few []RGB
	if options.Colours > 0 {
		var err error
		if few, err = fewColours(inputs, options.Colours); err != nil {
			return nil, err
		}
	}
	im := importer{few: few, entries: map[RGB]byte{}, total: map[RGB]bool{}, names: map[string]bool{}}
	im.p.Settings = DefaultSettings()
	for _, input := range inputs {
		if err := im.add(input); err != nil {
			return nil, in(showName(input.Name), err)
		}
	}
	if n := len(im.total); n > MaxPalette {
		return nil, wrong("the pictures have %d colours together, but a project has at most %d: reduce them together with --colours N, or, where they are photographs, make sprites of them with sheetsprite regrid", n, MaxPalette)
	}
	if len(im.p.Palette) == 0 {
		return nil, nothingOpaque(inputs)
	}
	im.p.Name = "Sprites"
	if len(inputs) == 1 {
		im.p.Name = im.p.Sprites[0].Name
	}
	return &im.p, nil
}

func nothingOpaque(inputs []NamedBytes) error {
	if len(inputs) == 1 {
		return in(showName(inputs[0].Name), wrong("no pixel is opaque (alpha 128 or more), so there is nothing to cut: colour at least one"))
	}
	return wrong("no pixel of the %d pictures is opaque (alpha 128 or more), so there is nothing to cut: colour at least one", len(inputs))
}

// importer adds picture after picture to a project.
type importer struct {
	p       Project
	few     []RGB        // colours to choose from; nil: any
	entries map[RGB]byte // keys of the palette
	total   map[RGB]bool // all colours, those beyond the palette's limit too: at most 24 a sprite
	names   map[string]bool
}

func (im *importer) add(input NamedBytes) error {
	r, err := decodePNG(input)
	if err != nil {
		return err
	}
	if im.few != nil {
		r.reduce(im.few)
	}
	if n := r.colours(); n > MaxSpriteColours {
		if im.few != nil {
			return wrong("the picture has %d colours of the %d left, but a sprite has at most %d: give a smaller number with --colours", n, len(im.few), MaxSpriteColours)
		}
		return wrong("the picture has %d colours, but a sprite has at most %d: reduce them with --colours N (up to %d), or, if it is a photograph or an enlarged sprite, make one pixel of each cell with sheetsprite regrid", n, MaxSpriteColours, MaxSpriteColours)
	}
	s := NewSprite(im.freeName(input.Name), r.w, r.h)
	for i, px := range r.pixels {
		if px.full {
			s.Frames[0].Cells[i] = im.key(px.rgb)
		}
	}
	im.p.Sprites = append(im.p.Sprites, s)
	return nil
}

// key is the palette's key for a colour, which gets an entry and a stock on
// its first appearance. Beyond the limit it is Empty; FromPNGs fails then.
func (im *importer) key(c RGB) byte {
	if key, ok := im.entries[c]; ok {
		return key
	}
	im.total[c] = true
	if len(im.p.Palette) >= MaxPalette {
		return Empty
	}
	key, _ := NewKey(im.p.Palette)
	card := CardFor(c)
	im.entries[c] = key
	im.p.Palette = append(im.p.Palette, Colour{Key: key, Name: c.String(), RGB: c, Stock: card.ID})
	im.p.Stocks = append(im.p.Stocks, card)
	return key
}

// freeName is the file's name without folder and ending, made unique.
func (im *importer) freeName(file string) string {
	base := strings.ToValidUTF8(file[strings.LastIndexAny(file, `/\`)+1:], "\ufffd")
	if dot := len(base) - len(".png"); dot >= 0 && strings.EqualFold(base[dot:], ".png") {
		base = base[:dot]
	}
	if base == "" {
		base = "sprite"
	}
	if runes := []rune(base); len(runes) > MaxName-8 { // room for a number
		base = string(runes[:MaxName-8])
	}
	name := base
	for n := 2; im.names[name]; n++ {
		name = base + "-" + strconv.Itoa(n)
	}
	im.names[name] = true
	return name
}

// showName is a file's name as a message shows it: bare where it is plain.
func showName(name string) string {
	if q := quote(name); q != `"`+name+`"` || name == "" || strings.ContainsAny(name, " :,") {
		return q
	}
	return name
}

// colours counts the different colours.
func (r raster) colours() int {
	seen := map[RGB]bool{}
	for _, px := range r.pixels {
		if px.full {
			seen[px.rgb] = true
		}
	}
	return len(seen)
}

// reduce replaces each colour by the nearest of few.
func (r raster) reduce(few []RGB) {
	near := colour.Match(few)
	known := map[RGB]RGB{}
	for i, px := range r.pixels {
		if !px.full {
			continue
		}
		to, ok := known[px.rgb]
		if !ok {
			to = few[near.Nearest(px.rgb)]
			known[px.rgb] = to
		}
		r.pixels[i].rgb = to
	}
}
