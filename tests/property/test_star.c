/* The eight-pointed star at every finished block from 3 to 12 in, of two star
 * and two background fabrics, for both hands of the person who cuts: once of
 * whole diamonds, once of diamonds that are pieced of strip sets in pairs.
 *
 * What must come out is worked out here in whole numbers, apart from the
 * library. A block of q quarter inches has diamonds of side s = F / (2 + sqrt2)
 * (published: block = 3.4142 x side), corner squares of side s and edge
 * triangles whose long side is s x sqrt2. With a seam of 1/4 in and a ruler of
 * 1/8 in the cut sizes are, in eighths of an inch:
 *   height of the diamonds' strip: q (sqrt2 - 1) + 4, up
 *   corner square: q (2 - sqrt2) + 4, up
 *   square to cut twice for edges: 2 q (sqrt2 - 1) + 4 (1 + sqrt2), up
 *   strip of a diamond pieced of 2 x 2: q (sqrt2 - 1) / 2 + 4, up
 * n diamonds of height h take n h sqrt2 + h of the width, and so do n segments
 * of a set of two strips of width h (both follow from the geometry; the latter
 * is the published count). That the spacing equals the strip's height is common
 * practice, no source. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

#define BLOCKS 20
#define EIGHTH (QC_INCH / 8)
#define WIDTH 336 /* of the fabrics, in eighths: 42 in */
#define STEP 36   /* 1/8 yd */
#define SQUARE_UP 4
/* Never reached: what the clock ends need not be alike. */
#define LIMIT_MS 30000

/* The greatest whole number whose square is not above n. */
static int64_t root_of(int64_t n)
{
    int64_t root = 0;

    while ((root + 1) * (root + 1) <= n)
        root++;
    return root;
}

/* n x sqrt2, rounded down: for n > 0 never a whole number. */
static int64_t root2(int64_t n)
{
    return root_of(2 * n * n);
}

/* How many of height h, each h sqrt2 along the strip, fit beside one lean. */
static int64_t per_strip(int64_t h)
{
    int64_t n = 0;

    while (2 * h * h * (n + 1) * (n + 1) <= (WIDTH - h) * (WIDTH - h))
        n++;
    return n;
}

/* What is bought for so many strips of height h. */
static qc_length bought_for(int64_t strips, int64_t h)
{
    int64_t used = strips * h + SQUARE_UP;

    return (used + STEP - 1) / STEP * STEP * EIGHTH;
}

typedef struct star {
    int64_t q;       /* finished block, in quarter inches */
    int64_t diamond; /* height of the strip; these three in eighths */
    int64_t corner;
    int64_t edge;     /* square to cut twice */
    int64_t patch;    /* strip of a set */
    long double side; /* of a diamond, in inches */
} star;

static star star_of(int64_t q)
{
    /* sqrt2, to as many digits as a long double may hold. */
    const long double sqrt2 = 1.41421356237309504880L;

    return (star){.q = q,
                  .diamond = root2(q) + 1 - q + 4,
                  .corner = 2 * q - root2(q) + 4,
                  .edge = root2(2 * q + 4) + 1 - 2 * q + 4,
                  .patch = (root2(q) - q) / 2 + 1 + 4,
                  .side = (long double)q / 4 / (2 + sqrt2)};
}

static const char fabrics[] =
    "\"fabrics\": [{\"id\": \"ebb\", \"width\": \"42\"},"
    "{\"id\": \"flood\", \"width\": \"42\"},"
    "{\"id\": \"mist\", \"width\": \"42\"},"
    "{\"id\": \"foam\", \"width\": \"42\"}]";

