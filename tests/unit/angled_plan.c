/* The angled plan in numbers, step by step as in the comment of its header. */
#include "angled_plan.h"

#include <string.h>

void put_outline(paper *p, int piece, size_t corners, const qc_point *outline,
                 size_t bases)
{
    memcpy(p->outlines[piece], outline, corners * bases * sizeof *outline);
    p->pieces[piece].outline = p->outlines[piece];
    p->pieces[piece].outline_count = corners;
    p->pieces[piece].base_count = bases;
}

void put_slanted(paper *p, int piece, qc_length pitch, qc_length lean)
{
    const qc_point outline[] = {
        {0, 0}, {pitch, 0}, {pitch + lean, E(32)}, {lean, E(32)}};

    put_outline(p, piece, 4, outline, 1);
}

static void write_pieces(paper *p)
{
    static const struct {
        qc_shape shape;
        int width, count;
    } of[PIECES] = {
        [D] = {QC_SHAPE_DIAMOND, 32, 3},
        [R] = {QC_SHAPE_RECTANGLE, 40, 1},
        [Z] = {QC_SHAPE_TRAPEZOID, 48, 3},
        [P] = {QC_SHAPE_PARALLELOGRAM, 16, 5},
        [Q] = {QC_SHAPE_PARALLELOGRAM, 16, 5},
        [X] = {QC_SHAPE_POLYGON, 52, 2},
        [T] = {QC_SHAPE_HALF_SQUARE_TRIANGLE, 32, 20},
    };
    const qc_point z[] = {{0, 0}, {E(48), 0}, {E(32), E(32)}, {E(16), E(32)}};
    const qc_point x[] = {{0, 0},         {E(24), 0}, {E(38), E(16)},
                          {E(24), E(32)}, {0, E(32)}, {-E(14), E(16)}};
    const qc_point t[] = {{0, 0}, {E(32), 0},   {0, E(32)},
                          {0, 0}, {1149474, 0}, {574736, 574736},
                          {0, 0}, {E(32), 0},   {E(32), E(32)}};

    for (uint32_t i = 0; i < PIECES; i++)
        p->pieces[i] = (qc_plan_piece){.shape = of[i].shape,
                                       .cut = {E(of[i].width), E(32)},
                                       .count = of[i].count,
                                       .twin = i,
                                       .strip_set = NONE};
    p->pieces[R].trim_to[0] = E(38);
    p->pieces[R].trim_to[1] = E(30);
    p->pieces[P].hand = QC_HAND_RIGHT;
    p->pieces[Q].hand = QC_HAND_LEFT;
    p->pieces[P].twin = Q;
    p->pieces[Q].twin = P;
    put_slanted(p, D, D_PITCH, E(32));
    put_slanted(p, P, P_PITCH, E(32));
    put_slanted(p, Q, P_PITCH, -E(32));
    put_outline(p, Z, 4, z, 1);
    put_outline(p, X, 6, x, 1);
    put_outline(p, T, 3, t, 3);
}

/* A step on all of part `in`, with as many cuts as `repeat` and piles of all.
 */
static qc_step *add(paper *p, qc_step_kind kind, uint32_t in, int64_t copies,
                    uint32_t repeat)
{
    qc_step *step = &p->steps[p->step_count++];

    *step = (qc_step){.number = p->step_count,
                      .kind = kind,
                      .part_in = in,
                      .part_out = NONE,
                      .piece = NONE,
                      .copies = copies,
                      .layers = 1,
                      .repeat = repeat,
                      .cuts = repeat,
                      .set = NONE};
    return step;
}

static void add_strip(paper *p, uint32_t out, uint32_t repeat)
{
    qc_step *step = add(p, QC_STEP_STRIP, 0, 1, repeat);

    step->part_out = out;
    step->distance = E(32);
    step->yield = repeat;
}

static qc_step *add_slanted(paper *p, qc_step_kind kind, uint32_t in,
                            qc_length along, qc_length lean, uint32_t repeat)
{
    qc_step *step = add(p, kind, in, 1, repeat);

    step->along = along;
    step->lean = lean;
    return step;
}

static qc_step *add_pieces(paper *p, uint32_t in, uint32_t piece,
                           qc_length along, qc_length lean, uint32_t repeat)
{
    qc_step *step = add_slanted(p, QC_STEP_SUBCUT, in, along, lean, repeat);

    step->piece = piece;
    step->yield = step->total = repeat;
    return step;
}

