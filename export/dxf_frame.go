package export

import "sheetsprite/engine/shape"

// Handles of the frame that every drawing has, each used once.
const (
	hBlockRecords = 0x1
	hLayers       = 0x2
	hStyles       = 0x3
	hLinetypes    = 0x5
	hViews        = 0x6
	hUCS          = 0x7
	hViewports    = 0x8
	hAppIDs       = 0x9
	hDimStyles    = 0xA
	hRoot         = 0xC
	hGroups       = 0xD
	hPlotStyles   = 0xE
	hPlotNormal   = 0xF
	hLayer0       = 0x10
	hStyle        = 0x11
	hAppACAD      = 0x12
	hByBlock      = 0x14
	hByLayer      = 0x15
	hContinuous   = 0x16
	hMlineStyles  = 0x17
	hMlineStyle   = 0x18
	hPlotSettings = 0x19
	hLayouts      = 0x1A
	hPaperSpace   = 0x1B
	hPaperBlock   = 0x1C
	hPaperEnd     = 0x1D
	hPaperLayout  = 0x1E
	hModelSpace   = 0x1F
	hModelBlock   = 0x20
	hModelEnd     = 0x21
	hModelLayout  = 0x22
	hDimStyle     = 0x27
	hViewport     = 0x29
	hFirstLayer   = 0x30 // layers of our own, then the entities
)

// header says what the drawing's units are and what it is bounded by.
func (d *dxf) header(size shape.Point, seed int) {
	d.section("HEADER")
	name := func(s string) { d.text(9, s) }
	name("$ACADVER")
	d.text(1, "AC1015")
	name("$DWGCODEPAGE")
	d.text(3, "ANSI_1252")
	name("$INSBASE")
	d.space(10, 0, 0)
	name("$EXTMIN")
	d.space(10, 0, 0)
	name("$EXTMAX")
	d.space(10, size.X, size.Y)
	name("$LIMMIN")
	d.point(10, 0, 0)
	name("$LIMMAX")
	d.point(10, size.X, size.Y)
	name("$LTSCALE")
	d.text(40, "1.0")
	name("$CLAYER")
	d.text(8, "0")
	name("$LUNITS")
	d.int(70, 2) // decimal
	name("$LUPREC")
	d.int(70, 3)
	name("$MEASUREMENT")
	d.int(70, 1) // metric
	name("$INSUNITS")
	d.int(70, 4) // millimetres
	name("$HANDSEED")
	d.hex(5, seed)
	d.end()
	d.section("CLASSES")
	d.end()
}

// blocks writes the two that every drawing has; what they hold stands in
// ENTITIES.
func (d *dxf) blocks() {
	d.section("BLOCKS")
	d.block("*Model_Space", hModelSpace, hModelBlock, hModelEnd, modelSpace)
	d.block("*Paper_Space", hPaperSpace, hPaperBlock, hPaperEnd, paperSpace)
	d.end()
}

// dxfSpace says in which of a drawing's two spaces something lies.
type dxfSpace int

const (
	modelSpace dxfSpace = 0
	paperSpace dxfSpace = 1
)

func (d *dxf) block(name string, record, begin, end int, space dxfSpace) {
	entity := func(kind string, handle int) {
		d.text(0, kind)
		d.hex(5, handle)
		d.hex(330, record)
		d.text(100, "AcDbEntity")
		if space == paperSpace {
			d.int(67, 1)
		}
		d.text(8, "0")
	}
	entity("BLOCK", begin)
	d.text(100, "AcDbBlockBegin")
	d.text(2, name)
	d.int(70, 0)
	d.space(10, 0, 0)
	d.text(3, name)
	d.text(1, "")
	entity("ENDBLK", end)
	d.text(100, "AcDbBlockEnd")
}

