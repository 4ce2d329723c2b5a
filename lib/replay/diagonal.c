/* Squares cut corner to corner.
 *
 * One square stands for all that wait. It is drawn at twice its size, so that
 * its middle, where two diagonals meet, has whole coordinates, and each cut
 * goes through every piece of it that lies under the ruler. What comes out is
 * measured: three corners, and the squares of the three sides as they must be
 * by Pythagoras, from the piece's cut size alone. Areas need no rounding, since
 * all triangles of a square together are the square again. Constant cost. */
#include "replay/state.h"

#define MOST 4

typedef struct pile {
    int count;
    qci_polygon at[MOST];
} pile;

int64_t qci_replay_triangles(qc_shape shape)
{
    if (shape == QC_SHAPE_HALF_SQUARE_TRIANGLE)
        return 2;
    return shape == QC_SHAPE_QUARTER_SQUARE_TRIANGLE ? 4 : 0;
}

static qc_status check_form(qci_replay *replay, const qc_step *step)
{
    const qc_plan_piece *piece;
    int64_t wanted, waiting;
    qc_status status = qci_replay_piece(replay, step);

    if (status != QC_STATUS_OK)
        return status;
    piece = &replay->plan->pieces[step->piece];
    wanted = qci_replay_triangles(piece->shape) / 2;
    waiting = replay->pieces[step->piece].waiting;
    if (!wanted)
        return qci_replay_reject(replay, step, "piece %u is no triangle",
                                 step->piece);
    if (piece->facing_kept && (replay->info->print == QC_PRINT_ONE_WAY ||
                               replay->info->print == QC_PRINT_TWO_WAY))
        return qci_replay_reject(replay, step,
                                 "the print would not face one way in piece %u",
                                 step->piece);
    if (step->part_in != QC_NONE || step->part_out != QC_NONE ||
        step->turn != QC_TURN_NONE || step->rest_is_piece || step->distance)
        return qci_replay_reject(
            replay, step, "a cut corner to corner has no part, turn or ruler");
    if (step->copies < 1 || step->copies != waiting)
        return qci_replay_reject(replay, step,
                                 "is done to %lld squares, but %lld wait",
                                 (long long)step->copies, (long long)waiting);
    if (step->repeat != wanted)
        return qci_replay_reject(replay, step,
                                 "%u cuts corner to corner, not %lld",
                                 step->repeat, (long long)wanted);
    return QC_STATUS_OK;
}

static qci_polygon doubled(const qci_polygon *cloth)
{
    qci_polygon twice = *cloth;

    for (int i = 0; i < twice.count; i++) {
        twice.at[i].x *= 2;
        twice.at[i].y *= 2;
    }
    return twice;
}

/* Cuts all that lies in the pile along the line; false when a corner would not
 * be whole, or there would be more than two diagonals give. */
static bool cut_pile(pile *p, qci_point a, qci_point b)
{
    int before = p->count;

    for (int i = 0; i < before; i++) {
        qci_polygon left, right;

        switch (qci_polygon_cut(&p->at[i], a, b, &left, &right)) {
        case QCI_CUT_DONE:
            break;
        case QCI_CUT_MISSES:
            continue;
        case QCI_CUT_OFF_LATTICE:
            return false;
        }
        if (p->count == MOST)
            return false;
        p->at[i] = left;
        p->at[p->count++] = right;
    }
    return true;
}

static bool cut_corners(const qci_polygon *square, uint32_t cuts, pile *p)
{
    qci_point low, high;

    p->count = 1;
    p->at[0] = doubled(square);
    qci_polygon_box(&p->at[0], &low, &high);
    if (!cut_pile(p, low, high))
        return false;
    return cuts == 1 ||
           cut_pile(p, (qci_point){high.x, low.y}, (qci_point){low.x, high.y});
}

static qci_wide square_of_side(const qci_polygon *cloth, int from)
{
    qci_point p = cloth->at[from], q = cloth->at[(from + 1) % cloth->count];

    return (qci_wide)(q.x - p.x) * (q.x - p.x) +
           (qci_wide)(q.y - p.y) * (q.y - p.y);
}

/* Two sides measure `leg`, squared, and one twice that: then Pythagoras makes
 * the angle between the legs a right one. */
static bool is_triangle(const qci_polygon *cloth, qci_wide leg)
{
    int legs = 0, longs = 0;

    for (int i = 0; i < cloth->count; i++) {
        qci_wide side = square_of_side(cloth, i);

        legs += side == leg;
        longs += side == 2 * leg;
    }
    return cloth->count == 3 && legs == 2 && longs == 1;
}

/* At twice its size a square of side s has legs of 2 s when it is halved, and
 * of s sqrt2 when it is quartered. */
static qc_status check_triangles(qci_replay *replay, const qc_step *step,
                                 const pile *p)
{
    qci_wide side = replay->plan->pieces[step->piece].cut[0];
    qci_wide leg = side * side * (step->repeat == 1 ? 4 : 2);
    qci_wide area = 0;

    for (int i = 0; i < p->count; i++) {
        if (!is_triangle(&p->at[i], leg))
            return qci_replay_reject(replay, step,
                                     "what falls out is not a triangle of "
                                     "piece %u",
                                     step->piece);
        area += qci_polygon_doubled_area(&p->at[i]);
    }
    if (p->count != (int)step->repeat * 2 || area != 8 * side * side)
        return qci_replay_reject(replay, step,
                                 "%d triangles fall out of a square, not %u",
                                 p->count, step->repeat * 2);
    return QC_STATUS_OK;
}

qc_status qci_replay_diagonal(qci_replay *replay, const qc_step *step)
{
    qci_tally *tally;
    pile p;
    int64_t piles;
    qc_status status = check_form(replay, step);

    if (status == QC_STATUS_OK)
        status = qci_replay_piles(replay, step, &piles);
    if (status != QC_STATUS_OK)
        return status;
    tally = &replay->pieces[step->piece];
    if (!cut_corners(&tally->square, step->repeat, &p))
        return qci_replay_reject(replay, step,
                                 "a corner is not a whole length");
    status = check_triangles(replay, step, &p);
    if (status != QC_STATUS_OK)
        return status;
    tally->fallen += step->copies * p.count;
    replay->piece_area +=
        qci_polygon_doubled_area(&tally->square) * tally->waiting;
    tally->waiting = 0;
    return qci_replay_sums(replay, step, piles * step->repeat,
                           step->copies * p.count, tally->fallen);
}
