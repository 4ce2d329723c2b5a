/* Sentences of slanted cuts.
 *
 * A ruler is laid by a line for the angle along the strip's edge, where it has
 * one, and else by the two points that its edge joins. Where it goes is told
 * from the ends of the last cut, which lie before the reader's eyes. Cuts that
 * are parallel to the last one need no angle: the ruler measures square to it.
 */
#include <inttypes.h>

#include "order/measure.h"
#include "order/say.h"

static qc_length height_of(const qc_step *step, const qci_origin *from)
{
    return from->plan->fabrics[step->fabric].strips[from->strip].height;
}

/* "the lower left corner", "the upper end of the last cut"; away from the end
 * of the edge before "the point 1 1/4 in beyond the last cut on the lower
 * edge". */
static void put_point(qci_text *text, const char *which, qc_length along,
                      bool squared, const qci_origin *from)
{
    if (qci_is_near(along, 0) && squared) {
        qci_text_printf(text, "the %s %s corner", which, qci_near_side(from));
        return;
    }
    if (qci_is_near(along, 0)) {
        qci_text_printf(text, "the %s end of the last cut", which);
        return;
    }
    qci_text_printf(text, "the point ");
    qci_say_about(text, along, from);
    if (squared)
        qci_text_printf(text, " from the %s end", qci_near_side(from));
    else
        qci_text_printf(text, " beyond the last cut");
    qci_text_printf(text, " on the %s edge", which);
}

/* One point is enough, best a corner that is there already. */
static void put_through(qci_text *text, const qci_placing *at,
                        const qci_origin *from)
{
    bool upper = qci_is_near(at->upper, 0) && !qci_is_near(at->lower, 0);

    qci_text_printf(text, "through ");
    put_point(text, upper ? "upper" : "lower", upper ? 0 : at->lower,
              at->squared, from);
}

static void put_joining(qci_text *text, const qci_placing *at,
                        const qci_origin *from)
{
    qci_text_printf(text, "from ");
    put_point(text, "lower", at->lower, at->squared, from);
    qci_text_printf(text, " to ");
    put_point(text, "upper", at->upper, at->squared, from);
}

void qci_say_placing(qci_text *text, const qci_placing *at,
                     const qci_origin *from)
{
    int angle = qci_ruler_angle(at->height, at->lean);

    if (at->lean == 0)
        qci_text_printf(text, "lay the ruler square across, ");
    else if (angle)
        qci_text_printf(text,
                        "lay the ruler's %d-degree line along the lower edge, "
                        "its edge leaning to the %s, ",
                        angle, qci_lean_side(at->lean, from));
    else
        qci_text_printf(text, "lay the ruler's edge ");
    if (angle || at->lean == 0)
        put_through(text, at, from);
    else
        put_joining(text, at, from);
}

void qci_say_square_to(qci_text *text, const char *edge, const char *cloth,
                       qc_length along, const qci_origin *from)
{
    qci_text_printf(text, ", measured square to %s (along the %s that is ",
                    edge, cloth);
    qci_say_about(text, along, from);
    qci_text_printf(text, "),");
}

/* Small errors add up from cut to cut (re-truing after every third cut: common
 * practice, no source). */
void qci_say_true_again(qci_text *text, int64_t cuts)
{
    if (cuts > 3)
        qci_text_printf(text, " After every third cut true the angle again.");
}

/* Two points already say what a cut without a ruler's line wastes. */
void qci_say_slant(qci_text *text, const qc_step *step, const qci_origin *from)
{
    qc_length height = height_of(step, from);
    qc_length wasted = step->lean - from->edge;
    qci_placing at = {.height = height,
                      .lean = step->lean,
                      .lower = step->along,
                      .upper = step->along + wasted,
                      .squared = from->edge == 0};

    if (from->like) {
        qci_text_printf(text, "as in step %" PRIu32 ", cut a wedge off ",
                        from->like);
        qci_say_each(text, step->copies, "strip");
        qci_text_printf(text, ".");
        return;
    }
    qci_say_placing(text, &at, from);
    qci_text_printf(text, ", and cut a wedge off ");
    qci_say_each(text, step->copies, "strip");
    if (step->lean == 0 || qci_ruler_angle(height, step->lean)) {
        qci_text_printf(text, ": it wastes ");
        qci_say_about(text, wasted < 0 ? -wasted : wasted, from);
        qci_text_printf(text, " of the %s edge",
                        wasted < 0 ? "lower" : "upper");
    }
    qci_text_printf(text, ".");
}

/* "2 triangles T from each of the 4 strips" */
static void put_freed(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    bool aside = qci_say_freed(text, step, from, false);

    qci_text_printf(text, "%s from ", aside ? "," : "");
    qci_say_each(text, step->copies, "strip");
}

/* The next way to lay the ruler, in which the angle may be the same. */
static void put_next(qci_text *text, const qci_placing *last,
                     const qci_placing *next, const qci_origin *from)
{
    int angle = qci_ruler_angle(next->height, next->lean);

    if (next->lean == 0 || angle == 0 ||
        qci_ruler_angle(last->height, last->lean) != angle) {
        qci_say_placing(text, next, from);
        return;
    }
    qci_text_printf(text, "lay it leaning to the %s, ",
                    qci_lean_side(next->lean, from));
    put_through(text, next, from);
}

void qci_say_slanted_cut(qci_text *text, const qc_step *step,
                         const qci_origin *from)
{
    qc_length upper = step->along + step->lean - from->edge;
    qci_placing one = {.height = height_of(step, from),
                       .lean = step->lean,
                       .lower = step->along,
                       .upper = upper,
                       .squared = from->edge == 0 && step->repeat == 1};
    qci_placing other = {.height = one.height,
                         .lean = from->edge,
                         .lower = upper,
                         .upper = step->along};

    qci_say_placing(text, &one, from);
    qci_text_printf(text, ", and cut");
    if (step->repeat > 1) {
        qci_text_printf(text, "; then ");
        put_next(text, &one, &other, from);
        qci_text_printf(text, ", and cut");
    }
    if (step->repeat > 2)
        qci_text_printf(text, "; and so on by turns");
    qci_text_printf(text, ": ");
    put_freed(text, step, from);
}

void qci_say_like(qci_text *text, const qc_step *step, const qci_origin *from)
{
    qci_text_printf(text, "as in step %" PRIu32 ", cut ", from->like);
    put_freed(text, step, from);
}
