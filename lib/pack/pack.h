/* The integer program of one fabric: strips x sections x stacks, so that the
 * goals are met in their order, each with a proved bound. */
#ifndef QCI_PACK_PACK_H
#define QCI_PACK_PACK_H

#include "certify/proof.h"
#include "demand/demand.h"

/* `count` equal forms, one above the other. */
typedef struct qci_stack {
    int32_t form;
    int32_t count;
} qci_stack;

/* `count` equal sections; stacks from the lower edge up, widest first. With
 * `alternate` every second one is turned by half: it has the form of the same
 * row whose leans are exchanged. */
typedef struct qci_section {
    int32_t count;
    bool alternate;
    int32_t stack_count;
    qci_stack *stacks;
} qci_section;

/* `repeat` equal strips; sections from the left end: square ones first, widest
 * first; then slanted ones in the order in which they lie. */
typedef struct qci_strip {
    qc_length height;
    int32_t repeat;
    bool paired; /* strips lie in twos, right sides together: `repeat` is even,
                    and half of them yield the twins of these forms' rows */
    bool cut_short; /* one strip: the last of its set-up, with some sections
                       left out, or pieces above the first of a section */
    bool alike;     /* cut as the entry before it, for other pieces of the same
                       sizes */
    size_t section_count;
    qci_section *sections;
} qci_strip;

typedef struct qci_packing {
    qci_strip *strips; /* tallest first; a set-up's entries stand together,
                          first whole ones, then the one that is cut short */
    size_t strip_count;
    qc_level
        levels[QC_GOAL_COUNT]; /* one per goal of the demand; money as the
                                  length bought: prices are not known here */
    qc_length used;
    qc_length bought;
    qc_length bound; /* on bought, whatever the goals are */
    qc_length hand_method;
    qc_length narrowest_width; /* 0 until qci_narrowest() (narrow.h) */
    qc_outcome narrowest_outcome;
    qci_proof *proof; /* that no plan buys less; NULL: none was found */
} qci_packing;

/* It begins a set-up, rather than going on with the one before it. */
static inline bool qci_strip_is_setup(const qci_strip *strip)
{
    return !strip->cut_short && !strip->alike;
}

/* What ends a solve from outside, and who is told. */
typedef struct qci_watch {
    int64_t deadline_ms; /* on qci_clock_ms() */
    bool (*cancelled)(void *user);
    void (*progress)(qc_length bought, qc_length bound, void *user);
    void *user;
    int64_t fabrics; /* that are solved along with this one, itself included;
                        0 counts as 1. Some searches share their work out. */
} qci_watch;

/* Is the time over, or the solve cancelled? */
bool qci_watch_ended(const qci_watch *watch);

/* Packs one fabric. Must run between qci_mip_thread_begin() and _end().
 * Pieces cut equal the demand exactly, but where a row's forms yield several
 * pieces: then fewer than the most that one yields may be too many.
 * Deterministic unless the watch ends it.
 * @return QC_STATUS_OK (also when ended early, with honest bounds),
 *         QC_STATUS_CANCELLED (before any packing), QC_STATUS_NO_MEMORY,
 *         QC_STATUS_INVALID (fabric beyond QC_LENGTH_MAX), QC_STATUS_SOLVER. */
qc_status qci_pack(const qci_demand *demand, const qci_watch *watch,
                   qci_packing **out, qc_error *err);
void qci_packing_destroy(qci_packing *packing);

/* Straight cuts that `repeat` strips of these sections take, layered `layers`
 * at a time (paired ones at most the next even number below): the strip cuts,
 * then per pile the squared end and one cut per wedge before a section,
 * section, split, trim and corner. A section that ends at the usable width is
 * cut off too, from the selvage. The last split is not made when the stack
 * fills the strip. The cut order makes exactly these cuts. */
int64_t qci_strip_cuts(const qci_demand *demand, const qci_strip *strip);

/* Straight cuts corner to corner: each row's squares are piled `layers` deep,
 * wherever they were cut, and every pile is cut once or twice. */
int64_t qci_diagonal_cuts(const qci_demand *demand, const qci_packing *packing);

#endif
