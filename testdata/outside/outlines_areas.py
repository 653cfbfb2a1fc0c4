"""Prints the polygons that GDAL's polygonize makes of a raster of labels.

usage: outlines_areas.py LABELS WIDTH HEIGHT
LABELS holds one byte a cell, row by row; 0 is empty. One line for each polygon,
joined by sides: label, area in cells, and the left, top, right and bottom edges
of its bounds, in cells.
"""

import sys

import numpy
from osgeo import gdal, ogr

path, width, height = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
labels = numpy.fromfile(path, dtype=numpy.uint8).reshape(height, width)
gdal.UseExceptions()
raster = gdal.GetDriverByName("MEM").Create("", width, height, 1, gdal.GDT_Byte)
band = raster.GetRasterBand(1)
band.WriteArray(labels)
source = ogr.GetDriverByName("Memory").CreateDataSource("")
layer = source.CreateLayer("", None, ogr.wkbPolygon)
layer.CreateField(ogr.FieldDefn("label", ogr.OFTInteger))
gdal.Polygonize(band, band, layer, 0)
for feature in layer:
    shape = feature.GetGeometryRef()
    left, right, top, bottom = shape.GetEnvelope()
    print(feature.GetField(0), f"{shape.GetArea():.6f} {left:.0f} {top:.0f} {right:.0f} {bottom:.0f}")
