/* Pieces whose size contradicts what the job says of them.
 *
 * A piece is right when it is no smaller than its finished size and the seams
 * ask for exactly, and no larger than that on the ruler. What falls out is held
 * against the piece as its size was given and turned by a quarter, and the
 * nearer of the two is meant; whether it may lie so is asked apart. */
#include "check/result.h"

#include <stdio.h>

#include "job/check.h"
#include "job/turn.h"

typedef struct verdict {
    qc_turn turn;    /* as it lies */
    bool allowed;    /* by print and grain */
    qc_length by[2]; /* too large; too small below 0 */
} verdict;

static qc_length apart(qc_length got, qc_length least, qc_length most)
{
    return got < least || got > most ? got - most : 0;
}

static qc_length distance(const qc_length by[2])
{
    return (by[0] < 0 ? -by[0] : by[0]) + (by[1] < 0 ? -by[1] : by[1]);
}

/* The way of lying that is nearest to right; of equally near ones that which
 * print and grain allow. */
static verdict judge(const qci_checker *c, uint32_t piece,
                     const qc_length size[2])
{
    const qc_job *job = c->of->job, *exact = c->of->exact;
    const qci_piece *most = &job->pieces[piece];
    const qci_piece *least =
        exact && piece < exact->piece_count ? &exact->pieces[piece] : most;
    verdict as[2];

    for (int turned = 0; turned < 2; turned++) {
        as[turned].turn = turned ? QC_TURN_QUARTER : QC_TURN_NONE;
        as[turned].allowed = qci_piece_may_lie(
            most, job->fabrics[most->fabric].print, as[turned].turn);
        for (int i = 0; i < 2; i++)
            as[turned].by[i] =
                apart(size[turned ? 1 - i : i], least->cut[i], most->cut[i]);
    }
    if (distance(as[1].by) != distance(as[0].by))
        return as[distance(as[1].by) < distance(as[0].by)];
    return as[!as[0].allowed];
}

static void say_by(qci_text *words, qc_length by, const char *small,
                   const char *large, qc_units units)
{
    qci_text_printf(words, "%s too %s", qci_show(by < 0 ? -by : by, units).text,
                    by < 0 ? small : large);
}

typedef struct pair {
    char text[112];
} pair;

/* "3 1/2 x 6 1/2 in" */
static pair show_pair(const qc_length size[2], qc_units units)
{
    pair out;
    char across[48];

    qc_length_format(size[0], units, across, sizeof across);
    snprintf(out.text, sizeof out.text, "%s x %s", across,
             qci_show(size[1], units).text);
    return out;
}

static qc_status find_size(const qci_checker *c, uint32_t index, verdict v)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_done *done = &c->as_written->done[index];
    const qc_job *job = c->of->job;
    const qci_piece *piece = &job->pieces[step->piece];
    bool turned = v.turn == QC_TURN_QUARTER;
    qc_length as_given[2] = {done->size[turned], done->size[!turned]};
    qci_text words = {0};

    qci_text_printf(&words, "piece %s falls out %s", piece->id,
                    show_pair(as_given, job->units).text);
    if (piece->finished[0])
        qci_text_printf(&words, "; finished %s with seams of %s it is cut %s",
                        show_pair(piece->finished, job->units).text,
                        qci_show(job->seam, job->units).text,
                        show_pair(piece->cut, job->units).text);
    else
        qci_text_printf(&words, "; it is to be cut %s",
                        show_pair(piece->cut, job->units).text);
    if (piece->trim)
        qci_text_printf(&words, ", %s for trimming back included",
                        qci_show(piece->trim, job->units).text);
    qci_text_printf(&words, ": ");
    if (v.by[0] == v.by[1]) {
        say_by(&words, v.by[0], "small each way", "large each way", job->units);
    } else {
        if (v.by[0])
            say_by(&words, v.by[0], "narrow", "wide", job->units);
        if (v.by[0] && v.by[1])
            qci_text_printf(&words, ", ");
        if (v.by[1])
            say_by(&words, v.by[1], "short", "long", job->units);
    }
    return qci_checker_add(c,
                           (qc_finding){.kind = QC_FINDING_SIZE,
                                        .count = done->got,
                                        .by = {v.by[0], v.by[1]}},
                           index, step->fabric, step->piece, &words);
}

static qc_status find_turned(const qci_checker *c, uint32_t index, verdict v)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_piece *piece = &c->of->job->pieces[step->piece];
    bool turned = v.turn == QC_TURN_QUARTER;
    qci_text words = {0};

    qci_text_printf(
        &words,
        "piece %s lies with its first size, %s, %s, which its %s forbids: "
        "that must lie %s",
        piece->id, qci_show(piece->cut[0], c->of->job->units).text,
        turned ? "along the selvage" : "across the width",
        piece->grain == QC_GRAIN_ANY ? "fabric's print" : "grain",
        turned ? "across the width" : "along the selvage");
    return qci_checker_add(
        c,
        (qc_finding){.kind = QC_FINDING_TURNED,
                     .count = c->as_written->done[index].got},
        index, step->fabric, step->piece, &words);
}

static qc_status find_fabric(const qci_checker *c, uint32_t index)
{
    const qci_instruction *step = &c->of->steps[index];
    const qc_job *job = c->of->job;
    const qci_piece *piece = &job->pieces[step->piece];
    qci_text words = {0};

    if (piece->fabric == step->fabric)
        return QC_STATUS_OK;
    qci_text_printf(&words, "piece %s is cut from %s; it is to be of %s",
                    piece->id, job->fabrics[step->fabric].name,
                    job->fabrics[piece->fabric].name);
    return qci_checker_add(
        c,
        (qc_finding){.kind = QC_FINDING_FABRIC,
                     .count = c->as_written->done[index].got},
        index, step->fabric, step->piece, &words);
}

static qc_status check_piece(const qci_checker *c, uint32_t index)
{
    const qci_done *done = &c->as_written->done[index];
    qc_status status = find_fabric(c, index);
    verdict v;

    if (status || !done->fell)
        return status;
    v = judge(c, c->of->steps[index].piece, done->size);
    if (v.by[0] || v.by[1])
        return find_size(c, index, v);
    return v.allowed ? QC_STATUS_OK : find_turned(c, index, v);
}

qc_status qci_check_sizes(const qci_checker *c)
{
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; i < c->of->step_count && !status; i++)
        if (c->of->steps[i].piece != QC_NONE)
            status = check_piece(c, i);
    return status;
}
