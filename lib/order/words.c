/* Sentences of the cut order.
 *
 * A reader stands at the mat with a ruler: each sentence says which cloth to
 * take, what to set the ruler to, where to begin, what falls out of each cloth
 * and how many that makes. Here are those of the bolt, of strips and of what is
 * put away; every other kind of step has its own file. Strips of an entry bear
 * its number, sections a letter after it, slices a number after that: "strip
 * 3", "section 3b", "slice 3b2". Every new setting of the ruler must be read
 * off; where the last one serves again the sentence says so.
 */
#include "order/words.h"

#include <inttypes.h>

#include "base/alloc.h"
#include "base/mark.h"
#include "base/text.h"
#include "order/measure.h"
#include "order/say.h"

static const qci_plan_fabric *fabric_of(const qc_step *step,
                                        const qci_origin *from)
{
    return &from->plan->fabrics[step->fabric];
}

static const qc_strip *strip_of(const qc_step *step, const qci_origin *from)
{
    return &fabric_of(step, from)->strips[from->strip];
}

/* What to do with the bolt before the first cut. */
static void put_fold(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    const qc_plan_fabric *info = &fabric_of(step, from)->info;

    if (!from->first)
        return;
    if (step->layers > 1)
        qci_text_printf(text, "Fold %s selvage to selvage; ", info->name);
    else
        qci_text_printf(text, "Lay %s out in a single layer; ", info->name);
}

static void put_square_up(qci_text *text, const qc_step *step,
                          const qci_origin *from)
{
    put_fold(text, step, from);
    qci_text_printf(text, "straighten its cut end, taking off ");
    qci_say_length(text, step->distance, from);
    qci_text_printf(text, " at most.");
}

static void put_strips(qci_text *text, const qc_step *step,
                       const qci_origin *from)
{
    const char *noun = step->repeat == 1 ? "strip" : "strips";

    put_fold(text, step, from);
    if (qci_ruler_is_set(step, from)) {
        qci_text_printf(text, "With the ruler still at ");
        qci_say_length(text, step->distance, from);
        qci_text_printf(text, ", cut %" PRIu32 " more %s", step->repeat, noun);
    } else {
        qci_text_printf(text, "%s %" PRIu32 " %s ", from->first ? "cut" : "Cut",
                        step->repeat, noun);
        qci_say_length(text, step->distance, from);
        qci_text_printf(text, " x width of fabric");
    }
    qci_text_printf(text, " (strip %zu).", from->strip + 1);
}

/* "Strip 2 (cut as strip 1): ", "Strip 3 (as strip 1, but only in part): " */
static void put_strip_head(qci_text *text, const qc_step *step,
                           const qci_origin *from)
{
    const qc_strip *strips = fabric_of(step, from)->strips;
    size_t whole = qci_strip_setup(strips, from->strip);

    qci_text_printf(text, "Strip %zu", from->strip + 1);
    if (strips[from->strip].alike)
        qci_text_printf(text, " (cut as strip %zu)", whole + 1);
    else if (whole < from->strip)
        qci_text_printf(text, " (as strip %zu, but only in part)", whole + 1);
    qci_text_printf(text, ": ");
}

/* Strips lie right sides together, so that each cut gives both hands. */
static void put_pairs(qci_text *text, const qc_step *step)
{
    bool one_pile = step->copies <= (int64_t)step->layers;

    if (step->copies == 2)
        qci_text_printf(text, " and lay them one on the other");
    else
        qci_text_printf(text, ", lay them in twos");
    qci_text_printf(text, ", right sides together: each cut gives a left and a "
                          "right piece; ");
    if (step->layers == 2 && !one_pile)
        qci_text_printf(text, "pair by pair, ");
    else if (!one_pile)
        qci_text_printf(text, "pile the pairs up to %" PRIu32 " deep and ",
                        step->layers);
    else if (step->copies > 2)
        qci_text_printf(text, "lay the pairs in one pile and ");
}

static void put_piles(qci_text *text, const qc_step *step, bool sides)
{
    if (sides)
        qci_text_printf(text, ", %s up",
                        step->copies > 1 ? "all right sides" : "right side");
    if (step->copies > 1 && step->layers == 1)
        qci_text_printf(text, "%s and, one at a time, ", sides ? "," : "");
    else if (step->copies > step->layers)
        qci_text_printf(text, ", pile them up to %" PRIu32 " deep and ",
                        step->layers);
    else if (step->copies > 1)
        qci_text_printf(text, ", lay them in one pile and ");
    else
        qci_text_printf(text, "%s and ", sides ? "," : "");
}

