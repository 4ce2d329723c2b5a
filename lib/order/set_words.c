/* Sentences of strip sets: sewing, crosscutting, halving segments.
 *
 * Strips are named from the bottom up, as the set lies before the reader. A
 * stagger is told as a mark on one of two neighbours, that far from its end,
 * where the other one ends. Segments of the two hands are joined to each other
 * more often than not; seams that are pressed opposite ways in the two then
 * nest (common practice, no source). */
#include <inttypes.h>
#include <string.h>

#include "order/measure.h"
#include "order/say.h"
#include "shape/shape.h"

static const qci_plan_set *set_of(const qc_step *step, const qci_origin *from)
{
    return &from->plan->sets[step->set];
}

/* The set of the other hand, if the job wants both; else NULL. */
static const qc_plan_set *other_hand(const qc_step *step,
                                     const qci_origin *from)
{
    const qc_plan_set *set = &set_of(step, from)->info;

    for (size_t i = 0; i < from->plan->set_count; i++) {
        const qc_plan_set *other = &from->plan->sets[i].info;

        if (other != set && strcmp(other->job_id, set->job_id) == 0)
            return other;
    }
    return NULL;
}

static bool is_part(const qc_step *step)
{
    return (step->kind == QC_STEP_SEW ? step->part_out : step->part_in) == 1;
}

static void put_strip_id(qci_text *text, const qc_set_strip *strip, bool part,
                         const qci_origin *from)
{
    uint32_t piece = part ? strip->part_piece : strip->full_piece;

    qci_text_printf(text, "%s", from->plan->pieces[piece].id);
}

/* "S1 a (night, 3 in wide), S1 b (sand, 2 in wide)" */
static void put_strips(qci_text *text, const qci_plan_set *set, bool part,
                       const qci_origin *from)
{
    for (size_t i = 0; i < set->info.strip_count; i++) {
        const qc_set_strip *strip = &set->strips[i];

        qci_text_printf(text, "%s", i ? ", " : "");
        put_strip_id(text, strip, part, from);
        qci_text_printf(text, " (%s, ",
                        from->plan->fabrics[strip->fabric].info.name);
        qci_say_length(text, strip->width, from);
        qci_text_printf(text, " wide)");
    }
}

/* How far strip `i` is stepped along from the one below it. */
static qc_length step_at(const qci_plan_set *set, size_t i)
{
    return set->strips[i].offset - set->strips[i - 1].offset;
}

static bool all_alike(const qci_plan_set *set)
{
    for (size_t i = 2; i < set->info.strip_count; i++)
        if (!qci_is_near(step_at(set, i), step_at(set, 1)))
            return false;
    return true;
}

/* Where a strip begins that is stepped along by `by` from the one below. */
static void put_mark(qci_text *text, qc_length by, const qci_origin *from)
{
    const char *near = qci_near_side(from);

    if (by == 0) {
        qci_text_printf(text, "even with the %s end of the one below", near);
        return;
    }
    qci_say_about(text, by < 0 ? -by : by, from);
    qci_text_printf(text, " further to the %s than the one below (",
                    qci_lean_side(by, from));
    if (by > 0)
        qci_text_printf(text,
                        "mark the upper edge of the one below that far "
                        "from its %s end, and begin there)",
                        near);
    else
        qci_text_printf(text,
                        "mark its lower edge that far from its %s end: "
                        "there the one below begins)",
                        near);
}

static void put_stagger(qci_text *text, const qci_plan_set *set, bool part,
                        const qci_origin *from)
{
    if (all_alike(set)) {
        qci_text_printf(text, "Begin each strip but the lowest ");
        put_mark(text, step_at(set, 1), from);
        qci_text_printf(text, ".");
        return;
    }
    qci_text_printf(text, "Begin ");
    for (size_t i = 1; i < set->info.strip_count; i++) {
        qci_text_printf(text, "%s", i > 1 ? "; " : "");
        put_strip_id(text, &set->strips[i], part, from);
        qci_text_printf(text, " ");
        put_mark(text, step_at(set, i), from);
    }
    qci_text_printf(text, ".");
}

static void put_pressing(qci_text *text, const qc_step *step,
                         const qci_origin *from)
{
    const qc_plan_set *other = other_hand(step, from);
    bool down = set_of(step, from)->info.hand != QC_HAND_LEFT;

    if (!other)
        qci_text_printf(text, " Press all seams the same way.");
    else
        qci_text_printf(text,
                        " Press all seams %s, those of set %s %s, so that "
                        "they nest where the two hands meet.",
                        down ? "down" : "up", other->id, down ? "up" : "down");
}

void qci_say_sew(qci_text *text, const qc_step *step, const qci_origin *from)
{
    const qci_plan_set *set = set_of(step, from);
    bool part = is_part(step);
    bool again = part && set->info.sets > 0;

    qci_text_printf(text, "sew %s", again ? "one more, shorter set" : "");
    if (!again)
        qci_say_count(text, step->copies, "set");
    qci_text_printf(text, " ");
    qci_say_length(text, step->distance, from);
    qci_text_printf(text, " long%s, from the bottom up ",
                    again ? " in the same way" : "");
    put_strips(text, set, part, from);
    if (again) {
        qci_text_printf(text, ".");
        return;
    }
    qci_text_printf(text, ", with seams of ");
    qci_say_length(text, from->plan->seam, from);
    qci_text_printf(text, ". ");
    put_stagger(text, set, part, from);
    put_pressing(text, step, from);
}

