/* What an angle means on a strip: how far a cut runs along it, and how far
 * apart cuts lie along it whose distance square to them is set on the ruler.
 *
 * Lengths come here up to 2^35, a sine may be as small as 2^-26; with a
 * quotient that keeps 20 binary places, products stay below 2^116. */
#include "base/wide.h"
#include "shape/fixed.h"
#include "shape/shape.h"

#define PLACES 20
/* As near to a whole number as fixed.h says: 2^-16. */
#define NEAR 16

/* length x top / bottom up to the next even number; was it a whole one?
 * bottom > 0, the rest >= 0. */
static qc_length even_up(qc_length length, int64_t top, int64_t bottom,
                         bool *exact)
{
    const qci_wide one = 1 << PLACES;
    qci_wide value = (qci_wide)length * top * one / bottom;
    qci_wide whole = (value + one - 1 - NEAR) / one;

    *exact = whole * one - value <= NEAR;
    return (qc_length)(whole + whole % 2);
}

qc_length qci_lean_of(qc_length height, int32_t angle)
{
    qci_dir d = qci_dir_at(angle);
    bool exact;

    return d.x < 0 ? -even_up(height, -d.x, d.y, &exact)
                   : even_up(height, d.x, d.y, &exact);
}

qc_length qci_pitch_of(qc_length spacing, int32_t angle)
{
    bool exact;
    qc_length pitch = even_up(spacing, QCI_ONE, qci_dir_at(angle).y, &exact);

    return exact ? pitch : pitch + 2;
}
