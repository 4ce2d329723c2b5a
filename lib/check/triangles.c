/* Triangles: the squares that they are cut from, and rectangles of which a
 * triangle with a right angle is half. The legs of such a triangle are the
 * sides of its rectangle, whichever of its sides it lies on. */
#include "check/pieces.h"

#include "check/right.h"
#include "job/check.h"
#include "length/ruler.h"

typedef struct sides {
    qc_length least[2], most[2];
} sides;

/* Of the cloth that gives the piece. */
static sides sides_of(const qci_checker *c, uint32_t index)
{
    const qc_job *job = c->of->job;
    const qci_piece *piece = &job->pieces[index];
    const qci_piece *least = qci_pieces_least(c, index);
    sides out = {{0}, {0}};

    if (piece->shape != QC_SHAPE_POLYGON) {
        for (int i = 0; i < 2; i++) {
            out.least[i] = least->cut[i];
            out.most[i] = piece->cut[i];
        }
        return out;
    }
    qci_right_legs(least, out.least);
    for (int i = 0; i < 2; i++)
        out.most[i] = qci_ruler_up(out.least[i], job->ruler);
    return out;
}

static bool judge(const sides *s, const qc_length size[2], bool turned,
                  qc_length by[2])
{
    for (int i = 0; i < 2; i++)
        by[i] =
            qci_pieces_apart(size[turned ? 1 - i : i], s->least[i], s->most[i]);
    return !by[0] && !by[1];
}

static qc_length sum(const qc_length by[2])
{
    return (by[0] < 0 ? -by[0] : by[0]) + (by[1] < 0 ? -by[1] : by[1]);
}

static qc_status find_size(const qci_checker *c, uint32_t index, const sides *s,
                           const qc_length size[2], const qc_length by[2])
{
    const qci_instruction *step = &c->of->steps[index];
    const qc_job *job = c->of->job;
    const qci_piece *piece = &job->pieces[step->piece];
    bool square = piece->shape != QC_SHAPE_POLYGON;
    qci_text words = {0};

    qci_text_printf(&words, "piece %s comes from cloths of %s", piece->id,
                    qci_pieces_pair(size, job->units).text);
    qci_pieces_say_finished(&words, c, step->piece);
    if (square)
        qci_text_printf(&words, "it takes squares of %s",
                        qci_show(s->most[0], job->units).text);
    else
        qci_text_printf(&words, "it takes rectangles of %s",
                        qci_pieces_pair(s->most, job->units).text);
    qci_pieces_say_trim(&words, c, step->piece);
    qci_text_printf(&words, ": ");
    if (by[0] == by[1]) {
        qci_pieces_say_by(&words, by[0], "small", "large", job->units);
    } else {
        if (by[0])
            qci_pieces_say_by(&words, by[0], "small one way", "large one way",
                              job->units);
        if (by[0] && by[1])
            qci_text_printf(&words, ", ");
        if (by[1])
            qci_pieces_say_by(&words, by[1], "small the other way",
                              "large the other way", job->units);
    }
    return qci_checker_add(c,
                           (qc_finding){.kind = QC_FINDING_SIZE,
                                        .count = c->as_written->done[index].got,
                                        .by = {by[0], by[1]}},
                           index, step->fabric, step->piece, &words);
}

qc_status qci_pieces_triangles(const qci_checker *c, uint32_t index)
{
    const qci_polygon *cloth = &c->as_written->done[index].cloth;
    qc_length size[2] = {qci_cloth_extent(cloth, QCI_MEASURE_ACROSS),
                         qci_cloth_extent(cloth, QCI_MEASURE_UP)};
    sides s = sides_of(c, c->of->steps[index].piece);
    qc_length by[2], other[2];

    if (judge(&s, size, false, by) || judge(&s, size, true, other))
        return QC_STATUS_OK;
    if (sum(other) < sum(by)) {
        qc_length swapped[2] = {size[1], size[0]};

        return find_size(c, index, &s, swapped, other);
    }
    return find_size(c, index, &s, size, by);
}
