/* A job of strip sets, right as it is, to be changed in one place. */
#include "set_draft.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

void sets_init(sets *s, size_t count, qc_length width, int64_t segments)
{
    draft_init(&s->d, QC_UNITS_IN);
    s->d.spec.piece_count = 0;
    for (size_t i = 0; i < 3; i++)
        s->d.fabrics[i].width = 42 * QC_INCH;
    for (size_t i = 0; i < QC_MAX_SET_STRIPS + 1; i++)
        s->strips[i] = (qc_set_strip_spec){
            .fabric = i % 2 ? "sand" : "night", .is_cut = true, .width = width};
    for (size_t i = 0; i < 2; i++) {
        qc_strip_set_spec_init(&s->set[i]);
        s->set[i].id = i ? "T" : "S";
        s->set[i].strips = s->strips;
        s->set[i].strip_count = count;
        s->set[i].angle = 45 * DEGREE;
        s->set[i].segments = segments;
    }
    s->d.spec.strip_sets = s->set;
    s->d.spec.strip_set_count = 1;
}

qc_plan_set sets_only(sets *s)
{
    qc_job *job = draft_make(&s->d);
    qc_plan_set set;

    assert_int_equal(job->set_count, 1);
    set = job->sets[0].info;
    set.id = set.job_id = NULL; /* they end with the job */
    qc_job_destroy(job);
    return set;
}

void sets_mirrored(const qci_set *right, const qci_set *left)
{
    assert_int_equal(right->info.hand, QC_HAND_RIGHT);
    assert_int_equal(left->info.hand, QC_HAND_LEFT);
    assert_true(right->info.lean > 0);
    assert_int_equal(right->info.lean, -left->info.lean);
    assert_int_equal(right->info.first, left->info.tail);
    assert_int_equal(right->info.tail, left->info.first);
    assert_int_equal(right->info.per_set, left->info.per_set);
    assert_int_equal(right->info.full_length, left->info.full_length);
    assert_int_equal(right->info.part_length, left->info.part_length);
    for (size_t i = 0; i < right->info.strip_count; i++)
        assert_int_equal(right->strips[i].offset, -left->strips[i].offset);
}
