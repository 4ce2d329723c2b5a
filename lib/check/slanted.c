/* Pieces that are cut from strips at an angle: the strip's height, the distance
 * of the cuts and their angle, each on its own.
 *
 * A distance along the strip's edge is read off a ruler to the nearest
 * sixteenth, since it is hardly ever on one: it may be off by half of that. */
#include "check/pieces.h"

#include "check/slant.h"
#include "job/check.h"
#include "length/ruler.h"
#include "replay/angle.h"
#include "shape/shape.h"

static qc_length half_mark(qc_units units)
{
    return units == QC_UNITS_IN ? QC_INCH / 32 : QC_MM / 2;
}

void qci_pieces_say_angle(qci_text *words, int32_t angle)
{
    int32_t part = angle % QC_DEGREE, places = 6;

    qci_text_printf(words, "%d", (int)(angle / QC_DEGREE));
    for (; part && part % 10 == 0; part /= 10)
        places--;
    if (part)
        qci_text_printf(words, ".%0*d", (int)places, (int)part);
    qci_text_printf(words, " degrees");
}

static qc_status add(const qci_checker *c, uint32_t index, qc_finding finding,
                     qci_text *words)
{
    const qci_instruction *step = &c->of->steps[index];

    finding.count = c->as_written->done[index].got;
    return qci_checker_add(c, finding, index, step->fabric, step->piece, words);
}

static qc_status find_angle(const qci_checker *c, uint32_t index, int32_t right)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_piece *piece = &c->of->job->pieces[step->piece];
    qci_text words = {0};

    qci_text_printf(&words, "piece %s is cut at ", piece->id);
    qci_pieces_say_angle(&words, step->angle);
    qci_text_printf(&words, "; right would be ");
    qci_pieces_say_angle(&words, right);
    return add(c, index, (qc_finding){.kind = QC_FINDING_ANGLE}, &words);
}

static qc_status find_hand(const qci_checker *c, uint32_t index)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_piece *piece = &c->of->job->pieces[step->piece];
    bool left = step->angle > 90 * QC_DEGREE;
    qci_text words = {0};

    qci_text_printf(&words,
                    "piece %s leans to the %s, going up, as it is cut at ",
                    piece->id, left ? "left" : "right");
    qci_pieces_say_angle(&words, step->angle);
    qci_text_printf(&words, "; it is to lean to the %s: cut it at ",
                    left ? "right" : "left");
    qci_pieces_say_angle(&words, 180 * QC_DEGREE - step->angle);
    return add(c, index, (qc_finding){.kind = QC_FINDING_ANGLE}, &words);
}

/* The nearest mark of 1/16 in, or mm. */
static qc_length near_mark(qc_length length, qc_units units)
{
    qc_length mark = 2 * half_mark(units);

    return (length + mark / 2) / mark * mark;
}

void qci_pieces_say_apart(qci_text *words, const qci_checker *c,
                          const qci_instruction *step, qc_length spacing)
{
    qc_units units = c->of->job->units;

    if (step->along_edge)
        qci_text_printf(
            words, "cuts %s apart along the edge",
            qci_show(near_mark(qci_pitch_of(spacing, step->angle), units),
                     units)
                .text);
    else
        qci_text_printf(words, "cuts %s apart", qci_show(spacing, units).text);
}

static qc_status find_size(const qci_checker *c, uint32_t index,
                           const qc_length by[2])
{
    const qci_instruction *step = &c->of->steps[index];
    const qc_job *job = c->of->job;
    const qci_piece *piece = &job->pieces[step->piece];
    qc_length height =
        qci_cloth_extent(&c->as_written->done[index].cloth, QCI_MEASURE_UP);
    qci_text words = {0};

    qci_text_printf(&words, "piece %s is cut from strips of %s, ", piece->id,
                    qci_show(height, job->units).text);
    qci_text_printf(&words, "cuts %s apart%s",
                    qci_show(step->size, job->units).text,
                    step->along_edge ? " along the edge" : "");
    qci_pieces_say_finished(&words, c, step->piece);
    qci_text_printf(&words, "it takes strips of %s, ",
                    qci_show(piece->cut[1], job->units).text);
    qci_pieces_say_apart(&words, c, step, piece->cut[0]);
    qci_text_printf(&words, ": ");
    if (by[1])
        qci_pieces_say_by(&words, by[1], "narrow a strip", "wide a strip",
                          job->units);
    if (by[0] && by[1])
        qci_text_printf(&words, ", ");
    if (by[0])
        qci_pieces_say_by(&words, by[0], "near", "far apart", job->units);
    return add(c, index,
               (qc_finding){.kind = QC_FINDING_SIZE, .by = {by[0], by[1]}},
               &words);
}

qc_length qci_pieces_apart_by(const qci_checker *c, const qci_instruction *step,
                              qc_length least, qc_length most)
{
    qc_length slack = half_mark(c->of->job->units);
    qc_length near, far;

    if (!step->along_edge)
        return qci_pieces_apart(step->size, least, most);
    near = qci_pitch_of(least, step->angle) - slack;
    far = qci_pitch_of(most, step->angle) + slack;
    return step->size < near || step->size > far
               ? step->size - near_mark(far - slack, c->of->job->units)
               : 0;
}

