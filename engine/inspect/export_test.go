package inspect

import "sheetsprite/engine/project/projecttest"

// InForeignLetters writes all findings in letters that English hasn't, until back
// is called.
func InForeignLetters() (back func()) {
	was := english
	projecttest.Foreign(&english)
	return func() { english = was }
}
