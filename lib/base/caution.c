/* The cautions, in one place for the text, the JSON form and the diagrams.
 *
 * Sources: the first, second and fourth are school workshop rules and common
 * practice (guard, direction of the cut, fingers, mat, layers). Out of the
 * reach of children and stored closed: North Dakota State University
 * Extension, bulletin CB111, "Quilting for Fun". An adult beside a learner:
 * University of Kentucky Cooperative Extension, 4-H guide 4JF-12PB, 2011. */
#include "base/caution.h"

const char *const qci_cautions[QCI_CAUTION_COUNT] = {
    "A rotary cutter cuts fingers as easily as cloth: close the guard after "
    "every cut, however short the pause.",
    "Cut away from your body, never towards it, with the fingers that hold the "
    "ruler down well inside its edge.",
    "Keep the cutter out of the reach of children, and store it closed.",
    "Cut on a mat, along a ruler, and through no more layers than one even "
    "stroke takes.",
    "Learners cut only with an adult beside them who knows the tool.",
};
