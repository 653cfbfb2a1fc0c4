"""Resizes pictures with OpenCV, whose scalers share nothing with ours.

usage: regrid_resize.py FOLDER < LIST
Each line of LIST: IN OUT WIDTH HEIGHT HOW QUALITY, the files in FOLDER. HOW is
nearest, exact (nearest by pixels' centres), linear, cubic, lanczos or area.
OUT is a JPEG of that quality if it is called so; QUALITY 0 means none.
"""

import sys

import cv2

ways = {
    "nearest": cv2.INTER_NEAREST,
    "exact": cv2.INTER_NEAREST_EXACT,
    "linear": cv2.INTER_LINEAR,
    "cubic": cv2.INTER_CUBIC,
    "lanczos": cv2.INTER_LANCZOS4,
    "area": cv2.INTER_AREA,
}
folder = sys.argv[1]
for line in sys.stdin:
    source, target, width, height, how, quality = line.split()
    picture = cv2.imread(f"{folder}/{source}", cv2.IMREAD_COLOR)
    picture = cv2.resize(picture, (int(width), int(height)), interpolation=ways[how])
    options = [cv2.IMWRITE_JPEG_QUALITY, int(quality)] if int(quality) else []
    if not cv2.imwrite(f"{folder}/{target}", picture, options):
        sys.exit(f"can't write {target}")
