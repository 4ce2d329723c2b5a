/* Two strips whose patterns are mirror images are cut as one: laid right sides
 * together, every cut through both gives a piece and its mirror image.
 *
 * Strips are mirror images when they are equally high and one holds as many of
 * every type as the other of its mirror image, since then the one may be cut as
 * the other is. The length stays what it was; there are fewer set-ups. Cost:
 * entries squared x rows. */
#include "pack/pair.h"

#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/vec.h"
#include "pack/sections.h"

typedef struct pairing {
    const qci_demand *demand;
    qci_strip *strips;
    size_t count;
    int64_t *held; /* strip by strip: pieces of each row */
    bool *gone;    /* strip went into a pair */
    QCI_VEC(qci_strip) out;
} pairing;

static void count_pieces(const qci_demand *demand, const qci_strip *strip,
                         int64_t *held)
{
    for (size_t i = 0; i < strip->section_count; i++)
        for (int32_t k = 0; k < strip->sections[i].stack_count; k++) {
            const qci_stack *stack = &strip->sections[i].stacks[k];
            const qci_form *form = &demand->forms[stack->form];

            held[form->row] +=
                (int64_t)strip->sections[i].count * stack->count * form->yields;
        }
}

static const int64_t *held_by(const pairing *p, size_t strip)
{
    return p->held + strip * p->demand->row_count;
}

static bool can_mirror(const qci_demand *demand, const qci_strip *strip)
{
    for (size_t i = 0; i < strip->section_count; i++)
        for (int32_t k = 0; k < strip->sections[i].stack_count; k++) {
            int32_t form = strip->sections[i].stacks[k].form;
            int32_t twin = demand->twin[demand->forms[form].row];

            if (twin < 0 || qci_demand_mirror(demand, form, twin) < 0)
                return false;
        }
    return true;
}

/* Mirror images, with something in them that has a hand. */
static bool are_mirrored(const pairing *p, size_t a, size_t b)
{
    const int64_t *in_a = held_by(p, a), *in_b = held_by(p, b);
    bool handed = false;

    if (p->strips[a].height != p->strips[b].height)
        return false;
    for (int32_t row = 0; row < (int32_t)p->demand->row_count; row++) {
        int32_t twin = p->demand->twin[row];

        /* What has no mirror image is in neither. */
        if (twin < 0 ? in_a[row] || in_b[row] : in_a[row] != in_b[twin])
            return false;
        handed = handed || (in_a[row] && twin != row);
    }
    return handed && can_mirror(p->demand, &p->strips[a]);
}

static size_t find_partner(const pairing *p, size_t strip)
{
    for (size_t i = strip + 1; i < p->count; i++)
        if (!p->gone[i] && !p->strips[i].cut_short && are_mirrored(p, strip, i))
            return i;
    return p->count;
}

/* `repeat` of a strip's copies as an entry of their own. */
static bool pass_copy(pairing *p, const qci_strip *strip, int32_t repeat)
{
    qci_strip copy = *strip;

    copy.repeat = repeat;
    copy.sections = qci_sections_copy(strip->sections, strip->section_count);
    if (!copy.sections)
        return false;
    if (qci_vec_push(&p->out, copy))
        return true;
    qci_sections_destroy(copy.sections, copy.section_count);
    return false;
}

static bool has_short(const pairing *p, size_t strip)
{
    return strip + 1 < p->count && p->strips[strip + 1].cut_short;
}

/* Pairs `a` with `b`; what one of them has more stays single. */
static bool pass_pair(pairing *p, size_t a, size_t b)
{
    qci_strip pair = p->strips[a];
    int32_t more = p->strips[a].repeat - p->strips[b].repeat;
    const qci_strip *rest = &p->strips[more > 0 ? a : b];
    const qci_strip *fewer = &p->strips[more > 0 ? b : a];

    pair.paired = true;
    if (!pass_copy(p, &pair, 2 * fewer->repeat))
        return false;
    p->gone[a] = p->gone[b] = true;
    return !more || pass_copy(p, rest, more > 0 ? more : -more);
}

/* The short strips of a pair: a pair too when they are mirror images, the whole
 * strips being none too many. */
static bool pass_shorts(pairing *p, size_t a, size_t b)
{
    bool of_a = has_short(p, a), of_b = has_short(p, b);
    bool even = p->strips[a].repeat == p->strips[b].repeat;

    if (of_a && of_b && even && are_mirrored(p, a + 1, b + 1)) {
        qci_strip pair = p->strips[a + 1];

        pair.paired = true;
        p->gone[a + 1] = p->gone[b + 1] = true;
        return pass_copy(p, &pair, 2);
    }
    if (of_a) {
        p->strips[a + 1].cut_short = p->strips[a].repeat >= p->strips[b].repeat;
        p->gone[a + 1] = true;
        if (!pass_copy(p, &p->strips[a + 1], 1))
            return false;
    }
    if (of_b) {
        p->strips[b + 1].cut_short = false;
        p->gone[b + 1] = true;
        return pass_copy(p, &p->strips[b + 1], 1);
    }
    return true;
}

static bool pair_all(pairing *p)
{
    for (size_t i = 0; i < p->count; i++) {
        size_t partner;

        if (p->gone[i])
            continue;
        partner = p->strips[i].cut_short ? p->count : find_partner(p, i);
        if (partner == p->count) {
            if (!pass_copy(p, &p->strips[i], p->strips[i].repeat))
                return false;
        } else if (!pass_pair(p, i, partner) || !pass_shorts(p, i, partner)) {
            return false;
        }
    }
    return true;
}

bool qci_pair_possible(const qci_demand *demand)
{
    if (demand->layers < 2)
        return false;
    for (int32_t row = 0; row < (int32_t)demand->row_count; row++)
        if (demand->twin[row] >= 0 && demand->twin[row] != row)
            return true;
    return false;
}

static void destroy_strips(qci_strip *strips, size_t count)
{
    for (size_t i = 0; i < count; i++)
        qci_sections_destroy(strips[i].sections, strips[i].section_count);
}

qc_status qci_pair_strips(const qci_demand *demand, qci_packing *packing,
                          qc_error *err)
{
    size_t n = packing->strip_count;
    pairing p = {.demand = demand, .strips = packing->strips, .count = n};
    bool done = false;

    if (!qci_pair_possible(demand))
        return QC_STATUS_OK;
    p.held = qci_calloc(n * demand->row_count, sizeof *p.held);
    p.gone = qci_calloc(n, sizeof *p.gone);
    if (p.held && p.gone) {
        for (size_t i = 0; i < n; i++)
            count_pieces(demand, &p.strips[i], p.held + i * demand->row_count);
        done = pair_all(&p);
    }
    if (done) {
        destroy_strips(packing->strips, n);
        qci_free(packing->strips);
        packing->strips = p.out.at;
        packing->strip_count = p.out.count;
    } else {
        destroy_strips(p.out.at, p.out.count);
        qci_vec_clear(&p.out);
    }
    qci_free(p.held);
    qci_free(p.gone);
    return done ? QC_STATUS_OK : qci_no_memory(err);
}
