/* Certificates of random jobs: every proved length has one, the checker takes
 * it, and changing any number in it leaves a true proof or none.
 *
 * Whether a changed certificate that is still accepted speaks the truth is
 * asked of the packing: no plan that it finds may buy less than the certificate
 * says. Where only the argument was changed and not what it is about, the truth
 * is the same as before.
 *
 * The first seed is printed; QC_SEED sets it, QC_JOBS how many jobs. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "base/clock.h"
#include "base/gcd.h"
#include "mini.h"
#include "mip/mip.h"
#include "mixed_job.h"
#include "pack/pack.h"
#include "json/certificate.h"

#define LIMIT_MS 1500
#define LONG_MS 60000
#define TRUTH_MS 200
#define CHANGES 60 /* numbers changed in a certificate, at most */
#define MOST_FORMS 256
#define MOST_KINDS 32

static uint64_t first_seed = 20261128;
static uint64_t jobs = 25;
static long proved, unproved, missing, changed, accepted, packed;
static long exact_lengths, stacks_that_fill, slants, questions;
static mini_random dice;

static qc_plan *solve_within(const char *text, size_t size, int32_t limit_ms)
{
    qc_solve_options options;
    qc_plan *plan = NULL;
    qc_job *job = NULL;

    if (qc_job_parse(text, size, &job, NULL))
        return NULL; /* a job that cannot be is not what is tested here */
    qc_solve_options_init(&options);
    options.time_limit_ms = limit_ms;
    assert_int_equal(qc_job_solve(job, &options, &plan, NULL), 0);
    qc_job_destroy(job);
    return plan;
}

static qc_plan *solve(const char *text, size_t size)
{
    return solve_within(text, size, LIMIT_MS);
}

static qc_verdict check(const char *text, qc_status *status)
{
    qc_verdict verdict = QC_VERDICT_REFUSED;
    char *report = NULL;

    *status = qc_certificate_check(text, strlen(text), &verdict, &report, NULL);
    assert_true(*status == QC_STATUS_OK || *status == QC_STATUS_INVALID);
    assert_int_equal(report != NULL, *status == QC_STATUS_OK);
    qc_text_destroy(report);
    return verdict;
}

/* --- is a certificate true? ---------------------------------------------- */

typedef struct asked {
    qci_demand demand;
    int32_t row_of[QCI_PROOF_LIST]; /* per kind; -1: none of it is wanted */
    int64_t count[MOST_KINDS];
    int32_t twin[MOST_KINDS];
    uint32_t piece[MOST_KINDS];
    qci_form forms[MOST_FORMS];
    qc_goal goal;
} asked;

static bool is_there(const asked *a, const qci_form *form)
{
    for (size_t i = 0; i < a->demand.form_count; i++) {
        const qci_form *f = &a->forms[i];

        if (f->row == form->row && f->width == form->width &&
            f->height == form->height && f->left == form->left &&
            f->right == form->right && f->yields == form->yields)
            return true;
    }
    return false;
}

/* A row's forms, which stand together; what all of them yield is a multiple of
 * the result, 0 when there are none. */
static int64_t take_row(asked *a, const qci_proof *proof, int32_t row)
{
    int64_t step = 0;

    for (size_t i = 0; i < proof->forms.count; i++) {
        const qci_proof_form *f = &proof->forms.at[i];
        qci_form form = {.row = row,
                         .width = f->width,
                         .height = f->height,
                         .left = f->left,
                         .right = f->right,
                         .yields = (int32_t)f->yields,
                         .corners = f->outline};

        if (a->row_of[f->kind] != row || qci_form_room(&form) > proof->width)
            continue;
        step = qci_gcd(step, f->yields);
        if (!is_there(a, &form))
            a->forms[a->demand.form_count++] = form;
    }
    return step;
}

/* False when some kind cannot be cut at all: then any length is too short. */
static bool take_forms(asked *a, const qci_proof *proof)
{
    for (size_t row = 0; row < a->demand.row_count; row++) {
        int64_t step = take_row(a, proof, (int32_t)row);

        if (!step)
            return false;
        a->count[row] = (a->count[row] + step - 1) / step * step;
    }
    return true;
}

static void take_pieces(asked *a, const qci_proof *proof)
{
    memset(a->row_of, -1, sizeof a->row_of);
    for (size_t i = 0; i < proof->pieces.count; i++) {
        int32_t *row = &a->row_of[proof->pieces.at[i].kind];

        if (*row < 0)
            *row = (int32_t)a->demand.row_count++;
        assert_true(*row < MOST_KINDS);
        a->count[*row] += proof->pieces.at[i].count;
        a->twin[*row] = *row;
    }
}

