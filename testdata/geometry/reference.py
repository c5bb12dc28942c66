#!/usr/bin/env python3
"""Writes reference.json: geometry cases and the answers of an independent library.

The library is Shapely (BSD-3-Clause, https://shapely.readthedocs.io), which
runs on GEOS. The tests of package geom read the table and need no Python. The
table was made with the versions that it names; make it anew with

    python3 testdata/geometry/reference.py > testdata/geometry/reference.json

Coordinates are whole hundredths of a millimetre, areas square metres, lengths
metres. The cases come from a fixed seed.
"""

import json
import math
import random

import shapely
import shapely.geos
from shapely.geometry import JOIN_STYLE, LineString, Point, Polygon
from shapely.ops import polylabel, split

UNITS = 100_000
random.seed(20240229)


def grid(x, y):
    return [round(x * UNITS), round(y * UNITS)]


def turned(points, degrees, dx=0.0, dy=0.0):
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return [(c * x - s * y + dx, s * x + c * y + dy) for x, y in points]


def polygon(rings):
    """A polygon in metres from rings of grid units."""
    metres = [[(x / UNITS, y / UNITS) for x, y in ring] for ring in rings]
    return Polygon(metres[0], metres[1:])


def rings_of(shape):
    """The rings of a polygon on the grid, without the repeated last corner."""
    rings = [shape.exterior] + list(shape.interiors)
    return [[grid(x, y) for x, y in list(ring.coords)[:-1]] for ring in rings]


def rectangle(step):
    x, y = random.randrange(12) * step, random.randrange(12) * step
    w, h = random.randrange(2, 9) * step, random.randrange(2, 9) * step
    return [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]


def star(corners, inner, outer, x, y):
    """A slanted polygon around a point, which it sees whole."""
    out = []
    for i in range(corners):
        a = 2 * math.pi * (i + random.uniform(0.1, 0.9)) / corners
        r = random.uniform(inner, outer)
        out.append((x + r * math.cos(a), y + r * math.sin(a)))
    return out


def upright():
    return [[grid(*p) for p in rectangle(0.45)]]


def square_to_each_other():
    """Rectangles of one house, turned with it, that share lines."""
    degrees = random.uniform(0, 360)
    return lambda: [[grid(*p) for p in turned(rectangle(0.45), degrees, 3, 5)]]


def slanted():
    x, y = random.uniform(0, 4), random.uniform(0, 4)
    rings = [[grid(*p) for p in star(random.randrange(3, 9), 1.5, 4, x, y)]]
    if random.random() < 0.4:
        rings.append([grid(*p) for p in star(4, 0.2, 0.6, x, y)][::-1])
    return rings


def sound(rings):
    shape = polygon(rings)
    return shape.is_valid and shape.area > 0.05


def operand(make):
    """A few regions that do not overlap; they may touch along edges."""
    regions, taken = [], None
    for _ in range(random.randrange(1, 4)):
        rings = make()
        if not sound(rings):
            continue
        shape = polygon(rings)
        if taken is not None and taken.intersection(shape).area > 1e-9:
            continue
        taken = shape if taken is None else taken.union(shape)
        regions.append(rings)
    return regions, taken


def overlays():
    out = []
    for name, count, maker in (
        ("upright", 40, lambda: upright),
        ("turned", 60, square_to_each_other),
        ("slanted", 60, lambda: slanted),
    ):
        while count > 0:
            make = maker()
            (a, sa), (b, sb) = operand(make), operand(make)
            if not a or not b:
                continue
            count -= 1
            out.append({
                "name": name, "a": a, "b": b,
                "union": round(sa.union(sb).area, 7),
                "intersection": round(sa.intersection(sb).area, 7),
                "difference": round(sa.difference(sb).area, 7),
            })
    return out


def roomy(shape, least_edge, least_angle):
    """No short edge, no sharp corner, and no two sides near each other."""
    points = list(shape.exterior.coords)[:-1]
    n = len(points)
    for i in range(n):
        (ax, ay), (bx, by), (cx, cy) = points[i - 1], points[i], points[(i + 1) % n]
        if math.hypot(bx - ax, by - ay) < least_edge:
            return False
        a = math.atan2(ay - by, ax - bx)
        b = math.atan2(cy - by, cx - bx)
        angle = abs(math.degrees(a - b)) % 360
        if min(angle, 360 - angle) < least_angle:
            return False
    return shape.is_valid


