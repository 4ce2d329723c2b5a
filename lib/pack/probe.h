/* Looking ahead before a branch. */
#ifndef QCI_PACK_PROBE_H
#define QCI_PACK_PROBE_H

#include "pack/choose.h"

/* The class whose branch raises the program most on both sides, of those whose
 * counts are farthest from whole, of which there must be one. The master's
 * program must be solved, and has to be solved again after. */
qc_status qci_probe_classes(qci_master *master, int64_t cap,
                            qci_class_count *out, qc_error *err);

#endif
