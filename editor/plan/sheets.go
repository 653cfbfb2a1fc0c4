package plan

import (
	"encoding/json"
	"fmt"

	"sheetsprite/engine/project"
)

// Laid is where all parts lie, as the page's maker laid them: what the editor
// needs to know of the sheets, so that it can keep their places. The page draws
// the sheets from package sheets' model.
type Laid struct {
	Revision uint64 // of the page's document that they were laid for
	Places   []project.Placement
}

// Encode is l as JSON.
func (l Laid) Encode() ([]byte, error) { return json.Marshal(l) }

// DecodeLaid reads what Encode wrote.
func DecodeLaid(data []byte) (*Laid, error) {
	l := &Laid{}
	if err := json.Unmarshal(data, l); err != nil {
		return nil, fmt.Errorf("what the maker says of the sheets can't be read: %w", err)
	}
	return l, nil
}
