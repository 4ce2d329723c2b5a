#include "pack/sections.h"

#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "pack/pattern.h"

qc_length qci_section_width(const qci_demand *demand,
                            const qci_section *section)
{
    qc_length width = 0;

    for (int32_t i = 0; i < section->stack_count; i++)
        if (demand->forms[section->stacks[i].form].width > width)
            width = demand->forms[section->stacks[i].form].width;
    return width;
}

qc_length qci_sections_width(const qci_demand *demand, const qci_strip *strip)
{
    qc_length width = 0;

    for (size_t i = 0; i < strip->section_count; i++)
        width += strip->sections[i].count *
                 qci_section_width(demand, &strip->sections[i]);
    return width;
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

static size_t join_equal(const qci_demand *demand, qci_section *sections,
                         size_t count)
{
    size_t n = 0;

    for (size_t i = 0; i < count; i++) {
        if (n && !compare_stacks(demand, &sections[n - 1], &sections[i])) {
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
    size_t n = 0;

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
    sort_sections(demand, sections, n);
    *count = join_equal(demand, sections, n);
    *out = sections;
    return QC_STATUS_OK;
}

void qci_sections_destroy(qci_section *sections, size_t count)
{
    for (size_t i = 0; i < count; i++)
        qci_free(sections[i].stacks);
    qci_free(sections);
}

bool qci_sections_within(const qci_demand *demand, const qci_strip *part,
                         const qci_strip *whole)
{
    for (size_t i = 0; i < part->section_count; i++) {
        bool found = false;

        for (size_t j = 0; j < whole->section_count && !found; j++)
            found = !compare_stacks(demand, &part->sections[i],
                                    &whole->sections[j]) &&
                    part->sections[i].count <= whole->sections[j].count;
        if (!found)
            return false;
    }
    return true;
}

/* Cuts that one pile takes for a section: its pieces and trims. */
static int64_t section_cuts(const qci_demand *demand, const qci_strip *strip,
                            const qci_section *section)
{
    qc_length width = qci_section_width(demand, section), height = 0;
    int64_t cuts = 0;

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
    int64_t piles = (strip->repeat + demand->layers - 1) / demand->layers;
    int64_t cuts = 1;

    for (size_t i = 0; i < strip->section_count; i++)
        cuts += strip->sections[i].count *
                (1 + section_cuts(demand, strip, &strip->sections[i]));
    return strip->repeat + piles * cuts;
}

int64_t qci_diagonal_cuts(const qci_demand *demand)
{
    int64_t cuts = 0;

    for (size_t row = 0; row < demand->row_count; row++)
        cuts += (demand->count[row] + demand->layers - 1) / demand->layers *
                (demand->yield[row] / 2);
    return cuts;
}
