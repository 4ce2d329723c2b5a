/* Certificates: written from a plan, and checked.
 *
 * Numbers are whole ones of the library's unit of length. Nothing is written
 * that has not been checked, so that a search that went wrong, or a form that
 * the checker cannot follow, gives no certificate rather than a wrong one. */
#include <quiltcut/certificate.h>

#include <inttypes.h>

#include "base/error.h"
#include "length/units.h"
#include "plan/plan.h"
#include "json/certificate.h"
#include "json/write.h"

static void write_numbers(qci_writer *w, const char *key,
                          const qci_numbers *numbers)
{
    qci_write_open_line(w, key);
    for (size_t i = 0; i < numbers->count; i++)
        qci_write_integer(w, NULL, numbers->at[i]);
    qci_write_close(w, ']');
}

static void write_piece(qci_writer *w, const qci_proof_piece *piece)
{
    qci_write_open(w, NULL, '{');
    qci_write_text(w, "id", piece->id);
    qci_write_integer(w, "kind", piece->kind);
    qci_write_integer(w, "count", piece->count);
    qci_write_close(w, '}');
}

static void write_form(qci_writer *w, const qci_proof_form *form)
{
    qci_write_open(w, NULL, '{');
    qci_write_integer(w, "kind", form->kind);
    qci_write_integer(w, "width", form->width);
    qci_write_integer(w, "height", form->height);
    qci_write_integer(w, "left", form->left);
    qci_write_integer(w, "right", form->right);
    qci_write_integer(w, "yields", form->yields);
    qci_write_bool(w, "outline", form->outline);
    qci_write_close(w, '}');
}

static void write_node(qci_writer *w, const qci_proof_node *node)
{
    qci_write_open(w, NULL, '{');
    if (node->ask == QCI_ASK_CLASS) {
        qci_write_integer(w, "from_class", node->at);
    } else if (node->ask == QCI_ASK_KIND) {
        qci_write_integer(w, "of_kind", node->kind);
        qci_write_integer(w, "pieces", node->at);
    }
    if (node->ask) {
        qci_write_integer(w, "most", node->most);
    } else {
        write_numbers(w, "values", &node->values);
        write_numbers(w, "weights", &node->weights);
    }
    qci_write_close(w, '}');
}

static void write_proof(qci_writer *w, const qci_proof *proof)
{
    qci_write_integer(w, "bought", proof->bought);
    if (proof->used)
        qci_write_integer(w, "used", proof->used);
    qci_write_integer(w, "step", proof->step);
    qci_write_integer(w, "shrink", proof->shrink);
    qci_write_integer(w, "square_up", proof->square_up);
    qci_write_integer(w, "width", proof->width);
    qci_write_bool(w, "stacks", proof->stacks);
    qci_write_bool(w, "trim", proof->trim);
    qci_write_integer(w, "kinds", proof->kind_count);
    qci_write_open(w, "pieces", '[');
    for (size_t i = 0; i < proof->pieces.count; i++)
        write_piece(w, &proof->pieces.at[i]);
    qci_write_close(w, ']');
    qci_write_open(w, "forms", '[');
    for (size_t i = 0; i < proof->forms.count; i++)
        write_form(w, &proof->forms.at[i]);
    qci_write_close(w, ']');
    write_numbers(w, "heights", &proof->heights);
    qci_write_integer(w, "cell_across", proof->cell_across);
    qci_write_integer(w, "cell_along", proof->cell_along);
    qci_write_open(w, "nodes", '[');
    for (size_t i = 0; i < proof->nodes.count; i++)
        write_node(w, &proof->nodes.at[i]);
    qci_write_close(w, ']');
}

/* Why there is no proof. */
static const char *find_reason(const qci_plan_fabric *fabric)
{
    static const char *const others[QC_GOAL_COUNT] = {
        [QC_GOAL_SETUPS] = "its first goal is set-ups, not length",
        [QC_GOAL_CUTS] = "its first goal is cuts, not length",
        [QC_GOAL_LEFTOVER] = "its first goal is leftover, not length"};
    qc_goal first = fabric->levels[0].goal;

    if (fabric->info.bound == fabric->info.bought)
        return "proved by search";
    return others[first] ? others[first] : "not proved minimal";
}

