/* What each strip is cut into, in one line: the plan at a glance, before the
 * cut order goes through it step by step.
 *
 * Leans are told as they are seen by somebody who has the strip before them,
 * its length going up; a left-handed plan measures from the right end, so that
 * what runs away from it there slants to the left. A pair of strips, right
 * sides together, is told by its lower one, and counted together with the
 * upper one. */
#include <inttypes.h>

#include "length/units.h"
#include "report/layout.h"
#include "report/phrase.h"
#include "report/section.h"
#include "shape/shape.h"

static void note_subcut(qci_contents *contents, const qc_plan *plan,
                        const qc_subcut *subcut)
{
    contents->slanted |= subcut->lean[0] != 0 || subcut->lean[1] != 0;
    for (size_t i = 0; i < subcut->stack_count; i++) {
        const qc_stack *run = &subcut->stacks[i];

        contents->squares |= run->yields > 1;
        contents->single |=
            run->yields == 1 &&
            qci_shape_yields(plan->pieces[run->piece].shape) > 1;
    }
}

qci_contents qci_contents_of(const qc_plan *plan)
{
    qci_contents contents = {0};

    for (size_t i = 0; i < plan->fabric_count; i++) {
        const qci_plan_fabric *each = &plan->fabrics[i];

        for (size_t k = 0; k < each->info.strip_count; k++) {
            const qc_strip *strip = &each->strips[k];

            contents.paired |= strip->paired;
            for (size_t s = 0; s < strip->subcut_count; s++)
                note_subcut(&contents, plan, &strip->subcuts[s]);
        }
    }
    return contents;
}

/* How sections stand, or nothing where they are upright. */
static const char *stance(const qc_plan *plan, const qc_subcut *subcut)
{
    qc_length first = subcut->lean[0], last = subcut->lean[1];

    if (first == 0 && last == 0)
        return "";
    if (subcut->alternate)
        return "alternately turned";
    if (first != last)
        return first > last ? "wide side down" : "wide side up";
    return (first > 0) != plan->left_handed ? "slanting right"
                                            : "slanting left";
}

/* How pieces lie that are neither slanted nor trimmed. */
static const char *turned(const qc_stack *run)
{
    switch (run->turn) {
    case QC_TURN_QUARTER:
    case QC_TURN_THREE_QUARTERS:
        return "turned a quarter";
    case QC_TURN_HALF:
        return "turned halfway round";
    case QC_TURN_NONE:
        break;
    }
    return "";
}

/* " (slanting right, then trimmed to the outline)" */
static void add_stance(qci_text *text, const qc_plan *plan,
                       const qc_subcut *subcut, const qc_stack *run)
{
    const char *how = stance(plan, subcut);

    if (!how[0] && !subcut->corners)
        how = turned(run);
    if (!how[0] && !subcut->corners)
        return;
    qci_text_printf(text, " (%s%s%s)", how,
                    how[0] && subcut->corners ? ", " : "",
                    subcut->corners ? "then trimmed to the outline" : "");
}

static void add_count(qci_text *text, const qc_plan *plan, const qc_stack *run,
                      int64_t count)
{
    const char *id = plan->pieces[run->piece].id;

    if (run->yields > 1)
        qci_text_printf(text, "%s for %s",
                        qci_phrase_count(count, "square").text, id);
    else
        qci_text_printf(text, "%" PRId64 " %s", count, id);
}

/* One piece a section. */
static void add_single(qci_text *text, const qc_plan *plan,
                       const qc_strip *strip, const qc_subcut *subcut)
{
    const qc_stack *run = &subcut->stacks[0];
    uint32_t twin = plan->pieces[run->piece].twin;
    bool two_hands = strip->paired && twin != run->piece && twin != QC_NONE;

    add_count(text, plan, run,
              strip->paired && !two_hands ? 2 * (int64_t)subcut->count
                                          : subcut->count);
    if (two_hands)
        qci_text_printf(text, " and %" PRIu32 " %s", subcut->count,
                        plan->pieces[twin].id);
    add_stance(text, plan, subcut, run);
}

/* "2 sections 10 in wide, in each from the lower edge up 1 rail, 2 corner" */
static void add_sections(qci_text *text, const qc_plan *plan,
                         const qc_strip *strip, const qc_subcut *subcut)
{
    int64_t count = (strip->paired ? 2 : 1) * (int64_t)subcut->count;

    qci_text_printf(text, "%s %s wide, %s from the lower edge up ",
                    qci_phrase_count(count, "section").text,
                    qci_phrase_length(plan, subcut->width).text,
                    count == 1 ? "in it" : "in each");
    for (size_t i = 0; i < subcut->stack_count; i++) {
        qci_text_printf(text, "%s", i ? ", " : "");
        add_count(text, plan, &subcut->stacks[i], subcut->stacks[i].count);
        add_stance(text, plan, subcut, &subcut->stacks[i]);
    }
}