static bool ask(asked *a, const qci_proof *proof)
{
    memset(a, 0, sizeof *a);
    assert_true(proof->forms.count <= MOST_FORMS);
    a->demand = (qci_demand){.width = proof->width,
                             .count = a->count,
                             .twin = a->twin,
                             .piece = a->piece,
                             .forms = a->forms,
                             .stacks = proof->stacks,
                             .trim = proof->trim,
                             .square_up = proof->square_up,
                             .purchase = {proof->step, (int32_t)proof->shrink},
                             .keep = proof->width,
                             .ruler = proof->width,
                             .layers = 1,
                             .goals = &a->goal,
                             .goal_count = 1};
    take_pieces(a, proof);
    return take_forms(a, proof);
}

/* The packing is over once its own bound says what the proof says; a plan that
 * needs less it has found by then, or there is none. */
typedef struct hunt {
    const qci_proof *proof;
    bool over;
} hunt;

static void see_bound(qc_length bought, qc_length bound, void *user)
{
    hunt *h = user;

    (void)bought;
    h->over = !h->proof->used && bound >= h->proof->bought;
}

static bool is_over(void *user)
{
    return ((hunt *)user)->over;
}

static bool is_true(const qci_proof *proof)
{
    hunt h = {proof, false};
    qci_watch watch = {.deadline_ms = qci_clock_ms() + TRUTH_MS,
                       .cancelled = is_over,
                       .progress = see_bound,
                       .user = &h};
    qci_packing *packing = NULL;
    static asked a;
    bool answer = true;
    qc_status status;

    if (!ask(&a, proof))
        return true;
    a.goal = proof->used ? QC_GOAL_USED : QC_GOAL_BOUGHT;
    status = qci_pack(&a.demand, &watch, &packing, NULL);
    assert_true(status == QC_STATUS_OK || status == QC_STATUS_INVALID);
    if (packing)
        answer =
            packing->bought >= proof->bought && packing->used >= proof->used;
    packed += packing != NULL;
    qci_packing_destroy(packing);
    return answer;
}

/* --- changing numbers ---------------------------------------------------- */

static bool is_number_start(const char *text, const char *at)
{
    return (*at == '-' || (*at >= '0' && *at <= '9')) && at > text &&
           strchr(" [", at[-1]);
}

static int64_t changed_number(int64_t old)
{
    switch (mini_between(&dice, 0, 7)) {
    case 0:
        return old + 1;
    case 1:
        return old - 1;
    case 2:
        return 2 * old;
    case 3:
        return old / 2;
    case 4:
        return -old;
    case 5:
        return 0;
    case 6:
        return old + old / 20 + 1;
    default:
        return old - old / 20 - 1;
    }
}

/* `text` up to what the proof argues with: the same demand, the same claim. */
static bool same_claim(const char *a, const char *b)
{
    size_t n = (size_t)(strstr(a, "\"heights\"") - a);

    return strncmp(a, b, n) == 0;
}

static void judge_change(const char *before, const char *text, uint64_t seed)
{
    qci_certificate read = {.title = NULL};
    qc_status status;

    changed++;
    if (check(text, &status) != QC_VERDICT_PROVED || status)
        return;
    accepted++;
    if (same_claim(before, text))
        return;
    assert_int_equal(qci_certificate_read(text, strlen(text), &read, NULL), 0);
    for (size_t i = 0; i < read.proofs.count; i++)
        if (!is_true(&read.proofs.at[i]))
            fail_msg("seed %llu: accepted, yet not true:\n%s",
                     (unsigned long long)seed, text);
    qci_certificate_clear(&read);
}

static void change_numbers(const char *text, uint64_t seed)
{
    static char other[1 << 20];
    long numbers = 0, every;

    for (const char *at = text; *at; at++)
        numbers += is_number_start(text, at);
    every = numbers / CHANGES + 1;
    numbers = 0;
    for (const char *at = text; *at; at++) {
        char *end;
        int64_t old;

        if (!is_number_start(text, at) || numbers++ % every)
            continue;
        old = strtoll(at, &end, 10);
        snprintf(other, sizeof other, "%.*s%lld%s", (int)(at - text), text,
                 (long long)changed_number(old), end);
        judge_change(text, other, seed);
    }
}

/* --- the jobs ------------------------------------------------------------ */

static bool all_proved(const qc_plan *plan)
{
    for (size_t i = 0; i < qc_plan_fabric_count(plan); i++) {
        const qc_plan_fabric *fabric = qc_plan_fabric_at(plan, i);

        if (fabric->bound < fabric->bought)
            return false;
    }
    return true;
}

