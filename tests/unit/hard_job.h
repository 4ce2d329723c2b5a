/* Jobs that take long when their sizes are many. */
#ifndef QCT_HARD_JOB_H
#define QCT_HARD_JOB_H

#include <quiltcut/quiltcut.h>

/* `fabrics` fabrics with `sizes` sizes of rectangle each, of each `count` to
 * `count` + 16. Not for two threads at once. */
qc_job *qct_hard_job(int fabrics, int sizes, int count);

#endif
