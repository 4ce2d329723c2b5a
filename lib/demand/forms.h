/* The ways one piece may lie. */
#ifndef QCI_DEMAND_FORMS_H
#define QCI_DEMAND_FORMS_H

#include "base/vec.h"
#include "demand/demand.h"

typedef QCI_VEC(qci_form) qci_forms;

/* Appends the forms of a piece, all different; false when memory is out. */
bool qci_forms_add(qci_forms *forms, const qci_piece *piece,
                   const qci_fabric *fabric, int32_t row, qc_length ruler);

#endif
