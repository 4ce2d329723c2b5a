/* A draft of a job, right as it is, to be changed in one place. */
#include "job_draft.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "base/alloc.h"

void draft_init(draft *d, qc_units units)
{
    static const char *const fabrics[] = {"night", "sand", "fog"};
    static const char *const pieces[] = {"A", "B", "C"};

    qc_job_spec_init(&d->spec, units);
    for (int i = 0; i < 3; i++) {
        qc_fabric_spec_init(&d->fabrics[i]);
        d->fabrics[i].id = fabrics[i];
        qc_piece_spec_init(&d->pieces[i]);
        d->pieces[i].id = pieces[i];
        d->pieces[i].fabric = fabrics[i];
        d->pieces[i].shape = QC_SHAPE_RECTANGLE;
        d->pieces[i].size[0] = 2 * QC_INCH;
        d->pieces[i].size[1] = 4 * QC_INCH;
        d->pieces[i].count = 10;
    }
    d->spec.fabrics = d->fabrics;
    d->spec.fabric_count = 3;
    d->spec.pieces = d->pieces;
    d->spec.piece_count = 3;
}

qc_job *draft_make(const draft *d)
{
    qc_job *job = NULL;
    qc_error err;

    qc_error_init(&err);
    if (qc_job_create(&d->spec, &job, &err))
        fail_msg("%s: %s: %s (%s)", err.field, err.value, err.problem,
                 err.allowed);
    assert_non_null(job);
    return job;
}

void draft_refuse(const draft *d, qc_status status, const char *field,
                  const char *problem)
{
    qc_job *job = (qc_job *)1;
    qc_error err;

    qc_error_init(&err);
    if (qc_job_create(&d->spec, &job, &err) != status ||
        strcmp(err.field, field) != 0 || !strstr(err.problem, problem))
        fail_msg("wanted %s: %s; got %d %s: %s: %s (%s)", field, problem,
                 (int)err.code, err.field, err.value, err.problem, err.allowed);
    assert_null(job);
    assert_int_equal(err.code, status);
    assert_int_equal(qci_alloc_live(), 0);
    assert_int_equal(qc_job_create(&d->spec, &job, NULL), status);
}

void draft_assert_cut(const qc_job *job, size_t index, draft_cut expected)
{
    const qci_piece *piece;

    assert_true(index < job->piece_count);
    piece = &job->pieces[index];
    assert_string_equal(piece->id, expected.id);
    assert_string_equal(piece->job_id, "B");
    assert_int_equal(piece->hand, expected.hand);
    assert_int_equal(piece->twin, expected.twin);
    assert_int_equal(piece->count, expected.count);
    assert_int_equal(piece->strip_set, QC_NONE);
}
