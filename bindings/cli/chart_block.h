/* Which block a chart is of, and by which methods its units are made. */
#ifndef QUILTCUT_CLI_CHART_BLOCK_H
#define QUILTCUT_CLI_CHART_BLOCK_H

#include "cli.h"

#define CHART_METHODS 16

typedef struct chart_block {
    qc_job_draft *draft; /* of the job that was read; NULL */
    const char *name;    /* what people call it */
    char *units[CHART_METHODS];
    qc_method_spec methods[CHART_METHODS];
    size_t method_count;
} chart_block;

/* Takes "METHOD" or "UNIT: METHOD", as --method has it. */
int add_chart_method(const char *text, void *block);

/* Reads the job of that name, unless it is NULL, and fills in block, methods,
 * seam, ruler and units: of the block that is called `name`, or of the only one
 * there is. */
int read_chart_job(chart_block *block, const char *job, const char *name,
                   qc_chart_options *out);

/* The methods of the command line, where there are any, and their trim. */
void set_chart_methods(chart_block *block, qc_length trim,
                       qc_chart_options *out);

void end_chart_block(chart_block *block);

#endif
