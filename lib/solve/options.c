/* Options of a solve, of one job or of many: defaults and checks. */
#include "solve/options.h"

#include <string.h>

#include "base/error.h"
#include "base/known.h"
#include "solve/pool.h"

void qc_solve_options_init(qc_solve_options *options)
{
    memset(options, 0, sizeof *options);
    options->struct_size = (uint32_t)sizeof *options;
    options->time_limit_ms = QC_DEFAULT;
    options->threads = QC_DEFAULT;
}

static qc_status check(const qc_solve_options *options, qc_error *err)
{
    if (options->time_limit_ms < 0 && options->time_limit_ms != QC_DEFAULT)
        return qci_fail(err, QC_STATUS_INVALID,
                        (qci_place){"options.time_limit_ms", NULL},
                        "0 or more milliseconds", "negative time limit");
    if (options->threads < 1 && options->threads != QC_DEFAULT)
        return qci_fail(err, QC_STATUS_INVALID,
                        (qci_place){"options.threads", NULL}, "1 or more",
                        "wrong number of threads");
    return QC_STATUS_OK;
}

qc_status qci_solve_options_take(const qc_solve_options *given,
                                 qc_solve_options *out, qc_error *err)
{
    qc_status status = QC_STATUS_OK;

    qc_solve_options_init(out);
    if (given)
        status = qci_take_known(given, sizeof given->struct_size, out,
                                sizeof *out, "options.struct_size", err);
    if (!status)
        status = check(out, err);
    if (!status && out->threads == QC_DEFAULT)
        out->threads = (int32_t)qci_pool_cores();
    return status;
}
