# Writes a picture of 40 megapixels in the ways that take most memory to read:
# large_pictures.py FOLDER
import os
import sys

import cv2
import numpy as np
from osgeo import gdal

gdal.UseExceptions()
folder = sys.argv[1]
CELLS, CELL = 64, 100
rng = np.random.default_rng(3)
inks = np.array([[255, 255, 255], [34, 20, 28], [200, 110, 40], [40, 60, 230], [60, 200, 250], [70, 150, 60]], np.uint8)
drawing = rng.integers(0, 6, (CELLS, CELLS))
drawing[:6] = drawing[-6:] = 0
drawing[:, :6] = drawing[:, -6:] = 0
large = np.ones((CELL, CELL), np.uint8)
colours = np.kron(inks[drawing], large[..., None])
colours = np.clip(colours.astype(np.int16) + rng.integers(-6, 7, colours.shape, np.int16), 0, 255).astype(np.uint8)
picture = np.dstack([colours, np.kron((drawing > 0).astype(np.uint8) * 255, large)])


def opencv(name, picture, *options):
    assert cv2.imwrite(os.path.join(folder, name), picture, list(options)), name


opencv("plain.jpg", colours, cv2.IMWRITE_JPEG_QUALITY, 95)
opencv("passes.jpg", colours, cv2.IMWRITE_JPEG_QUALITY, 95, cv2.IMWRITE_JPEG_PROGRESSIVE, 1)
opencv("lossy-alpha.webp", picture, cv2.IMWRITE_WEBP_QUALITY, 85)
opencv("alpha.bmp", picture)
deep = picture.astype(np.uint16) * 257
opencv("deep.png", deep, cv2.IMWRITE_PNG_COMPRESSION, 1)
data = gdal.GetDriverByName("MEM").Create("", deep.shape[1], deep.shape[0], 4, gdal.GDT_UInt16)
for band in range(4):
    data.GetRasterBand(band + 1).WriteArray(deep[:, :, band])
options = ["PHOTOMETRIC=RGB", "ALPHA=YES", "INTERLEAVE=PIXEL", "BLOCKYSIZE=%d" % deep.shape[0]]
gdal.GetDriverByName("GTiff").CreateCopy(os.path.join(folder, "deep.tif"), data, 0, options)
