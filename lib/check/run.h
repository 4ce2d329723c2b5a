/* Carrying instructions out at one usable width. */
#ifndef QCI_CHECK_RUN_H
#define QCI_CHECK_RUN_H

#include "base/vec.h"
#include "base/wide.h"
#include "check/instructions.h"
#include "replay/cloth.h"

/* `copies` equal cloths. */
typedef struct qci_lot {
    qci_polygon cloth;
    int64_t copies;
    bool touched; /* something was cut off them */
} qci_lot;

/* All cloth that has a name. */
typedef struct qci_heap {
    QCI_VEC(qci_lot) lots;
    int64_t cloths; /* that ever were in it */
} qci_heap;

/* What came of a step. */
typedef struct qci_done {
    int64_t asked; /* what the step asks for; as many as fit: what fell out */
    int64_t got;
    int64_t added; /* strips that had to be added for this step */
    bool hopeless; /* no number of strips gives what is asked for */
    bool fell;
    qci_polygon cloth; /* the first that fell out; of triangles, uncut */
} qci_done;

typedef struct qci_run {
    const qc_instructions *of;
    qc_length width; /* of all fabrics; QC_DEFAULT: each its own */
    bool adds;       /* what is missing is cut from strips that are added */
    qc_error *err;
    qci_heap *heaps; /* per name */
    qci_done *done;  /* per step */
    qci_wide *taken; /* off the bolt, per fabric, squaring-up not included */
    int64_t *fallen; /* per piece of the job */
} qci_run;

/* Carries all steps out. `run` has its first four members set; what is in it is
 * ended with qci_run_clear() in any case.
 * @return QC_STATUS_OK, QC_STATUS_INVALID (too much falls out of a step) or
 * QC_STATUS_NO_MEMORY. */
qc_status qci_run_all(qci_run *run);
void qci_run_clear(qci_run *run);

/* Pieces that a cloth becomes: 2 or 4 when it is cut corner to corner. */
int64_t qci_run_yields(const qci_instruction *step);

/* Usable width of a fabric in this run. */
qc_length qci_run_width(const qci_run *run, uint32_t fabric);

/* Cloths of a name of which nothing was cut. */
int64_t qci_run_untouched(const qci_run *run, uint32_t name);

#endif
