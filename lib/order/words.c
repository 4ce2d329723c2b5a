/* Sentences of the cut order.
 *
 * A reader stands at the mat with a ruler: each sentence says which cloth to
 * take, what to set the ruler to, where to begin, what falls out of each cloth
 * and how many that makes. All three kinds of cut that free pieces (SUBCUT,
 * SPLIT, TRIM) share one frame, so that a step reads the same wherever it
 * comes from. Strips of an entry bear its number, sections a letter after it,
 * slices a number after that: "strip 3", "section 3b", "slice 3b2".
 */
#include "order/words.h"

#include <inttypes.h>
#include <stdio.h>

#include "base/alloc.h"
#include "base/text.h"

/* Room for any length, or for a part's letters. */
#define READING_SIZE 64

static const qci_plan_fabric *fabric_of(const qc_step *step,
                                        const qci_origin *from)
{
    return &from->plan->fabrics[step->fabric];
}

static const qc_strip *strip_of(const qc_step *step, const qci_origin *from)
{
    return &fabric_of(step, from)->strips[from->strip];
}

static void put_number(qci_text *text, qc_length length, const qci_origin *from)
{
    char reading[READING_SIZE];

    qc_length_format(length, from->plan->units, reading, sizeof reading);
    qci_text_printf(text, "%s", reading);
}

static void put_length(qci_text *text, qc_length length, const qci_origin *from)
{
    static const char *const units[] = {
        [QC_UNITS_IN] = "in", [QC_UNITS_CM] = "cm", [QC_UNITS_MM] = "mm"};

    put_number(text, length, from);
    qci_text_printf(text, " %s", units[from->plan->units]);
}

/* "2 1/2 x 4 1/2 in" */
static void put_size(qci_text *text, qc_length across, qc_length along,
                     const qci_origin *from)
{
    put_number(text, across, from);
    qci_text_printf(text, " x ");
    put_length(text, along, from);
}

