package editor

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"sheetsprite/engine/project"
	"sheetsprite/engine/stack"
)

type pinArgs struct {
	Key   string `json:"key" about:"the colour's key"`
	Place string `json:"place" about:"where it is to lie" oneOf:"lowest|highest|free"`
}
type underArgs struct {
	Under string `json:"under" about:"key of the colour that lies beneath"`
	Over  string `json:"over" about:"key of the colour that lies over it"`
}
type outlineKeyArgs struct {
	Key string `json:"key" about:"key of the outline's colour; nothing: no such wish"`
}
type spareArgs struct {
	Key string `json:"key" about:"the colour's key"`
	How string `json:"how" about:"spare: cut no larger than it shows" oneOf:"spare|use"`
}
type styleArgs struct {
	Sprite *string `json:"sprite" about:"another sprite than the open one"`
	Style  string  `json:"style" about:"how the drawing becomes parts" oneOf:"fewest|side-by-side|by-hand"`
}
type foamArgs struct {
	Sprite *string `json:"sprite" about:"another sprite than the open one"`
	Mm     float64 `json:"mm" about:"how thick the foam is; 0: tape"`
	Stock  *string `json:"stock" about:"ID of a stock that spacers are cut from instead; nothing: foam or tape"`
}
type floatArgs struct {
	Sprite *string  `json:"sprite" about:"another sprite than the open one"`
	Height int      `json:"height" about:"height whose cards all stand on foam, from 2; 0: none"`
	Mm     *float64 `json:"mm" about:"how thick the foam is; nothing: as before"`
	Stock  *string  `json:"stock" about:"ID of a stock that spacers are cut from instead; nothing: foam"`
}
type wholeArgs struct {
	Sprite *string `json:"sprite" about:"another sprite than the open one"`
	Height int     `json:"height" about:"height of the layer, from 1"`
	Stock  string  `json:"stock" about:"ID of the card that it is cut from"`
	How    string  `json:"how" about:"whole: its parts stay in a frame and are laid down at once" oneOf:"whole|apart"`
}
type jigArgs struct {
	Sprite *string `json:"sprite" about:"another sprite than the open one"`
	Height int     `json:"height" about:"height whose parts it is for, from 1"`
	Stock  string  `json:"stock" about:"ID of the stock that it is cut from; nothing: no jig"`
}
type orderArgs struct {
	Keys string `json:"keys" about:"the colours' keys, lowest first"`
}
type heightsArgs struct {
	Extra int `json:"extra" about:"heights allowed beyond the number of colours"`
}

