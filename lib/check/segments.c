/* Strip sets: sets and segments that do not come out, what a set measures when
 * it is sewn, and cuts that are not the job's. What is wrong with the strips of
 * a set is said once for both hands. */
#include <inttypes.h>
#include <string.h>

#include "check/pieces.h"
#include "job/check.h"
#include "shape/shape.h"

/* "; right would be 8 strips 2 1/2 in wide (dark) and ...", of all names of
 * which strips had to be added. */
static void say_strips_missing(qci_text *words, const qci_checker *c,
                               const qci_instruction *step)
{
    const char *before = "; right would be ";

    for (uint32_t name = 0; name < c->of->name_count; name++) {
        int64_t right = c->with_added->heaps[name].cloths;
        bool sewn = false;

        for (size_t i = 0; i < step->strip_count; i++)
            sewn |= step->strips[i] == name;
        if (!sewn || right == c->as_written->heaps[name].cloths)
            continue;
        qci_text_printf(words, "%s", before);
        qci_check_say_strips(words, c, name, right);
        qci_text_printf(words, " (%s)", c->of->names[name].name);
        before = " and ";
    }
}

static qc_status find_short_sets(const qci_checker *c, uint32_t index)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_done *done = &c->as_written->done[index];
    qci_text words = {0};

    if (done->got >= done->asked)
        return QC_STATUS_OK;
    qci_check_say_count(&words, done->asked, "set");
    qci_text_printf(
        &words, " (%s): the strips give %" PRId64 ", %" PRId64 " short",
        c->of->names[step->gives].name, done->got, done->asked - done->got);
    if (c->with_added->done[index].hopeless)
        qci_text_printf(&words, "; no number of strips is enough");
    else
        say_strips_missing(&words, c, step);
    return qci_checker_add_set(c,
                               (qc_finding){.kind = QC_FINDING_SHORT_STEP,
                                            .count = done->asked - done->got},
                               index, QC_NONE, QC_NONE, &words);
}

/* The narrowest cloth that a set is sewn of, as a run has it. */
static qc_length narrowest(const qci_checker *c, const qci_instruction *sewing)
{
    qc_length width = QC_LENGTH_MAX;

    for (size_t i = 0; i < sewing->strip_count; i++) {
        uint32_t fabric = c->of->names[sewing->strips[i]].fabric;
        qc_length has = qci_run_width(c->as_written, fabric);

        width = has < width ? has : width;
    }
    return width;
}

/* The stagger that wastes least, where one is right for all strips: the
 * finished width of a strip times the cotangent of the angle. False where it
 * gives no segment more. */
static bool better_stagger(const qci_instruction *step, const qci_sewn *sewn,
                           qc_length *by, int64_t *gives)
{
    qci_sewn other = {.seam = sewn->seam};
    qci_across cut = qci_across_of(step, sewn);

    *by = qci_lean_of(sewn->strips[0].width - 2 * sewn->seam, step->angle);
    for (size_t i = 0; i < sewn->count; i++) {
        qci_sewn_strip strip = sewn->strips[i];

        if (strip.width != sewn->strips[0].width)
            return false;
        strip.right += *by * (qc_length)i - strip.left;
        strip.left = *by * (qc_length)i;
        qci_sewn_add(&other, strip);
    }
    *gives = qci_sewn_fits(&other, cut);
    return *gives > qci_sewn_fits(sewn, cut);
}

static void say_stagger(qci_text *words, const qci_checker *c,
                        const qci_instruction *step)
{
    uint32_t origin = c->of->names[step->from].origin;
    const qci_sewn *sewn = &c->as_written->done[origin].sewn;
    qc_units units = c->of->job->units;
    qc_length by;
    int64_t gives;

    if (!c->as_written->done[origin].fell ||
        !better_stagger(step, sewn, &by, &gives))
        return;
    if (by)
        qci_text_printf(words, "; with ends stepped %s to the %s",
                        qci_show(by < 0 ? -by : by, units).text,
                        by < 0 ? "left" : "right");
    else
        qci_text_printf(words, "; with even ends");
    qci_text_printf(words, " a set would give %" PRId64 ", not %" PRId64, gives,
                    qci_sewn_fits(sewn, qci_across_of(step, sewn)));
}