/* "1 strip", "12 strips" */
static void put_count(qci_text *text, int64_t count, const char *noun)
{
    qci_text_printf(text, "%" PRId64 " %s%s", count, noun,
                    count == 1 ? "" : "s");
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

static void put_section_name(qci_text *text, const qci_origin *from)
{
    qci_text_printf(text, "section %zu", from->strip + 1);
    put_letters(text, from->subcut);
}

static void put_slice_name(qci_text *text, const qci_origin *from)
{
    qci_text_printf(text, "slice %zu", from->strip + 1);
    put_letters(text, from->subcut);
    qci_text_printf(text, "%zu", from->stack + 1);
}

static void put_source(qci_text *text, const qc_step *step,
                       const qci_origin *from)
{
    switch (step->kind) {
    case QC_STEP_SPLIT:
        put_section_name(text, from);
        break;
    case QC_STEP_TRIM:
        put_slice_name(text, from);
        break;
    case QC_STEP_SQUARE_UP:
    case QC_STEP_STRIP:
    case QC_STEP_SQUARE_END:
    case QC_STEP_SUBCUT:
    case QC_STEP_KEEP:
        if (step->part_in == 0)
            qci_text_printf(text, "bolt");
        else /* strips are the parts from 1 on, in the plan's order */
            qci_text_printf(text, "strip %" PRIu32, step->part_in);
        break;
    }
}

/* The part's name to begin with: "Section 3b: ". */
static void put_head(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    size_t at = text->size;

    put_source(text, step, from);
    if (!text->failed)
        text->bytes[at] = (char)(text->bytes[at] - 'a' + 'A');
    qci_text_printf(text, ": ");
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
    put_length(text, step->distance, from);
    qci_text_printf(text, " at most.");
}

static void put_strips(qci_text *text, const qc_step *step,
                       const qci_origin *from)
{
    bool short_of = strip_of(step, from)->cut_short;

    put_fold(text, step, from);
    qci_text_printf(text, "%s ", from->first ? "cut" : "Cut");
    qci_text_printf(text, "%" PRIu32 " %s%s ", step->repeat,
                    short_of ? "more " : "",
                    step->repeat == 1 ? "strip" : "strips");
    put_length(text, step->distance, from);
    qci_text_printf(text, " x width of fabric (strip %zu)", from->strip + 1);
    if (short_of)
        qci_text_printf(text, ", of which only a part will be used");
    qci_text_printf(text, ".");
}

/* "the strip", "the 12 strips"; of a cut-short entry "the last 2 strips". */
static void put_strips_meant(qci_text *text, const qc_step *step,
                             const qci_origin *from)
{
    qci_text_printf(text, "the %s",
                    strip_of(step, from)->cut_short ? "last " : "");
    if (step->copies == 1)
        qci_text_printf(text, "strip");
    else
        qci_text_printf(text, "%" PRId64 " strips", step->copies);
}

static void put_square_end(qci_text *text, const qc_step *step,
                           const qci_origin *from)
{
    put_head(text, step, from);
    qci_text_printf(text, "open ");
    put_strips_meant(text, step, from);
    qci_text_printf(text, " out flat");
    if (step->copies > 1 && step->layers == 1)
        qci_text_printf(text, " and, one at a time,");
    else if (step->copies > step->layers)
        qci_text_printf(text, ", pile them up to %" PRIu32 " deep and",
                        step->layers);
    else if (step->copies > 1)
        qci_text_printf(text, ", lay them in one pile and");
    else
        qci_text_printf(text, " and");
    qci_text_printf(text, " square the left end%s, cutting off the selvage.",
                    step->copies > 1 ? "s" : "");
}

/* "each of the 12 strips", "the section", "each of the 36 slices" */
static void put_cloths(qci_text *text, const qc_step *step,
                       const qci_origin *from)
{
    if (step->copies > 1)
        qci_text_printf(text, "each of ");
    if (step->kind == QC_STEP_SUBCUT) {
        put_strips_meant(text, step, from);
        return;
    }
    qci_text_printf(text, "the ");
    if (step->copies > 1)
        qci_text_printf(text, "%" PRId64 " ", step->copies);
    qci_text_printf(text, "%s%s",
                    step->kind == QC_STEP_SPLIT ? "section" : "slice",
                    step->copies > 1 ? "s" : "");
}

static void put_piece(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    static const char *const turns[] = {
        [QC_TURN_NONE] = "",
        [QC_TURN_QUARTER] = ", lying turned a quarter",
        [QC_TURN_HALF] = ", lying turned halfway round"};
    const qc_plan_piece *piece = &from->plan->pieces[step->piece];

    qci_text_printf(text, " %s, ", piece->id);
    put_size(text, piece->cut[0], piece->cut[1], from);
    qci_text_printf(text, "%s", turns[step->turn]);
}

/* What falls out of one cloth: "9 pieces A, 4 1/2 x 2 1/2 in",
 * "3 sections 4 1/2 in wide", "2 slices 2 in high". */
static void put_freed(qci_text *text, const qc_step *step,
                      const qci_origin *from, bool one_by_name)
{
    int64_t freed = (int64_t)step->repeat + (step->rest_is_piece ? 1 : 0);
    const char *noun = step->piece != QC_NONE         ? "piece"
                       : step->kind == QC_STEP_SUBCUT ? "section"
                                                      : "slice";

    if (one_by_name)
        qci_text_printf(text, "a %s", noun);
    else
        put_count(text, freed, noun);
    if (step->piece != QC_NONE) {
        put_piece(text, step, from);
    } else {
        qci_text_printf(text, " ");
        put_length(text, step->distance, from);
        qci_text_printf(text, step->kind == QC_STEP_SUBCUT ? " wide" : " high");
    }
}

/* How many that makes: "(108 in all)", "(108 of 200 so far)", "(36 now, 144 of
 * 200 so far)", "(56 now, which makes all 200)", "(section 1a, 36 in all)". */
static void put_tally(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    int64_t needed;

    qci_text_printf(text, " (");
    if (step->piece == QC_NONE) {
        if (step->kind == QC_STEP_SUBCUT)
            put_section_name(text, from);
        else
            put_slice_name(text, from);
        qci_text_printf(text, ", %" PRId64 " in all)", step->yield);
        return;
    }
    needed = from->plan->pieces[step->piece].count;
    if (step->total > step->yield)
        qci_text_printf(text, "%" PRId64 " now, ", step->yield);
    if (step->total != needed)
        qci_text_printf(text, "%" PRId64 " of %" PRId64 " so far)", step->total,
                        needed);
    else if (step->total > step->yield)
        qci_text_printf(text, "which makes all %" PRId64 ")", needed);
    else
        qci_text_printf(text, "%" PRId64 " in all)", needed);
}

/* Nothing is cut: the cloths have the right size as they are. */
static void put_rest(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    if (step->kind == QC_STEP_SUBCUT ? from->subcut > 0 : from->stack > 0)
        qci_text_printf(text, "what is left of ");
    put_cloths(text, step, from);
    if (step->kind == QC_STEP_SUBCUT)
        qci_text_printf(text, ", without its right selvage,");
    qci_text_printf(text, " is ");
    put_freed(text, step, from, true);
}

/* Where the ruler is laid first; a step that goes on from the last one's cut
 * says so. */
static const char *start_of(const qc_step *step, const qci_origin *from)
{
    if (step->kind == QC_STEP_SPLIT)
        return from->stack == 0 ? "from the lower edge up" : "going on upwards";
    if (step->kind == QC_STEP_SUBCUT && from->subcut > 0)
        return "going on to the right";
    return step->kind == QC_STEP_SUBCUT ? "from the squared end"
                                        : "from the left edge";
}

static void put_frame(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    bool last_strips =
        step->kind == QC_STEP_SUBCUT && strip_of(step, from)->cut_short;

    if (step->kind == QC_STEP_SPLIT && from->stack == 0 && step->layers > 1)
        qci_text_printf(text, "leave the sections piled; ");
    qci_text_printf(text, "set the ruler to ");
    put_length(text, step->distance, from);
    qci_text_printf(text, " and, %s, cut %s", start_of(step, from),
                    last_strips ? "only " : "");
    put_freed(text, step, from, false);
    qci_text_printf(text, "%s from ", step->piece != QC_NONE ? "," : "");
    put_cloths(text, step, from);
    if (step->rest_is_piece)
        qci_text_printf(
            text, ", the last being what is left%s",
            step->kind == QC_STEP_SUBCUT ? " without its right selvage" : "");
}

static void put_cut(qci_text *text, const qc_step *step, const qci_origin *from)
{
    put_head(text, step, from);
    if (step->repeat == 0)
        put_rest(text, step, from);
    else
        put_frame(text, step, from);
    put_tally(text, step, from);
    qci_text_printf(text, ".");
}

static void put_keep(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    const qc_leftover *left = &fabric_of(step, from)->leftovers[from->leftover];

    if (step->part_in == 0) {
        qci_text_printf(text, "Keep the uncut end of the bolt: ");
        put_length(text, left->length, from);
        qci_text_printf(text, " x width of fabric");
    } else {
        qci_text_printf(text, "Keep the right end%s of ",
                        left->count == 1 ? "" : "s");
        put_source(text, step, from);
        qci_text_printf(text, ": ");
        put_count(text, left->count, "rectangle");
        qci_text_printf(text, ", ");
        put_size(text, left->width, left->length, from);
    }
    qci_text_printf(text, " (leftover %zu).", from->leftover + 1);
}

static void put_text(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    switch (step->kind) {
    case QC_STEP_SQUARE_UP:
        put_square_up(text, step, from);
        break;
    case QC_STEP_STRIP:
        put_strips(text, step, from);
        break;
    case QC_STEP_SQUARE_END:
        put_square_end(text, step, from);
        break;
    case QC_STEP_SUBCUT:
    case QC_STEP_SPLIT:
    case QC_STEP_TRIM:
        put_cut(text, step, from);
        break;
    case QC_STEP_KEEP:
        put_keep(text, step, from);
        break;
    }
}

bool qci_step_word(qc_step *step, const qci_origin *origin)
{
    qci_text source = {0};
    qci_text text = {0};
    char *said;

    put_source(&source, step, origin);
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
