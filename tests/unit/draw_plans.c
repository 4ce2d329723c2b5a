/* Hand-made plans with square cuts, and how such plans are made. */
#include "draw_plans.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>
#include <stdio.h>
#include <string.h>

#include "base/alloc.h"

void *draw_must(void *block)
{
    assert_non_null(block);
    return block;
}

maker draw_begin(const char *title, const char *name, qc_units units,
                 qc_length width, qc_length step)
{
    maker m;
    qc_plan_fabric *info;

    m.plan = draw_must(qci_calloc(1, sizeof *m.plan));
    m.plan->title = draw_must(qci_strdup(title));
    m.plan->units = units;
    m.plan->fabrics = draw_must(qci_calloc(1, sizeof *m.plan->fabrics));
    m.plan->fabric_count = 1;
    m.plan->pieces = draw_must(qci_calloc(MAX_TYPES, sizeof *m.plan->pieces));
    m.plan->fabrics[0].strips =
        draw_must(qci_calloc(MAX_TYPES, sizeof(qc_strip)));
    m.leftovers = draw_must(qci_calloc(MAX_TYPES + 1, sizeof(qc_leftover)));
    m.plan->fabrics[0].leftovers = m.leftovers;
    info = &m.plan->fabrics[0].info;
    info->id = draw_must(qci_strdup("f"));
    info->name = draw_must(qci_strdup(name));
    info->usable_width = width;
    info->square_up = units == QC_UNITS_IN ? IN / 2 : 12 * QC_MM;
    info->used = info->square_up;
    info->step = step;
    info->price = info->cost = QC_DEFAULT;
    return m;
}

uint32_t draw_type(maker *m, const char *id, qc_length across, qc_length along)
{
    qc_plan_piece *piece = &m->plan->pieces[m->plan->piece_count];

    piece->id = draw_must(qci_strdup(id));
    piece->cut[0] = across;
    piece->cut[1] = along;
    piece->twin = (uint32_t)m->plan->piece_count;
    piece->strip_set = QC_NONE;
    return (uint32_t)m->plan->piece_count++;
}

static void fill_subcut(maker *m, qc_subcut *subcut, run r, int64_t repeat)
{
    qc_plan_piece *piece = &m->plan->pieces[r.piece];
    qc_stack stack = {.piece = r.piece,
                      .count = r.high,
                      .turn = r.turned ? QC_TURN_QUARTER : QC_TURN_NONE,
                      .width = piece->cut[r.turned],
                      .height = piece->cut[!r.turned]};

    subcut->count = r.count;
    subcut->width = stack.width;
    subcut->stack_count = 1;
    subcut->stacks = draw_must(qci_copy(&stack, 1, sizeof stack));
    piece->count += repeat * r.count * r.high;
}

void draw_sections(maker *m, qc_length height, uint32_t repeat,
                   qc_subcut *subcuts, size_t count, qc_length used_width)
{
    qci_plan_fabric *fabric = &m->plan->fabrics[0];
    qc_strip *s = &fabric->strips[fabric->info.strip_count];
    qc_length end = fabric->info.usable_width - used_width;

    *s = (qc_strip){.height = height,
                    .repeat = repeat,
                    .used_width = used_width,
                    .subcut_count = count,
                    .subcuts = subcuts};
    assert_true(end >= 0);
    if (end >= 3 * IN / 2)
        m->leftovers[fabric->info.leftover_count++] = (qc_leftover){
            height, end, repeat, (uint32_t)fabric->info.strip_count};
    fabric->info.strip_count++;
    fabric->info.setups++;
    fabric->info.used += height * repeat;
}

void draw_strip(maker *m, qc_length height, uint32_t repeat, const run *runs,
                size_t run_count)
{
    qc_subcut *subcuts = draw_must(qci_calloc(run_count, sizeof *subcuts));
    qc_length used = 0;

    for (size_t i = 0; i < run_count; i++) {
        fill_subcut(m, &subcuts[i], runs[i], repeat);
        used += subcuts[i].count * subcuts[i].width;
    }
    draw_sections(m, height, repeat, subcuts, run_count, used);
}

qc_plan *draw_end(maker *m)
{
    qc_plan_fabric *info = &m->plan->fabrics[0].info;
    qc_length rest;

    info->bought = (info->used + info->step - 1) / info->step * info->step;
    info->bound = info->bought;
    info->cuts = 123;
    rest = info->bought - info->used;
    if (rest >= 3 * IN / 2)
        m->leftovers[info->leftover_count++] =
            (qc_leftover){rest, info->usable_width, 1, UINT32_MAX};
    return m->plan;
}

static qc_plan *one_strip(void)
{
    maker m = draw_begin("", "Night blue", QC_UNITS_IN, 42 * IN, QC_YARD / 8);
    uint32_t a = draw_type(&m, "A", 5 * IN / 2, 5 * IN / 2);

    draw_strip(&m, 5 * IN / 2, 1, &(run){a, 9, 1, false}, 1);
    return draw_end(&m);
}

