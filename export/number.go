package export

import (
	"strconv"

	"sheetsprite/engine/shape"
)

// appendMm adds v in millimetres to b: at most 3 decimals, exact, no trailing
// zeros ("12", "0.3", "-1.005").
func appendMm(b []byte, v shape.Um) []byte { return appendDecimal(b, int64(v), 3) }

// appendMm2 adds v in square millimetres to b: at most 6 decimals, exact, no
// trailing zeros.
func appendMm2(b []byte, v shape.Um2) []byte { return appendDecimal(b, int64(v), 6) }

// appendDecimal adds v / 10^places to b, exact and without trailing zeros.
func appendDecimal(b []byte, v int64, places int) []byte {
	u := uint64(v)
	if v < 0 {
		b = append(b, '-')
		u = -u
	}
	scale := uint64(1)
	for range places {
		scale *= 10
	}
	b = strconv.AppendUint(b, u/scale, 10)
	rest := u % scale
	if rest == 0 {
		return b
	}
	b = append(b, '.')
	for rest > 0 {
		scale /= 10
		b = append(b, byte('0'+rest/scale))
		rest %= scale
	}
	return b
}

// mmText is v in millimetres, as in appendMm.
func mmText(v shape.Um) string { return string(appendMm(nil, v)) }

// mmNumber is a length that JSON shows in millimetres.
type mmNumber shape.Um

// MarshalJSON writes at most 3 decimals.
func (m mmNumber) MarshalJSON() ([]byte, error) { return appendMm(nil, shape.Um(m)), nil }

// mm2Number is an area that JSON shows in square millimetres.
type mm2Number shape.Um2

// MarshalJSON writes at most 6 decimals.
func (m mm2Number) MarshalJSON() ([]byte, error) { return appendMm2(nil, shape.Um2(m)), nil }
