/* Patterns are kept twice: as the sequence that lays them out, and as the
 * sparse counts that the program's columns need. */
#include "pack/pattern.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"

static int compare_rows(const void *a, const void *b)
{
    const qci_count *p = a, *q = b;

    return (p->row > q->row) - (p->row < q->row);
}

static void count_rows(const qci_model *model, qci_pattern *pattern)
{
    int32_t n = 0;

    for (int32_t i = 0; i < pattern->length; i++) {
        const qci_lay *lay = &model->lays[QCI_LAY(pattern->sequence[i])];

        pattern->rows[i] = (qci_count){lay->row, lay->yield};
    }
    qsort(pattern->rows, (size_t)pattern->length, sizeof *pattern->rows,
          compare_rows);
    for (int32_t i = 0; i < pattern->length; i++) {
        if (n && pattern->rows[n - 1].row == pattern->rows[i].row)
            pattern->rows[n - 1].count += pattern->rows[i].count;
        else
            pattern->rows[n++] = pattern->rows[i];
    }
    pattern->row_count = n;
}

static int64_t highest_section(const qci_model *model,
                               const qci_pattern *pattern)
{
    int64_t top = 0, section = 0;

    for (int32_t i = 0; i < pattern->length; i++) {
        const qci_lay *lay = &model->lays[QCI_LAY(pattern->sequence[i])];

        if (pattern->sequence[i] & QCI_OPEN)
            section = 0;
        section += lay->height;
        if (section > top)
            top = section;
    }
    return top;
}

qci_pattern *qci_pattern_create(const qci_model *model, int32_t cls,
                                const int32_t *sequence, int32_t length)
{
    qci_pattern *pattern = qci_calloc(1, sizeof *pattern);

    if (!pattern)
        return NULL;
    pattern->cls = cls;
    pattern->length = length;
    pattern->sequence = qci_copy(sequence, (size_t)length, sizeof *sequence);
    pattern->rows = qci_calloc((size_t)length, sizeof *pattern->rows);
    if (!pattern->sequence || !pattern->rows) {
        qci_pattern_destroy(pattern);
        return NULL;
    }
    count_rows(model, pattern);
    pattern->height = highest_section(model, pattern);
    return pattern;
}

void qci_pattern_destroy(qci_pattern *pattern)
{
    if (!pattern)
        return;
    qci_free(pattern->sequence);
    qci_free(pattern->rows);
    qci_free(pattern);
}

int32_t qci_pattern_yield(const qci_pattern *pattern, int32_t row)
{
    int32_t low = 0, high = pattern->row_count;

    while (low < high) {
        int32_t mid = (low + high) / 2;

        if (pattern->rows[mid].row < row)
            low = mid + 1;
        else
            high = mid;
    }
    if (low < pattern->row_count && pattern->rows[low].row == row)
        return pattern->rows[low].count;
    return 0;
}

int64_t qci_pattern_needed(const qci_pattern *pattern, const int64_t *left)
{
    int64_t most = 0;

    for (int32_t i = 0; i < pattern->row_count; i++) {
        int64_t each = pattern->rows[i].count;
        int64_t n = (left[pattern->rows[i].row] + each - 1) / each;

        if (n > most)
            most = n;
    }
    return most;
}

void qci_pattern_take(const qci_pattern *pattern, int64_t times, int64_t *left)
{
    for (int32_t i = 0; i < pattern->row_count; i++) {
        int64_t *l = &left[pattern->rows[i].row];

        *l -= times * pattern->rows[i].count;
        if (*l < 0)
            *l = 0;
    }
}

bool qci_pattern_same(const qci_pattern *a, const qci_pattern *b)
{
    return a->cls == b->cls && a->row_count == b->row_count &&
           !memcmp(a->rows, b->rows, (size_t)a->row_count * sizeof *a->rows);
}
