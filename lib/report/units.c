/* How units are sewn that are not cut patch by patch, and what they are trimmed
 * to: without it a sewist finds squares and strips where the block shows
 * triangles. */
#include <inttypes.h>

#include <quiltcut/block.h>

#include "report/layout.h"
#include "report/phrase.h"
#include "report/section.h"

typedef struct unit_text {
    const qc_plan *plan;
    const qc_plan_unit *unit;
    uint32_t index;
    qci_text words;
} unit_text;

/* The id of the n-th piece that is for the unit; NULL: there are fewer. */
static const char *piece_of(const unit_text *t, size_t n)
{
    for (size_t i = 0; i < t->plan->piece_count; i++) {
        const qc_plan_piece *piece = &t->plan->pieces[i];

        if (piece->unit == t->index && n-- == 0)
            return piece->id;
    }
    return NULL;
}

static void say_pair(unit_text *t, bool eight)
{
    qci_text_printf(&t->words,
                    "Lay a piece %s and a piece %s right sides together and "
                    "draw %s on the upper one. Sew %s from %s, on both sides "
                    "of it. ",
                    piece_of(t, 0), piece_of(t, 1),
                    eight ? "both diagonals" : "a diagonal",
                    qci_phrase_length(t->plan, t->plan->seam).text,
                    eight ? "each line" : "the line");
    if (eight)
        qci_text_printf(&t->words,
                        "Cut through the middle both ways, along and across, "
                        "then on the lines: eight units. Undo the few "
                        "stitches across their tips.");
    else
        qci_text_printf(&t->words, "Cut on the line: two units.");
    qci_text_printf(&t->words, " Press them open.");
}

static void say_geese(unit_text *t)
{
    const char *small = piece_of(t, 1);

    qci_text_printf(&t->words,
                    "Lay two pieces %s on a piece %s, right sides together, in "
                    "two corners that are opposite, so that they overlap in "
                    "the middle. Draw the diagonal through both; sew %s from "
                    "it on both sides and cut on it. Press the small "
                    "triangles away from the large one. On each half lay one "
                    "more %s in the corner that is left, draw its diagonal "
                    "from that corner, sew and cut in the same way: four "
                    "units.",
                    small, piece_of(t, 0),
                    qci_phrase_length(t->plan, t->plan->seam).text, small);
}

static void say_flipped(unit_text *t)
{
    const char *corner;

    for (size_t i = 1; (corner = piece_of(t, i)); i++)
        qci_text_printf(&t->words, "%s piece %s", i > 1 ? " or a" : "Lay a",
                        corner);
    qci_text_printf(&t->words,
                    " on a corner of a piece %s, right sides together, edges "
                    "even. Draw the diagonal that cuts the corner off and sew "
                    "on it. Cut %s outside the seam, through both, and press "
                    "the triangle over the corner. Do so at every corner that "
                    "the block shows.",
                    piece_of(t, 0),
                    qci_phrase_length(t->plan, t->plan->seam).text);
}

static void say_halves(unit_text *t)
{
    qci_text_printf(
        &t->words,
        "Sew a piece %s to each of the two diamonds beside it; the seam "
        "between the halves is sewn with the rest, straight "
        "through, and nothing is set in.",
        piece_of(t, 0));
}

/* A segment with half a square has its end trimmed to a triangle. */
static bool has_half(const qc_plan_unit *unit)
{
    for (const char *at = unit->id; *at; at++)
        if (*at == '/')
            return true;
    return false;
}

static void say_segments(unit_text *t)
{
    const qc_plan *plan = t->plan;
    size_t sets = 0;

    qci_text_printf(&t->words, "They are the segments of strip set");
    for (size_t i = 0; i < plan->set_count; i++)
        if (plan->sets[i].info.unit == t->index)
            qci_text_printf(&t->words, "%s %s", sets++ ? " and" : "",
                            plan->sets[i].info.id);
    qci_text_printf(&t->words, ".");
    if (has_half(t->unit))
        qci_text_printf(&t->words,
                        " Of the %s strip each needs a triangle only: trim "
                        "it square to the seam, %s beyond the sharp tip of "
                        "the diamond.",
                        t->unit->id[0] == '1' ? "first" : "last",
                        qci_phrase_length(plan, plan->seam).text);
}

