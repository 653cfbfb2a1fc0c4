package editor

import (
	"bytes"
	"encoding/json"
	"fmt"
	"hash/fnv"
	"image"
	"image/color"
	"image/png"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"sheetsprite/editor/cells"
	"sheetsprite/editor/plan"
	"sheetsprite/editor/viewport"
	"sheetsprite/engine/project"
)

// quay is a project to test with: the starter's cards, two small sprites.
func quay(t testing.TB) *Editor {
	p := StarterProject()
	p.Name = "Quay"
	p.Sprites = []project.Sprite{sprite("Buoy", `
		....A....
		...ACA...
		...ACA...
		..ABBBA..
		..ACCCA..
		.ACCCCCA.
		.AAAAAAA.`), sprite("Anchor", `
		..GG..
		..GG..
		GGGGGG
		..GG..
		G.GG.G
		GGGGGG`)}
	e, err := New(p)
	require.NoError(t, err)
	e.SetArea(viewport.Area{X: 0, Y: 56, W: 800, H: 600})
	return e
}

// sprite is a drawing from text, a row a line.
func sprite(name, text string) project.Sprite {
	rows := strings.Fields(text)
	s := project.NewSprite(name, len(rows[0]), len(rows))
	s.Frames[0].Cells = []byte(strings.Join(rows, ""))
	return s
}

// run runs a command that must not fail; args as JSON text.
func run(t testing.TB, e *Editor, name, args string) any {
	t.Helper()
	result, err := e.Run(name, json.RawMessage(args))
	require.NoError(t, err, "%s %s", name, args)
	return result
}

// refused runs a command that must fail and returns what it says.
func refused(t testing.TB, e *Editor, name, args string) string {
	t.Helper()
	was := print(e)
	_, err := e.Run(name, json.RawMessage(args))
	require.Error(t, err, "%s %s", name, args)
	require.NotErrorAs(t, err, new(*Fault))
	require.Equal(t, was, print(e), "a command that fails leaves everything as it was")
	return err.Error()
}

func rows(e *Editor) string { return strings.Join(e.State().Sprite.Rows, "\n") }

func grid(text string) string { return strings.Join(strings.Fields(text), "\n") }

// print is a hash of the whole document.
func print(e *Editor) uint64 {
	data, err := json.Marshal(e.doc.Project)
	if err != nil {
		panic(err)
	}
	h := fnv.New64a()
	h.Write(data)
	fmt.Fprint(h, e.doc.IDs)
	return h.Sum64()
}

// sound checks what must hold after every command.
func sound(t testing.TB, e *Editor, what string) {
	t.Helper()
	require.NoError(t, e.doc.Project.Validate(), what)
	require.Len(t, e.doc.IDs, len(e.doc.Project.Sprites), what)
	require.Less(t, e.doc.Open, len(e.doc.IDs), what)
	require.Less(t, e.doc.Frame, len(e.doc.sprite().Frames), what)
	require.GreaterOrEqual(t, e.doc.colour(e.key()), 0, what)
	require.True(t, e.doc.grid().Has(e.session.Cursor), what)
	if s := e.Selection(); s.lifted() && e.stroke == nil {
		g := cells.Grid{W: e.doc.sprite().W, H: e.doc.sprite().H, Cells: bytes.Clone(s.under)}
		require.Len(t, g.Cells, g.W*g.H, what)
		cells.Paste(g, s.Ink, cells.Cell{X: s.Box.X, Y: s.Box.Y}, cells.Ink)
		require.Equal(t, g.Cells, e.doc.grid().Cells, "%s: what floats lies over what is under it", what)
	}
	bytes := 0
	for i := range e.past.steps {
		bytes += e.past.steps[i].bytes
	}
	require.Equal(t, bytes, e.past.bytes, what)
	require.LessOrEqual(t, len(e.past.steps), MaxSteps, what)
}

// chance makes random arguments for commands: mostly such as could be meant,
// now and then nonsense.
type chance struct {
	*rand.Rand
	e *Editor
}

func (c chance) key() string {
	if c.IntN(30) == 0 {
		return []string{"", "..", ".", "é", "~", "Z"}[c.IntN(6)]
	}
	p := c.e.doc.Project.Palette
	return string(p[c.IntN(len(p))].Key)
}

func (c chance) name() string {
	if c.IntN(5) == 0 {
		return []string{"", "Crab", "\"><script>", "Gull\u202e", strings.Repeat("long ", 40)}[c.IntN(5)]
	}
	s := c.e.doc.Project.Sprites
	return s[c.IntN(len(s))].Name
}

// ownStock is the ID of a stock on the maker's shelf, where there is one.
func (c chance) ownStock() string {
	if len(c.e.shelf) == 0 {
		return "driftwood"
	}
	return c.e.shelf[c.IntN(len(c.e.shelf))].Stock.ID
}

func (c chance) whole() int {
	switch c.IntN(12) {
	case 0:
		return []int{-1 << 62, 1 << 62, 257, -257, 1000}[c.IntN(5)]
	case 1:
		return -c.IntN(12)
	}
	return c.IntN(9)
}

func (c chance) number() float64 {
	switch c.IntN(10) {
	case 0:
		return []float64{-1e300, 1e300, 1e-300, 0, -1}[c.IntN(5)]
	case 1:
		return c.NormFloat64() * 20
	case 2:
		return 10 + c.Float64()*250
	}
	return c.Float64() * 12
}

func (c chance) hex() string {
	if c.IntN(20) == 0 {
		return "red"
	}
	return fmt.Sprintf("#%02x%02x%02x", 51*c.IntN(6), 51*c.IntN(6), 51*c.IntN(6))
}

