package editor

import (
	"fmt"

	"sheetsprite/editor/cells"
)

type toolArgs struct {
	Tool string `json:"tool" about:"what a finger or pen does" oneOf:"pencil|rub|fill|line|box|oval|move|pick"`
}
type keyArgs struct {
	Key string `json:"key" about:"the palette entry's key"`
}
type sidesArgs struct {
	Sides string `json:"sides" about:"which sides are drawn together" oneOf:"off|left-right|top-bottom|all-four"`
}
type optionsArgs struct {
	Body    *string `json:"body" about:"boxes and ovals: a line or filled" oneOf:"line|filled"`
	Reach   *string `json:"reach" about:"fill: joined cells, or all of that colour" oneOf:"joined|everywhere"`
	Side    *string `json:"outlineSide" about:"on which side of the edge an outline goes" oneOf:"outside|inside"`
	Corners *string `json:"outlineCorners" about:"whether an outline takes corners too" oneOf:"with|without"`
}
type cursorArgs struct {
	DX   int    `json:"dx" about:"cells to the right"`
	DY   int    `json:"dy" about:"cells down"`
	Draw string `json:"draw,omitempty" about:"whether the tool is used on the way" oneOf:"|draw"`
}

func toolCommands() []Command {
	tool := func(t Tool) string { return fmt.Sprintf(`{"tool":%q}`, t) }
	return []Command{
		command("tool", "Take a tool", func(e *Editor, a toolArgs) (any, error) {
			if Tool(a.Tool) != MoveTool && e.sel.lifted() {
				e.putDown()
			}
			e.session.Tool = Tool(a.Tool)
			return nil, nil
		}, Key{"P", "Pencil", tool(Pencil)}, Key{"R", "Rub out", tool(RubOut)}, Key{"F", "Fill", tool(FillTool)},
			Key{"L", "Line", tool(LineTool)}, Key{"B", "Box", tool(BoxTool)}, Key{"O", "Oval", tool(OvalTool)},
			Key{"M", "Move", tool(MoveTool)}, Key{"C", "Pick a colour from the drawing", tool(PickTool)}),
		command("choose", "Choose the colour to draw with", func(e *Editor, a keyArgs) (any, error) {
			k, err := e.paletteKey("choose", a.Key)
			if err != nil {
				return nil, err
			}
			e.session.Key = string(k)
			switch e.session.Tool {
			case RubOut, PickTool: // a colour was chosen to draw with
				e.session.Tool = Pencil
			}
			return nil, nil
		}),
		command("chooseNext", "The next colour", func(e *Editor, a stepArgs) (any, error) {
			p := e.doc.Project.Palette
			e.session.Key = string(p[around(e.doc.colour(e.key()), a.By, len(p))].Key)
			return nil, nil
		}, Key{"]", "The next colour", `{"by":1}`}, Key{"[", "The colour before", `{"by":-1}`}),
		command("bothSides", "Draw both sides", func(e *Editor, a sidesArgs) (any, error) {
			e.session.Sides = cells.Sides(a.Sides)
			return nil, nil
		}, Key{"D", "Draw both sides: left and right", `{"sides":"left-right"}`},
			Key{"Shift+D", "Draw top and bottom", `{"sides":"top-bottom"}`},
			Key{"Ctrl+Alt+D", "Draw all four quarters", `{"sides":"all-four"}`},
			Key{"N", "Draw one side", `{"sides":"off"}`}),
		command("toolOptions", "How tools draw", runOptions,
			Key{"Shift+B", "Filled boxes and ovals", `{"body":"filled"}`}, Key{"Ctrl+Alt+B", "Boxes and ovals as a line", `{"body":"line"}`},
			Key{"Shift+F", "Fill all of that colour", `{"reach":"everywhere"}`}, Key{"Ctrl+Alt+F", "Fill joined cells", `{"reach":"joined"}`}),
		inStroke(command("cursor", "Go from cell to cell", runCursor,
			Key{"ArrowLeft", "One cell to the left", `{"dx":-1,"dy":0}`}, Key{"ArrowRight", "One cell to the right", `{"dx":1,"dy":0}`},
			Key{"ArrowUp", "One cell up", `{"dx":0,"dy":-1}`}, Key{"ArrowDown", "One cell down", `{"dx":0,"dy":1}`},
			Key{"Shift+ArrowLeft", "Draw to the left", `{"dx":-1,"dy":0,"draw":"draw"}`}, Key{"Shift+ArrowRight", "Draw to the right", `{"dx":1,"dy":0,"draw":"draw"}`},
			Key{"Shift+ArrowUp", "Draw upward", `{"dx":0,"dy":-1,"draw":"draw"}`}, Key{"Shift+ArrowDown", "Draw downward", `{"dx":0,"dy":1,"draw":"draw"}`})),
		inStroke(command("useTool", "Use the tool on the cell", func(e *Editor, _ none) (any, error) { return nil, e.useTool() },
			Key{Press: "Space"}, Key{Press: "Enter"})),
	}
}

// around is the place by steps further in a ring of n.
func around(at, by, n int) int {
	if at = (at + by) % n; at < 0 {
		at += n
	}
	return at
}

func runOptions(e *Editor, a optionsArgs) (any, error) {
	if a.Body != nil {
		e.session.Body = cells.Body(*a.Body)
	}
	if a.Reach != nil {
		e.session.Reach = cells.Reach(*a.Reach)
	}
	if a.Side != nil {
		e.session.Side = cells.Side(*a.Side)
	}
	if a.Corners != nil {
		e.session.Corner = cells.Corner(*a.Corners)
	}
	return nil, nil
}

// middleOf is the middle of a cell, as a point of a stroke.
func middleOf(c cells.Cell) []float64 { return []float64{float64(c.X) + 0.5, float64(c.Y) + 0.5} }

// runCursor moves the keyboard's cell. A figure that was begun with useTool
// follows it.
func runCursor(e *Editor, a cursorArgs) (any, error) {
	g, was := e.doc.grid(), e.session.Cursor
	e.session.AtKeys = true
	limit := func(v, by, n int) int { return max(0, min(v+max(-n, min(by, n)), n-1)) }
	now := cells.Cell{X: limit(was.X, a.DX, g.W), Y: limit(was.Y, a.DY, g.H)}
	e.session.Cursor = now
	e.view.Show(now.X, now.Y)
	switch {
	case e.stroke != nil:
		e.Extend(middleOf(now))
	case a.Draw != "" && (e.session.Tool == Pencil || e.session.Tool == RubOut):
		if err := e.Begin(middleOf(was)); err != nil {
			return nil, err
		}
		e.Extend(middleOf(now))
		e.End()
	}
	return nil, nil
}

// useTool is a press at the keyboard's cell. Lines, boxes, ovals and moves
// begin there, and end with the next press.
func (e *Editor) useTool() error {
	e.session.AtKeys = true
	if e.stroke != nil {
		e.End()
		return nil
	}
	if err := e.Begin(middleOf(e.session.Cursor)); err != nil {
		return err
	}
	if s := e.stroke; s != nil && s.freehand() {
		e.End()
	}
	return nil
}

// paletteKey is the palette entry's key that an argument names.
func (e *Editor) paletteKey(command, text string) (byte, error) {
	if len(text) != 1 || e.doc.colour(text[0]) < 0 {
		return 0, fmt.Errorf("%s: the palette has no colour %s", command, quoted(text))
	}
	return text[0], nil
}
