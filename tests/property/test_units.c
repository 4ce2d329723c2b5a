/* Two methods of one block agree in finished geometry.
 *
 * For every built-in block and every method that one of its units offers, what
 * the job cuts is sewn, cut apart and trimmed here, in plane geometry and in
 * floating point, without the library's ways to its sizes; what then shows
 * between the seams must be the patches as they are drawn, in the same hand.
 * The ruler is as fine as lengths are, so that nothing is rounded by more than
 * a few of them. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

#include "block/unit.h"
#include "job/job.h"
#include "plane.h"

/* --- the drawing
 * -------------------------------------------------------------- */

static double inches(qc_length l)
{
    return (double)l / (double)QC_INCH;
}

static double number_of(const qc_block *block, qc_block_number n)
{
    const qc_block_summary *info = &block->info;

    return ((double)n.whole + (double)n.root * sqrt((double)info->radicand)) /
           (double)info->denominator * inches(info->width);
}

static poly drawn(const qc_block *block, uint32_t index)
{
    const qc_block_patch *patch = qc_block_patch_at(block, index);
    poly p = {(int)patch->role, (int)patch->corner_count, {{0, 0}}};

    for (size_t i = 0; i < patch->corner_count; i++)
        p.at[i] = (vec){number_of(block, patch->corners[i].x),
                        number_of(block, patch->corners[i].y)};
    return p;
}

/* The side of `p` that lies on a side of `q`. */
static int shared_side(const poly *p, const poly *q)
{
    for (int i = 0; i < p->count; i++)
        for (int k = 0; k < q->count; k++) {
            vec a = p->at[i], b = p->at[(i + 1) % p->count];
            vec c = q->at[(k + 1) % q->count], d = q->at[k];

            if (hypot(a.x - c.x, a.y - c.y) < NEAR &&
                hypot(b.x - d.x, b.y - d.y) < NEAR)
                return i;
        }
    fail_msg("the patches of a unit do not touch");
    return 0;
}

/* One of the units as it is drawn; of a square that is only taken half along,
 * the half between the lines of its neighbour's sides. */
static cloth unit_drawn(const qc_block *block, const qci_block_unit *unit,
                        size_t index)
{
    size_t each = unit->member_count / (size_t)unit->info.count;
    cloth c = {0};

    for (size_t i = 0; i < each; i++)
        c.at[c.count++] = drawn(block, unit->members[index * each + i]);
    if (strchr(unit->id, '/')) {
        const poly *d = &c.at[0];
        int s = shared_side(d, &c.at[1]);
        vec a = d->at[s], b = d->at[(s + 1) % 4];

        c.at[1] = clipped(&c.at[1], left_of(b, d->at[(s + 2) % 4], 0));
        c.at[1] = clipped(&c.at[1], left_of(d->at[(s + 3) % 4], a, 0));
    }
    return c;
}

/* --- the job
 * ------------------------------------------------------------------- */

typedef struct trial {
    const qc_block *block;
    const qci_block_unit *unit;
    const qc_job *job;
    const qc_plan_unit *made;
    double seam, trim;
} trial;

static const qci_piece *piece_at(const trial *t, size_t n)
{
    for (size_t i = 0; i < t->job->piece_count; i++)
        if (t->job->pieces[i].unit == 0 && n-- == 0)
            return &t->job->pieces[i];
    fail_msg("%s has too few pieces", t->unit->id);
    return NULL;
}

/* The cut rectangle of a piece, its lower left corner there. */
static poly rectangle(const trial *t, size_t n, double x, double y)
{
    const qci_piece *piece = piece_at(t, n);
    int role = 0;

    while (strcmp(qc_block_role_at(t->block, (size_t)role), piece->role) != 0)
        role++;
    return box(role, x, y, inches(piece->cut[0]), inches(piece->cut[1]));
}

static double side_of(const poly *p)
{
    return p->at[1].x - p->at[0].x;
}

static half line(double a, double b, double c)
{
    double l = hypot(a, b);

    return (half){a / l, b / l, c / l};
}

static half moved(half h, double by)
{
    h.c += by;
    return h;
}

/* Trims to a rectangle and takes the seams off: all of it must be there. */
static void trim(const trial *t, cloth *c, double x, double y, double w,
                 double h)
{
    double covered = 0;
    cloth raw = *c;
    half sides[] = {{1, 0, x}, {-1, 0, -x - w}, {0, 1, y}, {0, -1, -y - h}};

    for (int i = 0; i < 4; i++) {
        clip_all(&raw, sides[i]);
        clip_all(c, moved(sides[i], t->seam));
    }
    for (int i = 0; i < raw.count; i++)
        covered += area(&raw.at[i]);
    if (covered < w * h - NEAR)
        fail_msg("%s: of %g square in only %g are there", t->unit->id, w * h,
                 covered);
}

