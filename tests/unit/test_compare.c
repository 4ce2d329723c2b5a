/* One job at many sizes: the number of blocks, what they cover, the sums, the
 * ranks, and that each row is the single run. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>

#define SQ ((int64_t)QC_INCH * QC_INCH)

/* Nine patches and four patches of two fabrics, and a border on demand. */
typedef struct draft {
    qc_job_spec spec;
    qc_fabric_spec fabrics[2];
    qc_role_spec roles[3];
    qc_block_spec blocks[2];
    qc_piece_spec border;
} draft;

static void begin(draft *d)
{
    static const char *const ids[] = {"moss", "rain"};

    qc_job_spec_init(&d->spec, QC_UNITS_IN);
    for (int i = 0; i < 2; i++) {
        qc_fabric_spec_init(&d->fabrics[i]);
        d->fabrics[i].id = ids[i];
        d->fabrics[i].width = 40 * QC_INCH;
        d->fabrics[i].price = 100000;
        qc_block_spec_init(&d->blocks[i]);
        d->blocks[i].size = 6 * QC_INCH;
        d->blocks[i].fabrics = d->roles;
        d->blocks[i].fabric_count = 2;
    }
    d->roles[0] = (qc_role_spec){"dark", "moss"};
    d->roles[1] = (qc_role_spec){"light", "rain"};
    d->blocks[0].block = "nine patch";
    d->blocks[0].count = 20;
    d->blocks[1].block = "four patch";
    d->blocks[1].count = 10;
    qc_piece_spec_init(&d->border);
    d->border.id = "border";
    d->border.fabric = "moss";
    d->border.shape = QC_SHAPE_RECTANGLE;
    d->border.size[0] = 30 * QC_INCH;
    d->border.size[1] = 2 * QC_INCH;
    d->border.count = 4;
    d->spec.fabrics = d->fabrics;
    d->spec.fabric_count = 2;
    d->spec.blocks = d->blocks;
    d->spec.block_count = 2;
    d->spec.pieces = &d->border;
    d->spec.piece_count = 0;
    d->spec.time_limit_ms = 300000;
}

#define MOST 20

typedef struct kept {
    qc_compare_row rows[MOST];
    qc_quilt_size quilts[MOST];
    char *json[MOST];
    qc_status status[MOST];
    char field[MOST][128];
    size_t count;
} kept;

static void keep(const qc_compare_row *row, void *user)
{
    kept *all = user;
    size_t i = all->count++;

    assert_true(i < MOST);
    assert_int_equal(row->index, i);
    assert_true((row->plan != NULL) == (row->err->code == QC_STATUS_OK));
    all->rows[i] = *row;
    if (row->quilt)
        all->quilts[i] = *row->quilt;
    all->status[i] = row->err->code;
    memcpy(all->field[i], row->err->field, sizeof all->field[i]);
    if (row->plan)
        assert_int_equal(qc_plan_json(row->plan, &all->json[i], NULL),
                         QC_STATUS_OK);
}

static void forget(kept *all)
{
    for (size_t i = 0; i < all->count; i++)
        qc_text_destroy(all->json[i]);
    memset(all, 0, sizeof *all);
}

/* The plan of a row's job, made by hand and solved alone. */
static void expect_single(draft *d, const kept *all, size_t row, qc_length size,
                          int64_t first, int64_t second)
{
    qc_job *job = NULL;
    qc_plan *plan = NULL;
    char *json = NULL;

    d->blocks[0].size = d->blocks[1].size = size;
    d->blocks[0].count = first;
    d->blocks[1].count = second;
    assert_int_equal(qc_job_create(&d->spec, &job, NULL), QC_STATUS_OK);
    assert_int_equal(qc_job_solve(job, NULL, &plan, NULL), QC_STATUS_OK);
    assert_int_equal(qc_plan_json(plan, &json, NULL), QC_STATUS_OK);
    assert_int_equal(all->rows[row].blocks, first + second);
    assert_string_equal(all->json[row], json);
    qc_text_destroy(json);
    qc_plan_destroy(plan);
    qc_job_destroy(job);
}

/* 60 x 72 in: 10 x 12 blocks of 6 in, 9 x 11 of 7 in, 8 x 9 of 8 in. Two
 * thirds are nine patches: 80 and 40, 66 and 33, 48 and 24. */
