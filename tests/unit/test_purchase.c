/* What must be bought for what is used. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "job/purchase.h"

static void test_by_hand(void **state)
{
    const qci_purchase eighths = {QC_YARD / 8, 0};
    const qci_purchase washed = {QC_YARD / 8, 300};

    (void)state;
    /* 1/8 yd = 4 1/2 in: arithmetic. */
    assert_int_equal(qci_purchase_bought(eighths, 0), 0);
    assert_int_equal(qci_purchase_bought(eighths, 1), QC_YARD / 8);
    assert_int_equal(qci_purchase_bought(eighths, 9 * QC_INCH / 2),
                     QC_YARD / 8);
    assert_int_equal(qci_purchase_bought(eighths, 9 * QC_INCH / 2 + 1),
                     QC_YARD / 4);
    assert_int_equal(qci_purchase_bought(eighths, 243 * QC_INCH / 2),
                     27 * QC_YARD / 8);
    /* Needed before a wash: needed / (1 - shrink), arithmetic. 35 in at 3 %:
     * 36.08 in, so one step more than a yard; 34.92 in just fit one. */
    assert_int_equal(qci_purchase_bought(washed, 35 * QC_INCH),
                     9 * QC_YARD / 8);
    assert_int_equal(qci_purchase_bought(washed, QC_INCH * 3492 / 100),
                     QC_YARD);
    assert_int_equal(qci_purchase_covers(washed, QC_YARD),
                     QC_INCH * 3492 / 100);
}

/* covers() is the exact counterpart of bought(), also where both round. */
static void test_counterparts(void **state)
{
    static const qc_length steps[] = {
        1, 7, QC_INCH, QC_YARD / 3, QC_YARD / 8, 10 * QC_CM, 10 * QC_M};
    static const int32_t shrinks[] = {0, 1, 250, 300, 3333, 5000, 9999};
    uint64_t seed = 5;

    (void)state;
    for (int i = 0; i < 200000; i++) {
        qci_purchase p = {steps[i % 7], shrinks[i / 7 % 7]};
        qc_length used, bought, covers;

        seed = seed * UINT64_C(6364136223846793005) + 1;
        used = (qc_length)(seed >> (30 + seed % 30));
        bought = qci_purchase_bought(p, used);
        if (bought < 0) {
            /* Honest: the shrunk limit does not hold what is used. */
            assert_true(
                used > qci_purchase_covers(p, QC_LENGTH_MAX / p.step * p.step));
            continue;
        }
        assert_true(bought <= QC_LENGTH_MAX && bought % p.step == 0);
        covers = qci_purchase_covers(p, bought);
        assert_true(covers >= used);
        if (bought)
            assert_true(qci_purchase_covers(p, bought - p.step) < used);
        assert_int_equal(qci_purchase_bought(p, covers), bought);
    }
}

static void test_limits(void **state)
{
    const qci_purchase unit = {1, 0};
    const qci_purchase worst = {1, 9999};
    const qci_purchase yards = {QC_YARD, 0};

    (void)state;
    assert_int_equal(qci_purchase_bought(unit, QC_LENGTH_MAX), QC_LENGTH_MAX);
    assert_int_equal(qci_purchase_bought(unit, QC_LENGTH_MAX + 1), -1);
    assert_int_equal(qci_purchase_bought(unit, INT64_MAX), -1);
    assert_int_equal(qci_purchase_bought(worst, QC_LENGTH_MAX), -1);
    assert_int_equal(qci_purchase_bought(worst, QC_LENGTH_MAX / 10000),
                     QC_LENGTH_MAX / 10000 * 10000);
    /* The last whole yard is 4697; a length beyond it has no step above. */
    assert_int_equal(qci_purchase_bought(yards, 4697 * QC_YARD),
                     4697 * QC_YARD);
    assert_int_equal(qci_purchase_bought(yards, 4697 * QC_YARD + 1), -1);
    assert_int_equal(qci_purchase_covers(unit, QC_LENGTH_MAX), QC_LENGTH_MAX);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_by_hand),
        cmocka_unit_test(test_counterparts),
        cmocka_unit_test(test_limits),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
