# Reads DXF files of sheets with ezdxf's recover mode and prints, a line of JSON
# each, what its audit says and every polyline in order: layer, closed, first
# vertex and length in mm. Debian: python3-ezdxf.
import json
import math
import sys

from ezdxf import recover
from ezdxf.math import bulge_to_arc


def way(a, b):
    chord = math.dist(a[:2], b[:2])
    if a[2] == 0 or chord == 0:
        return chord
    _, begin, end, radius = bulge_to_arc(a[:2], b[:2], a[2])
    return ((end - begin) % (2 * math.pi)) * radius


for path in sys.argv[1:]:
    doc, audit = recover.readfile(path)
    lines = []
    for e in doc.modelspace():
        points = [tuple(p) for p in e.get_points("xyb")]
        pairs = list(zip(points, points[1:]))
        if e.closed:
            pairs.append((points[-1], points[0]))
        lines.append([e.dxf.layer, bool(e.closed), points[0][:2], sum(way(a, b) for a, b in pairs)])
    print(json.dumps({
        "Version": doc.dxfversion, "Units": doc.header["$INSUNITS"],
        "Errors": [str(e) for e in audit.errors], "Fixes": [str(f) for f in audit.fixes],
        "Lines": lines,
    }))
