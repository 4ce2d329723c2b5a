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
    bool squared; /* a strip: its left selvage is off */
    bool gone;    /* became pieces, a part or a leftover to the last thread */
} qci_part;

/* Squares that wait to be cut corner to corner; one stands for all. */
typedef struct qci_squares {
    qci_polygon cloth;
    int64_t waiting;
    int64_t fallen; /* so far, those that are cut included */
} qci_squares;

typedef struct qci_replay {
    const qc_plan *plan;
    qc_error *err;
    int64_t *fallen;      /* per piece type: how many have been cut */
    qci_squares *squares; /* per piece type; for triangles only */

    /* Of the fabric at hand. */
    uint32_t fabric;
    const qc_plan_fabric *info;
    QCI_VEC(qci_part) parts;
    int64_t *to_keep; /* per leftover of the plan: not yet put away */
    qc_length taken;  /* off the bolt, for strips and squaring-up */
    bool begun;       /* a step has been carried out */
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

/* Triangles that the shape's square is cut into; 0 when it is no triangle. */
int64_t qci_replay_triangles(qc_shape shape);

/* Carries QC_STEP_DIAGONAL out.
 * @return QC_STATUS_OK or QC_STATUS_REJECTED. */
qc_status qci_replay_diagonal(qci_replay *replay, const qc_step *step);

/* Carries one step out on the fabric at hand.
 * @return QC_STATUS_OK, QC_STATUS_REJECTED or QC_STATUS_NO_MEMORY. */
qc_status qci_replay_step(qci_replay *replay, const qc_step *step);

#endif
