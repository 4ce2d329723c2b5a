/* Demand: what one fabric must yield, as rows (piece types) and forms (ways a
 * piece may lie in a strip). This is all that the packing knows of a job. */
#ifndef QCI_DEMAND_DEMAND_H
#define QCI_DEMAND_DEMAND_H

#include <quiltcut/plan.h>

#include "job/job.h"
#include "job/purchase.h"

/* One way that pieces of a row may lie. */
typedef struct qci_form {
    int32_t row;
    qc_length width;       /* across the fabric, at half the height */
    qc_length height;      /* along the length: of the strip */
    qc_length left, right; /* leans of its sides; even; both 0 for rectangles. A
                              form with a lean lies only in strips of its own
                              height, alone in its section */
    int32_t yields;        /* pieces that it becomes: 2 or 4 for a square that
                              is cut corner to corner; else 1 */
    int32_t corners;       /* cuts that trim it to its outline */
    qc_turn turn;
    uint32_t base;
    bool mirrored;
} qci_form;

typedef struct qci_demand {
    qc_length width; /* of the fabric */
    int64_t *count;  /* per row: pieces needed, at least 1, and a multiple of
                        the greatest number that divides the yields of all its
                        forms */
    int32_t *twin;   /* per row: that of the mirror image; itself where the
                        piece is its own; -1 where there is none */
    uint32_t *piece; /* per row: index of the piece in the job */
    size_t row_count;
    qci_form *forms; /* by row; at least one each; no two alike in a row */
    size_t form_count;
    bool stacks; /* sections may hold stacks (three stages) */
    bool trim;   /* pieces may be lower than their strip */
    qc_length square_up;
    qci_purchase purchase;
    qc_length keep;
    qc_length ruler;
    int32_t layers;
    const qc_goal *goals; /* the job's */
    size_t goal_count;
} qci_demand;

/* It lies only in strips of its own height, alone in its section: it has
 * slanted sides or is trimmed to an outline. */
bool qci_form_is_alone(const qci_form *form);

/* Width that it takes with nothing beside it. */
qc_length qci_form_room(const qci_form *form);

/* Is it of the same row and shape, turned by half, with other leans for that?
 */
bool qci_form_is_turned(const qci_form *a, const qci_form *b);

/* The demand of fabric `fabric`. A square has one form; a rectangle a second,
 * quarter-turned one where print and grain allow; a triangle its square and,
 * where that could save cloth, itself in every allowed turn; other shapes their
 * footprints. The first form of a row is the size as it was given. A form wider
 * than the fabric, half its leans included, is left out; the job guarantees
 * that one is left.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_demand_create(const qc_job *job, uint32_t fabric,
                            qci_demand **out, qc_error *err);
void qci_demand_destroy(qci_demand *demand);

/* The form in which the mirror image of form `form` lies in a row; -1: none. */
int32_t qci_demand_mirror(const qci_demand *demand, int32_t form, int32_t row);

/* Is `goal` among the goals? */
bool qci_demand_wants(const qci_demand *demand, qc_goal goal);

#endif
