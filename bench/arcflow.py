"""Arc flow: one integer program for all strips, for a general-purpose solver.

A path through the graph is a strip: it enters at a height class (that arc costs
the strip's height), passes the pieces from the tallest down, and every piece
taken moves it to the right by the piece's width. Valerio de Carvalho's model
(Ann. Oper. Res. 86:629-659, 1999) with one entry per height; two stages, no
turning. Written to an LP file and solved by CBC.
"""

import drive
from peer import Program, Scaled, solve_cbc


def arc_flow(job, most_arcs):
    """@return (program, unit of its objective), or None if it is too large."""
    s = Scaled(job)
    order = sorted(s.forms, key=lambda f: (-f[2], -f[1]))
    p = Program()
    flow = {}  # node -> {column: +1 out, -1 in}
    cover = [dict() for _ in s.demand]
    total = sum(s.demand)

    def arc(tail, head, cost, top):
        x = p.add(cost, top)
        if tail is not None:
            flow.setdefault(tail, {})[x] = 1
        if head is not None:
            flow.setdefault(head, {})[x] = -1
        return x

    reached = set()
    for layer, (row, w, h) in enumerate(order):
        if layer == 0 or order[layer - 1][2] != h:
            arc(None, (layer, 0, 0), h, total)
            reached.add(0)
        # Copies of the piece one after another; `k` of them taken so far is
        # not kept, as usual: the covering rows make surplus harmless.
        onward = set()
        frontier = set(reached)
        while frontier:
            onward |= frontier
            frontier = {x + w for x in frontier
                        if x + w <= s.width} - onward
        for x in sorted(onward):
            if x + w <= s.width:
                take = arc((layer, x, 0), (layer, x + w, 0), 0, s.demand[row])
                cover[row][take] = 1
            if layer + 1 < len(order):
                arc((layer, x, 0), (layer + 1, x, 0), 0, total)
        reached = onward
        if len(p.cost) > most_arcs:
            return None
    for node, terms in flow.items():  # what leaves must have come; it may end
        p.row(terms, None, 0)
    for row, d in enumerate(s.demand):
        p.row(cover[row], d, None)
    return p, s.unit


def timed(job, limit_s, most_arcs=40000):
    """@return (least total strip height or None, CPU seconds, arcs)"""
    model = arc_flow(job, most_arcs)
    if model is None:
        return None, 0.0, 0
    program, unit = model
    before = drive.cpu_now()
    value = solve_cbc(program, limit_s)
    return (None if value is None else value * unit,
            drive.cpu_now() - before, len(program.cost))
