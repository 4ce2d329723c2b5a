/* Methods for the units of blocks in a job: the pieces and strip sets that come
 * of them, what is left to be cut patch by patch, and what is refused. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/block.h>

#include "job/job.h"

#define COUNT(list) (sizeof(list) / sizeof *(list))

typedef struct draft {
    qc_fabric_spec fabrics[2];
    qc_role_spec roles[8];
    qc_block_spec block;
    qc_job_spec spec;
    qc_error err;
    qc_block *known; /* owns the roles' names */
    qc_job *job;
} draft;

/* Blocks of 12 in; the first role of one fabric, the others of another. */
static void begin(draft *d, const char *name, int64_t count,
                  const qc_method_spec *methods, size_t method_count)
{
    memset(d, 0, sizeof *d);
    qc_error_init(&d->err);
    qc_job_spec_init(&d->spec, QC_UNITS_IN);
    qc_block_spec_init(&d->block);
    for (int i = 0; i < 2; i++) {
        qc_fabric_spec_init(&d->fabrics[i]);
        d->fabrics[i].id = i ? "sand" : "night";
        d->fabrics[i].width = 42 * QC_INCH;
    }
    assert_int_equal(qc_block_find(name, QC_INCH, &d->known, &d->err), 0);
    while ((d->roles[d->block.fabric_count].role =
                qc_block_role_at(d->known, d->block.fabric_count))) {
        d->roles[d->block.fabric_count].fabric =
            d->block.fabric_count ? "sand" : "night";
        d->block.fabric_count++;
    }
    d->block.block = name;
    d->block.size = 12 * QC_INCH;
    d->block.count = count;
    d->block.fabrics = d->roles;
    d->block.methods = methods;
    d->block.method_count = method_count;
    d->spec.fabrics = d->fabrics;
    d->spec.fabric_count = 2;
    d->spec.blocks = &d->block;
    d->spec.block_count = 1;
}

static void create(draft *d)
{
    if (qc_job_create(&d->spec, &d->job, &d->err))
        fail_msg("%s: %s", d->err.field, d->err.problem);
}

static void end(draft *d)
{
    qc_block_destroy(d->known);
    qc_job_destroy(d->job);
}

static void refused(draft *d, qc_status status, const char *field,
                    const char *problem)
{
    assert_int_equal(qc_job_create(&d->spec, &d->job, &d->err), status);
    assert_null(d->job);
    assert_string_equal(d->err.field, field);
    if (problem)
        assert_string_equal(d->err.problem, problem);
}

static const qci_piece *find(const qc_job *job, const char *id)
{
    for (size_t i = 0; i < job->piece_count; i++)
        if (!strcmp(job->pieces[i].id, id))
            return &job->pieces[i];
    fail_msg("no piece %s", id);
    return NULL;
}

/* 3 blocks take 12 units: 6 pairs of squares, or 2 of eight, which give 16. */
static void surplus_is_told(void **state)
{
    static const qc_method_spec two = {"A+B", QC_METHOD_TWO_AT_A_TIME,
                                       QC_DEFAULT};
    static const qc_method_spec eight = {NULL, QC_METHOD_EIGHT_AT_A_TIME,
                                         QC_DEFAULT};
    draft d;

    (void)state;
    begin(&d, "pinwheel", 3, &two, 1);
    create(&d);
    assert_int_equal(d.job->piece_count, 2);
    assert_int_equal(find(d.job, "pinwheel A of A+B")->count, 6);
    assert_int_equal(find(d.job, "pinwheel B of A+B")->fabric, 1);
    assert_string_equal(find(d.job, "pinwheel B of A+B")->role, "light");
    assert_int_equal(find(d.job, "pinwheel A of A+B")->unit, 0);
    assert_int_equal(d.job->made_count, 1);
    assert_int_equal(d.job->made[0].count, 12);
    assert_int_equal(d.job->made[0].made, 12);
    assert_int_equal(d.job->made[0].trim_to[0], 13 * QC_INCH / 2);
    end(&d);
    begin(&d, "pinwheel", 3, &eight, 1);
    create(&d);
    assert_int_equal(find(d.job, "pinwheel A of A+B")->count, 2);
    assert_int_equal(d.job->made[0].count, 12);
    assert_int_equal(d.job->made[0].made, 16);
    end(&d);
}

