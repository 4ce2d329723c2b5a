/* An entry of a job's blocks while it becomes pieces. Shared by block.c, which
 * checks it and cuts patches one by one, and by what makes pieces and strip
 * sets of methods. */
#ifndef QCI_JOB_USE_H
#define QCI_JOB_USE_H

#include "block/unit.h"
#include "job/piece.h"

typedef struct qci_use {
    const qci_check *check;
    const qc_block_spec *spec;
    size_t index;
    qc_block *block;
    uint32_t fabric[QC_MAX_PATCHES]; /* of each role */
    uint32_t method[QC_MAX_PATCHES]; /* that takes each patch; QC_NONE */
} qci_use;

/* What the plan calls the blocks. */
const char *qci_use_id(const qci_use *u);

qc_status qci_use_fail(const qci_use *u, const char *member, const char *value,
                       const char *allowed, const char *problem);

/* The member of one of its methods: "blocks[0].methods[1].unit"; `member` may
 * be NULL. */
qci_path qci_method_path(const qci_use *u, size_t method, const char *member);

/* A unit, and the method that makes it. */
typedef struct qci_making {
    qci_use *use;
    size_t method; /* index in the spec */
    const qci_block_unit *unit;
    uint32_t made;  /* index of the job's units */
    int64_t needed; /* units in all blocks */
    int64_t wanted; /* the same with spares */
    qc_length trim;
} qci_making;

/* Adds patches that are cut one by one: `count` of a group, or `left` and
 * `right`, in each block. */
qc_status qci_use_add(const qci_use *u, const qci_block_group *group,
                      uint32_t unit, const char *name);

/* Does what the spec's methods ask for, and notes the patches they take. */
qc_status qci_use_methods(qci_use *u);

/* The pieces of a unit that is sewn of squares, or of halves. */
qc_status qci_make_squares(const qci_making *m);

/* The strip sets of a row, one or two. */
qc_status qci_make_row(const qci_making *m);

#endif