/* Half of the blocks have a background of each fabric. */
static int write_background(char *to, size_t size, const star *s)
{
    const double edge = (double)(s->side * 1.41421356237309504880L);
    int at = 0;

    for (int i = 0; i < 2; i++) {
        const char *id = i ? "foam" : "mist";

        at += snprintf(
            to + at, size - (size_t)at,
            "%s{\"id\": \"%s corner\", \"fabric\": \"%s\", \"shape\": "
            "\"square\", \"finished\": \"%.6f\", \"count\": %d},"
            "{\"id\": \"%s edge\", \"fabric\": \"%s\", \"shape\": "
            "\"quarter-square triangle\", \"finished\": \"%.6f\", \"count\": "
            "%d}",
            i ? "," : "", id, id, (double)s->side, 2 * BLOCKS, id, id, edge,
            2 * BLOCKS);
    }
    return at;
}

/* Four diamonds of each star fabric in a block. */
static void write_whole(char *to, size_t size, const star *s)
{
    int at = snprintf(to, size, "{\"quiltcut\": 1, %s, \"pieces\": [", fabrics);

    for (int i = 0; i < 2; i++)
        at += snprintf(to + at, size - (size_t)at,
                       "{\"id\": \"ray %d\", \"fabric\": \"%s\", \"shape\": "
                       "\"diamond\", \"angle\": 45, \"finished\": \"%.6f\", "
                       "\"count\": %d},",
                       i + 1, i ? "flood" : "ebb", (double)s->side, 4 * BLOCKS);
    at += write_background(to + at, size - (size_t)at, s);
    snprintf(to + at, size - (size_t)at, "]}");
}

/* Sixteen segments for the eight diamonds of a block, half of each hand. The
 * strips finish half as wide as the diamond is high. */
static void write_pieced(char *to, size_t size, const star *s)
{
    double finished = (double)(s->side / 1.41421356237309504880L / 2);
    int at = snprintf(
        to, size,
        "{\"quiltcut\": 1, %s, \"strip_sets\": [{\"id\": \"S\", \"strips\": ["
        "{\"fabric\": \"ebb\", \"finished\": \"%.6f\"},"
        "{\"fabric\": \"flood\", \"finished\": \"%.6f\"}], \"angle\": 45,"
        "\"hand\": \"pairs\", \"segments\": %d}], \"pieces\": [",
        fabrics, finished, finished, 8 * BLOCKS);

    at += write_background(to + at, size - (size_t)at, s);
    snprintf(to + at, size - (size_t)at, "]}");
}

/* Comes back replayed, or not at all. */
static qc_plan *solve(const char *text, bool left_handed)
{
    qc_solve_options options;
    qc_job *job = NULL;
    qc_plan *plan = NULL;
    qc_error err;

    qc_error_init(&err);
    qc_solve_options_init(&options);
    options.left_handed = left_handed;
    options.time_limit_ms = LIMIT_MS;
    options.threads = 1;
    if (qc_job_parse(text, strlen(text), &job, &err) ||
        qc_job_solve(job, &options, &plan, &err))
        fail_msg("%s: %s\n%s", err.field, err.problem, text);
    qc_job_destroy(job);
    return plan;
}

static const qc_plan_piece *piece_called(const qc_plan *plan, const char *id)
{
    for (size_t i = 0; i < qc_plan_piece_count(plan); i++)
        if (strcmp(qc_plan_piece_at(plan, i)->id, id) == 0)
            return qc_plan_piece_at(plan, i);
    return NULL;
}

static void check_fabrics(const qc_plan *plan)
{
    assert_int_equal(qc_plan_fabric_count(plan), 4);
    for (size_t i = 0; i < 4; i++) {
        const qc_plan_fabric *f = qc_plan_fabric_at(plan, i);

        assert_int_equal(qc_plan_level_at(plan, i, 0)->goal, QC_GOAL_BOUGHT);
        assert_int_equal(f->outcome, QC_OUTCOME_OPTIMAL);
        assert_int_equal(f->bound, f->bought);
        assert_true(f->bought <= f->hand_method);
    }
}

/* Squares of at least the size that lies in the corners and edges, none more.
 */