func stackCommands() []Command {
	return []Command{
		command("fewest", "Fewest parts", func(e *Editor, _ none) (any, error) {
			return nil, e.stack("Fewest parts", func(s *project.Stack) error {
				*s = project.Stack{
					Style: project.Fewest, ExtraHeights: s.ExtraHeights, Order: s.Order,
					Foam: s.Foam, Float: s.Float, FloatBy: s.FloatBy, FoamStock: s.FoamStock, FloatStock: s.FloatStock, Whole: s.Whole, Jigs: s.Jigs, Extra: s.Extra,
				}
				return nil
			})
		}, Key{Press: "G"}),
		command("pin", "Pin a card lowest or highest", func(e *Editor, a pinArgs) (any, error) {
			k, err := e.paletteKey("pin", a.Key)
			if err != nil {
				return nil, err
			}
			return nil, e.stack("Pin a card", func(s *project.Stack) error {
				s.Lowest, s.Highest = without(s.Lowest, k), without(s.Highest, k)
				switch a.Place {
				case "lowest":
					s.Lowest = with(s.Lowest, k)
				case "highest":
					s.Highest = with(s.Highest, k)
				}
				return nil
			})
		}),
		command("under", "Lay a card over another", runUnder),
		command("notUnder", "Let cards lie as they like", func(e *Editor, a underArgs) (any, error) {
			under, over, err := e.pair("notUnder", a)
			if err != nil {
				return nil, err
			}
			return nil, e.stack("Let cards lie as they like", func(s *project.Stack) error {
				s.Under = withoutPair(s.Under, under, over)
				return nil
			})
		}),
		command("outlineOnTop", "Keep the outline on top", func(e *Editor, a outlineKeyArgs) (any, error) {
			if a.Key != "" {
				if _, err := e.paletteKey("outlineOnTop", a.Key); err != nil {
					return nil, err
				}
			}
			return nil, e.stack("Outline on top", func(s *project.Stack) error {
				s.OutlineOnTop = a.Key
				return nil
			})
		}),
		command("spare", "Spare a card", func(e *Editor, a spareArgs) (any, error) {
			k, err := e.paletteKey("spare", a.Key)
			if err != nil {
				return nil, err
			}
			return nil, e.stack("Spare a card", func(s *project.Stack) error {
				s.Spare = without(s.Spare, k)
				if a.How == "spare" {
					s.Spare = with(s.Spare, k)
				}
				return nil
			})
		}),
		command("setStyle", "How the drawing becomes parts", func(e *Editor, a styleArgs) (any, error) {
			i, err := e.spriteIndex("setStyle", a.Sprite)
			if err != nil {
				return nil, err
			}
			return nil, e.face("Stack", i, func(s *project.Sprite) { s.Stack.Style = project.Style(a.Style) })
		}),
		command("order", "Order the cards by hand", func(e *Editor, a orderArgs) (any, error) {
			return nil, e.stack("Order by hand", func(s *project.Stack) error {
				for i := range len(a.Keys) {
					if _, err := e.paletteKey("order", a.Keys[i:i+1]); err != nil {
						return err
					}
					if has(a.Keys[:i], a.Keys[i]) {
						return fmt.Errorf("order: %q is there twice", a.Keys[i])
					}
				}
				s.Style, s.Order = project.ByHand, a.Keys
				return nil
			})
		}),
		command("setFoam", "Foam under the lowest cards", func(e *Editor, a foamArgs) (any, error) {
			i, err := e.spriteIndex("setFoam", a.Sprite)
			if err != nil {
				return nil, err
			}
			foam := um(a.Mm)
			if foam != 0 {
				if err := between("foam", foam, project.LeastFloat, project.MostFloat); err != nil {
					return nil, err
				}
			}
			return nil, e.liftBy("What lifts the lowest cards", i, a.Stock, func(s *project.Stack, stock string) { s.Foam, s.FoamStock = foam, stock })
		}),
		command("setWhole", "Leave a layer whole", runSetWhole),
		command("setJig", "A jig for a height", runSetJig),
		command("setFloat", "Lift all cards of one height", runSetFloat),
		command("extraHeights", "Heights beyond the colours", func(e *Editor, a heightsArgs) (any, error) {
			if a.Extra < 0 || a.Extra > project.MaxExtraHeights {
				return nil, fmt.Errorf("there may be 0 to %d heights beyond the number of colours", project.MaxExtraHeights)
			}
			return nil, e.stack("Heights", func(s *project.Stack) error {
				s.ExtraHeights = a.Extra
				return nil
			})
		}),
	}
}

// runSetFloat lifts all parts of one height by foam, or none. At most one height
// inside floats, so that another one goes back on tape.
func runSetFloat(e *Editor, a floatArgs) (any, error) {
	i, err := e.spriteIndex("setFloat", a.Sprite)
	if err != nil {
		return nil, err
	}
	if a.Height == 1 {
		return nil, errors.New("the lowest cards stand on what setFoam says: choose a height from 2, or 0 for none")
	}
	if a.Height < 0 || a.Height > project.MaxHeights {
		return nil, fmt.Errorf("the height that floats is 2 to %d, or 0 for none", project.MaxHeights)
	}
	by := e.doc.Project.Sprites[i].Stack.FloatBy
	if by == 0 {
		by = project.UsualFloat
	}
	if a.Mm != nil {
		by = um(*a.Mm)
	}
	if err := between("foam", by, project.LeastFloat, project.MostFloat); err != nil {
		return nil, err
	}
	if a.Height == 0 {
		a.Stock = nil
	}
	return nil, e.liftBy("Float", i, a.Stock, func(s *project.Stack, stock string) { s.Float, s.FloatBy, s.FloatStock = a.Height, by, stock })
}