static void blocks_cover_a_quilt(void **state)
{
    static const qc_length sizes[] = {6 * QC_INCH, 7 * QC_INCH, 8 * QC_INCH};
    static const qc_quilt_size quilt = {NULL, 60 * QC_INCH, 72 * QC_INCH};
    static const int32_t threads[] = {1, 2, 5};

    (void)state;
    for (size_t t = 0; t < 3; t++) {
        qc_compare_options options;
        qc_solve_options solve;
        kept all = {.count = 0};
        draft d;

        begin(&d);
        qc_solve_options_init(&solve);
        solve.threads = threads[t];
        qc_compare_options_init(&options);
        options.block_sizes = sizes;
        options.block_size_count = 3;
        options.quilt = &quilt;
        options.solve = &solve;
        assert_int_equal(qc_compare(&d.spec, &options, keep, &all, NULL),
                         QC_STATUS_OK);
        assert_int_equal(all.count, 3);
        expect_single(&d, &all, 0, sizes[0], 80, 40);
        expect_single(&d, &all, 1, sizes[1], 66, 33);
        expect_single(&d, &all, 2, sizes[2], 48, 24);
        assert_int_equal(all.rows[1].columns, 9);
        assert_int_equal(all.rows[1].rows, 11);
        assert_int_equal(all.rows[0].beyond, 0);
        assert_int_equal(all.rows[1].beyond, (63 * 77 - 60 * 72) * SQ);
        assert_int_equal(all.rows[2].beyond, (64 * 72 - 60 * 72) * SQ);
        forget(&all);
    }
}

/* Without a quilt each kind covers what it did: 20 and 10 blocks of 6 in are
 * 720 and 360 square inches; of 9 in that is 8.9 and 4.4 blocks, rounded up. */
static void blocks_cover_what_they_did(void **state)
{
    static const qc_length sizes[] = {9 * QC_INCH, 6 * QC_INCH};
    qc_compare_options options;
    kept all = {.count = 0};
    draft d;

    (void)state;
    begin(&d);
    qc_compare_options_init(&options);
    options.block_sizes = sizes;
    options.block_size_count = 2;
    assert_int_equal(qc_compare(&d.spec, &options, keep, &all, NULL),
                     QC_STATUS_OK);
    expect_single(&d, &all, 0, sizes[0], 9, 5);
    expect_single(&d, &all, 1, sizes[1], 20, 10);
    assert_null(all.rows[0].quilt);
    assert_int_equal(all.rows[0].columns, 0);
    assert_int_equal(all.rows[0].beyond, (14 * 81 - 30 * 36) * SQ);
    assert_int_equal(all.rows[1].beyond, 0);
    forget(&all);
}

/* Fifteen blocks shared 2 to 1 are 10 and 5; a single one is a nine patch, and
 * the other kind is left out. */
static void quilts_are_covered(void **state)
{
    static const qc_quilt_size quilts[] = {{"cot", 18 * QC_INCH, 26 * QC_INCH},
                                           {"doll", 5 * QC_INCH, 6 * QC_INCH}};
    qc_compare_options options;
    kept all = {.count = 0};
    draft d;

    (void)state;
    begin(&d);
    qc_compare_options_init(&options);
    options.quilts = quilts;
    options.quilt_count = 2;
    assert_int_equal(qc_compare(&d.spec, &options, keep, &all, NULL),
                     QC_STATUS_OK);
    assert_string_equal(all.quilts[1].name, "doll");
    assert_int_equal(all.rows[1].block_size, 6 * QC_INCH);
    assert_int_equal(all.rows[1].beyond, 6 * SQ);
    assert_false(all.rows[0].efficient || all.rows[1].efficient);
    expect_single(&d, &all, 0, 6 * QC_INCH, 10, 5);
    d.spec.block_count = 1;
    expect_single(&d, &all, 1, 6 * QC_INCH, 1, 0);
    forget(&all);
}

/* The sums are those of the plan, the ranks and marks what their definitions
 * say, reckoned the long way round. */
