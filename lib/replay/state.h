/* What the replay holds in its hands. */
#ifndef QCI_REPLAY_STATE_H
#define QCI_REPLAY_STATE_H

#include "base/vec.h"
#include "plan/plan.h"
#include "replay/cloth.h"

/* How far from the bolt a cloth is; the kinds of cut go by it. */
typedef enum qci_rank {
    QCI_RANK_BOLT,
    QCI_RANK_STRIP,  /* its ends are selvages still */
    QCI_RANK_SECTION /* cut on all sides: a section of a strip, or part of one
                      */
} qci_rank;

/* `copies` equal cloths; one stands for all. */
typedef struct qci_part {
    qci_rank rank;
    qci_polygon cloth;
    int64_t copies;
    /* The piles that the cloths lie in, and the layers of the highest; both 0
     * until a strip that was cut from the bolt is piled. */
    int64_t piles;
    uint32_t layers;
    bool squared;   /* a strip: its left selvage is off */
    bool paired;    /* the cloths lie in twos, right sides together */
    bool both_ways; /* sections of which every second one was turned by half
                       when it was cut; turned back they are all alike */
    bool gone;      /* became pieces, a part or a leftover to the last thread */
} qci_part;

/* What has become of a piece type so far. */
typedef struct qci_tally {
    int64_t fallen; /* how many have been cut */
    /* Of triangles: squares that wait to be cut corner to corner, one of which
     * stands for all; and how many have fallen, those that are cut included. */
    qci_polygon square;
    int64_t waiting;
    int64_t squares;
    int64_t sewn; /* into strip sets */
    bool trimmed; /* said to be trimmed back */
} qci_tally;

/* What has become of a strip set; full sets first, then the last, shorter one.
 */
typedef struct qci_set_tally {
    int64_t sewn[2];
    int64_t segments[2];
    int64_t halved;
} qci_set_tally;

typedef struct qci_replay {
    const qc_plan *plan;
    qc_error *err;
    /* Usable width of the cloth, where it is not the plan's: then what is kept,
     * areas and sums are not looked at. 0: as the plan says. */
    qc_length width;
    qci_tally *pieces;   /* per piece type */
    qci_set_tally *sets; /* per strip set */

    /* Of the fabric at hand. */
    uint32_t fabric;
    const qc_plan_fabric *info;
    QCI_VEC(qci_part) parts;
    int64_t *to_keep; /* per leftover of the plan: not yet put away */
    qc_length taken;  /* off the bolt, for strips and squaring-up */
    bool begun;       /* a step has been carried out */
    bool put_down;    /* the cutter: only trimming back is left */
    int64_t total;    /* of the piece that the step at hand frees, so far */
    qci_wide cuts;
    qci_wide piece_area; /* areas doubled, as the polygons give them */
    qci_wide kept_area;
    qci_wide scrap_area; /* of cloths that fell off as scrap */
} qci_replay;

/* A length for a message. */
typedef struct qci_replay_shown {
    char text[48];
} qci_replay_shown;

qci_replay_shown qci_replay_show(const qci_replay *replay, qc_length length);

/* Rejects the plan because of `step`, or of the fabric at hand when that is
 * NULL. */
qc_status qci_replay_reject(qci_replay *replay, const qc_step *step,
                            const char *problem, ...)
    __attribute__((format(printf, 3, 4)));

/* The same because of "list[index]". */
qc_status qci_replay_reject_at(qci_replay *replay, const char *list,
                               size_t index, const char *problem, ...)
    __attribute__((format(printf, 4, 5)));

/* Triangles that the shape's square is cut into; 0 when it is no triangle. */
int64_t qci_replay_triangles(qc_shape shape);

/* The piece that the step names is one of the plan and of the fabric at hand.
 * @return QC_STATUS_OK or QC_STATUS_REJECTED. */
qc_status qci_replay_piece(qci_replay *replay, const qc_step *step);

/* Slices that fall off one cloth. */
static inline int64_t qci_replay_slices(const qc_step *step)
{
    return (int64_t)step->repeat + (step->rest_is_piece ? 1 : 0);
}

