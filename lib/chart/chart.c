/* What to cut for a block at many finished sizes.
 *
 * Every size is a job of so many blocks, one fabric for each role; strips,
 * pieces and lengths are read off its plan. A second job of each size with the
 * finest ruler there is tells what rounding up to the marks adds: of jobs 2i
 * and 2i + 1 the second is that one. All are planned as one batch, and no row
 * is handed out before the last is planned. */
#include "chart/chart.h"

#include <string.h>

#include <quiltcut/batch.h>
#include <quiltcut/block.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/known.h"

typedef struct chart {
    qc_chart_options options;
    size_t count; /* of jobs */
    qc_job **jobs;
    qc_plan **plans;
    qc_error err; /* of the first that has no plan */
} chart;

void qc_chart_options_init(qc_chart_options *options, qc_units units)
{
    bool metric = units == QC_UNITS_CM || units == QC_UNITS_MM;

    memset(options, 0, sizeof *options);
    options->struct_size = (uint32_t)sizeof *options;
    options->units = units;
    options->from = metric ? 8 * QC_CM : 3 * QC_INCH;
    options->to = metric ? 30 * QC_CM : 12 * QC_INCH;
    options->step = metric ? QC_CM : QC_INCH;
    options->count = 1;
    options->seam = options->ruler = QC_DEFAULT;
    options->width = metric ? 102 * QC_CM : 40 * QC_INCH;
}

static qc_status refuse(qc_error *err, const char *field, const char *allowed,
                        const char *problem)
{
    return qci_fail(err, QC_STATUS_INVALID, (qci_place){field, NULL}, allowed,
                    "%s", problem);
}

static qc_status check_options(const qc_chart_options *o, qc_error *err)
{
    if (!o->block == !o->drawing)
        return refuse(err, "options.block",
                      "name of a built-in block, or a drawing",
                      o->block ? "is given beside a drawing" : "is missing");
    if (o->from <= 0 || o->to < o->from)
        return refuse(err, "options.from", "more than 0, up to options.to",
                      "is no range of sizes");
    if (o->step <= 0)
        return refuse(err, "options.step", "more than 0", "is no step");
    if ((o->to - o->from) / o->step >= QC_MAX_CHARTED)
        return refuse(err, "options.step", "at most 200 sizes",
                      "too many sizes");
    return QC_STATUS_OK;
}

/* The roles of the block, each with the fabric of its name. */
static void fill_roles(const chart *c, const qc_block *block, size_t roles,
                       qc_fabric_spec *fabrics, qc_role_spec *fill)
{
    for (size_t i = 0; i < roles; i++) {
        qc_fabric_spec_init(&fabrics[i]);
        fabrics[i].id = qc_block_role_at(block, i);
        fabrics[i].width = c->options.width;
        fill[i] = (qc_role_spec){fabrics[i].id, fabrics[i].id};
    }
}

/* The job of one size; with `fine` that of the finest ruler. */
static qc_status make_job(const chart *c, const qc_block *block, qc_length size,
                          bool fine, qc_job **out, qc_error *err)
{
    size_t roles = qc_block_describe(block)->role_count;
    qc_fabric_spec *fabrics = qci_calloc(roles, sizeof *fabrics);
    qc_role_spec *fill = qci_calloc(roles, sizeof *fill);
    qc_status status = QC_STATUS_OK;
    qc_block_spec spec;
    qc_job_spec job;

    if (!fabrics || !fill) {
        status = qci_no_memory(err);
        goto done;
    }
    fill_roles(c, block, roles, fabrics, fill);
    qc_block_spec_init(&spec);
    spec.block = c->options.block;
    spec.drawing = c->options.drawing;
    spec.methods = c->options.methods;
    spec.method_count = c->options.method_count;
    spec.size = size;
    spec.count = c->options.count;
    spec.fabrics = fill;
    spec.fabric_count = roles;
    qc_job_spec_init(&job, c->options.units);
    job.fabrics = fabrics;
    job.fabric_count = roles;
    job.blocks = &spec;
    job.block_count = 1;
    job.seam = c->options.seam;
    job.ruler = fine ? 1 : c->options.ruler;
    job.goals[0] = QC_GOAL_BOUGHT;
    job.goal_count = fine ? 1 : 0;
    status = qc_job_create(&job, out, err);
done:
    qci_free(fabrics);
    qci_free(fill);
    return status;
}

static qc_length size_of(const chart *c, size_t job)
{
    return c->options.from + (qc_length)(job / 2) * c->options.step;
}

static qc_status make_block(const chart *c, qc_length size, qc_block **out,
                            qc_error *err)
{
    return c->options.drawing
               ? qc_block_create(c->options.drawing, size, out, err)
               : qc_block_find(c->options.block, size, out, err);
}

static qc_status make_jobs(chart *c, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    c->jobs = qci_calloc(c->count, sizeof *c->jobs);
    c->plans = qci_calloc(c->count, sizeof *c->plans);
    if (!c->jobs || !c->plans)
        return qci_no_memory(err);
    for (size_t i = 0; i < c->count && !status; i++) {
        qc_block *block = NULL;

        status = make_block(c, size_of(c, i), &block, err);
        if (!status)
            status = make_job(c, block, size_of(c, i), i % 2, &c->jobs[i], err);
        qc_block_destroy(block);
    }
    return status;
}

static void take_plan(size_t index, qc_plan *plan, const qc_error *err,
                      void *user)
{
    chart *c = user;

    c->plans[index] = plan;
    if (!plan && c->err.code == QC_STATUS_OK)
        c->err = *err;
}

static qc_status plan_all(chart *c, qc_error *err)
{
    qc_status status = qc_batch_solve((const qc_job *const *)c->jobs, c->count,
                                      c->options.solve, take_plan, c, err);

    if (status || c->err.code == QC_STATUS_OK)
        return status;
    if (err && err->code == QC_STATUS_OK)
        *err = c->err;
    return c->err.code;
}

static void end(chart *c)
{
    for (size_t i = 0; i < c->count; i++) {
        if (c->plans)
            qc_plan_destroy(c->plans[i]);
        if (c->jobs)
            qc_job_destroy(c->jobs[i]);
    }
    qci_free(c->plans);
    qci_free(c->jobs);
}

qc_status qc_chart(const qc_chart_options *options, qc_chart_fn each,
                   void *user, qc_error *err)
{
    chart c = {0};
    qc_status status;

    qc_chart_options_init(&c.options, QC_UNITS_DEFAULT);
    qc_error_init(&c.err);
    status = qci_take_known(options, sizeof options->struct_size, &c.options,
                            sizeof c.options, "options.struct_size", err);
    if (!status)
        status = check_options(&c.options, err);
    if (status)
        return status;
    c.count =
        2 * (size_t)((c.options.to - c.options.from) / c.options.step + 1);
    status = make_jobs(&c, err);
    if (!status)
        status = plan_all(&c, err);
    for (size_t i = 0; !status && i < c.count; i += 2)
        qci_chart_read(size_of(&c, i), c.plans[i], c.plans[i + 1], each, user);
    end(&c);
    return status;
}
