#include "order_expect.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "hand_plan.h"
#include "order/order.h"

void order_expect_step(const qc_step *step, const order_expected *wanted)
{
    assert_int_equal(step->kind, wanted->kind);
    assert_int_equal(step->part_in, wanted->part_in);
    assert_int_equal(step->part_out, wanted->part_out);
    assert_int_equal(step->piece, wanted->piece);
    assert_int_equal(step->distance, wanted->distance);
    assert_int_equal(step->lean, wanted->lean);
    assert_int_equal(step->along, wanted->along);
    assert_int_equal(step->copies, wanted->copies);
    assert_int_equal(step->layers, wanted->layers);
    assert_int_equal(step->repeat, wanted->repeat);
    assert_int_equal(step->cuts, wanted->cuts);
    assert_int_equal(step->yield, wanted->yield);
    assert_int_equal(step->total, wanted->total);
}

void order_expect_steps(const qc_plan *plan, const order_expected *steps,
                        size_t count)
{
    assert_int_equal(qc_plan_step_count(plan), count);
    for (size_t i = 0; i < count; i++) {
        assert_int_equal(qc_plan_step_at(plan, i)->number, i + 1);
        assert_int_equal(qc_plan_step_at(plan, i)->set, N);
        order_expect_step(qc_plan_step_at(plan, i), &steps[i]);
    }
}

void order_expect_texts(const qc_plan *plan, const char *const *texts)
{
    for (size_t i = 0; i < qc_plan_step_count(plan); i++)
        assert_string_equal(order_text(plan, i), texts[i]);
}

/* Not every left and right is a side. */
static const char *const no_sides[] = {"right side up", "right sides",
                                       "leftover", "is left"};

/* Length of the phrase that is no side at `text`; 0: none. */
static size_t no_side(const char *text)
{
    for (size_t i = 0; i < sizeof no_sides / sizeof *no_sides; i++)
        if (strncmp(text, no_sides[i], strlen(no_sides[i])) == 0)
            return strlen(no_sides[i]);
    return 0;
}

char *order_mirrored(const char *text)
{
    char *copy = calloc(2 * strlen(text) + 1, 1);
    char *to = copy;

    assert_non_null(copy);
    while (*text) {
        size_t from = no_side(text);
        const char *put = text;
        size_t length = from;

        if (from == 0 && strncmp(text, "left", 4) == 0) {
            from = 4;
            put = "right";
        } else if (from == 0 && strncmp(text, "right", 5) == 0) {
            from = 5;
            put = "left";
        }
        if (length == 0)
            length = from ? strlen(put) : 1;
        memcpy(to, put, length);
        to += length;
        text += from ? from : 1;
    }
    return copy;
}

const char *order_text(const qc_plan *plan, size_t step)
{
    return qc_plan_step_at(plan, step)->text;
}

/* The sentence of a step, for the right hand and, mirrored, for the left. */
void order_expect_text(qc_plan *plan, size_t step, const char *text)
{
    char *other = order_mirrored(text);

    assert_string_equal(order_text(plan, step), text);
    plan->left_handed = true;
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    assert_string_equal(order_text(plan, step), other);
    plan->left_handed = false;
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
    free(other);
}

void order_plan(qc_plan *plan, qc_length keep)
{
    hand_finish(plan, keep);
    assert_int_equal(qci_order_make(plan, NULL), QC_STATUS_OK);
}

uint32_t order_rhomb(qc_plan *plan, const char *id, qc_hand hand)
{
    const qc_length lean = hand == QC_HAND_LEFT ? -INCHES(3) : INCHES(3);
    const qc_point corners[] = {
        {0, 0}, {PITCH_45, 0}, {PITCH_45 + lean, INCHES(3)}, {lean, INCHES(3)}};
    uint32_t index = hand_shape(plan, id, QC_SHAPE_DIAMOND, corners, 4);
    qc_plan_piece *piece = &plan->pieces[index];

    piece->cut[0] = INCHES(3);
    piece->angle = (hand == QC_HAND_LEFT ? 135 : 45) * QC_DEGREE;
    piece->hand = hand;
    if (hand != QC_HAND_NONE)
        piece->twin = N;
    return index;
}

uint32_t order_half_square(qc_plan *plan, const char *id)
{
    const qc_point corners[] = {{0, 0}, {INCHES(3), 0}, {0, INCHES(3)}};
    uint32_t index =
        hand_shape(plan, id, QC_SHAPE_HALF_SQUARE_TRIANGLE, corners, 3);

    return index;
}
