/* Every public call that allocates, with its n-th allocation failing, for
 * n = 1, 2, ... until it succeeds: the status is NO_MEMORY each time, nothing
 * is handed out, and nothing is left behind. Both our own allocations and those
 * of the JSON library are failed; what GLPK allocates is failed by its memory
 * cap.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/quiltcut.h>
#ifdef QC_TEST_DRAW
#include <quiltcut/draw.h>
#endif

#include "alloc_texts.h"
#include "base/alloc.h"
#include "fail_each.h"
#include "mip/guard.h"

/* What the calls under test work on, made while nothing fails. */
static qc_job *job, *dense, *angled;
static qc_plan *plan, *angled_plan, *dense_plan;
static qc_instructions *steps;
static qc_check *checked;
static char *expected, *certificate;

static qc_status create_job(void **out, qc_error *err)
{
    qc_fabric_spec fabric;
    qc_piece_spec piece;
    qc_job_spec spec;

    qc_job_spec_init(&spec, QC_UNITS_IN);
    qc_fabric_spec_init(&fabric);
    qc_piece_spec_init(&piece);
    fabric.id = "a";
    fabric.name = "Blue";
    fabric.width = 40 * QC_INCH;
    piece.id = "A";
    piece.fabric = "a";
    piece.shape = QC_SHAPE_SQUARE;
    piece.size[0] = 3 * QC_INCH;
    piece.count = 7;
    spec.title = "Scrap tray";
    spec.fabrics = &fabric;
    spec.fabric_count = 1;
    spec.pieces = &piece;
    spec.piece_count = 1;
    return qc_job_create(&spec, (qc_job **)out, err);
}

static qc_status parse_job(void **out, qc_error *err)
{
    return qc_job_parse(job_text, strlen(job_text), (qc_job **)out, err);
}

static qc_status create_block(void **out, qc_error *err)
{
    return qc_block_create(qc_block_builtin_at(0), QC_INCH, (qc_block **)out,
                           err);
}

/* With more groups than one allocation holds. */
static qc_status find_block(void **out, qc_error *err)
{
    return qc_block_find("log cabin", QC_INCH, (qc_block **)out, err);
}

static void destroy_block(void *made)
{
    qc_block_destroy(made);
}

static qc_status parse_angled(void **out, qc_error *err)
{
    return qc_job_parse(angled_text, strlen(angled_text), (qc_job **)out, err);
}

static qc_status parse_methods(void **out, qc_error *err)
{
    return qc_job_parse(methods_text, strlen(methods_text), (qc_job **)out,
                        err);
}

static qc_status parse_drawn(void **out, qc_error *err)
{
    return qc_job_parse(drawn_text, strlen(drawn_text), (qc_job **)out, err);
}

static void destroy_job(void *made)
{
    qc_job_destroy(made);
}

/* On one thread, so that the n-th allocation is the same each time. */
static qc_status solve_one(const qc_job *which, void **out, qc_error *err)
{
    qc_solve_options options;

    qc_solve_options_init(&options);
    options.threads = 1;
    options.time_limit_ms = 60000;
    return qc_job_solve(which, &options, (qc_plan **)out, err);
}

static qc_status solve_job(void **out, qc_error *err)
{
    return solve_one(job, out, err);
}

static qc_status solve_dense(void **out, qc_error *err)
{
    return solve_one(dense, out, err);
}

static qc_status solve_angled(void **out, qc_error *err)
{
    return solve_one(angled, out, err);
}

static void destroy_plan(void *made)
{
    qc_plan_destroy(made);
}

/* What became of two jobs, and the first error. */
typedef struct gathered {
    qc_plan *plans[2];
    qc_error err;
} gathered;

static void gather(size_t index, qc_plan *made, const qc_error *err, void *user)
{
    gathered *all = user;

    all->plans[index] = made;
    if (err->code && !all->err.code)
        all->err = *err;
}

static qc_status solve_batch(void **out, qc_error *err)
{
    const qc_job *jobs[] = {job, job};
    gathered all = {{NULL, NULL}, {.code = QC_STATUS_OK}};
    qc_solve_options options;
    qc_status st;

    qc_solve_options_init(&options);
    options.threads = 1;
    options.time_limit_ms = 60000;
    st = qc_batch_solve(jobs, 2, &options, gather, &all, err);
    if (!st && all.err.code) {
        *err = all.err;
        st = err->code;
    }
    qc_plan_destroy(all.plans[0]);
    *out = all.plans[1];
    if (st) {
        qc_plan_destroy(all.plans[1]);
        *out = NULL;
    }
    return st;
}

