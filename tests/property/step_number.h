/* The numbers of a step by name, so that each can be changed and put back. */
#ifndef QC_TEST_STEP_NUMBER_H
#define QC_TEST_STEP_NUMBER_H

#include "plan/plan.h"

typedef enum step_number {
    NUMBER,
    FABRIC,
    KIND,
    PART_IN,
    PART_OUT,
    PIECE,
    TURN,
    REST_IS_PIECE,
    DISTANCE,
    COPIES,
    LAYERS,
    REPEAT,
    CUTS,
    YIELD,
    TOTAL,
    LEAN,
    ALONG,
    ALTERNATE,
    PAIRED,
    MIRRORED,
    BASE,
    SET,
    NUMBERS
} step_number;

extern const char *const step_number_names[NUMBERS];

int64_t step_number_get(const qc_step *step, step_number which);
/* Sets a number as far as its type can hold the value. */
void step_number_set(qc_step *step, step_number which, int64_t value);

#endif