/* Piles of `copies` cloths that are piled for this step alone.
 * @return QC_STATUS_OK or QC_STATUS_REJECTED. */
qc_status qci_replay_piles(qci_replay *replay, const qc_step *step,
                           int64_t *piles);

/* The sums that the step claims are these.
 * @return QC_STATUS_OK or QC_STATUS_REJECTED. */
qc_status qci_replay_sums(qci_replay *replay, const qc_step *step, int64_t cuts,
                          int64_t yield, int64_t total);

/* The setting of the ruler, square to parallel cuts that lie `pitch` apart
 * along the strip and lean by `lean` over its height: `spacing` is never more,
 * and at most a few units less. Pitch and spacing may be anything, the others
 * are below 2^36. */
bool qci_replay_is_spacing(qc_length spacing, qc_length pitch, qc_length lean,
                           qc_length height);

/* Looks at what the plan says of its pieces: their outlines and twins.
 * @return QC_STATUS_OK or QC_STATUS_REJECTED. */
qc_status qci_replay_check_pieces(qci_replay *replay);

/* Sorts `count` cloths that fell out to where the step sends them: pieces,
 * which lie by `turn`, a new part or scrap. What is cut from a pile stays a
 * pile.
 * @return QC_STATUS_OK, QC_STATUS_REJECTED or QC_STATUS_NO_MEMORY. */
qc_status qci_replay_take(qci_replay *replay, const qc_step *step,
                          const qci_part *from, const qci_polygon *freed,
                          qc_turn turn, int64_t count);

/* `cloth` becomes `count` pieces as the step says; of those that lie in pairs
 * half become the twin.
 * @return QC_STATUS_OK or QC_STATUS_REJECTED. */
qc_status qci_replay_count(qci_replay *replay, const qc_step *step,
                           const qci_polygon *cloth, int64_t count);

/* Whether the piece may lie as the step says on the fabric at hand.
 * @return QC_STATUS_OK or QC_STATUS_REJECTED. */
qc_status qci_replay_lying(qci_replay *replay, const qc_step *step,
                           qc_turn turn, bool outlined);

/* Carry out a SLANT, or a SUBCUT between edges of which one slants; an OUTLINE;
 * a KEEP; a DIAGONAL; a TRIM_BACK.
 * @return QC_STATUS_OK, QC_STATUS_REJECTED or QC_STATUS_NO_MEMORY. */
qc_status qci_replay_slanted(qci_replay *replay, const qc_step *step,
                             qci_part *part);
qc_status qci_replay_outline(qci_replay *replay, const qc_step *step,
                             qci_part *part);
qc_status qci_replay_keep(qci_replay *replay, const qc_step *step,
                          qci_part *part);
qc_status qci_replay_diagonal(qci_replay *replay, const qc_step *step);
qc_status qci_replay_trim_back(qci_replay *replay, const qc_step *step);

/* Lays the bare cloth of a fabric on the table.
 * @return QC_STATUS_OK, QC_STATUS_REJECTED or QC_STATUS_NO_MEMORY. */
qc_status qci_replay_begin(qci_replay *replay, uint32_t fabric);

/* Carries one step out on the fabric at hand.
 * @return QC_STATUS_OK, QC_STATUS_REJECTED or QC_STATUS_NO_MEMORY. */
qc_status qci_replay_step(qci_replay *replay, const qc_step *step);

/* What the plan says of its strip sets can be; before any step of theirs.
 * @return QC_STATUS_OK or QC_STATUS_REJECTED. */
qc_status qci_replay_check_sets(qci_replay *replay);

/* Carries one step of a strip set out.
 * @return QC_STATUS_OK or QC_STATUS_REJECTED. */
qc_status qci_replay_set_step(qci_replay *replay, const qc_step *step);

/* All strips are sewn, all segments cut, and cut again where that is asked.
 * @return QC_STATUS_OK or QC_STATUS_REJECTED. */
qc_status qci_replay_end_sets(qci_replay *replay);

#endif
