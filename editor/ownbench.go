package editor

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"sheetsprite/engine/project"
)

// The maker's own machines, with how each cuts what, are kept on the device like
// the shelf: not part of a project and not undone. A project has a copy of the
// one that it is planned for. What is changed under "My bench" is changed in
// both, and a new project is planned for the machine that was used last.

type machineNameArgs struct {
	Name string `json:"name" about:"the machine's name"`
}
type newMachineArgs struct {
	Name string `json:"name" about:"what you call it"`
	Kind string `json:"kind" about:"how it cuts; its figures are typical ones" oneOf:"laser|knife|hand"`
}

func ownBenchCommands() []Command {
	return []Command{
		command("useMachine", "Choose the machine for this project", func(e *Editor, a machineNameArgs) (any, error) {
			if !e.hasMachine(a.Name) {
				return nil, fmt.Errorf("there is no machine %s on your bench", quoted(a.Name))
			}
			return nil, e.planOn("Choose a machine", e.benchFor(&e.doc.Project), a.Name)
		}),
		command("addMachine", "Another machine comes to my bench", func(e *Editor, a newMachineArgs) (any, error) {
			if a.Name == "" || e.hasMachine(a.Name) || e.doc.Project.Machine().Name == a.Name {
				return nil, fmt.Errorf("give the machine a name that no other one has: %s can't be", quoted(a.Name))
			}
			if e.machinesKept() >= project.MaxMachines {
				return nil, fmt.Errorf("a bench has at most %d machines: take one off it first", project.MaxMachines)
			}
			own := project.Bench{Machines: []project.Machine{project.NewMachine(a.Name, project.MachineKind(a.Kind))}}
			e.keepMachines(e.benchNow()) // the one that it was cut on so far stays, too
			e.keepMachines(&own)
			return nil, e.planOn("Another machine", e.benchFor(&e.doc.Project), a.Name)
		}),
		command("removeMachine", "A machine leaves my bench", func(e *Editor, a machineNameArgs) (any, error) {
			if !e.hasMachine(a.Name) {
				return nil, fmt.Errorf("there is no machine %s on your bench", quoted(a.Name))
			}
			if e.doc.Project.Machine().Name == a.Name {
				return nil, errors.New("this project is cut on that machine: choose another one first")
			}
			e.dropMachine(a.Name)
			return nil, nil
		}),
	}
}

// machinesKept is how many machines there are with the project's own.
func (e *Editor) machinesKept() int {
	n := 0
	if e.own != nil {
		n = len(e.own.Machines)
	}
	for _, m := range e.benchNow().Machines {
		if !e.hasMachine(m.Name) {
			n++
		}
	}
	return n
}

func (e *Editor) hasMachine(name string) bool {
	if e.own == nil {
		return false
	}
	_, ok := e.own.MachineNamed(name)
	return ok
}

// benchFor is a bench with the maker's machines beside the one of the project,
// how they cut its stocks, and what there is of those.
func (e *Editor) benchFor(p *project.Project) *project.Bench {
	b := &project.Bench{}
	if p.Bench != nil {
		*b = *p.Bench
	}
	b.Machines, b.Shelf, b.Uses = slices.Clone(b.Machines), slices.Clone(b.Shelf), slices.Clone(b.Uses)
	for _, s := range p.Stocks {
		if _, ok := b.ShelfOf(s.ID); ok {
			continue
		}
		shelf := project.Shelf{Stock: s}
		if i := e.onShelf(s.ID); i >= 0 {
			shelf.Sheets, shelf.Offcuts = e.shelf[i].Sheets, e.shelf[i].Offcuts
		}
		b.Shelf = append(b.Shelf, shelf)
	}
	if e.own == nil {
		return b
	}
	for _, m := range e.own.Machines {
		put(&b.Machines, m, func(o project.Machine) bool { return o.Name == m.Name })
	}
	for _, u := range e.own.Uses {
		if _, ok := b.ShelfOf(u.Stock); ok {
			put(&b.Uses, u, func(o project.Use) bool { return o.Machine == u.Machine && o.Stock == u.Stock })
		}
	}
	return b
}

// put replaces the one that is the same, or adds v.
func put[T any](list *[]T, v T, same func(T) bool) {
	if i := slices.IndexFunc(*list, same); i >= 0 {
		(*list)[i] = v
		return
	}
	*list = append(*list, v)
}

// keepMachines takes a bench's machines, and how they cut what, over into the
// maker's own.
func (e *Editor) keepMachines(b *project.Bench) {
	own := &project.Bench{}
	if e.own != nil {
		*own = *e.own
	}
	own.Machines, own.Shelf, own.Uses = slices.Clone(own.Machines), slices.Clone(own.Shelf), slices.Clone(own.Uses)
	for _, m := range b.Machines {
		put(&own.Machines, m, func(o project.Machine) bool { return o.Name == m.Name })
	}
	for _, u := range b.Uses {
		s, ok := b.ShelfOf(u.Stock)
		if !ok {
			continue
		}
		put(&own.Uses, u, func(o project.Use) bool { return o.Machine == u.Machine && o.Stock == u.Stock })
		put(&own.Shelf, project.Shelf{Stock: s.Stock}, func(o project.Shelf) bool { return o.Stock.ID == u.Stock })
	}
	e.setOwn(own)
}

// setOwn puts other machines in the old ones' place; the page hears that there
// is something to keep.
func (e *Editor) setOwn(b *project.Bench) {
	e.own = b
	e.shelfEdition++
}

// dropMachine takes a machine off the maker's bench.
func (e *Editor) dropMachine(name string) {
	if e.own == nil {
		return
	}
	own := *e.own
	own.Machines = slices.DeleteFunc(slices.Clone(own.Machines), func(m project.Machine) bool { return m.Name == name })
	own.Uses = slices.DeleteFunc(slices.Clone(own.Uses), func(u project.Use) bool { return u.Machine == name })
	e.setOwn(&own)
}

// MachinesText is the maker's machines as a bench file, to be kept on the
// device; empty where there are none.
func (e *Editor) MachinesText() ([]byte, error) {
	var text bytes.Buffer
	if e.own == nil || len(e.own.Machines) == 0 {
		return nil, nil
	}
	err := e.own.Write(&text)
	return text.Bytes(), err
}

// RestoreMachines takes up what MachinesText gave; what can't be read is left.
func (e *Editor) RestoreMachines(text []byte) {
	if b, err := project.ReadBench(bytes.NewReader(text)); err == nil {
		e.own = b
		e.looks++
	}
}

// planNew has a new project cut on the machine that was used last.
func (e *Editor) planNew(p *project.Project) error {
	if !e.hasMachine(e.session.Machine) {
		return nil
	}
	return p.PlanOn(e.benchFor(p), e.session.Machine)
}
