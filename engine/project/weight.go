package project

import "sheetsprite/engine/shape"

// MaxWeight is the heaviest stock, in g/m²; 3 mm acrylic has about 3,600.
const MaxWeight = 100000

// bulk is the typical volume of a gram, in µm per 1000 g/m² (cm³/kg): common
// practice, no source. Of paper and card it fits the usual pairs 120 g/m² with
// 0.15 mm and 260 g/m² with 0.3 mm; acrylic's is its density, 1.19 g/cm³ (from
// memory).
var bulk = map[Kind]int64{
	Paper:      1250,
	Card:       1150,
	MountBoard: 1550,
	GreyBoard:  1600,
	CraftFoam:  6000,
	Felt:       5000,
	Plywood:    1500,
	Acrylic:    840,
	Other:      1200,
}

// TypicalThickness is what stock of a weight in g/m² typically measures, to
// 0.01 mm; 0 where the weight isn't 1 to MaxWeight.
func TypicalThickness(k Kind, weight int) shape.Um {
	if weight < 1 || weight > MaxWeight {
		return 0
	}
	const step = 10 * 1000
	um := shape.Um((int64(weight)*bulkOf(k) + step/2) / step * 10)
	return max(um, 10)
}

// TypicalWeight is what stock of a thickness typically weighs in g/m², to 5;
// 0 where the thickness isn't above 0.
func TypicalWeight(k Kind, thickness shape.Um) int {
	if thickness <= 0 {
		return 0
	}
	step := 5 * bulkOf(k)
	return max(5, int((min(int64(thickness), 100*1000)*1000+step/2)/step*5))
}

// WithWeight is s with another weight in g/m²; 0: not known. The thickness
// becomes the typical one unless the maker measured it.
func (s Stock) WithWeight(weight int) Stock {
	if s.Weight = weight; weight > 0 && s.Typical {
		s.Thickness = min(TypicalThickness(s.Kind, weight), 100*shape.Mm)
		s.LeastStrip = max(s.LeastStrip, s.Thickness) // at least as wide as it is thick
	}
	return s
}

// WithThickness is s with the thickness that the maker measured. The weight
// becomes the typical one unless another one was entered.
func (s Stock) WithThickness(thickness shape.Um) Stock {
	if s.Weight == 0 || s.Weight == TypicalWeight(s.Kind, s.Thickness) || s.Thickness == TypicalThickness(s.Kind, s.Weight) {
		s.Weight = TypicalWeight(s.Kind, thickness)
	}
	s.Thickness, s.Typical = thickness, false
	s.LeastStrip = max(s.LeastStrip, thickness)
	return s
}

// OfKind is s made of something else, with the figures that are typical of it.
func (s Stock) OfKind(k Kind) Stock {
	s.Kind = k
	s = withTypical(s)
	s.Weight = TypicalWeight(k, s.Thickness)
	return s
}

func bulkOf(k Kind) int64 {
	if b, ok := bulk[k]; ok {
		return b
	}
	return bulk[Other]
}
