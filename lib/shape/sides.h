/* A convex shape by its sides, before it is rounded. Shared by the files that
 * make a cut shape. */
#ifndef QCI_SHAPE_SIDES_H
#define QCI_SHAPE_SIDES_H

#include "shape/fixed.h"
#include "shape/shape.h"

/* A side lies on a line; the shape is on its left. */
typedef struct qci_side {
    qci_dir dir;
    qci_fine x, y; /* a point of the line: where the patch's side starts */
    qci_fine out;  /* how far the line is moved outwards from there */
    bool tip;      /* it cuts a tip off and has no length before */
} qci_side;

/* Counter-clockwise; side 0 is the base. */
typedef struct qci_sides {
    int count;
    qci_side at[QCI_CORNERS_MAX];
} qci_sides;

/* The sides of a patch as its sizes say, finished or cut. */
qci_patch_fault qci_patch_sides(const qci_patch *patch, qci_sides *out,
                                size_t *at);

/* Is a list of points the outline of a convex polygon? */
qci_patch_fault qci_convex_check(const qc_point *points, size_t count,
                                 size_t *at);

/* How far the moved line lies from (0, 0), to the outside. */
qci_fine qci_side_far(const qci_side *side);

/* Where two sides' moved lines meet; they are not parallel. */
qci_fine_point qci_sides_meet(const qci_side *a, const qci_side *b);

/* The corners of the moved sides: corner i is where side i starts. */
void qci_sides_corners(const qci_sides *sides, qci_fine_point *out);

/* The same shape with side `base` first and lying on the x axis, which it
 * starts at (0, 0) of before it is moved out. */
void qci_sides_turn(const qci_sides *sides, int base, qci_sides *out);

/* How high it stands on its base. */
qci_fine qci_sides_height(const qci_sides *turned);
qci_fine qci_sides_width(const qci_sides *turned);

/* The side that is no tip's next to one, forwards (1) or back (-1). */
int qci_sides_next(const qci_sides *sides, int from, int step);

/* Area of the patch's own polygon (its tips whole) moved inwards by `in`,
 * rounded down, at most INT64_MAX; 0 when nothing is left. */
int64_t qci_sides_area(const qci_sides *patch, qci_fine in);

/* Puts into every tip that is sharper than a right angle the side that cuts it
 * off; `reach` is how far beyond the finished corner that lies. A tip that
 * would hardly lose anything stays. */
void qci_sides_blunt(qci_sides *sides, qci_fine reach, bool is_cut);

/* The outline of turned sides on whole even numbers; nothing of the shape lies
 * outside it. `height` is what the shape measures from its base, rounded.
 * False: too small for that. */
bool qci_sides_round(const qci_sides *turned, qc_shape shape, qc_length height,
                     qc_point *out);

#endif
