/* Rectangles whose size contradicts what the job says of them. What falls out
 * is held against the piece as its size was given and turned by a quarter, and
 * the nearer of the two is meant; whether it may lie so is asked apart. */
#include "check/pieces.h"

#include "job/check.h"
#include "job/turn.h"

typedef struct verdict {
    qc_turn turn;    /* as it lies */
    bool allowed;    /* by print and grain */
    qc_length by[2]; /* too large; too small below 0 */
} verdict;

static qc_length distance(const qc_length by[2])
{
    return (by[0] < 0 ? -by[0] : by[0]) + (by[1] < 0 ? -by[1] : by[1]);
}

/* The way of lying that is nearest to right; of equally near ones that which
 * print and grain allow. */
static verdict judge(const qci_checker *c, uint32_t piece,
                     const qc_length size[2])
{
    const qc_job *job = c->of->job;
    const qci_piece *most = &job->pieces[piece];
    const qci_piece *least = qci_pieces_least(c, piece);
    verdict as[2];

    for (int turned = 0; turned < 2; turned++) {
        as[turned].turn = turned ? QC_TURN_QUARTER : QC_TURN_NONE;
        as[turned].allowed = qci_piece_may_lie(
            most, job->fabrics[most->fabric].print, as[turned].turn);
        for (int i = 0; i < 2; i++)
            as[turned].by[i] = qci_pieces_apart(size[turned ? 1 - i : i],
                                                least->cut[i], most->cut[i]);
    }
    if (distance(as[1].by) != distance(as[0].by))
        return as[distance(as[1].by) < distance(as[0].by)];
    return as[!as[0].allowed];
}

static qc_status find_size(const qci_checker *c, uint32_t index,
                           const qc_length size[2], verdict v)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_done *done = &c->as_written->done[index];
    const qc_job *job = c->of->job;
    const qci_piece *piece = &job->pieces[step->piece];
    bool turned = v.turn == QC_TURN_QUARTER;
    qc_length as_given[2] = {size[turned], size[!turned]};
    qci_text words = {0};

    qci_text_printf(&words, "piece %s falls out %s", piece->id,
                    qci_pieces_pair(as_given, job->units).text);
    qci_pieces_say_finished(&words, c, step->piece);
    qci_text_printf(&words, "it is cut %s",
                    qci_pieces_pair(piece->cut, job->units).text);
    qci_pieces_say_trim(&words, c, step->piece);
    qci_text_printf(&words, ": ");
    if (v.by[0] == v.by[1]) {
        qci_pieces_say_by(&words, v.by[0], "small each way", "large each way",
                          job->units);
    } else {
        if (v.by[0])
            qci_pieces_say_by(&words, v.by[0], "narrow", "wide", job->units);
        if (v.by[0] && v.by[1])
            qci_text_printf(&words, ", ");
        if (v.by[1])
            qci_pieces_say_by(&words, v.by[1], "short", "long", job->units);
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

qc_status qci_pieces_rectangle(const qci_checker *c, uint32_t index)
{
    const qci_done *done = &c->as_written->done[index];
    qc_length size[2] = {qci_cloth_extent(&done->cloth, QCI_MEASURE_ACROSS),
                         qci_cloth_extent(&done->cloth, QCI_MEASURE_UP)};
    verdict v = judge(c, c->of->steps[index].piece, size);

    if (v.by[0] || v.by[1])
        return find_size(c, index, size, v);
    return v.allowed ? QC_STATUS_OK : find_turned(c, index, v);
}
