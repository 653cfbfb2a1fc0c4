package assemble

import "sheetsprite/engine/shape"

// Typical times to place a part. Common practice, no source.
const (
	Usual  = 45           // seconds
	Fiddly = 90           // seconds, for a part whose longer side is under Small
	Small  = 4 * shape.Mm // a part for tweezers
)

// Seconds is how long a part with these bounds typically takes.
func Seconds(bounds shape.Rect) int {
	if w, h := bounds.Size(); max(w, h) < Small {
		return Fiddly
	}
	return Usual
}
