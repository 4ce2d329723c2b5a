/* Stands in for two inner functions of the library, by which the bench is
 * linked (see CMakeLists.txt):
 *
 * - its clock counts the CPU time of the process, so that time limits do not
 *   depend on what else the machine does;
 * - columns added to linear programs are counted. */
#include "meter.h"

#include <stdatomic.h>
#include <time.h>

#include "base/clock.h"
#include "mip/mip.h"

qc_status __real_qci_lp_add_column(qci_lp *lp, double cost, double lo,
                                   double hi, int n, const int *rows,
                                   const double *values, qc_error *err);
qc_status __wrap_qci_lp_add_column(qci_lp *lp, double cost, double lo,
                                   double hi, int n, const int *rows,
                                   const double *values, qc_error *err);

static atomic_int most_columns;

int64_t qci_clock_ms(void)
{
    struct timespec now;

    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (int64_t)now.tv_sec * 1000 + now.tv_nsec / 1000000;
}

qc_status __wrap_qci_lp_add_column(qci_lp *lp, double cost, double lo,
                                   double hi, int n, const int *rows,
                                   const double *values, qc_error *err)
{
    qc_status status =
        __real_qci_lp_add_column(lp, cost, lo, hi, n, rows, values, err);
    int count = qci_lp_column_count(lp), most = atomic_load(&most_columns);

    while (count > most &&
           !atomic_compare_exchange_weak(&most_columns, &most, count))
        ;
    return status;
}

int qcb_most_columns(void)
{
    return atomic_exchange(&most_columns, 0);
}
