package export

import (
	"errors"
	"fmt"

	"sheetsprite/engine"
	"sheetsprite/engine/project"
)

// Job is what a bundle is made from: the project and what the plan made of it.
type Job struct {
	Project *project.Project
	Plan    *engine.Planned
}

// errNothing is returned where a job holds no sprite.
var errNothing = errors.New("no sprite has a coloured cell, so there is nothing to cut: draw something first")

// validate names the first thing in j that no bundle can be made from: faults
// of the caller, but for an empty drawing.
func (j Job) validate() error {
	if j.Project == nil || j.Plan == nil {
		return errors.New("export: the job has no project or no plan")
	}
	if len(j.Plan.Sprites) == 0 {
		return errNothing
	}
	last := -1
	for _, s := range j.Plan.Sprites {
		if s.Index <= last || s.Index >= len(j.Project.Sprites) {
			return fmt.Errorf("export: sprite %d of the plan isn't in the project's order", s.Index)
		}
		last = s.Index
		if s.Layout == nil || len(s.Layout.Layers) == 0 {
			return fmt.Errorf("export: sprite %q has no layers", j.Project.Sprites[s.Index].Name)
		}
		for _, l := range s.Layout.Layers {
			if l.Stock < 0 || l.Stock >= len(s.Stocks) {
				return fmt.Errorf("export: layer %d of sprite %q has no stock", l.Number, j.Project.Sprites[s.Index].Name)
			}
		}
	}
	return nil
}
