/* Pieces and segments in all, against those that the job needs.
 *
 * What a step asks for in vain is that step's fault and counts as cut here, so
 * that one mistake is told once. Of strip sets the segments are asked for, not
 * the strips. */
#include "check/result.h"

#include <inttypes.h>

/* What is needed in all, a piece or a set's segments. */
typedef struct wanted {
    bool is_set;
    uint32_t index;
    int64_t count;
    const char *noun, *id;
    uint32_t fabric; /* QC_NONE: several */
} wanted;

typedef struct total {
    int64_t asked, fallen;
    uint32_t last; /* step that cuts any; QC_NONE */
} total;

static total total_of(const qci_checker *c, const wanted *w)
{
    total out = {.last = QC_NONE};

    for (uint32_t i = 0; i < c->of->step_count; i++) {
        const qci_instruction *step = &c->of->steps[i];
        int64_t yields = qci_run_yields(step);

        if ((w->is_set ? step->set : step->piece) != w->index)
            continue;
        out.asked += c->as_written->done[i].asked * yields;
        out.fallen += c->as_written->done[i].got * yields;
        out.last = i;
    }
    return out;
}

static qc_status add(const qci_checker *c, const wanted *w, qc_finding finding,
                     uint32_t step, qci_text *words)
{
    return w->is_set
               ? qci_checker_add_set(c, finding, step, w->fabric, w->index,
                                     words)
               : qci_checker_add(c, finding, step, w->fabric, w->index, words);
}

static qc_status find_short(const qci_checker *c, const wanted *w,
                            int64_t asked)
{
    int64_t missing = w->count - asked;
    qci_text words = {0};

    qci_check_say_count(&words, w->count, w->noun);
    qci_text_printf(&words, " %s %s needed, ", w->id,
                    w->count == 1 ? "is" : "are");
    if (asked)
        qci_text_printf(&words, "the steps cut %" PRId64 ": %" PRId64 " short",
                        asked, missing);
    else
        qci_text_printf(&words, "no step cuts any");
    return add(c, w,
               (qc_finding){.kind = QC_FINDING_SHORT_PIECES, .count = missing},
               QC_NONE, &words);
}

static qc_status find_over(const qci_checker *c, const wanted *w, total t)
{
    int64_t over = t.fallen - w->count;
    qci_text words = {0};

    qci_check_say_count(&words, t.fallen, w->noun);
    qci_text_printf(&words,
                    " %s fall out in all, %" PRId64 " %s needed: %" PRId64
                    " more than that",
                    w->id, w->count, w->count == 1 ? "is" : "are", over);
    return add(c, w,
               (qc_finding){.kind = QC_FINDING_OVER_PIECES, .count = over},
               t.last, &words);
}

static qc_status check(const qci_checker *c, const wanted *w)
{
    total t = total_of(c, w);

    if (t.asked < w->count)
        return find_short(c, w, t.asked);
    return t.fallen > w->count ? find_over(c, w, t) : QC_STATUS_OK;
}

qc_status qci_check_totals(const qci_checker *c)
{
    const qc_job *job = c->of->job;
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; i < job->piece_count && !status; i++) {
        const qci_piece *piece = &job->pieces[i];
        wanted w = {false, i, piece->count, "piece", piece->id, piece->fabric};

        if (piece->strip_set == QC_NONE)
            status = check(c, &w);
    }
    for (uint32_t i = 0; i < job->set_count && !status; i++) {
        const qc_plan_set *set = &job->sets[i].info;
        wanted w = {true, i, set->segments, "segment", set->id, QC_NONE};

        status = check(c, &w);
    }
    return status;
}
