/* The plan of a strip set in numbers, as in the comment of its header. */
#include "set_plan.h"

#include <string.h>

static qc_step *add(paper *p, uint32_t fabric, qc_step_kind kind, uint32_t in)
{
    qc_step *step = &p->steps[p->step_count++];

    *step = (qc_step){.number = p->step_count,
                      .fabric = fabric,
                      .kind = kind,
                      .part_in = in,
                      .part_out = NONE,
                      .piece = NONE,
                      .copies = 1,
                      .layers = 1,
                      .set = NONE};
    return step;
}

static qc_step *add_cut(paper *p, uint32_t fabric, qc_step_kind kind,
                        uint32_t in, qc_length distance)
{
    qc_step *step = add(p, fabric, kind, in);

    step->repeat = 1;
    step->cuts = 1;
    step->distance = distance;
    step->yield = distance > 0;
    return step;
}

/* Two strips, each cut to the length of one kind of sets. */
static void write_fabric(paper *p, uint32_t index, qc_length height)
{
    qc_plan_fabric *info = &p->fabrics[index].info;

    *info = (qc_plan_fabric){.usable_width = E(320),
                             .step = E(36),
                             .used = 2 * height,
                             .bought = E(72),
                             .cuts = 6};
    for (uint32_t i = 0; i < 2; i++) {
        uint32_t piece = 2 * index + i;
        qc_length length = i == 0 ? FULL : PART;

        add_cut(p, index, QC_STEP_STRIP, 0, height)->part_out = i + 1;
        p->pieces[piece] = (qc_plan_piece){.fabric = index,
                                           .shape = QC_SHAPE_RECTANGLE,
                                           .cut = {length, height},
                                           .count = 1,
                                           .twin = piece,
                                           .strip_set = 0};
        info->area.finished += length * height;
    }
    info->area.scrap = E(72) * E(320) - info->area.finished;
    for (uint32_t i = 0; i < 2; i++) {
        qc_length length = i == 0 ? FULL : PART;
        qc_step *step;

        add_cut(p, index, QC_STEP_SQUARE_END, i + 1, 0);
        step = add_cut(p, index, QC_STEP_SUBCUT, i + 1, length);
        step->along = length;
        step->piece = 2 * index + i;
        step->total = 1;
    }
    p->strips[index] =
        (qc_set_strip){index, height, 0, 2 * index, 2 * index + 1};
}

static qc_step *add_of_set(paper *p, qc_step_kind kind, uint32_t in)
{
    qc_step *step = add(p, NONE, kind, in);

    step->set = 0;
    return step;
}

/* Sews and cuts one kind of sets into so many segments. */
static void write_run(paper *p, uint32_t which, uint32_t segments)
{
    qc_step *step = add_of_set(p, QC_STEP_SEW, NONE);

    step->part_out = which;
    step->distance = which == 0 ? FULL : PART;
    step->yield = 1;
    step = add_of_set(p, QC_STEP_CROSSCUT, which);
    step->distance = E(16);
    step->lean = p->set.info.lean;
    step->along = p->set.info.first;
    step->repeat = segments;
    step->cuts = segments + 1;
    step->yield = segments;
    step->total = which == 0 ? 13 : 20;
}

/* From the middle of the left side, plumb down and out through the right one.
 */
static void write_second_cut(paper *p)
{
    qc_step *step = add_of_set(p, QC_STEP_HALVE, NONE);

    p->set.info.second_at = E(42);
    p->set.info.second_angle = 90 * QC_DEGREE;
    step->copies = step->cuts = 20;
    step->repeat = 1;
    step->yield = 40;
}

void write_plan(paper *p, bool left)
{
    memset(p, 0, sizeof *p);
    p->plan = (qc_plan){.layers = 4,
                        .ruler = E(1),
                        .seam = E(2),
                        .fabrics = p->fabrics,
                        .fabric_count = 2,
                        .pieces = p->pieces,
                        .piece_count = 4,
                        .sets = &p->set,
                        .set_count = 1,
                        .steps = p->steps,
                        .step_count = STEPS};
    write_fabric(p, 0, E(24));
    write_fabric(p, 1, E(16));
    p->set.strips = p->strips;
    p->strips[1].offset = left ? -E(20) : E(20);
    p->set.info = (qc_plan_set){.hand = left ? QC_HAND_LEFT : QC_HAND_RIGHT,
                                .height = E(36),
                                .angle = 45 * QC_DEGREE,
                                .lean = left ? -E(36) : E(36),
                                .spacing = E(16),
                                .pitch = PITCH,
                                .first = left ? E(24) : 0,
                                .usable = E(320),
                                .segments = 20,
                                .sets = 1,
                                .per_set = 13,
                                .full_length = FULL,
                                .part_segments = 7,
                                .part_length = PART,
                                .strip_count = 2};
    write_run(p, 0, 13);
    write_run(p, 1, 7);
    write_second_cut(p);
}