/* Spares are units: 12 and 5 are 17, so 9 pairs instead of 6. */
static void spares_are_units(void **state)
{
    static const qc_method_spec two = {NULL, QC_METHOD_TWO_AT_A_TIME,
                                       QC_DEFAULT};
    static const qc_method_spec sets = {NULL, QC_METHOD_STRIP_SET, QC_DEFAULT};
    draft d;

    (void)state;
    begin(&d, "pinwheel", 3, &two, 1);
    d.spec.spare_count = 5;
    create(&d);
    assert_int_equal(find(d.job, "pinwheel A of A+B")->count, 9);
    assert_int_equal(find(d.job, "pinwheel A of A+B")->spares, 3);
    assert_int_equal(d.job->made[0].made, 18);
    end(&d);
    begin(&d, "nine patch", 3, &sets, 1);
    d.spec.spare_percent = 1000; /* of 6 one, of 3 one */
    create(&d);
    assert_int_equal(d.job->sets[0].info.segments, 7);
    assert_int_equal(d.job->sets[1].info.segments, 4);
    end(&d);
}

/* Six birds and three patches of air: three units, and three birds are left. */
static void the_rest_is_cut_singly(void **state)
{
    static const qc_method_spec two = {NULL, QC_METHOD_TWO_AT_A_TIME,
                                       QC_DEFAULT};
    draft d;

    (void)state;
    begin(&d, "birds in the air", 4, &two, 1);
    create(&d);
    assert_int_equal(d.job->piece_count, 4);
    assert_int_equal(find(d.job, "birds in the air B of B+C")->count, 6);
    assert_int_equal(find(d.job, "birds in the air C of B+C")->count, 6);
    assert_int_equal(find(d.job, "birds in the air B")->count, 12);
    assert_int_equal(find(d.job, "birds in the air B")->in_each, 3);
    assert_int_equal(find(d.job, "birds in the air B")->shape,
                     QC_SHAPE_HALF_SQUARE_TRIANGLE);
    assert_int_equal(find(d.job, "birds in the air B")->unit, QC_NONE);
    assert_int_equal(find(d.job, "birds in the air A")->count, 4);
    end(&d);
}

/* The star three ways; the second leaves its triangles whole, the third cuts
 * them in two as well. */
static void the_star_three_ways(void **state)
{
    static const qc_method_spec methods[] = {
        {NULL, QC_METHOD_STRIP_SET, QC_INCH / 8},
        {NULL, QC_METHOD_HALF_SQUARE_TRIANGLES, QC_DEFAULT}};
    draft d;

    (void)state;
    begin(&d, "eight-pointed star", 5, NULL, 0);
    create(&d);
    assert_int_equal(d.job->piece_count, 3);
    assert_int_equal(d.job->set_count, 0);
    end(&d);

    begin(&d, "eight-pointed star", 5, methods, 1);
    create(&d);
    assert_int_equal(d.job->set_count, 2);
    assert_int_equal(d.job->sets[0].info.segments, 20);
    assert_int_equal(d.job->sets[1].info.segments, 20);
    assert_string_equal(d.job->sets[0].info.id,
                        "eight-pointed star A+1/2B right");
    /* 3 in without the trim. */
    assert_int_equal(d.job->sets[0].info.spacing, 25 * QC_INCH / 8);
    assert_int_equal(d.job->sets[0].strips[0].width, 25 * QC_INCH / 8);
    assert_int_equal(find(d.job, "eight-pointed star C")->count, 20);
    assert_int_equal(d.job->made_count, 1);
    end(&d);

    begin(&d, "eight-pointed star", 5, methods + 1, 1);
    create(&d);
    assert_int_equal(d.job->set_count, 0);
    assert_int_equal(find(d.job, "eight-pointed star A")->count, 40);
    assert_int_equal(find(d.job, "eight-pointed star B halves")->count, 40);
    assert_int_equal(find(d.job, "eight-pointed star C halves")->count, 40);
    assert_int_equal(find(d.job, "eight-pointed star C halves")->in_each, 8);
    assert_int_equal(d.job->made_count, 2);
    end(&d);

    /* Both: the squares are in the strips already. */
    begin(&d, "eight-pointed star", 5, methods, 2);
    create(&d);
    assert_int_equal(d.job->set_count, 2);
    assert_int_equal(d.job->made_count, 2);
    assert_string_equal(d.job->made[1].id, "C");
    assert_int_equal(find(d.job, "eight-pointed star C halves")->count, 40);
    end(&d);
}