static qc_status parse_draft(void **out, qc_error *err)
{
    return qc_job_draft_parse(job_text, strlen(job_text), (qc_job_draft **)out,
                              err);
}

static void destroy_draft(void *made)
{
    assert_int_equal(qc_job_draft_spec(made)->piece_count, 3);
    qc_job_draft_destroy(made);
}

static void count_rows(const qc_compare_row *row, void *user)
{
    *(size_t *)user += row->rank > 0;
}

/* Four patches at two sizes; what is handed out is a count. */
static qc_status compare(void **out, qc_error *err)
{
    static const qc_length sizes[] = {4 * QC_INCH, 5 * QC_INCH};
    static const qc_role_spec roles[] = {{"dark", "a"}, {"light", "a"}};
    static size_t rows;
    qc_compare_options options;
    qc_solve_options solve;
    qc_fabric_spec fabric;
    qc_block_spec block;
    qc_job_spec spec;
    qc_status st;

    qc_job_spec_init(&spec, QC_UNITS_IN);
    qc_fabric_spec_init(&fabric);
    qc_block_spec_init(&block);
    fabric.id = "a";
    block.block = "four patch";
    block.size = 4 * QC_INCH;
    block.count = 5;
    block.fabrics = roles;
    block.fabric_count = 2;
    spec.fabrics = &fabric;
    spec.fabric_count = 1;
    spec.blocks = &block;
    spec.block_count = 1;
    qc_solve_options_init(&solve);
    solve.threads = 1;
    qc_compare_options_init(&options);
    options.block_sizes = sizes;
    options.block_size_count = 2;
    options.solve = &solve;
    rows = 0;
    st = qc_compare(&spec, &options, count_rows, &rows, err);
    *out = st ? NULL : &rows;
    assert_int_equal(rows, st ? 0 : 2);
    return st;
}

static void count_pieces(const qc_chart_row *row, void *user)
{
    *(size_t *)user += row->strip > 0;
}

/* Four patches at two sizes, and their plans with the finest ruler. */
static qc_status chart(void **out, qc_error *err)
{
    static size_t rows;
    qc_chart_options options;
    qc_solve_options solve;
    qc_status st;

    qc_solve_options_init(&solve);
    solve.threads = 1;
    qc_chart_options_init(&options, QC_UNITS_IN);
    options.block = "four patch";
    options.from = 4 * QC_INCH;
    options.to = 5 * QC_INCH;
    options.solve = &solve;
    rows = 0;
    st = qc_chart(&options, count_pieces, &rows, err);
    *out = st ? NULL : &rows;
    assert_int_equal(rows, st ? 0 : 4);
    return st;
}

static qc_status write_text(void **out, qc_error *err)
{
    return qc_plan_text(plan, (char **)out, err);
}

static qc_status write_json(void **out, qc_error *err)
{
    return qc_plan_json(plan, (char **)out, err);
}

static qc_status json_to_json(void **out, qc_error *err)
{
    return qc_json_plan(job_text, strlen(job_text), (char **)out, err);
}

static qc_status parse_steps(void **out, qc_error *err)
{
    return qc_instructions_parse(steps_text, strlen(steps_text),
                                 (qc_instructions **)out, err);
}

static qc_status parse_table(void **out, qc_error *err)
{
    static const char rows[] = "fabric,cut width,cut length,count,piece\n"
                               "a,2,3,40,A\n\"b \"\"c\"\"\",4,5,6,\n";

    return qc_instructions_parse_table(rows, sizeof rows - 1, QC_UNITS_IN,
                                       (qc_instructions **)out, err);
}

static void destroy_steps(void *made)
{
    qc_instructions_destroy(made);
}

static qc_status check_steps(void **out, qc_error *err)
{
    qc_check_options options;

    qc_check_options_init(&options);
    options.skip_optimum = true;
    return qc_instructions_check(steps, &options, (qc_check **)out, err);
}

static void destroy_check(void *made)
{
    qc_check_destroy(made);
}

static qc_status write_check_text(void **out, qc_error *err)
{
    return qc_check_text(checked, (char **)out, err);
}

static qc_status write_check_json(void **out, qc_error *err)
{
    return qc_check_json(checked, (char **)out, err);
}

