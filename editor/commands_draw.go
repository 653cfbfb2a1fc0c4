package editor

import (
	"encoding/json"
	"errors"
	"fmt"

	"sheetsprite/editor/cells"
	"sheetsprite/engine/project"
)

type pointsArgs struct {
	Points []float64 `json:"points" about:"x, y, x, y … in cells from the grid's upper left corner"`
}
type beginArgs struct {
	Points []float64 `json:"points" about:"x, y, x, y … in cells from the grid's upper left corner"`
	Tool   *string   `json:"tool" about:"another tool than the one in hand" oneOf:"pencil|rub|fill|line|box|oval|move|pick"`
}
type strokeArgs struct {
	Points []float64 `json:"points" about:"x, y, x, y … in cells from the grid's upper left corner"`
	Key    *string   `json:"key" about:"another colour than the one in hand"`
}
type figureArgs struct {
	X0   int     `json:"x0" about:"column of one corner or end"`
	Y0   int     `json:"y0" about:"its row"`
	X1   int     `json:"x1" about:"column of the other"`
	Y1   int     `json:"y1" about:"its row"`
	Body *string `json:"body" about:"boxes and ovals: a line or filled" oneOf:"line|filled"`
	Key  *string `json:"key" about:"another colour than the one in hand"`
}
type fillArgs struct {
	X     int     `json:"x" about:"column"`
	Y     int     `json:"y" about:"row"`
	Reach *string `json:"reach" about:"joined cells, or all of that colour" oneOf:"joined|everywhere"`
	Key   *string `json:"key" about:"another colour than the one in hand"`
}
type cellArgs struct {
	X int `json:"x" about:"column"`
	Y int `json:"y" about:"row"`
}
type outlineArgs struct {
	Side    *string `json:"side" about:"on which side of the edge" oneOf:"outside|inside"`
	Corners *string `json:"corners" about:"whether corners are taken too" oneOf:"with|without"`
	Key     *string `json:"key" about:"another colour than the one in hand"`
	Room    string  `json:"room,omitempty" about:"whether the grid grows where the outline needs it" oneOf:"|grow|keep"`
}
type replaceArgs struct {
	From  string `json:"from" about:"key of the colour that goes, . for empty cells"`
	To    string `json:"to" about:"key of the colour that comes, . to rub out"`
	Where string `json:"where,omitempty" about:"this sprite or all" oneOf:"|sprite|project"`
}
type paintArgs struct {
	Sprite *string    `json:"sprite" about:"another sprite than the open one"`
	Cells  []spotArgs `json:"cells" about:"a list of [column, row, key]"`
}

// spotArgs is [column, row, key].
type spotArgs struct {
	at  cells.Cell
	key byte
}

// UnmarshalJSON reads [column, row, "key"].
func (s *spotArgs) UnmarshalJSON(data []byte) error {
	var key string
	if err := json.Unmarshal(data, &[]any{&s.at.X, &s.at.Y, &key}); err != nil || len(key) != 1 {
		return errors.New("a cell is [column, row, key]")
	}
	s.key = key[0]
	return nil
}

// MarshalJSON writes what UnmarshalJSON reads.
func (s spotArgs) MarshalJSON() ([]byte, error) {
	return json.Marshal([]any{s.at.X, s.at.Y, string(s.key)})
}

func drawCommands() []Command {
	return []Command{
		command("begin", "Begin a stroke", func(e *Editor, a beginArgs) (any, error) {
			tool := e.session.Tool
			if a.Tool != nil {
				tool = Tool(*a.Tool)
			}
			return nil, e.BeginWith(tool, a.Points)
		}),
		inStroke(command("extend", "Go on with the stroke", func(e *Editor, a pointsArgs) (any, error) {
			e.Extend(a.Points)
			return nil, nil
		})),
		inStroke(command("end", "End the stroke", func(e *Editor, _ none) (any, error) {
			e.End()
			return nil, nil
		})),
		inStroke(command("letGo", "Take back the stroke, or let go of what is marked", func(e *Editor, _ none) (any, error) {
			if e.stroke != nil {
				e.Cancel()
				return nil, nil
			}
			e.putDown()
			e.session.AtKeys = false
			return nil, nil
		}, Key{Press: "Escape"})),
		command("draw", "Draw a stroke", func(e *Editor, a strokeArgs) (any, error) {
			return nil, e.withKey("draw", a.Key, func() error { return e.whole(Pencil, a.Points) })
		}),
		command("rub", "Rub out along a stroke", func(e *Editor, a pointsArgs) (any, error) {
			return nil, e.whole(RubOut, a.Points)
		}),
		command("line", "Draw a line", figure(LineTool)),
		command("box", "Draw a box", figure(BoxTool)),
		command("oval", "Draw an oval", figure(OvalTool)),
		command("fill", "Fill with colour", func(e *Editor, a fillArgs) (any, error) {
			reach := e.session.Reach
			if a.Reach != nil {
				reach = cells.Reach(*a.Reach)
			}
			return nil, e.withKey("fill", a.Key, func() error {
				return e.fill(cells.Cell{X: a.X, Y: a.Y}, reach, e.key())
			})
		}),
		command("pick", "Pick a colour from a cell", func(e *Editor, a cellArgs) (any, error) {
			return nil, e.pick(cells.Cell{X: a.X, Y: a.Y})
		}),
		command("outline", "Draw an outline round everything", runOutline,
			Key{"U", "Outline round everything, outside", `{"side":"outside"}`},
			Key{"Shift+U", "Outline round everything, inside", `{"side":"inside"}`}),
		command("replaceColour", "Replace a colour", runReplace),
		command("clear", "Rub out everything", func(e *Editor, _ none) (any, error) {
			return nil, e.do("Rub out everything", func(c *change) error {
				e.putDown()
				g := e.doc.grid()
				c.cells(e.doc.id(), e.doc.Frame, cells.New(g.W, g.H).Cells)
				return nil
			})
		}, Key{Press: "Ctrl+Delete"}),
		command("paintCells", "Give single cells a colour", runPaint),
	}
}

