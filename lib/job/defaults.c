/* What a job takes where nothing was said, and the sentences that own up to it.
 * A default that concerns fabrics is one sentence, whoever many fabrics left it
 * open: "usable width of Night blue and Sand: 40 in". */
#include <string.h>

#include "base/alloc.h"
#include "base/text.h"
#include "job/check.h"
#include "length/units.h"

static const qci_defaults inches = {
    .seam = QC_INCH / 4,
    .ruler = QC_INCH / 8,
    .width = 40 * QC_INCH,
    .step = QC_YARD / 8,
    .square_up = QC_INCH / 2,
    .keep = 3 * QC_INCH / 2,
};

static const qci_defaults metric = {
    .seam = 6 * QC_MM,
    .ruler = QC_MM,
    .width = 102 * QC_CM,
    .step = 10 * QC_CM,
    .square_up = 12 * QC_MM,
    .keep = 4 * QC_CM,
};

const qci_defaults *qci_defaults_of(qc_units units)
{
    return units == QC_UNITS_IN ? &inches : &metric;
}

static bool width_is_open(const qc_fabric_spec *fabric)
{
    return fabric->width == QC_DEFAULT && fabric->raw_width == QC_DEFAULT;
}

static bool print_is_open(const qc_fabric_spec *fabric)
{
    return fabric->print == QC_PRINT_DEFAULT;
}

static bool step_is_open(const qc_fabric_spec *fabric)
{
    return fabric->step == QC_DEFAULT;
}

static bool square_up_is_open(const qc_fabric_spec *fabric)
{
    return fabric->square_up == QC_DEFAULT;
}

static bool shrink_is_open(const qc_fabric_spec *fabric)
{
    return fabric->shrink_length == QC_DEFAULT;
}

/* "Night blue, Sand and Fog", or "every fabric" where there are several. */
static void add_names(qci_text *text, const qci_check *check,
                      bool (*is_open)(const qc_fabric_spec *), size_t open)
{
    size_t named = 0;

    if (open > 1 && open == check->job->fabric_count) {
        qci_text_printf(text, "every fabric");
        return;
    }
    for (size_t i = 0; i < check->job->fabric_count; i++) {
        if (!is_open(&check->spec->fabrics[i]))
            continue;
        named++;
        qci_text_printf(text, "%s%s",
                        named == 1      ? ""
                        : named == open ? " and "
                                        : ", ",
                        check->job->fabrics[i].name);
    }
}

/* Hands the sentence over to the job. */
qc_status qci_note_sentence(const qci_check *check, qci_text *text)
{
    qc_job *job = check->job;
    char **grown = qci_realloc(job->defaults, job->default_count + 1,
                               sizeof *job->defaults);
    char *sentence = qci_text_take(text);

    if (grown)
        job->defaults = grown;
    if (!grown || !sentence) {
        qci_free(sentence);
        return qci_no_memory(check->err);
    }
    grown[job->default_count++] = sentence;
    return QC_STATUS_OK;
}

static qc_status note(const qci_check *check, bool is_open, const char *what,
                      const char *value)
{
    qci_text text = {0};

    if (!is_open)
        return QC_STATUS_OK;
    qci_text_printf(&text, "%s: %s", what, value);
    return qci_note_sentence(check, &text);
}

static qc_status note_fabrics(const qci_check *check,
                              bool (*is_open)(const qc_fabric_spec *),
                              const char *what, const char *value)
{
    qci_text text = {0};
    size_t open = 0;

    for (size_t i = 0; i < check->job->fabric_count; i++)
        open += is_open(&check->spec->fabrics[i]);
    if (!open)
        return QC_STATUS_OK;
    qci_text_printf(&text, "%s of ", what);
    add_names(&text, check, is_open, open);
    qci_text_printf(&text, ": %s", value);
    return qci_note_sentence(check, &text);
}

qc_status qci_note_defaults(const qci_check *check)
{
    const qc_job_spec *spec = check->spec;
    qc_units units = check->job->units;
    const qci_defaults *value = qci_defaults_of(units);
    qci_shown seam = qci_show(value->seam, units);
    qci_shown ruler = qci_show(value->ruler, units);
    qci_shown width = qci_show(value->width, units);
    qci_shown square_up = qci_show(value->square_up, units);
    qci_shown keep = qci_show(value->keep, units);
    char step[QCI_LENGTH_TEXT];
    qc_status status;

    qc_length_format_purchase(value->step, units, step, sizeof step);
    if ((status =
             note(check, spec->units == QC_UNITS_DEFAULT, "units", "inches")) ||
        (status = note(check, spec->seam == QC_DEFAULT, "seam allowance",
                       seam.text)) ||
        (status = note(check, spec->ruler == QC_DEFAULT, "ruler grid",
                       ruler.text)) ||
        (status =
             note_fabrics(check, width_is_open, "usable width", width.text)) ||
        (status = note_fabrics(check, print_is_open, "print", "plain")) ||
        (status = note_fabrics(check, step_is_open, "purchase step", step)) ||
        (status = note_fabrics(check, square_up_is_open, "squaring-up",
                               square_up.text)) ||
        (status = note_fabrics(check, shrink_is_open, "shrinkage in length",
                               "none")) ||
        (status = note(check,
                       spec->spare_count == QC_DEFAULT &&
                           spec->spare_percent == QC_DEFAULT,
                       "spare pieces", "none")) ||
        (status = note(check, spec->keep == QC_DEFAULT,
                       "least side of a leftover worth keeping", keep.text)) ||
        (status = note(check, spec->layers == QC_DEFAULT, "layers cut at once",
                       "up to 4")) ||
        (status = note(check, spec->stages == QC_DEFAULT, "stages of cutting",
                       "3 (strips, subcuts, stacks)")) ||
        (status = note(check, spec->goal_count == 0, "goals in order",
                       "length to buy, different strips, cuts, largest "
                       "leftover")) ||
        /* The call that solves the job may set another. */
        (status = note(check, spec->time_limit_ms == QC_DEFAULT, "time limit",
                       "10 seconds, unless set for the run")))
        return status;
    return QC_STATUS_OK;
}