static void put_square_end(qci_text *text, const qc_step *step,
                           const qci_origin *from)
{
    put_strip_head(text, step, from);
    /* Strips come off a folded bolt folded. */
    qci_text_printf(text, from->plan->layers > 1 ? "open " : "lay ");
    qci_say_the(text, step->copies, "strip");
    qci_text_printf(text, " out flat");
    if (step->paired)
        put_pairs(text, step);
    else
        put_piles(text, step,
                  qci_strip_has_hand(from->plan, strip_of(step, from)));
    qci_text_printf(text, "square the %s end%s, cutting off the selvage.",
                    qci_near_side(from), step->copies > 1 ? "s" : "");
}

/* Does the strip end slanted, once its last section is cut off? */
static bool ends_slanted(const qc_strip *strip)
{
    const qc_subcut *last;

    if (strip->subcut_count == 0)
        return false;
    last = &strip->subcuts[strip->subcut_count - 1];
    return last->lean[last->alternate && last->count % 2 == 0 ? 0 : 1] != 0;
}

static void put_keep(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    const qci_plan_fabric *fabric = fabric_of(step, from);
    const qc_leftover *left = &fabric->leftovers[from->leftover];

    if (step->part_in == 0) {
        qci_text_printf(text, "Keep the uncut end of the bolt: ");
        qci_say_length(text, left->length, from);
        qci_text_printf(text, " x width of fabric");
    } else {
        qci_text_printf(text, "Keep the %s end%s of ", qci_far_side(from),
                        left->count == 1 ? "" : "s");
        qci_say_source(text, step, from);
        qci_text_printf(text, ": ");
        qci_say_count(text, left->count, "rectangle");
        qci_text_printf(text, ", ");
        qci_say_size(text, qci_mark_below(left->width, from->plan->units),
                     left->length, from);
        if (ends_slanted(&fabric->strips[left->strip]))
            qci_text_printf(text, ", beside the slant");
    }
    qci_text_printf(text, " (leftover %zu).", from->leftover + 1);
}

static void put_after_head(qci_text *text, const qc_step *step,
                           const qci_origin *from)
{
    qci_say_head(text, step, from);
    switch (step->kind) {
    case QC_STEP_SUBCUT:
    case QC_STEP_SPLIT:
    case QC_STEP_TRIM:
        qci_say_cut(text, step, from);
        break;
    case QC_STEP_SLANT:
        qci_say_slant(text, step, from);
        break;
    case QC_STEP_OUTLINE:
        qci_say_outline(text, step, from);
        break;
    case QC_STEP_DIAGONAL:
        qci_say_diagonal(text, step, from);
        break;
    case QC_STEP_TRIM_BACK:
        qci_say_trim_back(text, step, from);
        break;
    case QC_STEP_SEW:
        qci_say_sew(text, step, from);
        break;
    case QC_STEP_CROSSCUT:
        qci_say_crosscut(text, step, from);
        break;
    case QC_STEP_HALVE:
        qci_say_halve(text, step, from);
        break;
    case QC_STEP_SQUARE_UP:
    case QC_STEP_STRIP:
    case QC_STEP_SQUARE_END:
    case QC_STEP_KEEP:
        break; /* words of their own at the beginning */
    }
}

static void put_text(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    if (step->kind == QC_STEP_SQUARE_UP)
        put_square_up(text, step, from);
    else if (step->kind == QC_STEP_STRIP)
        put_strips(text, step, from);
    else if (step->kind == QC_STEP_SQUARE_END)
        put_square_end(text, step, from);
    else if (step->kind == QC_STEP_KEEP)
        put_keep(text, step, from);
    else
        put_after_head(text, step, from);
}

bool qci_step_word(qc_step *step, const qci_origin *origin)
{
    qci_text source = {0};
    qci_text text = {0};
    char *said;

    qci_say_source(&source, step, origin);
    step->source = qci_text_take(&source);
    put_text(&text, step, origin);
    said = qci_text_take(&text);
    if (!step->source || !said) {
        qci_free((void *)step->source);
        qci_free(said);
        step->source = NULL;
        return false;
    }
    step->text = said;
    return true;
}
