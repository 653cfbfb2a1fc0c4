package plan

import (
	"encoding/json"
	"fmt"

	"sheetsprite/engine/project"
)

// Named is what parts are called in what was made of the project: the editor
// keeps it, so that they keep their numbers through whatever is edited.
type Named struct {
	Given   int // letters, as Project.Lettered
	Sprites []NamedSprite
}

// NamedSprite is what the parts of the sprite with that name are called.
type NamedSprite struct {
	Name    string
	Numbers project.Numbers
}

// NamedOf is what a project remembers.
func NamedOf(p *project.Project) Named {
	n := Named{Given: p.Lettered}
	for i := range p.Sprites {
		n.Sprites = append(n.Sprites, NamedSprite{p.Sprites[i].Name, p.Sprites[i].Numbers})
	}
	return n
}

// Encode is n as JSON.
func (n Named) Encode() ([]byte, error) { return json.Marshal(n) }

// DecodeNamed reads what Encode wrote.
func DecodeNamed(data []byte) (*Named, error) {
	n := &Named{}
	if err := json.Unmarshal(data, n); err != nil {
		return nil, fmt.Errorf("what the maker says of the numbers can't be read: %w", err)
	}
	return n, nil
}
