#include "pack/sections.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "pack/pattern.h"
#include "shape/shape.h"

qc_length qci_section_width(const qci_demand *demand,
                            const qci_section *section)
{
    qc_length width = 0;

    for (int32_t i = 0; i < section->stack_count; i++)
        if (demand->forms[section->stacks[i].form].width > width)
            width = demand->forms[section->stacks[i].form].width;
    return width;
}

static const qci_form *first_form(const qci_demand *demand,
                                  const qci_section *section)
{
    return &demand->forms[section->stacks[0].form];
}

/* The lean that the last of equal sections ends with. */
static qc_length end_lean(const qci_form *form, const qci_section *section)
{
    return section->alternate && section->count % 2 == 0 ? form->left
                                                         : form->right;
}

qc_length qci_sections_width(const qci_demand *demand, const qci_strip *strip)
{
    qc_length width = 0, lean = 0;

    for (size_t i = 0; i < strip->section_count; i++) {
        const qci_section *section = &strip->sections[i];
        const qci_form *form = first_form(demand, section);

        width += qci_lean_gap(lean, form->left) +
                 section->count * qci_section_width(demand, section);
        lean = end_lean(form, section);
    }
    return width + qci_lean_gap(lean, 0);
}

/* Wedges that are cut off before sections; what lies behind the last is not. */
static int64_t wedge_cuts(const qci_demand *demand, const qci_strip *strip)
{
    int64_t cuts = 0;
    qc_length lean = 0;

    for (size_t i = 0; i < strip->section_count; i++) {
        const qci_section *section = &strip->sections[i];
        const qci_form *form = first_form(demand, section);

        cuts += lean != form->left;
        lean = end_lean(form, section);
    }
    return cuts;
}

/* By size, so that the order of the job's pieces decides only between pieces of
 * equal size. */
static int compare_forms(const qci_demand *demand, int32_t a, int32_t b)
{
    const qci_form *p = &demand->forms[a], *q = &demand->forms[b];

    if (p->width != q->width)
        return p->width > q->width ? -1 : 1;
    if (p->height != q->height)
        return p->height > q->height ? -1 : 1;
    return (a > b) - (a < b);
}

static int compare_stacks(const qci_demand *demand, const qci_section *a,
                          const qci_section *b)
{
    if (a->alternate != b->alternate)
        return a->alternate ? 1 : -1;
    for (int32_t i = 0; i < a->stack_count && i < b->stack_count; i++) {
        const qci_stack *p = &a->stacks[i], *q = &b->stacks[i];

        if (p->form != q->form)
            return compare_forms(demand, p->form, q->form);
        if (p->count != q->count)
            return p->count > q->count ? -1 : 1;
    }
    return (a->stack_count < b->stack_count) -
           (a->stack_count > b->stack_count);
}

/* Takes a run of which every second section is turned, from `from` on, as one;
 * returns how many sections it has, 1 when it is none. */
static size_t turned_run(const qci_demand *demand, const qci_section *sections,
                         size_t from, size_t count)
{
    size_t n = 1;

    while (from + n < count &&
           qci_form_is_turned(first_form(demand, &sections[from + n - 1]),
                              first_form(demand, &sections[from + n])))
        n++;
    return n;
}

/* Sections that lie alone keep their order; every run of turned ones becomes
 * one. Returns how many are left of those from `from` on. */
static size_t join_turned(const qci_demand *demand, qci_section *sections,
                          size_t from, size_t count)
{
    size_t n = from;

    for (size_t i = from, run; i < count; i += run) {
        run = turned_run(demand, sections, i, count);
        sections[n] = sections[i];
        for (size_t k = 1; k < run; k++)
            qci_free(sections[i + k].stacks);
        sections[n].alternate = run > 1;
        sections[n++].count = (int32_t)run;
    }
    return n;
}

/* Widest first; sections of the same width by what they hold. */
static void sort_sections(const qci_demand *demand, qci_section *sections,
                          size_t count)
{
    for (size_t i = 1; i < count; i++) {
        qci_section moved = sections[i];
        qc_length width = qci_section_width(demand, &moved);
        size_t at = i;

        for (; at > 0; at--) {
            qc_length before = qci_section_width(demand, &sections[at - 1]);

            if (before > width ||
                (before == width &&
                 compare_stacks(demand, &sections[at - 1], &moved) <= 0))
                break;
            sections[at] = sections[at - 1];
        }
        sections[at] = moved;
    }
}

/* Nothing is lost between a section and one like it after it. */
static bool fits_on(const qci_demand *demand, const qci_section *section)
{
    const qci_form *form = first_form(demand, section);

    return !section->alternate && form->left == form->right;
}

static size_t join_equal(const qci_demand *demand, qci_section *sections,
                         size_t count)
{
    size_t n = 0;

    for (size_t i = 0; i < count; i++) {
        if (n && fits_on(demand, &sections[i]) &&
            !compare_stacks(demand, &sections[n - 1], &sections[i])) {
            sections[n - 1].count += sections[i].count;
            qci_free(sections[i].stacks);
        } else {
            sections[n++] = sections[i];
        }
    }
    return n;
}

