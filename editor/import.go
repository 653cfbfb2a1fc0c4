package editor

import (
	"fmt"
	"path"
	"strings"

	"sheetsprite/engine/project"
)

// ImportSprite makes a sprite of a PNG, one cell a pixel. Its colours are those
// of the palette where they are the same, else new ones with a card of their
// own. colours reduces the picture to so many; 0: don't.
func (e *Editor) ImportSprite(name string, png []byte, colours int) error {
	if colours < 0 || colours > project.MaxPalette {
		return fmt.Errorf("a picture can be reduced to 1 to %d colours", project.MaxPalette)
	}
	p, err := project.FromPNGs([]project.NamedBytes{{Name: name, Data: png}}, project.PNGOptions{Colours: colours})
	if err != nil {
		return err
	}
	return e.importFrames("Make a sprite of a picture", p)
}

// ImportFrames makes a sprite of pictures of one size, a frame each, and puts
// it behind the open one.
func (e *Editor) ImportFrames(name string, pngs [][]byte) error {
	if len(pngs) < 1 || len(pngs) > project.MaxFrames {
		return fmt.Errorf("a sprite has 1 to %d frames", project.MaxFrames)
	}
	var inputs []project.NamedBytes
	for i, png := range pngs {
		inputs = append(inputs, project.NamedBytes{Name: name, Data: png})
		if i > 0 {
			inputs[i].Name = fmt.Sprintf("%s, frame %d", name, i+1)
		}
	}
	p, err := project.FromPNGs(inputs, project.PNGOptions{})
	if err != nil {
		return err
	}
	return e.importFrames("Make a sprite of a moving picture", p)
}

// importFrames makes one sprite of the sprites of p: each is a frame.
func (e *Editor) importFrames(title string, p *project.Project) error {
	s := p.Sprites[0]
	s.Name = e.doc.freeName(s.Name)
	for i := 1; i < len(p.Sprites); i++ {
		f := &p.Sprites[i]
		if f.W != s.W || f.H != s.H {
			return fmt.Errorf("frame %d is %d × %d cells, the first one %d × %d: all frames of a sprite are of one size", i+1, f.W, f.H, s.W, s.H)
		}
		s.Frames = append(s.Frames, f.Frames[0])
	}
	return e.do(title, func(c *change) error {
		if err := c.inKeysOf(p, &s); err != nil {
			return err
		}
		return e.addBehind(c, e.doc.Open, s)
	})
}

// ImportSprites makes sprites of pictures that stood on one sheet, puts them behind
// the open one in their order, and opens the first.
func (e *Editor) ImportSprites(name string, pngs [][]byte) error {
	ext := path.Ext(name)
	var inputs []project.NamedBytes
	for i, png := range pngs {
		inputs = append(inputs, project.NamedBytes{Name: fmt.Sprintf("%s %d%s", strings.TrimSuffix(name, ext), i+1, ext), Data: png})
	}
	p, err := project.FromPNGs(inputs, project.PNGOptions{})
	if err != nil {
		return err
	}
	return e.do("Make sprites of a sheet of them", func(c *change) error {
		if err := e.doc.roomForSprites(len(p.Sprites)); err != nil {
			return err
		}
		behind := e.doc.Open + 1
		for i := range p.Sprites {
			s := p.Sprites[i]
			if err := c.inKeysOf(p, &s); err != nil {
				return err
			}
			s.Name = e.doc.freeName(s.Name)
			c.addSprites(behind+i, s)
		}
		e.openSprite(behind)
		return nil
	})
}

// inKeysOf takes a sprite of another project, with that one's keys, to keys of this
// one's palette, which grows where it must.
func (c *change) inKeysOf(p *project.Project, s *project.Sprite) error {
	var keys [256]byte
	keys[project.Empty] = project.Empty
	for _, col := range p.Palette {
		k, err := c.keyFor(col.RGB)
		if err != nil {
			return err
		}
		keys[col.Key] = k
	}
	for _, f := range s.Frames {
		for i, k := range f.Cells {
			f.Cells[i] = keys[k]
		}
	}
	return nil
}
