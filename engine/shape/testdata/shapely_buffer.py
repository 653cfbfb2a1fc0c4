"""Grows and shrinks polygons with Shapely (GEOS) and compares.

stdin: a JSON list of {"region": [polygon...], "d": um, "join": "mitre" or
"round", "ours": [polygon...]}, a polygon being [outer, hole, ...], a ring a
list of [x, y]. stdout: a JSON list of {"area", "pieces", "holes", "differs",
"near"}: Shapely's area, its numbers of pieces and holes, the area in which
the two differ, and that area once both are drawn back by 2 um.
"""
import json
import sys

from shapely.geometry import MultiPolygon, Polygon
from shapely.ops import unary_union

STYLES = {"round": 1, "mitre": 2}


def shape(polygons):
    return unary_union([Polygon(p[0], p[1:]) for p in polygons])


def pieces(g):
    return list(g.geoms) if isinstance(g, MultiPolygon) else [] if g.is_empty else [g]


out = []
for case in json.load(sys.stdin):
    # Ours may touch at corners; a union of pieces one by one is still valid.
    grown = shape(case["region"]).buffer(case["d"], 256, join_style=STYLES[case["join"]], mitre_limit=5)
    grown = unary_union([p for p in pieces(grown) if p.area > 0])
    ours = shape(case["ours"])
    found = pieces(grown)
    out.append({
        "area": grown.area,
        "pieces": len(found),
        "holes": sum(len(p.interiors) for p in found),
        "differs": grown.symmetric_difference(ours).area,
        "near": grown.difference(ours.buffer(2)).area + ours.difference(grown.buffer(2)).area,
    })
json.dump(out, sys.stdout)
