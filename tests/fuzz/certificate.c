/* Any bytes as a certificate: JSON where they begin with a brace, else a proof
 * made of their numbers. What the checker takes must be true: a plan that is
 * made here, one strip after the other, may not need less than the proof says.
 */
#include "fuzz.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/wide.h"
#include "json/certificate.h"

#define STRIPS 300

/* --- a plan made by hand ------------------------------------------------- */

typedef struct strip {
    int64_t height, left; /* what is left across */
    bool alone;
} strip;

/* How many of a form lie side by side, facing as they come. */
static int64_t fit_across(const qci_proof *p, const qci_proof_form *f)
{
    qci_wide ends = (f->left < 0 ? -f->left : f->left) / 2 +
                    (f->right < 0 ? -f->right : f->right) / 2;
    int64_t between = f->left - f->right;

    between = (between < 0 ? -between : between) / 2;
    if (f->width + ends > p->width)
        return 0;
    return 1 + (int64_t)((p->width - ends - f->width) / (f->width + between));
}

static int64_t wanted(const qci_proof *p, int64_t kind)
{
    int64_t count = 0;

    for (size_t i = 0; i < p->pieces.count; i++)
        if (p->pieces.at[i].kind == kind)
            count += p->pieces.at[i].count;
    return count;
}

/* The form of a kind that takes least from strips of its own; NULL: none does.
 */
static const qci_proof_form *best_form(const qci_proof *p, int64_t kind,
                                       qci_wide *takes)
{
    const qci_proof_form *best = NULL;

    for (size_t i = 0; i < p->forms.count; i++) {
        const qci_proof_form *f = &p->forms.at[i];
        int64_t fit = f->kind == kind ? fit_across(p, f) * f->yields : 0;
        qci_wide sum;

        if (!fit)
            continue;
        sum = (qci_wide)((wanted(p, kind) + fit - 1) / fit) * f->height;
        if (!best || sum < *takes) {
            best = f;
            *takes = sum;
        }
    }
    return best;
}

/* Pieces one by one into the first strip with room: false when there are too
 * many for that. */
static bool lay(const qci_proof *p, const qci_proof_form *f, strip *strips,
                size_t *count)
{
    int64_t cuts = (wanted(p, f->kind) + f->yields - 1) / f->yields;
    bool alone = qci_proof_alone(f);

    if (cuts > STRIPS)
        return false;
    for (; cuts > 0; cuts--) {
        size_t i = 0;

        while (i < *count &&
               (alone || strips[i].alone || strips[i].left < f->width ||
                (p->trim ? strips[i].height < f->height
                         : strips[i].height != f->height)))
            i++;
        if (i == STRIPS)
            return false;
        if (i == *count)
            strips[(*count)++] = (strip){f->height, p->width, alone};
        strips[i].left -= f->width;
    }
    return true;
}

/* Height of the strips of the better of two plans; false: there is none. */
static bool plan_height(const qci_proof *p, qci_wide *height)
{
    static strip strips[STRIPS];
    qci_wide own = 0, mixed = 0;
    size_t count = 0;
    bool laid = true;

    for (int64_t kind = 0; kind < p->kind_count; kind++) {
        qci_wide takes = 0;
        const qci_proof_form *f = best_form(p, kind, &takes);

        if (!f && wanted(p, kind))
            return false;
        own += takes;
        laid = laid && (!f || lay(p, f, strips, &count));
    }
    for (size_t i = 0; i < count; i++)
        mixed += strips[i].height;
    *height = laid && mixed < own ? mixed : own;
    return true;
}

static void expect_truth(const qci_proof *p)
{
    qci_wide used;
    int64_t less = (p->bought - p->step) * (10000 - p->shrink) / 10000;

    if (!plan_height(p, &used))
        return;
    used += p->square_up;
    FUZZ_EXPECT(used > less);
    FUZZ_EXPECT(used >= p->used);
}

static bool judge(const qci_proof *proof)
{
    char reason[QCI_REASON_ROOM];
    bool holds = false;
    int64_t work = 0;

    FUZZ_EXPECT(qci_certify(proof, &work, &holds, reason, NULL) ==
                QC_STATUS_OK);
    FUZZ_EXPECT(holds == (reason[0] == '\0'));
    fuzz_expect_text(reason, strlen(reason));
    if (holds)
        expect_truth(proof);
    return holds;
}

/* --- JSON ---------------------------------------------------------------- */

static void expect_verdict(const char *text, size_t size, qc_verdict verdict)
{
    qci_certificate read = {.title = NULL};
    bool all = true;

    FUZZ_EXPECT(qci_certificate_read(text, size, &read, NULL) == QC_STATUS_OK);
    for (size_t i = 0; i < read.proofs.count; i++)
        all &= read.proofs.at[i].missing || judge(&read.proofs.at[i]);
    /* One by one, proofs may take more work than together. */
    FUZZ_EXPECT(all || verdict == QC_VERDICT_REFUSED);
    qci_certificate_clear(&read);
}

