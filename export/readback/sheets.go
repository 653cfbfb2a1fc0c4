package readback

import (
	"errors"
	"fmt"
	"io"
	"strings"
)

// sheets holds the manifest's sheets and parts against one another and against
// the files: every part of every copy is named once, and the sheets' files are
// there and can be read.
func (c contents) sheets(m manifest) error {
	if len(m.Sheets) != m.Totals.Sheets {
		return fmt.Errorf("the manifest counts %d sheets and lists %d", m.Totals.Sheets, len(m.Sheets))
	}
	if len(m.Parts) == 0 {
		if len(m.Sheets) > 0 {
			return errors.New("the manifest has sheets but no parts")
		}
		return nil
	}
	if len(m.Parts) != m.Totals.Parts {
		return fmt.Errorf("the manifest counts %d parts and lists %d", m.Totals.Parts, len(m.Parts))
	}
	type one struct {
		sprite, number string
		copy           int
	}
	seen := map[one]bool{}
	on := map[string]int{} // parts by sheet; only asked
	for _, p := range m.Parts {
		if k := (one{p.Sprite, p.Number, p.Copy}); seen[k] {
			return fmt.Errorf("part %s of sprite %s, copy %d, is listed twice", p.Number, quote(p.Sprite), p.Copy)
		} else {
			seen[k] = true
		}
		on[p.Sheet]++
	}
	for _, s := range m.Sheets {
		if on[s.DXF] != s.Parts || s.Parts == 0 {
			return fmt.Errorf("%s: the manifest counts %d parts and lists %d", s.DXF, s.Parts, on[s.DXF])
		}
		delete(on, s.DXF)
		for _, name := range []string{s.DXF, s.SVG, s.GCode, s.Bounds} {
			if name == "" {
				continue
			}
			if err := c.with(name, func(io.Reader) error { return nil }); err != nil {
				return err
			}
		}
	}
	delete(on, "") // parts without a sheet: a finding says why
	for name := range on {
		if strings.TrimSpace(name) != "" {
			return errors.New("a part is on a sheet that the manifest doesn't list")
		}
	}
	return nil
}
