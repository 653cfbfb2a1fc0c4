# Holds a jig's windows against the parts that they are for: reads the closed cuts of
# PLATE with ezdxf (the largest is the plate, the others its windows) and the parts of
# the LAYERs, grows those with Shapely's mitred buffer, and prints the area in which the
# two differ, in mm². Debian: python3-ezdxf, python3-shapely.
#
# usage: jig_windows.py CLEARANCE MOVE_X MOVE_Y PLATE LAYER...
import sys

from ezdxf import recover
from shapely.affinity import translate
from shapely.geometry import Polygon
from shapely.ops import unary_union


def rings(path):
    doc, audit = recover.readfile(path)
    assert not audit.errors and not audit.fixes, path
    for e in doc.modelspace():
        if e.dxf.layer.startswith("CUT-"):
            assert e.closed, path
            yield [tuple(p) for p in e.get_points("xy")]


clear, dx, dy = map(float, sys.argv[1:4])
plate = sorted((Polygon(r) for r in rings(sys.argv[4])), key=lambda p: p.area)
parts = []
for path in sys.argv[5:]:
    parts += [Polygon(r) for r in rings(path)]
grown = unary_union(parts).buffer(clear, join_style=2)
print(f"{len(plate) - 1} {unary_union(plate[:-1]).symmetric_difference(translate(grown, dx, dy)).area:.9f}")