/* --- sewing
 * -------------------------------------------------------------------- */

/* A square of one fabric on a square of the other, sewn on both sides of the
 * diagonal and cut there: the half below it. Of eight at a time one of the four
 * squares that the large one is cut into. */
static cloth sew_pair(const trial *t)
{
    double part = t->made->method == QC_METHOD_EIGHT_AT_A_TIME ? 0.5 : 1;
    poly below = rectangle(t, 0, 0, 0), upper = rectangle(t, 1, 0, 0);
    double side = side_of(&below) * part;
    cloth c = {1, {box(below.role, 0, 0, side, side)}};
    double to = inches(t->made->trim_to[0]), spare;

    upper = box(upper.role, 0, 0, side_of(&upper) * part, side);
    sew(&c, &upper, moved(line(1, -1, 0), t->seam));
    /* The seam runs from corner to corner of the square that is trimmed. */
    spare = side - t->seam * sqrt(2) - to;
    assert_true(spare > t->trim - NEAR);
    trim(t, &c, t->seam * sqrt(2) + spare / 2, spare / 2, to, to);
    return c;
}

/* The right one of the four that come from one large square. */
static cloth sew_geese(const trial *t)
{
    poly large = rectangle(t, 0, 0, 0), small = rectangle(t, 1, 0, 0);
    double side = side_of(&large), little = side_of(&small);
    double width = inches(t->made->trim_to[0]),
           height = inches(t->made->trim_to[1]), s = t->seam;
    poly far = rectangle(t, 1, side - little, side - little);
    poly third = rectangle(t, 1, side - little, 0);
    half first = moved(line(1, -1, 0), s), second = moved(line(1, 1, side), s);
    cloth c = {1, {large}};
    vec apex = {side / 2 + s * sqrt(2), side / 2};

    if (width < height) {
        double kept = width;

        width = height;
        height = kept;
    }
    sew(&c, &far, first);
    sew(&c, &third, second);
    /* The point stands up to the left. */
    assert_true(side - (apex.x - s) > height + t->trim - NEAR);
    trim(t, &c, apex.x - s, apex.y - width / 2, height, width);
    return c;
}

/* Corner triangles are where the drawing has them. */
static cloth sew_flipped(const trial *t, const cloth *drawing)
{
    poly base = rectangle(t, 0, 0, 0);
    double w = side_of(&base), h = base.at[2].y;
    double width = inches(t->made->trim_to[0]),
           height = inches(t->made->trim_to[1]);
    vec low = {1e9, 1e9}, high = {-1e9, -1e9};
    cloth c = {1, {base}};

    for (int i = 0; i < drawing->count; i++)
        for (int k = 0; k < drawing->at[i].count; k++) {
            vec p = drawing->at[i].at[k];

            low = (vec){fmin(low.x, p.x), fmin(low.y, p.y)};
            high = (vec){fmax(high.x, p.x), fmax(high.y, p.y)};
        }
    /* Some are drawn a quarter turn round. */
    if ((high.x - low.x < high.y - low.y - NEAR) != (w < h - NEAR)) {
        double kept = w;

        w = h;
        h = kept;
        kept = width;
        width = height;
        height = kept;
        c.at[0] = box(base.role, 0, 0, w, h);
    }
    for (int i = 1; i < drawing->count; i++) {
        size_t n = 1;
        poly square;
        bool right = false, top = false;
        int corners = 0;

        for (int k = 0; k < 3; k++) {
            vec p = drawing->at[i].at[k];
            bool at_x = fabs(p.x - low.x) < NEAR || fabs(p.x - high.x) < NEAR;
            bool at_y = fabs(p.y - low.y) < NEAR || fabs(p.y - high.y) < NEAR;

            if (!at_x || !at_y)
                continue;
            /* Two of its corners may be corners of a square that has but one
             * other triangle: the right angle counts. */
            {
                vec a = drawing->at[i].at[(k + 1) % 3],
                    b = drawing->at[i].at[(k + 2) % 3];

                if (fabs((a.x - p.x) * (b.x - p.x) +
                         (a.y - p.y) * (b.y - p.y)) > NEAR)
                    continue;
            }
            corners++;
            right = fabs(p.x - high.x) < NEAR;
            top = fabs(p.y - high.y) < NEAR;
        }
        assert_int_equal(corners, 1);
        square = rectangle(t, n, 0, 0);
        while (square.role != drawing->at[i].role ||
               fabs(side_of(&square) - 2 * t->seam - t->trim -
                    sqrt(2 * area(&drawing->at[i]))) > NEAR)
            square = rectangle(t, ++n, 0, 0);
        {
            double side = side_of(&square);
            double x = right ? w - side : 0, y = top ? h - side : 0;
            double a = right ? -1 : 1, b = top ? -1 : 1;
            vec mid = {x + side / 2, y + side / 2};

            square = box(square.role, x, y, side, side);
            sew(&c, &square, line(a, b, a * mid.x + b * mid.y));
        }
    }
    trim(t, &c, (w - width) / 2, (h - height) / 2, width, height);
    return c;
}

