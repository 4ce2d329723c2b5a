/* Piece types of equal size share a row of the program. Their places are dealt
 * out so that a strip holds one type where some type still lacks enough for it.
 * Strips in which types mix differently are entries of their own, but not
 * set-ups: the ruler stays as it is, whoever gets the pieces. */
#include "pack/deal.h"

#include <string.h>

#include "base/error.h"
#include "pack/pair.h"
#include "pack/pattern.h"
#include "pack/sections.h"

qc_status qci_deal_begin(qci_deal *deal, const qci_demand *demand,
                         const qci_model *model, qc_error *err)
{
    *deal = (qci_deal){
        .demand = demand, .model = model, .hands = qci_pair_possible(demand)};
    deal->left = qci_copy(demand->count, demand->row_count, sizeof(int64_t));
    return deal->left ? QC_STATUS_OK : qci_no_memory(err);
}

/* A demand row of the merged row that still lacks `wanted` pieces, else one
 * that lacks any, else (only where a cloth yields several) one at all. */
static int32_t choose_row(const qci_deal *deal, const int64_t *left,
                          int32_t merged, int64_t wanted)
{
    int32_t any = -1, some = -1;

    for (size_t row = 0; row < deal->demand->row_count; row++) {
        if (deal->model->row_of[row] != merged)
            continue;
        some = (int32_t)row;
        if (left[row] <= 0)
            continue;
        if (left[row] >= wanted)
            return (int32_t)row;
        if (any < 0)
            any = (int32_t)row;
    }
    return any < 0 ? some : any;
}

static int32_t pieces_of(const qci_deal *deal, int32_t lay)
{
    return deal->demand->forms[deal->model->lays[lay].form].yields;
}

static bool is_single(const qci_deal *deal, int32_t row)
{
    for (int32_t other = 0; other < (int32_t)deal->demand->row_count; other++)
        if (other != row &&
            deal->model->row_of[other] == deal->model->row_of[row])
            return false;
    return true;
}

static int64_t count_of(const qci_deal *deal, const int32_t *sequence,
                        int32_t length, int32_t merged)
{
    int64_t n = 0;

    for (int32_t i = 0; i < length; i++)
        if (deal->model->lays[QCI_LAY(sequence[i])].row == merged)
            n += pieces_of(deal, QCI_LAY(sequence[i]));
    return n;
}

/* Forms for one strip; taken[row] counts the pieces of each demand row. */
static void deal_one(const qci_deal *deal, const int32_t *sequence,
                     int32_t length, int64_t *left, int64_t *taken,
                     int32_t *forms)
{
    for (int32_t i = 0; i < length; i++) {
        int32_t lay = QCI_LAY(sequence[i]);
        int32_t merged = deal->model->lays[lay].row;
        int32_t row =
            choose_row(deal, left, merged,
                       count_of(deal, sequence + i, length - i, merged));

        left[row] -= pieces_of(deal, lay);
        taken[row] += pieces_of(deal, lay);
        forms[i] = qci_model_form(deal->demand, deal->model, row, lay) |
                   (sequence[i] & QCI_OPEN);
    }
}

/* How many strips like the one just dealt there are pieces for. A row that is
 * not merged has all of them, and may get more than it needs. */
static int64_t repeats(const qci_deal *deal, const int64_t *taken,
                       int64_t times)
{
    for (size_t row = 0; row < deal->demand->row_count; row++)
        if (taken[row] && !is_single(deal, (int32_t)row) &&
            deal->left[row] / taken[row] < times)
            times = deal->left[row] / taken[row];
    return times;
}

/* Where the section that begins at `from` ends. */
static int32_t section_end(const int32_t *sequence, int32_t length,
                           int32_t from)
{
    int32_t to = from + 1;

    while (to < length && !(sequence[to] & QCI_OPEN))
        to++;
    return to;
}

/* Has `part` the first lay of section `whole`, and others of it in their order?
 */
static bool is_part_of(const int32_t *part, int32_t length,
                       const int32_t *whole, int32_t whole_length)
{
    int32_t at = 1;

    if (part[0] != whole[0])
        return false;
    for (int32_t i = 1; i < whole_length && at < length; i++)
        at += part[at] == whole[i];
    return at == length;
}

/* Is it the set-up in hand with sections left out, or pieces above the first of
 * a section? */
static bool is_part(const qci_deal *deal, const int32_t *sequence,
                    int32_t length)
{
    int32_t at = 0;

    for (int32_t from = 0, to; from < length; from = to) {
        bool found = false;

        to = section_end(sequence, length, from);
        while (at < deal->whole_length && !found) {
            int32_t end = section_end(deal->whole, deal->whole_length, at);

            found = is_part_of(sequence + from, to - from, deal->whole + at,
                               end - at);
            at = end;
        }
        if (!found)
            return false;
    }
    return true;
}

static bool begin_set_up(qci_deal *deal, const int32_t *sequence,
                         int32_t length)
{
    qci_free(deal->whole);
    deal->whole = qci_copy(sequence, (size_t)length, sizeof *sequence);
    deal->whole_length = length;
    deal->has_short = false;
    return deal->whole != NULL;
}

/* Takes the height, number and kind of the strips from `strip`. */
static qc_status add_strips(qci_deal *deal, qci_strip strip,
                            const int32_t *forms, int32_t length, qc_error *err)
{
    qc_status status =
        qci_sections_make(deal->demand, forms, length, &strip.sections,
                          &strip.section_count, err);

    if (status)
        return status;
    if (qci_vec_push(&deal->strips, strip))
        return QC_STATUS_OK;
    qci_sections_destroy(strip.sections, strip.section_count);
    return qci_no_memory(err);
}

qc_status qci_deal_strips(qci_deal *deal, int64_t height,
                          const int32_t *sequence, int32_t length,
                          int64_t times, bool fresh, qc_error *err)
{
    size_t rows = deal->demand->row_count;
    int64_t *left = qci_calloc(rows, sizeof *left);
    int64_t *taken = qci_calloc(rows, sizeof *taken);
    int32_t *forms = qci_calloc((size_t)length, sizeof *forms);
    qci_strip strip = {.height = height * deal->model->height_unit};
    qc_status status = QC_STATUS_OK;

    if (!length)
        times = 0;
    strip.cut_short = times == 1 && !fresh && !deal->has_short &&
                      is_part(deal, sequence, length);
    if (!left || !taken || !forms ||
        (times && !strip.cut_short && !begin_set_up(deal, sequence, length)))
        status = qci_no_memory(err);
    if (strip.cut_short)
        deal->has_short = true;
    while (times > 0 && !status) {
        int64_t n;

        memcpy(left, deal->left, rows * sizeof *left);
        memset(taken, 0, rows * sizeof *taken);
        deal_one(deal, sequence, length, left, taken, forms);
        n = repeats(deal, taken, times);
        for (size_t row = 0; row < rows; row++)
            deal->left[row] -= n * taken[row];
        strip.repeat = (int32_t)n;
        status = add_strips(deal, strip, forms, length, err);
        strip.alike = !deal->hands;
        times -= n;
    }
    qci_free(left);
    qci_free(taken);
    qci_free(forms);
    return status;
}

void qci_deal_end(qci_deal *deal, qci_packing *packing)
{
    qci_free(deal->left);
    qci_free(deal->whole);
    if (packing) {
        packing->strips = deal->strips.at;
        packing->strip_count = deal->strips.count;
        return;
    }
    for (size_t i = 0; i < deal->strips.count; i++)
        qci_sections_destroy(deal->strips.at[i].sections,
                             deal->strips.at[i].section_count);
    qci_vec_clear(&deal->strips);
}
