/* Hand-made plans with slanted cuts, and strip sets. Shapes are written down
 * corner by corner; what strips and sets measure is worked out here once more,
 * in floating point. */
#include "draw_plans.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/alloc.h"

#define LENGTH(list) (sizeof(list) / sizeof *(list))

/* The next even length above so many inches. */
static qc_length even(double inches)
{
    return 2 * (qc_length)ceil(inches * (double)IN / 2 - 1e-6);
}

/* A piece with that outline; corners in inches. */
static uint32_t shape(maker *m, const char *id, const double (*corners)[2],
                      size_t count)
{
    qc_point *outline = draw_must(qci_calloc(count, sizeof *outline));
    double left = 0, right = 0, top = 0;
    uint32_t piece;

    for (size_t i = 0; i < count; i++) {
        outline[i] = (qc_point){even(corners[i][0]), even(corners[i][1])};
        left = fmin(left, corners[i][0]);
        right = fmax(right, corners[i][0]);
        top = fmax(top, corners[i][1]);
    }
    piece = draw_type(m, id, even(right - left), even(top));
    m->plan->pieces[piece].outline = outline;
    m->plan->pieces[piece].outline_count = count;
    m->plan->pieces[piece].base_count = 1;
    return piece;
}

/* A diamond of 45 degrees from strips `h` inches high, and its mirror image,
 * which is the next piece. */
static uint32_t diamonds(maker *m, const char *right, const char *left,
                         double h)
{
    double w = h * sqrt(2);
    uint32_t r = shape(
        m, right, (const double[][2]){{0, 0}, {w, 0}, {w + h, h}, {h, h}}, 4);
    uint32_t l = shape(
        m, left, (const double[][2]){{0, 0}, {w, 0}, {w - h, h}, {-h, h}}, 4);

    m->plan->pieces[r].twin = l;
    m->plan->pieces[l].twin = r;
    for (uint32_t i = r; i <= l; i++) {
        m->plan->pieces[i].shape = QC_SHAPE_DIAMOND;
        m->plan->pieces[i].angle = 45 * QC_DEGREE;
        m->plan->pieces[i].cut[0] = even(h);
        m->plan->pieces[i].hand = i == r ? QC_HAND_RIGHT : QC_HAND_LEFT;
    }
    return r;
}

/* Sections as they are seen from the fabric's right side; all in inches. */
typedef struct sections {
    uint32_t piece, count;
    double width, left, right;
    bool alternate;
    qc_turn turn;
    uint32_t yields; /* 0: 1 */
} sections;

static qc_length corner_to_corner(double a, double b)
{
    return even(fabs(a - b) / 2);
}

static void slanted_strip(maker *m, double height, uint32_t repeat,
                          const sections *runs, size_t count)
{
    qc_subcut *subcuts = draw_must(qci_calloc(count, sizeof *subcuts));
    bool left_handed = m->plan->left_handed;
    qc_length used = 0;
    double before = 0;

    for (size_t i = 0; i < count; i++) {
        const sections *r = &runs[i];
        double lean[] = {left_handed ? -r->right : r->left,
                         left_handed ? -r->left : r->right};
        qc_stack stack = {.piece = r->piece,
                          .count = 1,
                          .turn = r->turn,
                          .width = even(r->width),
                          .height = even(height),
                          .yields = r->yields ? r->yields : 1};

        subcuts[i] =
            (qc_subcut){.count = r->count,
                        .width = stack.width,
                        .stack_count = 1,
                        .stacks = draw_must(qci_copy(&stack, 1, sizeof stack)),
                        .lean = {even(lean[0]), even(lean[1])},
                        .alternate = r->alternate};
        for (uint32_t k = 0; k < r->count; k++) {
            bool turned = r->alternate && k % 2;

            used += corner_to_corner(before, lean[turned]) + stack.width;
            before = lean[!turned];
        }
        m->plan->pieces[r->piece].count +=
            (int64_t)repeat * r->count * stack.yields;
    }
    used += corner_to_corner(before, 0);
    draw_sections(m, even(height), repeat, subcuts, count, used);
}

