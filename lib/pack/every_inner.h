/* What the parts of the list of patterns share. */
#ifndef QCI_PACK_EVERY_INNER_H
#define QCI_PACK_EVERY_INNER_H

#include "base/wide.h"
#include "pack/every.h"

#define QCI_EVERY_NODES 2000000 /* of all walks */
#define QCI_EVERY_SECTION 64    /* lays of a section, at most */
#define QCI_EVERY_PATTERN 512   /* lays of a pattern */

/* Where a walk has been. The pieces held are one number, each row a digit. The
 * newest of two places that share a slot is kept. */
#define QCI_EVERY_SEEN_BITS 16

typedef struct qci_every_place {
    qci_wide key;
    int64_t width;
    int32_t from, cls; /* cls: the class + 1; 0: nobody was here */
} qci_every_place;

typedef struct qci_every_section {
    qci_wide key;
    int64_t width, height, worth;
    int32_t *held; /* per row; owned */
    int32_t length;
    int32_t *lays; /* owned */
} qci_every_section;

typedef struct qci_every_walk {
    qci_every *every;
    const qci_model *model;
    int64_t cap;
    size_t limit;
    QCI_VEC(qci_every_section) sections;
    int32_t *use; /* sections of the class, best first */
    int32_t use_count;
    int64_t *gain; /* [place in use][width]: what those from there on can add */
    int32_t *held; /* per row: in what is being put together */
    int32_t *stack; /* lays */
    int32_t length;
    int32_t *sequence;
    int32_t sequence_length;
    int32_t cls;
    int64_t least; /* worth that counts */
    int64_t steep_worth,
        steep_height; /* of what is worth most for its height */
    int64_t nodes;
    qci_wide *digit; /* per row: what a piece adds to the key; NULL: no keys */
    qci_wide key;    /* of what is held */
    qci_every_place *seen;
    int32_t *slots; /* of found patterns: index + 1, by hash */
    size_t slot_count;
    bool over; /* a limit was met */
    bool failed;
} qci_every_walk;

/* --- every_sections.c ----------------------------------------------------- */

/* What a section is worth at the prices as they are. */
void qci_every_weigh(const qci_every_walk *w, qci_every_section *s);
/* Makes all sections: stacks of lays from `from` on upon one of this height. */
void qci_every_grow(qci_every_walk *w, int32_t from, int64_t height);
/* Those that may stand in the class, those of most worth for their width first,
 * and what they can add to each width. */
void qci_every_choose(qci_every_walk *w);

/* --- every_walk.c --------------------------------------------------------- */

/* Lists what is made of the strip in hand and sections from `from` on. */
void qci_every_step(qci_every_walk *w, int32_t from, int64_t width,
                    int64_t worth);

#endif
