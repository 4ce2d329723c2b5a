/* One step of a spec, and the instruction that is made of it. given.c reads
 * steps that cut cloth, given_set.c those that sew and cut strip sets. */
#ifndef QCI_CHECK_GIVEN_H
#define QCI_CHECK_GIVEN_H

#include "check/instructions.h"
#include "job/check.h"

typedef struct qci_given {
    const qc_instruction_spec *spec;
    size_t index;
    qc_instructions *made;  /* with the steps before it, and their names */
    const qci_check *check; /* for the job room's checks of single values */
    qci_instruction *step;
} qci_given;

/* All return QC_STATUS_OK, or fail with QC_STATUS_INVALID or
 * QC_STATUS_NO_MEMORY. */
qc_status qci_given_make(const qci_given *given);

/* Reads what only a step that sews, or one that cuts sets across, says; its
 * counts are in the step. */
qc_status qci_given_sew(const qci_given *given);
qc_status qci_given_crosscut(const qci_given *given);

/* What the step gives is called as it says. */
qc_status qci_given_give_name(const qci_given *given);

/* "steps[2].from" */
qci_path qci_given_path(const qci_given *given, const char *member);
qc_status qci_given_fail(const qci_given *given, const char *member,
                         const char *value, const char *allowed,
                         const char *problem);
/* `word` is not among the known names, of which there may be none. */
qc_status qci_given_unknown(const qci_given *given, const char *member,
                            const char *word, const char *const *known,
                            size_t count, const char *what);
/* The name that a member means, of those that earlier steps gave. */
qc_status qci_given_name(const qci_given *given, const char *member,
                         const char *word, uint32_t *name);
/* Takes the step's size, which must be a length of cloth. */
qc_status qci_given_size(const qci_given *given, const char *member);
/* Its angle, which must be one that can be cut at. */
qc_status qci_given_angle(const qci_given *given);

#endif