static qc_status steps_to_check(void **out, qc_error *err)
{
    return qc_json_check(steps_text, strlen(steps_text), (char **)out, err);
}

static qc_status write_certificate(void **out, qc_error *err)
{
    return qc_plan_certificate(angled_plan, (char **)out, err);
}

static qc_status write_dense_certificate(void **out, qc_error *err)
{
    return qc_plan_certificate(dense_plan, (char **)out, err);
}

static qc_status check_certificate(void **out, qc_error *err)
{
    qc_verdict verdict;
    qc_status st = qc_certificate_check(certificate, strlen(certificate),
                                        &verdict, (char **)out, err);

    assert_true(st || verdict == QC_VERDICT_PROVED);
    return st;
}

static void destroy_text(void *made)
{
    qc_text_destroy(made);
}

static qc_status create_cancel(void **out, qc_error *err)
{
    *out = qc_cancel_create();
    if (*out)
        return QC_STATUS_OK;
    err->code = QC_STATUS_NO_MEMORY; /* this call has no error record */
    return QC_STATUS_NO_MEMORY;
}

static void destroy_cancel(void *made)
{
    qc_cancel_destroy(made);
}

static int make_things(void **state)
{
    (void)state;
    take_json_allocations();
    return parse_job((void **)&job, NULL) ||
           qc_job_parse(dense_text, strlen(dense_text), &dense, NULL) ||
           parse_angled((void **)&angled, NULL) ||
           parse_steps((void **)&steps, NULL) ||
           check_steps((void **)&checked, NULL) ||
           solve_job((void **)&plan, NULL) ||
           solve_angled((void **)&angled_plan, NULL) ||
           solve_dense((void **)&dense_plan, NULL) ||
           write_dense_certificate((void **)&certificate, NULL) ||
           write_json((void **)&expected, NULL);
}

static int destroy_things(void **state)
{
    (void)state;
    qc_text_destroy(expected);
    qc_text_destroy(certificate);
    qc_plan_destroy(dense_plan);
    qc_plan_destroy(angled_plan);
    qc_plan_destroy(plan);
    qc_check_destroy(checked);
    qc_instructions_destroy(steps);
    qc_job_destroy(angled);
    qc_job_destroy(dense);
    qc_job_destroy(job);
    return !nothing_is_live();
}

static void creating_a_job(void **state)
{
    (void)state;
    assert_true(fail_each(create_job, destroy_job, false, false, 1) > 3);
    assert_true(fail_each(create_job, destroy_job, false, true, 1) > 3);
}

static void making_a_block(void **state)
{
    (void)state;
    assert_true(fail_each(create_block, destroy_block, false, false, 1) > 7);
    assert_true(fail_each(find_block, destroy_block, false, true, 1) > 8);
}

static void parsing_a_job(void **state)
{
    (void)state;
    assert_true(fail_each(parse_job, destroy_job, false, false, 1) > 3);
    assert_true(fail_each(parse_job, destroy_job, true, false, 1) > 20);
    assert_true(fail_each(parse_angled, destroy_job, false, false, 1) > 40);
    assert_true(fail_each(parse_drawn, destroy_job, false, false, 1) > 20);
    assert_true(fail_each(parse_methods, destroy_job, false, false, 1) > 60);
    /* No text of this one is longer than 15 bytes: where more room for a text
     * fails, the JSON library reads on behind it. */
    assert_true(fail_each(parse_angled, destroy_job, true, false, 1) > 60);
    assert_true(fail_each(parse_drawn, destroy_job, true, false, 1) > 20);
}

static void creating_a_cancel_flag(void **state)
{
    (void)state;
    assert_int_equal(fail_each(create_cancel, destroy_cancel, false, false, 1),
                     1);
}

static void solving(void **state)
{
    void *made;
    char *again;

    (void)state;
    assert_true(fail_each(solve_job, destroy_plan, false, false, 1) > 100);
    /* Having failed so often has not changed what it finds. */
    assert_int_equal(solve_job(&made, NULL), QC_STATUS_OK);
    assert_int_equal(qc_plan_json(made, &again, NULL), QC_STATUS_OK);
    assert_string_equal(again, expected);
    qc_text_destroy(again);
    qc_plan_destroy(made);
}

static void solving_what_is_hard(void **state)
{
    (void)state;
    assert_true(fail_each(solve_dense, destroy_plan, false, false, 379) > 30);
}

