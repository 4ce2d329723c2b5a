"""Independent model of strips with pieces that are cut at an angle.

A section is a trapezoid from edge to edge of the strip: the piece itself where
it fills one, else one round it, whose cuts either are square or lean as one of
the piece's sides does, whichever end that is at: a kite may lie between two
cuts that lean as its right side. No leans and no wedges beyond that: neighbours
lie as close as their polygons allow, and two convex ones that both reach from
edge to edge can be cut apart by one straight cut. The least length of every
collection of pieces is found by walking over (collection, last form) in the
order of length; all collections that fit are patterns, and how often each is
cut is a covering program (Gilmore and Gomory, Oper. Res. 9:849-859, 1961, with
nothing left out) for general solvers.

Positions are whole numbers of 2^-40 units, so that sums of what is rational are
exact. The library rounds corners to whole units; a collection that fits by less
than such rounding may take is "near", and left out of a second program.
"""
import heapq
import math
from decimal import ROUND_HALF_EVEN, Decimal
from functools import reduce

import angled_shapes
from angled_shapes import NEAR, ZERO
from peer import Program

ONE = 1 << 40
BLUR = 1 << 12           # of a sum of rounded positions
ROUNDED = 40 * ONE       # what rounding corners may take, for each piece


class TooMany(Exception):
    pass


def whole(x):
    return int((x * ONE).to_integral_value(ROUND_HALF_EVEN))


def span(points, y):
    """Where a convex polygon begins and ends at y."""
    at = []
    for i, p in enumerate(points):
        q = points[(i + 1) % len(points)]
        if abs(p[1] - q[1]) < NEAR:
            if abs(p[1] - y) < NEAR:
                at += [p[0], q[0]]
        elif min(p[1], q[1]) - NEAR <= y <= max(p[1], q[1]) + NEAR:
            at.append(p[0] + (q[0] - p[0]) * (y - p[1]) / (q[1] - p[1]))
    return min(at), max(at)


class Item:
    """What may stand in a strip of one height: a polygon that yields pieces."""

    def __init__(self, yields, points):
        self.yields = yields  # one number for each row
        # x = 0 is its left end at half the height, so that gaps are above 0.
        middle, _ = span(points, max(y for _, y in points) / 2)
        self.points = points = [(x - middle, y) for x, y in points]
        self.left = min(x for x, _ in points)
        self.right = max(x for x, _ in points)

    def gap(self, other):
        """How far `other` lies to the right of this one where they touch. The
        widest place is at some corner's height."""
        heights = {y for _, y in self.points} | {y for _, y in other.points}
        return max(span(self.points, y)[1] - span(other.points, y)[0]
                   for y in heights)


def section(width, height):
    return [(ZERO, ZERO), (width, ZERO), (width, height), (ZERO, height)]


def stacks(rows, limit, height, stages, trim):
    """Stacks of rectangles in a section of a strip: [(width, yields)], the
    narrowest of each."""
    flat = [(row, f) for row, (_, forms) in enumerate(rows) for f in forms
            if not f.polygon]
    found = {}

    def grow(start, width, used, yields):
        for i in range(start, len(flat)):
            row, f = flat[i]
            top = used + f.height
            if top > height + NEAR or yields[row] >= limit[row]:
                continue
            more = list(yields)
            more[row] = min(limit[row], more[row] + f.yields)
            more, wide = tuple(more), max(width, f.width)
            if trim or abs(top - height) < NEAR:
                found[more] = min(found.get(more, wide), wide)
            if stages == 3:
                grow(i, wide, top, more)

    grow(0, ZERO, ZERO, (0,) * len(rows))
    return [(w, y) for y, w in found.items()
            if not any(v <= w and z != y and all(a >= b for a, b in zip(z, y))
                       for z, v in found.items())]


def heights_of(rows, stages):
    """Heights that strips may have: of pieces, and of stacks up to the highest
    piece."""
    tallest = max(f.height for _, forms in rows for f in forms)
    flat = {f.height for _, forms in rows for f in forms if not f.polygon}
    out = {f.height for _, forms in rows for f in forms}
    queue = list(flat) if stages == 3 else []
    while queue:
        below = queue.pop()
        for top in {below + f for f in flat} - out:
            if top <= tallest + NEAR:
                out.add(top)
                queue.append(top)
    merged = []
    for h in sorted(out):
        if not merged or h - merged[-1] > NEAR:
            merged.append(h)
    return merged


def touching(points, lean, height, left):
    """The line of that lean that touches a polygon: where it meets the edges."""
    at = [x - lean * y / height for x, y in points]
    foot = min(at) if left else max(at)
    return (foot, ZERO), (foot + lean, height)


def sections(points, height):
    """All trapezoids round a polygon between cuts that are square or lean as one
    of its sides, but for those that rise less than an eighth of the height."""
    if all(min(abs(y), abs(y - height)) < NEAR for _, y in points):
        return [points]
    leans = {ZERO}
    for i, (x, y) in enumerate(points):
        rise = y - points[i - 1][1]
        if abs(rise) * 8 > height:
            leans.add(round((x - points[i - 1][0]) * height / rise, 20))
    out = []
    for a in leans:
        for b in leans:
            left = touching(points, a, height, True)
            right = touching(points, b, height, False)
            out.append([left[0], right[0], right[1], left[1]])
    return out


