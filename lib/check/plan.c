/* A plan as instructions: its steps are carried out by the replay, which looks
 * at everything that the plan says, and stops at the first thing that is not
 * so. What the plan buys is the claim. That it is the least is not looked at,
 * and not repeated: the steps do not tell. */
#include "check/result.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "replay/replay.h"

static qc_status set_fabric(const qc_plan_fabric *info, qc_check_fabric *out,
                            qc_error *err)
{
    out->id = qci_strdup(info->id);
    out->name = qci_strdup(info->name);
    out->stated.text = qci_strdup("");
    if (!out->id || !out->name || !out->stated.text)
        return qci_no_memory(err);
    out->claimed = info->bought;
    out->square_up = info->square_up;
    out->stated.width = info->usable_width;
    out->stated.used = out->stated.needed = info->used;
    out->stated.bought = info->bought;
    out->of_plan = true;
    return QC_STATUS_OK;
}

/* The replay names a step as "step 7", anything else by its path. */
static uint32_t step_of(const char *field)
{
    return strncmp(field, "step ", 5) == 0
               ? (uint32_t)strtoul(field + 5, NULL, 10)
               : 0;
}

static qc_status add_fault(qc_check *check, const qc_error *found,
                           qc_error *err)
{
    qc_finding finding = {.kind = QC_FINDING_PLAN,
                          .is_fault = true,
                          .step = step_of(found->field)};
    qci_text words = {0};

    qci_text_printf(&words, "the plan does not come out: %s%s%s",
                    finding.step ? "" : found->field, finding.step ? "" : ": ",
                    found->problem);
    finding.text = qci_text_take(&words);
    if (!finding.text || !qci_vec_push(&check->findings, finding)) {
        qci_free((void *)finding.text);
        return qci_no_memory(err);
    }
    return QC_STATUS_OK;
}

/* "step 7: 12 A short" */
static char *say_lack(const qc_plan *plan, const qci_lack *lack)
{
    const qc_step *step = &plan->steps[lack->step];
    qci_text words = {0};

    qci_text_printf(&words, "step %" PRIu32 ": ", step->number);
    if (step->piece != QC_NONE)
        qci_text_printf(&words, "%" PRId64 " %s", lack->count,
                        plan->pieces[step->piece].id);
    else
        qci_check_say_count(&words, lack->count,
                            step->part_out != QC_NONE ? "section" : "strip");
    qci_text_printf(&words, " short");
    return qci_text_take(&words);
}

static qc_status try_width(const qc_plan *plan, uint32_t fabric,
                           qc_check_width *out, qc_error *err)
{
    const qc_plan_fabric *info = &plan->fabrics[fabric].info;
    qci_lack lack;
    qc_status status = qci_replay_on(plan, fabric, out->width, &lack, err);

    if (status)
        return status;
    out->used = info->used;
    out->needed = lack.count ? QC_DEFAULT : info->used;
    out->bought = lack.count ? QC_DEFAULT : info->bought;
    out->missing = lack.count;
    out->text = lack.count ? say_lack(plan, &lack) : qci_strdup("");
    return out->text ? QC_STATUS_OK : qci_no_memory(err);
}

static qc_status try_widths(const qc_plan *plan, qc_check *check, qc_error *err)
{
    qc_length widths[QCI_CHECK_WIDTHS];
    size_t count = qci_check_widths(plan->units, widths);
    qc_status status = qci_check_make_widths(check, count, err);

    for (uint32_t i = 0; i < check->fabric_count && !status; i++)
        for (size_t k = 0; k < count && !status; k++) {
            check->widths[i][k].width = widths[k];
            status = try_width(plan, i, &check->widths[i][k], err);
            if (!status)
                check->fabrics[i].width_count++;
        }
    return status;
}

qc_status qci_check_plan(const qc_plan *plan, qc_check *check, qc_error *err)
{
    qc_status status = QC_STATUS_OK;
    qc_error found;

    for (size_t i = 0; i < plan->fabric_count && !status; i++)
        status = set_fabric(&plan->fabrics[i].info, &check->fabrics[i], err);
    if (status)
        return status;
    qc_error_init(&found);
    status = qci_replay_plan(plan, &found);
    if (status == QC_STATUS_REJECTED)
        return add_fault(check, &found, err);
    if (status)
        return qci_no_memory(err);
    return try_widths(plan, check, err);
}
