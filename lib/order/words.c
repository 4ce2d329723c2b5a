/* Sentences of the cut order.
 *
 * A reader stands at the mat with a ruler: each sentence says which cloth to
 * take, what to set the ruler to, where to begin, what falls out of each cloth
 * and how many that makes. All three kinds of cut that free pieces (SUBCUT,
 * SPLIT, TRIM) share one frame, so that a step reads the same wherever it
 * comes from. Strips of an entry bear its number, sections a letter after it,
 * slices a number after that: "strip 3", "section 3b", "slice 3b2". Every new
 * setting of the ruler must be read off; where the last one serves again the
 * sentence says so.
 */
#include "order/words.h"

#include <inttypes.h>
#include <stdio.h>

#include "base/alloc.h"
#include "base/text.h"
#include "order/say.h"
#include "shape/shape.h"

/* Beyond this a ruler is too short and cloth is measured otherwise: rotary
 * rulers end at about 24 in or 60 cm (common practice, no source). */
#define LONGEST_RULER (24 * QC_INCH)

static const qci_plan_fabric *fabric_of(const qc_step *step,
                                        const qci_origin *from)
{
    return &from->plan->fabrics[step->fabric];
}

static const qc_strip *strip_of(const qc_step *step, const qci_origin *from)
{
    return &fabric_of(step, from)->strips[from->strip];
}

/* The part's name to begin with: "Section 3b: ". */
static void put_head(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    size_t at = text->size;

    qci_say_source(text, step, from);
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
    qci_say_length(text, step->distance, from);
    qci_text_printf(text, " at most.");
}

/* The step needs the setting that the ruler has. */
static bool is_set(const qc_step *step, const qci_origin *from)
{
    return step->distance == from->ruler && step->distance <= LONGEST_RULER;
}

/* "set the ruler to 4 1/2 in" */
static void put_setting(qci_text *text, const qc_step *step,
                        const qci_origin *from)
{
    qci_text_printf(text, "%s ",
                    step->distance > LONGEST_RULER ? "measure"
                    : is_set(step, from)           ? "keep the ruler at"
                                                   : "set the ruler to");
    qci_say_length(text, step->distance, from);
}

