/* How far the blade runs. */
#ifndef QCI_ORDER_BLADE_H
#define QCI_ORDER_BLADE_H

#include "order/words.h"

/* Of a step whose `cuts` are known and are made in so many piles: the lengths
 * of all its cuts together. */
int64_t qci_blade_of(const qc_step *step, const qci_origin *from,
                     int64_t piles);

#endif
