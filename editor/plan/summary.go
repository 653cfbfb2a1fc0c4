package plan

import (
	"encoding/binary"
	"encoding/json"
	"errors"

	"sheetsprite/engine/shape"
)

// Typical seconds to glue a part on (common practice, no source).
const (
	PlaceSeconds  = 45
	FiddlySeconds = 90 // a part for tweezers
)

// Tweezers: a part whose longer side is under this is for tweezers (common
// practice, no source).
const Tweezers = 4 * shape.Mm

// Summary is what became of one sprite, one copy of it.
type Summary struct {
	Revision uint64 // of the request that it was made from
	Sprite   int    // ID
	Final    bool   // false: after the first step, a better one may follow
	Problem  string // one sentence why there is no plan; what follows is then zero

	Parts    int // backer included
	Patches  int // parts if each patch were cut by itself, never with a backer
	Heights  int
	Top      shape.Um // of the highest face over the board, foam and tape included
	Refused  []int    // heights that were to float, but a part of them is too small for what lifts it
	Tweezers int      // parts with a longer side under 4 mm
	Seconds  int      // to glue them all, typically

	Colours  []Colour // highest place first
	Findings []Finding

	// Scene is what the relief shows: relief.Scene as bytes, so that shapes
	// cross in one piece and only the canvas unpacks them. Its parts are in
	// the layout's order.
	Scene []byte `json:"-"`
}

// Colour is what became of a palette entry. Parts of one stock that several
// entries share count for each entry that shows on them.
type Colour struct {
	Key     byte   // 0 for the backer
	Stock   string // ID
	Heights []int  // where it lies, lowest first
	Parts   int
}

// Finding is something to know before cutting.
type Finding struct {
	Code     string
	Severity string // refuse, look or note
	Text     string
	Count    int
	Places   []Place  // on this sprite's grid; none where it concerns the whole
	Remedies []Remedy // the best first
}

// Place is a point in cell coordinates, x right and y down from the grid's
// upper left corner.
type Place struct{ X, Y float64 }

// Remedy is what can be done about a finding: an editor command that can be undone.
type Remedy struct {
	Text    string // what it does, as an invitation
	Command string
	Args    json.RawMessage
	Asks    []string // arguments that only the maker can give
	Sure    bool     // it clears the finding; else it is worth a try
}

// wireVersion is the first byte of a summary; another one means that page and
// worker are of different builds.
const wireVersion = 1

// Encode is s as bytes: the version, the length of the JSON as a varint, the
// JSON, the scene.
func (s *Summary) Encode() ([]byte, error) {
	head, err := json.Marshal(s)
	if err != nil {
		return nil, err
	}
	out := binary.AppendUvarint([]byte{wireVersion}, uint64(len(head)))
	return append(append(out, head...), s.Scene...), nil
}

// DecodeSummary reads what Encode wrote. The scene is part of data, not a copy.
func DecodeSummary(data []byte) (*Summary, error) {
	if len(data) == 0 || data[0] != wireVersion {
		return nil, errors.New("the worker is of another build than the page: reload the page")
	}
	length, n := binary.Uvarint(data[1:])
	if n <= 0 || length > uint64(len(data)-1-n) {
		return nil, errors.New("the worker's answer is cut short: reload the page")
	}
	head, rest := data[1+n:][:length], data[1+n:][length:]
	s := &Summary{}
	if err := json.Unmarshal(head, s); err != nil {
		return nil, errors.New("the worker's answer can't be read: reload the page")
	}
	if len(rest) > 0 {
		s.Scene = rest
	}
	return s, nil
}