static qc_status find_short_segments(const qci_checker *c, uint32_t index)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_done *done = &c->as_written->done[index];
    const qci_named *from = &c->of->names[step->from];
    const qci_done *added = &c->with_added->done[index];
    qc_units units = c->of->job->units;
    int64_t sets = c->as_written->heaps[step->from].cloths;
    qci_text words = {0};

    if (done->got >= done->asked)
        return QC_STATUS_OK;
    qci_check_say_count(&words, done->asked, "segment");
    qci_text_printf(&words, " %s at %s from ",
                    c->of->job->sets[step->set].info.id,
                    qci_show(step->size, units).text);
    qci_check_say_count(&words, sets, "set");
    qci_text_printf(
        &words,
        " (%s): %" PRId64 " come out at %s usable width, %" PRId64 " short",
        from->name, done->got,
        qci_show(narrowest(c, &c->of->steps[from->origin]), units).text,
        done->asked - done->got);
    if (added->hopeless) {
        qci_text_printf(&words, "; no such set is long enough for one");
    } else {
        qci_text_printf(&words, "; right would be ");
        qci_check_say_count(&words, sets + added->added, "set");
    }
    say_stagger(&words, c, step);
    return qci_checker_add_set(c,
                               (qc_finding){.kind = QC_FINDING_SHORT_STEP,
                                            .count = done->asked - done->got},
                               index, QC_NONE, step->set, &words);
}

/* What a set is said to measure against what it does. */
static qc_status find_height(const qci_checker *c, uint32_t index)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_done *done = &c->as_written->done[index];
    qc_units units = c->of->job->units;
    qc_length by = step->size - done->sewn.height;
    qci_text words = {0};

    if (!step->size || !done->fell || !by)
        return QC_STATUS_OK;
    qci_text_printf(
        &words,
        "the sets (%s) are said to measure %s; sewn with seams of "
        "%s they measure %s from raw edge to raw edge: %s too %s",
        c->of->names[step->gives].name, qci_show(step->size, units).text,
        qci_show(done->sewn.seam, units).text,
        qci_show(done->sewn.height, units).text,
        qci_show(by < 0 ? -by : by, units).text, by < 0 ? "little" : "much");
    return qci_checker_add_set(c,
                               (qc_finding){.kind = QC_FINDING_SIZE,
                                            .count = done->got,
                                            .by = {0, by}},
                               index, QC_NONE, QC_NONE, &words);
}

/* An earlier step cuts the same sets into segments of the same set. */
static bool is_told(const qci_checker *c, uint32_t index)
{
    const qci_set *sets = c->of->job->sets;
    const qci_instruction *step = &c->of->steps[index];

    for (uint32_t i = 0; i < index; i++) {
        const qci_instruction *other = &c->of->steps[i];

        if (other->set != QC_NONE && other->from == step->from &&
            strcmp(sets[other->set].info.job_id, sets[step->set].info.job_id) ==
                0)
            return true;
    }
    return false;
}

static qc_status find_cuts(const qci_checker *c, uint32_t index,
                           qc_finding_kind kind, qc_length by, qci_text *words)
{
    return qci_checker_add_set(
        c,
        (qc_finding){.kind = kind,
                     .count = c->as_written->done[index].got,
                     .by = {by, 0}},
        index, QC_NONE, c->of->steps[index].set, words);
}

/* The angle at which segments of the set are cut. */
static int32_t right_angle(const qc_plan_set *set)
{
    int32_t acute = qci_pieces_acute(set->angle);

    return set->hand == QC_HAND_LEFT ? 180 * QC_DEGREE - acute : acute;
}

static qc_status check_cuts(const qci_checker *c, uint32_t index)
{
    const qci_instruction *step = &c->of->steps[index];
    const qc_plan_set *set = &c->of->job->sets[step->set].info;
    qc_length by = qci_pieces_apart_by(c, step, set->spacing, set->spacing);
    qc_status status = QC_STATUS_OK;

    if (step->angle != right_angle(set)) {
        qci_text words = {0};

        qci_text_printf(&words, "segments %s are cut at ", set->id);
        qci_pieces_say_angle(&words, step->angle);
        qci_text_printf(&words, "; right would be ");
        qci_pieces_say_angle(&words, right_angle(set));
        status = find_cuts(c, index, QC_FINDING_ANGLE, 0, &words);
    }
    if (!status && by) {
        qci_text words = {0};

        qci_text_printf(&words, "segments %s are cut %s wide; it takes ",
                        set->id, qci_show(step->size, c->of->job->units).text);
        qci_pieces_say_apart(&words, c, step, set->spacing);
        qci_text_printf(&words, ": ");
        qci_pieces_say_by(&words, by, "near", "far apart", c->of->job->units);
        status = find_cuts(c, index, QC_FINDING_SIZE, by, &words);
    }
    return status;
}

static qc_status check_segments(const qci_checker *c, uint32_t index)
{
    qc_status status = find_short_segments(c, index);

    if (!status && c->as_written->done[index].fell && !is_told(c, index))
        status = qci_segments_strips(c, index);
    return status ? status : check_cuts(c, index);
}

qc_status qci_check_segments(const qci_checker *c)
{
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; i < c->of->step_count && !status; i++)
        switch (c->of->steps[i].kind) {
        case QC_INSTRUCTION_SEW:
            status = find_short_sets(c, i);
            if (!status)
                status = find_height(c, i);
            break;
        case QC_INSTRUCTION_CROSSCUT:
            status = check_segments(c, i);
            break;
        default:
            break;
        }
    return status;
}
