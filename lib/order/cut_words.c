/* Sentences of square cuts that free pieces.
 *
 * All three kinds (SUBCUT, SPLIT, TRIM) share one frame, so that a step reads
 * the same wherever it comes from. What falls out is told here for slanted cuts
 * too: rectangles and squares with their size, by which they are told apart at
 * the mat, other shapes by what they are called.
 */
#include <inttypes.h>

#include "order/say.h"

/* What the pieces are called that fall out, or are squares for them. */
static const char *noun_of(const qc_step *step, const qci_origin *from)
{
    if (step->piece == QC_NONE)
        return step->kind == QC_STEP_SPLIT ? "slice" : "section";
    return from->yields > 1 ? "square"
                            : qci_piece_noun(&from->plan->pieces[step->piece]);
}

/* Looks the same after half a turn. */
static bool turns_onto_itself(qc_shape shape)
{
    return shape == QC_SHAPE_DIAMOND || shape == QC_SHAPE_PARALLELOGRAM ||
           shape == QC_SHAPE_HEXAGON;
}

/* How it lies; "" where that is as drawn or does not show. */
static const char *turn_of(const qc_step *step, const qci_origin *from)
{
    if (step->alternate && step->repeat > 1)
        return step->turn == QC_TURN_HALF
                   ? ", the first, third and so on turned halfway round"
                   : ", every second one turned halfway round";
    switch (step->turn) {
    case QC_TURN_QUARTER:
        return ", lying turned a quarter";
    case QC_TURN_HALF:
        return turns_onto_itself(from->plan->pieces[step->piece].shape)
                   ? ""
                   : ", lying turned halfway round";
    case QC_TURN_THREE_QUARTERS:
        return ", lying turned three quarters";
    case QC_TURN_NONE:
        break;
    }
    return "";
}

static bool put_piece(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    const qc_plan_piece *piece = &from->plan->pieces[step->piece];
    bool sized = piece->outline_count == 0 || from->yields > 1;
    const char *turn = turn_of(step, from);

    if (from->mirror.needed == 0)
        qci_text_printf(text, "%s %s", from->yields > 1 ? " for" : "",
                        piece->id);
    if (sized) {
        qci_text_printf(text, ", ");
        qci_say_size(text, piece->cut[0], piece->cut[1], from);
    }
    qci_text_printf(text, "%s", turn);
    return sized || turn[0];
}

bool qci_say_freed(qci_text *text, const qc_step *step, const qci_origin *from,
                   bool one_by_name)
{
    int64_t freed = (int64_t)step->repeat + (step->rest_is_piece ? 1 : 0);
    const char *noun = noun_of(step, from);

    if (one_by_name)
        qci_text_printf(text, "a %s", noun);
    else
        qci_say_count(text, freed, noun);
    if (step->piece != QC_NONE)
        return put_piece(text, step, from);
    if (step->kind == QC_STEP_SUBCUT && (step->lean || step->distance == 0))
        return false; /* they slant; how to lay the ruler says enough */
    qci_text_printf(text, " ");
    qci_say_length(text, step->distance, from);
    qci_text_printf(text, step->kind == QC_STEP_SUBCUT ? " wide" : " high");
    return false;
}

/* How many that makes: "(108 in all)", "(section 1a, 36 in all)". */
static void put_tally(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    if (step->piece != QC_NONE) {
        qci_say_tallies(text, step, from);
        return;
    }
    qci_text_printf(text, " (");
    if (step->kind == QC_STEP_SUBCUT)
        qci_say_section(text, from);
    else
        qci_say_slice(text, from);
    qci_text_printf(text, ", %" PRId64 " in all)", step->yield);
}

static void put_cloths(qci_text *text, const qc_step *step)
{
    qci_say_each(text, step->copies,
                 step->kind == QC_STEP_SUBCUT  ? "strip"
                 : step->kind == QC_STEP_SPLIT ? "section"
                                               : "slice");
}

/* Nothing is cut: what is left of the sections has the right size. */
static void put_rest(qci_text *text, const qc_step *step,
                     const qci_origin *from)
{
    qci_text_printf(text, "what is left of ");
    put_cloths(text, step);
    qci_text_printf(text, " is ");
    qci_say_freed(text, step, from, true);
}

/* Where the ruler is laid first; a step that goes on from the last one's cut
 * says so. */
static void put_start(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    if (step->kind == QC_STEP_SPLIT)
        qci_text_printf(text, from->stack == 0 ? "from the lower edge up"
                                               : "going on upwards");
    else if (step->kind == QC_STEP_TRIM)
        qci_text_printf(text, "from the %s edge", qci_near_side(from));
    else if (from->subcut > 0)
        qci_text_printf(text, "going on to the %s", qci_far_side(from));
    else
        qci_text_printf(text, "from the %s end",
                        step->lean ? "slanted" : "squared");
}

static void put_frame(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    if (step->kind == QC_STEP_SPLIT && from->stack == 0 && step->layers > 1)
        qci_text_printf(text, "leave the sections piled; ");
    qci_say_setting(text, step, from);
    if (step->lean)
        qci_say_square_to(text, "the slanted edge", "strip", step->along, from);
    qci_text_printf(text, " and, ");
    put_start(text, step, from);
    qci_text_printf(text, ", cut ");
    if (qci_say_freed(text, step, from, false))
        qci_text_printf(text, ",");
    qci_text_printf(text, " from ");
    put_cloths(text, step);
    if (step->rest_is_piece)
        qci_text_printf(text, ", the last being what is left");
}

void qci_say_cut(qci_text *text, const qc_step *step, const qci_origin *from)
{
    if (step->repeat == 0)
        put_rest(text, step, from);
    else if (from->like)
        qci_say_like(text, step, from);
    else if (step->kind == QC_STEP_SUBCUT && step->distance == 0)
        qci_say_slanted_cut(text, step, from);
    else
        put_frame(text, step, from);
    if (from->selvage)
        qci_text_printf(text, ", the last cut taking off the %s selvage",
                        qci_far_side(from));
    put_tally(text, step, from);
    qci_text_printf(text, ".");
    if (step->kind == QC_STEP_SUBCUT && step->distance && step->lean)
        qci_say_true_again(text, step->repeat);
}
