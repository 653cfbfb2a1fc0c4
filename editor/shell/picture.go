//go:build js

package shell

import (
	"bytes"
	"encoding/json"
	"image/png"
	"syscall/js"

	"sheetsprite/editor"
	"sheetsprite/editor/canvas"
)

// showPicture gives the canvas the picture under the grid; nil for none. A
// picture that was moved or faded only is not unpacked again.
func (s *Shell) showPicture(r *editor.Reference) {
	was := s.shown.picture
	if r == was {
		return
	}
	s.shown.picture = r
	ref := &s.glass.Grid.Reference
	if r == nil {
		ref.Clear()
		return
	}
	if was == nil || !sameBytes(was.PNG, r.PNG) {
		img, err := png.Decode(bytes.NewReader(r.PNG))
		if err != nil {
			ref.Clear()
			s.say("The picture under the grid is damaged.")
			return
		}
		ref.Set(img)
	}
	p := r.Placement
	ref.Placement = canvas.Placement{X: p.X, Y: p.Y, Scale: p.Scale, Opacity: p.Opacity}
}

// sameBytes says whether a and b are one slice: pictures are never written to.
func sameBytes(a, b []byte) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// pictures are the pictures under grids, to be kept beside the project.
func (s *Shell) pictures([]js.Value) any {
	return bytesToJS([]byte(text(s.editor.Pictures())))
}

// restorePictures lays back what pictures gave.
func (s *Shell) restorePictures(args []js.Value) any {
	var list []editor.KeptPicture
	if json.Unmarshal(bytesFromJS(args[0]), &list) == nil {
		s.editor.RestorePictures(list)
		s.changed()
	}
	return nil
}