def items_of(rows, limit, height, stages, trim, tight):
    items, seen = [], set()
    for row, (_, forms) in enumerate(rows):
        for f in forms:
            if not f.polygon or abs(f.height - height) > NEAR:
                continue
            yields = tuple(int(r == row) for r in range(len(rows)))
            for p in [f.polygon] if tight else sections(f.polygon, height):
                low = min(x for x, y in p if abs(y) < NEAR)
                key = (row, tuple(sorted((whole(x - low) >> 20, whole(y) >> 20)
                                         for x, y in p)))
                if key not in seen:
                    seen.add(key)
                    items.append(Item(yields, p))
    items += [Item(y, section(w, height))
              for w, y in stacks(rows, limit, height, stages, trim)]
    return items


def collections(items, limit, single, width, most):
    """{pieces of each row: least length} of all that fit in `width`. Of rows
    that are `single` none hold more than is wanted."""
    gap = [[whole(a.gap(b)) for b in items] for a in items]
    first = [whole(-i.left) for i in items]
    last = [whole(i.right) for i in items]
    room = whole(width) + BLUR
    none = (0,) * len(limit)
    best, done, out = {}, set(), {}
    queue = []

    def reach(position, pieces, item):
        key = pieces, item
        if position + last[item] <= room and \
                position < best.get(key, position + 1):
            best[key] = position
            heapq.heappush(queue, (position, pieces, item))

    def after(pieces, item):
        more = [a + b for a, b in zip(pieces, items[item].yields)]
        if any(s and a > l for s, a, l in zip(single, more, limit)):
            return pieces
        return tuple(map(min, limit, more))

    for i in range(len(items)):
        if after(none, i) != none:
            reach(first[i], after(none, i), i)
    while queue:
        position, pieces, item = heapq.heappop(queue)
        if (pieces, item) in done:
            continue
        done.add((pieces, item))
        if len(done) > most:
            raise TooMany
        total = position + last[item]
        out[pieces] = min(out.get(pieces, total), total)
        for i in range(len(items)):
            more = after(pieces, i)
            if more != pieces:
                reach(position + gap[item][i], more, i)
    return out


def is_near(pieces, total, width):
    short = whole(width) - total
    return BLUR < short < ROUNDED * sum(pieces)


def largest(found, limit):
    """Without collections to which one more piece may be added."""
    return [c for c in found if not any(
        c[:r] + (c[r] + 1,) + c[r + 1:] in found
        for r in range(len(limit)) if c[r] < limit[r])]


def covering(model, strips):
    """@return (program, unit of its objective)"""
    limit = model.limit
    unit = reduce(math.gcd, [h for h, _ in strips])
    p, cover = Program(), [dict() for _ in limit]
    for height, pieces in strips:
        x = p.add(height // unit, max(-(-d // n)
                                      for d, n in zip(limit, pieces) if n))
        for row, n in enumerate(pieces):
            if n:
                cover[row][x] = n
    for row, d in enumerate(limit):
        p.row(cover[row], d, d if model.exact and model.single[row] else None)
    return p, unit


class Model:
    """All strips of a job of one fabric.

    strips   [(height, pieces of each row)], every one that fits
    sure     the same without those that fit by less than rounding may take
    tight    cuts may have any lean, so that pieces lie as close as they can
    single   whether each row's pieces never come by twos or fours from squares;
             exactly as many of these as are wanted must be cut
    exact    that is no matter of course: stacks must fill strips exactly, and no
             piece of one can be left out
    """

    def __init__(self, job, most=20000, tight=False):
        options = job.get("options", {})
        stages = options.get("stages", 3)
        trim = options.get("trim", True)
        self.width = angled_shapes.length(job["fabrics"][0]["width"])
        self.rows = [(count, [f for f in forms if f.across() <= self.width])
                     for count, forms in angled_shapes.rows_of(job)]
        self.limit = tuple(count for count, _ in self.rows)
        self.single = [all(f.yields == 1 for f in forms)
                       for _, forms in self.rows]
        self.exact = stages == 3 and not trim
        strips, sure_strips = [], []
        fits = all(forms for _, forms in self.rows)
        for height in heights_of(self.rows, stages) if fits else []:
            items = items_of(self.rows, self.limit, height, stages, trim,
                             tight)
            found = collections(items, self.limit, self.single, self.width,
                                most)
            sure = {c for c, total in found.items()
                    if not is_near(c, total, self.width)}
            tall = int(angled_shapes.up(height, 2))
            if not self.exact:
                found, sure = [largest(f, self.limit) for f in (found, sure)]
            strips += [(tall, c) for c in found]
            sure_strips += [(tall, c) for c in sure]
            if len(strips) > most // 20:
                raise TooMany
        self.strips, self.sure = sorted(strips), sorted(sure_strips)

    def fits(self):
        """Does every piece fit across the fabric, whatever the rounding?"""
        return all(any(c[row] for _, c in self.sure)
                   for row in range(len(self.rows)))


def bought(job, used):
    """The least multiple of the purchase step that is enough."""
    fabric = job["fabrics"][0]
    step = angled_shapes.length(fabric["step"])
    shrink = Decimal(str(fabric.get("shrink", {}).get("length", 0)))
    used += angled_shapes.length(fabric.get("square_up", "1/2"))
    return int(angled_shapes.up(used * 100 / (100 - shrink), step))
