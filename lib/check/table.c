/* A plain cutting list as instructions.
 *
 * A row is a size and how many: strips as wide as its cut width are cut across
 * the fabric, and from them so many pieces of its cut length. How many strips
 * is what the list says, or else what the stated width takes. Rows become one
 * piece and two steps each, in their order, so that what is wrong with piece 3
 * or step 6 is wrong with row 3. */
#include <quiltcut/check.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/alloc.h"
#include "base/error.h"
#include "base/nearest.h"
#include "base/text.h"
#include "check/cells.h"
#include "job/check.h"

#define ROWS_MOST (QC_MAX_INSTRUCTIONS / 2)

enum column {
    FABRIC,
    WIDTH,
    LENGTH,
    COUNT,
    PIECE,
    STRIPS,
    USABLE,
    CLAIMED,
    COLUMNS
};
#define REQUIRED 4

static const char *const headings[COLUMNS] = {
    "fabric", "cut width", "cut length",   "count",
    "piece",  "strips",    "usable width", "claimed"};

typedef struct table {
    qci_cells cells;
    int at[COLUMNS]; /* place of the column in a row; -1: there is none */
    size_t width;    /* cells in a row */
    size_t rows;     /* without the headings */
    qc_units units;
    qc_error *err;

    qc_fabric_spec *fabrics;
    qc_claim_spec *claims;
    size_t fabric_count, claim_count;
    qc_piece_spec *pieces;
    qc_instruction_spec *steps;
    char **names; /* two a row: its strips; its piece without a name; owned */
} table;

static const qci_cell *cell_at(const table *t, size_t row, int column)
{
    return &t->cells.list.at[(row + 1) * t->width + (size_t)t->at[column]];
}

/* NULL when there is nothing in it. */
static const char *text_at(const table *t, size_t row, int column)
{
    const char *text;

    if (t->at[column] < 0)
        return NULL;
    text = cell_at(t, row, column)->text;
    return text[0] ? text : NULL;
}

static qc_status fail_at(const table *t, const qci_cell *cell,
                         const char *field, const char *allowed,
                         const char *problem)
{
    qc_status status =
        qci_fail(t->err, QC_STATUS_INVALID, (qci_place){field, cell->text},
                 allowed, "%s", problem);

    if (t->err) {
        t->err->line = cell->line;
        t->err->column = cell->column;
    }
    return status;
}

static qc_status fail_cell(const table *t, size_t row, int column,
                           const char *allowed, const char *problem)
{
    return fail_at(t, cell_at(t, row, column), headings[column], allowed,
                   problem);
}

/* The first row names the columns, in any order. */
static qc_status read_headings(table *t)
{
    static const char all[] = "fabric, cut width, cut length, count, piece, "
                              "strips, usable width, claimed";
    const qci_cell *cells = t->cells.list.at;

    for (int i = 0; i < COLUMNS; i++)
        t->at[i] = -1;
    for (t->width = 0; t->width < t->cells.list.count; t->width++) {
        const qci_cell *cell = &cells[t->width];
        int column = 0;

        while (column < COLUMNS && strcmp(headings[column], cell->text) != 0)
            column++;
        if (column == COLUMNS) {
            const char *near = qci_nearest(cell->text, headings, COLUMNS);
            char problem[96];

            snprintf(problem, sizeof problem, "no such column%s%s%s",
                     near ? "; did you mean " : "", near ? near : "",
                     near ? "?" : "");
            return fail_at(t, cell, "heading", all, problem);
        }
        if (t->at[column] >= 0)
            return fail_at(t, cell, "heading", NULL, "is there twice");
        t->at[column] = (int)t->width;
        if (cell->last) {
            t->width++;
            break;
        }
    }
    for (int i = 0; i < REQUIRED; i++)
        if (t->at[i] < 0)
            return qci_fail(t->err, QC_STATUS_INVALID,
                            (qci_place){headings[i], NULL}, all,
                            "is missing among the headings in the first line");
    return QC_STATUS_OK;
}

/* All rows are as wide as the first. */
static qc_status check_rows(table *t)
{
    size_t in_row = 0, rows = 0;

    for (size_t i = 0; i < t->cells.list.count; i++) {
        const qci_cell *cell = &t->cells.list.at[i];

        in_row++;
        if (!cell->last && in_row < t->width)
            continue;
        if (!cell->last || in_row != t->width)
            return fail_at(t, cell, "row", NULL,
                           cell->last ? "ends a row with fewer cells than "
                                        "there are headings"
                                      : "begins what no heading names");
        rows++;
        in_row = 0;
    }
    t->rows = rows - 1;
    if (t->rows < 1 || t->rows > ROWS_MOST)
        return qci_fail(t->err, QC_STATUS_INVALID, (qci_place){"rows", NULL},
                        "1 to 250 rows below the headings", "there are %zu",
                        t->rows);
    return QC_STATUS_OK;
}

