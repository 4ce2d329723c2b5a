/* Sections of strips: every stack of lays, of those with the same pieces the
 * ones that are narrower or lower than the others; and a table of what the rest
 * of a width can gain. */
#include "pack/every_inner.h"

#include <string.h>

#include "base/alloc.h"

#define SECTION_LIMIT 1500

void qci_every_weigh(const qci_every_walk *w, qci_every_section *s)
{
    s->worth = 0;
    for (int32_t row = 0; row < w->model->row_count; row++)
        s->worth += s->held[row] * w->every->price[row];
}

static bool same_held(const qci_every_walk *w, const int32_t *a)
{
    return !memcmp(a, w->held, (size_t)w->model->row_count * sizeof *a);
}

/* Is there a section with the same pieces, no wider and no higher? */
static bool is_idle(const qci_every_walk *w, int64_t width, int64_t height)
{
    for (size_t i = 0; i < w->sections.count; i++) {
        const qci_every_section *s = &w->sections.at[i];

        if (s->width <= width && s->height <= height && same_held(w, s->held))
            return true;
    }
    return false;
}

static void add_section(qci_every_walk *w, int64_t width, int64_t height)
{
    qci_every_section s = {
        .width = width, .height = height, .length = w->length};

    if (is_idle(w, width, height))
        return;
    if (w->sections.count == SECTION_LIMIT) {
        w->over = true;
        return;
    }
    for (int32_t row = 0; row < w->model->row_count && w->seen; row++)
        s.key += w->held[row] * w->digit[row];
    s.held = qci_copy(w->held, (size_t)w->model->row_count, sizeof *w->held);
    s.lays = qci_copy(w->stack, (size_t)w->length, sizeof *w->stack);
    if (s.held)
        qci_every_weigh(w, &s);
    if (s.held && s.lays && qci_vec_push(&w->sections, s))
        return;
    qci_free(s.held);
    qci_free(s.lays);
    w->failed = true;
}

/* Lays come by width falling, so the first is the widest. */
void qci_every_grow(qci_every_walk *w, int32_t from, int64_t height)
{
    const qci_model *model = w->model;

    for (int32_t i = from; i < model->lay_count && !w->over && !w->failed;
         i++) {
        const qci_lay *lay = &model->lays[i];

        if (height + lay->height > model->height[model->class_count - 1] ||
            w->held[lay->row] >= model->demand[lay->row])
            continue;
        if (w->length == QCI_EVERY_SECTION || ++w->nodes > QCI_EVERY_NODES) {
            w->over = true;
            return;
        }
        w->held[lay->row]++;
        w->stack[w->length++] = i;
        add_section(w, model->lays[w->stack[0]].width, height + lay->height);
        if (model->stacks)
            qci_every_grow(w, i, height + lay->height);
        w->length--;
        w->held[lay->row]--;
    }
}

static int compare_sections(const qci_every_section *a,
                            const qci_every_section *b)
{
    qci_wide p = (qci_wide)a->worth * b->width;
    qci_wide q = (qci_wide)b->worth * a->width;

    if (p != q)
        return p > q ? -1 : 1;
    return 0;
}

/* Those that may stand in the class, sorted; ties by their number. */
static void choose_sections(qci_every_walk *w)
{
    w->use_count = 0;
    for (size_t i = 0; i < w->sections.count; i++) {
        const qci_every_section *s = &w->sections.at[i];
        int32_t at = w->use_count;

        if (s->height > w->model->height[w->cls] || s->width > w->model->width)
            continue;
        for (;
             at > 0 && compare_sections(&w->sections.at[w->use[at - 1]], s) > 0;
             at--)
            w->use[at] = w->use[at - 1];
        w->use[at] = (int32_t)i;
        w->use_count++;
    }
}

static void fill_gain(qci_every_walk *w)
{
    int64_t cells = w->model->width + 1;

    memset(w->gain + w->use_count * cells, 0, (size_t)cells * sizeof *w->gain);
    for (int32_t i = w->use_count - 1; i >= 0; i--) {
        const qci_every_section *s = &w->sections.at[w->use[i]];
        int64_t *line = w->gain + i * cells;

        for (int64_t x = 0; x < cells; x++) {
            line[x] = line[x + cells];
            if (x >= s->width && line[x - s->width] + s->worth > line[x])
                line[x] = line[x - s->width] + s->worth;
        }
    }
}

void qci_every_choose(qci_every_walk *w)
{
    choose_sections(w);
    fill_gain(w);
}
