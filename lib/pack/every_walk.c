/* A walk over the sections of a class, those of most worth for their width
 * first, as long as the rest of the width can gain what is asked for. Many
 * heaps of sections hold the same pieces: who comes to the same pieces with no
 * more width left, and no more sections to choose from, than somebody before
 * need not go on. */
#include "pack/every_inner.h"

#include <string.h>

static int64_t most_times(const qci_every_walk *w, const qci_pattern *p,
                          int64_t worth)
{
    int64_t waste = p->height * QCI_PARTS - worth, most = w->cap / p->height;

    for (int32_t i = 0; i < p->row_count; i++) {
        int64_t last = w->model->demand[p->rows[i].row] / p->rows[i].count + 1;

        if (last < most)
            most = last;
    }
    if (waste > 0 && w->every->spare / waste < most)
        most = w->every->spare / waste;
    return most;
}

static bool holds(const qci_every_walk *w, const qci_pattern *p)
{
    for (int32_t row = 0; row < w->model->row_count; row++)
        if (qci_pattern_yield(p, row) != w->held[row])
            return false;
    return true;
}

/* The slot of a pattern with these pieces, or where one would go. */
static int32_t *find_slot(const qci_every_walk *w)
{
    uint64_t hash = 1469598103934665603u;
    size_t at;

    for (int32_t row = 0; row < w->model->row_count; row++)
        hash = (hash ^ (uint64_t)w->held[row]) * 1099511628211u;
    for (at = hash % w->slot_count; w->slots[at]; at = (at + 1) % w->slot_count)
        if (holds(w, w->every->list.at[w->slots[at] - 1].pattern))
            break;
    return &w->slots[at];
}

/* Classes come rising, so what is known is as low as this. */
static void note(qci_every_walk *w, int64_t worth)
{
    int32_t *slot = find_slot(w);
    qci_listed listed;

    if (*slot)
        return;
    if (w->every->list.count == w->limit) {
        w->over = true;
        return;
    }
    listed.pattern =
        qci_pattern_create(w->model, w->cls, w->sequence, w->sequence_length);
    if (!listed.pattern) {
        w->failed = true;
        return;
    }
    listed.most = most_times(w, listed.pattern, worth);
    if (listed.most > 0 && qci_vec_push(&w->every->list, listed)) {
        *slot = (int32_t)w->every->list.count;
        return;
    }
    w->failed = listed.most > 0;
    qci_pattern_destroy(listed.pattern);
}

/* Puts a section down (by 1) or takes it up again (by -1). */
static bool put(qci_every_walk *w, const qci_every_section *s, int32_t by)
{
    bool fits = true;

    for (int32_t row = 0; row < w->model->row_count; row++) {
        w->held[row] += by * s->held[row];
        fits = fits && w->held[row] <= w->model->demand[row];
    }
    w->key += by * s->key;
    if (by < 0) {
        w->sequence_length -= s->length;
        return true;
    }
    for (int32_t i = 0; i < s->length; i++)
        w->sequence[w->sequence_length++] = s->lays[i] | (i ? 0 : QCI_OPEN);
    return fits;
}

/* Was somebody here who could go on as far? */
static bool has_been(qci_every_walk *w, int32_t from, int64_t width)
{
    qci_every_place *at;

    if (!w->seen)
        return false;
    at = &w->seen[qci_wide_slot(w->key, QCI_EVERY_SEEN_BITS)];
    if (at->cls == w->cls + 1 && at->key == w->key && at->from <= from &&
        at->width >= width)
        return true;
    *at = (qci_every_place){w->key, width, from, w->cls + 1};
    return false;
}

void qci_every_step(qci_every_walk *w, int32_t from, int64_t width,
                    int64_t worth)
{
    if (has_been(w, from, width))
        return;
    if ((qci_wide)worth * w->steep_height >
        (qci_wide)w->steep_worth * w->model->height[w->cls]) {
        w->steep_worth = worth;
        w->steep_height = w->model->height[w->cls];
    }
    if (w->sequence_length && worth >= w->least)
        note(w, worth);
    for (int32_t i = from; i < w->use_count && !w->over && !w->failed; i++) {
        const qci_every_section *s = &w->sections.at[w->use[i]];

        if (worth + w->gain[i * (w->model->width + 1) + width] < w->least)
            return;
        if (s->width > width)
            continue;
        if (++w->nodes > QCI_EVERY_NODES ||
            w->sequence_length + s->length > QCI_EVERY_PATTERN) {
            w->over = true;
            return;
        }
        if (put(w, s, 1))
            qci_every_step(w, i, width - s->width, worth + s->worth);
        put(w, s, -1);
    }
}
