/* Shared by the files that check pieces. */
#ifndef QCI_JOB_PIECE_H
#define QCI_JOB_PIECE_H

#include "block/block.h"
#include "job/check.h"

/* One piece of the spec, and what all that is cut for it has in common. */
typedef struct qci_entry {
    const qci_check *check;
    const qc_piece_spec *spec;
    size_t index;
    qci_piece *piece; /* texts and outline not set */
    /* What the spec was made of, `index` being that of the blocks; else NULL.
     */
    const qci_block_group *group;
    const char *role;
} qci_entry;

qci_path qci_entry_path(const qci_entry *e, const char *member);
/* "cut", or "cut[1]" where the JSON form has a list. */
qci_path qci_size_path(const qci_entry *e, size_t dimension);
qc_status qci_entry_fail(const qci_entry *e, const char *member,
                         const char *allowed, const char *problem);

/* The patch of an entry; of its fabric and seams what is known by then. */
qci_patch qci_entry_patch(const qci_entry *e);

/* How many sizes a shape is told by; 0: by its points. */
int qci_shape_sizes(qc_shape shape);

/* Fills what is cut for a piece, or for its mirror image, into `out`. */
qc_status qci_piece_cut(const qci_entry *e, bool mirrored, qci_piece *out);

/* Makes the job's pieces of an entry that is checked but for its count. */
qc_status qci_piece_expand(const qci_entry *e);

#endif
