package project

import (
	"strconv"
	"strings"

	"sheetsprite/engine/shape"
)

// maxLength bounds what ParseMm takes, far above anything that is cut: 1 km.
const maxLength = 1000 * 1000 * shape.Mm

// ParseMm reads a length in millimetres with at most 3 decimals, such as "3",
// "0.25" or "-1.5", exactly: no floating point is involved. It fails with an
// InputError on anything else, "1e3" and "NaN" included.
func ParseMm(text string) (shape.Um, error) {
	digits, negative := strings.CutPrefix(text, "-")
	whole, decimals, point := strings.Cut(digits, ".")
	decimals = strings.TrimRight(decimals, "0")
	switch {
	case !onlyDigits(whole), !onlyDigits("0" + decimals), point && strings.HasSuffix(digits, "."):
		return 0, wrong("%s isn't a length: write millimetres in plain digits, such as 3 or 0.25", quote(text))
	case len(decimals) > 3:
		return 0, wrong("%s has more than 3 decimals: lengths are in mm, to 0.001", quote(text))
	}
	whole = strings.TrimLeft(whole, "0")
	if len(whole) > 9 {
		return 0, wrong("%s mm is too long: at most %s mm", quote(text), FormatMm(maxLength))
	}
	n, err := strconv.ParseInt(whole+(decimals + "000")[:3], 10, 64)
	if err != nil {
		return 0, wrong("%s isn't a length: write millimetres in plain digits, such as 3 or 0.25", quote(text))
	}
	if shape.Um(n) > maxLength {
		return 0, wrong("%s mm is too long: at most %s mm", quote(text), FormatMm(maxLength))
	}
	if negative {
		n = -n
	}
	return shape.Um(n), nil
}

// onlyDigits says whether s is one or more digits.
func onlyDigits(s string) bool {
	for _, b := range []byte(s) {
		if b < '0' || b > '9' {
			return false
		}
	}
	return s != ""
}

// FormatMm writes a length in millimetres with as few decimals as it needs,
// at most 3. ParseMm reads it back exactly.
func FormatMm(u shape.Um) string {
	sign := ""
	if u < 0 {
		sign, u = "-", -u
	}
	text := sign + strconv.FormatInt(int64(u/1000), 10)
	if rest := u % 1000; rest != 0 {
		text += "." + strings.TrimRight(strconv.FormatInt(int64(1000+rest), 10)[1:], "0")
	}
	return text
}