/* One segment of a strip set, trimmed. */
static cloth sew_row(const trial *t, const qci_set *set)
{
    const qc_plan_set *info = &set->info;
    double y = 0, s = t->seam;
    double lean = inches(info->lean), height = inches(info->height);
    double spacing = inches(info->spacing), to = inches(t->made->trim_to[0]);
    half left = line(height, -lean, 0), right, bottom, top;
    cloth c = {0};

    for (size_t i = 0; i < info->strip_count; i++) {
        bool first = i == 0, last = i + 1 == info->strip_count;
        double high =
            inches(set->strips[i].width) - (first ? 0 : s) - (last ? 0 : s);

        /* The fabrics have the roles' order. */
        c.at[c.count++] = box((int)set->strips[i].fabric, -100, y, 200, high);
        y += high;
    }
    assert_true(fabs(y - height) < NEAR);
    assert_true(spacing > to + t->trim - NEAR);
    right = opposite(moved(left, spacing - s - (spacing - to) / 2));
    left = moved(left, s + (spacing - to) / 2);
    bottom = (half){
        0, 1, inches(set->strips[0].width) - s - inches(t->made->outer[0]) + s};
    top = (half){0, -1,
                 -(y - (inches(set->strips[info->strip_count - 1].width) - s) +
                   inches(t->made->outer[1]) - s)};
    /* Only what was made larger is there to be trimmed. */
    assert_true(fabs(bottom.c - s - t->trim) < NEAR);
    assert_true(fabs(y + top.c - s - t->trim) < NEAR);
    clip_all(&c, left);
    clip_all(&c, right);
    clip_all(&c, bottom);
    clip_all(&c, top);
    return c;
}

/* Half a square: the end is trimmed square to the seam, at the sharp tip of the
 * diamond that lies on the seam. */
static void trim_half(const trial *t, cloth *c)
{
    int diamond = t->unit->parts[0].half ? 1 : 0;
    poly *d = &c->at[diamond], *rest = &c->at[1 - diamond];
    vec tip = {0, 0};
    double best = 2;
    poly tidied = tidy(d), other = tidy(rest);
    int side = shared_side(&tidied, &other);
    half cut;

    for (int k = side; k <= side + 1; k++) {
        vec p = tidied.at[k % 4], a = tidied.at[(k + 1) % 4],
            b = tidied.at[(k + 3) % 4];
        double angle =
            fabs(atan2(a.y - p.y, a.x - p.x) - atan2(b.y - p.y, b.x - p.x));

        angle = angle > PI ? 2 * PI - angle : angle;
        if (angle < best) {
            best = angle;
            tip = p;
        }
    }
    {
        vec inside = {0, 0};

        for (int k = 0; k < 4; k++) {
            inside.x += tidied.at[k].x / 4;
            inside.y += tidied.at[k].y / 4;
        }
        cut = inside.x < tip.x ? (half){-1, 0, -tip.x} : (half){1, 0, tip.x};
    }
    *rest = clipped(rest, cut);
}

/* --- all ---------------------------------------------------------------------
 */

