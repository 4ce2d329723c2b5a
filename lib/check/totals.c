/* Pieces in all, against those that the job needs.
 *
 * What a step asks for in vain is that step's fault and counts as cut here, so
 * that one mistake is told once. Strips of strip sets are not asked for. */
#include "check/result.h"

#include <inttypes.h>

/* How many the steps ask for, and the last of them that cuts the piece. */
static int64_t asked_of(const qci_checker *c, uint32_t piece, uint32_t *last)
{
    int64_t count = 0;

    *last = QC_NONE;
    for (uint32_t i = 0; i < c->of->step_count; i++) {
        if (c->of->steps[i].piece != piece)
            continue;
        count +=
            c->as_written->done[i].asked * qci_run_yields(&c->of->steps[i]);
        *last = i;
    }
    return count;
}

static qc_status find_short(const qci_checker *c, uint32_t piece, int64_t asked)
{
    const qci_piece *wanted = &c->of->job->pieces[piece];
    int64_t missing = wanted->count - asked;
    qci_text words = {0};

    qci_check_say_count(&words, wanted->count, "piece");
    qci_text_printf(&words, " %s %s needed, ", wanted->id,
                    wanted->count == 1 ? "is" : "are");
    if (asked)
        qci_text_printf(&words, "the steps cut %" PRId64 ": %" PRId64 " short",
                        asked, missing);
    else
        qci_text_printf(&words, "no step cuts any");
    return qci_checker_add(
        c, (qc_finding){.kind = QC_FINDING_SHORT_PIECES, .count = missing},
        QC_NONE, wanted->fabric, piece, &words);
}

static qc_status find_over(const qci_checker *c, uint32_t piece, int64_t fallen,
                           uint32_t last)
{
    const qci_piece *wanted = &c->of->job->pieces[piece];
    int64_t over = fallen - wanted->count;
    qci_text words = {0};

    qci_check_say_count(&words, fallen, "piece");
    qci_text_printf(&words,
                    " %s fall out in all, %" PRId64 " %s needed: %" PRId64
                    " more than that",
                    wanted->id, wanted->count,
                    wanted->count == 1 ? "is" : "are", over);
    return qci_checker_add(
        c, (qc_finding){.kind = QC_FINDING_OVER_PIECES, .count = over}, last,
        wanted->fabric, piece, &words);
}

qc_status qci_check_totals(const qci_checker *c)
{
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; i < c->of->job->piece_count && !status; i++) {
        const qci_piece *wanted = &c->of->job->pieces[i];
        int64_t fallen = c->as_written->fallen[i];
        uint32_t last;
        int64_t asked = asked_of(c, i, &last);

        if (wanted->strip_set != QC_NONE)
            continue;
        if (asked < wanted->count)
            status = find_short(c, i, asked);
        else if (fallen > wanted->count)
            status = find_over(c, i, fallen, last);
    }
    return status;
}
