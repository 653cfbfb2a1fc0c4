# Writes pictures of one motif in many ways, to see whether they are read alike however
# they are read: pictures.py FOLDER
import os
import sys

import cv2
import numpy as np
from osgeo import gdal

gdal.UseExceptions()
folder = sys.argv[1]
W, H = 157, 123
y, x = np.mgrid[0:H, 0:W]
rng = np.random.default_rng(5)
cells = rng.integers(0, 6, (9, 12))
inks = rng.integers(0, 256, (6, 3))
flat = inks[np.kron(cells, np.ones((14, 14), int))[:H, :W]]
soft = np.dstack([x * 255 // W, y * 255 // H, (x + y) * 255 // (W + H)])
noise = rng.integers(0, 256, (H, W, 3))
rgb = np.where((x < W // 2)[..., None], flat, np.where((y < H // 2)[..., None], soft, noise)).astype(np.uint8)
alpha = np.where((x - 70) ** 2 + (y - 60) ** 2 < 2500, 255, (x * 2 + y) % 256).astype(np.uint8)
rgba = np.dstack([rgb, alpha])
memory = gdal.GetDriverByName("MEM")


def opencv(name, picture, *options):
    assert cv2.imwrite(os.path.join(folder, name), picture, list(options)), name


def through_gdal(driver, name, picture, *options, colour_table=None, photometric=()):
    kind = gdal.GDT_UInt16 if picture.dtype == np.uint16 else gdal.GDT_Byte
    bands = picture.reshape(picture.shape[0], picture.shape[1], -1)
    data = memory.Create("", bands.shape[1], bands.shape[0], bands.shape[2], kind)
    for i in range(bands.shape[2]):
        band = data.GetRasterBand(i + 1)
        band.WriteArray(bands[:, :, i])
        if i < len(photometric):
            band.SetColorInterpretation(photometric[i])
        if colour_table:
            band.SetRasterColorTable(colour_table)
    gdal.GetDriverByName(driver).CreateCopy(os.path.join(folder, name), data, 0, list(options))


table = gdal.ColorTable()
for i in range(256):
    table.SetColorEntry(i, (i * 37 % 256, 255 - i, i * 91 % 256, 255))
layouts = {"strips": ["BLOCKYSIZE=7"], "one": ["BLOCKYSIZE=%d" % H], "tiles": ["TILED=YES", "BLOCKXSIZE=48", "BLOCKYSIZE=32"]}
for layout, how in layouts.items():
    for packing in ["NONE", "LZW", "PACKBITS", "DEFLATE"]:
        predictors = ["1", "2"] if packing in ("LZW", "DEFLATE") else ["1"]
        for predictor in predictors:
            options = how + ["COMPRESS=" + packing] + (["PREDICTOR=2"] if predictor == "2" else [])
            name = "-".join([layout, packing.lower(), predictor])
            through_gdal("GTiff", name + "-rgb.tif", rgb, *options)
            through_gdal("GTiff", name + "-rgba16.tif", rgba.astype(np.uint16) * 257 + 3, *options, "ALPHA=YES", "PHOTOMETRIC=RGB", "ENDIANNESS=BIG")
    through_gdal("GTiff", layout + "-rgba.tif", rgba, *how, "ALPHA=YES", "COMPRESS=LZW")
    through_gdal("GTiff", layout + "-grey16.tif", rgb[:, :, 0].astype(np.uint16) * 257, *how)
    through_gdal("GTiff", layout + "-inks.tif", rgb[:, :, 0], *how, "COMPRESS=LZW", colour_table=table)
    through_gdal("GTiff", layout + "-white.tif", rgb[:, :, 0], *how, "PHOTOMETRIC=MINISWHITE")
    through_gdal("GTiff", layout + "-bits.tif", rgb[:, :, 0] // 128, *how, "NBITS=1")
    for fax in ["CCITTFAX3", "CCITTFAX4"]:
        through_gdal("GTiff", "%s-%s.tif" % (layout, fax.lower()), rgb[:, :, 0] // 128, *how, "NBITS=1", "COMPRESS=" + fax)

for quality in [40, 95]:
    opencv("passes-%d.jpg" % quality, rgb, cv2.IMWRITE_JPEG_PROGRESSIVE, 1, cv2.IMWRITE_JPEG_QUALITY, quality)
    opencv("restarts-%d.jpg" % quality, rgb, cv2.IMWRITE_JPEG_RST_INTERVAL, 3, cv2.IMWRITE_JPEG_QUALITY, quality)
    opencv("passes-restarts-%d.jpg" % quality, rgb, cv2.IMWRITE_JPEG_PROGRESSIVE, 1, cv2.IMWRITE_JPEG_RST_INTERVAL, 5, cv2.IMWRITE_JPEG_QUALITY, quality)
    opencv("passes-grey-%d.jpg" % quality, rgb[:, :, 1], cv2.IMWRITE_JPEG_PROGRESSIVE, 1, cv2.IMWRITE_JPEG_QUALITY, quality)
    opencv("plain-%d.jpg" % quality, rgb, cv2.IMWRITE_JPEG_OPTIMIZE, 1, cv2.IMWRITE_JPEG_QUALITY, quality)
inks4 = (gdal.GCI_CyanBand, gdal.GCI_MagentaBand, gdal.GCI_YellowBand, gdal.GCI_BlackBand)
for passes in ["YES", "NO"]:
    through_gdal("JPEG", "four-inks-%s.jpg" % passes.lower(), rgba, "QUALITY=90", "PROGRESSIVE=" + passes, photometric=inks4)

opencv("lossless.webp", rgb, cv2.IMWRITE_WEBP_QUALITY, 101)
opencv("lossless-alpha.webp", rgba, cv2.IMWRITE_WEBP_QUALITY, 101)
opencv("lossless-inks.webp", flat.astype(np.uint8)[:, :, ::-1].copy(), cv2.IMWRITE_WEBP_QUALITY, 101)
opencv("lossless-two.webp", np.dstack([rgb[:, :, :1] // 128 * 255] * 3), cv2.IMWRITE_WEBP_QUALITY, 101)
opencv("lossless-soft.webp", soft.astype(np.uint8), cv2.IMWRITE_WEBP_QUALITY, 101)
opencv("lossy.webp", rgb, cv2.IMWRITE_WEBP_QUALITY, 80)
opencv("lossy-alpha.webp", rgba, cv2.IMWRITE_WEBP_QUALITY, 80)
through_gdal("PNG", "sixteen.png", rgba.astype(np.uint16) * 257 + 1)
