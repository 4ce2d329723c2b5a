/* Carrying instructions out at one usable width. */
#ifndef QCI_CHECK_RUN_H
#define QCI_CHECK_RUN_H

#include "base/vec.h"
#include "base/wide.h"
#include "check/instructions.h"
#include "check/sewn.h"
#include "replay/cloth.h"

/* `copies` equal cloths. */
typedef struct qci_lot {
    qci_polygon cloth;
    int64_t copies;
    bool touched; /* something was cut off them */
} qci_lot;

/* `copies` equal sets of strips. */
typedef struct qci_set_lot {
    qci_sewn set;
    int64_t copies;
} qci_set_lot;

/* All cloth that has a name, or all sets that have one. */
typedef struct qci_heap {
    QCI_VEC(qci_lot) lots;
    QCI_VEC(qci_set_lot) sets;
    int64_t cloths; /* or sets, that ever were in it */
} qci_heap;

/* What came of a step. */
typedef struct qci_done {
    int64_t asked; /* what the step asks for; as many as fit: what fell out */
    int64_t got;
    int64_t added; /* strips, of a crosscut: sets, that this step lacks */
    bool hopeless; /* no number of strips gives what is asked for */
    bool fell;
    qci_polygon cloth; /* the first that fell out; of triangles, uncut */
    qci_sewn sewn;     /* the first set that was sewn, or cut, uncut */
} qci_done;

typedef struct qci_run {
    const qc_instructions *of;
    qc_length width; /* of all fabrics; QC_DEFAULT: each its own */
    bool adds;       /* what is missing is cut from strips that are added */
    qc_error *err;
    qci_heap *heaps; /* per name */
    qci_done *done;  /* per step */
    qci_wide *taken; /* off the bolt, per fabric, squaring-up not included */
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

/* Cloths, or sets, of a name of which nothing was cut. */
int64_t qci_run_untouched(const qci_run *run, uint32_t name);

/* Whether a step takes cloth of that fabric, also as strips of a set. */
bool qci_run_uses(const qc_instructions *of, uint32_t step, uint32_t fabric);

/* Sews strips, or cuts sets across; a part of qci_run_all(). */
qc_status qci_run_sew(qci_run *run, size_t step);
qc_status qci_run_crosscut(qci_run *run, size_t step);

/* For them: a step that cannot be carried out at all; what it asks for,
 * INT64_MAX: as many as there are; more cloths of a name, so many, of strips
 * that are added; such a cloth, false when none can be had. */
qc_status qci_run_fail(const qci_run *run, size_t step, const char *allowed,
                       const char *problem);
qc_status qci_run_asked(qci_run *run, size_t step, int64_t *asked);
qc_status qci_run_supply(qci_run *run, size_t step, uint32_t name,
                         int64_t count);
bool qci_run_fresh(const qci_run *run, uint32_t name, qci_polygon *cloth);

#endif
