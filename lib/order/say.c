/* What sentences are made of. Lengths are written as they are read on a ruler;
 * every part bears a name that says where it was cut from; sides are named from
 * the one that is worked from.
 */
#include "order/say.h"

#include <inttypes.h>

#include "order/measure.h"

/* Room for any length, or for a part's letters. */
#define READING_SIZE 64

/* Beyond this a ruler is too short and cloth is measured otherwise: rotary
 * rulers end at about 24 in or 60 cm (common practice, no source). */
#define LONGEST_RULER (24 * QC_INCH)

static void put_number(qci_text *text, qc_length length, const qci_origin *from)
{
    char reading[READING_SIZE];

    qc_length_format(length, from->plan->units, reading, sizeof reading);
    qci_text_printf(text, "%s", reading);
}

void qci_say_length(qci_text *text, qc_length length, const qci_origin *from)
{
    static const char *const units[] = {
        [QC_UNITS_IN] = "in", [QC_UNITS_CM] = "cm", [QC_UNITS_MM] = "mm"};

    put_number(text, length, from);
    qci_text_printf(text, " %s", units[from->plan->units]);
}

void qci_say_about(qci_text *text, qc_length length, const qci_origin *from)
{
    qci_told told = qci_told_as(length, from->plan->ruler, from->plan->units);

    if (told.about)
        qci_text_printf(text, "about ");
    qci_say_length(text, told.mark, from);
}

void qci_say_size(qci_text *text, qc_length across, qc_length along,
                  const qci_origin *from)
{
    put_number(text, across, from);
    qci_text_printf(text, " x ");
    qci_say_length(text, along, from);
}

void qci_say_count(qci_text *text, int64_t count, const char *noun)
{
    qci_text_printf(text, "%" PRId64 " %s%s", count, noun,
                    count == 1 ? "" : "s");
}

void qci_say_the(qci_text *text, int64_t count, const char *noun)
{
    if (count == 1)
        qci_text_printf(text, "the %s", noun);
    else
        qci_text_printf(text, "the %" PRId64 " %ss", count, noun);
}

void qci_say_each(qci_text *text, int64_t count, const char *noun)
{
    if (count > 1)
        qci_text_printf(text, "each of ");
    qci_say_the(text, count, noun);
}

const char *qci_near_side(const qci_origin *from)
{
    return from->plan->left_handed ? "right" : "left";
}

const char *qci_far_side(const qci_origin *from)
{
    return from->plan->left_handed ? "left" : "right";
}

const char *qci_lean_side(qc_length lean, const qci_origin *from)
{
    return lean > 0 ? qci_far_side(from) : qci_near_side(from);
}

const char *qci_piece_noun(const qc_plan_piece *piece)
{
    switch (piece->shape) {
    case QC_SHAPE_HALF_SQUARE_TRIANGLE:
    case QC_SHAPE_QUARTER_SQUARE_TRIANGLE:
    case QC_SHAPE_EQUILATERAL_TRIANGLE:
        return "triangle";
    case QC_SHAPE_DIAMOND:
        return "diamond";
    case QC_SHAPE_PARALLELOGRAM:
        return "parallelogram";
    case QC_SHAPE_TRAPEZOID:
        return "trapezoid";
    case QC_SHAPE_HEXAGON:
        return "hexagon";
    case QC_SHAPE_KITE:
        return "kite";
    case QC_SHAPE_SQUARE:
    case QC_SHAPE_RECTANGLE:
    case QC_SHAPE_POLYGON:
    case QC_SHAPE_STRIP:
        break;
    }
    return "piece";
}

/* a to z, then aa, ab, ...; as many as there can be subcuts. */
static void put_letters(qci_text *text, size_t index)
{
    char letters[READING_SIZE];
    size_t at = sizeof letters - 1;

    letters[at] = '\0';
    for (size_t left = index + 1; left > 0; left = (left - 1) / 26)
        letters[--at] = (char)('a' + (left - 1) % 26);
    qci_text_printf(text, "%s", &letters[at]);
}

