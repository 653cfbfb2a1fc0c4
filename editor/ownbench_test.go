package editor

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
)

// The maker's machines outlive projects, and figures entered for a card on a
// machine are there again wherever that card is cut on that machine.
func TestMachinesOutliveProjects(t *testing.T) {
	e := quay(t)
	stock := e.doc.Project.Stocks[0].ID
	run(t, e, "setMachine", `{"name":"Shed laser","bedWidth":600,"bedHeight":400}`)
	run(t, e, "setUse", `{"stock":"`+stock+`","power":30,"speed":20,"kerf":0.14}`)
	run(t, e, "addMachine", `{"name":"Plotter","kind":"knife"}`)
	assert.Equal(t, project.Knife, e.doc.Project.Machine().Kind)
	assert.Equal(t, []string{"Plotter", "Shed laser"}, e.Bench().Machines)
	assert.Zero(t, e.doc.Project.Stocks[0].Kerf, "a knife has none")
	run(t, e, "useMachine", `{"name":"Shed laser"}`)
	assert.Equal(t, um(0.14), e.doc.Project.Stocks[0].Kerf)
	assert.Equal(t, 30, e.Bench().Stocks[0].Power)
	assert.Equal(t, "own", e.Bench().Own)

	run(t, e, "new", ``)
	assert.Equal(t, "Shed laser", e.doc.Project.Machine().Name, "the one that was used last")
	assert.Equal(t, []any{30, 20, 0.14}, []any{e.Bench().Stocks[0].Power, e.Bench().Stocks[0].Speed, e.Bench().Stocks[0].Kerf})
	require.NoError(t, e.doc.Project.Validate())

	// Reloaded: another editor, on the same device.
	text, err := e.MachinesText()
	require.NoError(t, err)
	f := quay(t)
	f.RestoreMachines(text)
	f.RestoreMachines([]byte("rubbish"))
	assert.Equal(t, "Laser", f.doc.Project.Machine().Name, "a project keeps what it was planned for")
	run(t, f, "useMachine", `{"name":"Shed laser"}`)
	assert.Equal(t, 30, f.Bench().Stocks[0].Power)

	// A project that came with other figures for a machine of that name.
	f.doc.Project.Bench.Machines[0].TravelSpeed = 55
	assert.Equal(t, "other", f.Bench().Own)
	run(t, f, "useMachine", `{"name":"Shed laser"}`)
	assert.Equal(t, "own", f.Bench().Own)
	assert.NotEqual(t, 55, f.doc.Project.Machine().TravelSpeed)

	assert.Contains(t, refused(t, f, "removeMachine", `{"name":"Shed laser"}`), "choose another one first")
	assert.Contains(t, refused(t, f, "setMachine", `{"name":"Plotter"}`), "another machine on your bench")
	assert.Contains(t, refused(t, f, "addMachine", `{"name":"Plotter","kind":"laser"}`), "no other one has")
	run(t, f, "removeMachine", `{"name":"Plotter"}`)
	assert.Contains(t, refused(t, f, "useMachine", `{"name":"Plotter"}`), "no machine")
}

// A bench file holds all machines with their figures; renamed ones are renamed
// on the maker's bench too.
func TestABenchFileHoldsAllMachines(t *testing.T) {
	e := quay(t)
	stock := e.doc.Project.Stocks[1].ID
	run(t, e, "setUse", `{"stock":"`+stock+`","power":30,"speed":20}`)
	run(t, e, "addMachine", `{"name":"Machine 2","kind":"laser"}`)
	run(t, e, "setMachine", `{"name":"Club laser"}`)
	run(t, e, "setUse", `{"stock":"`+stock+`","power":70,"speed":25}`)
	saved := run(t, e, "saveBench", ``).(map[string]string)
	b, err := project.ReadBench(strings.NewReader(saved["text"]))
	require.NoError(t, err)
	var names []string
	for _, m := range b.Machines {
		names = append(names, m.Name)
	}
	assert.Equal(t, []string{"Laser", "Club laser"}, names)
	u, _ := b.UseOf("Laser", stock)
	assert.Equal(t, 30, u.Power)
	u, _ = b.UseOf("Club laser", stock)
	assert.Equal(t, 70, u.Power)
	// Undone, the project is on its former machine; the bench stays the maker's.
	for e.past.done > 0 {
		require.NoError(t, e.Undo())
	}
	assert.Nil(t, e.doc.Project.Bench)
	assert.ElementsMatch(t, []string{"Laser", "Club laser"}, e.Bench().Machines)
}

// A full bench takes no further machine, and is left as it was.
func TestAFullBenchStaysAsItIs(t *testing.T) {
	e := quay(t)
	for i := 2; i <= project.MaxMachines; i++ {
		run(t, e, "addMachine", fmt.Sprintf(`{"name":"Machine %d","kind":"laser"}`, i))
	}
	was := run(t, e, "saveBench", ``)
	assert.Contains(t, refused(t, e, "addMachine", `{"name":"One more","kind":"knife"}`), "at most 100 machines")
	assert.Equal(t, was, run(t, e, "saveBench", ``))
	assert.Equal(t, project.MaxMachines, e.machinesKept())
}
