//go:build js

package main

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"syscall/js"

	"sheetsprite/editor/assembly"
	"sheetsprite/editor/plan"
	"sheetsprite/editor/sheets"
	"sheetsprite/engine"
	"sheetsprite/engine/project"
	"sheetsprite/export"
)

// maker keeps what it made last: most orders are about the same project.
type maker struct {
	cache    engine.Cache // of whole projects
	chosen   engine.Cache // of those of which only some sprites are cut
	laid     []*laid      // the last two, last used last: all parts, and single ones that are cut again
	names    []byte       // what the parts are called in what was asked for last
	pictures finder
	going    int   // the order that the search goes on for; 0: none
	search   *laid // what it goes on with
}

// laid is a project with its sheets.
type laid struct {
	file     []byte // the project's
	numbered []byte // the same with the numbers that its parts got
	names    []byte // those numbers
	loose    looseness
	revision uint64
	project  *project.Project
	plan     *engine.Planned
	search   *engine.SheetSearch
	bundle   []byte // once it was asked for
}

// looseness says whether places that were found earlier may be found anew.
type looseness bool

// known is a project file that was laid lately; nil where it wasn't.
func (m *maker) known(file []byte, loose looseness) *laid {
	for i, l := range m.laid {
		if l.loose == loose && (bytes.Equal(l.file, file) || bytes.Equal(l.numbered, file)) {
			m.laid = append(slices.Delete(m.laid, i, i+1), l)
			return l
		}
	}
	return nil
}

// plan takes a project through the steps that need one sprite only.
func (m *maker) plan(p *project.Project) (*engine.Planned, error) {
	return engine.Plan(p, engine.Options{Cache: m.cacheOf(p)})
}

// cacheOf is what keeps a project's steps.
func (m *maker) cacheOf(p *project.Project) *engine.Cache {
	if len(p.Choice.Sprites) > 0 {
		return &m.chosen
	}
	return &m.cache
}

// lay plans a project file, exactly as the command would, or loosely.
func (m *maker) lay(file []byte, loose looseness) (*laid, error) {
	if l := m.known(file, loose); l != nil {
		m.names = l.names
		return l, nil
	}
	p, err := project.Read(bytes.NewReader(file))
	if err != nil {
		return nil, err
	}
	whole := *p
	if loose {
		p.Places = slices.DeleteFunc(slices.Clone(p.Places), func(q project.Placement) bool { return q.Held == project.Found })
	}
	l := &laid{file: file, loose: loose, project: p}
	if l.plan, err = m.plan(p); err != nil {
		return nil, err
	}
	o := engine.Options{Cache: m.cacheOf(p)}
	if l.search, err = engine.StartSheets(p, l.plan, o); err != nil {
		return nil, err
	}
	l.search.Run(o)
	if l.plan.Sheets, l.plan.Findings, err = l.search.Best(o); err != nil {
		return nil, err
	}
	engine.PlanAssembly(p, l.plan, engine.Options{})
	if err := l.name(&whole); err != nil {
		return nil, err
	}
	m.laid = append(m.laid, l)[max(0, len(m.laid)-1):]
	m.names = l.names
	return l, nil
}

// name notes what the parts are called, now that they will be seen.
func (l *laid) name(whole *project.Project) error {
	var file bytes.Buffer
	err := l.plan.Remembered(whole).Write(&file)
	if err == nil {
		l.numbered = file.Bytes()
		l.names, err = namesIn(l.plan, whole)
	}
	return err
}

// namesIn is what the parts of a plan are called.
func namesIn(planned *engine.Planned, p *project.Project) ([]byte, error) {
	return plan.NamedOf(planned.Remembered(p)).Encode()
}

// haste says whether an answer may come before the sheets are laid.
type haste bool

// assembly is how all parts are put together, single ones that are cut again or
// not, and what the page's editor needs to know of it. In haste it doesn't say
// where parts lie on sheets, unless that is known.
func (m *maker) assembly(file []byte, revision uint64, quick haste) (map[string]any, error) {
	p, err := project.Read(bytes.NewReader(file))
	if err != nil {
		return nil, err
	}
	if len(p.Choice.Parts) > 0 {
		p.Choice.Parts = nil
		var whole bytes.Buffer
		if err := p.Write(&whole); err != nil {
			return nil, err
		}
		file = whole.Bytes()
	}
	var plan *engine.Planned
	if l := m.known(file, false); l == nil && bool(quick) {
		if plan, err = m.plan(p); err != nil {
			return nil, err
		}
		engine.PlanAssembly(p, plan, engine.Options{})
	} else {
		if l, err = m.lay(file, false); err != nil {
			return nil, err
		}
		p, plan = l.project, l.plan
	}
	if m.names, err = namesIn(plan, p); err != nil {
		return nil, err
	}
	model, brief := assembly.Build(p, plan)
	model.Revision, brief.Revision = revision, revision
	if !quick {
		model.Laid = "laid" // there may be none: too many parts
	}
	text, err := json.Marshal(model)
	if err != nil {
		return nil, err
	}
	told, err := brief.Encode()
	if err != nil {
		return nil, err
	}
	return map[string]any{"model": text, "steps": told}, nil
}