static bool fill_section(qci_section *section, const int32_t *forms,
                         int32_t length)
{
    section->count = 1;
    section->stacks = qci_calloc((size_t)length, sizeof *section->stacks);
    if (!section->stacks)
        return false;
    for (int32_t i = 0; i < length; i++) {
        int32_t form = QCI_LAY(forms[i]), n = section->stack_count;

        if (n && section->stacks[n - 1].form == form)
            section->stacks[n - 1].count++;
        else
            section->stacks[section->stack_count++] = (qci_stack){form, 1};
    }
    return true;
}

qc_status qci_sections_make(const qci_demand *demand, const int32_t *forms,
                            int32_t length, qci_section **out, size_t *count,
                            qc_error *err)
{
    qci_section *sections = qci_calloc((size_t)length, sizeof *sections);
    size_t n = 0, square = 0;

    if (!sections)
        return qci_no_memory(err);
    for (int32_t from = 0, to; from < length; from = to) {
        to = from + 1;
        while (to < length && !(forms[to] & QCI_OPEN))
            to++;
        if (!fill_section(&sections[n], forms + from, to - from)) {
            qci_sections_destroy(sections, n);
            return qci_no_memory(err);
        }
        n++;
    }
    while (square < n &&
           !qci_form_is_alone(first_form(demand, &sections[square])))
        square++;
    sort_sections(demand, sections, square);
    n = join_turned(demand, sections, square, n);
    *count = join_equal(demand, sections, n);
    *out = sections;
    return QC_STATUS_OK;
}

qci_section *qci_sections_copy(const qci_section *sections, size_t count)
{
    qci_section *copy = qci_copy(sections, count, sizeof *sections);

    if (!copy)
        return NULL;
    for (size_t i = 0; i < count; i++)
        copy[i].stacks = NULL;
    for (size_t i = 0; i < count; i++) {
        copy[i].stacks =
            qci_copy(sections[i].stacks, (size_t)sections[i].stack_count,
                     sizeof *sections[i].stacks);
        if (!copy[i].stacks) {
            qci_sections_destroy(copy, count);
            return NULL;
        }
    }
    return copy;
}

void qci_sections_destroy(qci_section *sections, size_t count)
{
    for (size_t i = 0; i < count; i++)
        qci_free(sections[i].stacks);
    qci_free(sections);
}

/* Cuts that one pile takes for a section: its pieces and trims. */
static int64_t section_cuts(const qci_demand *demand, const qci_strip *strip,
                            const qci_section *section)
{
    qc_length width = qci_section_width(demand, section), height = 0;
    int64_t cuts = 0;

    if (qci_form_is_alone(first_form(demand, section)))
        return first_form(demand, section)->corners;
    for (int32_t i = 0; i < section->stack_count; i++) {
        const qci_form *form = &demand->forms[section->stacks[i].form];
        int32_t count = section->stacks[i].count;

        height += count * form->height;
        cuts += form->width < width ? 2 * count : count;
    }
    return height == strip->height ? cuts - 1 : cuts;
}

int64_t qci_strip_cuts(const qci_demand *demand, const qci_strip *strip)
{
    int64_t layers = demand->layers;
    int64_t cuts = 1 + wedge_cuts(demand, strip), piles;

    if (strip->paired)
        layers -= layers % 2;
    piles = (strip->repeat + layers - 1) / layers;
    for (size_t i = 0; i < strip->section_count; i++)
        cuts += strip->sections[i].count *
                (1 + section_cuts(demand, strip, &strip->sections[i]));
    return strip->repeat + piles * cuts;
}

/* Cloths of a row in a strip that each yield several pieces; *each is how
 * many. */
static int64_t squares_in(const qci_demand *demand, const qci_strip *strip,
                          int32_t row, int32_t *each)
{
    int64_t n = 0;

    for (size_t i = 0; i < strip->section_count; i++)
        for (int32_t k = 0; k < strip->sections[i].stack_count; k++) {
            const qci_stack *stack = &strip->sections[i].stacks[k];
            const qci_form *form = &demand->forms[stack->form];

            if (form->row != row || form->yields == 1)
                continue;
            n += (int64_t)strip->sections[i].count * stack->count;
            *each = form->yields;
        }
    return n;
}

int64_t qci_diagonal_cuts(const qci_demand *demand, const qci_packing *packing)
{
    int64_t cuts = 0;

    for (int32_t row = 0; row < (int32_t)demand->row_count; row++) {
        int64_t squares = 0;
        int32_t each = 1;

        for (size_t i = 0; i < packing->strip_count; i++)
            squares += packing->strips[i].repeat *
                       squares_in(demand, &packing->strips[i], row, &each);
        cuts += (squares + demand->layers - 1) / demand->layers * (each / 2);
    }
    return cuts;
}