/* So that every sort of certificate is seen to be among them. */
static void count_sorts(const char *text)
{
    exact_lengths += strstr(text, "\"used\"") != NULL;
    stacks_that_fill +=
        strstr(text, "\"stacks\": true, \"trim\": false") ||
        strstr(text, "\"stacks\": true,\n      \"trim\": false");
    slants += strstr(text, "\"outline\": true") != NULL;
    questions += strstr(text, "\"most\"") != NULL;
}

static void try_job(const char *text, uint64_t seed)
{
    qc_plan *plan = solve(text, strlen(text));
    char *certificate = NULL;
    qc_verdict verdict;
    qc_status status;

    if (!plan)
        return;
    assert_int_equal(qc_plan_certificate(plan, &certificate, NULL), 0);
    verdict = check(certificate, &status);
    assert_int_equal(status, QC_STATUS_OK);
    assert_int_not_equal(verdict, QC_VERDICT_REFUSED);
    if (!all_proved(plan)) {
        unproved++;
        assert_int_equal(verdict, QC_VERDICT_PARTLY);
        assert_true(strstr(certificate, "not proved minimal") ||
                    strstr(certificate, "its first goal is "));
    } else if (verdict == QC_VERDICT_PARTLY) {
        missing++;
        printf("seed %llu: no certificate\n", (unsigned long long)seed);
    } else {
        proved++;
        count_sorts(certificate);
        change_numbers(certificate, seed);
    }
    qc_text_destroy(certificate);
    qc_plan_destroy(plan);
}

static void report(const char *what)
{
    printf(
        "%s: %ld proved and certified, %ld proved without a certificate, "
        "%ld not proved; %ld numbers changed, %ld accepted, %ld packed\n"
        "of exact lengths %ld, with stacks that fill %ld, with outlines %ld, "
        "with questions %ld\n",
        what, proved, missing, unproved, changed, accepted, packed,
        exact_lengths, stacks_that_fill, slants, questions);
    assert_true(proved > 0);
    assert_true(missing * 20 <= proved);
    assert_true(accepted * 2 < changed && accepted > 0);
    proved = unproved = missing = changed = accepted = packed = 0;
}

static void mixed_jobs(void **state)
{
    static char text[6000];
    mixed_job job;

    (void)state;
    for (uint64_t i = 0; i < jobs; i++) {
        mixed_make(&job, first_seed + i, 1);
        mixed_write(&job, 0, text, sizeof text);
        try_job(text, first_seed + i);
    }
    report("mixed jobs");
    if (jobs >= 25)
        assert_true(exact_lengths && stacks_that_fill && slants && questions);
}

/* Rectangles that must not be trimmed or turned, as in the classic problem, or
 * may; few enough to be proved at once, and tight, so that the search branches.
 */
static void write_rectangles(char *text, size_t size, mini_random *r)
{
    bool flat = mini_between(r, 0, 1), exact = mini_between(r, 0, 1);
    int kinds = (int)mini_between(r, 2, 7);
    size_t used;

    used = (size_t)snprintf(
        text, size,
        "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"a\", \"width\": \"%d\", "
        "\"print\": \"%s\", \"step\": \"%s\"}], \"options\": {\"stages\": %d, "
        "\"trim\": %s, \"objective\": [\"bought\"%s]}, \"pieces\": [",
        (int)mini_between(r, 15, 25), flat ? "one-way" : "plain",
        exact ? "4 1/2" : "1/2", flat ? 2 : 3,
        mini_between(r, 0, 2) ? "true" : "false", exact ? ", \"used\"" : "");
    for (int i = 0; i < kinds; i++)
        used += (size_t)snprintf(
            text + used, size - used,
            "%s{\"id\": \"p%d\", \"fabric\": \"a\", \"shape\": \"rectangle\", "
            "\"cut\": [%.2f, %.2f], \"count\": %d}",
            i ? ", " : "", i, (double)mini_between(r, 6, 30) / 4,
            (double)mini_between(r, 6, 24) / 4, (int)mini_between(r, 2, 25));
    snprintf(text + used, size - used, "]}");
}

static void rectangles(void **state)
{
    static char text[3000];

    (void)state;
    for (uint64_t i = 0; i < jobs; i++) {
        mini_random r = {first_seed + i};

        write_rectangles(text, sizeof text, &r);
        try_job(text, first_seed + i);
    }
    report("rectangles");
}

/* One to a strip; so many sizes on so wide a cloth that the checker's tables
 * would be too large if they counted in the sizes' own measure. */
