//go:build js

package shell

import "syscall/js"

// shelf is the maker's own shelf as a bench file, to be kept on the device.
func (s *Shell) shelf([]js.Value) any {
	data, err := s.editor.ShelfText()
	if err != nil {
		panic("shell: a shelf that can't be written: " + err.Error())
	}
	return bytesToJS(data)
}

// machines are the maker's own as a bench file, to be kept on the device.
func (s *Shell) machines([]js.Value) any {
	data, err := s.editor.MachinesText()
	if err != nil {
		panic("shell: machines that can't be written: " + err.Error())
	}
	return bytesToJS(data)
}

// restoreMachines takes up what machines gave.
func (s *Shell) restoreMachines(args []js.Value) any {
	s.editor.RestoreMachines(bytesFromJS(args[0]))
	s.changed()
	return nil
}

// restoreShelf takes up what shelf gave.
func (s *Shell) restoreShelf(args []js.Value) any {
	s.editor.RestoreShelf(bytesFromJS(args[0]))
	s.changed()
	return nil
}
