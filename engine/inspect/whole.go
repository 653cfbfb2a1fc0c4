package inspect

import (
	"fmt"

	"sheetsprite/engine/outline"
	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

// NotWholeFor says why a layer can't be left whole.
type NotWholeFor uint8

// The reasons.
const (
	CutsNear   NotWholeFor = iota // two of its parts come nearer than the gap
	FrameLarge                    // no sheet takes its frame
	NoTab                         // a part has no room for a tab
)

// NotWhole says that a layer can't be left whole, as it was to be; frame is its frame's width and height.
func (c *Cutting) NotWhole(src *project.Sprite, stock project.Stock, l *outline.Layer, at shape.Point, why NotWholeFor, frame shape.Point) {
	reason := english.cutsNear
	switch why {
	case FrameLarge:
		reason = fmt.Sprintf(english.frameLarge, size(frame.X, frame.Y))
	case NoTab:
		reason = english.noTab
	}
	c.apart = append(c.apart, Finding{
		Code:   LayerNotWhole,
		Text:   fmt.Sprintf(english.notWhole, quoted(src.Name), l.Number, stock.Name, reason),
		Places: []Place{{Sprite: src.Name, Layer: l.Number, At: at}},
		Remedies: []Remedy{{
			Command: SetWhole, Args: map[string]any{"sprite": src.Name, "height": l.Height, "stock": stock.ID, "how": "apart"}, Text: english.oneByOne, Sure: true,
		}},
	})
}
