/* Checking instructions: they are carried out twice at every width, as they are
 * written and with the strips that are missing from them, and the job is solved
 * beside them. What was found is put into words at once, while the numbers are
 * at hand; nothing in a check refers to the instructions. */
#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/known.h"
#include "check/result.h"
#include "job/check.h"
#include "job/purchase.h"

void qc_check_options_init(qc_check_options *options)
{
    memset(options, 0, sizeof *options);
    options->struct_size = (uint32_t)sizeof *options;
}

void qci_check_say_count(qci_text *words, int64_t count, const char *noun)
{
    qci_text_printf(words, "%" PRId64 " %s%s", count, noun,
                    count == 1 ? "" : "s");
}

void qci_check_say_bought(qci_text *words, qc_length length, qc_units units)
{
    char shop[64];
    qci_shown plain = qci_show(length, units);

    qc_length_format_purchase(length, units, shop, sizeof shop);
    if (strcmp(shop, plain.text) == 0)
        qci_text_printf(words, "%s", shop);
    else
        qci_text_printf(words, "%s (%s)", shop, plain.text);
}

/* `name` is of a piece or a strip set; NULL. */
static qc_status add_named(const qci_checker *c, qc_finding finding,
                           uint32_t step, uint32_t fabric, const char *name,
                           qci_text *words)
{
    finding.is_fault = finding.kind < QC_FINDING_OVER_PIECES;
    finding.step = step == QC_NONE ? 0 : step + 1;
    finding.fabric = fabric == QC_NONE ? NULL : c->check->fabrics[fabric].id;
    finding.text = qci_text_take(words);
    finding.piece = name ? qci_strdup(name) : NULL;
    if (!finding.text || (name && !finding.piece) ||
        !qci_vec_push(&c->check->findings, finding)) {
        qci_free((void *)finding.text);
        qci_free((void *)finding.piece);
        return qci_no_memory(c->err);
    }
    return QC_STATUS_OK;
}

qc_status qci_checker_add(const qci_checker *c, qc_finding finding,
                          uint32_t step, uint32_t fabric, uint32_t piece,
                          qci_text *words)
{
    return add_named(c, finding, step, fabric,
                     piece == QC_NONE ? NULL : c->of->job->pieces[piece].id,
                     words);
}

qc_status qci_checker_add_set(const qci_checker *c, qc_finding finding,
                              uint32_t step, uint32_t fabric, uint32_t set,
                              qci_text *words)
{
    return add_named(c, finding, step, fabric,
                     set == QC_NONE ? NULL : c->of->job->sets[set].info.id,
                     words);
}

/* More steps than these are only counted. */
#define STEPS_NAMED 4

/* "step 2: 4 A short; ..." of a fabric; "" when nothing is missing. */
static char *say_missing(const qci_run *run, uint32_t fabric, int64_t *missing)
{
    const qc_instructions *of = run->of;
    qci_text words = {0};
    int named = 0;

    *missing = 0;
    qci_text_add(&words, "", 0);
    for (uint32_t i = 0; i < of->step_count; i++) {
        const qci_instruction *step = &of->steps[i];
        int64_t short_by = run->done[i].asked - run->done[i].got;

        if (short_by <= 0 || !qci_run_uses(of, i, fabric))
            continue;
        short_by *= qci_run_yields(step);
        *missing += short_by;
        if (++named > STEPS_NAMED)
            continue;
        qci_text_printf(&words, "%sstep %" PRIu32 ": ", named > 1 ? "; " : "",
                        i + 1);
        if (step->set != QC_NONE)
            qci_text_printf(
                &words, "%" PRId64 " %s", short_by,
                qci_short_of(of->job->sets[step->set].info.id).text);
        else if (step->piece != QC_NONE)
            qci_text_printf(&words, "%" PRId64 " %s", short_by,
                            qci_short_of(of->job->pieces[step->piece].id).text);
        else
            qci_check_say_count(&words, short_by,
                                step->kind == QC_INSTRUCTION_SEW ? "set"
                                                                 : "section");
        qci_text_printf(&words, " short");
    }
    if (named > STEPS_NAMED)
        qci_text_printf(&words, "; and so on in %d steps more",
                        named - STEPS_NAMED);
    return qci_text_take(&words);
}

/* Fills what is known of a fabric at the width of the runs. */
static qc_status set_width(const qci_run *plain, const qci_run *added,
                           uint32_t fabric, qc_check_width *out)
{
    const qci_fabric *info = &plain->of->job->fabrics[fabric];
    qci_purchase purchase = {info->step, info->shrink_length};
    bool hopeless = false;

    for (uint32_t i = 0; i < plain->of->step_count; i++)
        hopeless |=
            added->done[i].hopeless && qci_run_uses(plain->of, i, fabric);
    out->width = qci_run_width(plain, fabric);
    out->used = qci_check_used(plain, fabric);
    out->needed = hopeless ? QC_DEFAULT : qci_check_used(added, fabric);
    out->bought = out->needed < 0 ? QC_DEFAULT
                                  : qci_purchase_bought(purchase, out->needed);
    out->text = say_missing(plain, fabric, &out->missing);
    return out->text ? QC_STATUS_OK : qci_no_memory(plain->err);
}

/* Carries the instructions out in both ways. */
static qc_status run_both(const qc_instructions *of, qc_length width,
                          qc_error *err, qci_run *plain, qci_run *added)
{
    qc_status status;

    *plain = (qci_run){.of = of, .width = width, .err = err};
    *added = (qci_run){.of = of, .width = width, .adds = true, .err = err};
    status = qci_run_all(plain);
    return status ? status : qci_run_all(added);
}