// objects writes the dictionaries: groups, layouts, line and plot styles.
func (d *dxf) objects(size shape.Point) {
	d.section("OBJECTS")
	d.dictionary("DICTIONARY", hRoot, 0, []entry{
		{"ACAD_GROUP", hGroups}, {"ACAD_LAYOUT", hLayouts}, {"ACAD_MLINESTYLE", hMlineStyles},
		{"ACAD_PLOTSETTINGS", hPlotSettings}, {"ACAD_PLOTSTYLENAME", hPlotStyles},
	})
	d.dictionary("DICTIONARY", hGroups, hRoot, nil)
	d.dictionary("DICTIONARY", hLayouts, hRoot, []entry{{"Layout1", hPaperLayout}, {"Model", hModelLayout}})
	d.dictionary("DICTIONARY", hMlineStyles, hRoot, []entry{{"Standard", hMlineStyle}})
	d.dictionary("DICTIONARY", hPlotSettings, hRoot, nil)
	d.dictionary("ACDBDICTIONARYWDFLT", hPlotStyles, hRoot, []entry{{"Normal", hPlotNormal}})
	d.text(100, "AcDbDictionaryWithDefault")
	d.hex(340, hPlotNormal)
	d.text(0, "ACDBPLACEHOLDER")
	d.hex(5, hPlotNormal)
	d.hex(330, hPlotStyles)
	d.mlineStyle()
	d.layout("Model", hModelLayout, hModelSpace, modelSpace, size)
	d.layout("Layout1", hPaperLayout, hPaperSpace, paperSpace, size)
	d.end()
}

// entry is a name in a dictionary and the handle of what it stands for.
type entry struct {
	name   string
	handle int
}

func (d *dxf) dictionary(kind string, handle, owner int, entries []entry) {
	d.text(0, kind)
	d.hex(5, handle)
	d.hex(330, owner)
	d.text(100, "AcDbDictionary")
	d.int(281, 1)
	for _, e := range entries {
		d.text(3, e.name)
		d.hex(350, e.handle)
	}
}

func (d *dxf) mlineStyle() {
	d.text(0, "MLINESTYLE")
	d.hex(5, hMlineStyle)
	d.hex(330, hMlineStyles)
	d.text(100, "AcDbMlineStyle")
	d.text(2, "Standard")
	d.int(70, 0)
	d.text(3, "")
	d.int(62, 256)
	d.text(51, "90.0")
	d.text(52, "90.0")
	d.int(71, 2)
	for _, offset := range []string{"0.5", "-0.5"} {
		d.text(49, offset)
		d.int(62, 256)
		d.text(6, "BYLAYER")
	}
}

func (d *dxf) layout(name string, handle, record int, space dxfSpace, size shape.Point) {
	d.text(0, "LAYOUT")
	d.hex(5, handle)
	d.hex(330, hLayouts)
	d.text(100, "AcDbPlotSettings")
	d.text(1, "")
	d.text(2, "none_device")
	d.text(4, "A4")
	d.text(6, "")
	for code := 40; code <= 43; code++ {
		d.mm(code, 0)
	}
	d.mm(44, 210*shape.Mm)
	d.mm(45, 297*shape.Mm)
	for code := 46; code <= 49; code++ {
		d.mm(code, 0)
	}
	d.mm(140, 0)
	d.mm(141, 0)
	d.text(142, "1.0")
	d.text(143, "1.0")
	flags := 688
	if space == modelSpace {
		flags = 1712
	}
	d.int(70, flags)
	d.int(72, 1) // millimetres
	d.int(73, 0)
	d.int(74, 5)
	d.text(7, "")
	d.int(75, 16)
	d.text(147, "1.0")
	d.mm(148, 0)
	d.mm(149, 0)
	d.text(100, "AcDbLayout")
	d.text(1, name)
	d.int(70, 1)
	d.int(71, int(space))
	d.point(10, 0, 0)
	d.point(11, size.X, size.Y)
	d.space(12, 0, 0)
	d.space(14, 0, 0)
	d.space(15, size.X, size.Y)
	d.mm(146, 0)
	d.space(13, 0, 0)
	d.space(16, shape.Mm, 0)
	d.space(17, 0, shape.Mm)
	d.int(76, 0)
	d.hex(330, record)
}
