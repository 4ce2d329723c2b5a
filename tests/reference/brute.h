/* The best plan of a tiny job by trying everything. */
#ifndef QCT_BRUTE_H
#define QCT_BRUTE_H

#include "mini.h"

#define BRUTE_MAX 6 /* pieces in all, copies counted */

typedef struct brute_answer {
    qc_length used;   /* least */
    qc_length bought; /* least */
    int setups; /* least among all plans that buy `bought`; 0: not asked */
} brute_answer;

/* At most BRUTE_MAX pieces, no two sizes alike. */
brute_answer brute_solve(const mini_job *job, bool setups);

/* The least whole number of rulers at which `bought` suffices, at most the
 * job's width; the width itself when no ruler length below it does. */
qc_length brute_narrowest(const mini_job *job, qc_length bought);

#endif
