/* What sentences are made of. Lengths are written as they are read on a ruler;
 * every part bears a name that says where it was cut from.
 */
#include "order/say.h"

#include <inttypes.h>

/* Room for any length, or for a part's letters. */
#define READING_SIZE 64

static void put_number(qci_text *text, qc_length length, const qci_origin *from)
{
    char reading[READING_SIZE];

    qc_length_format(length, from->plan->units, reading, sizeof reading);
    qci_text_printf(text, "%s", reading);
}

void qci_say_length(qci_text *text, qc_length length, const qci_origin *from)
{
    static const char *const units[] = {
        [QC_UNITS_IN] = "in", [QC_UNITS_CM] = "cm", [QC_UNITS_MM] = "mm"};

    put_number(text, length, from);
    qci_text_printf(text, " %s", units[from->plan->units]);
}

void qci_say_size(qci_text *text, qc_length across, qc_length along,
                  const qci_origin *from)
{
    put_number(text, across, from);
    qci_text_printf(text, " x ");
    qci_say_length(text, along, from);
}

void qci_say_count(qci_text *text, int64_t count, const char *noun)
{
    qci_text_printf(text, "%" PRId64 " %s%s", count, noun,
                    count == 1 ? "" : "s");
}

/* a to z, then aa, ab, ...; as many as there can be subcuts. */
static void put_letters(qci_text *text, size_t index)
{
    char letters[READING_SIZE];
    size_t at = sizeof letters - 1;

    letters[at] = '\0';
    for (size_t left = index + 1; left > 0; left = (left - 1) / 26)
        letters[--at] = (char)('a' + (left - 1) % 26);
    qci_text_printf(text, "%s", &letters[at]);
}

void qci_say_section(qci_text *text, const qci_origin *from)
{
    qci_text_printf(text, "section %zu", from->strip + 1);
    put_letters(text, from->section);
}

void qci_say_slice(qci_text *text, const qci_origin *from)
{
    qci_text_printf(text, "slice %zu", from->strip + 1);
    put_letters(text, from->section);
    qci_text_printf(text, "%zu", from->slice + 1);
}

void qci_say_source(qci_text *text, const qc_step *step, const qci_origin *from)
{
    switch (step->kind) {
    case QC_STEP_SPLIT:
        qci_say_section(text, from);
        break;
    case QC_STEP_TRIM:
        qci_say_slice(text, from);
        break;
    case QC_STEP_DIAGONAL:
        qci_text_printf(text, "squares for %s",
                        from->plan->pieces[step->piece].id);
        break;
    case QC_STEP_SQUARE_UP:
    case QC_STEP_STRIP:
    case QC_STEP_SQUARE_END:
    case QC_STEP_SUBCUT:
    case QC_STEP_SLANT:
    case QC_STEP_KEEP:
        if (step->part_in == 0)
            qci_text_printf(text, "bolt");
        else /* strips are the parts from 1 on, in the plan's order */
            qci_text_printf(text, "strip %" PRIu32, step->part_in);
        break;
    case QC_STEP_OUTLINE:
    case QC_STEP_SEW:
    case QC_STEP_CROSSCUT:
    case QC_STEP_HALVE:
    case QC_STEP_TRIM_BACK:
        break;
    }
}