// runSetWhole marks a layer to be left whole, or not.
func runSetWhole(e *Editor, a wholeArgs) (any, error) {
	i, err := e.spriteIndex("setWhole", a.Sprite)
	if err != nil {
		return nil, err
	}
	if a.Height < 1 || a.Height > project.MaxHeights {
		return nil, fmt.Errorf("heights are counted from 1 to %d", project.MaxHeights)
	}
	if e.doc.stock(a.Stock) < 0 {
		return nil, fmt.Errorf("setWhole: the project has no card %q", a.Stock)
	}
	was := e.doc.Project.Sprites[i].Stack
	if was.LeftWhole(a.Height, a.Stock) == (a.How == "whole") {
		return nil, nil
	}
	if len(was.Whole) >= project.MaxWhole {
		return nil, fmt.Errorf("%d layers are left whole already: take one back", len(was.Whole))
	}
	return nil, e.face("Leave a layer whole", i, func(s *project.Sprite) {
		if a.How == "whole" {
			s.Stack.Whole = append(slices.Clip(s.Stack.Whole), project.Whole{Height: a.Height, Stock: a.Stock})
			return
		}
		s.Stack.Whole = slices.DeleteFunc(slices.Clone(s.Stack.Whole), func(w project.Whole) bool { return w.Height == a.Height && w.Stock == a.Stock })
	})
}

// runSetJig wants a jig for a height, or none.
func runSetJig(e *Editor, a jigArgs) (any, error) {
	i, err := e.spriteIndex("setJig", a.Sprite)
	if err != nil {
		return nil, err
	}
	if a.Height < 1 || a.Height > project.MaxHeights {
		return nil, fmt.Errorf("heights are counted from 1 to %d", project.MaxHeights)
	}
	if e.doc.Project.Sprites[i].Stack.JigFrom(a.Height) == a.Stock {
		return nil, nil
	}
	return nil, e.liftBy("Jig", i, &a.Stock, func(s *project.Stack, stock string) {
		s.Jigs = slices.DeleteFunc(slices.Clone(s.Jigs), func(j project.Jig) bool { return j.Height == a.Height })
		if stock != "" {
			s.Jigs = append(s.Jigs, project.Jig{Height: a.Height, Stock: stock})
		}
	})
}

// liftBy changes what lifts parts of a sprite or helps to place them: foam, spacers
// or a jig of a stock, which comes into the project.
func (e *Editor) liftBy(title string, sprite int, stock *string, f func(s *project.Stack, stock string)) error {
	return e.do(title, func(c *change) error {
		id := ""
		if stock != nil && *stock != "" {
			st, err := e.findStock(*stock)
			if err != nil {
				return err
			}
			if err := c.needStock(st); err != nil {
				return err
			}
			id = st.ID
		}
		was := e.doc.Project.Sprites[sprite].Stack
		c.setSprite(e.doc.IDs[sprite], func(s *project.Sprite) { f(&s.Stack, id) })
		for _, old := range was.Stocks() {
			c.dropStock(old)
		}
		return nil
	})
}

// stack makes a step of a change to how the open sprite is stacked, where it
// can be met.
func (e *Editor) stack(title string, f func(*project.Stack) error) error {
	now := e.doc.sprite().Stack
	if err := f(&now); err != nil {
		return err
	}
	if err := e.canStack(now); err != nil {
		return err
	}
	return e.face(title, e.doc.Open, func(s *project.Sprite) { s.Stack = now })
}

// pair is two colours of the palette.
func (e *Editor) pair(command string, a underArgs) (under, over byte, err error) {
	if under, err = e.paletteKey(command, a.Under); err != nil {
		return 0, 0, err
	}
	if over, err = e.paletteKey(command, a.Over); err != nil {
		return 0, 0, err
	}
	if under == over {
		return 0, 0, errors.New("a card can't lie over itself")
	}
	return under, over, nil
}