static qc_status write_fabric(qci_writer *w, const qci_plan_fabric *fabric,
                              int64_t *work, qc_error *err)
{
    char reason[QCI_REASON_ROOM];
    bool holds = false;
    qc_status status = QC_STATUS_OK;

    if (fabric->proof)
        status = qci_certify(fabric->proof, work, &holds, reason, err);
    if (status)
        return status;
    qci_write_open(w, NULL, '{');
    qci_write_text(w, "id", fabric->info.id);
    if (holds)
        write_proof(w, fabric->proof);
    else
        qci_write_text(w, "missing", find_reason(fabric));
    qci_write_close(w, '}');
    return QC_STATUS_OK;
}

qc_status qc_plan_certificate(const qc_plan *plan, char **out_text,
                              qc_error *err)
{
    qci_writer w = {.depth = 0};
    qc_status status = QC_STATUS_OK;
    int64_t work = 0;

    *out_text = NULL;
    qci_write_open(&w, NULL, '{');
    qci_write_integer(&w, "quiltcut", 1);
    qci_write_text(&w, "title", qc_plan_title(plan));
    qci_write_text(&w, "units", qci_units_name(plan->units));
    qci_write_open(&w, "fabrics", '[');
    for (size_t i = 0; i < plan->fabric_count && !status; i++)
        if (plan->fabrics[i].info.bought)
            status = write_fabric(&w, &plan->fabrics[i], &work, err);
    qci_write_close(&w, ']');
    qci_write_close(&w, '}');
    qci_text_add(&w.text, "\n", 1);
    if (status) {
        qci_text_clear(&w.text);
        return status;
    }
    *out_text = qci_text_take(&w.text);
    return *out_text ? QC_STATUS_OK : qci_no_memory(err);
}

/* --- checking ------------------------------------------------------------ */

static void report_proof(qci_text *report, const qci_proof *proof,
                         qc_units units)
{
    char bought[QCI_LENGTH_TEXT], width[QCI_LENGTH_TEXT], used[QCI_LENGTH_TEXT];
    int64_t pieces = 0;

    for (size_t i = 0; i < proof->pieces.count; i++)
        pieces += proof->pieces.at[i].count;
    qc_length_format_purchase(proof->bought, units, bought, sizeof bought);
    qci_length_format_unit(proof->width, units, width, sizeof width);
    qci_text_printf(report,
                    "proved: %" PRId64 " pieces of %zu kind%s, from fabric "
                    "%s wide, need %s or more",
                    pieces, proof->pieces.count,
                    proof->pieces.count == 1 ? "" : "s", width, bought);
    if (!proof->used)
        return;
    qci_length_format_unit(proof->used, units, used, sizeof used);
    qci_text_printf(report, ", and use %s of it or more", used);
}

/* One line; the verdict is the worst so far. */
static qc_status judge(const qci_proof *proof, qc_units units, int64_t *work,
                       qc_verdict *verdict, qci_text *report, qc_error *err)
{
    char reason[QCI_REASON_ROOM];
    bool holds = false;
    qc_status status = QC_STATUS_OK;

    qci_text_printf(report, "%s: ", proof->fabric);
    if (proof->missing) {
        qci_text_printf(report, "no certificate: %s", proof->missing);
        if (*verdict == QC_VERDICT_PROVED)
            *verdict = QC_VERDICT_PARTLY;
    } else {
        status = qci_certify(proof, work, &holds, reason, err);
        if (holds) {
            report_proof(report, proof, units);
        } else {
            qci_text_printf(report, "refused: the proof does not hold: %s",
                            reason);
            *verdict = QC_VERDICT_REFUSED;
        }
    }
    qci_text_add(report, "\n", 1);
    return status;
}

qc_status qc_certificate_check(const char *text, size_t size,
                               qc_verdict *out_verdict, char **out_report,
                               qc_error *err)
{
    qci_certificate certificate = {.units = QC_UNITS_IN};
    qci_text report = {0};
    qc_verdict verdict = QC_VERDICT_PROVED;
    qc_status status;
    int64_t work = 0;

    *out_report = NULL;
    *out_verdict = QC_VERDICT_REFUSED;
    status = qci_certificate_read(text, size, &certificate, err);
    for (size_t i = 0; i < certificate.proofs.count && !status; i++)
        status = judge(&certificate.proofs.at[i], certificate.units, &work,
                       &verdict, &report, err);
    qci_certificate_clear(&certificate);
    if (status) {
        qci_text_clear(&report);
        return status;
    }
    qci_text_add(&report, "", 0);
    *out_report = qci_text_take(&report);
    if (!*out_report)
        return qci_no_memory(err);
    *out_verdict = verdict;
    return QC_STATUS_OK;
}
