/* The parts of a spec that concern the whole job: title, units, ruler, seam and
 * options. */
#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/alloc.h"
#include "job/check.h"

static const qci_range ruler_range = {1, 10 * QC_CM,
                                      "more than 0, up to 10 cm"};
static const qci_range seam_range = {0, 10 * QC_CM, "0 to 10 cm"};
static const qci_range keep_range = {1, QC_MAX_WIDTH,
                                     "more than 0, up to 10 m"};
static const qci_range stages_range = {2, 3, "2 or 3"};
static const qci_range layers_range = {1, 8, "1 to 8"};
static const qci_range spare_range = {0, QC_MAX_COUNT, "0 to 1000000000"};
static const qci_range percent_range = {0, 100000, "0 to 1000 per cent"};
static const qci_range time_range = {1, INT64_C(24) * 60 * 60 * 1000,
                                     "0.001 to 86400 seconds"};

static qc_status check_goals(const qci_check *check)
{
    static const qc_goal usual[] = {QC_GOAL_BOUGHT, QC_GOAL_SETUPS,
                                    QC_GOAL_CUTS, QC_GOAL_LEFTOVER};
    static const char allowed[] =
        "each at most once: bought, used, money, setups, cuts, leftover";
    const qc_job_spec *spec = check->spec;
    qc_job *job = check->job;
    bool seen[QC_GOAL_COUNT] = {false};

    if (!spec->goal_count) {
        memcpy(job->goals, usual, sizeof usual);
        job->goal_count = sizeof usual / sizeof *usual;
        return QC_STATUS_OK;
    }
    if (spec->goal_count > QC_GOAL_COUNT)
        return qci_fail(check->err, QC_STATUS_INVALID,
                        (qci_place){"options.objective", NULL}, allowed,
                        "has too many goals: %zu", spec->goal_count);
    for (size_t i = 0; i < spec->goal_count; i++) {
        qci_path path = qci_path_of("options.objective", i, NULL);
        int64_t goal = (int64_t)spec->goals[i];

        if (goal < 0 || goal >= QC_GOAL_COUNT || seen[goal])
            return qci_fail(check->err, QC_STATUS_INVALID,
                            (qci_place){path.text, NULL}, allowed, "%s",
                            goal < 0 || goal >= QC_GOAL_COUNT
                                ? "is no goal"
                                : "repeats a goal");
        seen[goal] = true;
        job->goals[job->goal_count++] = spec->goals[i];
    }
    return QC_STATUS_OK;
}

static qc_status check_spares(const qci_check *check)
{
    int64_t count = check->spec->spare_count;
    int32_t percent = check->spec->spare_percent;
    qc_status status = QC_STATUS_OK;

    if (count > 0 && percent > 0)
        return qci_fail(check->err, QC_STATUS_INVALID,
                        (qci_place){"options.spare", NULL}, NULL,
                        "is given both as a number and in per cent");
    if (count != QC_DEFAULT)
        status = qci_check_number(check, "options.spare", count, spare_range);
    if (!status && percent != QC_DEFAULT)
        status =
            qci_check_percent(check, "options.spare", percent, percent_range);
    return status;
}

static qc_status check_time(const qci_check *check)
{
    int64_t ms = check->spec->time_limit_ms;
    char shown[32];

    check->job->time_limit_ms =
        ms == QC_DEFAULT ? QCI_DEFAULT_TIME_LIMIT_MS : (int32_t)ms;
    if (ms == QC_DEFAULT || (ms >= time_range.least && ms <= time_range.most))
        return QC_STATUS_OK;
    snprintf(shown, sizeof shown, "%" PRId64 " ms", ms);
    return qci_fail(check->err, QC_STATUS_INVALID,
                    (qci_place){"options.time_limit", shown},
                    time_range.allowed, "is out of range");
}

static qc_length length_or(qc_length value, qc_length otherwise)
{
    return value == QC_DEFAULT ? otherwise : value;
}

static int32_t number_or(int32_t value, int32_t otherwise)
{
    return value == QC_DEFAULT ? otherwise : value;
}

static qc_status check_units(const qci_check *check)
{
    qc_units units = check->spec->units;

    if (units == QC_UNITS_DEFAULT)
        units = QC_UNITS_IN;
    if (units != QC_UNITS_IN && units != QC_UNITS_CM && units != QC_UNITS_MM)
        return qci_fail(check->err, QC_STATUS_INVALID,
                        (qci_place){"units", NULL}, "in, cm or mm",
                        "is no unit: %d", (int)units);
    check->job->units = units;
    return QC_STATUS_OK;
}

static qc_status copy_title(const qci_check *check)
{
    const char *title = check->spec->title ? check->spec->title : "";
    qc_status status = qci_check_text(check, "title", title, 0);

    if (status)
        return status;
    check->job->title = qci_strdup(title);
    return check->job->title ? QC_STATUS_OK : qci_no_memory(check->err);
}

qc_status qci_check_options(const qci_check *check)
{
    const qc_job_spec *spec = check->spec;
    qc_job *job = check->job;
    const qci_defaults *otherwise;
    qc_status status = check_units(check);

    if (status)
        return status;
    otherwise = qci_defaults_of(job->units);
    job->ruler = length_or(spec->ruler, otherwise->ruler);
    job->seam = length_or(spec->seam, otherwise->seam);
    job->keep = length_or(spec->keep, otherwise->keep);
    job->stages = number_or(spec->stages, QCI_DEFAULT_STAGES);
    job->layers = number_or(spec->layers, QCI_DEFAULT_LAYERS);
    job->no_trim = spec->no_trim;
    if ((status = copy_title(check)) ||
        (status = qci_check_length(check, "ruler", job->ruler, ruler_range)) ||
        (status = qci_check_length(check, "seam", job->seam, seam_range)) ||
        (status = check_goals(check)) ||
        (status = qci_check_number(check, "options.stages", job->stages,
                                   stages_range)) ||
        (status =
             qci_check_length(check, "options.keep", job->keep, keep_range)) ||
        (status = qci_check_number(check, "options.layers", job->layers,
                                   layers_range)) ||
        (status = check_spares(check)) || (status = check_time(check)))
        return status;
    return QC_STATUS_OK;
}