static void put_strips(qci_text *text, const qc_step *step,
                       const qci_origin *from)
{
    const char *noun = step->repeat == 1 ? "strip" : "strips";

    put_fold(text, step, from);
    if (is_set(step, from)) {
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

/* "the strip", "the 12 sections" */
static void put_the(qci_text *text, const qc_step *step, const char *noun)
{
    if (step->copies == 1)
        qci_text_printf(text, "the %s", noun);
    else
        qci_text_printf(text, "the %" PRId64 " %ss", step->copies, noun);
}

/* "Strip 2 (as strip 1, but only in part): " */
static void put_strip_head(qci_text *text, const qc_step *step,
                           const qci_origin *from)
{
    const qc_strip *strips = fabric_of(step, from)->strips;
    size_t whole = from->strip;

    while (whole > 0 && strips[whole].cut_short)
        whole--;
    qci_text_printf(text, "Strip %zu", from->strip + 1);
    if (whole < from->strip)
        qci_text_printf(text, " (as strip %zu, but only in part)", whole + 1);
    qci_text_printf(text, ": ");
}

static void put_square_end(qci_text *text, const qc_step *step,
                           const qci_origin *from)
{
    put_strip_head(text, step, from);
    /* Strips come off a folded bolt folded. */
    qci_text_printf(text, from->plan->layers > 1 ? "open " : "lay ");
    put_the(text, step, "strip");
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
static void put_cloths(qci_text *text, const qc_step *step)
{
    if (step->copies > 1)
        qci_text_printf(text, "each of ");
    put_the(text, step,
            step->kind == QC_STEP_SUBCUT  ? "strip"
            : step->kind == QC_STEP_SPLIT ? "section"
                                          : "slice");
}

/* Pieces that what falls out becomes. */
static int32_t yields_of(const qc_step *step, const qci_origin *from)
{
    return qci_shape_yields(from->plan->pieces[step->piece].shape);
}

/* What falls out that is a piece, or becomes some. */
static const char *piece_noun(const qc_step *step, const qci_origin *from)
{
    return yields_of(step, from) > 1 ? "square" : "piece";
}

static void put_piece(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    static const char *const turns[] = {
        [QC_TURN_NONE] = "",
        [QC_TURN_QUARTER] = ", lying turned a quarter",
        [QC_TURN_HALF] = ", lying turned halfway round"};
    const qc_plan_piece *piece = &from->plan->pieces[step->piece];

    qci_text_printf(text, "%s %s, ", yields_of(step, from) > 1 ? " for" : "",
                    piece->id);
    qci_say_size(text, piece->cut[0], piece->cut[1], from);
    qci_text_printf(text, "%s", turns[step->turn]);
}

/* What falls out of one cloth: "9 pieces A, 4 1/2 x 2 1/2 in",
 * "9 squares for B, 3 7/8 x 3 7/8 in", "3 sections 4 1/2 in wide",
 * "2 slices 2 in high". */
static void put_freed(qci_text *text, const qc_step *step,
                      const qci_origin *from, bool one_by_name)
{
    int64_t freed = (int64_t)step->repeat + (step->rest_is_piece ? 1 : 0);
    const char *noun = step->piece != QC_NONE         ? piece_noun(step, from)
                       : step->kind == QC_STEP_SUBCUT ? "section"
                                                      : "slice";

    if (one_by_name)
        qci_text_printf(text, "a %s", noun);
    else
        qci_say_count(text, freed, noun);
    if (step->piece != QC_NONE) {
        put_piece(text, step, from);
    } else {
        qci_text_printf(text, " ");
        qci_say_length(text, step->distance, from);
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
            qci_say_section(text, from);
        else
            qci_say_slice(text, from);
        qci_text_printf(text, ", %" PRId64 " in all)", step->yield);
        return;
    }
    needed = from->plan->pieces[step->piece].count / yields_of(step, from);
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

/* Nothing is cut: what is left of the sections has the right size. */
static void put_rest(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    qci_text_printf(text, "what is left of ");
    put_cloths(text, step);
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

/* The step's last section ends where the usable width ends. */
static bool reaches_selvage(const qc_step *step, const qci_origin *from)
{
    const qc_strip *strip = strip_of(step, from);

    return step->kind == QC_STEP_SUBCUT &&
           from->subcut + 1 == strip->subcut_count &&
           strip->used_width == fabric_of(step, from)->info.usable_width;
}

static void put_frame(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    if (step->kind == QC_STEP_SPLIT && from->stack == 0 && step->layers > 1)
        qci_text_printf(text, "leave the sections piled; ");
    put_setting(text, step, from);
    qci_text_printf(text, " and, %s, cut ", start_of(step, from));
    put_freed(text, step, from, false);
    qci_text_printf(text, "%s from ", step->piece != QC_NONE ? "," : "");
    put_cloths(text, step);
    if (step->rest_is_piece)
        qci_text_printf(text, ", the last being what is left");
    if (reaches_selvage(step, from))
        qci_text_printf(text, ", the last cut taking off the right selvage");
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
        qci_say_length(text, left->length, from);
        qci_text_printf(text, " x width of fabric");
    } else {
        qci_text_printf(text, "Keep the right end%s of ",
                        left->count == 1 ? "" : "s");
        qci_say_source(text, step, from);
        qci_text_printf(text, ": ");
        qci_say_count(text, left->count, "rectangle");
        qci_text_printf(text, ", ");
        qci_say_size(text, left->width, left->length, from);
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
    case QC_STEP_DIAGONAL:
        put_head(text, step, from);
        qci_say_diagonal(text, step, from);
        break;
    case QC_STEP_KEEP:
        put_keep(text, step, from);
        break;
    case QC_STEP_SLANT:
    case QC_STEP_OUTLINE:
    case QC_STEP_SEW:
    case QC_STEP_CROSSCUT:
    case QC_STEP_HALVE:
    case QC_STEP_TRIM_BACK:
        break;
    }
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
