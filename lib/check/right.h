/* Triangles with a right angle among polygons. */
#ifndef QCI_CHECK_RIGHT_H
#define QCI_CHECK_RIGHT_H

#include "job/job.h"

/* The piece is a triangle with sharp tips and a right angle, to within what
 * corners are rounded by. */
bool qci_right_is(const qci_piece *piece);

/* The sides of the rectangle of which it is half, the base's first where that
 * is one of them. */
void qci_right_legs(const qci_piece *piece, qc_length legs[2]);

#endif