static qc_job *job_of(const qc_block *block, const char *name, qc_length size,
                      qc_length seam, const qc_method_spec *method)
{
    qc_fabric_spec fabrics[16];
    qc_role_spec roles[16];
    qc_block_spec spec;
    qc_job_spec job;
    qc_job *made = NULL;
    qc_error err;

    qc_error_init(&err);
    qc_job_spec_init(&job, QC_UNITS_IN);
    qc_block_spec_init(&spec);
    spec.block = name;
    spec.size = size;
    spec.count = 24; /* no method leaves a surplus */
    spec.fabrics = roles;
    spec.methods = method;
    spec.method_count = 1;
    while ((roles[spec.fabric_count].role =
                qc_block_role_at(block, spec.fabric_count))) {
        qc_fabric_spec_init(&fabrics[spec.fabric_count]);
        fabrics[spec.fabric_count].id = roles[spec.fabric_count].role;
        fabrics[spec.fabric_count].width = 200 * QC_INCH;
        roles[spec.fabric_count].fabric = roles[spec.fabric_count].role;
        spec.fabric_count++;
    }
    job.fabrics = fabrics;
    job.fabric_count = spec.fabric_count;
    job.blocks = &spec;
    job.block_count = 1;
    job.ruler = 1;
    job.seam = seam;
    if (qc_job_create(&job, &made, &err))
        fail_msg("%s, %s: %s %s", name, method->unit, err.field, err.problem);
    return made;
}

static void try_row(const trial *t, size_t *matched)
{
    for (size_t k = 0; k < t->job->set_count; k++) {
        const qci_set *set = &t->job->sets[k];
        cloth sewn = sew_row(t, set);
        size_t hand = 0;

        assert_int_equal(set->info.unit, 0);
        if (strchr(t->unit->id, '/'))
            trim_half(t, &sewn);
        for (size_t i = 0; i < (size_t)t->unit->info.count; i++) {
            cloth drawing = unit_drawn(t->block, t->unit, i);

            hand += are_same(&sewn, &drawing);
        }
        /* As many as are drawn in that hand, and not one that is not. */
        assert_int_equal(set->info.segments, 24 * (int64_t)hand);
        *matched += hand;
    }
}

static void try_halves(const trial *t, size_t *matched)
{
    const qci_piece *piece = piece_at(t, 0);
    double leg = inches(piece->cut[0]) - t->seam * (2 + sqrt(2));

    for (size_t i = 0; i < (size_t)t->unit->info.count; i++) {
        cloth drawing = unit_drawn(t->block, t->unit, i);

        *matched += fabs(leg * leg - area(&drawing.at[0])) < NEAR;
    }
    assert_int_equal(piece->count, 48 * t->unit->info.count);
}

static size_t match_unit(const trial *t)
{
    size_t matched = 0;

    if (t->unit->kind == QCI_UNIT_ROW) {
        try_row(t, &matched);
        return matched;
    }
    if (t->unit->kind == QCI_UNIT_HALVED) {
        try_halves(t, &matched);
        return matched;
    }
    for (size_t i = 0; i < (size_t)t->unit->info.count; i++) {
        cloth drawing = unit_drawn(t->block, t->unit, i), sewn;

        switch (t->made->method) {
        case QC_METHOD_FOUR_AT_A_TIME:
            sewn = sew_geese(t);
            break;
        case QC_METHOD_STITCH_AND_FLIP:
            sewn = sew_flipped(t, &drawing);
            break;
        default:
            sewn = sew_pair(t);
        }
        matched += are_same(&sewn, &drawing);
    }
    return matched;
}

/* What is cut finishes, all together, as the blocks do. */
static void check_area(const trial *t)
{
    double sum = 0, wanted = 0;

    for (size_t i = 0; i < t->job->piece_count; i++) {
        const qci_piece *piece = &t->job->pieces[i];

        if (piece->strip_set == QC_NONE)
            sum += (double)piece->finished_area * (double)piece->count;
    }
    for (size_t i = 0; i < t->job->set_count; i++) {
        const qci_set *set = &t->job->sets[i];
        cloth sewn = sew_row(t, set);

        if (strchr(t->unit->id, '/'))
            trim_half(t, &sewn);
        for (int k = 0; k < sewn.count; k++)
            sum += area(&sewn.at[k]) * (double)set->info.segments *
                   (double)QC_INCH * (double)QC_INCH;
    }
    wanted =
        24.0 * (double)t->block->info.width * (double)t->block->info.height;
    if (fabs(sum / wanted - 1) > 1e-5)
        fail_msg("%s, %s: %g of the blocks' area", t->block->info.name,
                 t->unit->id, sum / wanted);
}