/* Only the outer strips of a row are cut higher for the trim. */
static void inner_strips_are_exact(void **state)
{
    static const qc_method_spec sets = {NULL, QC_METHOD_STRIP_SET, QC_INCH / 4};
    draft d;

    (void)state;
    begin(&d, "nine patch", 3, &sets, 1);
    create(&d);
    assert_int_equal(d.job->sets[0].strips[0].width, 19 * QC_INCH / 4);
    assert_int_equal(d.job->sets[0].strips[1].width, 9 * QC_INCH / 2);
    assert_int_equal(d.job->sets[0].strips[2].width, 19 * QC_INCH / 4);
    assert_int_equal(d.job->sets[0].info.spacing, 19 * QC_INCH / 4);
    assert_int_equal(d.job->made[0].trim_to[0], 9 * QC_INCH / 2);
    assert_int_equal(d.job->made[0].trim_to[1], 25 * QC_INCH / 2);
    assert_int_equal(d.job->made[0].outer[0], 17 * QC_INCH / 4);
    end(&d);
}

static void what_is_wrong_has_its_place(void **state)
{
    static const struct {
        const char *block, *field, *problem, *allowed;
        qc_method_spec methods[2];
    } rows[] = {
        {"nine patch",
         "blocks[0].methods[0].method",
         "is not for this block: it has no patches that could be made so",
         "strip set",
         {{NULL, QC_METHOD_TWO_AT_A_TIME, QC_DEFAULT}}},
        {"ohio star",
         "blocks[0].methods[0].method",
         "is not for this block: it has no patches that could be made so",
         "no methods: each patch of this block is cut by itself",
         {{NULL, QC_METHOD_STRIP_SET, QC_DEFAULT}}},
        {"pinwheel",
         "blocks[0].methods[0].unit",
         "is no unit of this block; did you mean A+B?",
         "A+B",
         {{"A+C", QC_METHOD_TWO_AT_A_TIME, QC_DEFAULT}}},
        {"ohio star",
         "blocks[0].methods[0].unit",
         "is no unit of this block",
         "left out",
         {{"A+C", QC_METHOD_TWO_AT_A_TIME, QC_DEFAULT}}},
        {"pinwheel",
         "blocks[0].methods[0].method",
         "is not for unit A+B, which is a square of two triangles",
         "two at a time or eight at a time",
         {{"A+B", QC_METHOD_FOUR_AT_A_TIME, QC_DEFAULT}}},
        {"pinwheel",
         "blocks[0].methods[1].unit",
         "has patches that methods[0] takes already",
         "each patch by one method",
         {{"A+B", QC_METHOD_TWO_AT_A_TIME, QC_DEFAULT},
          {"A+B", QC_METHOD_EIGHT_AT_A_TIME, QC_DEFAULT}}},
        {"pinwheel",
         "blocks[0].methods[1].method",
         "finds no unit whose patches the methods before leave",
         "each patch by one method",
         {{"A+B", QC_METHOD_TWO_AT_A_TIME, QC_DEFAULT},
          {NULL, QC_METHOD_EIGHT_AT_A_TIME, QC_DEFAULT}}},
        {"pinwheel",
         "blocks[0].methods[0].trim",
         "is negative",
         "0 to 1 m",
         {{"A+B", QC_METHOD_TWO_AT_A_TIME, -2}}},
        {"pinwheel",
         "blocks[0].methods[0].method",
         "is no method",
         "two at a time or eight at a time",
         {{"A+B", (qc_method)QC_METHOD_COUNT, QC_DEFAULT}}},
        {"eight-pointed star",
         "blocks[0].methods[0].trim",
         "is not for this method: nothing is trimmed after it",
         "left out",
         {{"C", QC_METHOD_HALF_SQUARE_TRIANGLES, QC_INCH / 8}}},
    };

    (void)state;
    for (size_t i = 0; i < COUNT(rows); i++) {
        draft d;
        size_t count = strstr(rows[i].field, "[1]") ? 2 : 1;

        begin(&d, rows[i].block, 3, rows[i].methods, count);
        refused(&d, QC_STATUS_INVALID, rows[i].field, rows[i].problem);
        assert_string_equal(d.err.allowed, rows[i].allowed);
        end(&d);
    }
}

