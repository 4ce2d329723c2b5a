/* Jobs for whole solves: made ones, which take long when their sizes are many,
 * and the program's examples. Not for two threads at once. */
#ifndef QCT_HARD_JOB_H
#define QCT_HARD_JOB_H

#include <quiltcut/quiltcut.h>

/* `fabrics` fabrics with `sizes` sizes of rectangle each, of each `count` to
 * `count` + 16. */
qc_job *qct_hard_job(int fabrics, int sizes, int count);
qc_job *qct_example_job(const char *name);

#endif
