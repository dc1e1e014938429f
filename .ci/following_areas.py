"""Looks at walks laid in following bonds with shapely: reads the lines of `underbrick-bench --walks N` from standard input.

The bands are built here from the legs alone: an arc is a circle's, a taper is even along the run.
"""

import json
import math
import sys

import numpy
import shapely

STEP_M = 0.001
# A chord of 1 mm leaves 5e-7 m2 of a band 6 m long on a radius of 1 m.
BAND_M2 = 1e-6
LIMIT_M2 = 1e-9


def centreline(legs):
    """Points, headings and clear widths along the run."""
    right = away = heading = 0.0
    points, headings, widths = [], [], []
    for length, curvature, width_at_start, width_at_end in legs:
        n = max(2, math.ceil(length / STEP_M))
        along = numpy.linspace(0.0, length, n + 1)
        turned = heading + curvature * along
        if abs(curvature) < 1e-12:
            x, y = right + along * math.sin(heading), away + along * math.cos(heading)
        else:
            x = right + (math.cos(heading) - numpy.cos(turned)) / curvature
            y = away + (numpy.sin(turned) - math.sin(heading)) / curvature
        points.append(numpy.column_stack([x, y]))
        headings.append(turned)
        widths.append(width_at_start + (width_at_end - width_at_start) * along / length)
        right, away, heading = x[-1], y[-1], turned[-1]
    return numpy.vstack(points), numpy.concatenate(headings), numpy.concatenate(widths)


def band(legs, beside_m):
    points, headings, widths = centreline(legs)
    to_the_right = numpy.column_stack([numpy.cos(headings), -numpy.sin(headings)])
    out = (widths / 2 + beside_m)[:, None] * to_the_right
    return shapely.Polygon(numpy.vstack([points + out, (points - out)[::-1]]))


def fail(walk, why):
    sys.exit(f"{walk['bond']} on {walk['legs']}: {why}")


n_walks = n_pieces = n_bare = 0
worst = dict.fromkeys(["lying twice", "beyond the clear width", "beyond the edges", "balance"], 0.0)
for line in sys.stdin:
    walk = json.loads(line)
    pieces = numpy.array([shapely.Polygon(piece["outline"]) for piece in walk["pieces"]])
    if not len(pieces):
        n_bare += 1
        continue
    n_walks += 1
    n_pieces += len(pieces)
    if not shapely.is_valid(pieces).all():
        fail(walk, "a piece is not simple")
    shapely.prepare(pieces)
    one, other = shapely.STRtree(pieces).query(pieces, predicate="intersects")
    pairs = one < other
    twice = shapely.area(shapely.intersection(pieces[one[pairs]], pieces[other[pairs]])).sum()
    is_field = numpy.array([piece["is_field"] for piece in walk["pieces"]])
    clear = band(walk["legs"], 0.0)
    shapely.prepare(clear)
    field = pieces[is_field]
    out = field[~shapely.covers(clear, field)]
    beyond = shapely.area(shapely.difference(out, clear)).sum()
    # The outer faces of an edge lie beside lines that are even only where the walk does not taper. A face is straight: its ends, or its
    # middle, stand off the arc by the rise of the arc over it.
    beyond_edges = 0.0
    if all(leg[2] == leg[3] for leg in walk["legs"]) and not is_field.all():
        across = walk["edge_across_m"]
        tightest = max(abs(leg[1]) for leg in walk["legs"])
        inner_m = (1 / tightest if tightest > 1e-12 else math.inf) - walk["legs"][0][2] / 2 - across
        corners = [shapely.get_coordinates(piece) for piece in pieces[~is_field]]
        longest = max(numpy.hypot(*numpy.diff(spots, axis=0).T).max() for spots in corners)
        whole = band(walk["legs"], across + longest**2 / (8 * inner_m))
        shapely.prepare(whole)
        out = pieces[~shapely.covers(whole, pieces)]
        beyond_edges = shapely.area(shapely.difference(out, whole)).sum()
    # What the pieces of the field leave free of the band is the band less their areas, as reckoned by the program.
    ours_m2 = sum(piece["area_m2"] for piece in walk["pieces"] if piece["is_field"])
    free = shapely.area(shapely.difference(clear, shapely.union_all(field)))
    balance = abs(shapely.area(clear) - ours_m2 - free)
    found = [twice, beyond, beyond_edges, balance]
    for (name, before), value, limit in zip(worst.items(), found, [LIMIT_M2] + [BAND_M2] * 3, strict=True):
        worst[name] = max(before, value)
        if not value <= limit:
            fail(walk, f"{name} {value} m2, more than {limit} m2")
if not (n_walks > 50 and n_bare * 20 <= n_walks):
    sys.exit(f"{n_walks} walks laid, {n_bare} not: too few to say anything")
print(f"  {n_walks} walks, {n_pieces} pieces ({n_bare} walks could not be laid)")
for name, value in worst.items():
    print(f"  {name:<26}{value:.1e} m2 at most")