/* --- shapes -------------------------------------------------------------- */

/* Right ones alone, both hands in one strip, and both beside rectangles. */
static qc_plan *star(bool left_handed)
{
    maker m = draw_begin("Eight-pointed stars", "Night blue", QC_UNITS_IN,
                         42 * IN, QC_YARD / 8);
    uint32_t right = diamonds(&m, "D right", "D left", 3), left = right + 1;
    uint32_t oblong = draw_type(&m, "R", 2 * IN, 3 * IN);
    double w = 3 * sqrt(2);

    m.plan->left_handed = left_handed;
    slanted_strip(&m, 3, 2, (sections[]){{.piece = right, 9, w, 3, 3, false}},
                  1);
    slanted_strip(&m, 3, 1,
                  (sections[]){{.piece = right, 4, w, 3, 3, false},
                               {.piece = left, 4, w, -3, -3, false}},
                  2);
    slanted_strip(&m, 3, 1,
                  (sections[]){{.piece = oblong, 3, 2, 0, 0, false},
                               {.piece = right, 3, w, 3, 3, false},
                               {.piece = oblong, 2, 2, 0, 0, false},
                               {.piece = left, 2, w, -3, -3, false}},
                  4);
    return draw_end(&m);
}

static qc_plan *both_hands(void)
{
    return star(false);
}

static qc_plan *left_handed(void)
{
    return star(true);
}

static qc_plan *pairs(void)
{
    maker m =
        draw_begin("Stars in pairs", "Sand", QC_UNITS_IN, 42 * IN, QC_YARD / 8);
    uint32_t right = diamonds(&m, "D right", "D left", 5 / 2.0);
    uint32_t small = diamonds(&m, "small right", "small left", 1.25);
    uint32_t oblong = draw_type(&m, "R", 2 * IN, 5 * IN / 2);

    slanted_strip(
        &m, 2.5, 4,
        (sections[]){{.piece = right, 9, 2.5 * sqrt(2), 2.5, 2.5, false},
                     {.piece = oblong, 2, 2, 0, 0, false}},
        2);
    slanted_strip(
        &m, 1.25, 2,
        (sections[]){{.piece = small, 20, 1.25 * sqrt(2), 1.25, 1.25, false}},
        1);
    for (size_t i = 0; i < 2; i++)
        m.plan->fabrics[0].strips[i].paired = true;
    m.plan->pieces[right].count = m.plan->pieces[right + 1].count = 18;
    m.plan->pieces[small].count = m.plan->pieces[small + 1].count = 20;
    return draw_end(&m);
}