// whole is a stroke from begin to end.
func (e *Editor) whole(tool Tool, points []float64) error {
	err := e.BeginWith(tool, points)
	e.End()
	return err
}

// withKey does something with another colour in hand; nil: with the one that is.
func (e *Editor) withKey(command string, key *string, f func() error) error {
	if key != nil {
		k, err := e.paletteKey(command, *key)
		if err != nil {
			return err
		}
		was := e.session.Key
		e.session.Key = string(k)
		defer func() { e.session.Key = was }()
	}
	return f()
}

func figure(tool Tool) func(*Editor, figureArgs) (any, error) {
	return func(e *Editor, a figureArgs) (any, error) {
		if a.Body != nil {
			was := e.session.Body
			e.session.Body = cells.Body(*a.Body)
			defer func() { e.session.Body = was }()
		}
		points := append(middleOf(cells.Cell{X: a.X0, Y: a.Y0}), middleOf(cells.Cell{X: a.X1, Y: a.Y1})...)
		return nil, e.withKey(string(tool), a.Key, func() error { return e.whole(tool, points) })
	}
}

func runOutline(e *Editor, a outlineArgs) (any, error) {
	side, corner := e.session.Side, e.session.Corner
	if a.Side != nil {
		side = cells.Side(*a.Side)
	}
	if a.Corners != nil {
		corner = cells.Corner(*a.Corners)
	}
	return nil, e.withKey("outline", a.Key, func() error {
		if err := room(e.doc.sprite(), e.key()); err != nil {
			return err
		}
		return e.do("Outline", func(c *change) error {
			e.putDown()
			if side == cells.Outside && a.Room != "keep" {
				growFor(c)
			}
			c.drawOpen(func(g cells.Grid) { cells.Outline(g, side, corner, e.key()) })
			return nil
		})
	})
}

// growFor adds a row or column of cells where the drawing reaches the grid's
// edge, so that an outline finds room; not beyond the largest grid.
func growFor(c *change) {
	g := c.doc.grid()
	in := g.Inked()
	if in.Empty() {
		return
	}
	touches := func(yes bool) int {
		if yes {
			return 1
		}
		return 0
	}
	left, top := touches(in.X == 0), touches(in.Y == 0)
	b := cells.Box{X: -left, Y: -top, W: g.W + left + touches(in.X+in.W == g.W), H: g.H + top + touches(in.Y+in.H == g.H)}
	if checkSides(b.W, b.H) == nil && (b.W != g.W || b.H != g.H) {
		c.size(c.doc.id(), func(g cells.Grid) cells.Grid { return cells.Cut(g, b) })
	}
}

func runReplace(e *Editor, a replaceArgs) (any, error) {
	keys := [2]byte{project.Empty, project.Empty}
	for i, text := range []string{a.From, a.To} {
		if text == string(project.Empty) {
			continue
		}
		k, err := e.paletteKey("replaceColour", text)
		if err != nil {
			return nil, err
		}
		keys[i] = k
	}
	from, to := keys[0], keys[1]
	return nil, e.do("Replace a colour", func(c *change) error {
		e.putDown()
		for i, id := range e.doc.IDs {
			s := &e.doc.Project.Sprites[i]
			if a.Where != "project" && id != e.doc.id() {
				continue
			}
			if from == project.Empty {
				if err := room(s, to); err != nil {
					return err
				}
			}
			for f := range s.Frames {
				c.draw(id, f, func(g cells.Grid) { cells.Replace(g, from, to) })
			}
		}
		return nil
	})
}

func runPaint(e *Editor, a paintArgs) (any, error) {
	i, err := e.spriteIndex("paintCells", a.Sprite)
	if err != nil {
		return nil, err
	}
	s := &e.doc.Project.Sprites[i]
	var keys []byte
	for _, spot := range a.Cells {
		if spot.at.X < 0 || spot.at.Y < 0 || spot.at.X >= s.W || spot.at.Y >= s.H {
			return nil, fmt.Errorf("paintCells: column %d, row %d isn't on the grid", spot.at.X, spot.at.Y)
		}
		if spot.key != project.Empty && e.doc.colour(spot.key) < 0 {
			return nil, fmt.Errorf("paintCells: the palette has no colour %s", quoted(string(spot.key)))
		}
		keys = append(keys, spot.key)
	}
	if err := room(s, keys...); err != nil {
		return nil, err
	}
	return nil, e.do("Give cells a colour", func(c *change) error {
		e.putDown()
		frame := 0
		if i == e.doc.Open {
			frame = e.doc.Frame
		}
		c.draw(e.doc.IDs[i], frame, func(g cells.Grid) {
			for _, spot := range a.Cells {
				g.Put(spot.at, spot.key)
			}
		})
		return nil
	})
}

// spriteIndex is the sprite that an argument names; nil for the open one.
func (e *Editor) spriteIndex(command string, name *string) (int, error) {
	if name == nil {
		return e.doc.Open, nil
	}
	if i := e.doc.named(*name); i >= 0 {
		return i, nil
	}
	return 0, fmt.Errorf("%s: there is no sprite %s", command, quoted(*name))
}
