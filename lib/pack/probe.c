/* What a branch on a class count would do to the program.
 *
 * A few classes are tried: the program is solved with each count held below,
 * then above, with the columns that there are. No patterns are priced, so that
 * nothing is proved; but it tells which branch is likely to lift the bound on
 * both sides, which how far a count is from whole does not. What is gained
 * beyond the cap counts no more, and nothing at all counts a little, so that
 * one side alone still tells. Costs two small programs for each class; they are
 * no rounds, whose count prices patterns. */
#include "pack/probe.h"

#include <math.h>

#define PROBES 8
#define LITTLE 1e-3

static qc_status hold(qci_master *m, int32_t cls, int64_t lo, int64_t hi,
                      qc_error *err)
{
    return qci_lp_bound_column(m->lp, m->helpers + cls, (double)lo,
                               hi >= QCI_MANY ? INFINITY : (double)hi, err);
}

/* What the program gains when a count is held so, up to `most`. */
static qc_status gain(qci_master *m, int32_t cls, int64_t lo, int64_t hi,
                      double from, double most, double *out, qc_error *err)
{
    bool solved = false;
    qc_status status = hold(m, cls, lo, hi, err);

    *out = LITTLE;
    if (!status)
        status = qci_master_solve(m, &solved, err);
    if (!status && solved)
        *out = fmax(fmin(qci_lp_objective(m->lp) - from, most), LITTLE);
    return status;
}

/* Both sides, as a product: one that gains on one side only leaves the other as
 * it is. */
static qc_status rate(qci_master *m, qci_class_count c, double from,
                      double most, double *out, qc_error *err)
{
    int64_t lo = m->class_lo[c.cls], hi = m->class_hi[c.cls];
    double below, above = LITTLE;
    qc_status status =
        gain(m, c.cls, lo, (int64_t)floor(c.count), from, most, &below, err);

    if (!status)
        status =
            gain(m, c.cls, (int64_t)ceil(c.count), hi, from, most, &above, err);
    *out = below * above;
    return status ? status : hold(m, c.cls, lo, hi, err);
}

qc_status qci_probe_classes(qci_master *master, int64_t cap,
                            qci_class_count *out, qc_error *err)
{
    qci_class_count list[PROBES];
    int32_t n = qci_choose_classes(master, PROBES, list);
    double from = qci_lp_objective(master->lp), best = 0.0;
    double most = (double)cap + 1.0 - from;
    qc_status status = QC_STATUS_OK;

    *out = list[0];
    for (int32_t i = 0; i < n && n > 1 && !status; i++) {
        double rated;

        status = rate(master, list[i], from, most, &rated, err);
        if (!status && rated > best * (1.0 + 1e-6)) {
            best = rated;
            *out = list[i];
        }
    }
    return status;
}