static void limits_are_kept(void **state)
{
    static qc_method_spec many[QC_MAX_METHODS + 1];
    static const qc_method_spec set = {NULL, QC_METHOD_STRIP_SET, QC_DEFAULT};
    draft d;

    (void)state;
    begin(&d, "pinwheel", 3, many, COUNT(many));
    refused(&d, QC_STATUS_INVALID, "blocks[0].methods",
            "has more than 40 entries");
    end(&d);
    /* A segment is longer than the fabric is wide. */
    begin(&d, "four patch", 3, &set, 1);
    d.block.size = 90 * QC_INCH;
    refused(&d, QC_STATUS_IMPOSSIBLE, "blocks[0].methods[0]", NULL);
    end(&d);
    begin(&d, "pinwheel", 100000000, many, 1);
    d.spec.spare_count = 700000000;
    refused(&d, QC_STATUS_INVALID, "blocks[0].count",
            "makes more than 1000000000 units");
    end(&d);
}

/* Whatever the method, what shows of the cloth is the blocks, to a millionth.
 */
static void what_shows_is_the_block(const char *name, qc_method method)
{
    const qc_method_spec spec = {NULL, method, QC_DEFAULT};
    const qc_block_summary *block;
    double shown = 0, wanted;
    draft d;

    begin(&d, name, 8, &spec, 1);
    create(&d);
    for (size_t i = 0; i < d.job->piece_count; i++)
        shown += (double)d.job->pieces[i].finished_area *
                 (double)d.job->pieces[i].count;
    block = qc_block_describe(d.known);
    wanted = 8.0 * 144 * QC_INCH * QC_INCH * (double)block->height /
             (double)block->width;
    if (fabs(shown / wanted - 1) > 1e-6)
        fail_msg("%s, %s: %.9f of the block shows", name,
                 qc_method_name(method), shown / wanted);
    end(&d);
}

static void methods_show_as_much(void **state)
{
    const qc_block_drawing *drawing;
    int methods = 0;

    (void)state;
    for (size_t i = 0; (drawing = qc_block_builtin_at(i)); i++) {
        uint32_t offered = 0;
        const qc_block_unit *unit;
        qc_block *block;

        assert_int_equal(qc_block_find(drawing->name, QC_INCH, &block, NULL),
                         0);
        for (size_t k = 0; (unit = qc_block_unit_at(block, k)); k++)
            offered |= unit->methods;
        qc_block_destroy(block);
        for (int method = 0; method < QC_METHOD_COUNT; method++)
            if (offered & UINT32_C(1) << method) {
                what_shows_is_the_block(drawing->name, (qc_method)method);
                methods++;
            }
    }
    assert_true(methods > 30);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(surplus_is_told),
        cmocka_unit_test(spares_are_units),
        cmocka_unit_test(the_rest_is_cut_singly),
        cmocka_unit_test(the_star_three_ways),
        cmocka_unit_test(inner_strips_are_exact),
        cmocka_unit_test(what_is_wrong_has_its_place),
        cmocka_unit_test(limits_are_kept),
        cmocka_unit_test(methods_show_as_much),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
