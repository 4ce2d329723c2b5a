/* Pieces that contradict what the job says of them: another fabric, a shape
 * that such a cut does not give, a wrong size.
 *
 * A piece is right when it is no smaller than its finished size and the seams
 * ask for exactly, and no larger than that on the ruler. */
#include "check/pieces.h"

#include <stdio.h>
#include <string.h>

#include "check/right.h"
#include "job/check.h"
#include "shape/shape.h"

const qci_piece *qci_pieces_least(const qci_checker *c, uint32_t piece)
{
    const qc_job *exact = c->of->exact;
    const qci_piece *own = &c->of->job->pieces[piece];

    /* Strips of sets may be of fewer kinds there, so places tell nothing. */
    for (size_t i = 0; exact && i < exact->piece_count; i++)
        if (own->strip_set == QC_NONE &&
            strcmp(exact->pieces[i].id, own->id) == 0)
            return &exact->pieces[i];
    return own;
}

qc_length qci_pieces_apart(qc_length got, qc_length least, qc_length most)
{
    return got < least || got > most ? got - most : 0;
}

void qci_pieces_say_by(qci_text *words, qc_length by, const char *small,
                       const char *large, qc_units units)
{
    qci_text_printf(words, "%s too %s", qci_show(by < 0 ? -by : by, units).text,
                    by < 0 ? small : large);
}

qci_pair qci_pieces_pair(const qc_length size[2], qc_units units)
{
    qci_pair out;
    char across[48];

    qc_length_format(size[0], units, across, sizeof across);
    snprintf(out.text, sizeof out.text, "%s x %s", across,
             qci_show(size[1], units).text);
    return out;
}

void qci_pieces_say_finished(qci_text *words, const qci_checker *c,
                             uint32_t piece)
{
    const qc_job *job = c->of->job;
    const qc_length *finished = job->pieces[piece].finished;

    qci_text_printf(words, "; ");
    if (!finished[0] || job->pieces[piece].shape == QC_SHAPE_TRAPEZOID)
        return;
    qci_text_printf(words, "finished %s with seams of %s ",
                    finished[1] && finished[1] != finished[0]
                        ? qci_pieces_pair(finished, job->units).text
                        : qci_show(finished[0], job->units).text,
                    qci_show(job->seam, job->units).text);
}

void qci_pieces_say_trim(qci_text *words, const qci_checker *c, uint32_t piece)
{
    const qc_job *job = c->of->job;

    if (job->pieces[piece].trim)
        qci_text_printf(words, ", %s for trimming back included",
                        qci_show(job->pieces[piece].trim, job->units).text);
}

/* The ways of cutting pieces, and what each gives. */
typedef enum way {
    SQUARELY,
    ONE_DIAGONAL,
    TWO_DIAGONALS,
    SLANTED,
    TURNED,
    TRIMMED
} way;

static way way_of(const qci_instruction *step)
{
    if (step->kind == QC_INSTRUCTION_TRIM)
        return TRIMMED;
    if (step->kind == QC_INSTRUCTION_DIAGONAL)
        return step->times == 1 ? ONE_DIAGONAL : TWO_DIAGONALS;
    if (step->angle == 90 * QC_DEGREE)
        return SQUARELY;
    return step->alternate ? TURNED : SLANTED;
}

/* How a piece is cut; anything may also be trimmed. */
static way way_for(const qci_piece *piece)
{
    if (piece->blunt)
        return TRIMMED;
    switch (piece->shape) {
    case QC_SHAPE_HALF_SQUARE_TRIANGLE:
        return ONE_DIAGONAL;
    case QC_SHAPE_QUARTER_SQUARE_TRIANGLE:
        return TWO_DIAGONALS;
    case QC_SHAPE_DIAMOND:
    case QC_SHAPE_PARALLELOGRAM:
        return SLANTED;
    case QC_SHAPE_EQUILATERAL_TRIANGLE:
    case QC_SHAPE_TRAPEZOID:
        return TURNED;
    case QC_SHAPE_HEXAGON:
    case QC_SHAPE_KITE:
        return TRIMMED;
    case QC_SHAPE_POLYGON:
        return qci_right_is(piece) ? ONE_DIAGONAL : TRIMMED;
    default:
        return SQUARELY;
    }
}

/* Their long side may also lie on a strip's edge. */
static bool is_quarter(const qci_piece *piece, way as)
{
    return as == TURNED && !piece->blunt &&
           piece->shape == QC_SHAPE_QUARTER_SQUARE_TRIANGLE;
}

static qc_status find_shape(const qci_checker *c, uint32_t index)
{
    static const char *const gives[] = {
        [SQUARELY] = "a square cut gives rectangles",
        [ONE_DIAGONAL] = "one diagonal cut gives two halves of each cloth",
        [TWO_DIAGONALS] = "two diagonal cuts give four quarters of each cloth",
        [SLANTED] = "parallel slanted cuts give diamonds and parallelograms",
        [TURNED] = "sections turned in turns are triangles and trapezoids",
        [TRIMMED] = "trimming gives any piece"};
    static const char *const right[] = {
        [SQUARELY] = "is cut squarely",
        [ONE_DIAGONAL] = "comes from cloths cut once corner to corner",
        [TWO_DIAGONALS] = "comes from squares cut twice corner to corner",
        [SLANTED] = "is cut from strips by parallel slanted cuts",
        [TURNED] = "is cut from strips at an angle, every second one turned",
        [TRIMMED] = "is trimmed to its outline from a section"};
    const qci_instruction *step = &c->of->steps[index];
    const qci_piece *piece = &c->of->job->pieces[step->piece];
    qci_text words = {0};

    qci_text_printf(&words, "%s; piece %s %s", gives[way_of(step)], piece->id,
                    right[way_for(piece)]);
    return qci_checker_add(
        c,
        (qc_finding){.kind = QC_FINDING_SHAPE,
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
    const qci_instruction *step = &c->of->steps[index];
    const qci_piece *piece = &c->of->job->pieces[step->piece];
    way as = way_of(step);
    qc_status status = find_fabric(c, index);

    if (status || !c->as_written->done[index].fell)
        return status;
    if (as != TRIMMED && as != way_for(piece) && !is_quarter(piece, as))
        return find_shape(c, index);
    switch (as) {
    case SQUARELY:
        return qci_pieces_rectangle(c, index);
    case ONE_DIAGONAL:
    case TWO_DIAGONALS:
        return qci_pieces_triangles(c, index);
    case SLANTED:
        return qci_pieces_slanted(c, index);
    case TURNED:
        return qci_pieces_turned(c, index);
    case TRIMMED:
        return qci_pieces_trimmed(c, index);
    }
    return QC_STATUS_OK;
}

qc_status qci_check_sizes(const qci_checker *c)
{
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; i < c->of->step_count && !status; i++)
        if (c->of->steps[i].piece != QC_NONE)
            status = check_piece(c, i);
    return status;
}
