/* A check as text, for whoever wrote the instructions: what is wrong, a line
 * each, then how much fabric it takes beside what was claimed and what is
 * least, then what the same steps give on narrower and wider cloth. */
#include <quiltcut/report.h>

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "length/units.h"
#include "report/layout.h"
#include "report/section.h"

typedef struct shown {
    char text[128];
} shown;

static shown show(const qc_check *check, qc_length length)
{
    shown out = {{0}};

    qci_length_format_unit(length, qc_check_units(check), out.text,
                           sizeof out.text);
    return out;
}

/* "1 1/8 yd (40 1/2 in)" */
static shown show_bought(const qc_check *check, qc_length length)
{
    shown out, plain = show(check, length);
    int used;

    if (length < 0)
        return (shown){"no length is enough"};
    used = qc_length_format_purchase(length, qc_check_units(check), out.text,
                                     sizeof out.text);
    if (strcmp(out.text, plain.text) != 0)
        snprintf(out.text + used, sizeof out.text - (size_t)used, " (%.*s)",
                 (int)(sizeof out.text - (size_t)used - 4), plain.text);
    return out;
}

static size_t count_faults(const qc_check *check)
{
    const qc_finding *finding;
    size_t count = 0;

    for (size_t i = 0; (finding = qc_check_finding_at(check, i)); i++)
        count += finding->is_fault;
    return count;
}

static void put_title(qci_text *out, const qc_check *check)
{
    const char *title = qc_check_title(check);
    size_t faults = count_faults(check);
    size_t notes = qc_check_finding_count(check) - faults;
    qci_text words = {0};

    qci_put_paragraph(out, 0, title[0] ? title : "Quilt");
    qci_text_printf(&words, "Check of the cutting instructions: ");
    if (faults)
        qci_text_printf(&words, "%zu fault%s", faults, faults == 1 ? "" : "s");
    else
        qci_text_printf(&words, "no fault");
    if (notes)
        qci_text_printf(&words, ", %zu note%s", notes, notes == 1 ? "" : "s");
    qci_text_printf(&words, ".");
    qci_put_collected(out, 0, &words);
}

static void put_findings(qci_text *out, const qc_check *check, bool faults)
{
    qci_table table = {.align = "ll"};
    const qc_finding *finding;
    bool any = false;

    for (size_t i = 0; (finding = qc_check_finding_at(check, i)); i++) {
        if (finding->is_fault != faults)
            continue;
        any = true;
        if (finding->step)
            qci_table_add(&table, "step %" PRIu32, finding->step);
        else
            qci_table_add(&table, "in all");
        qci_table_add(&table, "%s", finding->text);
    }
    if (any)
        qci_put_heading(out, faults ? "FAULTS" : "NOTES");
    qci_table_put(&table, out, 2);
}

static void add_optimum(qci_table *table, const qc_check *check,
                        const qc_check_fabric *fabric)
{
    if (!fabric->solved || !fabric->optimum)
        return;
    qci_table_add(table, "right sizes by hand");
    qci_table_add(table, "%s, each size cut from strips of its own",
                  show_bought(check, fabric->hand_method).text);
    qci_table_add(table, "least");
    if (fabric->outcome == QC_OUTCOME_OPTIMAL)
        qci_table_add(table, "%s: proved, no plan of its kind buys less",
                      show_bought(check, fabric->optimum).text);
    else
        qci_table_add(table,
                      "%s: the best found; no plan of its kind buys less than "
                      "%s",
                      show_bought(check, fabric->optimum).text,
                      show_bought(check, fabric->bound).text);
}

static void add_written(qci_table *table, const qc_check *check,
                        const qc_check_fabric *fabric)
{
    qc_length used = fabric->stated.used;

    qci_table_add(table, "as written");
    if (used && fabric->square_up)
        qci_table_add(table, "%s with %s for squaring up",
                      show(check, used).text,
                      show(check, fabric->square_up).text);
    else
        qci_table_add(table, "%s", show(check, used).text);
}

static void put_fabric(qci_text *out, const qc_check *check,
                       const qc_check_fabric *fabric)
{
    const qc_check_width *at = &fabric->stated;
    qci_table table = {.align = "ll"};
    qci_text head = {0};

    qci_text_printf(&head, "%s, %s usable width", fabric->name,
                    show(check, at->width).text);
    qci_put_collected(out, 2, &head);
    qci_table_add(&table, "claimed");
    qci_table_add(&table, "%s",
                  fabric->claimed == QC_DEFAULT
                      ? "nothing"
                      : show_bought(check, fabric->claimed).text);
    add_written(&table, check, fabric);
    if (at->missing) {
        qci_table_add(&table, "and what is missing");
        qci_table_add(&table, "%s",
                      at->needed < 0 ? "no number of such strips is enough"
                                     : show(check, at->needed).text);
    }
    qci_table_add(&table, "to buy for that");
    qci_table_add(&table, "%s", show_bought(check, at->bought).text);
    add_optimum(&table, check, fabric);
    qci_table_put(&table, out, 4);
}

static void put_fabrics(qci_text *out, const qc_check *check)
{
    const qc_check_fabric *fabric;

    qci_put_heading(out, "HOW MUCH FABRIC");
    for (size_t i = 0; (fabric = qc_check_fabric_at(check, i)); i++)
        put_fabric(out, check, fabric);
}

static void add_width(qci_table *table, const qc_check *check,
                      const qc_check_fabric *fabric, const qc_check_width *at)
{
    qci_table_add(table, "%s", show(check, at->width).text);
    if (!fabric->of_plan)
        qci_table_add(table, "%s", show_bought(check, at->bought).text);
    qci_table_add(table, "%s", at->missing ? at->text : "enough");
}

static void put_widths(qci_text *out, const qc_check *check)
{
    const qc_check_fabric *fabric = qc_check_fabric_at(check, 0);
    const qc_check_width *at;

    if (!qc_check_width_at(check, 0, 0))
        return; /* a plan that does not come out at its own */
    qci_put_heading(out, "OTHER WIDTHS");
    qci_put_paragraph(out, 2,
                      fabric->of_plan
                          ? "Whether the steps come out of what is bought, and "
                            "if not, the first that is short:"
                          : "What is to be bought with all the strips that are "
                            "missing, and what the steps as written leave "
                            "short:");
    for (size_t i = 0; (fabric = qc_check_fabric_at(check, i)); i++) {
        qci_table table = {.align = fabric->of_plan ? "rl" : "rll"};

        if (!fabric->stated.used)
            continue;
        qci_put_paragraph(out, 2, fabric->name);
        for (size_t k = 0; (at = qc_check_width_at(check, i, k)); k++)
            add_width(&table, check, fabric, at);
        qci_table_put(&table, out, 4);
    }
}

qc_status qc_check_text(const qc_check *check, char **out_text, qc_error *err)
{
    qci_text out = {0};

    *out_text = NULL;
    put_title(&out, check);
    put_findings(&out, check, true);
    put_findings(&out, check, false);
    put_fabrics(&out, check);
    put_widths(&out, check);
    *out_text = qci_text_take(&out);
    return *out_text ? QC_STATUS_OK : qci_no_memory(err);
}
