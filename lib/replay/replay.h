/* The replay carries a cut order out on bare fabric, as straight edge-to-edge
 * cuts on convex polygons with integer corners, and counts what falls out. It
 * shares no geometry with the packing: it reads steps and pieces only, never
 * the plan's strips. */
#ifndef QCI_REPLAY_REPLAY_H
#define QCI_REPLAY_REPLAY_H

#include "plan/plan.h"

/* Accepts the plan, or says in `err` which step fails and how.
 * Checked, against the meaning that quiltcut/plan.h gives to a step: every cut
 * lies inside its cloth; parts, copies, piles, cuts, yields and running totals
 * are right, and steps are numbered and in the order of the fabrics; squares
 * for triangles are all cut corner to corner, into triangles that are right-
 * angled, equal, and of the size that their square says; every
 * piece that falls out has the exact cut size of its type and lies in a
 * direction that its print allows; the number of each type equals what the plan
 * promises; the fabric taken off the bolt equals `used`, and all of it lies
 * within `bought` less shrinkage; cuts add up to the plan's; leftovers kept are
 * those the plan names, and have their sizes; pieces, what is kept and scrap
 * are the bolt again, and the plan's areas say the same.
 * @return QC_STATUS_OK, QC_STATUS_REJECTED or QC_STATUS_NO_MEMORY. */
qc_status qci_replay_plan(const qc_plan *plan, qc_error *err);

#endif