static qc_status try_width(const qci_checker *c, qc_length width)
{
    qc_check *check = c->check;
    qci_run plain, added;
    qc_status status = run_both(c->of, width, c->err, &plain, &added);

    for (uint32_t i = 0; i < check->fabric_count && !status; i++) {
        qc_check_fabric *fabric = &check->fabrics[i];

        status = set_width(&plain, &added, i,
                           &check->widths[i][fabric->width_count]);
        if (!status)
            fabric->width_count++;
    }
    qci_run_clear(&plain);
    qci_run_clear(&added);
    return status;
}

static qc_status try_widths(const qci_checker *c)
{
    qc_length widths[QCI_CHECK_WIDTHS];
    size_t count = qci_check_widths(c->of->job->units, widths);
    qc_status status = qci_check_make_widths(c->check, count, c->err);

    for (size_t i = 0; i < count && !status; i++)
        status = try_width(c, widths[i]);
    return status;
}

static qc_status set_fabrics(const qci_checker *c)
{
    const qc_job *job = c->of->job;
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; i < job->fabric_count && !status; i++) {
        qc_check_fabric *fabric = &c->check->fabrics[i];

        fabric->id = qci_strdup(job->fabrics[i].id);
        fabric->name = qci_strdup(job->fabrics[i].name);
        if (!fabric->id || !fabric->name)
            return qci_no_memory(c->err);
        fabric->claimed = c->of->claimed[i];
        fabric->square_up = job->fabrics[i].square_up;
        status = set_width(c->as_written, c->with_added, i, &fabric->stated);
    }
    return status;
}

static qc_status solve(const qci_checker *c, const qc_check_options *options)
{
    qc_plan *plan = NULL;
    qc_status status;

    if (options->skip_optimum)
        return QC_STATUS_OK;
    status = qc_job_solve(c->of->job, options->solve, &plan, c->err);
    if (status)
        return status;
    for (size_t i = 0; i < c->check->fabric_count; i++) {
        const qc_plan_fabric *best = qc_plan_fabric_at(plan, i);
        qc_check_fabric *fabric = &c->check->fabrics[i];

        fabric->solved = true;
        fabric->optimum = best->bought;
        fabric->bound = best->bound;
        fabric->outcome = best->outcome;
        fabric->hand_method = best->hand_method;
    }
    qc_plan_destroy(plan);
    return QC_STATUS_OK;
}

/* Faults before what is merely over; then by step, those of no step last. */
static int by_weight(const void *a, const void *b)
{
    const qc_finding *left = a, *right = b;
    uint32_t x = left->step ? left->step : UINT32_MAX;
    uint32_t y = right->step ? right->step : UINT32_MAX;

    if (left->is_fault != right->is_fault)
        return left->is_fault ? -1 : 1;
    if (x != y)
        return x < y ? -1 : 1;
    if (left->kind != right->kind)
        return left->kind < right->kind ? -1 : 1;
    return strcmp(left->text, right->text);
}

static qc_status check_all(qci_checker *c, const qc_check_options *options)
{
    qci_run plain, added;
    qc_status status = run_both(c->of, QC_DEFAULT, c->err, &plain, &added);

    c->as_written = &plain;
    c->with_added = &added;
    if (!status)
        status = set_fabrics(c);
    if (!status)
        status = qci_check_steps(c);
    if (!status)
        status = qci_check_sizes(c);
    if (!status)
        status = qci_check_segments(c);
    if (!status)
        status = qci_check_totals(c);
    if (!status)
        status = qci_check_yardage(c);
    c->as_written = c->with_added = NULL;
    qci_run_clear(&plain);
    qci_run_clear(&added);
    if (!status)
        status = try_widths(c);
    if (!status)
        status = solve(c, options);
    if (!status && c->check->findings.count)
        qsort(c->check->findings.at, c->check->findings.count,
              sizeof *c->check->findings.at, by_weight);
    return status;
}

static qc_check *make_check(const char *title, qc_units units, size_t fabrics)
{
    qc_check *check = qci_calloc(1, sizeof *check);

    if (!check)
        return NULL;
    check->units = units;
    check->title = qci_strdup(title);
    check->fabrics = qci_calloc(fabrics, sizeof *check->fabrics);
    check->widths = qci_calloc(fabrics, sizeof *check->widths);
    if (check->fabrics && check->widths)
        check->fabric_count = fabrics;
    if (check->title && check->fabrics && check->widths)
        return check;
    qc_check_destroy(check);
    return NULL;
}

static qc_check *make_for(const qc_instructions *of)
{
    return of->plan ? make_check(qc_plan_title(of->plan), of->plan->units,
                                 of->plan->fabric_count)
                    : make_check(of->job->title, of->job->units,
                                 of->job->fabric_count);
}

qc_status qc_instructions_check(const qc_instructions *instructions,
                                const qc_check_options *options, qc_check **out,
                                qc_error *err)
{
    qc_check_options known;
    qci_checker c = {.of = instructions, .err = err};
    qc_status status;

    *out = NULL;
    qc_check_options_init(&known);
    if (options) {
        status = qci_take_known(options, sizeof known, &known, sizeof known,
                                "struct_size", err);
        if (status)
            return status;
    }
    c.check = make_for(instructions);
    if (!c.check)
        return qci_no_memory(err);
    status = instructions->plan
                 ? qci_check_plan(instructions->plan, c.check, err)
                 : check_all(&c, &known);
    if (!status) {
        *out = c.check;
        c.check = NULL;
    }
    qc_check_destroy(c.check);
    return status;
}