void qci_say_section(qci_text *text, const qci_origin *from)
{
    qci_text_printf(text, "section %zu", from->strip + 1);
    put_letters(text, from->section);
}

void qci_say_slice(qci_text *text, const qci_origin *from)
{
    qci_text_printf(text, "slice %zu", from->strip + 1);
    put_letters(text, from->section);
    qci_text_printf(text, "%zu", from->slice + 1);
}

void qci_say_source(qci_text *text, const qc_step *step, const qci_origin *from)
{
    switch (step->kind) {
    case QC_STEP_SPLIT:
    case QC_STEP_OUTLINE:
        qci_say_section(text, from);
        break;
    case QC_STEP_TRIM:
        qci_say_slice(text, from);
        break;
    case QC_STEP_DIAGONAL:
        qci_text_printf(text, "squares for %s",
                        from->plan->pieces[step->piece].id);
        break;
    case QC_STEP_TRIM_BACK:
        qci_text_printf(text, "units with %s",
                        from->plan->pieces[step->piece].id);
        break;
    case QC_STEP_SEW:
    case QC_STEP_CROSSCUT:
        qci_text_printf(text, "set %s", from->plan->sets[step->set].info.id);
        break;
    case QC_STEP_HALVE:
        qci_text_printf(text, "segments %s",
                        from->plan->sets[step->set].info.id);
        break;
    case QC_STEP_SQUARE_UP:
    case QC_STEP_STRIP:
    case QC_STEP_SQUARE_END:
    case QC_STEP_SLANT:
    case QC_STEP_SUBCUT:
    case QC_STEP_KEEP:
        if (step->part_in == 0)
            qci_text_printf(text, "bolt");
        else /* strips are the parts from 1 on, in the plan's order */
            qci_text_printf(text, "strip %" PRIu32, step->part_in);
        break;
    }
}

void qci_say_head(qci_text *text, const qc_step *step, const qci_origin *from)
{
    size_t at = text->size;

    qci_say_source(text, step, from);
    if (!text->failed)
        text->bytes[at] = (char)(text->bytes[at] - 'a' + 'A');
    qci_text_printf(text, ": ");
}

void qci_say_tally(qci_text *text, const qci_tally *tally)
{
    if (tally->total > tally->now)
        qci_text_printf(text, "%" PRId64 " now, ", tally->now);
    if (tally->total != tally->needed)
        qci_text_printf(text, "%" PRId64 " of %" PRId64 " so far", tally->total,
                        tally->needed);
    else if (tally->total > tally->now)
        qci_text_printf(text, "which makes all %" PRId64, tally->needed);
    else
        qci_text_printf(text, "%" PRId64 " in all", tally->needed);
}

void qci_say_tallies(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    const qc_plan_piece *piece = &from->plan->pieces[step->piece];

    if (from->mirror.needed > 0)
        qci_text_printf(text, ": %s", piece->id);
    qci_text_printf(text, " (");
    qci_say_tally(text, &from->tally);
    qci_text_printf(text, ")");
    if (from->mirror.needed == 0)
        return;
    qci_text_printf(text, " and %s (", from->plan->pieces[piece->twin].id);
    qci_say_tally(text, &from->mirror);
    qci_text_printf(text, ")");
}

bool qci_ruler_is_set(const qc_step *step, const qci_origin *from)
{
    return step->distance == from->ruler && step->distance <= LONGEST_RULER;
}

/* The spacing of sections that a piece does not give is seldom on a mark. */
static bool is_measured(const qc_step *step, const qci_origin *from)
{
    return step->kind != QC_STEP_SUBCUT || step->lean == 0 ||
           (step->piece != QC_NONE &&
            step->distance == from->plan->pieces[step->piece].cut[0]);
}

void qci_say_setting(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    qci_text_printf(text, "%s ",
                    step->distance > LONGEST_RULER ? "measure"
                    : qci_ruler_is_set(step, from) ? "keep the ruler at"
                                                   : "set the ruler to");
    if (is_measured(step, from))
        qci_say_length(text, step->distance, from);
    else
        qci_say_about(text, step->distance, from);
}