def poles():
    """The greatest circle in a region, to a tenth of a millimetre."""
    out = []
    while len(out) < 25:
        rings = slanted()
        if not sound(rings):
            continue
        shape = polygon(rings)
        pole = polylabel(shape, 0.0001)
        out.append({"region": rings, "clearance": round(pole.distance(shape.boundary), 5)})
    return out


def outlines():
    """A prism within exterior walls: its border moved out, with mitred corners."""
    out = []
    while len(out) < 40:
        rings = [[grid(*p) for p in star(random.randrange(3, 9), 2.5, 6, 0, 0)]]
        shape = polygon(rings)
        if not roomy(shape, 1.5, 40):
            continue
        thickness = round(random.uniform(0.1, 0.4), 3)
        moved = shape.buffer(thickness, join_style=JOIN_STYLE.mitre, mitre_limit=10)
        out.append({"region": rings, "thickness": thickness, "area": round(moved.area, 6)})
    return out


def splits():
    """A convex house that one slanted wall parts in two."""
    out = []
    while len(out) < 40:
        shape = Polygon(star(random.randrange(4, 8), 4, 5, 0, 0)).convex_hull
        if not roomy(shape, 1.5, 60):
            continue
        degrees, wall = random.uniform(0, 180), round(random.uniform(0.08, 0.4), 3)
        line = LineString(turned([(-20, 0), (20, 0)], degrees, random.uniform(-1, 1), random.uniform(-1, 1)))
        if min(line.distance(Point(p)) for p in shape.exterior.coords) < 0.8:
            continue  # the wall is to end on a side, not in a corner
        rooms = list(shape.difference(line.buffer(wall / 2, cap_style=2)).geoms)
        if len(rooms) != 2 or not all(roomy(r, 1.0, 50) for r in rooms):
            continue
        thickness = round(random.uniform(0.1, 0.4), 3)
        house = shape.buffer(thickness, join_style=JOIN_STYLE.mitre, mitre_limit=10)
        halves = list(split(house, line).geoms)
        shares = [max(halves, key=lambda h: h.intersection(r).area).area for r in rooms]
        mass = house.area - sum(r.area for r in rooms)
        out.append({
            "rooms": [rings_of(r) for r in rooms], "wall": wall, "thickness": thickness,
            "outline": round(house.area, 6), "mass": round(mass, 6),
            "shares": [round(s, 6) for s in shares],
            "length": round(line.intersection(shape).length, 6),
        })
    return out


def stacks():
    """Two levels, turned by the same angle or not: the floors between them."""
    out = []
    while len(out) < 25:
        make = square_to_each_other() if random.random() < 0.5 else slanted
        (below, sb), (above, sa) = operand(make), operand(make)
        if not below or not above:
            continue
        floors = []
        for i, r in enumerate(below):
            for k, q in enumerate(above):
                area = polygon(r).intersection(polygon(q)).area
                if area > 0.1:
                    floors.append([i, k, round(area, 6)])
                elif area > 1e-4:
                    break
            else:
                continue
            break
        else:
            out.append({"below": below, "above": above, "floors": floors})
    return out


def main():
    tables = {
        "made_with": f"Shapely {shapely.__version__}, GEOS {'.'.join(map(str, shapely.geos.geos_version))}",
        "overlays": overlays(), "poles": poles(), "outlines": outlines(),
        "splits": splits(), "stacks": stacks(),
    }
    lines = ["{", f' "made_with": {json.dumps(tables.pop("made_with"))},']
    for n, (name, cases) in enumerate(tables.items()):
        rows = ",\n".join("  " + json.dumps(c, separators=(",", ":")) for c in cases)
        lines.append(f' "{name}": [\n{rows}\n ]' + ("," if n + 1 < len(tables) else ""))
    print("\n".join(lines + ["}"]))


if __name__ == "__main__":
    main()
