"""Reads the DXF files named on its command line with two readers that are not
ours and says, one JSON object a line, what each file holds.

ezdxf's recover takes a file as it is and lists what is wrong (errors) and what it
put right (fixes); Shapely says whether each outline is a simple one and how large
the pieces are; GDAL's DXF driver must find the same number of outlines.
"""
import json
import sys

from ezdxf import recover
from ezdxf.math import bulge_to_arc
from osgeo import ogr
from shapely.geometry import Polygon

ogr.UseExceptions()


def flattened(line):
    """The outline as points, arcs cut up finely (1/1000 of a right angle)."""
    import math

    points = list(line.get_points("xyb"))
    out = []
    for i, (x, y, bulge) in enumerate(points):
        out.append((x, y))
        if bulge == 0:
            continue
        nx, ny, _ = points[(i + 1) % len(points)]
        centre, start, end, radius = bulge_to_arc((x, y), (nx, ny), bulge)
        angle = 4 * math.atan(bulge)
        first = math.atan2(y - centre.y, x - centre.x)
        steps = max(2, int(abs(angle) * 640))
        for k in range(1, steps):
            a = first + angle * k / steps
            out.append((centre.x + radius * math.cos(a), centre.y + radius * math.sin(a)))
    return out


def describe(path):
    doc, audit = recover.readfile(path)
    layers = {}
    for e in doc.modelspace():
        assert e.dxftype() == "LWPOLYLINE" and e.closed, e.dxftype()
        layers.setdefault(e.dxf.layer, []).append(Polygon(flattened(e)))
    out = {}
    for name, rings in layers.items():
        area = pieces = 0
        for i, ring in enumerate(rings):
            inside = ring.representative_point()
            depth = sum(k != i and other.contains(ring) for k, other in enumerate(rings))
            assert inside.within(ring)
            area += ring.area if depth % 2 == 0 else -ring.area
            pieces += depth % 2 == 0
        out[name] = {
            "contours": len(rings),
            "parts": pieces,
            "area": area,
            "simple": all(r.is_valid for r in rings),
        }
    bounds = [1e9, 1e9, -1e9, -1e9]
    for rings in layers.values():
        for r in rings:
            b = r.bounds
            bounds = [min(bounds[0], b[0]), min(bounds[1], b[1]), max(bounds[2], b[2]), max(bounds[3], b[3])]
    source = ogr.Open(path)
    assert source.GetDriver().GetName() == "DXF"
    return {
        "path": path,
        "version": doc.dxfversion,
        "units": doc.units,
        "errors": [str(e.message) for e in audit.errors],
        "fixes": [str(e.message) for e in audit.fixes],
        "layers": out,
        "bounds": bounds,
        "gdal": source.GetLayer(0).GetFeatureCount(),
    }


for path in sys.argv[1:]:
    print(json.dumps(describe(path)))
