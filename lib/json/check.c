/* A check as JSON. Everything is read off the check, in a fixed order of
 * members. */
#include <quiltcut/report.h>

#include "base/error.h"
#include "length/units.h"
#include "json/plan_write.h"

static const char *const kind_words[] = {
    [QC_FINDING_SHORT_STEP] = "short step",
    [QC_FINDING_SHORT_FABRIC] = "short fabric",
    [QC_FINDING_SHORT_PIECES] = "short pieces",
    [QC_FINDING_SIZE] = "size",
    [QC_FINDING_FABRIC] = "fabric",
    [QC_FINDING_SHAPE] = "shape",
    [QC_FINDING_ANGLE] = "angle",
    [QC_FINDING_TURNED] = "turned",
    [QC_FINDING_PLAN] = "plan",
    [QC_FINDING_OVER_PIECES] = "over pieces",
    [QC_FINDING_OVER_STRIPS] = "over strips",
    [QC_FINDING_OVER_FABRIC] = "over fabric"};

static void write_finding(qci_output *out, const qc_finding *finding)
{
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_write_text(writer, "kind", kind_words[finding->kind]);
    qci_write_bool(writer, "fault", finding->is_fault);
    if (finding->step)
        qci_write_integer(writer, "step", finding->step);
    if (finding->fabric)
        qci_write_text(writer, "fabric", finding->fabric);
    if (finding->piece)
        qci_write_text(writer, "piece", finding->piece);
    if (finding->count)
        qci_write_integer(writer, "count", finding->count);
    if (finding->kind == QC_FINDING_SIZE) {
        qci_write_open_line(writer, "by");
        qci_output_number(out, NULL, finding->by[0]);
        qci_output_number(out, NULL, finding->by[1]);
        qci_write_close(writer, ']');
    } else if (finding->by[0]) {
        qci_output_number(out, "by", finding->by[0]);
    }
    qci_write_text(writer, "text", finding->text);
    qci_write_close(writer, '}');
}

static void write_needed(qci_output *out, const qc_check_width *at)
{
    qci_output_length(out, "used", at->used);
    if (at->needed < 0)
        qci_write_null(&out->writer, "needed");
    else
        qci_output_number(out, "needed", at->needed);
    qci_output_purchase(out, "bought", at->bought);
    qci_write_integer(&out->writer, "missing", at->missing);
    qci_write_text(&out->writer, "text", at->text);
}

static void write_widths(qci_output *out, const qc_check *check, size_t fabric)
{
    const qc_check_width *at;

    qci_write_open(&out->writer, "widths", '[');
    for (size_t i = 0; (at = qc_check_width_at(check, fabric, i)); i++) {
        qci_write_open(&out->writer, NULL, '{');
        qci_output_length(out, "width", at->width);
        write_needed(out, at);
        qci_write_close(&out->writer, '}');
    }
    qci_write_close(&out->writer, ']');
}

static void write_fabric(qci_output *out, const qc_check *check, size_t index)
{
    const qc_check_fabric *fabric = qc_check_fabric_at(check, index);
    qci_writer *writer = &out->writer;

    qci_write_open(writer, NULL, '{');
    qci_write_text(writer, "id", fabric->id);
    qci_write_text(writer, "name", fabric->name);
    qci_output_length(out, "usable_width", fabric->stated.width);
    qci_output_length(out, "square_up", fabric->square_up);
    qci_output_purchase(out, "claimed", fabric->claimed);
    write_needed(out, &fabric->stated);
    if (fabric->solved) {
        qci_output_purchase(out, "optimum", fabric->optimum);
        qci_output_purchase(out, "bound", fabric->bound);
        qci_write_text(writer, "optimum_status",
                       fabric->outcome == QC_OUTCOME_OPTIMAL ? "optimal"
                                                             : "feasible");
        qci_output_purchase(out, "hand_method", fabric->hand_method);
    }
    write_widths(out, check, index);
    qci_write_close(writer, '}');
}

qc_status qc_check_json(const qc_check *check, char **out_text, qc_error *err)
{
    qc_units units = qc_check_units(check);
    qci_output out = {.units = units, .one = qci_units_one(units)};
    qci_writer *writer = &out.writer;
    const qc_finding *finding;

    *out_text = NULL;
    qci_write_open(writer, NULL, '{');
    qci_write_integer(writer, "quiltcut", 1);
    qci_write_text(writer, "title", qc_check_title(check));
    qci_write_text(writer, "units", qci_units_name(units));
    qci_write_bool(writer, "clean", qc_check_is_clean(check));
    qci_write_open(writer, "findings", '[');
    for (size_t i = 0; (finding = qc_check_finding_at(check, i)); i++)
        write_finding(&out, finding);
    qci_write_close(writer, ']');
    qci_write_open(writer, "fabrics", '[');
    for (size_t i = 0; i < qc_check_fabric_count(check); i++)
        write_fabric(&out, check, i);
    qci_write_close(writer, ']');
    qci_write_close(writer, '}');
    qci_text_add(&writer->text, "\n", 1);
    *out_text = qci_text_take(&writer->text);
    return *out_text ? QC_STATUS_OK : qci_no_memory(err);
}