// runUnder lays a card over another. The newest wish counts: what said the
// opposite of the two goes, pins included. By hand it moves in the order.
func runUnder(e *Editor, a underArgs) (any, error) {
	under, over, err := e.pair("under", a)
	if err != nil {
		return nil, err
	}
	return nil, e.stack("Lay a card over another", func(s *project.Stack) error {
		if s.Style == project.ByHand {
			order := without(e.wholeOrder(s.Order), over)
			i := strings.IndexByte(order, under)
			s.Order = order[:i+1] + string(rune(over)) + order[i+1:]
			return nil
		}
		if has(s.Lowest, over) && !has(s.Lowest, under) {
			s.Lowest = without(s.Lowest, over)
		}
		if has(s.Highest, under) && !has(s.Highest, over) {
			s.Highest = without(s.Highest, under)
		}
		s.Under = withoutPair(s.Under, over, under)
		if !slices.ContainsFunc(s.Under, func(u project.Under) bool { return u.Under == under && u.Over == over }) {
			s.Under = append(slices.Clone(s.Under), project.Under{Under: under, Over: over})
		}
		return nil
	})
}

// wholeOrder is an order by hand with all of the palette in it: what it
// doesn't name comes on top, in the palette's order.
func (e *Editor) wholeOrder(order string) string {
	for _, c := range e.doc.Project.Palette {
		order = with(order, c.Key)
	}
	return order
}

func withoutPair(list []project.Under, under, over byte) []project.Under {
	if !slices.ContainsFunc(list, func(u project.Under) bool { return u.Under == under && u.Over == over }) {
		return list
	}
	var left []project.Under
	for _, u := range list {
		if u.Under != under || u.Over != over {
			left = append(left, u)
		}
	}
	return left
}

// canStack says why no stack can be as s wishes: cards would each have to lie
// over another one of them. Colours of one stock count as one.
func (e *Editor) canStack(s project.Stack) error {
	number := map[string]stack.Colour{} // of each stock that s speaks of
	names := map[stack.Colour]string{}
	var all stack.Colours
	of := func(k byte) (stack.Colour, bool) {
		col := e.doc.Project.Palette[e.doc.colour(k)]
		n, ok := number[col.Stock]
		if !ok {
			if len(number) >= stack.MaxColours {
				return 0, false
			}
			n = stack.Colour(len(number) + 1)
			number[col.Stock] = n
			names[n] = col.Name
			all |= stack.Of(n)
		}
		return n, true
	}
	var r stack.Rules
	for _, u := range s.Under {
		under, ok := of(u.Under)
		over, ok2 := of(u.Over)
		if !ok || !ok2 {
			continue // more wishes than a sprite has colours: the plan shows which can be met
		}
		if under == over {
			return errors.New("both colours are cut from the same card, so neither lies over the other")
		}
		r.Under(under, over)
	}
	set := func(keys string) (set stack.Colours) {
		for i := range len(keys) {
			if n, ok := of(keys[i]); ok {
				set |= stack.Of(n)
			}
		}
		return set
	}
	lowest, highest := set(s.Lowest), set(s.Highest)
	if both := lowest & highest; both != 0 {
		return errors.New("one card can't be pinned both lowest and highest")
	}
	for c := stack.Colour(1); c <= stack.MaxColours; c++ {
		if lowest.Has(c) {
			r.Lowest(c, all&^lowest)
		}
		if highest.Has(c) {
			r.Highest(c, all&^highest)
		}
	}
	err := r.Validate()
	var clash *stack.ContradictionError
	if errors.As(err, &clash) {
		var list []string
		for c := stack.Colour(1); c <= stack.MaxColours; c++ {
			if clash.Colours.Has(c) {
				list = append(list, quoted(names[c]))
			}
		}
		return fmt.Errorf("%s would each have to lie over another: take back one of these wishes first", strings.Join(list, " and "))
	}
	return err
}
