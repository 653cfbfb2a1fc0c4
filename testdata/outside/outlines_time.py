"""Times other programs' outlines of a raster of labels, in this process.

usage: outlines_time.py LABELS WIDTH HEIGHT
LABELS holds one byte a cell, row by row. Then, for each line on standard
input, one line on standard output, seconds and number of outlines:
  gdal    GDAL's polygonize, joined by sides, from a raster in memory to a layer in memory
  opencv  OpenCV's findContours, the sum over one mask for each label, two-level hierarchy, one thread
Reading the file and making raster and masks is not timed.
"""

import sys
import time

import cv2
import numpy
from osgeo import gdal, ogr


def main():
    path, width, height = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
    labels = numpy.fromfile(path, dtype=numpy.uint8).reshape(height, width)
    gdal.UseExceptions()
    gdal.SetConfigOption("GDAL_NUM_THREADS", "1")
    cv2.setNumThreads(1)
    raster = gdal.GetDriverByName("MEM").Create("", width, height, 1, gdal.GDT_Byte)
    raster.GetRasterBand(1).WriteArray(labels)
    masks = [(labels == v).astype(numpy.uint8) for v in numpy.unique(labels) if v != 0]
    jobs = {"gdal": lambda: polygonize(raster), "opencv": lambda: contours(masks)}
    for line in sys.stdin:
        seconds, count = jobs[line.strip()]()
        print(f"{seconds:.6f} {count}", flush=True)


def polygonize(raster):
    source = ogr.GetDriverByName("Memory").CreateDataSource("")
    layer = source.CreateLayer("", None, ogr.wkbPolygon)
    layer.CreateField(ogr.FieldDefn("label", ogr.OFTInteger))
    began = time.perf_counter()
    gdal.Polygonize(raster.GetRasterBand(1), None, layer, 0)
    return time.perf_counter() - began, layer.GetFeatureCount()


def contours(masks):
    count = 0
    began = time.perf_counter()
    for mask in masks:
        found, _ = cv2.findContours(mask, cv2.RETR_CCOMP, cv2.CHAIN_APPROX_SIMPLE)
        count += len(found)
    return time.perf_counter() - began, count


main()
