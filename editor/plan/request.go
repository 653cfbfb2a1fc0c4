// Package plan is what the page and its worker say to each other about the
// stack: the drawings that changed, and what became of them.
//
// The page sends a Request after each edit; the worker keeps its own copy of
// the drawings in a Store, plans what is waiting, the open sprite first, and
// sends back a Summary for each sprite: a quick one after the search's first
// step, then the final one. Both carry the page's revision, so that an answer that comes too
// late can be told.
package plan

import (
	"encoding/json"
	"fmt"
	"slices"

	"sheetsprite/engine/project"
)

// Request is what changed since the request before.
type Request struct {
	Revision uint64           // of the page's document, grows with each edit
	Open     int              // ID of the sprite that the maker sees: planned first
	Order    []int            // IDs of all sprites, in the project's order
	Common   *project.Project // all but the sprites; nil where that is unchanged
	Sprites  []Sprite         // the new and the changed ones
}

// Sprite is a drawing and the number that it keeps for as long as the page
// lives, however it is renamed or moved.
type Sprite struct {
	ID     int
	Sprite project.Sprite // only its first frame, the one that is cut
}

// Encode is r as JSON.
func (r Request) Encode() ([]byte, error) { return json.Marshal(r) }

// DecodeRequest reads what Encode wrote.
func DecodeRequest(data []byte) (Request, error) {
	var r Request
	if err := json.Unmarshal(data, &r); err != nil {
		return Request{}, fmt.Errorf("the page's message to the worker can't be read: %w", err)
	}
	return r, nil
}

// Store is the worker's copy of the drawings. The zero Store is empty.
type Store struct {
	revision uint64
	open     int
	order    []int
	common   project.Project
	sprites  map[int]project.Sprite
	waiting  map[int]bool
}

// Take brings the copy up to date. It refuses a request that names a sprite
// which neither it nor an earlier one brought; the copy is unchanged then, and
// the page must send all of them again.
func (s *Store) Take(r Request) error {
	brought := map[int]bool{}
	for _, sp := range r.Sprites {
		brought[sp.ID] = true
		c := sp.Sprite
		if len(c.Frames) == 0 || len(c.Frames[0].Cells) != c.W*c.H || c.W <= 0 || c.H <= 0 {
			return fmt.Errorf("the page sent sprite %d without its cells", sp.ID)
		}
	}
	for _, id := range r.Order {
		if _, known := s.sprites[id]; !known && !brought[id] {
			return fmt.Errorf("the page never sent sprite %d", id)
		}
	}
	if r.Common == nil && s.sprites == nil {
		return fmt.Errorf("the page never sent the palette")
	}
	if s.sprites == nil {
		s.sprites, s.waiting = map[int]project.Sprite{}, map[int]bool{}
	}
	if r.Common != nil {
		s.common = *r.Common
	}
	for _, sp := range r.Sprites {
		s.sprites[sp.ID] = sp.Sprite
		s.waiting[sp.ID] = true
	}
	for id := range s.sprites {
		if !slices.Contains(r.Order, id) {
			delete(s.sprites, id)
			delete(s.waiting, id)
		}
	}
	if r.Common != nil { // palette, stocks and settings touch every sprite
		for id := range s.sprites {
			s.waiting[id] = true
		}
	}
	s.revision, s.open, s.order = r.Revision, r.Open, r.Order
	return nil
}

// Revision is the last request's.
func (s *Store) Revision() uint64 { return s.revision }

// Waiting are the sprites still to be planned: the open one first, then in the
// project's order.
func (s *Store) Waiting() []int {
	var ids []int
	for _, id := range s.order {
		if s.waiting[id] {
			ids = append(ids, id)
		}
	}
	if i := slices.Index(ids, s.open); i > 0 {
		ids = slices.Insert(slices.Delete(ids, i, i+1), 0, s.open)
	}
	return ids
}

// Done says that the final plan of a sprite was sent.
func (s *Store) Done(id int) { delete(s.waiting, id) }

// One is the project with this sprite only; ok is false for an unknown one.
func (s *Store) One(id int) (p project.Project, ok bool) {
	sp, ok := s.sprites[id]
	p = s.common
	p.Sprites = []project.Sprite{sp}
	return p, ok
}

// Project is the whole project, as far as planning needs it: without the
// fields that this version doesn't know, and with first frames only.
func (s *Store) Project() project.Project {
	p := s.common
	p.Sprites = make([]project.Sprite, 0, len(s.order))
	for _, id := range s.order {
		p.Sprites = append(p.Sprites, s.sprites[id])
	}
	return p
}
