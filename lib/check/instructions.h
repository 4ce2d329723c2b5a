/* Checked instructions: every name is an index. */
#ifndef QCI_CHECK_INSTRUCTIONS_H
#define QCI_CHECK_INSTRUCTIONS_H

#include <quiltcut/check.h>

#include "job/job.h"
#include "plan/plan.h"

typedef struct qci_instruction {
    qc_instruction_kind kind;
    uint32_t fabric; /* of the cloth that is cut; QC_NONE: sets */
    uint32_t from;   /* index of what has that name; QC_NONE: the bolt */
    uint32_t gives;  /* the same of what falls out; QC_NONE */
    uint32_t piece;  /* of the job; QC_NONE */
    qc_length size;
    int64_t count, each; /* QC_DEFAULT: not said */
    bool along;
    int32_t angle; /* 90 degrees: square */
    bool along_edge, alternate;
    int32_t times;
    uint32_t *strips; /* names of what is sewn, from the lower edge up; owned */
    size_t strip_count;
    qc_length stagger; /* to the right going up; to the left below 0 */
    uint32_t set;      /* of the job, whose segments are cut; QC_NONE */
} qci_instruction;

/* It takes cloths whole, and no ruler is set: all that is cut off is scrap, or
 * they are cut corner to corner. */
static inline bool qci_is_whole(qc_instruction_kind kind)
{
    return kind == QC_INSTRUCTION_DIAGONAL || kind == QC_INSTRUCTION_TRIM;
}

typedef enum qci_named_kind {
    QCI_NAMED_STRIPS,   /* they lie across the whole width */
    QCI_NAMED_SECTIONS, /* cut from strips */
    QCI_NAMED_SETS      /* sewn */
} qci_named_kind;

/* Cloth that has a name. */
typedef struct qci_named {
    char *name;
    uint32_t fabric; /* QC_NONE: sets */
    uint32_t origin; /* the step that gave the name first */
    qci_named_kind kind;
} qci_named;

struct qc_instructions {
    qc_plan *plan; /* whose steps they are; then there is nothing else */
    qc_job *job;
    /* The same without rounding up to the ruler, and without strip sets, whose
     * strips come last among the pieces. NULL when nothing is left. */
    qc_job *exact;
    qc_length *claimed; /* per fabric; QC_DEFAULT: none */
    qci_instruction *steps;
    size_t step_count;
    qci_named *names;
    size_t name_count;
};

/* Instructions that are a plan's steps. Takes the plan over in any case.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_instructions_of_plan(qc_plan *plan, qc_instructions **out,
                                   qc_error *err);

#endif