static void say_method(unit_text *t)
{
    switch (t->unit->method) {
    case QC_METHOD_TWO_AT_A_TIME:
    case QC_METHOD_EIGHT_AT_A_TIME:
        say_pair(t, t->unit->method == QC_METHOD_EIGHT_AT_A_TIME);
        break;
    case QC_METHOD_FOUR_AT_A_TIME:
        say_geese(t);
        break;
    case QC_METHOD_STITCH_AND_FLIP:
        say_flipped(t);
        break;
    case QC_METHOD_STRIP_SET:
        say_segments(t);
        break;
    case QC_METHOD_HALF_SQUARE_TRIANGLES:
        say_halves(t);
        break;
    }
}

static const qc_plan_set *set_of(const unit_text *t)
{
    const qci_plan_set *set = t->plan->sets;

    while (set->info.unit != t->index)
        set++;
    return &set->info;
}

/* Only what was cut larger, for the trim or to the ruler, is trimmed. */
static void say_trim_segment(unit_text *t)
{
    const qc_plan *plan = t->plan;
    const qc_length *to = t->unit->trim_to;
    const qc_plan_set *set = set_of(t);
    bool exact = set->spacing == to[0] && set->height == to[1];

    qci_text_printf(&t->words,
                    " %s %s between the crosscuts, square to them, and %s "
                    "across the seams, from raw edge to raw edge",
                    exact ? "Each measures" : "Trim each to",
                    qci_phrase_length(plan, to[0]).text,
                    qci_phrase_length(plan, to[1]).text);
    if (!exact)
        qci_text_printf(&t->words,
                        ": %s beyond the first seam and %s beyond the last",
                        qci_phrase_about(plan, t->unit->outer[0]).text,
                        qci_phrase_about(plan, t->unit->outer[1]).text);
    qci_text_printf(&t->words, ".");
}

/* The patch under the corners measures what the unit does, as it is cut. */
static bool is_exact(const unit_text *t)
{
    for (size_t i = 0; i < t->plan->piece_count; i++) {
        const qc_plan_piece *piece = &t->plan->pieces[i];

        if (piece->unit == t->index)
            return piece->cut[0] == t->unit->trim_to[0] &&
                   piece->cut[1] == t->unit->trim_to[1];
    }
    return false;
}

static void say_trim(unit_text *t)
{
    const qc_plan *plan = t->plan;
    const qc_plan_unit *unit = t->unit;
    bool flipped = unit->method == QC_METHOD_STITCH_AND_FLIP;
    bool exact = flipped && is_exact(t);

    if (!unit->trim_to[0])
        return;
    if (unit->method == QC_METHOD_STRIP_SET) {
        say_trim_segment(t);
        return;
    }
    qci_text_printf(&t->words, " %s %s",
                    exact ? "Each measures" : "Trim each to",
                    qci_phrase_size_unit(plan, unit->trim_to).text);
    if (unit->method == QC_METHOD_FOUR_AT_A_TIME)
        qci_text_printf(&t->words,
                        ", its point %s from the edge, the other seams into "
                        "the corners.",
                        qci_phrase_length(plan, plan->seam).text);
    else if (!flipped)
        qci_text_printf(&t->words, ", the seam from corner to corner.");
    else
        qci_text_printf(&t->words, "%s",
                        exact ? ", from raw edge to raw edge."
                              : ", as much off every side.");
}

static void put_unit(qci_text *out, const qc_plan *plan, uint32_t index)
{
    const qc_plan_unit *unit = &plan->made[index];
    unit_text t = {plan, unit, index, {0}};
    qci_text head = {0};

    qci_text_printf(&head, "%s: %s, %s", unit->id,
                    qci_phrase_count(unit->count, "unit").text,
                    qc_method_name(unit->method));
    if (unit->trim)
        qci_text_printf(&head, ", made %s larger",
                        qci_phrase_length(plan, unit->trim).text);
    if (unit->made > unit->count)
        qci_text_printf(&head, "; %" PRId64 " more fall%s out",
                        unit->made - unit->count,
                        unit->made - unit->count == 1 ? "s" : "");
    qci_put_collected(out, 4, &head);
    say_method(&t);
    say_trim(&t);
    qci_put_collected(out, 6, &t.words);
}

void qci_put_units(qci_text *out, const qc_plan *plan, uint32_t block)
{
    for (uint32_t i = 0; i < plan->made_count; i++)
        if (plan->made[i].block == block)
            put_unit(out, plan, i);
}