qc_status qci_pieces_slanted(const qci_checker *c, uint32_t index)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_piece *most = &c->of->job->pieces[step->piece];
    const qci_piece *least = qci_pieces_least(c, step->piece);
    qc_length height =
        qci_cloth_extent(&c->as_written->done[index].cloth, QCI_MEASURE_UP);
    bool left = step->angle > 90 * QC_DEGREE;
    qc_length by[2];

    if (qci_pieces_acute(step->angle) != qci_pieces_acute(most->angle))
        return find_angle(c, index,
                          left ? 180 * QC_DEGREE - qci_pieces_acute(most->angle)
                               : qci_pieces_acute(most->angle));
    if (most->hand != QC_HAND_NONE && left != (most->hand == QC_HAND_LEFT))
        return find_hand(c, index);
    by[0] = qci_pieces_apart_by(c, step, least->cut[0], most->cut[0]);
    by[1] = qci_pieces_apart(height, least->cut[1], most->cut[1]);
    return by[0] || by[1] ? find_size(c, index, by) : QC_STATUS_OK;
}

static bool is_quarter(const qci_piece *piece)
{
    return piece->shape == QC_SHAPE_QUARTER_SQUARE_TRIANGLE;
}

/* How the sides rise from the left end of the base: at 60 degrees, or as a
 * trapezoid's do, or at 45 degrees. The last corner of an outline is the upper
 * end of the left side. */
static qc_point rise_of(const qci_piece *piece)
{
    qc_length half = piece->cut[0] / 2;

    return is_quarter(piece) ? (qc_point){half, half}
                             : piece->outline[piece->outline_count - 1];
}

static bool leans_right(const qci_piece *piece, qc_length lean,
                        qc_length height)
{
    qc_point top = rise_of(piece);
    qci_wide off = (qci_wide)lean * top.y - (qci_wide)top.x * height;
    qci_wide slack = (qci_wide)half_mark(QC_UNITS_IN) * top.y;

    return off >= -slack && off <= slack;
}

static qc_status find_lean(const qci_checker *c, uint32_t index)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_piece *piece = &c->of->job->pieces[step->piece];
    qc_point top = rise_of(piece);
    qci_text words = {0};

    qci_text_printf(&words, "piece %s is cut at ", piece->id);
    qci_pieces_say_angle(&words, step->angle);
    qci_text_printf(&words, "; its sides are to run ");
    qci_text_printf(&words, "%s over a height of %s",
                    qci_show(top.x, c->of->job->units).text,
                    qci_show(top.y, c->of->job->units).text);
    if (piece->shape == QC_SHAPE_EQUILATERAL_TRIANGLE)
        qci_text_printf(&words, ", which is 60 degrees");
    return add(c, index, (qc_finding){.kind = QC_FINDING_ANGLE}, &words);
}

/* What a piece takes along the strip's edge, and of its height, on a ruler. A
 * quarter of a square is told by its square, but lies here on its long side. */
static void lying_size(const qci_piece *piece, qc_length ruler,
                       qc_length size[2])
{
    size[0] = piece->cut[0];
    size[1] = is_quarter(piece) ? qci_ruler_up((piece->cut[0] + 1) / 2, ruler)
                                : piece->cut[1];
}

static qc_status find_turned_size(const qci_checker *c, uint32_t index,
                                  const qc_length size[2],
                                  const qc_length by[2])
{
    const qci_instruction *step = &c->of->steps[index];
    const qc_job *job = c->of->job;
    const qci_piece *piece = &job->pieces[step->piece];
    qc_length right[2];
    qci_text words = {0};

    lying_size(piece, job->ruler, right);
    qci_text_printf(&words,
                    "piece %s is cut from strips of %s, %s along the "
                    "edge",
                    piece->id, qci_show(size[1], job->units).text,
                    qci_show(near_mark(size[0], job->units), job->units).text);
    qci_pieces_say_finished(&words, c, step->piece);
    qci_text_printf(&words, "it takes strips of %s, %s along the edge: ",
                    qci_show(right[1], job->units).text,
                    qci_show(near_mark(right[0], job->units), job->units).text);
    if (by[1])
        qci_pieces_say_by(&words, by[1], "narrow a strip", "wide a strip",
                          job->units);
    if (by[0] && by[1])
        qci_text_printf(&words, ", ");
    if (by[0])
        qci_pieces_say_by(&words,
                          near_mark(by[0] < 0 ? -by[0] : by[0], job->units) *
                              (by[0] < 0 ? -1 : 1),
                          "short a side", "long a side", job->units);
    return add(c, index,
               (qc_finding){.kind = QC_FINDING_SIZE, .by = {by[0], by[1]}},
               &words);
}

qc_status qci_pieces_turned(const qci_checker *c, uint32_t index)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_piece *most = &c->of->job->pieces[step->piece];
    const qci_piece *least = qci_pieces_least(c, step->piece);
    const qci_polygon *cloth = &c->as_written->done[index].cloth;
    qc_length slack = half_mark(c->of->job->units);
    qci_slant slant = qci_slant_of(step, cloth);
    qc_length run = slant.lean < 0 ? -slant.lean : slant.lean;
    qc_length size[2] = {slant.pitch + run,
                         qci_cloth_extent(cloth, QCI_MEASURE_UP)};
    qc_length by[2], lower[2], upper[2];

    lying_size(least, 1, lower);
    lying_size(most, c->of->job->ruler, upper);
    if (!leans_right(most, run, size[1]))
        return find_lean(c, index);
    by[0] = size[0] < lower[0] - slack || size[0] > upper[0] + slack
                ? size[0] - upper[0]
                : 0;
    by[1] = qci_pieces_apart(size[1], lower[1], upper[1]);
    /* A triangle's side follows from its height. */
    if (!step->size)
        by[0] = 0;
    return by[0] || by[1] ? find_turned_size(c, index, size, by) : QC_STATUS_OK;
}
