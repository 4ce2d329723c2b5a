/* Choosing what to branch on, from the last LP of the master. */
#ifndef QCI_PACK_CHOOSE_H
#define QCI_PACK_CHOOSE_H

#include "pack/master.h"

/* So many strips of a class or higher in the program. */
typedef struct qci_class_count {
    int32_t cls;
    double count;
} qci_class_count;

/* Lists the classes whose counts are farthest from whole, at most `most`, the
 * farthest first and the highest of equals; says how many. */
int32_t qci_choose_classes(const qci_master *master, int32_t most,
                           qci_class_count *list);

/* The class whose count of strips (of this class or higher) is farthest from
 * whole, with that count; -1 when all are whole. */
int32_t qci_choose_class(const qci_master *master, double *count);

/* The class whose count is nearest to whole of those that are not; -1 when all
 * are. */
int32_t qci_choose_nearest(const qci_master *master, double *count);

/* The row and number of pieces whose count of strips (that hold at least so
 * many) is farthest from whole; false when all are whole. */
bool qci_choose_count(const qci_master *master, qci_count_row *out,
                      double *count);

#endif
