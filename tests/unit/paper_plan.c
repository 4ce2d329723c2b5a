/* The paper plan in numbers, step by step as in the comment of its header. */
#include "paper_plan.h"

#include <string.h>

qc_step step(qc_step_kind kind, uint32_t in, uint32_t out, uint32_t piece,
             qc_length distance, int64_t copies, uint32_t layers,
             uint32_t repeat, int64_t cuts, int64_t yield, int64_t total)
{
    return (qc_step){.kind = kind,
                     .part_in = in,
                     .part_out = out,
                     .piece = piece,
                     .distance = distance,
                     .copies = copies,
                     .layers = layers,
                     .repeat = repeat,
                     .cuts = cuts,
                     .yield = yield,
                     .total = total,
                     .along = kind == QC_STEP_SUBCUT ? distance : 0,
                     .set = NONE};
}

static void write_night(qc_step *at)
{
    at[0] = step(QC_STEP_SQUARE_UP, 0, NONE, NONE, E(4), 1, 2, 1, 1, 0, 0);
    at[1] = step(QC_STEP_STRIP, 0, 1, NONE, E(52), 1, 2, 1, 1, 1, 0);
    at[2] = step(QC_STEP_STRIP, 0, 2, NONE, E(20), 1, 2, 3, 3, 3, 0);
    at[3] = step(QC_STEP_SQUARE_END, 1, NONE, NONE, 0, 1, 1, 1, 1, 0, 0);
    at[4] = step(QC_STEP_SUBCUT, 1, NONE, A, E(52), 1, 1, 6, 6, 6, 6);
    at[5] = step(QC_STEP_SQUARE_END, 2, NONE, NONE, 0, 3, 2, 1, 2, 0, 0);
    at[6] = step(QC_STEP_SUBCUT, 2, NONE, B, E(36), 3, 2, 9, 18, 27, 27);
    at[6].turn = QC_TURN_QUARTER;
    at[7] = step(QC_STEP_KEEP, 0, NONE, NONE, E(28), 1, 1, 0, 0, 1, 0);
    at[8] = step(QC_STEP_KEEP, 1, NONE, NONE, E(24), 1, 1, 0, 0, 1, 0);
    at[9] = step(QC_STEP_KEEP, 2, NONE, NONE, E(12), 3, 1, 0, 0, 3, 0);
}

static void write_stripe(qc_step *at)
{
    at[0] = step(QC_STEP_SQUARE_UP, 0, NONE, NONE, E(4), 1, 1, 1, 1, 0, 0);
    at[1] = step(QC_STEP_STRIP, 0, 1, NONE, E(80), 1, 1, 2, 2, 2, 0);
    at[2] = step(QC_STEP_SQUARE_END, 1, NONE, NONE, 0, 2, 2, 1, 1, 0, 0);
    at[3] = step(QC_STEP_SUBCUT, 1, 2, NONE, E(80), 2, 2, 4, 4, 8, 0);
    at[4] = step(QC_STEP_SPLIT, 2, NONE, C, E(32), 8, 2, 1, 4, 8, 8);
    at[4].turn = QC_TURN_HALF;
    at[5] = step(QC_STEP_SPLIT, 2, 3, NONE, E(24), 8, 2, 1, 4, 16, 0);
    at[5].rest_is_piece = true;
    at[6] = step(QC_STEP_TRIM, 3, NONE, D, E(48), 16, 2, 1, 8, 16, 16);
    for (int i = 0; i < 7; i++)
        at[i].fabric = 1;
}

static void write_pieces(qc_plan_piece *at)
{
    static const qc_length sizes[PIECES][2] = {
        {E(52), E(52)}, {E(20), E(36)}, {E(80), E(32)}, {E(48), E(24)}};
    static const int64_t counts[PIECES] = {6, 27, 8, 16};

    for (uint32_t i = 0; i < PIECES; i++) {
        at[i].twin = i;
        at[i].strip_set = NONE;
        at[i].fabric = i < C ? 0 : 1;
        at[i].cut[0] = sizes[i][0];
        at[i].cut[1] = sizes[i][1];
        at[i].count = counts[i];
    }
}

static void write_fabrics(paper *p)
{
    qc_plan_fabric *night = &p->fabrics[0].info;
    qc_plan_fabric *stripe = &p->fabrics[1].info;
    int64_t square = E(8) * E(8); /* one square inch */

    *night = (qc_plan_fabric){.usable_width = E(336),
                              .square_up = E(4),
                              .step = E(36),
                              .used = E(116),
                              .bought = E(144),
                              .cuts = 32,
                              .leftover_count = 3};
    p->night_kept[0] = (qc_leftover){E(28), E(336), 1, UINT32_MAX};
    p->night_kept[1] = (qc_leftover){E(52), E(24), 1, 0};
    p->night_kept[2] = (qc_leftover){E(20), E(12), 3, 1};
    p->fabrics[0].leftovers = p->night_kept;
    /* Cut pieces: 6 x 42.25 + 27 x 11.25 = 557.25; kept: 147 + 19.5 + 11.25;
     * bought: 756. Of each piece half a square inch counts as seam here. */
    night->area.seams = 33 * square / 2;
    night->area.finished = square * 2229 / 4 - night->area.seams;
    night->area.leftover = square * 711 / 4;
    night->area.scrap = square * 21;

    *stripe = (qc_plan_fabric){.usable_width = E(320),
                               .square_up = E(4),
                               .step = E(36),
                               .shrink_length = 300,
                               .print = QC_PRINT_TWO_WAY,
                               .used = E(164),
                               .bought = E(180),
                               .cuts = 24};
    /* 8 x 40 + 16 x 18 = 608 of 900 */
    stripe->area.finished = square * 608;
    stripe->area.scrap = square * 292;
}

void write_plan(paper *p)
{
    memset(p, 0, sizeof *p);
    p->plan.layers = 4;
    p->plan.ruler = E(1);
    p->plan.seam = E(2);
    p->plan.fabrics = p->fabrics;
    p->plan.fabric_count = 2;
    p->plan.pieces = p->pieces;
    p->plan.piece_count = PIECES;
    p->plan.steps = p->steps;
    p->plan.step_count = STEPS;
    write_fabrics(p);
    write_pieces(p->pieces);
    write_night(p->steps);
    write_stripe(p->steps + 10);
    for (uint32_t i = 0; i < STEPS; i++)
        p->steps[i].number = i + 1;
}
