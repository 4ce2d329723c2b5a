/* Names of cloth: what a step gives is called so by later ones. A name stands
 * for one kind of cloth, of one fabric; several steps may add to it. Names are
 * compared one by one: there are at most QC_MAX_INSTRUCTIONS of them. */
#include "check/given.h"

#include <string.h>

#include "base/alloc.h"
#include "base/error.h"

/* The index of a name that an earlier step gave; QC_NONE. */
static uint32_t index_of(const qc_instructions *made, const char *name)
{
    for (size_t i = 0; i < made->name_count; i++)
        if (strcmp(made->names[i].name, name) == 0)
            return (uint32_t)i;
    return QC_NONE;
}

qc_status qci_given_name(const qci_given *e, const char *member,
                         const char *word, uint32_t *name)
{
    const qc_instructions *made = e->made;
    const char *known[QC_MAX_INSTRUCTIONS];

    if (!word)
        return qci_given_fail(
            e, member, NULL, "a name that a step before it gave", "is missing");
    *name = index_of(made, word);
    if (*name != QC_NONE)
        return QC_STATUS_OK;
    for (size_t i = 0; i < made->name_count; i++)
        known[i] = made->names[i].name;
    return qci_given_unknown(e, member, word, known, made->name_count,
                             "no step before it gave this name");
}

static qci_named_kind kind_of(const qci_instruction *step)
{
    switch (step->kind) {
    case QC_INSTRUCTION_STRIPS:
        return QCI_NAMED_STRIPS;
    case QC_INSTRUCTION_SEW:
        return QCI_NAMED_SETS;
    default:
        return QCI_NAMED_SECTIONS;
    }
}

static qc_status check_named(const qci_given *e, const qci_named *known)
{
    static const char *const are[] = {
        [QCI_NAMED_STRIPS] = "is already the name of whole strips",
        [QCI_NAMED_SECTIONS] = "is already the name of what is cut from strips",
        [QCI_NAMED_SETS] = "is already the name of sewn sets"};

    if (known->kind != kind_of(e->step))
        return qci_given_fail(e, "name", e->spec->name, "a name of its own",
                              are[known->kind]);
    if (known->fabric != e->step->fabric)
        return qci_given_fail(
            e, "name", e->spec->name, "a name of its own",
            "is already the name of what is cut from another fabric");
    if (e->step->from == e->step->gives)
        return qci_given_fail(e, "name", e->spec->name, "a name of its own",
                              "is also the name of what is cut");
    return QC_STATUS_OK;
}

qc_status qci_given_give_name(const qci_given *e)
{
    qc_instructions *made = e->made;
    const char *name = e->spec->name;
    qci_named *new = &made->names[made->name_count];
    qc_status status;

    if (!name)
        return QC_STATUS_OK;
    status = qci_check_text(e->check, qci_given_path(e, "name").text, name, 1);
    if (status)
        return status;
    e->step->gives = index_of(made, name);
    if (e->step->gives != QC_NONE)
        return check_named(e, &made->names[e->step->gives]);
    new->name = qci_strdup(name);
    if (!new->name)
        return qci_no_memory(e->check->err);
    new->fabric = e->step->fabric;
    new->origin = (uint32_t)e->index;
    new->kind = kind_of(e->step);
    e->step->gives = (uint32_t)made->name_count++;
    return QC_STATUS_OK;
}
