package plan

import "sheetsprite/engine/project"

// Together is the project with the sprite id and, in the project's order, those
// others that are not waiting and that with names; at is where id is in it, -1
// where the store doesn't know it.
func (s *Store) Together(id int, with func(id int) bool) (p project.Project, at int) {
	at, p = -1, s.common
	p.Sprites = nil
	for _, other := range s.order {
		switch {
		case other == id:
			at = len(p.Sprites)
		case s.waiting[other] || !with(other):
			continue
		}
		p.Sprites = append(p.Sprites, s.sprites[other])
	}
	return p, at
}