/* A one-way print with several sizes, stacks, trims and turned pieces. */
static qc_plan *throw_quilt(void)
{
    maker m = draw_begin("Saltmarsh throw", "Reed green", QC_UNITS_IN, 42 * IN,
                         QC_YARD / 8);
    uint32_t border = draw_type(&m, "Border", 81 * IN / 2, 9 * IN / 2);
    uint32_t a = draw_type(&m, "A", 5 * IN / 2, 9 * IN / 2);
    uint32_t b = draw_type(&m, "B", 7 * IN / 2, 7 * IN / 2);
    uint32_t c = draw_type(&m, "C", 5 * IN / 4, 5 * IN / 4);
    uint32_t d = draw_type(&m, "Stem", 3 * IN / 4, 15 * IN / 2);

    draw_strip(&m, 15 * IN / 2, 2,
               (run[]){{d, 20, 1, false}, {b, 4, 2, false}, {c, 8, 6, false}},
               3);
    draw_strip(&m, 9 * IN / 2, 4, &(run){border, 1, 1, false}, 1);
    draw_strip(&m, 9 * IN / 2, 5, (run[]){{a, 12, 1, false}, {b, 3, 1, false}},
               2);
    draw_strip(&m, 7 * IN / 2, 3, (run[]){{a, 4, 1, true}, {b, 6, 1, false}},
               2);
    m.plan->fabrics[0].info.print = QC_PRINT_PLAIN;
    return draw_end(&m);
}

static qc_plan *thirty_strips(void)
{
    maker m = draw_begin("Thirty", "One-way print", QC_UNITS_IN, 40 * IN,
                         QC_YARD / 8);
    uint32_t a = draw_type(&m, "A", 2 * IN, 2 * IN);
    uint32_t b = draw_type(&m, "B", 3 * IN, 3 * IN / 2);

    draw_strip(&m, 2 * IN, 18, &(run){a, 20, 1, false}, 1);
    draw_strip(&m, 3 * IN / 2, 12, &(run){b, 13, 1, false}, 1);
    m.plan->fabrics[0].info.print = QC_PRINT_ONE_WAY;
    return draw_end(&m);
}

static qc_plan *ninety_strips(void)
{
    maker m =
        draw_begin("Ninety", "Stripe", QC_UNITS_IN, 44 * IN, 10 * QC_YARD);
    uint32_t a = draw_type(&m, "A", 5 * IN / 2, 5 * IN / 2);
    uint32_t b = draw_type(&m, "B", 13 * IN / 2, 3 * IN);

    draw_strip(&m, 5 * IN / 2, 60, &(run){a, 17, 1, false}, 1);
    draw_strip(&m, 3 * IN, 29, (run[]){{b, 6, 1, false}, {a, 1, 1, false}}, 2);
    draw_strip(&m, 3 * IN, 1, &(run){b, 2, 1, false}, 1);
    m.plan->fabrics[0].info.print = QC_PRINT_TWO_WAY;
    draw_end(&m)->fabrics[0].info.bound = QC_YARD;
    return m.plan;
}

/* Pieces from hardly visible to invisible, and strips closer than a line of
 * text. */
static qc_plan *tiny_pieces(void)
{
    maker m = draw_begin("Tiny", "Confetti", QC_UNITS_IN, 42 * IN, QC_YARD / 8);
    uint32_t sizes[6];
    char id[40];

    for (int i = 0; i < 6; i++) {
        snprintf(id, sizeof id, "T%d", i);
        sizes[i] = draw_type(&m, id, IN / (1 << i), IN / (1 << i));
    }
    for (int i = 0; i < 6; i++)
        draw_strip(&m, IN / (1 << i), 2,
                   &(run){sizes[i], 40 * (1u << i), 1, false}, 1);
    draw_strip(&m, IN, 1, &(run){sizes[5], 32, 32, false}, 1);
    return draw_end(&m);
}

static qc_plan *long_names(void)
{
    static const char long_id[] =
        "a piece with a name so long that nobody would ever write it on a "
        "label but somebody always does, \xC3\xA9t\xC3\xA9 & <tag> \"quoted\"";
    maker m = draw_begin(long_id, "Bl\xC3\xA5 <&> \xE6\xB5\xB7 'n' \"sea\" ]]>",
                         QC_UNITS_IN, 42 * IN, QC_YARD / 8);
    uint32_t a = draw_type(&m, long_id, 5 * IN, 5 * IN);
    uint32_t b = draw_type(&m, "middling long name", 3 * IN, 5 * IN);
    uint32_t c = draw_type(&m, "\xC3\x89toile \xC2\xBD", 2 * IN, 5 * IN);
    uint32_t d = draw_type(&m, "the very long border", 40 * IN, 2 * IN);

    draw_strip(&m, 5 * IN, 2,
               (run[]){{a, 3, 1, false}, {b, 4, 1, false}, {c, 6, 1, false}},
               3);
    draw_strip(&m, 2 * IN, 2, &(run){d, 1, 1, false}, 1);
    return draw_end(&m);
}