static void rows_are_ranked(void **state)
{
    qc_length sizes[MOST];
    qc_compare_options options;
    kept all = {.count = 0};
    size_t efficient = 0;
    draft d;

    (void)state;
    begin(&d);
    d.spec.time_limit_ms = 2000;
    for (int i = 0; i < MOST; i++)
        sizes[i] = 3 * QC_INCH + (i * 7 % MOST) * QC_INCH / 2;
    qc_compare_options_init(&options);
    options.block_sizes = sizes;
    options.block_size_count = MOST;
    assert_int_equal(qc_compare(&d.spec, &options, keep, &all, NULL),
                     QC_STATUS_OK);
    for (size_t i = 0; i < MOST; i++) {
        const qc_compare_row *a = &all.rows[i];
        uint32_t better = 0;
        bool beaten = false;

        assert_int_equal(a->cloth, a->area.finished + a->beyond +
                                       a->area.seams + a->area.leftover +
                                       a->area.scrap);
        assert_int_equal(a->cloth, a->bought * 40 * QC_INCH);
        assert_true(a->cost == a->bought * 100000 / QC_YARD);
        assert_true(a->setups > 1 && a->cuts > a->setups && a->blade > 0);
        for (size_t j = 0; j < MOST; j++) {
            const qc_compare_row *b = &all.rows[j];
            double waste_a = 1 - (double)a->area.finished / (double)a->cloth;
            double waste_b = 1 - (double)b->area.finished / (double)b->cloth;

            if (waste_b < waste_a - 1e-12)
                better++;
            if (b->cloth <= a->cloth && b->cuts <= a->cuts &&
                (b->cloth < a->cloth || b->cuts < a->cuts))
                beaten = true;
        }
        assert_true(a->rank > better);
        for (size_t j = 0; j < i; j++)
            assert_int_not_equal(a->rank, all.rows[j].rank);
        assert_int_equal(a->efficient, !beaten);
        efficient += a->efficient;
    }
    assert_true(efficient > 0 && efficient < MOST);
    forget(&all);
}

/* A patch of 41 1/2 in does not fit across 40 in; the others are planned. */
static void one_size_fails_alone(void **state)
{
    static const qc_length sizes[] = {6 * QC_INCH, 82 * QC_INCH};
    qc_compare_options options;
    kept all = {.count = 0};
    draft d;

    (void)state;
    begin(&d);
    d.spec.piece_count = 1; /* stays as it is */
    d.spec.time_limit_ms = 500;
    qc_compare_options_init(&options);
    options.block_sizes = sizes;
    options.block_size_count = 2;
    assert_int_equal(qc_compare(&d.spec, &options, keep, &all, NULL),
                     QC_STATUS_OK);
    assert_non_null(strstr(all.json[0], "\"border\""));
    assert_int_equal(all.rows[0].rank, 1);
    assert_int_equal(all.rows[1].rank, 0);
    assert_int_equal(all.status[1], QC_STATUS_IMPOSSIBLE);
    assert_non_null(strstr(all.field[1], "blocks["));
    forget(&all);
}

static void refuse(draft *d, const qc_compare_options *options,
                   const char *field)
{
    kept all = {.count = 0};
    qc_error err;

    qc_error_init(&err);
    assert_int_equal(qc_compare(&d->spec, options, keep, &all, &err),
                     QC_STATUS_INVALID);
    assert_string_equal(err.field, field);
    assert_true(err.problem[0]);
    assert_int_equal(all.count, 0);
}

static void wrong_questions_are_refused(void **state)
{
    static const qc_length sizes[] = {6 * QC_INCH, 0};
    static const qc_quilt_size quilts[] = {{"cot", QC_INCH, 0}};
    qc_compare_options options;
    draft d;

    (void)state;
    begin(&d);
    qc_compare_options_init(&options);
    refuse(&d, &options, "options");
    options.block_sizes = sizes;
    options.block_size_count = 2;
    refuse(&d, &options, "options.block_sizes");
    options.block_size_count = 1;
    options.quilt = quilts;
    refuse(&d, &options, "options.quilt");
    options.quilt = NULL;
    options.quilts = quilts;
    options.quilt_count = 1;
    refuse(&d, &options, "options");
    options.block_size_count = 0;
    refuse(&d, &options, "options.quilts");
    options.quilt_count = 0;
    options.block_size_count = QC_MAX_COMPARED + 1;
    refuse(&d, &options, "options");
    options.block_size_count = 1;
    d.fabrics[0].width = -7;
    refuse(&d, &options, "fabrics[0].width");
    begin(&d);
    d.spec.block_count = 0;
    refuse(&d, &options, "blocks");
    begin(&d);
    options.struct_size = 0;
    refuse(&d, &options, "options.struct_size");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(blocks_cover_a_quilt),
        cmocka_unit_test(blocks_cover_what_they_did),
        cmocka_unit_test(quilts_are_covered),
        cmocka_unit_test(rows_are_ranked),
        cmocka_unit_test(one_size_fails_alone),
        cmocka_unit_test(wrong_questions_are_refused),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
