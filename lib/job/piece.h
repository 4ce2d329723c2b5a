/* Shared by the files that check pieces. */
#ifndef QCI_JOB_PIECE_H
#define QCI_JOB_PIECE_H

#include "job/check.h"

/* One piece of the spec, and what all that is cut for it has in common. */
typedef struct qci_entry {
    const qci_check *check;
    const qc_piece_spec *spec;
    size_t index;
    qci_piece *piece; /* ids and outline not set */
} qci_entry;

qci_path qci_entry_path(const qci_entry *e, const char *member);
/* "cut", or "cut[1]" where the JSON form has a list. */
qci_path qci_size_path(const qci_entry *e, size_t dimension);
qc_status qci_entry_fail(const qci_entry *e, const char *member,
                         const char *allowed, const char *problem);

/* How many sizes a shape is told by; 0: by its points. */
int qci_shape_sizes(qc_shape shape);

/* Fills what is cut for a piece, or for its mirror image, into `out`. */
qc_status qci_piece_cut(const qci_entry *e, bool mirrored, qci_piece *out);

/* Makes the job's pieces of an entry that is checked but for its count. */
qc_status qci_piece_expand(const qci_entry *e);

#endif