static void solving_what_is_angled(void **state)
{
    (void)state;
    assert_true(fail_each(solve_angled, destroy_plan, false, false, 1) > 100);
}

static void solving_when_memory_stays_out(void **state)
{
    (void)state;
    assert_true(fail_each(solve_job, destroy_plan, false, true, 7) > 10);
}

static void solving_a_batch(void **state)
{
    (void)state;
    assert_true(fail_each(solve_batch, destroy_plan, false, false, 61) > 10);
    assert_true(fail_each(solve_batch, destroy_plan, false, true, 197) > 4);
}

static void keep(void *made)
{
    (void)made;
}

static void comparing(void **state)
{
    (void)state;
    assert_true(fail_each(parse_draft, destroy_draft, false, false, 1) > 2);
    assert_true(fail_each(parse_draft, destroy_draft, true, false, 1) > 20);
    assert_true(fail_each(compare, keep, false, false, 7) > 20);
    assert_true(fail_each(chart, keep, false, false, 7) > 20);
}

static void writing_a_plan(void **state)
{
    (void)state;
    assert_true(fail_each(write_text, destroy_text, false, false, 1) > 0);
    assert_true(fail_each(write_json, destroy_text, false, false, 1) > 0);
    fail_each(write_json, destroy_text, true, false, 1);
}

static void checking_instructions(void **state)
{
    (void)state;
    assert_true(fail_each(parse_steps, destroy_steps, false, false, 1) > 10);
    assert_true(fail_each(parse_steps, destroy_steps, false, true, 1) > 10);
    assert_true(fail_each(parse_steps, destroy_steps, true, false, 1) > 20);
    assert_true(fail_each(parse_table, destroy_steps, false, false, 1) > 30);
    assert_true(fail_each(parse_table, destroy_steps, false, true, 1) > 30);
    assert_true(fail_each(check_steps, destroy_check, false, false, 1) > 50);
    assert_true(fail_each(check_steps, destroy_check, false, true, 1) > 50);
    assert_true(fail_each(write_check_text, destroy_text, false, false, 1) > 0);
    assert_true(fail_each(write_check_json, destroy_text, false, false, 1) > 0);
    assert_true(fail_each(steps_to_check, destroy_text, false, false, 41) > 5);
}

static void certifying(void **state)
{
    (void)state;
    assert_true(fail_each(write_certificate, destroy_text, false, false, 1) >
                5);
    fail_each(write_dense_certificate, destroy_text, false, false, 1);
    assert_true(fail_each(check_certificate, destroy_text, false, false, 1) >
                10);
    assert_true(fail_each(check_certificate, destroy_text, true, false, 1) >
                20);
}

static void json_in_json_out(void **state)
{
    (void)state;
    assert_true(fail_each(json_to_json, destroy_text, false, false, 13) > 10);
    assert_true(fail_each(json_to_json, destroy_text, true, false, 5) > 4);
}

#ifdef QC_TEST_DRAW
static int swallow(const void *bytes, size_t size, void *user)
{
    (void)bytes;
    *(size_t *)user += size;
    return 0;
}

/* The drawing is handed out as it is written, so its result is its size. */
static qc_status draw_plan(void **out, qc_error *err)
{
    size_t size = 0;
    qc_status st = qc_plan_draw(plan, 0, QC_DRAW_SVG, swallow, &size, err);

    *out = st ? NULL : &job;
    assert_true(st || size > 100);
    return st;
}

static qc_status draw_set(void **out, qc_error *err)
{
    size_t size = 0;
    qc_status st =
        qc_plan_draw_set(angled_plan, 0, QC_DRAW_SVG, swallow, &size, err);

    *out = st ? NULL : &job;
    assert_true(st || size > 100);
    return st;
}

static qc_status draw_blocks(void **out, qc_error *err)
{
    qc_block *block;
    size_t size = 0;
    qc_status st = find_block((void **)&block, err);

    if (!st)
        st = qc_block_draw((const qc_block *const *)&block, 1, QC_DRAW_SVG,
                           swallow, &size, err);
    qc_block_destroy(block);
    *out = st ? NULL : &job;
    return st;
}

