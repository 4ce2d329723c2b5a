/* The sentence of a section that is trimmed to its piece's outline.
 *
 * Each cut takes a corner off and is told by the two points that it joins, both
 * measured from that corner, as the section lies after it was cut from its
 * strip. Where all corners go alike, as of hexagons, once is enough. A
 * left-handed plan sees the cloth in a mirror, so the outline is laid
 * mirrored too.
 */
#include <inttypes.h>

#include "order/measure.h"
#include "order/say.h"
#include "shape/shape.h"

static const qc_subcut *subcut_of(const qc_step *step, const qci_origin *from)
{
    return &from->plan->fabrics[step->fabric]
                .strips[from->strip]
                .subcuts[from->subcut];
}

size_t qci_outline_cuts(const qc_step *step, const qci_origin *from,
                        qci_corner_cut *out)
{
    const qc_plan_piece *piece = &from->plan->pieces[step->piece];
    const qc_subcut *subcut = subcut_of(step, from);
    qci_section_shape section = {.height = subcut->stacks[0].height,
                                 .width = subcut->width,
                                 .lean = {subcut->lean[0], subcut->lean[1]}};
    qc_point lying[QCI_CORNERS_MAX];

    qci_outline_lay(piece->outline + step->base * piece->outline_count,
                    piece->outline_count, step->turn, step->mirrored, lying);
    if (from->plan->left_handed)
        qci_outline_lay(lying, piece->outline_count, QC_TURN_NONE, true, lying);
    return qci_corner_cuts(&section, lying, piece->outline_count, out);
}

static const char *upper_word(bool upper)
{
    return upper ? "upper" : "lower";
}

static const char *side_word(const qci_corner_cut *cut, const qci_origin *from)
{
    return cut->far ? qci_far_side(from) : qci_near_side(from);
}

/* "the lower left corner, from the point 1 in along the lower edge to the point
 * 2 in up the left side" */
static void put_cut(qci_text *text, const qci_corner_cut *cut,
                    const qci_origin *from)
{
    const char *side = side_word(cut, from);

    if (cut->across)
        qci_text_printf(text, "the %s side", side);
    else
        qci_text_printf(text, "the %s %s corner", upper_word(cut->upper), side);
    qci_text_printf(text, ", from the point ");
    qci_say_about(text, cut->along, from);
    qci_text_printf(text, " along the %s edge to the point ",
                    upper_word(cut->upper));
    qci_say_about(text, cut->up, from);
    if (cut->across)
        qci_text_printf(text, " along the upper edge");
    else
        qci_text_printf(text, " %s the %s side", cut->upper ? "down" : "up",
                        side);
}

static bool are_alike(const qci_corner_cut *cuts, size_t count)
{
    for (size_t i = 0; i < count; i++)
        if (cuts[i].across || !qci_is_near(cuts[i].along, cuts[0].along) ||
            !qci_is_near(cuts[i].up, cuts[0].up))
            return false;
    return count > 1;
}

/* "all four corners", "the lower left and the upper right corner" */
static void put_corners(qci_text *text, const qci_corner_cut *cuts,
                        size_t count, const qci_origin *from)
{
    if (count == 4) {
        qci_text_printf(text, "all four corners");
        return;
    }
    for (size_t i = 0; i < count; i++)
        qci_text_printf(text, "%sthe %s %s",
                        i == 0           ? ""
                        : i + 1 == count ? " and "
                                         : ", ",
                        upper_word(cuts[i].upper), side_word(&cuts[i], from));
    qci_text_printf(text, " corner");
}

/* Of points that are marked first, since later cuts take the corners away from
 * which others are measured. */
static void put_cuts(qci_text *text, const qci_corner_cut *cuts, size_t count,
                     const qci_origin *from)
{
    if (are_alike(cuts, count)) {
        put_corners(text, cuts, count, from);
        qci_text_printf(text, ", each from the point ");
        qci_say_about(text, cuts[0].along, from);
        qci_text_printf(text, " along the edge to the point ");
        qci_say_about(text, cuts[0].up, from);
        qci_text_printf(text, " along the side");
    } else {
        for (size_t i = 0; i < count; i++) {
            qci_text_printf(text, "%s", i ? "; " : "");
            put_cut(text, &cuts[i], from);
        }
    }
    qci_text_printf(text, count > 1 ? ", all measured from the corners and "
                                      "marked before the first cut"
                                    : ", both measured from the corner");
}

void qci_say_outline(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    const qc_plan_piece *piece = &from->plan->pieces[step->piece];
    const qc_subcut *subcut = subcut_of(step, from);
    qci_corner_cut cuts[QCI_CORNERS_MAX];
    size_t count;

    if (from->like) {
        qci_text_printf(text, "as in step %" PRIu32 ", trim ", from->like);
        qci_say_each(text, step->copies, "section");
    } else {
        if (step->layers > 1)
            qci_text_printf(text, "leave the sections piled; ");
        if (subcut->alternate && subcut->count > 1)
            qci_text_printf(text,
                            "turn every second one halfway round, so that "
                            "all lie alike; ");
        qci_text_printf(text, "trim ");
        qci_say_each(text, step->copies, "section");
        qci_text_printf(text, ", taking off ");
        count = qci_outline_cuts(step, from, cuts);
        put_cuts(text, cuts, count, from);
    }
    qci_text_printf(text, ": a %s", qci_piece_noun(piece));
    if (from->mirror.needed == 0)
        qci_text_printf(text, " %s", piece->id);
    qci_say_tallies(text, step, from);
    qci_text_printf(text, ".");
}
