/* The jobs and instructions that calls work on. */
#ifndef QC_TEST_ALLOC_TEXTS_H
#define QC_TEST_ALLOC_TEXTS_H

/* Three sizes on two fabrics, so that strips are mixed, cut short and trimmed,
 * and something is kept. */
extern const char job_text[];
/* Five sizes that cannot be packed by hand: the search has to branch. */
extern const char dense_text[];
/* What is cut at an angle: a strip set, a parallelogram in both hands, and two
 * blocks. */
extern const char angled_text[];
/* Blocks whose units are made by a method. */
extern const char methods_text[];
/* Instructions with every kind of finding. */
extern const char steps_text[];
/* A block of one's own. */
extern const char drawn_text[];

#endif
