/* The left hand cuts from the right end to the left.
 *
 * Where every slanted section may lie as its own mirror image, the strip is cut
 * in the mirror: the same rulers, the angles leaning the other way. That goes
 * for shapes without a hand where print and grain allow it, and for strips
 * that lie right sides together, whose pieces come in both hands in any case.
 * Else the pieces stay as they lie, and are cut in the opposite order. Both
 * take the same width: the wedges are the same ones. */
#include "solve/left.h"

#include "base/alloc.h"
#include "pack/sections.h"

/* What a form becomes in the mirror; -1: nothing that may lie there. */
static int32_t mirrored_form(const qci_demand *demand, const qci_strip *strip,
                             int32_t form)
{
    const qci_form *f = &demand->forms[form];
    int32_t other;

    if (!qci_form_is_alone(f))
        return form;
    other = qci_demand_mirror(demand, form,
                              strip->paired ? demand->twin[f->row] : f->row);
    /* It must be trimmed by as many cuts. */
    return other < 0 || demand->forms[other].corners != f->corners ? -1 : other;
}

static bool can_mirror(const qci_demand *demand, const qci_strip *strip)
{
    for (size_t i = 0; i < strip->section_count; i++)
        if (mirrored_form(demand, strip, strip->sections[i].stacks[0].form) < 0)
            return false;
    return true;
}

static void mirror(const qci_demand *demand, const qci_strip *strip,
                   qci_section *sections)
{
    for (size_t i = 0; i < strip->section_count; i++)
        if (qci_form_is_alone(&demand->forms[sections[i].stacks[0].form]))
            sections[i].stacks[0].form =
                mirrored_form(demand, strip, sections[i].stacks[0].form);
}

static int32_t turned_form(const qci_demand *demand, int32_t form)
{
    for (size_t i = 0; i < demand->form_count; i++)
        if (qci_form_is_turned(&demand->forms[i], &demand->forms[form]))
            return (int32_t)i;
    return form;
}

/* Exchanges the order of the slanted sections; a run of turned ones begins with
 * what was its last. */
static void reverse(const qci_demand *demand, qci_section *sections,
                    size_t count)
{
    size_t from = 0;

    while (from < count &&
           !qci_form_is_alone(&demand->forms[sections[from].stacks[0].form]))
        from++;
    for (size_t i = from, j = count; i + 1 < j; i++) {
        qci_section moved = sections[i];

        sections[i] = sections[--j];
        sections[j] = moved;
    }
    for (size_t i = from; i < count; i++)
        if (sections[i].alternate && sections[i].count % 2 == 0)
            sections[i].stacks[0].form =
                turned_form(demand, sections[i].stacks[0].form);
}

qci_section *qci_left_sections(const qci_demand *demand, const qci_strip *strip)
{
    qci_section *sections =
        qci_sections_copy(strip->sections, strip->section_count);

    if (!sections)
        return NULL;
    if (can_mirror(demand, strip))
        mirror(demand, strip, sections);
    else
        reverse(demand, sections, strip->section_count);
    return sections;
}