static void many_sizes_on_wide_cloth(void **state)
{
    static char text[32000];
    size_t used;
    char *certificate;
    qc_status status;
    qc_plan *plan;

    (void)state;
    used = (size_t)snprintf(
        text, sizeof text,
        "{\"quiltcut\": 1, \"units\": \"mm\", \"ruler\": \"1\", \"fabrics\": "
        "[{\"id\": \"a\", \"width\": \"10000\", \"print\": \"one-way\"}], "
        "\"options\": {\"stages\": 2, \"objective\": [\"used\"]}, \"pieces\": "
        "[");
    for (int i = 0; i < 240; i++)
        used += (size_t)snprintf(
            text + used, sizeof text - used,
            "%s{\"id\": \"p%d\", \"fabric\": \"a\", \"shape\": \"rectangle\", "
            "\"cut\": [%d, 100], \"count\": 1}",
            i ? ", " : "", i, 5001 + 5 * i);
    snprintf(text + used, sizeof text - used, "]}");
    plan = solve(text, strlen(text));
    assert_non_null(plan);
    assert_true(all_proved(plan));
    assert_int_equal(qc_plan_certificate(plan, &certificate, NULL), 0);
    assert_int_equal(check(certificate, &status), QC_VERDICT_PROVED);
    assert_int_equal(status, QC_STATUS_OK);
    qc_text_destroy(certificate);
    qc_plan_destroy(plan);
}

/* Nine shapes that share strips: dives and narrow programs end an eighth of a
 * yard above the least length, and do not get there by the time limit. */
static void shapes_that_share_strips(void **state)
{
    const char *text =
        "{\"quiltcut\": 1, \"fabrics\": [{\"id\": \"a\", \"width\": \"40\"}], "
        "\"options\": {\"objective\": [\"bought\"]}, \"pieces\": ["
        "{\"id\": \"P0\", \"fabric\": \"a\", \"count\": 83, "
        "\"shape\": \"equilateral triangle\", \"finished\": \"4.5\"}, "
        "{\"id\": \"P1\", \"fabric\": \"a\", \"count\": 51, "
        "\"shape\": \"half-square triangle\", \"finished\": \"2\"}, "
        "{\"id\": \"P2\", \"fabric\": \"a\", \"count\": 137, "
        "\"shape\": \"rectangle\", \"finished\": [\"4\", \"4.5\"]}, "
        "{\"id\": \"P3\", \"fabric\": \"a\", \"count\": 88, "
        "\"shape\": \"equilateral triangle\", \"finished\": \"5.5\"}, "
        "{\"id\": \"P4\", \"fabric\": \"a\", \"count\": 118, "
        "\"shape\": \"diamond\", \"angle\": 30, \"finished\": \"2\"}, "
        "{\"id\": \"P5\", \"fabric\": \"a\", \"count\": 8, "
        "\"shape\": \"half-square triangle\", \"finished\": \"4.5\"}, "
        "{\"id\": \"P6\", \"fabric\": \"a\", \"count\": 159, "
        "\"shape\": \"half-square triangle\", \"finished\": \"5.5\"}, "
        "{\"id\": \"P7\", \"fabric\": \"a\", \"shape\": \"parallelogram\", "
        "\"count\": {\"left\": 114, \"right\": 114}, \"angle\": 45, "
        "\"finished\": [\"7.5\", \"5.5\"]}, "
        "{\"id\": \"P8\", \"fabric\": \"a\", \"shape\": \"parallelogram\", "
        "\"count\": {\"left\": 49, \"right\": 49}, \"angle\": 45, "
        "\"finished\": [\"5.5\", \"5\"]}]}";
    qc_plan *plan = solve_within(text, strlen(text), LONG_MS);
    char *certificate = NULL;
    qc_status status;

    (void)state;
    assert_non_null(plan);
    assert_true(all_proved(plan));
    assert_int_equal(qc_plan_certificate(plan, &certificate, NULL), 0);
    assert_int_equal(check(certificate, &status), QC_VERDICT_PROVED);
    qc_text_destroy(certificate);
    qc_plan_destroy(plan);
}

static uint64_t from_environment(const char *name, uint64_t otherwise)
{
    const char *text = getenv(name);

    return text ? strtoull(text, NULL, 10) : otherwise;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rectangles),
        cmocka_unit_test(mixed_jobs),
        cmocka_unit_test(many_sizes_on_wide_cloth),
        cmocka_unit_test(shapes_that_share_strips),
    };
    int failed;

    first_seed = from_environment("QC_SEED", first_seed);
    jobs = from_environment("QC_JOBS", jobs);
    printf("QC_SEED=%llu\n", (unsigned long long)first_seed);
    dice = (mini_random){first_seed};
    if (qci_mip_thread_begin(NULL))
        return 1;
    failed = cmocka_run_group_tests(tests, NULL, NULL);
    qci_mip_thread_end();
    return failed;
}
