package editor

import (
	"bytes"

	"sheetsprite/editor/plan"
	"sheetsprite/engine/project"
)

// plans is what is known of the sprites' plans.
type plans struct {
	common uint64         // revision of the last change to palette, stocks or settings
	each   map[int]uint64 // the same for each sprite, by ID
	sent   uint64         // revision of the last request
	open   int            // the open sprite's ID in it
	asked  bool           // there was one
	got    map[int]*plan.Summary
	lost   map[int]bool // plans that were let go of
}

// touch says that something has to be planned again.
func (p *plans) touch(s scope, revision uint64) {
	if p.each == nil {
		p.each, p.got = map[int]uint64{}, map[int]*plan.Summary{}
		p.lost = map[int]bool{}
	}
	switch {
	case s == common:
		p.common = revision
	case s >= 0:
		p.each[int(s)] = revision
	}
}

// since is the revision from which on a sprite is as it is now.
func (p *plans) since(id int) uint64 { return max(p.common, p.each[id]) }

// PlanRequest is what the worker has to hear of since the last call; nil where
// that is nothing. It shares nothing with the document.
func (e *Editor) PlanRequest() *plan.Request {
	p := &e.plans
	if p.asked && p.sent == e.revision && p.open == e.doc.id() {
		return nil
	}
	lost := p.lost[e.doc.id()]
	delete(p.lost, e.doc.id())
	for id := range p.each { // what went needs no memory; what comes back is touched again
		if e.doc.byID(id) == nil {
			delete(p.each, id)
			delete(p.got, id)
			delete(p.lost, id)
		}
	}
	r := &plan.Request{Revision: e.revision, Open: e.doc.id(), Order: append([]int(nil), e.doc.IDs...)}
	if !p.asked || p.common > p.sent {
		c := e.doc.Project
		c.Sprites, c.Extra = nil, nil
		c.Places, c.Choice, c.Lettered = nil, project.Choice{}, 0 // every sprite is planned, whatever is cut tonight
		r.Common = &c
	}
	for i, id := range e.doc.IDs {
		if p.asked && p.each[id] <= p.sent && !(lost && id == e.doc.id()) {
			continue
		}
		s := e.doc.Project.Sprites[i]
		s.Frames = []project.Frame{{Cells: bytes.Clone(s.Frames[0].Cells)}}
		s.Extra, s.Numbers = nil, project.Numbers{}
		r.Sprites = append(r.Sprites, plan.Sprite{ID: id, Sprite: s})
	}
	p.sent, p.open, p.asked = e.revision, e.doc.id(), true
	return r
}

// ForgetWorker says that the worker was started anew: the next request has everything.
func (e *Editor) ForgetWorker() { e.plans.asked = false }

// PlanArrived takes the worker's answer. It returns false, and nothing
// changes, where it comes too late: the sprite has changed since or is gone, or
// its final plan is already here.
func (e *Editor) PlanArrived(s *plan.Summary) bool {
	p := &e.plans
	if e.doc.byID(s.Sprite) == nil || s.Revision < p.since(s.Sprite) || s.Revision > e.revision {
		return false
	}
	if old := p.got[s.Sprite]; old != nil && old.Final && !s.Final && old.Revision >= p.since(s.Sprite) {
		return false
	}
	p.got[s.Sprite] = s
	e.letGo(maxScenes)
	e.looks++
	return true
}

// maxScenes bounds what the plans' scenes take together, in bytes.
const maxScenes = 64 << 20

// letGo forgets plans of sprites that nobody looks at while all scenes together
// are too large; they are planned again when they are opened.
func (e *Editor) letGo(most int) {
	total := 0
	for _, s := range e.plans.got {
		total += len(s.Scene)
	}
	for _, id := range e.doc.IDs {
		if s := e.plans.got[id]; total > most && s != nil && id != e.doc.id() {
			total -= len(s.Scene)
			delete(e.plans.got, id)
			e.plans.lost[id] = true
		}
	}
}

// Plan is the newest plan of the open sprite, perhaps of an older drawing, and
// whether it is stale: not the final one of the drawing as it is now. nil where
// there was none yet.
func (e *Editor) Plan() (s *plan.Summary, stale bool) { return e.PlanOf(e.doc.id()) }

// PlanOf is Plan for the sprite with this number.
func (e *Editor) PlanOf(id int) (s *plan.Summary, stale bool) {
	s = e.plans.got[id]
	return s, s == nil || !s.Final || s.Revision < e.plans.since(id)
}
