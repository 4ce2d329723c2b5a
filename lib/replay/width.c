/* The steps of one fabric on narrower or wider cloth.
 *
 * The plan has been carried out as it is, so that its sums are known to be
 * right; what is kept, and the areas, are others on another width and are not
 * looked at. All else is: a step that does not come out is found as ever. How
 * many sections it lacks is told by trying it with fewer cuts, by halves. The
 * cost is that of so many replays of the fabric.
 */
#include "base/error.h"
#include "replay/replay.h"
#include "replay/state.h"

/* The first step that is rejected; step `changed` makes `repeat` cuts. QC_NONE:
 * none is. */
static qc_status first_short(const qc_plan *plan, uint32_t fabric,
                             qc_length width, uint32_t changed, uint32_t repeat,
                             uint32_t *first, qc_error *err)
{
    qc_error found;
    qci_replay replay = {.plan = plan, .err = &found, .width = width};
    qc_status status = QC_STATUS_OK;

    qc_error_init(&found);
    *first = QC_NONE;
    replay.pieces = qci_calloc(plan->piece_count, sizeof *replay.pieces);
    status = replay.pieces ? qci_replay_begin(&replay, fabric)
                           : qci_no_memory(&found);
    for (uint32_t i = 0; i < plan->step_count && !status; i++) {
        qc_step step = plan->steps[i];

        if (step.fabric != fabric)
            continue;
        if (i == changed)
            step.repeat = repeat;
        status = qci_replay_step(&replay, &step);
        if (status == QC_STATUS_REJECTED)
            *first = i;
    }
    qci_free(replay.pieces);
    qci_free(replay.to_keep);
    qci_vec_clear(&replay.parts);
    return status == QC_STATUS_NO_MEMORY ? qci_no_memory(err) : QC_STATUS_OK;
}

qc_status qci_replay_on(const qc_plan *plan, uint32_t fabric, qc_length width,
                        qci_lack *out, qc_error *err)
{
    uint32_t gives = 0, asked, first;
    qc_status status =
        first_short(plan, fabric, width, QC_NONE, 0, &out->step, err);

    out->count = 0;
    if (status || out->step == QC_NONE)
        return status;
    asked = plan->steps[out->step].repeat;
    while (asked - gives > 1 && !status) {
        uint32_t tried = gives + (asked - gives) / 2;

        status =
            first_short(plan, fabric, width, out->step, tried, &first, err);
        if (first == out->step)
            asked = tried;
        else
            gives = tried;
    }
    asked = plan->steps[out->step].repeat;
    out->count = plan->steps[out->step].copies * (asked - gives);
    return status;
}
