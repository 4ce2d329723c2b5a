/* Tiny fabrics, and every pattern there is for them: the measure that the tests
 * of the packing hold it against. Nothing here is taken from the packing but
 * the scaled lays and classes of its model, and what every_setups() asks it; a
 * strip is read off the problem's definition: sections side by side, each a
 * stack as wide as its widest piece. */
#ifndef TESTS_UNIT_PACK_EVERY_H
#define TESTS_UNIT_PACK_EVERY_H

#include "mini.h"
#include "pack/master.h"
#include "pack/search.h"

#define TINY_ROWS 8
#define EVERY_ROWS 4 /* merged rows that can be enumerated */

/* A demand whose lists are its own. Must not be moved once filled. */
typedef struct tiny {
    qci_demand demand;
    int64_t count[TINY_ROWS];
    uint32_t piece[TINY_ROWS];
    int32_t twin[TINY_ROWS];
    qci_form forms[2 * TINY_ROWS];
} tiny;

/* No squaring, steps of 1, whole area kept, 4 layers, default goals. */
void tiny_init(tiny *t, qc_length width, bool stacks, bool trim);
/* A row; `turns` gives it its second form, unless that is wider than the
 * fabric. */
void tiny_add(tiny *t, qc_length width, qc_length height, int64_t count,
              bool turns);
/* 1 to `rows` rows of sizes 1 to `size`, 1 to `count` each, on a fabric that
 * every row fits. Rows may be equal. */
void tiny_random(tiny *t, mini_random *r, int rows, int64_t size,
                 int64_t count);

/* Vectors: how many pieces of every merged row, from 0 to most[row]; numbered
 * so that fewer pieces come before more. */
typedef struct every {
    const qci_model *model;
    int64_t most[EVERY_ROWS];
    int32_t count;    /* of vectors */
    int64_t *section; /* scratch */
} every;

void every_init(every *e, const qci_model *model, const int64_t *most);
void every_clear(every *e);
/* Pieces of `row` in vector v. */
int64_t every_pieces(const every *e, int32_t v, int32_t row);
/* least[v]: the narrowest strip, at most `height` high (just so high where
 * pieces may not be trimmed), that holds exactly v; INT64_MAX for none. */
void every_width(const every *e, int64_t height, int64_t *least);

/* What a plan may be held to beside its demand: strips of class `cls` or higher
 * number lo to hi; strips with at least `at` pieces of `row` likewise. */
typedef struct every_rules {
    int32_t cls;
    int64_t class_lo, class_hi;
    int32_t row, at;
    int64_t count_lo, count_hi;
} every_rules;

/* No rules at all. */
every_rules every_free(void);
/* The least total cost of strips that meet the demand and the rules; INT64_MAX
 * when none do. Bounds of rules at most 6 or QCI_MANY. */
int64_t every_least(const qci_model *model, every_rules rules);

/* A random job so small that every_least() can be asked. */
qci_model *every_job(tiny *t, mini_random *r);

/* A cap of the search: whatever is less is better. */
int64_t every_below(int64_t height, void *user);

/* What a search from the greedy solution found. `best` lives as long as the
 * master. */
typedef struct every_found {
    qci_master *master;
    int64_t greedy; /* height of what it began with */
    qci_solution best;
    int64_t bound;
} every_found;

/* A search to the aim's end; its solution meets the demand. */
void every_search(const qci_model *model, const qci_aim *aim, every_found *out);
void every_found_clear(every_found *found);

/* The set-ups of the plan that the packing makes of a solution. */
int64_t every_setups(const tiny *t, const qci_model *model,
                     const qci_solution *solution);

/* A watch that never ends anything. */
extern const qci_watch every_watch;

/* The seed that QC_SEED sets, else `usual`; told to whoever reads the run. */
uint64_t every_seed(uint64_t usual);
/* Set-up and tear-down of a group whose tests solve programs. */
int every_begin(void **state);
int every_end(void **state);

#endif