func (c chance) picture() []byte {
	img := image.NewNRGBA(image.Rect(0, 0, 1+c.IntN(6), 1+c.IntN(6)))
	for i := 0; i < len(img.Pix); i += 4 {
		if c.IntN(3) > 0 {
			img.Set(i/4%img.Rect.Dx(), i/4/img.Rect.Dx(), color.NRGBA{uint8(85 * c.IntN(4)), uint8(85 * c.IntN(4)), 0, 255})
		}
	}
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		panic(err)
	}
	if c.IntN(8) == 0 {
		b.Truncate(b.Len() / 2)
	}
	return b.Bytes()
}

// args fills in a command's arguments, as JSON.
func (c chance) args(cmd *Command) json.RawMessage {
	given := map[string]any{}
	typ := reflect.TypeOf(cmd.zero()).Elem()
	for i, a := range cmd.Args {
		if a.Need == "if wanted" && c.IntN(2+len(cmd.Args)/6) > 0 || c.IntN(200) == 0 {
			continue
		}
		given[a.Name] = c.arg(cmd.Name, a, typ.Field(i).Type)
	}
	if c.IntN(300) == 0 {
		given["nonsense"] = 1
	}
	data, err := json.Marshal(given)
	if err != nil {
		panic(err)
	}
	return data
}

func (c chance) arg(command string, a Arg, typ reflect.Type) any {
	if len(a.OneOf) > 0 {
		if c.IntN(100) == 0 {
			return "nonsense"
		}
		return a.OneOf[c.IntN(len(a.OneOf))]
	}
	switch a.Kind {
	case "whole number":
		if (a.Name == "copy" || a.Name == "turn") && c.IntN(8) > 0 {
			return 1 + c.IntN(3)
		}
		return c.whole()
	case "number":
		if a.Name == "opacity" && c.IntN(4) > 0 { // most numbers are more than all
			return c.Float64()
		}
		if strings.HasSuffix(a.Name, "_mm") && c.IntN(2) == 0 { // of a sheet
			return float64(10 + c.IntN(250))
		}
		return c.number()
	case "bytes":
		return c.picture()
	case "project":
		if c.IntN(2) == 0 {
			return "{}"
		}
		text, err := c.e.ProjectText()
		if err != nil {
			panic(err)
		}
		if c.IntN(2) == 0 {
			return json.RawMessage(text)
		}
		return string(text)
	case "pictures":
		list := [][]byte{c.picture()}
		for range c.IntN(3) {
			list = append(list, list[0])
		}
		return list
	case "texts":
		list := []string{}
		for range 1 + c.IntN(2) {
			list = append(list, c.ownStock())
		}
		return list
	case "numbers":
		if typ == reflect.TypeFor[[]spotArgs]() {
			var spots []any
			for range c.IntN(4) {
				spots = append(spots, []any{c.IntN(9), c.IntN(9), c.key()})
			}
			return append([]any{}, spots...)
		}
		points := []float64{}
		for range 2 * c.IntN(6) {
			points = append(points, c.number())
		}
		return points
	}
	switch a.Name {
	case "key", "from", "into", "under", "over":
		return c.key()
	case "keys":
		return c.key() + c.key()
	case "colour":
		return c.hex()
	case "part":
		return "A1-1"
	case "parts":
		if c.IntN(2) == 0 {
			return "A1-1"
		}
	case "bench":
		b := project.StarterBench()
		b.Machines, b.Shelf = b.Machines[:1], project.StarterShelves()[c.IntN(2)].Shelf[:1+c.IntN(3)]
		var text bytes.Buffer
		if err := b.Write(&text); err != nil {
			panic(err)
		}
		return text.String()
	case "core":
		return c.hex()
	case "stock":
		if cmd := named(command); cmd.Group == "My shelf" && c.IntN(8) > 0 {
			return c.ownStock()
		}
		if c.IntN(2) == 0 {
			p := c.e.doc.Project
			return p.Stocks[c.IntN(len(p.Stocks))].ID
		}
		shelf := c.e.Shelf()
		return shelf[c.IntN(len(shelf))].ID
	case "view":
		return []string{"Draw", "sheets", "Nowhere"}[c.IntN(3)]
	case "to":
		if command == "replaceColour" {
			return c.key()
		}
	}
	return c.name()
}

// some is a random command, undo and redo more often, but for those whose
// names are given.
func (c chance) some(but ...string) *Command {
	switch c.IntN(12) {
	case 0:
		return named("undo")
	case 1:
		return named("redo")
	}
	for {
		list := all()
		cmd := &list[c.IntN(len(list))]
		if !contains(but, cmd.Name) {
			return cmd
		}
	}
}

func contains(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

// assembly is what the maker's program might say of the steps.
func (c chance) assembly() *plan.Assembly {
	a := &plan.Assembly{Revision: c.e.revision}
	for _, s := range c.e.doc.Project.Sprites {
		a.Sprites = append(a.Sprites, plan.AssemblySprite{
			Name: s.Name, Copies: 3, Steps: [][]int{{0}, {1, 2}},
			Parts: []plan.AssemblyPart{{Number: "A1-1", Print: "a", Seconds: 45}, {Number: "A2-1", Print: "b", Seconds: 45}, {Number: "A2-2", Print: "b", Seconds: 90}},
		})
	}
	return a
}

// laid is where the maker might say that parts lie.
func (c chance) laid() *plan.Laid {
	p := &c.e.doc.Project
	l := &plan.Laid{Revision: c.e.revision}
	for _, s := range p.Sprites {
		for n := range 3 {
			l.Places = append(l.Places, project.Placement{
				Sprite: s.Name, Copy: n + 1, Part: "A1-1", Stock: p.Stocks[c.IntN(len(p.Stocks))].ID, Sheet: 1, Held: project.Found,
			})
		}
	}
	return l
}