/* Triangles, trapezoids, hexagons, kites, blunt diamonds. */
static qc_plan *many_shapes(bool left_handed)
{
    maker m = draw_begin("Sampler", "Moss", QC_UNITS_IN, 42 * IN, QC_YARD / 8);
    double a = sqrt(3), k = 2 * sqrt(3); /* sides for heights of 3 in */
    double b = 3 * sqrt(2), t = 0.75, s = t * sqrt(0.5);
    uint32_t equal =
        shape(&m, "T60", (const double[][2]){{0, 0}, {2 * a, 0}, {a, 3}}, 3);
    uint32_t tumbler =
        shape(&m, "Tumbler",
              (const double[][2]){{0, 0}, {6, 0}, {4.5, 3}, {1.5, 3}}, 4);
    uint32_t hexagon = shape(
        &m, "Hexagon",
        (const double[][2]){
            {0, 0}, {a, 0}, {1.5 * a, 1.5}, {a, 3}, {0, 3}, {-a / 2, 1.5}},
        6);
    uint32_t kite =
        shape(&m, "Kite",
              (const double[][2]){{0, 0}, {4, 0}, {5 * a / 2, 2.5}, {2, k}}, 4);
    uint32_t blunt = shape(&m, "B",
                           (const double[][2]){{0, 0},
                                               {b - t, 0},
                                               {b + 3 - s - t, 3 - s},
                                               {b + 3 - 2 * t, 3},
                                               {3 - t, 3},
                                               {s - t, s}},
                           6);
    uint32_t half =
        shape(&m, "H", (const double[][2]){{0, 0}, {3, 0}, {0, 3}}, 3);

    m.plan->left_handed = left_handed;
    slanted_strip(
        &m, k, 1,
        (sections[]){{.piece = kite, 8, 4 + 0.2287 - 1, 2, 0.4574, true}}, 1);
    slanted_strip(&m, 3, 2,
                  (sections[]){{.piece = equal, 9, a, a, -a, true},
                               {.piece = tumbler, 3, 4.5, 1.5, -1.5, true}},
                  2);
    slanted_strip(&m, 3, 1,
                  (sections[]){{.piece = hexagon, 6, 2 * a, a, a, false},
                               {.piece = half, 3, 3, 0, 0, false, 0, 2}},
                  2);
    slanted_strip(&m, 3, 1,
                  (sections[]){{.piece = blunt, 5, b, 3, 3, false},
                               {.piece = half, 6, 1.5, 0, -3, true}},
                  2);
    m.plan->pieces[half].shape = QC_SHAPE_HALF_SQUARE_TRIANGLE;
    return draw_end(&m);
}

static qc_plan *all_shapes(void)
{
    return many_shapes(false);
}

static qc_plan *all_shapes_left(void)
{
    return many_shapes(true);
}

/* Half-inch diamonds by the hundred, on a sheet too wide for them. */
static qc_plan *slivers(void)
{
    maker m =
        draw_begin("Slivers", "Sheeting", QC_UNITS_CM, QC_MAX_WIDTH, QC_M);
    uint32_t d =
        diamonds(&m, "a diamond with a long name", "its mirror image", 0.5);
    uint32_t e = diamonds(&m, "E right", "E left", 20);

    slanted_strip(&m, 0.5, 3,
                  (sections[]){{.piece = d, 300, sqrt(0.5), 0.5, 0.5, false}},
                  1);
    slanted_strip(
        &m, 20, 2,
        (sections[]){{.piece = e, 6, 20 * sqrt(2), 20, 20, false},
                     {.piece = e + 1, 5, 20 * sqrt(2), -20, -20, false}},
        2);
    return draw_end(&m);
}

/* More strips than are drawn one by one, in many sizes. */
static qc_plan *many_slants(void)
{
    static const char *const names[][2] = {
        {"first right", "first left"},
        {"second right", "second left"},
        {"third right", "third left"},
        {"fourth right", "fourth left"},
        {"fifth right", "fifth left"},
        {"sixth right", "sixth left"},
        {"seventh right", "the last of them, left"}};
    maker m =
        draw_begin("Long job", "Stripe", QC_UNITS_IN, 42 * IN, QC_YARD / 8);

    for (int i = 0; i < 7; i++) {
        double h = 4 - i * 0.5;
        uint32_t d = diamonds(&m, names[i][0], names[i][1], h);
        uint32_t n = (uint32_t)((42 - h) / (h * sqrt(2)));

        slanted_strip(&m, h, 8,
                      (sections[]){{.piece = d, n, h * sqrt(2), h, h, false}},
                      1);
        m.plan->fabrics[0].strips[i].paired = i % 2 == 0;
    }
    m.plan->fabrics[0].info.print = QC_PRINT_TWO_WAY;
    return draw_end(&m);
}

const sample slanted_plans[] = {
    {"both_hands", both_hands},
    {"left_handed", left_handed},
    {"pairs", pairs},
    {"all_shapes", all_shapes},
    {"all_shapes_left", all_shapes_left},
    {"slivers", slivers},
    {"many_slants", many_slants},
};
const size_t slanted_plan_count = LENGTH(slanted_plans);

/* --- strip sets ---------------------------------------------------------- */

