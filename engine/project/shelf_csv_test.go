package project_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"sheetsprite/engine/project"
	"sheetsprite/engine/shape"
)

func TestReadShelfCSV(t *testing.T) {
	list, err := project.ReadShelfCSV([]byte("\ufeffName;Colour;weight_g_m2;thickness_mm;core;sides;grain;width_mm;height_mm;count\r\n" +
		"Sea blue;#2866a8;240;;#ffffff;one;long;210;297;12\r\n" +
		"Sea blue;#2866a8;240;;#ffffff;one;long;297;420;3\r\n" +
		";;;;;;;;;\r\n" +
		"\"Rope; tan\";#C69A62;;0,4;;both;;;;\r\n" +
		"Möwe;#ffffff;;;;;;;;\r\n"))
	require.NoError(t, err)
	require.Len(t, list, 3)

	sea := list[0]
	assert.Equal(t, "sea-blue", sea.Stock.ID)
	assert.Equal(t, project.Card, sea.Stock.Kind)
	assert.Equal(t, shape.Um(280), sea.Stock.Thickness, "typical of 240 g/m²")
	assert.True(t, sea.Stock.Typical)
	assert.Equal(t, project.RGB{R: 255, G: 255, B: 255}, *sea.Stock.Core)
	assert.Equal(t, project.OneSide, sea.Stock.Sides)
	assert.Equal(t, project.LongGrain, sea.Stock.Grain)
	assert.Equal(t, []project.Sheets{{W: 210 * shape.Mm, H: 297 * shape.Mm, Count: 12}, {W: 297 * shape.Mm, H: 420 * shape.Mm, Count: 3}}, sea.Sheets)

	rope := list[1].Stock
	assert.Equal(t, "Rope; tan", rope.Name)
	assert.Equal(t, shape.Um(400), rope.Thickness, "a decimal comma, where commas don't separate")
	assert.False(t, rope.Typical, "it was measured")
	assert.Equal(t, 350, rope.Weight, "typical of 0.4 mm")

	assert.Equal(t, "m-we", list[2].Stock.ID)
	assert.Equal(t, shape.Um(300), list[2].Stock.Thickness)

	b := project.StarterBench()
	require.NoError(t, b.AddToShelf(list))
	require.NoError(t, b.Validate())
	before := len(b.Shelf)
	list[1].Stock.Colour = project.RGB{R: 1}
	require.NoError(t, b.AddToShelf(list[1:2]))
	assert.Len(t, b.Shelf, before, "a stock of the same name takes its place")
	rope2, ok := b.ShelfOf("rope-tan")
	assert.True(t, ok)
	assert.Equal(t, uint8(1), rope2.Stock.Colour.R)
}

func TestReadShelfCSVRefusals(t *testing.T) {
	for _, c := range []struct{ list, says string }{
		{"", `the list is empty: begin with a row that names the columns, such as name,colour,weight_g_m2`},
		{"name,colour\n", `the list has no stocks: give one a row, below the row that names the columns`},
		{"name,color\na,#ffffff\n", `row 1: there is no column "color"; the columns are name, colour, kind, weight_g_m2, thickness_mm, core, sides, grain, width_mm, height_mm, count, laser`},
		{"name,kind\n", `row 1: there is no column "colour": the first row names the columns, and name and colour must be among them`},
		{"name,colour,name\n", `row 1: the column "name" comes twice: take one out`},
		{"name,colour\nred,\n", `row 2: there is no colour`},
		{"name,colour\nred,crimson\n", `row 2, colour: "crimson": a colour is # and six hexadecimal digits, such as #1a2b3c`},
		{"name,colour,weight_g_m2\nred,#ff0000,heavy\n", `row 2, weight_g_m2: "heavy" isn't a whole number`},
		{"name,colour,thickness_mm\nred,#ff0000,0.3\nblue,#0000ff,200\n", `row 3, thickness_mm: thickness_mm is 200, but must be 0.01 to 100 mm`},
		{"name,colour,kind\nred,#ff0000,cardboard\n", `row 2, kind: kind is "cardboard", but must be one of paper, card, mount-board, grey-board, craft-foam, felt, plywood, acrylic, other`},
		{"name,colour,width_mm\nred,#ff0000,210\n", `row 2: give width_mm and height_mm both, or neither`},
		{"name,colour\nred,#ff0000\nred,#fe0000\n", `row 3: "red" comes twice with different colours or kinds: give each its own name`},
		{"name,colour\n\"red,#ff0000\n", `row 2 can't be read`},
		{"name,colour\n\xff\xfe,#ff0000\n", `the list isn't UTF-8 text: save it as CSV UTF-8`},
	} {
		_, err := project.ReadShelfCSV([]byte(c.list))
		var bad *project.InputError
		require.ErrorAs(t, err, &bad, "%q", c.list)
		assert.True(t, strings.HasPrefix(err.Error(), c.says), "%q:\n%s", c.list, err)
	}
	_, err := project.ReadShelfCSV([]byte("name,colour\n" + strings.Repeat("x,#ff0000\n", 500_000)))
	assert.ErrorContains(t, err, "larger than")
}

