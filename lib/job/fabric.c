/* The fabrics of a job. Their ids are compared pair by pair: at most 200. */
#include <string.h>

#include "base/alloc.h"
#include "job/check.h"

static const qci_range width_range = {1, QC_MAX_WIDTH,
                                      "more than 0, up to 10 m"};
static const qci_range step_range = {1, QC_MAX_WIDTH,
                                     "more than 0, up to 10 m"};
static const qci_range square_up_range = {0, QC_M, "0 to 1 m"};
static const qci_range shrink_range = {0, 9999, "0 to 99.99 per cent"};
static const qci_range price_range = {0, QC_MAX_PRICE,
                                      "0 to 10000 a yard or metre"};

typedef struct entry {
    const qci_check *check;
    const qc_fabric_spec *spec;
    size_t index;
    qci_fabric *fabric;
} entry;

static qci_path path_of(const entry *e, const char *member)
{
    return qci_path_of("fabrics", e->index, member);
}

static qc_status check_length(const entry *e, const char *member,
                              qc_length value, qci_range range)
{
    return qci_check_length(e->check, path_of(e, member).text, value, range);
}

static qc_status check_shrink(const entry *e, const char *member,
                              int32_t hundredths)
{
    if (hundredths == QC_DEFAULT)
        return QC_STATUS_OK;
    return qci_check_percent(e->check, path_of(e, member).text, hundredths,
                             shrink_range);
}

static qc_status check_unique(const entry *e)
{
    for (size_t i = 0; i < e->index; i++)
        if (strcmp(e->spec->id, e->check->spec->fabrics[i].id) == 0)
            return qci_fail(e->check->err, QC_STATUS_INVALID,
                            (qci_place){path_of(e, "id").text, e->spec->id},
                            "an id of its own for every fabric",
                            "is also the id of fabrics[%zu]", i);
    return QC_STATUS_OK;
}

static qc_status copy_texts(const entry *e)
{
    const char *name = e->spec->name ? e->spec->name : e->spec->id;
    qc_status status;

    if ((status =
             qci_check_text(e->check, path_of(e, "id").text, e->spec->id, 1)) ||
        (status = check_unique(e)) ||
        (status = qci_check_text(e->check, path_of(e, "name").text, name, 1)))
        return status;
    e->fabric->id = qci_strdup(e->spec->id);
    e->fabric->name = qci_strdup(name);
    return e->fabric->id && e->fabric->name ? QC_STATUS_OK
                                            : qci_no_memory(e->check->err);
}

/* Usable width: as given, or what washing leaves of the raw width (rounded
 * down: the cloth is never taken to be wider than it is), or the default. */
static qc_status set_width(const entry *e)
{
    const qc_fabric_spec *spec = e->spec;
    int64_t shrink = spec->shrink_width == QC_DEFAULT ? 0 : spec->shrink_width;
    qc_length otherwise = qci_defaults_of(e->check->job->units)->width;
    qc_status status;

    if (spec->raw_width == QC_DEFAULT) {
        e->fabric->width = spec->width == QC_DEFAULT ? otherwise : spec->width;
        return check_length(e, "width", e->fabric->width, width_range);
    }
    if (spec->width != QC_DEFAULT)
        return qci_fail(e->check->err, QC_STATUS_INVALID,
                        (qci_place){path_of(e, "raw_width").text, NULL},
                        "width (as cut) or raw_width (before washing)",
                        "is given beside width");
    status = check_length(e, "raw_width", spec->raw_width, width_range);
    if (status)
        return status;
    e->fabric->width = spec->raw_width * (10000 - shrink) / 10000;
    if (e->fabric->width == 0)
        return qci_fail(e->check->err, QC_STATUS_INVALID,
                        (qci_place){path_of(e, "raw_width").text, NULL}, NULL,
                        "leaves no width after shrinkage");
    return QC_STATUS_OK;
}

static qc_status set_print(const entry *e)
{
    qc_print print = e->spec->print;

    if (print == QC_PRINT_DEFAULT)
        print = QC_PRINT_PLAIN;
    if (print != QC_PRINT_PLAIN && print != QC_PRINT_ONE_WAY &&
        print != QC_PRINT_TWO_WAY && print != QC_PRINT_REVERSIBLE)
        return qci_fail(e->check->err, QC_STATUS_INVALID,
                        (qci_place){path_of(e, "print").text, NULL},
                        "plain, one-way, two-way or reversible",
                        "is no print: %d", (int)print);
    e->fabric->print = print;
    return QC_STATUS_OK;
}

static bool price_is_needed(const qc_job *job)
{
    for (size_t i = 0; i < job->goal_count; i++)
        if (job->goals[i] == QC_GOAL_MONEY)
            return true;
    return false;
}

static qc_status set_price(const entry *e)
{
    qci_path path = path_of(e, "price");

    e->fabric->price = e->spec->price;
    if (e->spec->price != QC_DEFAULT)
        return qci_check_number(e->check, path.text, e->spec->price,
                                price_range);
    if (price_is_needed(e->check->job))
        return qci_fail(e->check->err, QC_STATUS_INVALID,
                        (qci_place){path.text, NULL}, NULL,
                        "is missing, and the objective has money in it");
    return QC_STATUS_OK;
}

static qc_status check_fabric(const entry *e)
{
    const qc_fabric_spec *spec = e->spec;
    qci_fabric *fabric = e->fabric;
    const qci_defaults *otherwise = qci_defaults_of(e->check->job->units);
    qc_status status;

    fabric->step = spec->step == QC_DEFAULT ? otherwise->step : spec->step;
    fabric->square_up =
        spec->square_up == QC_DEFAULT ? otherwise->square_up : spec->square_up;
    fabric->shrink_length =
        spec->shrink_length == QC_DEFAULT ? 0 : spec->shrink_length;
    if ((status = copy_texts(e)) ||
        (status = check_shrink(e, "shrink.length", spec->shrink_length)) ||
        (status = check_shrink(e, "shrink.width", spec->shrink_width)) ||
        (status = set_width(e)) || (status = set_print(e)) ||
        (status = check_length(e, "step", fabric->step, step_range)) ||
        (status = check_length(e, "square_up", fabric->square_up,
                               square_up_range)) ||
        (status = set_price(e)))
        return status;
    return QC_STATUS_OK;
}

qc_status qci_check_fabrics(const qci_check *check)
{
    size_t count = check->spec->fabric_count;
    qc_job *job = check->job;

    if (!check->spec->fabrics)
        count = 0;
    if (count == 0 || count > QC_MAX_FABRICS)
        return qci_fail(check->err, QC_STATUS_INVALID,
                        (qci_place){"fabrics", NULL}, "1 to 200 fabrics",
                        "has %zu entries", count);
    job->fabrics = qci_calloc(count, sizeof *job->fabrics);
    if (!job->fabrics)
        return qci_no_memory(check->err);
    job->fabric_count = count;
    for (size_t i = 0; i < count; i++) {
        entry e = {check, &check->spec->fabrics[i], i, &job->fabrics[i]};
        qc_status status = check_fabric(&e);

        if (status)
            return status;
    }
    return QC_STATUS_OK;
}