/* What a set is made of; lengths in inches. */
typedef struct recipe {
    const char *id;
    double widths[6];
    int fabrics[6]; /* of QC_PLAN's fabrics */
    size_t strips;
    double degrees; /* 90: square across */
    qc_hand hand;
    double spacing, usable;
    int64_t segments;
    double second_at, second_degrees;
} recipe;

static qc_set_strip set_strip(maker *m, const recipe *r, size_t i,
                              double offset)
{
    char id[96];
    qc_set_strip out = {.fabric = (uint32_t)r->fabrics[i],
                        .width = even(r->widths[i]),
                        .offset = even(offset),
                        .full_piece = QC_NONE,
                        .part_piece = QC_NONE};

    snprintf(id, sizeof id, "%.40s strip %zu", r->id, i + 1);
    out.full_piece = draw_type(m, id, even(r->usable), out.width);
    snprintf(id, sizeof id, "%.40s strip %zu, last", r->id, i + 1);
    out.part_piece = draw_type(m, id, even(r->usable), out.width);
    return out;
}

/* Ends step by the cotangent of the finished width, which wastes least. */
static qc_plan *make_set(maker *m, recipe r)
{
    const double seam = 0.25, rad = r.degrees * 3.14159265358979323846 / 180;
    double sign = (r.hand == QC_HAND_LEFT) != m->plan->left_handed ? -1 : 1;
    double cot = r.degrees == 90 ? 0 : sign / tan(rad);
    double pitch = r.spacing / sin(rad), y = 0, offset = 0;
    double first = -1e9, last = 1e9;
    qci_plan_set *set;
    qc_plan_set *info;

    m->plan->sets = draw_must(qci_calloc(1, sizeof *m->plan->sets));
    m->plan->set_count = 1;
    set = m->plan->sets;
    info = &set->info;
    set->strips = draw_must(qci_calloc(r.strips, sizeof *set->strips));
    for (size_t i = 0; i < r.strips; i++) {
        double shows = r.widths[i] - seam * ((i > 0) + (i + 1 < r.strips));
        double low = y * cot, up = (y + shows) * cot;

        first = fmax(first, offset - fmin(low, up));
        last = fmin(last, offset + r.usable - fmax(low, up));
        set->strips[i] = set_strip(m, &r, i, offset);
        offset += (r.widths[i] - 2 * seam) * cot;
        y += shows;
    }
    info->id = draw_must(qci_strdup(r.id));
    info->job_id = draw_must(qci_strdup("S"));
    info->hand = r.hand;
    info->height = even(y);
    info->angle = (int32_t)(r.degrees * QC_DEGREE);
    info->lean = even(y * cot);
    info->spacing = even(r.spacing);
    info->pitch = even(pitch);
    info->first = even(first);
    info->usable = info->full_length = even(r.usable);
    info->per_set = (int64_t)((last - first) / pitch);
    info->sets = r.segments / info->per_set;
    info->segments = r.segments;
    info->part_segments = r.segments % info->per_set;
    info->part_length =
        even(r.usable - (double)(info->per_set - info->part_segments) * pitch);
    for (size_t i = 0; i < r.strips && !info->part_segments; i++)
        set->strips[i].part_piece = QC_NONE;
    for (size_t i = 0; i < r.strips && !info->sets; i++)
        set->strips[i].full_piece = QC_NONE;
    info->second_at = even(r.second_at);
    info->second_angle = (int32_t)(r.second_degrees * QC_DEGREE);
    info->strip_count = r.strips;
    return draw_end(m);
}

static void another_fabric(maker *m, const char *name)
{
    qc_plan *plan = m->plan;
    qci_plan_fabric *grown = draw_must(qci_realloc(
        plan->fabrics, plan->fabric_count + 1, sizeof *plan->fabrics));
    qci_plan_fabric *added = &grown[plan->fabric_count];

    memset(added, 0, sizeof *added);
    added->info.id = draw_must(qci_strdup(name));
    added->info.name = draw_must(qci_strdup(name));
    plan->fabrics = grown;
    plan->fabric_count++;
}