static qc_plan *metric(void)
{
    maker m =
        draw_begin("Kissen", "Leinen", QC_UNITS_CM, 140 * QC_CM, 10 * QC_CM);
    uint32_t a = draw_type(&m, "A", 65 * QC_MM, 65 * QC_MM);
    uint32_t b = draw_type(&m, "B", 453 * QC_MM / 10, 115 * QC_MM);

    draw_strip(&m, 115 * QC_MM, 3, &(run){b, 30, 1, false}, 1);
    draw_strip(&m, 65 * QC_MM, 4, &(run){a, 21, 1, false}, 1);
    return draw_end(&m);
}

static qc_plan *many_types(void)
{
    maker m =
        draw_begin("Sampler", "Two hundred", QC_UNITS_IN, 42 * IN, QC_YARD / 8);
    char id[40];

    for (int i = 0; i < 50; i++) {
        qc_length h = IN * (60 - i) / 16;
        run runs[4];

        for (int k = 0; k < 4; k++) {
            snprintf(id, sizeof id, "row %d patch %d", i + 1, k + 1);
            runs[k] = (run){draw_type(&m, id, IN * (20 + i + 9 * k) / 16, h), 2,
                            1, false};
        }
        draw_strip(&m, h, 1, runs, 4);
    }
    return draw_end(&m);
}

static qc_plan *narrow_cloth(void)
{
    maker m = draw_begin("Ribbon", "Ribbon", QC_UNITS_IN, IN, IN);
    uint32_t a = draw_type(&m, "A", IN / 2, IN / 2);

    draw_strip(&m, IN / 2, 3, &(run){a, 2, 1, false}, 1);
    return draw_end(&m);
}

static qc_plan *wide_cloth(void)
{
    maker m = draw_begin("Hall", "Sheet", QC_UNITS_CM, QC_MAX_WIDTH, QC_M);
    uint32_t a = draw_type(&m, "A", 20 * QC_CM, 90 * QC_CM);

    draw_strip(&m, 90 * QC_CM, 2, &(run){a, 49, 1, false}, 1);
    return draw_end(&m);
}

/* As long as a bolt may be: two strips of a kilometre. */
static qc_plan *endless_cloth(void)
{
    maker m = draw_begin("Lane", "Lane", QC_UNITS_CM, QC_M, QC_M);
    uint32_t a = draw_type(&m, "A", QC_M, 1000 * QC_M);

    draw_strip(&m, 1000 * QC_M, 2, &(run){a, 1, 1, false}, 1);
    return draw_end(&m);
}

static qc_plan *nothing(void)
{
    maker m = draw_begin("Empty", "Unused", QC_UNITS_IN, 42 * IN, QC_YARD / 8);

    m.plan->fabrics[0].info.used = 0;
    return draw_end(&m);
}

static qc_plan *shrinking(void)
{
    maker m = draw_begin("Washed", "Cotton", QC_UNITS_IN, 42 * IN, QC_YARD / 8);
    uint32_t a = draw_type(&m, "A", 6 * IN, 6 * IN);
    qc_plan *plan;

    draw_strip(&m, 6 * IN, 2, &(run){a, 6, 1, false}, 1);
    plan = draw_end(&m);
    plan->fabrics[0].info.shrink_length = 300;
    plan->fabrics[0].info.bought += QC_YARD / 8;
    plan->fabrics[0].info.leftover_count = 1; /* that of the strips */
    return plan;
}

const sample straight_plans[] = {
    {"one_strip", one_strip},
    {"throw_quilt", throw_quilt},
    {"thirty_strips", thirty_strips},
    {"ninety_strips", ninety_strips},
    {"tiny_pieces", tiny_pieces},
    {"long_names", long_names},
    {"metric", metric},
    {"many_types", many_types},
    {"narrow_cloth", narrow_cloth},
    {"wide_cloth", wide_cloth},
    {"endless_cloth", endless_cloth},
    {"nothing", nothing},
    {"shrinking", shrinking},
};
const size_t straight_plan_count =
    sizeof straight_plans / sizeof *straight_plans;

qc_plan *draw_sample(const char *name)
{
    for (size_t i = 0; i < straight_plan_count; i++)
        if (strcmp(straight_plans[i].name, name) == 0)
            return straight_plans[i].make();
    for (size_t i = 0; i < slanted_plan_count; i++)
        if (strcmp(slanted_plans[i].name, name) == 0)
            return slanted_plans[i].make();
    for (size_t i = 0; i < set_plan_count; i++)
        if (strcmp(set_plans[i].name, name) == 0)
            return set_plans[i].make();
    fail_msg("no plan is called %s", name);
    return NULL;
}