static qc_status read_length(const table *t, size_t row, int column,
                             qc_length *to)
{
    const char *text = text_at(t, row, column);
    qc_error local;

    if (!text && column >= REQUIRED)
        return QC_STATUS_OK;
    qc_error_init(&local);
    if (!qc_length_parse(text ? text : "", t->units, QC_PARSE_EXACT, to,
                         &local))
        return QC_STATUS_OK;
    return fail_cell(t, row, column, local.allowed,
                     text ? local.problem : "is missing");
}

/* Of ten digits at the most. */
static int64_t number_of(const char *digits)
{
    int64_t number = 0;

    for (; *digits; digits++)
        number = 10 * number + (*digits - '0');
    return number;
}

static qc_status read_count(const table *t, size_t row, int column, int64_t *to)
{
    const char *text = text_at(t, row, column);
    size_t digits = text ? strspn(text, "0123456789") : 0;
    int64_t number;

    if (!text && column >= REQUIRED)
        return QC_STATUS_OK;
    number = digits && !text[digits] && digits <= 10 ? number_of(text) : 0;
    if (number < 1 || number > QC_MAX_COUNT)
        return fail_cell(t, row, column, "a whole number, 1 to 1000000000",
                         text ? "is no number of pieces" : "is missing");
    *to = number;
    return QC_STATUS_OK;
}

static bool same(const char *a, const char *b)
{
    return strcmp(a, b) == 0;
}

/* The fabric of a row, new or known, with what the row says of it. */
static qc_status read_fabric(table *t, size_t row)
{
    const char *id = text_at(t, row, FABRIC);
    qc_length width = QC_DEFAULT, claimed = QC_DEFAULT;
    size_t i = 0, claim = 0;
    qc_fabric_spec *fabric;
    qc_status status = read_length(t, row, USABLE, &width);

    if (!status)
        status = read_length(t, row, CLAIMED, &claimed);
    if (status)
        return status;
    if (!id)
        return fail_cell(t, row, FABRIC, NULL, "is missing");
    while (i < t->fabric_count && !same(t->fabrics[i].id, id))
        i++;
    if (i == t->fabric_count) {
        qc_fabric_spec_init(&t->fabrics[i]);
        t->fabrics[t->fabric_count++].id = id;
    }
    fabric = &t->fabrics[i];
    if (width != QC_DEFAULT && fabric->width != QC_DEFAULT &&
        fabric->width != width)
        return fail_cell(t, row, USABLE, "one width of each fabric",
                         "is not what a row above says of this fabric");
    if (width != QC_DEFAULT)
        fabric->width = width;
    if (claimed == QC_DEFAULT)
        return QC_STATUS_OK;
    while (claim < t->claim_count && !same(t->claims[claim].fabric, id))
        claim++;
    if (claim < t->claim_count && t->claims[claim].length != claimed)
        return fail_cell(t, row, CLAIMED, "one length of each fabric",
                         "is not what a row above claims of this fabric");
    if (claim == t->claim_count)
        t->claims[t->claim_count++] = (qc_claim_spec){id, claimed};
    return QC_STATUS_OK;
}

/* The names of its strips, and of its piece where the table has none. */
static qc_status name_row(table *t, size_t row)
{
    qci_text strips = {0}, piece = {0};

    qci_text_printf(&strips, "row %zu", row + 1);
    qci_text_printf(&piece, "(row %zu)", row + 1);
    t->names[2 * row] = qci_text_take(&strips);
    t->names[2 * row + 1] = qci_text_take(&piece);
    return t->names[2 * row] && t->names[2 * row + 1] ? QC_STATUS_OK
                                                      : qci_no_memory(t->err);
}

static qc_status read_row(table *t, size_t row)
{
    const char *piece = text_at(t, row, PIECE);
    qc_piece_spec *spec = &t->pieces[row];
    qc_instruction_spec *strips = &t->steps[2 * row];
    qc_instruction_spec *subcut = &t->steps[2 * row + 1];
    qc_status status = name_row(t, row);

    qc_piece_spec_init(spec);
    qc_instruction_spec_init(strips);
    qc_instruction_spec_init(subcut);
    if (status || (status = read_fabric(t, row)) ||
        (status = read_length(t, row, WIDTH, &spec->size[1])) ||
        (status = read_length(t, row, LENGTH, &spec->size[0])) ||
        (status = read_count(t, row, COUNT, &spec->count)) ||
        (status = read_count(t, row, STRIPS, &strips->count)))
        return status;
    spec->id = piece ? piece : t->names[2 * row + 1];
    spec->fabric = text_at(t, row, FABRIC);
    spec->shape = QC_SHAPE_RECTANGLE;
    spec->is_cut = true;
    strips->kind = QC_INSTRUCTION_STRIPS;
    strips->fabric = spec->fabric;
    strips->size = spec->size[1];
    strips->name = t->names[2 * row];
    subcut->kind = QC_INSTRUCTION_SUBCUT;
    subcut->from = t->names[2 * row];
    subcut->size = spec->size[0];
    subcut->count = spec->count;
    subcut->piece = spec->id;
    return QC_STATUS_OK;
}

