/* Where in a JSON text a value stands. */
#ifndef QCI_JSON_LOCATE_H
#define QCI_JSON_LOCATE_H

#include <stdbool.h>
#include <stddef.h>

/* The deepest path that a job or an error about one has. */
#define QCI_PATH_DEPTH 8

/* One step down: into an object by key, or into a list by index. */
typedef struct qci_json_step {
    const char *key; /* NULL: use index */
    size_t index;
} qci_json_step;

typedef struct qci_json_path {
    qci_json_step steps[QCI_PATH_DEPTH];
    int depth;
} qci_json_path;

typedef struct qci_spot {
    int matched;      /* steps of the path that exist */
    size_t key_start; /* offset of the last key on the way, or as start */
    size_t start;     /* of the value that was reached */
    size_t end;       /* just behind it */
} qci_spot;

/* Follows `path` through valid JSON text as far as it goes: to the value
 * itself, or to the innermost one round a field that is missing. */
qci_spot qci_locate(const char *text, size_t size, const qci_json_path *path);

/* Splits a path such as "pieces[3].cut[0]". `copy` is that text; it is cut up,
 * and the steps point into it. False when it is not a path or too deep. */
bool qci_json_path_split(char *copy, qci_json_path *path);

/* Writes a path; cut off at `size`. */
void qci_json_path_text(const qci_json_path *path, char *out, size_t size);

#endif