static bool is_single(const qc_subcut *subcut)
{
    return subcut->stack_count == 1 && subcut->stacks[0].count == 1;
}

/* Sections from `at` on that would be one subcut, but for the wedges. */
static size_t count_alike(const qc_strip *strip, size_t at)
{
    const qc_subcut *first = &strip->subcuts[at];
    const qc_stack *a = &first->stacks[0];
    size_t n = 1;

    if (!is_single(first) || first->alternate)
        return 1;
    for (; at + n < strip->subcut_count; n++) {
        const qc_subcut *next = &strip->subcuts[at + n];
        const qc_stack *b = &next->stacks[0];

        if (!is_single(next) || next->alternate ||
            next->count != first->count || next->width != first->width ||
            next->lean[0] != first->lean[0] ||
            next->lean[1] != first->lean[1] || a->piece != b->piece ||
            a->turn != b->turn || a->base != b->base ||
            a->mirrored != b->mirrored)
            break;
    }
    return n;
}

static void add_strip(qci_table *table, const qc_plan *plan,
                      const qci_plan_fabric *fabric, size_t index)
{
    const qc_strip *strip = &fabric->strips[index];
    qci_text text = {0};

    if (strip->paired)
        qci_text_printf(&text, "in twos, right sides together; each two give ");
    else if (qci_strip_has_hand(plan, strip))
        qci_text_printf(&text, "all right side up: ");
    for (size_t i = 0, alike; i < strip->subcut_count; i += alike) {
        qc_subcut subcut = strip->subcuts[i];

        alike = count_alike(strip, i);
        subcut.count *= (uint32_t)alike;
        qci_text_printf(&text, "%s", i ? ", then " : "");
        if (is_single(&subcut))
            add_single(&text, plan, strip, &subcut);
        else
            add_sections(&text, plan, strip, &subcut);
        if (alike > 1)
            qci_text_printf(&text, " with a wedge between every two");
    }
    if (strip->alike || strip->cut_short)
        qci_text_printf(&text,
                        strip->alike ? ": cut as strip %zu"
                                     : ": strip %zu, but only in part",
                        qci_strip_setup(fabric->strips, index) + 1);
    qci_table_add(table, "%s", text.size ? text.bytes : "");
    table->cells.failed |= text.failed;
    qci_text_clear(&text);
}

static void put_fabric_strips(qci_text *out, const qc_plan *plan,
                              const qci_plan_fabric *fabric)
{
    qci_table table = {.align = "rrll"};

    qci_table_add(&table, "strip");
    qci_table_add(&table, "count");
    qci_table_add(&table, "height, %s", qci_units_name(plan->units));
    qci_table_add(&table, "one gives");
    for (size_t i = 0; i < fabric->info.strip_count; i++) {
        const qc_strip *strip = &fabric->strips[i];
        char number[QCI_LENGTH_TEXT];

        qc_length_format(strip->height, plan->units, number, sizeof number);
        qci_table_add(&table, "%zu", i + 1);
        qci_table_add(&table, "%" PRIu32, strip->repeat);
        qci_table_add(&table, "%s", number);
        add_strip(&table, plan, fabric, i);
    }
    qci_put_paragraph(out, 2, fabric->info.name);
    qci_table_put(&table, out, 4);
}

void qci_put_strips(qci_text *out, const qc_plan *plan)
{
    qci_contents contents = qci_contents_of(plan);
    qci_text intro = {0};

    qci_put_heading(out, "WHAT THE STRIPS GIVE");
    qci_text_printf(&intro, "From the squared %s end on.",
                    plan->left_handed ? "right" : "left");
    if (contents.slanted)
        qci_text_printf(&intro, " Slants are seen with the strip's length "
                                "going up.");
    if (contents.paired)
        qci_text_printf(&intro, " Strips in twos lie right sides together, the "
                                "lower one right side up: what is cut from "
                                "the upper one is the mirror image of what is "
                                "cut from the lower one.");
    qci_put_collected(out, 2, &intro);
    for (size_t i = 0; i < plan->fabric_count; i++) {
        if (plan->fabrics[i].info.bought > 0)
            put_fabric_strips(out, plan, &plan->fabrics[i]);
    }
}
