/* Outlines of pieces as polygons, and when two are of one form. */
#ifndef QCI_REPLAY_FORM_H
#define QCI_REPLAY_FORM_H

#include "plan/plan.h"
#include "replay/polygon.h"

/* By how far a corner of forms that are equal may be off, 1 micrometre, where
 * its sides meet square; where they meet at a sharp angle as much more as a
 * line that moves a little drives the corner on. Corners are rounded to whole
 * even numbers each on its own, and sides may have moved out by 2 units before.
 */
#define QCI_FORM_SLACK 8

/* Outline `base` < base_count of a piece that has outlines. */
qci_polygon qci_form_of(const qc_plan_piece *piece, uint32_t base);

/* The outline as it lies: mirrored first, then turned. */
qci_polygon qci_form_lying(const qc_plan_piece *piece, uint32_t base,
                           qc_turn turn, bool mirrored);

/* One can be moved and turned, but not turned over, to lie on the other, but
 * for the slack. */
bool qci_form_is_congruent(const qci_polygon *a, const qci_polygon *b);

/* The same with its own mirror image. */
bool qci_form_is_symmetric(const qci_polygon *form);

/* A piece's own mirror image, or one of the sides that it may lie on, is
 * `cloth`, turned by so much and mirrored or not, and moved anywhere. */
bool qci_form_fits_some_base(const qc_plan_piece *piece, qc_turn turn,
                             bool mirrored, const qci_polygon *cloth);

#endif