static qc_status draw_rows(void **out, qc_error *err)
{
    const qc_compare_row row = {.block_size = QC_INCH,
                                .bought = QC_YARD,
                                .cloth = 100,
                                .area = {50, 20, 20, 10},
                                .rank = 1};
    size_t size = 0;
    qc_status st = qc_compare_draw(&row, 1, "Tray", QC_UNITS_IN, QC_DRAW_SVG,
                                   swallow, &size, err);

    *out = st ? NULL : &job;
    assert_true(st || size > 100);
    return st;
}

static qc_status draw_chart(void **out, qc_error *err)
{
    const qc_chart_row row = {.size = QC_INCH,
                              .piece = "tray A",
                              .fabric = "rim",
                              .first_of_size = true};
    qc_block *block;
    size_t size = 0;
    qc_status st = find_block((void **)&block, err);

    if (!st)
        st = qc_chart_draw(&row, 1, block, "Tray", QC_UNITS_IN, QC_DRAW_PDF,
                           swallow, &size, err);
    qc_block_destroy(block);
    *out = st ? NULL : &job;
    assert_true(st || size > 100);
    return st;
}

static void drawing_a_plan(void **state)
{
    (void)state;
    assert_true(fail_each(draw_rows, keep, false, false, 1) > 0);
    assert_true(fail_each(draw_chart, keep, false, false, 1) > 0);
    assert_true(fail_each(draw_plan, keep, false, false, 1) > 0);
    assert_true(fail_each(draw_set, keep, false, false, 1) > 0);
    assert_true(fail_each(draw_blocks, keep, false, false, 1) > 0);
}
#endif

/* GLPK out of memory: a status, and the next solve is sound again. */
static void solving_under_a_memory_cap(void **state)
{
    static char text[32768];
    char *out;
    qc_error err;
    qc_status st;
    long live = qci_alloc_live();
    size_t used;

    /* Enough sizes that the solver needs more than a megabyte. */
    (void)state;
    used = (size_t)sprintf(text, "{\"quiltcut\": 1, \"fabrics\": [{\"id\": "
                                 "\"a\", \"width\": \"42\"}], \"pieces\": [");
    for (int i = 0; i < 180; i++)
        used += (size_t)sprintf(
            text + used,
            "%s{\"id\": \"P%d\", \"fabric\": \"a\", \"shape\": \"rectangle\","
            "\"cut\": [\"%d.5\", \"%d.25\"], \"count\": %d}",
            i ? "," : "", i, 2 + i % 9, 1 + i / 9, 10 + 7 * i % 300);
    used += (size_t)sprintf(text + used, "]}");
    qci_mip_test_memory_cap(1);
    qc_error_init(&err);
    st = qc_json_plan(text, used, &out, &err);
    qci_mip_test_memory_cap(0);
    assert_int_equal(st, QC_STATUS_NO_MEMORY);
    assert_int_equal(err.code, QC_STATUS_NO_MEMORY);
    assert_null(out);
    assert_int_equal(qci_alloc_live(), live);
    assert_int_equal(qc_json_plan(job_text, strlen(job_text), &out, NULL),
                     QC_STATUS_OK);
    assert_string_equal(out, expected);
    qc_text_destroy(out);
}

