/* Corners are rounded to even numbers each on its own, so that an angle is
 * right when the product of its sides, which is 0 for a right one, is no more
 * than such steps make of it. */
#include "check/right.h"

#include "base/wide.h"
#include "replay/angle.h"

#define ROUNDED 4

typedef struct corner {
    qc_point to, from; /* its sides, as they leave it */
} corner;

static corner corner_of(const qci_piece *piece, size_t i)
{
    const qc_point *at = piece->outline;
    qc_point here = at[i], next = at[(i + 1) % 3], last = at[(i + 2) % 3];

    return (corner){{next.x - here.x, next.y - here.y},
                    {last.x - here.x, last.y - here.y}};
}

static int64_t length_of(qc_point side)
{
    return qci_replay_root((qci_wide)side.x * side.x +
                           (qci_wide)side.y * side.y);
}

static bool is_right(corner c)
{
    qci_wide dot = (qci_wide)c.to.x * c.from.x + (qci_wide)c.to.y * c.from.y;
    qci_wide slack = (qci_wide)ROUNDED * (length_of(c.to) + length_of(c.from));

    return dot >= -slack && dot <= slack;
}

/* The corner with the right angle; 3: none. */
static size_t right_corner(const qci_piece *piece)
{
    size_t i = 0;

    while (i < 3 && !is_right(corner_of(piece, i)))
        i++;
    return i;
}

bool qci_right_is(const qci_piece *piece)
{
    return piece->outline_count == 3 && right_corner(piece) < 3;
}

void qci_right_legs(const qci_piece *piece, qc_length legs[2])
{
    corner c = corner_of(piece, right_corner(piece));

    legs[0] = length_of(c.to);
    legs[1] = length_of(c.from);
}