// Whatever is read fits on a bench and is saved and read again.
func FuzzReadShelfCSV(f *testing.F) {
	f.Add([]byte("name,colour,weight_g_m2,width_mm,height_mm,count\nSea,#2866a8,240,210,297,4\n"))
	f.Add([]byte("name;colour;core;sides;grain;laser\nTar;#222124;#ffffff;both;short;never\n"))
	f.Add([]byte("name\tcolour\tthickness_mm\tkind\nA\t#000000\t0,5\tfelt\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		list, err := project.ReadShelfCSV(data)
		if err != nil {
			var bad *project.InputError
			require.ErrorAs(t, err, &bad)
			return
		}
		var b project.Bench
		require.NoError(t, b.AddToShelf(list))
		require.NoError(t, b.Validate())
		var out strings.Builder
		require.NoError(t, b.Write(&out))
		again, err := project.ReadBench(strings.NewReader(out.String()))
		require.NoError(t, err)
		require.Equal(t, b.Shelf, again.Shelf)
	})
}

// The usual pairs (common practice, no source), and there and back again.
func TestTypicalWeights(t *testing.T) {
	assert.Equal(t, shape.Um(150), project.TypicalThickness(project.Paper, 120))
	assert.Equal(t, shape.Um(300), project.TypicalThickness(project.Card, 260))
	assert.Equal(t, 260, project.TypicalWeight(project.Card, 300))
	assert.Equal(t, 120, project.TypicalWeight(project.Paper, 150))
	for _, k := range []project.Kind{project.Paper, project.Card, project.MountBoard, project.GreyBoard, project.CraftFoam, project.Felt, project.Plywood, project.Acrylic, project.Other, "unheard of"} {
		last := shape.Um(0)
		for g := 20; g <= 4000; g += 20 {
			um := project.TypicalThickness(k, g)
			assert.GreaterOrEqual(t, um, last)
			assert.InDelta(t, g, project.TypicalWeight(k, um), 10, "%s %d g/m²", k, g)
			last = um
		}
		assert.Zero(t, project.TypicalThickness(k, 0))
		assert.Zero(t, project.TypicalThickness(k, -5))
		assert.Zero(t, project.TypicalWeight(k, 0))
	}
}

func TestStarterShelvesAreWithinTheRules(t *testing.T) {
	shelves := project.StarterShelves()
	require.NotEmpty(t, shelves)
	for _, s := range shelves {
		var b project.Bench
		require.NotEmpty(t, s.Shelf, s.Name)
		require.NoError(t, b.AddToShelf(s.Shelf))
		assert.NoError(t, b.Validate(), s.Name)
		assert.Len(t, b.Shelf, len(s.Shelf))
	}
}

func TestWeightAndThicknessFollowOneAnother(t *testing.T) {
	card := project.NewCard("Fog", project.RGB{R: 1})
	assert.Equal(t, []any{240, shape.Um(280), true}, []any{card.Weight, card.Thickness, card.Typical})
	heavy := card.WithWeight(1200)
	assert.Equal(t, shape.Um(1380), heavy.Thickness)
	assert.Equal(t, shape.Um(1380), heavy.LeastStrip, "at least as wide as it is thick")
	assert.Equal(t, shape.Um(280), card.WithWeight(0).Thickness, "a weight that isn't known says nothing")
	thin := card.WithThickness(230)
	assert.Equal(t, []any{200, false}, []any{thin.Weight, thin.Typical})
	assert.Equal(t, shape.Um(230), thin.WithWeight(310).Thickness, "what was measured stays")
	assert.Equal(t, 310, thin.WithWeight(310).WithThickness(250).Weight, "and what was entered")
	board := card.OfKind(project.GreyBoard)
	assert.Equal(t, []any{shape.Um(2000), 1250}, []any{board.Thickness, board.Weight})
	_, ok := project.StarterNamed("eight-cards")
	assert.True(t, ok)
	_, ok = project.StarterNamed("nine")
	assert.False(t, ok)
}
