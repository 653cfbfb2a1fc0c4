package editor

import (
	"fmt"

	"sheetsprite/engine/project"
)

// check validates what edits may have broken, all but the cells: those are
// drawn with keys of the palette only, and commands count colours themselves.
func (d *Document) check(edits []edit) error {
	needed := false
	for _, e := range edits {
		switch e.(type) {
		case *cellsEdit, *shiftEdit, *flipEdit, *turnEdit, *sizeEdit:
		default:
			needed = true
		}
	}
	if !needed {
		return nil
	}
	if err := d.checkNames(); err != nil {
		return err
	}
	p := d.Project
	p.Sprites = make([]project.Sprite, len(d.Project.Sprites))
	cell := []project.Frame{{Cells: []byte{project.Empty}}}
	for i, s := range d.Project.Sprites {
		s.W, s.H, s.Frames = 1, 1, cell
		p.Sprites[i] = s
	}
	return p.Validate()
}

// checkNames says so in a maker's words where a sprite's name can't be.
func (d *Document) checkNames() error {
	seen := make(map[string]bool, len(d.Project.Sprites))
	for _, s := range d.Project.Sprites {
		if s.Name == "" {
			return fmt.Errorf("a sprite needs a name")
		}
		if seen[s.Name] {
			return fmt.Errorf("there is a sprite called %s already: choose another name", quoted(s.Name))
		}
		seen[s.Name] = true
	}
	return nil
}

// room says why a sprite can't take one more colour; nil where it can. Colours
// that it uses already need no room.
func room(s *project.Sprite, keys ...byte) error {
	used := usedKeys(s)
	n := 0
	for _, u := range used {
		if u {
			n++
		}
	}
	for _, k := range keys {
		if k != project.Empty && !used[k] {
			used[k] = true
			n++
		}
	}
	if n > project.MaxSpriteColours {
		return fmt.Errorf("%s would have %d colours, but a sprite may have %d: replace one of them first", quoted(s.Name), n, project.MaxSpriteColours)
	}
	return nil
}

// quoted is a name fit for a message.
func quoted(name string) string {
	if r := []rune(name); len(r) > 40 {
		name = string(r[:40]) + "…"
	}
	return fmt.Sprintf("%q", name)
}
