package export

import "sheetsprite/engine/shape"

// tables writes the nine tables of a drawing with their obligatory entries.
func (d *dxf) tables(size shape.Point, layers []dxfLayer) {
	d.section("TABLES")
	d.table("VPORT", hViewports, 1, func() { d.viewport(size) })
	d.table("LTYPE", hLinetypes, 3, func() {
		d.linetype("ByBlock", "", hByBlock)
		d.linetype("ByLayer", "", hByLayer)
		d.linetype("Continuous", "Solid line", hContinuous)
	})
	d.table("LAYER", hLayers, 1+len(layers), func() {
		d.layer("0", hLayer0, 7)
		for i, l := range layers {
			d.layer(l.name, hFirstLayer+i, layerColour(i, len(layers)))
		}
	})
	d.table("STYLE", hStyles, 1, d.textStyle)
	d.table("VIEW", hViews, 0, func() {})
	d.table("UCS", hUCS, 0, func() {})
	d.table("APPID", hAppIDs, 1, func() {
		d.record("APPID", hAppACAD, hAppIDs, "AcDbRegAppTableRecord", "ACAD")
		d.int(70, 0)
	})
	d.table("DIMSTYLE", hDimStyles, 1, d.dimStyle)
	d.table("BLOCK_RECORD", hBlockRecords, 2, func() {
		d.record("BLOCK_RECORD", hModelSpace, hBlockRecords, "AcDbBlockTableRecord", "*Model_Space")
		d.hex(340, hModelLayout)
		d.record("BLOCK_RECORD", hPaperSpace, hBlockRecords, "AcDbBlockTableRecord", "*Paper_Space")
		d.hex(340, hPaperLayout)
	})
	d.end()
}

// layerColour is the index of a colour that tells layers apart on a screen: one
// layer alone is black or white, several go round the six plain colours.
func layerColour(i, n int) int {
	if n == 1 {
		return 7
	}
	return i%6 + 1
}

func (d *dxf) table(name string, handle, entries int, write func()) {
	d.text(0, "TABLE")
	d.text(2, name)
	d.hex(5, handle)
	d.hex(330, 0)
	d.text(100, "AcDbSymbolTable")
	d.int(70, entries)
	if name == "DIMSTYLE" {
		d.text(100, "AcDbDimStyleTable")
		d.int(71, entries)
	}
	write()
	d.text(0, "ENDTAB")
}

// record begins an entry of a table. A dimension style's handle has a code of
// its own.
func (d *dxf) record(kind string, handle, owner int, class, name string) {
	d.text(0, kind)
	if kind == "DIMSTYLE" {
		d.hex(105, handle)
	} else {
		d.hex(5, handle)
	}
	d.hex(330, owner)
	d.text(100, "AcDbSymbolTableRecord")
	d.text(100, class)
	d.text(2, name)
}

func (d *dxf) layer(name string, handle, colour int) {
	d.record("LAYER", handle, hLayers, "AcDbLayerTableRecord", name)
	d.int(70, 0)
	d.int(62, colour)
	d.text(6, "Continuous")
	d.int(370, -3)
	d.hex(390, hPlotNormal)
}

func (d *dxf) linetype(name, about string, handle int) {
	d.record("LTYPE", handle, hLinetypes, "AcDbLinetypeTableRecord", name)
	d.int(70, 0)
	d.text(3, about)
	d.int(72, 65)
	d.int(73, 0)
	d.text(40, "0.0")
}

func (d *dxf) textStyle() {
	d.record("STYLE", hStyle, hStyles, "AcDbTextStyleTableRecord", "Standard")
	d.int(70, 0)
	d.text(40, "0.0")
	d.text(41, "1.0")
	d.text(50, "0.0")
	d.int(71, 0)
	d.text(42, "2.5")
	d.text(3, "txt")
	d.text(4, "")
}

func (d *dxf) dimStyle() {
	d.record("DIMSTYLE", hDimStyle, hDimStyles, "AcDbDimStyleTableRecord", "Standard")
	d.int(70, 0)
	d.hex(340, hStyle)
}

// viewport shows the whole drawing in a view from above.
func (d *dxf) viewport(size shape.Point) {
	d.record("VPORT", hViewport, hViewports, "AcDbViewportTableRecord", "*ACTIVE")
	d.int(70, 0)
	d.point(10, 0, 0)
	d.point(11, shape.Mm, shape.Mm)
	d.point(12, size.X/2, size.Y/2)
	d.point(13, 0, 0)
	d.point(14, 10*shape.Mm, 10*shape.Mm)
	d.point(15, 10*shape.Mm, 10*shape.Mm)
	d.space(16, 0, 0)
	d.mm(36, shape.Mm)
	d.space(17, 0, 0)
	d.mm(40, max(size.Y, size.X)*11/10)
	d.text(41, "1.0")
	d.text(42, "50.0")
	for _, code := range []int{43, 44, 50, 51} {
		d.text(code, "0.0")
	}
	d.int(71, 0)
	d.int(72, 1000)
	d.int(73, 1)
	d.int(74, 3)
	for code := 75; code <= 78; code++ {
		d.int(code, 0)
	}
}