static void check_background(const qc_plan *plan, const star *s)
{
    static const char *const ids[2][2] = {{"mist corner", "mist edge"},
                                          {"foam corner", "foam edge"}};

    for (int i = 0; i < 2; i++) {
        const qc_plan_piece *corner = piece_called(plan, ids[i][0]);
        const qc_plan_piece *edge = piece_called(plan, ids[i][1]);

        assert_int_equal(corner->cut[0], s->corner * EIGHTH);
        assert_int_equal(corner->count, 2 * BLOCKS);
        assert_int_equal(edge->cut[0], s->edge * EIGHTH);
        assert_true(edge->count >= 2 * BLOCKS && edge->count < 2 * BLOCKS + 4);
    }
}

/* Diamonds lie in strips of their height, every cut at 45 degrees. */
static void check_whole(const qc_plan *plan, const star *s)
{
    int64_t n = per_strip(s->diamond);
    qc_length height = s->diamond * EIGHTH;

    check_fabrics(plan);
    check_background(plan, s);
    for (size_t f = 0; f < 2; f++) {
        const qc_plan_piece *ray = piece_called(plan, f ? "ray 2" : "ray 1");

        assert_int_equal(ray->count, 4 * BLOCKS);
        assert_int_equal(ray->cut[0], height);
        assert_int_equal(ray->cut[1], height);
        assert_int_equal(qc_plan_fabric_at(plan, f)->bought,
                         bought_for((4 * BLOCKS + n - 1) / n, s->diamond));
        for (size_t i = 0; i < qc_plan_fabric_at(plan, f)->strip_count; i++) {
            const qc_strip *strip = qc_plan_strip_at(plan, f, i);

            assert_int_equal(strip->height, height);
            for (size_t k = 0; k < strip->subcut_count; k++) {
                const qc_subcut *cut = &strip->subcuts[k];

                assert_true(cut->count <= n);
                assert_int_equal(cut->lean[0], cut->lean[1]);
                assert_true(cut->lean[0] == height || cut->lean[0] == -height);
            }
        }
    }
}

static void check_set(const qc_plan *plan, size_t index, const star *s)
{
    const qc_plan_set *set = qc_plan_set_at(plan, index);
    int64_t n = per_strip(s->patch);
    bool right = set->hand == QC_HAND_RIGHT;

    assert_string_equal(set->id, right ? "S right" : "S left");
    assert_int_equal(set->segments, 8 * BLOCKS);
    assert_int_equal(set->spacing, s->patch * EIGHTH);
    assert_int_equal(set->per_set, n);
    assert_int_equal(set->sets, 8 * BLOCKS / n);
    assert_int_equal(set->part_segments, 8 * BLOCKS % n);
    /* Seen from the worked end. */
    assert_int_equal(set->lean > 0, right != qc_plan_left_handed(plan));
    /* The stagger that wastes least is the finished width. */
    assert_int_equal(qc_plan_set_strip_at(plan, index, 1)->offset,
                     (set->lean > 0 ? 1 : -1) * (s->patch - 4) * EIGHTH);
}

/* Strips of a set are as long as the set; nothing fits beside a full one, and
 * the last ones of both hands fit one strip where they are short enough. */
static void check_pieced(const qc_plan *plan, const star *s)
{
    const qc_plan_set *set = qc_plan_set_at(plan, 0);
    int64_t strips = 2 * set->sets;

    check_fabrics(plan);
    check_background(plan, s);
    assert_int_equal(qc_plan_set_count(plan), 2);
    check_set(plan, 0, s);
    check_set(plan, 1, s);
    assert_true(set->hand != qc_plan_set_at(plan, 1)->hand);
    if (set->part_segments)
        strips += 2 * set->part_length <= WIDTH * EIGHTH ? 1 : 2;
    for (size_t f = 0; f < 2; f++) {
        assert_int_equal(qc_plan_fabric_at(plan, f)->bought,
                         bought_for(strips, s->patch));
        for (size_t i = 0; i < qc_plan_fabric_at(plan, f)->strip_count; i++)
            assert_int_equal(qc_plan_strip_at(plan, f, i)->height,
                             s->patch * EIGHTH);
    }
}

/* Told from the worked end, strips are the same for both hands: the star's
 * pieces are their own mirror images, or square. */
