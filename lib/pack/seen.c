/* Where a walk has been.
 *
 * What can still be gained hangs on the edge, on the width left and on how many
 * of each row are held. Who comes to an edge with the same pieces and no more
 * width left than before need not go on: that the pieces lie in another order
 * gains nothing. The pieces held are one number, each row a digit of it, so
 * that two heaps are never taken for one. Where that number would be too large
 * nothing is noted. The newest of two places that share a slot is kept. */
#include <string.h>

#include "base/alloc.h"
#include "pack/oracle_inner.h"

/* Slots of a walk that few nodes are given to, as nearly all are, and of a long
 * one: to clear all takes longer than most short walks, so that the others are
 * cleared when the first long one comes. */
#define FEW_NODES 600
#define FEW_BITS 10
#define MANY_BITS 15
#define KEY_MAX ((qci_wide)1 << 120)

bool qci_seen_create(qci_oracle *oracle)
{
    oracle->seen =
        qci_realloc(NULL, (size_t)1 << MANY_BITS, sizeof *oracle->seen);
    return oracle->seen;
}

static void choose_slots(qci_oracle *oracle)
{
    int bits = oracle->prices->node_limit > FEW_NODES ? MANY_BITS : FEW_BITS;
    size_t slots = (size_t)1 << bits, clear = oracle->seen_clear;

    oracle->seen_bits = bits;
    if (slots <= clear)
        return;
    memset(oracle->seen + clear, 0, (slots - clear) * sizeof *oracle->seen);
    oracle->seen_clear = slots;
}

/* digit[row] = more pieces than a walk can hold of it. */
static void bound_held(qci_oracle *oracle)
{
    qci_wide room = (qci_wide)oracle->model->width * oracle->room_per_width;

    for (int32_t row = 0; row < oracle->model->row_count; row++)
        oracle->digit[row] =
            oracle->most_yield[row]
                ? oracle->prices->limit[row] + oracle->most_yield[row]
                : 1;
    for (int32_t i = 0; i < oracle->rest_count; i++) {
        const qci_rest *r = &oracle->rest[i];
        qci_wide fit = room * r->yield / r->room + 1;

        if (fit < oracle->digit[r->row])
            oracle->digit[r->row] = fit;
    }
}

void qci_seen_prepare(qci_oracle *oracle)
{
    int32_t rows = oracle->model->row_count;
    qci_wide all = oracle->lean_count + oracle->model->lay_count + 1;

    choose_slots(oracle);
    oracle->stamp++;
    oracle->heap = 0;
    oracle->seen_on = true;
    bound_held(oracle);
    for (int32_t row = 0; row < rows && oracle->seen_on; row++) {
        qci_wide most = oracle->digit[row];

        oracle->digit[row] = all;
        oracle->seen_on = most <= KEY_MAX / all;
        all *= oracle->seen_on ? most : 1;
    }
    if (!oracle->seen_on)
        memset(oracle->digit, 0, (size_t)rows * sizeof *oracle->digit);
}

/* A place among square sections is told from those beside an edge. */
bool qci_seen(qci_oracle *oracle, const qci_spot *spot, bool alone)
{
    qci_wide key =
        oracle->heap + (alone ? spot->lean : oracle->lean_count + spot->open);
    qci_seen_place *place;

    if (!oracle->seen_on)
        return false;
    place = &oracle->seen[qci_wide_slot(key, oracle->seen_bits)];
    if (place->stamp == oracle->stamp && place->key == key &&
        place->width >= spot->width)
        return true;
    *place = (qci_seen_place){key, spot->width, oracle->stamp};
    return false;
}
