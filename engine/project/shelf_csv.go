package project

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"sheetsprite/engine/colour"
	"sheetsprite/engine/shape"
)

// MaxShelfFile is the largest list of stocks that is read, in bytes.
const MaxShelfFile = 4 << 20

// shelfColumn is a column of a list of stocks.
type shelfColumn struct {
	name string
	take func(r *shelfRow, text string) error
}

// shelfRow is a row on its way to the shelf.
type shelfRow struct {
	shelf     Shelf
	thickness shape.Um // 0: not given
	sheets    Sheets
}

// shelfColumns are read in this order, so that a row's first fault is told.
var shelfColumns = []shelfColumn{
	{"name", func(r *shelfRow, s string) error { r.shelf.Stock.Name = s; return checkName(s) }},
	{"colour", func(r *shelfRow, s string) (err error) { r.shelf.Stock.Colour, err = parseRGB(s); return }},
	{"kind", func(r *shelfRow, s string) error {
		r.shelf.Stock.Kind = Kind(s)
		return oneOf("kind", r.shelf.Stock.Kind, Paper, Card, MountBoard, GreyBoard, CraftFoam, Felt, Plywood, Acrylic, Other)
	}},
	{"weight_g_m2", func(r *shelfRow, s string) (err error) {
		r.shelf.Stock.Weight, err = wholeNumber("weight_g_m2", s, 1, MaxWeight)
		return
	}},
	{"thickness_mm", func(r *shelfRow, s string) (err error) {
		if r.thickness, err = ParseMm(s); err == nil {
			err = within("thickness_mm", r.thickness, 10, 100*shape.Mm)
		}
		return
	}},
	{"core", func(r *shelfRow, s string) error {
		c, err := parseRGB(s)
		r.shelf.Stock.Core = &c
		return err
	}},
	{"sides", func(r *shelfRow, s string) error {
		r.shelf.Stock.Sides = Sides(s)
		return oneOf("sides", r.shelf.Stock.Sides, OneSide, BothSides)
	}},
	{"grain", func(r *shelfRow, s string) error {
		r.shelf.Stock.Grain = Grain(s)
		return oneOf("grain", r.shelf.Stock.Grain, LongGrain, ShortGrain, NoGrain)
	}},
	{"width_mm", func(r *shelfRow, s string) (err error) { r.sheets.W, err = ParseMm(s); return }},
	{"height_mm", func(r *shelfRow, s string) (err error) { r.sheets.H, err = ParseMm(s); return }},
	{"count", func(r *shelfRow, s string) (err error) {
		r.sheets.Count, err = wholeNumber("count", s, 0, MaxSheets)
		return
	}},
	{"laser", func(r *shelfRow, s string) error {
		r.shelf.Stock.Laser = Laser(s)
		return oneOf("laser", r.shelf.Stock.Laser, LaserFine, LaserUnknown, LaserNever)
	}},
}

// ReadShelfCSV reads a list of stocks, one a row, separated by commas,
// semicolons or tabs. The first row names the columns, in any order: name and
// colour (#rrggbb) must be there; kind, weight_g_m2, thickness_mm, core, sides
// (one, both), grain (long, short, none), width_mm, height_mm, count and laser
// (fine, unknown, never) may be. An empty cell says nothing: the kind is card
// then; weight and thickness each give a typical other; the rest is what is
// typical of the kind. Rows of one name are one stock in several sizes of sheet.
//
// Errors: an InputError with row and column.
func ReadShelfCSV(data []byte) ([]Shelf, error) {
	if len(data) > MaxShelfFile {
		return nil, wrong("the list is larger than %d MiB: a shelf has at most %d stocks", MaxShelfFile>>20, MaxStocks)
	}
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) {
		return nil, wrong("the list isn't UTF-8 text: save it as CSV UTF-8")
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.Comma, r.TrimLeadingSpace, r.FieldsPerRecord = separatorOf(data), true, -1
	head, err := r.Read()
	if err != nil {
		return nil, rowError(1, err)
	}
	columns, err := columnsOf(head)
	if err != nil {
		return nil, err
	}
	var list []Shelf
	for {
		cells, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, rowError(0, err)
		}
		line, _ := r.FieldPos(0)
		if !slices.ContainsFunc(cells, func(s string) bool { return strings.TrimSpace(s) != "" }) {
			continue
		}
		row, err := readRow(columns, cells, r.Comma)
		if err == nil {
			list, err = row.onto(list)
		}
		if err != nil {
			return nil, in(fmt.Sprintf("row %d", line), err)
		}
	}
	if len(list) == 0 {
		return nil, wrong("the list has no stocks: give one a row, below the row that names the columns")
	}
	return list, nil
}

// separatorOf is what separates cells in the first row.
func separatorOf(data []byte) rune {
	first, _, _ := bytes.Cut(data, []byte("\n"))
	best, most := ',', 0
	for _, c := range ",;\t" {
		if n := bytes.Count(first, []byte(string(c))); n > most {
			best, most = c, n
		}
	}
	return best
}

func rowError(row int, err error) error {
	var e *csv.ParseError
	switch {
	case errors.Is(err, io.EOF):
		return wrong("the list is empty: begin with a row that names the columns, such as name,colour,weight_g_m2")
	case errors.As(err, &e):
		return wrong("row %d can't be read (%v): look for a quotation mark too many or too few", max(row, e.Line), e.Err)
	}
	return err
}

