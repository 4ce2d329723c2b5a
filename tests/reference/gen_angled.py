"""Random small jobs that mix pieces cut at different angles, as JSON.

Sizes are chosen so that many pieces share the height of a strip: a few heights
for each job, most shapes of one of them. Every number comes from the seed.
"""
import random

import angled_peer

PRINTS = ["plain", "plain", "plain", "one-way", "two-way", "reversible"]
ANGLES = [30, 45, 45, 45, 60, 60, 75, 53.130102, 120, 135]


def rng(seed):
    """Only random() is used: its stream is the same in every Python 3."""
    source = random.Random(seed)
    return lambda lo, hi: lo + int(source.random() * (hi - lo + 1))


def size(eighths):
    return str(eighths / 8).removesuffix(".0")


class Maker:
    def __init__(self, pick):
        self.pick = pick
        # In eighths; multiples of a half or a quarter inch are what quilts have.
        self.grid = [4, 2, 1][pick(0, 2)]
        self.heights = [self.mark(8, 32) for _ in range(pick(1, 3))]
        self.print_ = self.choose(PRINTS)

    def choose(self, of):
        return of[self.pick(0, len(of) - 1)]

    def mark(self, lo, hi):
        return self.pick(-(-lo // self.grid), hi // self.grid) * self.grid

    def height(self):
        return self.choose(self.heights)

    def hands(self, most):
        kind = self.pick(0, 3)
        if kind == 0:
            return self.pick(1, most)
        if kind == 1:
            return {self.choose(["left", "right"]): self.pick(1, most)}
        return {"left": self.pick(1, most), "right": self.pick(1, most)}

    def square(self, h):
        return {"shape": "square", "cut": size(h)}

    def rectangle(self, h):
        out = {"shape": "rectangle", "cut": [size(self.mark(8, 40)), size(h)]}
        if self.print_ in ("plain", "reversible") and self.pick(0, 3) == 0:
            out["grain"] = "crosswise"
        return out

    def half_square(self, h):
        return self.facing({"shape": "half-square triangle", "cut": size(h)})

    def quarter_square(self, h):
        return self.facing({"shape": "quarter-square triangle",
                            "cut": size(2 * h)})

    def facing(self, piece):
        if self.print_ in ("one-way", "two-way") and self.pick(0, 1):
            piece["facing"] = "kept"
        return piece

    def any_base(self, piece):
        if self.pick(0, 4) == 0:
            piece["grain"] = "any"
        return piece

    def diamond(self, h):
        return self.any_base({"shape": "diamond", "cut": size(h),
                              "angle": self.choose(ANGLES)})

    def parallelogram(self, h):
        spacing = h
        while spacing == h:
            spacing = self.mark(8, 28)
        return self.any_base({"shape": "parallelogram",
                              "cut": [size(spacing), size(h)],
                              "angle": self.choose(ANGLES)})

    def trapezoid(self, h):
        short = self.mark(4, 24)
        inset = self.choose([h, self.mark(2, 16)])  # half of them at 45 degrees
        return {"shape": "trapezoid",
                "cut": [size(short + 2 * inset), size(short), size(h)]}

    def equilateral(self, h):
        return self.any_base({"shape": "equilateral triangle", "cut": size(h)})

    def hexagon(self, h):
        return self.any_base({"shape": "hexagon", "cut": size(h)})

    def half_rectangle(self, h):
        wide = h
        while wide == h:
            wide = self.choose([2 * h, self.mark(8, 40)])
        return {"shape": "polygon",
                "cut": [["0", "0"], [size(wide), "0"], ["0", size(h)]]}

    def finished(self, _):
        """By the size it has when it is sewn; heights are what they become."""
        a, b = self.mark(8, 24), self.mark(8, 24)
        shape = self.choose(["square", "half-square triangle",
                             "quarter-square triangle", "diamond",
                             "parallelogram", "trapezoid", "hexagon",
                             "equilateral triangle", "polygon", "kite"])
        piece = {"shape": shape, "finished": size(a)}
        if shape in ("diamond", "parallelogram"):
            piece["angle"] = self.choose(ANGLES)
        if shape == "parallelogram":
            piece["finished"] = [size(a), size(b if b != a else b + 4)]
        if shape == "trapezoid":
            piece["finished"] = [size(a + b), size(a), size(self.mark(8, 24))]
        if shape == "kite":
            piece["finished"] = [size(a + b), size(self.mark(8, 20)), size(a)]
        if shape == "polygon":
            piece["finished"] = [["0", "0"], [size(a), "0"],
                                 ["0", size(b if b != a else b + 4)]]
        if shape == "quarter-square triangle":
            piece["finished"] = size(a + 8)
        if self.pick(0, 4) == 0:
            piece["trim"] = "1/8"
        return piece

    def piece(self, name, most):
        kinds = [self.square, self.rectangle, self.half_square,
                 self.quarter_square, self.diamond, self.diamond,
                 self.parallelogram, self.parallelogram, self.trapezoid,
                 self.equilateral, self.hexagon, self.half_rectangle,
                 self.finished, self.finished]
        piece = {"id": name, "fabric": "f", **self.choose(kinds)(self.height())}
        handed = piece["shape"] in ("parallelogram", "polygon")
        piece["count"] = self.hands(most) if handed else self.pick(1, most)
        return piece


def random_job(title, pick):
    maker = Maker(pick)
    types = pick(2, 5)
    most = {2: 30, 3: 20, 4: 12, 5: 8}[types]
    pieces = [maker.piece(f"p{i}", most) for i in range(types)]
    options = {"objective": pick(0, 1) and ["used"] or ["bought", "used"],
               "stages": pick(2, 3)}
    if pick(0, 4) == 0:
        options["trim"] = False
    return {
        "quiltcut": 1, "title": title,
        "fabrics": [{"id": "f", "width": size(maker.mark(48, 160)),
                     "print": maker.print_,
                     "step": ["1/8", "1", "2 1/4", "4 1/2"][pick(0, 3)],
                     "square_up": size(pick(0, 2) * 4),
                     "shrink": {"length": pick(0, 2) * 2}}],
        "pieces": pieces, "options": options}


def small_job(seed, number):
    """A job, and the model of all its strips; they are few."""
    for attempt in range(1000):
        pick = rng(f"{seed} {number} {attempt}")
        job = random_job(f"a{number}", pick)
        try:
            model = angled_peer.Model(job)
        except angled_peer.TooMany:
            continue
        if model.fits():
            return job, model
    raise AssertionError("no job with few strips")