static void try_method(const qc_block *block, size_t unit, qc_method method,
                       qc_length seam, qc_length trim)
{
    const qci_block_unit *info = &block->units[unit];
    qc_method_spec spec = {info->id, method, trim};
    trial t = {.block = block,
               .unit = info,
               .seam = inches(seam),
               .trim = trim == QC_DEFAULT ? 0 : inches(trim)};
    qc_job *job =
        job_of(block, block->info.name, block->info.width, seam, &spec);
    size_t matched;

    t.job = job;
    t.made = &job->made[0];
    assert_int_equal(job->made_count, 1);
    assert_int_equal(t.made->count, 24 * info->info.count);
    assert_int_equal(t.made->made, t.made->count);
    matched = match_unit(&t);
    if (matched != (size_t)info->info.count)
        fail_msg("%s, %s, %s, %g in: %zu of %d are as drawn", block->info.name,
                 info->id, qc_method_name(method), inches(block->info.width),
                 matched, (int)info->info.count);
    check_area(&t);
    qc_job_destroy(job);
}

static size_t try_block(const char *name, qc_length size)
{
    qc_block *block = NULL;
    qc_error err;
    size_t tried = 0;

    qc_error_init(&err);
    assert_int_equal(qc_block_find(name, size, &block, &err), QC_STATUS_OK);
    for (size_t i = 0; i < block->info.unit_count; i++)
        for (int m = 0; m < QC_METHOD_COUNT; m++) {
            bool trims = m != QC_METHOD_HALF_SQUARE_TRIANGLES;

            if (!(block->units[i].info.methods >> m & 1))
                continue;
            try_method(block, i, (qc_method)m, QC_INCH / 4, QC_DEFAULT);
            try_method(block, i, (qc_method)m, 6 * QC_MM,
                       trims ? QC_INCH / 8 : QC_DEFAULT);
            tried++;
        }
    qc_block_destroy(block);
    return tried;
}

static void methods_agree_with_the_drawing(void **state)
{
    const qc_block_drawing *drawing;
    size_t tried = 0;

    (void)state;
    for (size_t i = 0; (drawing = qc_block_builtin_at(i)); i++)
        for (int quarters = 16; quarters <= 60; quarters += 11)
            tried += try_block(drawing->name, quarters * QC_INCH / 4);
    /* Blocks that offer something, with all their methods, at 5 sizes. */
    assert_int_equal(tried % 5, 0);
    assert_true(tried / 5 >= 40);
}

/* The plan of a method, which the library has replayed, passes the check of its
 * JSON as well: squares, strips and segments fall out of bare cloth. */
static void plan_passes(const qc_block *block, const qc_block_unit *unit,
                        qc_method method, bool left_handed)
{
    const qc_method_spec spec = {
        unit->id, method,
        method == QC_METHOD_HALF_SQUARE_TRIANGLES ? QC_DEFAULT : QC_INCH / 8};
    const qc_block_summary *info = qc_block_describe(block);
    qc_job *job = job_of(block, info->name, info->width, QC_INCH / 4, &spec);
    qc_instructions *made = NULL;
    qc_solve_options options;
    qc_check *check = NULL;
    qc_plan *plan = NULL;
    char *json = NULL, *text = NULL;
    qc_error err;

    qc_error_init(&err);
    qc_solve_options_init(&options);
    options.time_limit_ms = 200;
    options.left_handed = left_handed;
    if (qc_job_solve(job, &options, &plan, &err) ||
        qc_plan_json(plan, &json, &err) || qc_plan_text(plan, &text, &err) ||
        qc_instructions_parse(json, strlen(json), &made, &err) ||
        qc_instructions_check(made, NULL, &check, &err))
        fail_msg("%s, %s: %s", info->name, unit->id, err.problem);
    if (!qc_check_is_clean(check))
        fail_msg("%s, %s: %s", info->name, unit->id,
                 qc_check_finding_at(check, 0)->text);
    assert_non_null(strstr(text, qc_method_name(method)));
    qc_check_destroy(check);
    qc_instructions_destroy(made);
    qc_text_destroy(text);
    qc_text_destroy(json);
    qc_plan_destroy(plan);
    qc_job_destroy(job);
}

static void plans_of_all_methods_pass(void **state)
{
    const qc_block_drawing *drawing;
    const qc_block_unit *unit;

    (void)state;
    for (size_t i = 0; (drawing = qc_block_builtin_at(i)); i++) {
        qc_block *block = NULL;
        qc_error err;

        qc_error_init(&err);
        assert_int_equal(qc_block_create(drawing, 6 * QC_INCH, &block, &err),
                         QC_STATUS_OK);
        for (size_t k = 0; (unit = qc_block_unit_at(block, k)); k++)
            for (int m = 0; m < QC_METHOD_COUNT; m++)
                if (unit->methods >> m & 1)
                    plan_passes(block, unit, (qc_method)m, (i + k) % 2);
        qc_block_destroy(block);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(methods_agree_with_the_drawing),
        cmocka_unit_test(plans_of_all_methods_pass),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
