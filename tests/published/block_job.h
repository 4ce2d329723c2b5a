/* Jobs of a single built-in block. */
#ifndef QUILTCUT_TESTS_BLOCK_JOB_H
#define QUILTCUT_TESTS_BLOCK_JOB_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <quiltcut/block.h>

#include "job/job.h"

/* The job of blocks of one kind, all of one fabric, with a method or NULL. The
 * caller destroys it. */
static inline qc_job *job_of(const char *name, qc_length size, int64_t count,
                             const qc_method_spec *method)
{
    qc_role_spec roles[8];
    qc_fabric_spec fabric;
    qc_block_spec block;
    qc_job_spec spec;
    qc_block *known;
    qc_job *job = NULL;
    qc_error err;

    qc_error_init(&err);
    qc_job_spec_init(&spec, QC_UNITS_IN);
    qc_fabric_spec_init(&fabric);
    qc_block_spec_init(&block);
    assert_int_equal(qc_block_find(name, size, &known, &err), QC_STATUS_OK);
    fabric.id = "f";
    block.id = "b"; /* pieces are "b A" and so on */
    block.block = name;
    block.size = size;
    block.count = count;
    block.fabrics = roles;
    block.methods = method;
    block.method_count = method ? 1 : 0;
    while ((roles[block.fabric_count].role =
                qc_block_role_at(known, block.fabric_count)))
        roles[block.fabric_count++].fabric = "f";
    spec.fabrics = &fabric;
    spec.fabric_count = 1;
    spec.blocks = &block;
    spec.block_count = 1;
    if (qc_job_create(&spec, &job, &err))
        fail_msg("%s: %s: %s", name, err.field, err.problem);
    qc_block_destroy(known);
    return job;
}

#endif
