"""Pieces that are cut at an angle, as polygons, straight from a job's JSON.

Decimals of 50 places; nothing here is rounded but what is rounded for the
ruler. A form is one way in which a piece may lie in a strip: a polygon between
the strip's edges y = 0 and y = height, or a rectangle, which may be lower than
its strip.
"""
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal, getcontext

getcontext().prec = 50
INCH = 203200
ZERO = Decimal(0)
ROOT2, ROOT3 = Decimal(2).sqrt(), Decimal(3).sqrt()
NEAR = Decimal(10) ** -20
DIRECTED = ("one-way", "two-way")


@dataclass
class Form:
    yields: int
    width: Decimal   # of rectangles
    height: Decimal
    polygon: list = None  # its corners; None: a rectangle

    def across(self):
        if not self.polygon:
            return self.width
        return max(x for x, _ in self.polygon) - min(x for x, _ in self.polygon)


def length(text):
    """Inches, as a decimal or a fraction such as "2 3/8"."""
    total = ZERO
    for part in str(text).split():
        over, _, under = part.partition("/")
        total += Decimal(over) / Decimal(under or 1)
    return total * INCH


def up(size, step):
    return ((size - NEAR) / step).to_integral_value(ROUND_CEILING) * step


def pi():
    """Machin's formula, 1706: 16 atan(1/5) - 4 atan(1/239)."""
    def arctan_of_inverse(n):
        total, power, k = ZERO, Decimal(1) / n, 0
        while abs(power) > Decimal(10) ** -48:
            total += power / (2 * k + 1) * (-1) ** k
            power /= n * n
            k += 1
        return total
    return 16 * arctan_of_inverse(5) - 4 * arctan_of_inverse(239)


PI = pi()