static void try_json(const char *text, size_t size)
{
    qc_verdict verdict;
    char *report;
    qc_error err;
    qc_status status;

    qc_error_init(&err);
    status = qc_certificate_check(text, size, &verdict, &report, &err);
    if (status) {
        FUZZ_EXPECT(!report && status == QC_STATUS_INVALID);
        fuzz_expect_error(&err, status);
        fuzz_expect_place(&err, text, size);
        return;
    }
    fuzz_expect_text(report, strlen(report));
    qc_text_destroy(report);
    expect_verdict(text, size, verdict);
}

/* --- numbers ------------------------------------------------------------- */

/* Mostly small, at times anything. */
static int64_t take_number(fuzz_bytes *from, int64_t least)
{
    unsigned choice = fuzz_choice(from, 32);

    return choice == 31   ? fuzz_number(from, 8)
           : choice == 30 ? fuzz_number(from, 5)
           : choice > 26  ? fuzz_number(from, 2)
                          : least + fuzz_choice(from, choice > 20 ? 200 : 20);
}

static bool is_small(int64_t number)
{
    return number > 0 && number < INT32_MAX;
}

static void take_form(fuzz_bytes *from, qci_proof *p)
{
    qci_proof_form f = {.kind = fuzz_choice(from, 4),
                        .width = take_number(from, 1),
                        .height = take_number(from, 1),
                        .yields = 1};
    unsigned more = fuzz_choice(from, 8);

    if (more > 5) {
        f.left = 2 * fuzz_number(from, 1);
        f.right = 2 * fuzz_number(from, 1);
    }
    if (more == 5)
        f.outline = true;
    if (more == 4)
        f.yields = take_number(from, 1);
    FUZZ_EXPECT(qci_vec_push(&p->forms, f));
}

static int compare_forms(const void *a, const void *b)
{
    const qci_proof_form *p = a, *q = b;

    if (qci_proof_alone(p) != qci_proof_alone(q))
        return qci_proof_alone(p) ? 1 : -1;
    return (p->width < q->width) - (p->width > q->width);
}

static void take_numbers(fuzz_bytes *from, qci_numbers *to, size_t count,
                         int64_t least)
{
    for (size_t i = 0; i < count; i++)
        FUZZ_EXPECT(qci_vec_push(to, take_number(from, least)));
}

static void take_node(fuzz_bytes *from, qci_proof *p, size_t depth)
{
    qci_proof_node n = {.ask = (qci_ask)fuzz_choice(from, 3)};

    if (n.ask) {
        n.kind = fuzz_choice(from, 4);
        n.at = fuzz_choice(from, 8);
        n.most = take_number(from, 0);
    } else {
        take_numbers(from, &n.values, (size_t)p->kind_count,
                     -(int64_t)fuzz_choice(from, 2));
        take_numbers(from, &n.weights, depth, -10);
    }
    FUZZ_EXPECT(qci_vec_push(&p->nodes, n));
}

static void take_argument(fuzz_bytes *from, qci_proof *p)
{
    size_t depth = 0, left = 1;

    take_numbers(from, &p->heights, fuzz_choice(from, 6), 1);
    for (size_t i = 1; i < p->heights.count && fuzz_choice(from, 16); i++)
        if (is_small(p->heights.at[i]) && is_small(p->heights.at[i - 1]))
            p->heights.at[i] += p->heights.at[i - 1];
    p->cell_across = take_number(from, 1);
    p->cell_along = take_number(from, 1);
    for (size_t i = 0; i < 12 && left; i++) {
        take_node(from, p, depth);
        if (p->nodes.at[i].ask) {
            depth++;
            left++;
        } else {
            left--;
        }
    }
}

static void try_numbers(fuzz_bytes from)
{
    qci_proof p = {.step = take_number(&from, 1),
                   .shrink = fuzz_choice(&from, 4) ? 0 : take_number(&from, 0),
                   .square_up = fuzz_choice(&from, 4),
                   .width = take_number(&from, 1),
                   .stacks = fuzz_choice(&from, 2),
                   .trim = fuzz_choice(&from, 3),
                   .kind_count = 1 + fuzz_choice(&from, 4)};
    unsigned pieces = 1 + fuzz_choice(&from, 5), forms = fuzz_choice(&from, 8);

    p.bought = is_small(p.step) ? p.step * (1 + fuzz_choice(&from, 40)) : 1;
    p.used = fuzz_choice(&from, 3) ? 0 : take_number(&from, 0);
    for (unsigned i = 0; i < pieces; i++)
        FUZZ_EXPECT(qci_vec_push(
            &p.pieces, (qci_proof_piece){.kind = fuzz_choice(&from, 4),
                                         .count = take_number(&from, 1)}));
    for (unsigned i = 0; i < forms; i++)
        take_form(&from, &p);
    if (forms)
        qsort(p.forms.at, forms, sizeof *p.forms.at, compare_forms);
    take_argument(&from, &p);
    judge(&p);
    qci_proof_clear(&p);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    long live = qci_alloc_live();

    if (size && strchr("{[ ", data[0]))
        try_json((const char *)data, size);
    else
        try_numbers((fuzz_bytes){data, size});
    FUZZ_EXPECT(qci_alloc_live() == live);
    return 0;
}