static void pair(qc_step *step)
{
    step->paired = true;
    step->layers = 2;
    step->copies = 2;
    step->yield *= 2;
}

static void write_first(paper *p)
{
    add(p, QC_STEP_SQUARE_END, 1, 1, 1);
    add_slanted(p, QC_STEP_SLANT, 1, 0, E(32), 1);
    add_pieces(p, 1, D, D_PITCH, E(32), 3)->distance = E(32);
    add_slanted(p, QC_STEP_SLANT, 1, E(32), 0, 1);
    add_pieces(p, 1, R, E(40), 0, 1)->distance = E(40);
    add(p, QC_STEP_SQUARE_END, 2, 1, 1);
    add_slanted(p, QC_STEP_SLANT, 2, 0, E(16), 1);
    add_pieces(p, 2, Z, E(48), -E(16), 3)->alternate = true;
    pair(add(p, QC_STEP_SQUARE_END, 3, 2, 1));
    pair(add_slanted(p, QC_STEP_SLANT, 3, 0, E(32), 1));
    pair(add_pieces(p, 3, P, P_PITCH, E(32), 5));
    p->steps[p->step_count - 1].distance = E(16);
}

static void write_second(paper *p)
{
    qc_step *step;

    add(p, QC_STEP_SQUARE_END, 4, 1, 1);
    add_slanted(p, QC_STEP_SLANT, 4, 0, E(28), 1);
    step = add_slanted(p, QC_STEP_SUBCUT, 4, E(52), E(28), 2);
    step->part_out = 6;
    step->distance = X_APART;
    step->yield = 2;
    step = add(p, QC_STEP_OUTLINE, 6, 2, 2);
    step->piece = X;
    step->cuts = 4;
    step->yield = step->total = 2;
    add(p, QC_STEP_SQUARE_END, 5, 1, 1);
    add_pieces(p, 5, T, E(32), 0, 2)->distance = E(32);
    add_pieces(p, 5, T, E(32), -E(32), 16)->alternate = true;
    step = add(p, QC_STEP_DIAGONAL, NONE, 2, 1);
    step->piece = T;
    step->layers = 2;
    step->yield = 4;
    step->total = 20;
    for (uint32_t i = 0; i < 2; i++) {
        step = add(p, QC_STEP_KEEP, i + 1, 1, 0);
        step->distance = p->kept[i].width;
        step->yield = 1;
    }
    step = add(p, QC_STEP_TRIM_BACK, NONE, 1, 0);
    step->piece = R;
    step->distance = E(38);
}

/* Of the bought 27 x 40 in; none of it is called seam. */
static void write_area(paper *p)
{
    qc_plan_fabric *info = &p->fabric.info;
    int64_t square = E(1) * E(1);

    info->area.finished =
        3 * D_PITCH * E(32) + 10 * P_PITCH * E(32) +
        (40 * 32 + 3 * 32 * 32 + 2 * 38 * 32 + 20 * 32 * 16) * square;
    info->area.leftover = (p->kept[0].width + p->kept[1].width) * E(32);
    info->area.scrap = info->bought * info->usable_width - info->area.finished -
                       info->area.leftover;
}

void write_plan(paper *p)
{
    memset(p, 0, sizeof *p);
    p->plan = (qc_plan){.layers = 4,
                        .ruler = E(1),
                        .seam = E(2),
                        .fabrics = &p->fabric,
                        .fabric_count = 1,
                        .pieces = p->pieces,
                        .piece_count = PIECES,
                        .steps = p->steps,
                        .step_count = STEPS};
    p->kept[0] = (qc_leftover){E(32), E(248) - 3 * D_PITCH, 1, 0};
    p->kept[1] = (qc_leftover){E(32), E(208), 1, 1};
    p->fabric.leftovers = p->kept;
    p->fabric.info = (qc_plan_fabric){.usable_width = E(320),
                                      .step = E(36),
                                      .used = E(192),
                                      .bought = E(216),
                                      .cuts = 53,
                                      .leftover_count = 2};
    write_pieces(p);
    for (uint32_t i = 1; i <= 5; i++)
        add_strip(p, i, i == 3 ? 2 : 1);
    write_first(p);
    write_second(p);
    write_area(p);
}
