package inspect

import (
	"cmp"
	"fmt"
	"slices"

	"sheetsprite/engine/cut"
	"sheetsprite/engine/nest"
	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// Cutting is what was seen while the sheets were made. The zero value is empty.
type Cutting struct {
	Machine project.Machine
	faults  []stockPlaces
	loose   []stockPlaces
	fine    []stockPlaces
	meet    []stockPlaces
	sheets  []supplied
	apart   []Finding // layers that can't be left whole
	many    int       // parts, where they are too many for sheets
	most    int
}

// TooMany says that all copies together have so many parts, more than most.
func (c *Cutting) TooMany(parts, most int) { c.many, c.most = parts, most }

// stockPlaces are places in parts of one stock of one sprite.
type stockPlaces struct {
	stock  project.Stock
	sprite string
	places []Place
}

// supplied is a stock and the sheets that it takes.
type supplied struct {
	stock    project.Stock
	needed   int // sheets, without offcuts
	onShelf  int // -1: nobody counted
	large    nest.Size
	anySheet bool
	lost     int // saved places that don't hold
}

// What a knife tears. Common practice, no source.
const (
	knifeStrip = 1 * shape.Mm
	knifePart  = 4 * shape.Mm
)

// tears says whether a knife tears a part, and where.
func tears(part *outline.Part) (at shape.Point, yes bool) {
	b := part.Bounds
	if w, h := b.Size(); max(w, h) < knifePart {
		return shape.Point{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2}, true
	}
	for _, s := range narrowStrips(squared(part.Bare()), knifeStrip, nil) {
		return s.At, true
	}
	return at, false
}

// Add looks at the pieces of a sprite.
func (c *Cutting) Add(src *project.Sprite, stocks []project.Stock, pieces []cut.Piece) {
	put := func(list *[]stockPlaces, stock project.Stock, p Place) {
		for i := range *list {
			if s := &(*list)[i]; s.stock.ID == stock.ID && s.sprite == src.Name {
				s.places = append(s.places, p)
				return
			}
		}
		*list = append(*list, stockPlaces{stock, src.Name, []Place{p}})
	}
	for i := range pieces {
		p := &pieces[i]
		place := Place{Sprite: src.Name, Layer: p.Layer.Number, Part: p.Number}
		for _, f := range p.Faults {
			place.At = f.At
			put(&c.faults, stocks[p.Layer.Stock], place)
		}
		if c.Machine.Kind == project.Knife {
			if at, yes := tears(p.Part); yes {
				place.At = at
				put(&c.fine, stocks[p.Layer.Stock], place)
			}
		}
		for _, q := range p.Cut() {
			if q.Loose {
				b := q.Part.Bounds
				place.At = shape.Point{X: (b.Min.X + b.Max.X) / 2, Y: (b.Min.Y + b.Max.Y) / 2}
				put(&c.loose, stocks[p.Layer.Stock], place)
			}
		}
	}
}

// Meet says that two parts of one layer can't be cut in register: their cuts
// would run into one another at a place.
func (c *Cutting) Meet(src *project.Sprite, stock project.Stock, layer int, at shape.Point) {
	c.meet = append(c.meet, stockPlaces{stock, src.Name, []Place{{Sprite: src.Name, Layer: layer, At: at}}})
}

// Faulty says whether a part of the stock can't be cut with its kerf.
func (c *Cutting) Faulty(stock string) bool {
	is := func(s stockPlaces) bool { return s.stock.ID == stock }
	return slices.ContainsFunc(c.faults, is) || slices.ContainsFunc(c.meet, is)
}

// Supplied looks at the sheets that a stock takes.
func (c *Cutting) Supplied(p *project.Project, stock project.Stock, n nest.Nesting) {
	s := supplied{stock: stock, onShelf: -1, anySheet: len(n.Sheets) > 0, lost: len(n.Released)}
	if p.Bench != nil {
		if counted, ok := p.Bench.Counted(stock.ID); ok {
			s.onShelf = counted
		}
	}
	for _, sh := range n.Sheets {
		if sh.Origin == nest.FromSheets {
			s.needed++
		}
		if !c.Machine.Takes(sh.Size.Width, sh.Size.Height) {
			s.large = sh.Size
		}
	}
	c.sheets = append(c.sheets, s)
}

// WithCutting adds what was seen to the findings, gravest first.
func WithCutting(p *project.Project, fs []Finding, c Cutting) []Finding {
	fs = slices.Clone(fs)
	for _, s := range c.faults {
		fs = append(fs, c.fault(p, s))
	}
	for _, s := range c.loose {
		fs = append(fs, Finding{
			Code:   PartLoose,
			Text:   bent(len(s.places), english.loose, quoted(s.sprite), len(s.places), s.stock.Name),
			Places: s.places,
		})
	}
	for _, s := range c.meet {
		fs = append(fs, Finding{
			Code:   KerfMeets,
			Text:   fmt.Sprintf(english.meets, quoted(s.sprite), s.stock.Name),
			Places: s.places,
		})
	}
	for _, s := range c.fine {
		n := len(s.places)
		fs = append(fs, Finding{
			Code:   KnifeFine,
			Text:   bent(n, english.knifeFine, quoted(s.sprite), n, s.stock.Name),
			Places: s.places,
		})
	}
	fs = append(fs, c.apart...)
	for _, s := range c.sheets {
		fs = append(fs, c.supply(p, s)...)
	}
	fs = append(fs, c.power(p)...)
	if c.many > 0 {
		fs = append(fs, Finding{
			Code: TooManyParts, Count: c.many,
			Text: fmt.Sprintf(english.tooMany, c.many, c.most),
		})
	}
	for i := range fs {
		fs[i].complete()
	}
	slices.SortStableFunc(fs, func(a, b Finding) int { return cmp.Compare(rank(a.Code), rank(b.Code)) })
	return fs
}

func (c Cutting) fault(p *project.Project, s stockPlaces) Finding {
	f := Finding{
		Code:   KerfCloses,
		Text:   bent(len(s.places), english.closes, quoted(s.sprite), len(s.places), s.stock.Name, mm(p.Settings.KerfOf(s.stock))),
		Places: s.places,
	}
	if p.Settings.Corners == project.Apart {
		f.Remedies = append(f.Remedies, Remedy{
			Command: SetCorners, Args: map[string]any{"corners": string(project.Join)}, Text: english.joinCorners,
		})
	}
	return f
}

func (c Cutting) supply(p *project.Project, s supplied) []Finding {
	var fs []Finding
	if s.large.Width > 0 {
		fs = append(fs, Finding{
			Code: SheetOverBed,
			Text: fmt.Sprintf(english.overBed, s.stock.Name,
				size(s.large.Width, s.large.Height), quoted(c.Machine.Name), size(c.Machine.BedW, c.Machine.BedH)),
		})
	}
	if t := c.Machine.Thickest; t > 0 && s.stock.Thickness > t && s.anySheet {
		fs = append(fs, Finding{
			Code: StockTooThick,
			Text: fmt.Sprintf(english.tooThick, s.stock.Name, mm(s.stock.Thickness), quoted(c.Machine.Name), mm(t)),
		})
	}
	if s.lost > 0 {
		fs = append(fs, Finding{
			Code: PlacesLost, Count: s.lost,
			Text: bent(s.lost, english.placesLost, s.stock.Name, s.lost),
		})
	}
	if s.onShelf >= 0 && s.needed > s.onShelf {
		fs = append(fs, Finding{
			Code: ShelfShort,
			Text: bent(s.needed, english.short, s.stock.Name, s.needed, s.onShelf),
		})
	}
	return fs
}

// power reports the stocks that get no machine file because nobody entered how
// the laser of the bench cuts them.
func (c Cutting) power(p *project.Project) []Finding {
	if p.Bench == nil || c.Machine.Kind != project.LaserCutter {
		return nil // without a bench nobody expects a machine file
	}
	var names []string
	for _, s := range c.sheets {
		use, _ := p.Bench.UseOf(c.Machine.Name, s.stock.ID)
		if s.anySheet && (use.Power == 0 || use.Speed == 0) {
			names = append(names, s.stock.Name)
		}
	}
	if len(names) == 0 {
		return nil
	}
	return []Finding{{
		Code: PowerUnknown, Count: len(names),
		Text: fmt.Sprintf(english.noPower, listed(names), quoted(c.Machine.Name)),
	}}
}

// LaserSafe says whether a stock may go on a laser as far as anybody knows:
// nothing else gets a machine file for one.
func LaserSafe(s project.Stock) bool {
	_, never := neverReason(s.Name)
	return !never && s.Laser == project.LaserFine
}
