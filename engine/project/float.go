package project

import "sheetsprite/engine/shape"

// What lies between a part and what it rests on. All are typical (common
// practice, no source).
const (
	Tape        = shape.Um(100) // double-sided tape, wherever nothing floats
	UsualFoam   = 3 * shape.Mm  // under the lowest parts
	UsualFloat  = 1 * shape.Mm  // under the one height that floats inside
	LeastFloat  = shape.Um(200)
	MostFloat   = 30 * shape.Mm
	MaxHeights  = 256          // more than any stack has
	AirToCover  = 2 * shape.Mm // left free between the highest part and the cover, at least
	LowestFloat = 2            // the lowest height that can float inside: height 1 has Foam
)

// Floats says whether the parts of a height stand on foam or spacers instead of
// tape: all parts of one height or none.
func (s Stack) Floats(height int) bool {
	return height == 1 && (s.Foam > 0 || s.FoamStock != "") || height > 1 && height == s.Float
}

// SpacerStock is the ID of the stock that the spacers under the parts of a height
// are cut from; "" where there are none.
func (s Stack) SpacerStock(height int) string {
	switch {
	case height == 1:
		return s.FoamStock
	case height > 1 && height == s.Float:
		return s.FloatStock
	}
	return ""
}

// Gap is the thickness of what holds the parts of a height (1 is lowest, the
// backer where there is one) on what they rest on: Foam under height 1, FloatBy
// under the height that floats, Tape elsewhere. It is always positive. Where
// spacers are cut it counts for a stack as built only: see AsBuilt.
func (s Stack) Gap(height int) shape.Um {
	switch {
	case height == 1 && s.Foam > 0:
		return s.Foam
	case height > 1 && height == s.Float:
		return s.FloatBy
	}
	return Tape
}

// AsBuilt is the stack with what truly lies under each height: tape where a
// height was refused, and spacers taped on both sides.
func (s Stack) AsBuilt(refused []int, stocks []Stock) Stack {
	on := func(id string, foam shape.Um) shape.Um {
		for _, st := range stocks {
			if id != "" && st.ID == id {
				return st.Thickness + 2*Tape
			}
		}
		return foam
	}
	s.Foam, s.FloatBy = on(s.FoamStock, s.Foam), on(s.FloatStock, s.FloatBy)
	for _, height := range refused {
		switch height {
		case 1:
			s.Foam, s.FoamStock = 0, ""
		case s.Float:
			s.Float, s.FloatStock = 0, ""
		}
	}
	return s
}

// validateFloat checks what floats.
func (s *Stack) validateFloat() error {
	if s.Foam != 0 {
		if err := within("foam_mm", s.Foam, LeastFloat, MostFloat); err != nil {
			return err
		}
	}
	if s.Float == 1 {
		return wrong("float is 1, but height 1 stands on what foam_mm says: give 0 for none, or a height from %d", LowestFloat)
	}
	return first(
		between("float", s.Float, 0, MaxHeights),
		floatBy(s),
	)
}

// floatBy checks the foam under the floating height; without one it means nothing.
func floatBy(s *Stack) error {
	if s.Float == 0 && s.FloatBy == 0 {
		return nil
	}
	return within("float_mm", s.FloatBy, LeastFloat, MostFloat)
}
