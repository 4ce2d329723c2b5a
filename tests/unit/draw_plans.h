/* Plans for the drawing tests, made by hand, so that the picture is held
 * against the plan and not against the solver. */
#ifndef DRAW_PLANS_H
#define DRAW_PLANS_H

#include "plan/plan.h"

#define IN QC_INCH
#define MAX_TYPES 400

/* A plan of one fabric that grows strip by strip. */
typedef struct maker {
    qc_plan *plan;
    qc_leftover *leftovers;
} maker;

/* `count` sections with one stack of `high` pieces. */
typedef struct run {
    uint32_t piece, count, high;
    bool turned;
} run;

void *draw_must(void *block);
maker draw_begin(const char *title, const char *name, qc_units units,
                 qc_length width, qc_length step);
uint32_t draw_type(maker *m, const char *id, qc_length across, qc_length along);
void draw_strip(maker *m, qc_length height, uint32_t repeat, const run *runs,
                size_t run_count);
/* Strips whose sections are made by hand: the plan takes `subcuts` over; each
 * holds a single piece. */
void draw_sections(maker *m, qc_length height, uint32_t repeat,
                   qc_subcut *subcuts, size_t count, qc_length used_width);
qc_plan *draw_end(maker *m);

typedef struct sample {
    const char *name;
    qc_plan *(*make)(void);
} sample;

/* Square cuts alone. */
extern const sample straight_plans[];
extern const size_t straight_plan_count;
/* Slanted cuts, outlines, pairs, left hands. */
extern const sample slanted_plans[];
extern const size_t slanted_plan_count;
/* One strip set each. */
extern const sample set_plans[];
extern const size_t set_plan_count;

qc_plan *draw_sample(const char *name);

#endif