/* Calls that allocate nothing: they are made while every allocation fails. */
static void calls_that_need_no_memory(void **state)
{
    qc_instructions_spec list;
    qc_instruction_spec step;
    qc_instructions *none = NULL;
    qc_check_options how;
    qc_solve_options options;
    qc_strip_set_spec set;
    qc_block_spec blocks;
    qc_fabric_spec fabric;
    qc_piece_spec piece;
    qc_job_spec spec;
    qc_length length;
    qc_cancel *cancel;
    qc_block *block;
    qc_error err;
    char text[64];

    (void)state;
    assert_int_equal(find_block((void **)&block, NULL), QC_STATUS_OK);
    cancel = qc_cancel_create();
    assert_non_null(cancel);
    fail_at(false, 1, true);
    qc_cancel_raise(cancel);
    qc_error_init(&err);
    qc_job_spec_init(&spec, QC_UNITS_IN);
    qc_fabric_spec_init(&fabric);
    qc_piece_spec_init(&piece);
    qc_strip_set_spec_init(&set);
    qc_block_spec_init(&blocks);
    qc_solve_options_init(&options);
    qc_instructions_spec_init(&list);
    assert_int_equal(qc_instructions_create(&list, &none, NULL),
                     QC_STATUS_INVALID);
    qc_instruction_spec_init(&step);
    qc_check_options_init(&how);
    assert_int_equal(qc_check_fabric_count(checked), 3);
    assert_non_null(qc_check_fabric_at(checked, 0));
    assert_int_equal(qc_check_finding_count(checked), 12);
    assert_non_null(qc_check_finding_at(checked, 0));
    assert_false(qc_check_is_clean(checked));
    assert_non_null(qc_check_width_at(checked, 0, 0));
    assert_string_equal(qc_check_title(checked), "Scrap tray");
    assert_int_equal(qc_check_units(checked), QC_UNITS_IN);
    qc_length_parse("2 1/2", QC_UNITS_IN, QC_PARSE_EXACT, &length, &err);
    qc_length_format(length, QC_UNITS_IN, text, sizeof text);
    qc_length_format_purchase(length, QC_UNITS_IN, text, sizeof text);
    assert_true(qc_length_value(length, QC_UNITS_IN) > 2.4);
    qc_error_format(&err, NULL, text, sizeof text);
    assert_non_null(qc_status_text(QC_STATUS_OK));
    assert_non_null(qc_version());
    assert_non_null(qc_schema_text("job"));
    assert_non_null(qc_block_builtin_at(0));
    assert_non_null(qc_block_describe(block));
    assert_non_null(qc_block_role_at(block, 0));
    assert_non_null(qc_block_patch_at(block, 0));
    assert_non_null(qc_block_group_at(block, 0));
    qc_block_unit_at(block, 0);
    assert_non_null(qc_method_name(QC_METHOD_STRIP_SET));
    assert_non_null(qc_shape_name(QC_SHAPE_KITE));
    qc_block_destroy(block);
    qc_cancel_destroy(cancel);
    qc_job_destroy(NULL);
    qc_plan_destroy(NULL);
    qc_text_destroy(NULL);
    assert_int_equal(qc_plan_fabric_count(angled_plan), 1);
    assert_non_null(qc_plan_fabric_at(angled_plan, 0));
    assert_non_null(qc_plan_level_at(angled_plan, 0, 0));
    assert_non_null(qc_plan_strip_at(angled_plan, 0, 0));
    qc_plan_leftover_at(angled_plan, 0, 0);
    assert_true(qc_plan_piece_count(angled_plan) > 1);
    assert_non_null(qc_plan_piece_at(angled_plan, 0));
    assert_int_equal(qc_plan_block_count(angled_plan), 2);
    assert_non_null(qc_plan_block_at(angled_plan, 0));
    assert_int_equal(qc_plan_unit_count(angled_plan), 1);
    assert_non_null(qc_plan_unit_at(angled_plan, 0));
    assert_int_equal(qc_plan_set_count(angled_plan), 1);
    assert_non_null(qc_plan_set_at(angled_plan, 0));
    assert_non_null(qc_plan_set_strip_at(angled_plan, 0, 0));
    assert_true(qc_plan_step_count(angled_plan) > 1);
    assert_non_null(qc_plan_step_at(angled_plan, 0));
    assert_true(qc_plan_default_count(angled_plan) > 0);
    assert_non_null(qc_plan_default_at(angled_plan, 0));
    assert_false(qc_plan_left_handed(angled_plan));
    qc_plan_outcome(angled_plan);
    qc_plan_title(angled_plan);
    qc_plan_units(angled_plan);
    assert_int_equal(qci_alloc_count(), 0);
    fail_at(false, 0, false);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(creating_a_job),
        cmocka_unit_test(making_a_block),
        cmocka_unit_test(parsing_a_job),
        cmocka_unit_test(creating_a_cancel_flag),
        cmocka_unit_test(solving),
        cmocka_unit_test(solving_what_is_hard),
        cmocka_unit_test(solving_what_is_angled),
        cmocka_unit_test(solving_when_memory_stays_out),
        cmocka_unit_test(solving_a_batch),
        cmocka_unit_test(comparing),
        cmocka_unit_test(writing_a_plan),
        cmocka_unit_test(checking_instructions),
        cmocka_unit_test(certifying),
        cmocka_unit_test(json_in_json_out),
#ifdef QC_TEST_DRAW
        cmocka_unit_test(drawing_a_plan),
#endif
        cmocka_unit_test(calls_that_need_no_memory),
        cmocka_unit_test(solving_under_a_memory_cap),
    };

    return cmocka_run_group_tests(tests, make_things, destroy_things);
}