/* Strips that the list does not count: as many as the width takes. */
static void count_strips(table *t, size_t row)
{
    qc_instruction_spec *strips = &t->steps[2 * row];
    qc_length width = qci_defaults_of(t->units)->width;
    int64_t per;

    if (strips->count != QC_DEFAULT)
        return;
    for (size_t i = 0; i < t->fabric_count; i++)
        if (same(t->fabrics[i].id, strips->fabric) &&
            t->fabrics[i].width != QC_DEFAULT)
            width = t->fabrics[i].width;
    per = t->pieces[row].size[0] > 0 ? width / t->pieces[row].size[0] : 0;
    strips->count =
        per > 0 ? (t->pieces[row].count + per - 1) / per : t->pieces[row].count;
}

static qc_status make_room(table *t)
{
    t->fabrics = qci_calloc(t->rows, sizeof *t->fabrics);
    t->claims = qci_calloc(t->rows, sizeof *t->claims);
    t->pieces = qci_calloc(t->rows, sizeof *t->pieces);
    t->steps = qci_calloc(2 * t->rows, sizeof *t->steps);
    t->names = qci_calloc(2 * t->rows, sizeof *t->names);
    return t->fabrics && t->claims && t->pieces && t->steps && t->names
               ? QC_STATUS_OK
               : qci_no_memory(t->err);
}

/* An error of the job or of a step is one of the row that it was made of. */
static void place_error(const table *t)
{
    qc_error *err = t->err;
    char *bracket = err ? strchr(err->field, '[') : NULL;
    size_t index = bracket ? strtoul(bracket + 1, NULL, 10) : 0;

    if (!bracket || err->line)
        return;
    if (strncmp(err->field, "steps", 5) == 0)
        index /= 2;
    else if (strncmp(err->field, "pieces", 6) != 0)
        return;
    if (index < t->rows)
        err->line = cell_at(t, index, FABRIC)->line;
}

static qc_status create(table *t, qc_instructions **out)
{
    qc_instructions_spec spec;
    qc_job_spec job;
    qc_status status;

    qc_job_spec_init(&job, t->units);
    job.fabrics = t->fabrics;
    job.fabric_count = t->fabric_count;
    job.pieces = t->pieces;
    job.piece_count = t->rows;
    qc_instructions_spec_init(&spec);
    spec.job = &job;
    spec.claims = t->claims;
    spec.claim_count = t->claim_count;
    spec.steps = t->steps;
    spec.step_count = 2 * t->rows;
    status = qc_instructions_create(&spec, out, t->err);
    if (status)
        place_error(t);
    return status;
}

static qc_status read_cells(table *t, const char *text, size_t size)
{
    switch (qci_cells_read(&t->cells, text, size)) {
    case QCI_CELLS_READ:
        break;
    case QCI_CELLS_NO_MEMORY:
        return qci_no_memory(t->err);
    case QCI_CELLS_OPEN:
        return fail_at(t, &t->cells.list.at[t->cells.list.count - 1], "cell",
                       "\"...\", with quotes inside doubled",
                       "has a quote that is not closed at the cell's end");
    }
    if (!t->cells.list.count)
        return qci_fail(t->err, QC_STATUS_INVALID, (qci_place){NULL, NULL},
                        "a line of headings, and rows", "there is no table");
    return QC_STATUS_OK;
}

qc_status qc_instructions_parse_table(const char *text, size_t size,
                                      qc_units units, qc_instructions **out,
                                      qc_error *err)
{
    qc_error own;
    table t = {.units = units, .err = &own};
    qc_status status;

    *out = NULL;
    qc_error_init(&own);
    if (size >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) {
        text += 3;
        size -= 3;
    }
    if (size > QC_MAX_JSON_BYTES)
        status = qci_fail(&own, QC_STATUS_INVALID, (qci_place){NULL, NULL},
                          "up to 16 MiB", "is too large a table");
    else
        status = read_cells(&t, text, size);
    if (!status && !(status = read_headings(&t)) && !(status = check_rows(&t)))
        status = make_room(&t);
    for (size_t row = 0; row < t.rows && !status; row++)
        status = read_row(&t, row);
    for (size_t row = 0; row < t.rows && !status; row++)
        count_strips(&t, row);
    if (!status)
        status = create(&t, out);
    if (status && err && err->code == QC_STATUS_OK)
        *err = own;
    for (size_t i = 0; i < 2 * t.rows && t.names; i++)
        qci_free(t.names[i]);
    qci_free(t.names);
    qci_free(t.fabrics);
    qci_free(t.claims);
    qci_free(t.pieces);
    qci_free(t.steps);
    qci_cells_end_all(&t.cells);
    return status;
}
