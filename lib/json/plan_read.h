/* A plan back from the JSON that qc_plan_json() has written. */
#ifndef QCI_JSON_PLAN_READ_H
#define QCI_JSON_PLAN_READ_H

#include "plan/plan.h"
#include "json/read.h"

/* Is it a plan, by the members that only a plan has? */
bool qci_plan_is(const json_t *root);

/* Reads what the replay looks at, and what a plan is called by; strips and
 * levels are left out. Every reference is an index that exists; nothing else is
 * checked.
 * @return QC_STATUS_OK, QC_STATUS_INVALID or QC_STATUS_NO_MEMORY. */
qc_status qci_plan_read(qci_reader *reader, const json_t *root, qc_plan **out);

#endif