/* The first cut squares or slants the end, and frees nothing. Its upper end is
 * measured from that of the top strip. */
static void put_first(qci_text *text, const qci_plan_set *set,
                      const qci_origin *from)
{
    const qc_plan_set *info = &set->info;
    qci_placing at = {.height = info->height,
                      .lean = info->lean,
                      .lower = info->first,
                      .upper = info->first + info->lean -
                               set->strips[info->strip_count - 1].offset,
                      .squared = true};

    qci_say_placing(text, &at, from);
    qci_text_printf(text, ", and cut the end%s off",
                    info->strip_count > 1 ? "s" : "");
}

void qci_say_crosscut(qci_text *text, const qc_step *step,
                      const qci_origin *from)
{
    const qci_plan_set *set = set_of(step, from);

    if (step->copies > 1)
        qci_text_printf(text, "one set at a time, ");
    put_first(text, set, from);
    qci_text_printf(text, "; then ");
    qci_say_setting(text, step, from);
    if (step->lean)
        qci_say_square_to(text, "that cut", "strips", set->info.pitch, from);
    qci_text_printf(text, " and, going on to the %s, cut ", qci_far_side(from));
    qci_say_count(text, step->repeat, "segment");
    qci_text_printf(text, " from ");
    qci_say_each(text, step->copies, "set");
    qci_text_printf(text, " (");
    qci_say_tally(text, &from->tally);
    qci_text_printf(text, ").");
    if (step->lean)
        qci_say_true_again(text, step->repeat);
}

/* Nobody sees the difference. */
static bool is_at(qc_length a, qc_length b)
{
    return a - b <= QC_MM / 10 && b - a <= QC_MM / 10;
}

/* "the lower left corner", "the point 3 in up its left side" */
static void put_side_point(qci_text *text, const qc_plan_set *set, qc_length up,
                           const char *side, const qci_origin *from)
{
    bool lower = is_at(up, 0);

    if (lower || is_at(up, qci_slope(set->lean, set->height))) {
        qci_text_printf(text, "the %s %s corner", lower ? "lower" : "upper",
                        side);
        return;
    }
    qci_text_printf(text, "the point ");
    qci_say_about(text, up, from);
    qci_text_printf(text, " up its %s side", side);
}

/* The second cut is given for segments that lean as the angle of the set says,
 * from their left side to their right one. Those of the other hand are their
 * mirror images: it begins on their right side. */
static bool begins_left(const qc_plan_set *set, const qci_origin *from)
{
    qc_length right = from->plan->left_handed ? -set->lean : set->lean;

    return set->angle > 90 * QC_DEGREE ? right <= 0 : right >= 0;
}

/* Where the second cut leaves the segment, up its other side. Seen from the
 * side on which it begins it runs sideways by the difference of the two leans.
 */
static qc_length way_out(const qc_plan_set *set)
{
    qc_length lean = qci_lean_of(set->height, set->angle);
    qc_length apart = qci_lean_of(set->height, set->second_angle) - lean;
    qc_length begin = qci_spacing_of(set->second_at, set->height, lean);
    qc_length end = begin;

    if (apart) /* rounding may have made near angles one */
        end += qci_scaled(set->pitch, set->height, apart);
    return qci_scaled(end, qci_slope(lean, set->height), set->height);
}

/* The strips' seams show the angle, where a ruler has a line for it. */
static void put_seam_line(qci_text *text, int32_t angle)
{
    int32_t sharp = angle > 90 * QC_DEGREE ? 180 * QC_DEGREE - angle : angle;

    if (sharp == 90 * QC_DEGREE)
        qci_text_printf(text, ", square to the seams");
    else if (sharp == 30 * QC_DEGREE || sharp == 45 * QC_DEGREE ||
             sharp == 60 * QC_DEGREE)
        qci_text_printf(text, ", its %d-degree line on a seam",
                        (int)(sharp / QC_DEGREE));
}

void qci_say_halve(qci_text *text, const qc_step *step, const qci_origin *from)
{
    const qc_plan_set *set = &set_of(step, from)->info;
    bool left = begins_left(set, from);

    if (step->copies > 1)
        qci_text_printf(text, "one at a time, each lying as it was cut, cut ");
    else
        qci_text_printf(text, "cut ");
    qci_say_each(text, step->copies, "segment");
    qci_text_printf(text, " in two: lay the ruler's edge from ");
    put_side_point(text, set, set->second_at, left ? "left" : "right", from);
    qci_text_printf(text, " to ");
    put_side_point(text, set, way_out(set), left ? "right" : "left", from);
    put_seam_line(text, set->second_angle);
    qci_text_printf(text, " (%" PRId64 " pieces).", step->yield);
}
