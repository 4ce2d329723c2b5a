/* Reading and ending a check. */
#include "check/result.h"

#include "base/alloc.h"
#include "base/error.h"

const char *qc_check_title(const qc_check *check)
{
    return check->title;
}

qc_units qc_check_units(const qc_check *check)
{
    return check->units;
}

bool qc_check_is_clean(const qc_check *check)
{
    /* Faults come first. */
    return !check->findings.count || !check->findings.at[0].is_fault;
}

size_t qc_check_finding_count(const qc_check *check)
{
    return check->findings.count;
}

const qc_finding *qc_check_finding_at(const qc_check *check, size_t finding)
{
    return finding < check->findings.count ? &check->findings.at[finding]
                                           : NULL;
}

size_t qc_check_fabric_count(const qc_check *check)
{
    return check->fabric_count;
}

const qc_check_fabric *qc_check_fabric_at(const qc_check *check, size_t fabric)
{
    return fabric < check->fabric_count ? &check->fabrics[fabric] : NULL;
}

const qc_check_width *qc_check_width_at(const qc_check *check, size_t fabric,
                                        size_t width)
{
    return fabric < check->fabric_count &&
                   width < check->fabrics[fabric].width_count
               ? &check->widths[fabric][width]
               : NULL;
}

size_t qci_check_widths(qc_units units, qc_length out[QCI_CHECK_WIDTHS])
{
    bool inches = units == QC_UNITS_IN;
    qc_length first = inches ? 38 * QC_INCH : 96 * QC_CM;
    qc_length last = inches ? 44 * QC_INCH : 112 * QC_CM;
    qc_length step = inches ? QC_INCH : 2 * QC_CM;
    size_t count = 0;

    for (qc_length width = first; width <= last; width += step)
        out[count++] = width;
    return count;
}

qc_status qci_check_make_widths(qc_check *check, size_t count, qc_error *err)
{
    for (size_t i = 0; i < check->fabric_count; i++) {
        check->widths[i] = qci_calloc(count, sizeof **check->widths);
        if (!check->widths[i])
            return qci_no_memory(err);
    }
    return QC_STATUS_OK;
}

static void end_fabric(qc_check *check, size_t i)
{
    qc_check_fabric *fabric = &check->fabrics[i];

    for (size_t k = 0; k < fabric->width_count; k++)
        qci_free((void *)check->widths[i][k].text);
    qci_free(check->widths[i]);
    qci_free((void *)fabric->stated.text);
    qci_free((void *)fabric->id);
    qci_free((void *)fabric->name);
}

void qc_check_destroy(qc_check *check)
{
    if (!check)
        return;
    for (size_t i = 0; i < check->findings.count; i++) {
        qci_free((void *)check->findings.at[i].text);
        qci_free((void *)check->findings.at[i].piece);
    }
    qci_vec_clear(&check->findings);
    for (size_t i = 0; i < check->fabric_count; i++)
        end_fabric(check, i);
    qci_free(check->fabrics);
    qci_free(check->widths);
    qci_free(check->title);
    qci_free(check);
}
