"""Compares the areas of cut bricks with shapely's: reads the JSON of `underbrick-bench --grid-json` from standard input."""

import json
import sys

import numpy
import shapely

LIMIT_M2 = 1e-9


def polygons(outlines):
    return numpy.array([shapely.Polygon(outline) for outline in outlines])


def check(name, difference_m2):
    print(f"  {name:<58}{difference_m2:.1e} m2")
    if not difference_m2 <= LIMIT_M2:
        sys.exit(f"{name}: {difference_m2} m2 is more than {LIMIT_M2} m2")


everything = json.load(sys.stdin)
assert everything["cases"] and everything["walks"], "nothing to compare"
for case in everything["cases"]:
    band = shapely.Polygon(case["band"])
    bricks = polygons([brick["outline"] for brick in case["bricks"]])
    expected = shapely.intersection(bricks, band)
    ours_m2 = numpy.array([brick["area_m2"] for brick in case["bricks"]])
    assert (ours_m2 > 0).sum() > 1000, "the band is covered"
    title = f"{len(bricks)} bricks, band of {len(case['band'])} corners"
    check(f"{title}, worst brick", numpy.abs(shapely.area(expected) - ours_m2).max())
    check(f"{title}, all together", abs(shapely.area(expected).sum() - ours_m2.sum()))
    # A brick falls into as many pieces as shapely finds; crumbs aside.
    parts = shapely.get_parts(expected, return_index=True)
    counted = numpy.bincount(parts[1][shapely.area(parts[0]) > 1e-10], minlength=len(bricks))
    differ = (counted != numpy.array([brick["n_parts"] for brick in case["bricks"]])).sum()
    if differ:
        sys.exit(f"{title}: {differ} bricks fall into another number of pieces")
for walk in everything["walks"]:
    band = shapely.Polygon(walk["band"])
    pieces = polygons([piece["outline"] for piece in walk["pieces"]])
    assert len(pieces) > 100, "the walk is covered"
    title = f"walk of {len(pieces)} pieces"
    assert shapely.is_valid(pieces).all(), f"{title}: a piece is not simple"
    areas_m2 = shapely.area(pieces)
    ours_m2 = numpy.array([piece["area_m2"] for piece in walk["pieces"]])
    check(f"{title}, worst piece", numpy.abs(areas_m2 - ours_m2).max())
    check(f"{title}, beyond the clear width", shapely.area(shapely.difference(pieces, band)).sum())
    tree = shapely.STRtree(pieces)
    one, other = tree.query(pieces, predicate="intersects")
    pairs = one < other
    overlap = shapely.area(shapely.intersection(pieces[one[pairs]], pieces[other[pairs]]))
    check(f"{title}, lying twice", overlap.sum())
