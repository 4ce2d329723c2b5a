/* What the parts of quiltcut compare share. */
#ifndef QUILTCUT_CLI_COMPARE_H
#define QUILTCUT_CLI_COMPARE_H

#include "cli.h"

/* "4..12" with a step (NULL: 1 in or 1 cm), or "6,8,12". Freed by the caller.
 */
int read_block_sizes(const char *text, const char *step, qc_units units,
                     qc_length **out, size_t *count);
/* "60x72" */
int read_quilt(const char *text, qc_units units, qc_quilt_size *out);

/* How far a quilt hangs over a bed, at both sides and the foot; and how much of
 * it goes round the pillow. NULL: not given. */
typedef struct bed_args {
    const char *drop, *tuck;
} bed_args;

/* "crib,twin,king=78x80,60x72": beds by name, or width and length of any. Both
 * the list and its first name are freed by the caller. */
int read_beds(const char *text, const bed_args *args, qc_units units,
              qc_quilt_size **out, size_t *count);

/* Rows as they are kept. */
typedef struct kept_row {
    qc_compare_row row;
    qc_quilt_size quilt;
    qc_length *bought; /* of each fabric */
} kept_row;

typedef struct kept_rows {
    kept_row *at;
    size_t count;
    const char **fabrics; /* ids */
    size_t fabric_count;
    qc_units units;
    const char *title;
    bool of_blocks; /* block sizes are compared, not quilts */
    bool failed;    /* memory is out */
} kept_rows;

void keep_row(const qc_compare_row *row, void *user);
int print_rows_text(const kept_rows *rows);
int print_rows_csv(const kept_rows *rows);
int print_rows_json(const kept_rows *rows);

/* Draws the rows to a file, whose ending tells the format; staged. */
int stage_plot(const kept_rows *rows, const char *path, outputs *set);

#endif
