package engine

import "sheetsprite/engine/shape"

// StockFigures says what a stock's sheets take.
type StockFigures struct {
	Stock   string // its ID
	Sheets  int
	Card    shape.Um2 // area of its sheets and offcuts
	Parts   shape.Um2 // finished area of the parts on them
	Mass    int64     // of the parts, in mg; 0 where nobody says what a square metre weighs
	Seconds int
}

// Waste is the share of the card that becomes no part, in percent, rounded.
func (f StockFigures) Waste() int {
	if f.Card == 0 {
		return 0
	}
	return int(((f.Card-f.Parts)*100 + f.Card/2) / f.Card)
}

// Figures are those of every stock that has sheets, in their order.
func (s *Sheets) Figures() []StockFigures {
	var out []StockFigures
	for i := range s.List {
		sheet := &s.List[i]
		if n := len(out); n == 0 || out[n-1].Stock != sheet.Stock.ID {
			out = append(out, StockFigures{Stock: sheet.Stock.ID})
		}
		f := &out[len(out)-1]
		f.Sheets++
		f.Seconds += sheet.Seconds
		f.Card += shape.Um2(sheet.Size.Width) * shape.Um2(sheet.Size.Height)
		var parts shape.Um2
		for _, k := range sheet.Placed {
			parts += s.Parts[k].Piece.Part.Outline.Area()
		}
		f.Parts += parts
		// A square metre is 10¹² µm²: g/m² times µm² is 10⁻⁹ mg. Areas are taken in
		// 100 µm² first, so that nothing overflows.
		f.Mass += int64(parts/100) * int64(sheet.Stock.Weight) / 1e7
	}
	return out
}
