/* Slanted sections.
 *
 * Cuts are told by where they cross the middle of the strip's height: there all
 * sections are equally wide, whether every second one is turned or not. The
 * first cut takes a wedge off, half of its lean wide at the middle, unless the
 * edge leans so already; the last must not run beyond the strip's right end.
 * Leans and pitches are even numbers, so that halves are whole. */
#include "check/slant.h"

#include "replay/cloth.h"
#include "shape/shape.h"

qci_slant qci_slant_of(const qci_instruction *step, const qci_polygon *cloth)
{
    qc_length height = qci_cloth_extent(cloth, QCI_MEASURE_UP);
    qc_length lean = qci_lean_of(height, step->angle);
    qc_length run = lean < 0 ? -lean : lean;
    qc_length pitch;

    if (step->alternate)
        pitch = (step->size ? step->size : 2 * run) - run;
    else if (step->along_edge)
        pitch = step->size;
    else
        pitch = qci_pitch_of(step->size, step->angle);
    return (qci_slant){lean, pitch, step->alternate};
}

/* Where the strip is worked from. */
typedef struct stand {
    qc_length left;  /* middle of the first cut */
    qc_length lean;  /* of the first cut */
    bool wedge;      /* it has to be cut */
    qc_length right; /* end of the strip */
    qc_length low, high;
} stand;

static stand stand_of(qci_slant slant, const qci_polygon *cloth)
{
    qci_point lower, upper, low, high;
    qc_length lean;
    stand at;

    qci_cloth_left(cloth, &lower, &upper);
    qci_polygon_box(cloth, &low, &high);
    lean = upper.x - lower.x;
    at.wedge = lean != slant.lean && !(slant.alternate && lean == -slant.lean);
    at.lean = at.wedge ? slant.lean : lean;
    /* A wedge begins or ends on a corner of the edge before. */
    at.left = lower.x + at.lean / 2;
    if (at.wedge && lean > slant.lean)
        at.left += lean - slant.lean;
    at.right = high.x;
    at.low = low.y;
    at.high = high.y;
    return at;
}

int64_t qci_slant_fits(qci_slant slant, const qci_polygon *cloth)
{
    qc_length run = slant.lean < 0 ? -slant.lean : slant.lean;
    stand at = stand_of(slant, cloth);
    qc_length room = at.right - run / 2 - at.left;

    /* Sections that are turned have a short side, of no length or more. */
    if (room < 0 || slant.pitch < 1 || (slant.alternate && slant.pitch < run))
        return 0;
    return room / slant.pitch;
}

/* Cuts at the middle `x`; what lies left of it comes off. */
static qci_cut cut_at(const stand *at, qc_length x, qc_length lean,
                      const qci_polygon *cloth, qci_polygon *left,
                      qci_polygon *rest)
{
    qci_point a = {x - lean / 2, at->low}, b = {x + lean / 2, at->high};

    return qci_polygon_cut(cloth, a, b, left, rest);
}

bool qci_slant_cut(qci_slant slant, int64_t count, qci_polygon *cloth,
                   qci_polygon *freed)
{
    stand at = stand_of(slant, cloth);
    qc_length first = slant.alternate ? -at.lean : at.lean;
    qc_length last = slant.alternate && count % 2 == 0 ? at.lean : first;
    qci_polygon worked = *cloth, scrap, rest;

    if (at.wedge &&
        cut_at(&at, at.left, at.lean, &worked, &scrap, &worked) != QCI_CUT_DONE)
        return false;
    if (cut_at(&at, at.left + slant.pitch, first, &worked, freed, &rest) ==
        QCI_CUT_OFF_LATTICE)
        return false;
    if (cut_at(&at, at.left + count * slant.pitch, last, &worked, &scrap,
               &rest) != QCI_CUT_DONE)
        return false;
    *cloth = rest;
    return true;
}