// columnsOf reads the first row.
func columnsOf(head []string) ([]int, error) {
	var known []string
	for _, c := range shelfColumns {
		known = append(known, c.name)
	}
	columns := make([]int, len(shelfColumns)) // where each is; -1: not there
	for i := range columns {
		columns[i] = -1
	}
	for at, text := range head {
		text = strings.ToLower(strings.TrimSpace(text))
		i := slices.Index(known, text)
		switch {
		case text == "":
		case i < 0:
			return nil, wrong("row 1: there is no column %s; the columns are %s", quote(text), strings.Join(known, ", "))
		case columns[i] >= 0:
			return nil, wrong("row 1: the column %s comes twice: take one out", quote(text))
		default:
			columns[i] = at
		}
	}
	for i, c := range shelfColumns[:2] {
		if columns[i] < 0 {
			return nil, wrong("row 1: there is no column %s: the first row names the columns, and name and colour must be among them", quote(c.name))
		}
	}
	return columns, nil
}

func readRow(columns []int, cells []string, separator rune) (shelfRow, error) {
	row := shelfRow{shelf: Shelf{Stock: Stock{Kind: Card}}, sheets: Sheets{Count: 1}}
	for i, c := range shelfColumns {
		text := ""
		if at := columns[i]; at >= 0 && at < len(cells) {
			text = strings.TrimSpace(cells[at])
		}
		if text == "" {
			if i < 2 {
				return row, wrong("there is no %s", c.name)
			}
			continue
		}
		if strings.HasSuffix(c.name, "_mm") && separator != ',' {
			text = strings.Replace(text, ",", ".", 1) // as spreadsheets write decimals in many countries
		}
		if err := c.take(&row, text); err != nil {
			return row, in(c.name, err)
		}
	}
	return row, nil
}

// onto completes a row with what is typical and puts it on the shelf.
func (r shelfRow) onto(list []Shelf) ([]Shelf, error) {
	given := r.shelf.Stock
	s := &r.shelf.Stock
	*s = withTypical(*s)
	if given.Laser != "" {
		s.Laser = given.Laser
	}
	switch {
	case r.thickness > 0:
		s.Thickness, s.Typical = r.thickness, false
		if s.Weight == 0 {
			s.Weight = TypicalWeight(s.Kind, r.thickness)
		}
	case s.Weight > 0:
		s.Thickness = min(TypicalThickness(s.Kind, s.Weight), 100*shape.Mm)
	}
	s.LeastStrip = max(s.LeastStrip, s.Thickness) // at least as wide as it is thick
	if (r.sheets.W > 0) != (r.sheets.H > 0) {
		return nil, wrong("give width_mm and height_mm both, or neither")
	}
	if r.sheets.W > 0 {
		if err := checkSheet(r.sheets.W, r.sheets.H); err != nil {
			return nil, err
		}
		r.shelf.Sheets = []Sheets{r.sheets}
	}
	for i := range list {
		if list[i].Stock.Name == s.Name {
			if list[i].Stock.Colour != s.Colour || list[i].Stock.Kind != s.Kind {
				return nil, wrong("%s comes twice with different colours or kinds: give each its own name", quote(s.Name))
			}
			if len(list[i].Sheets)+len(r.shelf.Sheets) > MaxSizes {
				return nil, wrong("%s has more than %d sizes of sheet", quote(s.Name), MaxSizes)
			}
			list[i].Sheets = append(list[i].Sheets, r.shelf.Sheets...)
			return list, nil
		}
	}
	if len(list) == MaxStocks {
		return nil, wrong("a shelf has at most %d stocks: leave out what you don't have", MaxStocks)
	}
	s.ID = freeID(list, idOf(s.Name))
	if err := r.shelf.validate(); err != nil {
		return nil, err
	}
	return append(list, r.shelf), nil
}

// freeID is id, or id with a number where it is taken.
func freeID(list []Shelf, id string) string {
	for n := 1; ; n++ {
		try := id
		if n > 1 {
			try = fmt.Sprintf("%s-%d", id, n)
		}
		if !slices.ContainsFunc(list, func(s Shelf) bool { return s.Stock.ID == try }) {
			return try
		}
	}
}

func parseRGB(s string) (RGB, error) {
	c, err := colour.Parse(s)
	if err != nil {
		return c, wrong("%s: %v", quote(s), err)
	}
	return c, nil
}

func wholeNumber(name, s string, low, high int) (int, error) {
	n, err := strconv.Atoi(s)
	if err != nil || len(s) > 9 {
		return 0, wrong("%s isn't a whole number", quote(s))
	}
	return n, between(name, n, low, high)
}

// AddToShelf puts stocks on the shelf. One of a name that is there already
// takes its place, with its ID and its offcuts.
//
// Errors: an InputError where the shelf would become too large.
func (b *Bench) AddToShelf(list []Shelf) error {
	shelf := slices.Clone(b.Shelf)
	for _, s := range list {
		i := slices.IndexFunc(shelf, func(old Shelf) bool { return old.Stock.Name == s.Stock.Name })
		if i >= 0 {
			s.Stock.ID, s.Offcuts = shelf[i].Stock.ID, shelf[i].Offcuts
			shelf[i] = s
			continue
		}
		s.Stock.ID = freeID(shelf, s.Stock.ID)
		shelf = append(shelf, s)
	}
	if len(shelf) > MaxStocks {
		return wrong("the shelf would have %d stocks, but at most %d are kept: take some out first", len(shelf), MaxStocks)
	}
	b.Shelf = shelf
	return nil
}
