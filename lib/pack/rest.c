/* What the pieces that a pattern may still hold are worth.
 *
 * The tables let a row be used beyond its limit; where few pieces are wanted
 * and many would fit, they promise far too much. Here every row counts up to
 * its limit, and of the room that it takes only the least: a knapsack with
 * fractions, the rows that are worth most for their room first. Room is width,
 * and with stacks width times height. Cost: rows, and once a class a sort of
 * them. */
#include <stdlib.h>

#include "base/wide.h"
#include "pack/oracle_inner.h"

/* More for its room first; rooms are above 0. */
static int compare_rest(const void *a, const void *b)
{
    const qci_rest *p = a, *q = b;
    qci_wide more = (qci_wide)p->worth * p->yield * q->room -
                    (qci_wide)q->worth * q->yield * p->room;

    if (more)
        return more > 0 ? -1 : 1;
    return (p->row > q->row) - (p->row < q->row);
}

/* Notes the lay if it takes less room for a piece than those of its row so
 * far. */
static void note(qci_oracle *oracle, const qci_lay *lay)
{
    qci_rest *rest = &oracle->rest[lay->row];
    int32_t *most_yield = &oracle->most_yield[lay->row];
    int64_t room = lay->width * (oracle->model->stacks ? lay->height : 1);

    if (!rest->room ||
        (qci_wide)room * rest->yield < (qci_wide)rest->room * lay->yield) {
        rest->room = room;
        rest->yield = lay->yield;
    }
    if (lay->yield > *most_yield)
        *most_yield = lay->yield;
}

void qci_rest_prepare(qci_oracle *oracle, int32_t cls)
{
    const qci_model *model = oracle->model;
    int32_t n = 0;

    oracle->room_per_width = model->stacks ? model->height[cls] : 1;
    for (int32_t row = 0; row < model->row_count; row++) {
        oracle->rest[row] =
            (qci_rest){.row = row, .worth = oracle->amortised[row]};
        oracle->most_yield[row] = 0;
    }
    for (int32_t i = 0; i < model->lay_count; i++)
        if (qci_lay_fits(model, &model->lays[i], cls))
            note(oracle, &model->lays[i]);
    for (int32_t row = 0; row < model->row_count; row++)
        if (oracle->rest[row].room && oracle->rest[row].worth > 0)
            oracle->rest[n++] = oracle->rest[row];
    oracle->rest_count = n;
    qsort(oracle->rest, (size_t)n, sizeof *oracle->rest, compare_rest);
}

/* Pieces of the row that may still be held; the last lay of it may have too
 * many. */
static int64_t pieces_left(const qci_oracle *oracle, int32_t row)
{
    int64_t left = oracle->prices->limit[row] - oracle->held[row];

    return left > 0 ? left + oracle->most_yield[row] - 1 : 0;
}

int64_t qci_rest_worth(const qci_oracle *oracle, int64_t room)
{
    int64_t worth = 0;

    for (int32_t i = 0; i < oracle->rest_count && room > 0; i++) {
        const qci_rest *r = &oracle->rest[i];
        int64_t pieces = pieces_left(oracle, r->row);
        qci_wide most = (qci_wide)room * r->yield;

        if ((qci_wide)pieces * r->room > most)
            return worth + (int64_t)((most * r->worth + r->room - 1) / r->room);
        worth += pieces * r->worth;
        room -= (int64_t)((qci_wide)pieces * r->room / r->yield);
    }
    return worth;
}

bool qci_rest_beats(const qci_oracle *oracle, int64_t room, int64_t needed)
{
    for (int32_t i = 0; i < oracle->rest_count && room > 0 && needed >= 0;
         i++) {
        const qci_rest *r = &oracle->rest[i];
        int64_t pieces = pieces_left(oracle, r->row);
        qci_wide most = (qci_wide)room * r->yield;

        if ((qci_wide)pieces * r->room > most)
            return most * r->worth > (qci_wide)needed * r->room;
        needed -= pieces * r->worth;
        room -= r->yield == 1
                    ? pieces * r->room
                    : (int64_t)((qci_wide)pieces * r->room / r->yield);
    }
    return needed < 0;
}
