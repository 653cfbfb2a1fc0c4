package plan

import (
	"encoding/json"
	"fmt"
)

// Assembly is in which order the parts of all sprites that are cut now are put
// together: what the editor needs to know, so that it can keep how far the
// maker is. The page draws the steps from package assembly's model.
type Assembly struct {
	Revision uint64 // of the page's document that they were worked out for
	Sprites  []AssemblySprite
}

// AssemblySprite is how one copy of a sprite is put together.
type AssemblySprite struct {
	Name   string
	Copies int
	Parts  []AssemblyPart
	Steps  [][]int // indices into Parts; each part is in exactly one step
}

// AssemblyPart is a part as it is told from all others.
type AssemblyPart struct {
	Number  string // as A2-3
	Print   string // the same for what is the same piece of card, wherever it lies and whatever its number
	Seconds int    // to place it, typically
}

// Encode is a as JSON.
func (a Assembly) Encode() ([]byte, error) { return json.Marshal(a) }

// DecodeAssembly reads what Encode wrote. Steps that name no part are refused.
func DecodeAssembly(data []byte) (*Assembly, error) {
	a := &Assembly{}
	if err := json.Unmarshal(data, a); err != nil {
		return nil, fmt.Errorf("what the maker says of the steps can't be read: %w", err)
	}
	for _, s := range a.Sprites {
		for _, step := range s.Steps {
			for _, i := range step {
				if i < 0 || i >= len(s.Parts) {
					return nil, fmt.Errorf("the steps of %q name a part that isn't there", s.Name)
				}
			}
		}
	}
	return a, nil
}

// Named is the sprite of this name; nil for none.
func (a *Assembly) Named(name string) *AssemblySprite {
	if a == nil {
		return nil
	}
	for i := range a.Sprites {
		if a.Sprites[i].Name == name {
			return &a.Sprites[i]
		}
	}
	return nil
}