// bundle is the cutting files of a project file.
func (m *maker) bundle(file []byte) (map[string]any, error) {
	l, err := m.lay(file, false)
	if err != nil {
		return nil, err
	}
	if l.bundle == nil {
		if l.bundle, err = export.Build(export.Job{Project: l.project, Plan: l.plan}); err != nil {
			return nil, err
		}
	}
	return map[string]any{"data": l.bundle}, nil
}

// file is one file of the bundle, so that it was read back like all of them.
func (m *maker) file(project []byte, path string) (map[string]any, error) {
	made, err := m.bundle(project)
	if err != nil {
		return nil, err
	}
	data, _ := made["data"].([]byte)
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, err
	}
	f, err := z.Open(path)
	if err != nil {
		return nil, fmt.Errorf("there is no file %s any more: the sheets have changed, so choose it anew", path)
	}
	text, err := io.ReadAll(f)
	if err != nil {
		return nil, err
	}
	return map[string]any{"data": text}, nil
}

// The ladder's usual powers and speeds, as the command's.
var (
	ladderPower = engine.Range{Low: 10, High: 60, Steps: 6}
	ladderSpeed = engine.Range{Low: 5, High: 30, Steps: 6}
)

// ladderRange is what the page asks for, [least, largest], or the usual.
func ladderRange(asked js.Value, what string, usual engine.Range, most int) (engine.Range, error) {
	if !asked.Truthy() {
		return usual, nil
	}
	r := engine.Range{Low: asked.Index(0).Int(), High: asked.Index(1).Int(), Steps: usual.Steps}
	if r.Low < 1 || r.High <= r.Low || r.High > most {
		return r, fmt.Errorf("the ladder's %s are from the least to the largest, 1 to %d: %d to %d can't be", what, most, r.Low, r.High)
	}
	return r, nil
}

// testPieces is a zip of small pieces to cut before the job.
func (m *maker) testPieces(file []byte, powers, speeds js.Value) (map[string]any, error) {
	l, err := m.lay(file, false)
	if err != nil {
		return nil, err
	}
	speed := ladderSpeed
	if l.project.Machine().Unit == project.PerMinute {
		speed.Low, speed.High = speed.Low*60, speed.High*60
	}
	power, err := ladderRange(powers, "powers", ladderPower, 100)
	if err == nil {
		speed, err = ladderRange(speeds, "speeds", speed, 1000000)
	}
	if err != nil {
		return nil, err
	}
	pieces, err := engine.TestPieces(l.project, l.plan, power, speed)
	if err != nil {
		return nil, err
	}
	data, err := export.TestPieces(l.project, pieces)
	if err != nil {
		return nil, err
	}
	return map[string]any{"data": data}, nil
}

// sheets is what the page draws, and the places that its editor keeps.
func (m *maker) sheets(file []byte, revision uint64, loose looseness) (map[string]any, error) {
	l, err := m.lay(file, loose)
	if err != nil {
		return nil, err
	}
	l.revision, m.search = revision, l
	return l.answer(l.plan)
}

func (l *laid) answer(planned *engine.Planned) (map[string]any, error) {
	model := sheets.Build(l.project, planned, export.SheetPaths(export.Job{Project: l.project, Plan: planned}))
	model.Revision = l.revision
	if l.search.Done() {
		model.Better = "no more"
	}
	text, err := json.Marshal(model)
	if err != nil {
		return nil, err
	}
	places := plan.Laid{Revision: l.revision}
	if planned.Sheets != nil && len(l.project.Choice.Parts) == 0 {
		places.Places = planned.Sheets.Placements(l.project, planned)
	}
	kept, err := places.Encode()
	if err != nil {
		return nil, err
	}
	return map[string]any{"model": text, "places": kept}, nil
}

// rounds is how long the search goes on before the browser has its turn.
const rounds = 20

// goOn looks for a tighter layout, and tells where it found one.
func (m *maker) goOn() {
	l := m.search
	better := l.search.Improve(rounds, 1)
	if l.search.Done() {
		defer func() { m.going = 0 }()
	} else if !better {
		return
	}
	planned := *l.plan
	var err error
	if planned.Sheets, planned.Findings, err = l.search.Best(engine.Options{}); err == nil {
		var answer map[string]any
		if answer, err = l.answer(&planned); err == nil {
			post(m.going, answer)
			return
		}
	}
	post(m.going, map[string]any{"refused": err.Error()})
}

// snap is the free place nearest to the one that is wanted.
func (m *maker) snap(file, want []byte) (map[string]any, error) {
	l, err := m.lay(file, false)
	if err != nil {
		return nil, err
	}
	var w project.Placement
	if err := json.Unmarshal(want, &w); err != nil {
		return nil, err
	}
	if l.plan.Sheets == nil {
		return nil, errors.New("there are no sheets to move parts on")
	}
	got, ok := l.plan.Sheets.Snap(l.project, l.plan, w)
	if !ok {
		return nil, fmt.Errorf("%s has no free place on that sheet, turned like this", w.Part)
	}
	text, err := json.Marshal(got)
	if err != nil {
		return nil, err
	}
	return map[string]any{"data": text}, nil
}
