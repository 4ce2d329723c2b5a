/* What the files of a chart share. */
#ifndef QCI_CHART_CHART_H
#define QCI_CHART_CHART_H

#include <quiltcut/chart.h>

/* Reads the rows of one size off its two plans, the second with the finest
 * ruler. */
void qci_chart_read(qc_length size, const qc_plan *plan, const qc_plan *fine,
                    qc_chart_fn each, void *user);

#endif
