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

// NoJigFor says why a jig can't be made.
type NoJigFor uint8

// The reasons.
const (
	RoundEdges NoJigFor = iota // of a part
	JigLarge                   // no sheet takes it, or the kerf fills a window
)

// NoJig says that a jig of a height can't be made.
func (c *Cutting) NoJig(src *project.Sprite, stock project.Stock, height int, why NoJigFor) {
	reason := english.jigRound
	if why == JigLarge {
		reason = english.jigLarge
	}
	c.apart = append(c.apart, Finding{
		Code:   JigNotMade,
		Text:   fmt.Sprintf(english.noJig, quoted(src.Name), stock.Name, height, reason),
		Places: []Place{{Sprite: src.Name}},
		Remedies: []Remedy{{
			Command: SetJig, Args: map[string]any{"sprite": src.Name, "height": height, "stock": ""}, Text: english.withoutJig, Sure: true,
		}},
	})
}