def sine_cosine(degrees):
    """By their power series."""
    x = Decimal(str(degrees)) * PI / 180
    sums, term, k = [ZERO, ZERO], Decimal(1), 0
    while k < 80:
        sums[(k + 1) % 2] += term * (-1) ** (k // 2)
        k += 1
        term *= x / k
    return sums[0], sums[1]


def meet(p, d, q, e):
    """Where the line through p along d meets that through q along e."""
    t = ((q[0] - p[0]) * e[1] - (q[1] - p[1]) * e[0]) / (d[0] * e[1] - d[1] * e[0])
    return p[0] + t * d[0], p[1] + t * d[1]


def moved_sides(points, out):
    """Every side i moved outwards by out[i]."""
    lines = []
    for i, p in enumerate(points):
        q = points[(i + 1) % len(points)]
        d = q[0] - p[0], q[1] - p[1]
        size = (d[0] * d[0] + d[1] * d[1]).sqrt()
        d = d[0] / size, d[1] / size
        lines.append(((p[0] + d[1] * out[i], p[1] - d[0] * out[i]), d))
    return [meet(*lines[i - 1], *lines[i]) for i in range(len(points))]


def laid_on(points, base):
    """Turned so that side `base` lies on y = 0 and comes first."""
    points = points[base:] + points[:base]
    p, q = points[0], points[1]
    d = q[0] - p[0], q[1] - p[1]
    size = (d[0] * d[0] + d[1] * d[1]).sqrt()
    c, s = d[0] / size, d[1] / size
    out = []
    for x, y in points:
        x, y = x - p[0], y - p[1]
        out.append((x * c + y * s, y * c - x * s))
    out[0], out[1] = (ZERO, ZERO), (size, ZERO)
    return out


def height_of(points):
    return max(y for _, y in points) - min(y for _, y in points)


def raised(points, ruler):
    """The base moves out until the height is on the ruler."""
    more = up(height_of(points), ruler) - height_of(points)
    points = moved_sides(points, [more] + [ZERO] * (len(points) - 1))
    return laid_on(points, 0)


def grown(points, ruler):
    """All sides move out until the height is on the ruler, which it nears
    evenly: a kite's base alone would make it lopsided."""
    by_one = height_of(laid_on(moved_sides(points, [Decimal(1)] * 4), 0)) - \
        height_of(points)
    more = (up(height_of(points), ruler) - height_of(points)) / by_one
    return laid_on(moved_sides(points, [more] * 4), 0)


def half_turned(points):
    top = max(y for _, y in points)
    return [(-x, top - y) for x, y in points]


def quarter_turned(points):
    left = min(-y for _, y in points)
    low = min(x for x, _ in points)
    return [(-y - left, x - low) for x, y in points]


def mirrored(points):
    return [(-x, y) for x, y in reversed(points)]


def parallelogram(spacing, height, angle):
    s, c = sine_cosine(angle)
    base, lean = spacing / s, height * c / s
    return [(ZERO, ZERO), (base, ZERO), (base + lean, height), (lean, height)]


def trapezoid(long, short, height):
    inset = (long - short) / 2
    return [(ZERO, ZERO), (long, ZERO), (long - inset, height), (inset, height)]


def triangle_of_60(height):
    return [(ZERO, ZERO), (2 * height / ROOT3, ZERO), (height / ROOT3, height)]


def hexagon(height):
    a = height / ROOT3
    return [(ZERO, ZERO), (a, ZERO), (a * 3 / 2, height / 2), (a, height),
            (ZERO, height), (-a / 2, height / 2)]


def kite(size):
    long, wide, at = size
    return [(ZERO, ZERO), (at, -wide / 2), (long, ZERO), (at, wide / 2)]


class Sizes:
    """What a job says of seams and rulers."""

    def __init__(self, job):
        self.seam = length(job.get("seam", "1/4"))
        self.ruler = length(job.get("ruler", "1/8"))


def square_side(piece, sizes):
    """Of the square that triangles are cut from, as it is cut."""
    if "cut" in piece:
        return length(piece["cut"])
    adds = 2 + ROOT2 if piece["shape"].startswith("half") else 2 + 2 * ROOT2
    return up(length(piece["finished"]) + length(piece.get("trim", 0)) +
              sizes.seam * adds, sizes.ruler)


def outline(piece, sizes):
    """The cut polygon of a shape that is not from a square, on its base."""
    shape, cut = piece["shape"], "cut" in piece
    given = piece["cut"] if cut else piece["finished"]
    reach = 2 * sizes.seam + length(piece.get("trim", 0))  # of both sides
    mark = (lambda n: n) if cut else (lambda n: up(n, sizes.ruler))
    if shape == "polygon":
        points = [(length(x), length(y)) for x, y in given]
        if not cut:
            points = moved_sides(points, [reach / 2] * len(points))
        points = laid_on(points, 0)
        return points if cut else raised(points, sizes.ruler)
    size = [length(n) for n in (given if isinstance(given, list) else [given])]
    if shape in ("diamond", "parallelogram"):
        if not cut:
            s, _ = sine_cosine(piece["angle"])
            size = [mark(n * s + reach) for n in size]
        return parallelogram(size[0], size[-1], piece["angle"])
    if shape == "trapezoid":
        points = trapezoid(*size)
        if not cut:
            points = raised(moved_sides(points, [reach / 2] * 4), sizes.ruler)
            long = points[1][0]
            inset = -points[3][0] + points[0][0]  # below 0
            more = mark(long) - long
            points = trapezoid(long + more, long + more + 2 * inset,
                               points[2][1])
        return points
    if shape == "equilateral triangle":
        return triangle_of_60(mark(size[0] if cut else
                                   size[0] * ROOT3 / 2 + reach * 3 / 2))
    if shape == "hexagon":
        return hexagon(mark(size[0] if cut else size[0] * ROOT3 + reach))
    assert shape == "kite"
    points = kite(size)
    if not cut:
        points = moved_sides(points, [reach / 2] * 4)
    points = laid_on(points, 0)
    return points if cut else grown(points, sizes.ruler)


def is_symmetric(piece):
    if piece["shape"] == "parallelogram":
        size = piece.get("cut", piece.get("finished"))
        return length(size[0]) == length(size[1])
    return piece["shape"] != "polygon"


def triangle_forms(piece, print_, sizes):
    half = piece["shape"].startswith("half")
    side = square_side(piece, sizes)
    kept = piece.get("facing") == "kept" and print_ in DIRECTED
    forms, height = [], side if half else side / 2
    if kept:
        height = up(height, sizes.ruler) if "cut" not in piece else height
    else:
        forms.append(Form(2 if half else 4, side, side))
    if not kept and "cut" not in piece and up(height, sizes.ruler) != height:
        return forms  # a strip that no ruler shows
    if half:
        points = [(ZERO, ZERO), (height, ZERO), (ZERO, height)]
    else:
        points = [(ZERO, ZERO), (2 * height, ZERO), (height, height)]
    turns = [points]
    if not kept or print_ == "two-way":
        turns.append(half_turned(points))
    if half and not kept:
        turns += [quarter_turned(points), half_turned(quarter_turned(points))]
    return forms + [Form(1, ZERO, height, p) for p in turns]


def rectangle_forms(piece, print_, sizes):
    cut = "cut" in piece
    size = piece["cut"] if cut else piece["finished"]
    size = [length(n) for n in (size if isinstance(size, list) else [size] * 2)]
    if not cut:
        more = 2 * sizes.seam + length(piece.get("trim", 0))
        size = [up(n + more, sizes.ruler) for n in size]
    across, along = size
    grain = piece.get("grain", "any")
    ways = []
    if grain != "lengthwise":
        ways.append((across, along))
    if grain != "crosswise" and print_ not in DIRECTED and across != along:
        ways.append((along, across))
    return [Form(1, w, h) for w, h in ways]


def outline_forms(piece, print_, sizes, left):
    """`left`: the left-hand one is asked for; None: hands do not matter."""
    points = outline(piece, sizes)
    bases = len(points) if piece.get("grain") == "any" else 1
    # As drawn, what leans to the left is the left one.
    drawn_left = piece["shape"] == "parallelogram" and piece["angle"] > 90
    if left is not None and left != drawn_left:
        points = laid_on(mirrored(points), (len(points) - 2) % len(points))
    forms = []
    for base in range(bases):
        on_base = laid_on(points, base)
        both = [on_base]
        if left is None and print_ not in DIRECTED:
            both.append(mirrored(on_base))
        for way in both:
            forms.append(way)
            if print_ != "one-way":
                forms.append(half_turned(way))
    return [Form(1, ZERO, height_of(p), p) for p in forms]


def rows_of(job):
    """[(count, forms)] of a job of one fabric."""
    sizes, rows = Sizes(job), []
    print_ = job["fabrics"][0].get("print", "plain")
    for piece in job["pieces"]:
        shape, count = piece["shape"], piece["count"]
        if shape in ("square", "rectangle"):
            rows.append((count, rectangle_forms(piece, print_, sizes)))
        elif shape.endswith("square triangle"):
            rows.append((count, triangle_forms(piece, print_, sizes)))
        elif is_symmetric(piece) or print_ == "reversible":
            if isinstance(count, dict):
                count = sum(count.values())
            rows.append((count, outline_forms(piece, print_, sizes, None)))
        elif isinstance(count, dict):
            rows += [(n, outline_forms(piece, print_, sizes, hand == "left"))
                     for hand, n in count.items() if n]
        else:
            drawn = shape == "parallelogram" and piece["angle"] > 90
            rows.append((count, outline_forms(piece, print_, sizes, drawn)))
    return rows
