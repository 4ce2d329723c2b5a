/* The replay carries a cut order out on bare fabric, as straight edge-to-edge
 * cuts on convex polygons with integer corners, and counts what falls out. It
 * shares no geometry with the rooms that made the plan: it reads steps, pieces
 * and strip sets only, never the plan's strips. */
#ifndef QCI_REPLAY_REPLAY_H
#define QCI_REPLAY_REPLAY_H

#include "plan/plan.h"

/* Accepts the plan, or says in `err` which step fails and how.
 * Checked, against the meaning that quiltcut/plan.h gives to a step: every cut
 * lies inside its cloth, slanted ones run from the lower to the upper edge and
 * lie as far apart as the ruler is set; parts, copies, piles, pairs, cuts,
 * yields and running totals are right, and steps are numbered and in the order
 * of the fabrics; squares for triangles are all cut corner to corner, into
 * triangles that are right-angled, equal, and of the size that their square
 * says; every piece that falls out has exactly the size or outline of its type,
 * and so its hand, and lies in a direction that its print allows; outlines of
 * one piece are one form, those of twins mirror images; the number of each type
 * equals what the plan promises; the fabric taken off the bolt equals `used`,
 * and all of it lies within `bought` less shrinkage; cuts add up to the plan's;
 * leftovers kept are those the plan names, and have their sizes; pieces, what
 * is kept and scrap are the bolt again, and the plan's areas say the same; what
 * was cut oversize is trimmed back. All strips of strip sets are sewn, every
 * cut across goes through every strip, and as many segments fall out as
 * promised.
 * @return QC_STATUS_OK, QC_STATUS_REJECTED or QC_STATUS_NO_MEMORY. */
qc_status qci_replay_plan(const qc_plan *plan, qc_error *err);

/* What a step lacks on cloth of another width. */
typedef struct qci_lack {
    uint32_t step; /* index of the first that lacks anything; QC_NONE */
    int64_t count; /* sections that it does not give; where it gives none at
                      all, as a wedge, of the cloths that it is done to */
} qci_lack;

/* Carries the steps of one fabric out on cloth of that usable width, > 0. The
 * plan is one that qci_replay_plan() accepts.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_replay_on(const qc_plan *plan, uint32_t fabric, qc_length width,
                        qci_lack *out, qc_error *err);

#endif