static void check_strips(const qc_plan *right, const qc_plan *left,
                         size_t fabric)
{
    const qc_plan_fabric *f = qc_plan_fabric_at(right, fabric);

    assert_int_equal(f->bought, qc_plan_fabric_at(left, fabric)->bought);
    assert_int_equal(f->cuts, qc_plan_fabric_at(left, fabric)->cuts);
    assert_int_equal(f->strip_count,
                     qc_plan_fabric_at(left, fabric)->strip_count);
    for (size_t i = 0; i < f->strip_count; i++) {
        const qc_strip *a = qc_plan_strip_at(right, fabric, i);
        const qc_strip *b = qc_plan_strip_at(left, fabric, i);

        assert_int_equal(a->height, b->height);
        assert_int_equal(a->repeat, b->repeat);
        assert_int_equal(a->subcut_count, b->subcut_count);
        for (size_t k = 0; k < a->subcut_count; k++) {
            assert_int_equal(a->subcuts[k].count, b->subcuts[k].count);
            assert_int_equal(a->subcuts[k].lean[0], b->subcuts[k].lean[0]);
            assert_int_equal(a->subcuts[k].lean[1], b->subcuts[k].lean[1]);
        }
    }
}

/* All that falls out is the same, whichever hand cuts. */
static void check_hands(const qc_plan *right, const qc_plan *left)
{
    assert_false(qc_plan_left_handed(right));
    assert_true(qc_plan_left_handed(left));
    assert_int_equal(qc_plan_piece_count(right), qc_plan_piece_count(left));
    for (size_t i = 0; i < qc_plan_piece_count(right); i++) {
        const qc_plan_piece *a = qc_plan_piece_at(right, i);
        const qc_plan_piece *b = qc_plan_piece_at(left, i);

        assert_string_equal(a->id, b->id);
        assert_int_equal(a->count, b->count);
        assert_int_equal(a->hand, b->hand);
        assert_int_equal(a->cut[0], b->cut[0]);
        assert_int_equal(a->cut[1], b->cut[1]);
    }
    for (size_t i = 0; i < qc_plan_fabric_count(right); i++)
        check_strips(right, left, i);
    for (size_t i = 0; i < qc_plan_set_count(right); i++) {
        assert_int_equal(qc_plan_set_at(right, i)->hand,
                         qc_plan_set_at(left, i)->hand);
        assert_int_equal(qc_plan_set_at(right, i)->segments,
                         qc_plan_set_at(left, i)->segments);
    }
}

typedef void writer(char *to, size_t size, const star *s);
typedef void checker(const qc_plan *plan, const star *s);

static void check_star(int64_t q, writer *write, checker *check)
{
    const star s = star_of(q);
    char text[2400];
    qc_plan *right, *left;

    write(text, sizeof text, &s);
    right = solve(text, false);
    left = solve(text, true);
    check(right, &s);
    check(left, &s);
    check_hands(right, left);
    qc_plan_destroy(right);
    qc_plan_destroy(left);
}

/* problem.md's two: 1 3/4 in for a block of 6 in, 3 in for one of 12. */
static void the_formula_gives_the_known_heights(void **state)
{
    (void)state;
    assert_int_equal(star_of(24).diamond, 14);
    assert_int_equal(star_of(48).diamond, 24);
}

static void whole_diamonds_at_every_quarter_inch(void **state)
{
    (void)state;
    for (int64_t q = 12; q <= 48; q++)
        check_star(q, write_whole, check_whole);
}

static void pieced_diamonds_at_every_quarter_inch(void **state)
{
    (void)state;
    for (int64_t q = 12; q <= 48; q++)
        check_star(q, write_pieced, check_pieced);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_formula_gives_the_known_heights),
        cmocka_unit_test(whole_diamonds_at_every_quarter_inch),
        cmocka_unit_test(pieced_diamonds_at_every_quarter_inch),
    };

    return cmocka_run_group_tests_name("star", tests, NULL, NULL);
}
