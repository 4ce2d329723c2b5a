/* The length that the steps take off each bolt, against what the pattern tells
 * people to buy: as the steps are written, and with the strips that are missing
 * from them. */
#include "check/result.h"

#include "job/check.h"
#include "job/purchase.h"

qc_length qci_check_used(const qci_run *run, uint32_t fabric)
{
    qci_wide used = run->taken[fabric];

    if (used)
        used += run->of->job->fabrics[fabric].square_up;
    return used > QC_LENGTH_MAX ? -1 : (qc_length)used;
}

typedef struct bolt {
    const qci_checker *c;
    const qci_fabric *fabric;
    uint32_t index;
    qc_length claimed;
    qc_length covers; /* of strips and squaring-up, once it has shrunk */
    const qc_check_width *stated;
} bolt;

/* The first step whose strips do not come out of what was bought. */
static uint32_t first_beyond(const bolt *b)
{
    const qc_instructions *of = b->c->of;
    qci_wide used = b->fabric->square_up;

    for (uint32_t i = 0; i < of->step_count; i++) {
        const qci_instruction *step = &of->steps[i];

        if (step->kind != QC_INSTRUCTION_STRIPS || step->fabric != b->index)
            continue;
        used += (qci_wide)step->count * step->size;
        if (used > b->covers)
            return i;
    }
    return QC_NONE;
}

static void say_claim(qci_text *words, const bolt *b)
{
    qc_units units = b->c->of->job->units;

    qci_check_say_bought(words, b->claimed, units);
    qci_text_printf(words, " is claimed");
    if (b->covers != b->claimed)
        qci_text_printf(words, ", which shrinks to %s",
                        qci_show(b->covers, units).text);
}

static void say_squaring(qci_text *words, const bolt *b)
{
    if (b->fabric->square_up)
        qci_text_printf(
            words, " with %s for squaring up",
            qci_show(b->fabric->square_up, b->c->of->job->units).text);
}

static void say_right(qci_text *words, const bolt *b)
{
    if (b->stated->bought < 0)
        return;
    qci_text_printf(words, "; right would be ");
    qci_check_say_bought(words, b->stated->bought, b->c->of->job->units);
}

static qc_status find_short(const bolt *b)
{
    qc_units units = b->c->of->job->units;
    bool as_written = b->stated->used > b->covers;
    qc_length used = as_written ? b->stated->used : b->stated->needed;
    uint32_t step = as_written ? first_beyond(b) : QC_NONE;
    qci_text words = {0};

    qci_text_printf(&words, "%s takes %s", b->fabric->name,
                    qci_show(used, units).text);
    say_squaring(&words, b);
    if (!as_written)
        qci_text_printf(&words, " and the strips that are missing");
    qci_text_printf(&words, "; ");
    say_claim(&words, b);
    qci_text_printf(&words, ": %s short",
                    qci_show(used - b->covers, units).text);
    say_right(&words, b);
    return qci_checker_add(b->c,
                           (qc_finding){.kind = QC_FINDING_SHORT_FABRIC,
                                        .by = {used - b->covers, 0}},
                           step, b->index, QC_NONE, &words);
}

static qc_status find_over(const bolt *b)
{
    qc_units units = b->c->of->job->units;
    qc_length over = b->claimed - b->stated->bought;
    qci_text words = {0};

    qci_text_printf(&words, "%s takes %s", b->fabric->name,
                    qci_show(b->stated->needed, units).text);
    say_squaring(&words, b);
    qci_text_printf(&words, "; ");
    say_claim(&words, b);
    qci_text_printf(&words, ": %s more than ", qci_show(over, units).text);
    qci_check_say_bought(&words, b->stated->bought, units);
    qci_text_printf(&words, ", which would do");
    return qci_checker_add(
        b->c, (qc_finding){.kind = QC_FINDING_OVER_FABRIC, .by = {over, 0}},
        QC_NONE, b->index, QC_NONE, &words);
}

qc_status qci_check_yardage(const qci_checker *c)
{
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; i < c->of->job->fabric_count && !status; i++) {
        const qci_fabric *fabric = &c->of->job->fabrics[i];
        qci_purchase purchase = {fabric->step, fabric->shrink_length};
        bolt b = {
            c, fabric, i, c->of->claimed[i], 0, &c->check->fabrics[i].stated};

        if (b.claimed == QC_DEFAULT)
            continue;
        b.covers = qci_purchase_covers(purchase, b.claimed);
        if (b.stated->used > b.covers || b.stated->needed > b.covers)
            status = find_short(&b);
        else if (b.stated->bought >= 0 && b.stated->bought < b.claimed)
            status = find_over(&b);
    }
    return status;
}
