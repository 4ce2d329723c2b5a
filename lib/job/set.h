/* Strip sets of a job: set.c checks what is asked for, set_lay.c reckons how
 * the strips lie and where they are cut, set_make.c makes sets and strips of
 * the job. */
#ifndef QCI_JOB_SET_H
#define QCI_JOB_SET_H

#include "job/check.h"

/* Checks the spec's strip sets and fills job->sets; their strips become pieces
 * of the job. */
qc_status qci_check_sets(const qci_check *check);

/* A strip set of the spec, checked. */
typedef struct qci_set_entry {
    const qci_check *check;
    const qc_strip_set_spec *spec;
    size_t index;
    const qci_path *method; /* that made the spec; NULL: the caller did */
    uint32_t block, unit;   /* that the set is for; QC_NONE */
    int32_t angle; /* of cuts that do not lean left: at most 90 degrees */
    qc_length spacing;
    int64_t segments;                   /* spares included */
    qc_length width[QC_MAX_SET_STRIPS]; /* cut */
    bool rounded[QC_MAX_SET_STRIPS];    /* up to the ruler */
    uint32_t fabric[QC_MAX_SET_STRIPS];
    int64_t shows[QC_MAX_SET_STRIPS]; /* area that shows of a strip, finished,
                                         in one segment */
    qc_length narrowest;              /* usable width of their fabrics */
} qci_set_entry;

/* "strip_sets[2].spacing"; `member` may be NULL. */
qci_path qci_set_path(const qci_set_entry *e, const char *member);
qc_status qci_set_fail(const qci_set_entry *e, const char *member,
                       const char *allowed, const char *problem);

/* Fills all of a set but its names and the pieces that its strips are; `left`:
 * its cuts lean to the left. Its strips are there, zeroed. Fails with
 * QC_STATUS_IMPOSSIBLE when its fabrics are too narrow for one segment. */
qc_status qci_set_lay(const qci_set_entry *e, bool left, qci_set *set);

/* Adds the sets of the hands that are wanted, and their strips, to the job. */
qc_status qci_set_make(const qci_set_entry *e);

#endif
