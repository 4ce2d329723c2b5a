/* A plan made better in one place. */
#ifndef QCI_PACK_RENEW_H
#define QCI_PACK_RENEW_H

#include "pack/master.h"
#include "pack/solution.h"

/* Takes some strips out of `from`, chosen as *seed says, and cuts what they
 * held anew. `out` receives a plan no higher than `cap`, or stays empty. Class
 * bounds and need of the master are as before after it; *seed moves on. */
qc_status qci_renew(qci_master *master, const qci_solution *from, int64_t cap,
                    uint64_t *seed, qci_solution *out, qc_error *err);

#endif
