/* Sewn strips.
 *
 * A seam takes its allowance from both strips, and the two allowances lie on
 * each other. A cut goes through every strip from raw edge to raw edge, or a
 * seam would lack cloth at the segment's side: where it begins at x, it is at
 * x + lean * y / height when it has come to y, and there must lie right of the
 * strip's left end, and of the cut before it, and left of its right end.
 * Rounded to the safe side. */
#include "check/sewn.h"

#include "base/wide.h"
#include "shape/shape.h"

void qci_sewn_add(qci_sewn *set, qci_sewn_strip strip)
{
    set->height += strip.width - (set->count ? 2 * set->seam : 0);
    set->strips[set->count++] = strip;
}

qci_across qci_across_of(const qci_instruction *step, const qci_sewn *set)
{
    return (qci_across){.lean = qci_lean_of(set->height, step->angle),
                        .pitch = step->along_edge
                                     ? step->size
                                     : qci_pitch_of(step->size, step->angle)};
}

/* How far the cut has run to the right at y, rounded down. */
static qc_length run_at(const qci_sewn *set, qc_length lean, qc_length y)
{
    qci_wide run = (qci_wide)lean * y;

    return (qc_length)(run / set->height - (run % set->height < 0));
}

static qc_length most(qc_length a, qc_length b)
{
    return a > b ? a : b;
}

static qc_length least(qc_length a, qc_length b)
{
    return a < b ? a : b;
}

/* Lower ends of the first and of the last cut that there may be. */
typedef struct reach {
    qc_length first, last;
} reach;

static reach reach_of(const qci_sewn *set, qc_length lean)
{
    reach out = {INT64_MIN / 4, INT64_MAX / 4};
    qc_length y = 0;

    for (size_t i = 0; i < set->count; i++) {
        const qci_sewn_strip *strip = &set->strips[i];
        qc_length high = y + strip->width;

        out.first = most(out.first, strip->left - run_at(set, lean, y));
        out.first = most(out.first, strip->left - run_at(set, lean, high));
        out.last = least(out.last, strip->right + run_at(set, -lean, y));
        out.last = least(out.last, strip->right + run_at(set, -lean, high));
        y = high - 2 * set->seam;
    }
    if (set->begun) {
        out.first = most(out.first, set->at);
        out.first = most(out.first, set->at + set->lean - lean);
    }
    return out;
}

int64_t qci_sewn_fits(const qci_sewn *set, qci_across cut)
{
    reach at = reach_of(set, cut.lean);

    return at.last > at.first ? (at.last - at.first) / cut.pitch : 0;
}

void qci_sewn_cut(qci_sewn *set, qci_across cut, int64_t count)
{
    set->at = reach_of(set, cut.lean).first + count * cut.pitch;
    set->lean = cut.lean;
    set->begun = true;
}
