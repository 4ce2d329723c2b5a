/* The classes of a model. Part of model.c. */
#ifndef QCI_PACK_CLASSES_H
#define QCI_PACK_CLASSES_H

#include "pack/model.h"

/* Fills heights and costs of classes from the lays, whose sizes are final.
 * @return QC_STATUS_OK, QC_STATUS_NO_MEMORY, or QC_STATUS_INVALID where stacks
 *         that may not be trimmed could have too many heights. */
qc_status qci_classes_make(qci_model *model, qc_error *err);

#endif