static maker two_fabrics(const char *title)
{
    maker m =
        draw_begin(title, "Night blue", QC_UNITS_IN, 42 * IN, QC_YARD / 8);

    another_fabric(&m, "Sand & <dunes>");
    return m;
}

static qc_plan *set_right(void)
{
    maker m = two_fabrics("Pieced diamonds");

    return make_set(&m, (recipe){.id = "S1 right",
                                 .widths = {2, 2, 2},
                                 .fabrics = {0, 1, 0},
                                 .strips = 3,
                                 .degrees = 45,
                                 .hand = QC_HAND_RIGHT,
                                 .spacing = 2,
                                 .usable = 42,
                                 .segments = 40});
}

static qc_plan *set_left(void)
{
    maker m = two_fabrics("Pieced diamonds");

    return make_set(&m, (recipe){.id = "S1 left",
                                 .widths = {2, 3, 2.5},
                                 .fabrics = {1, 0, 1},
                                 .strips = 3,
                                 .degrees = 60,
                                 .hand = QC_HAND_LEFT,
                                 .spacing = 2.5,
                                 .usable = 40,
                                 .segments = 13,
                                 .second_at = 1,
                                 .second_degrees = 20});
}

static qc_plan *set_for_left_hand(void)
{
    maker m = two_fabrics("Pieced diamonds");

    m.plan->left_handed = true;
    return make_set(&m, (recipe){.id = "S1 right",
                                 .widths = {2, 3, 2.5},
                                 .fabrics = {1, 0, 1},
                                 .strips = 3,
                                 .degrees = 60,
                                 .hand = QC_HAND_RIGHT,
                                 .spacing = 2.5,
                                 .usable = 40,
                                 .segments = 26,
                                 .second_at = 1,
                                 .second_degrees = 20});
}

static qc_plan *set_square(void)
{
    maker m = two_fabrics("Checks");

    return make_set(&m, (recipe){.id = "S2",
                                 .widths = {1.5, 1.5, 1.5, 1.5},
                                 .fabrics = {0, 1, 0, 1},
                                 .strips = 4,
                                 .degrees = 90,
                                 .spacing = 1.5,
                                 .usable = 42,
                                 .segments = 100});
}

/* Segments that cannot be told apart, long names, a job of one short set. */
static qc_plan *set_fine(void)
{
    static const char name[] =
        "a strip set with so long a name that it does not end on its line, "
        "however small the letters are or are not, \xC3\xA9t\xC3\xA9";
    maker m = draw_begin("", "a fabric with a name that is not short either",
                         QC_UNITS_CM, QC_MAX_WIDTH, QC_M);

    another_fabric(&m, name);
    return make_set(&m, (recipe){.id = name,
                                 .widths = {4, 3},
                                 .fabrics = {0, 1},
                                 .strips = 2,
                                 .degrees = 30,
                                 .hand = QC_HAND_RIGHT,
                                 .spacing = 0.25,
                                 .usable = 380,
                                 .segments = 1500});
}

/* Few wide segments of a short set: the picture is narrow. */
static qc_plan *set_short(void)
{
    maker m = two_fabrics("Posy");

    m.plan->left_handed = true;
    return make_set(&m, (recipe){.id = "P",
                                 .widths = {1, 1.25},
                                 .fabrics = {0, 1},
                                 .strips = 2,
                                 .degrees = 72.5,
                                 .hand = QC_HAND_LEFT,
                                 .spacing = 1.5,
                                 .usable = 2.4,
                                 .segments = 1});
}

const sample set_plans[] = {
    {"set_right", set_right},   {"set_left", set_left},
    {"set_square", set_square}, {"set_for_left_hand", set_for_left_hand},
    {"set_fine", set_fine},     {"set_short", set_short},
};
const size_t set_plan_count = LENGTH(set_plans);
