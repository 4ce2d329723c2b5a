/* Shared by the files that check a spec and fill the job from it. */
#ifndef QCI_JOB_CHECK_H
#define QCI_JOB_CHECK_H

#include "base/error.h"
#include "base/text.h"
#include "job/job.h"

typedef struct qci_check {
    const qc_job_spec *spec;
    qc_job *job; /* being filled; later checks rely on earlier ones */
    qc_error *err;
} qci_check;

/* What a job takes where its spec says QC_DEFAULT. */
typedef struct qci_defaults {
    qc_length seam;
    qc_length ruler;
    qc_length width;
    qc_length step;
    qc_length square_up;
    qc_length keep;
} qci_defaults;

#define QCI_DEFAULT_STAGES 3
#define QCI_DEFAULT_LAYERS 4
#define QCI_DEFAULT_TIME_LIMIT_MS 10000

const qci_defaults *qci_defaults_of(qc_units units);

/* A path such as "fabrics[3].shrink.length", spelled like the JSON form. */
typedef struct qci_path {
    char text[96];
} qci_path;

qci_path qci_path_of(const char *list, size_t index, const char *member);

/* A text short enough for the middle of a message. */
typedef struct qci_short {
    char text[48];
} qci_short;

qci_short qci_short_of(const char *text);

/* A length with its unit, for messages. */
typedef struct qci_shown {
    char text[48];
} qci_shown;

qci_shown qci_show(qc_length length, qc_units units);

/* An angle that can be cut and sewn: 1 to 179 degrees. */
static inline bool qci_is_angle(int32_t angle)
{
    return angle >= QC_DEGREE && angle <= 179 * QC_DEGREE;
}

/* How many more than `count` the spec asks for. */
static inline int64_t qci_spares_of(const qc_job_spec *spec, int64_t count)
{
    if (spec->spare_count > 0)
        return spec->spare_count;
    return spec->spare_percent > 0
               ? (count * spec->spare_percent + 9999) / 10000
               : 0;
}

typedef struct qci_range {
    int64_t least, most;
    const char *allowed; /* the range in words */
} qci_range;

/* All return QC_STATUS_OK or fail with QC_STATUS_INVALID. */
qc_status qci_check_length(const qci_check *check, const char *field,
                           qc_length value, qci_range range);
qc_status qci_check_number(const qci_check *check, const char *field,
                           int64_t value, qci_range range);
/* `hundredths` of a per cent. */
qc_status qci_check_percent(const qci_check *check, const char *field,
                            int32_t hundredths, qci_range range);
/* `least` 1 for what must not be empty. */
qc_status qci_check_text(const qci_check *check, const char *field,
                         const char *text, size_t least);

/* The parts of a job, in this order; also QC_STATUS_NO_MEMORY. */
qc_status qci_check_options(const qci_check *check);
qc_status qci_check_fabrics(const qci_check *check);
qc_status qci_check_pieces(const qci_check *check);
qc_status qci_check_blocks(const qci_check *check);
/* Appends a piece to the job's, which owns its texts and outline from then on,
 * or ends them when memory is out. */
qc_status qci_job_add_piece(const qci_check *check, qci_piece piece);
/* Is there a piece of that name in the plan? */
bool qci_job_has_name(const qc_job *job, const char *name);
/* The fabric of an id; fails with the nearest id there is. */
qc_status qci_find_fabric(const qci_check *check, const char *path,
                          const char *id, uint32_t *fabric);
/* Ends a piece's texts and outline. */
void qci_piece_clear(qci_piece *piece);
/* Also QC_STATUS_IMPOSSIBLE: pieces against fabrics, and fabric in all. */
qc_status qci_check_fit(const qci_check *check);
/* Adds a sentence to those on what the spec left open, and ends the text. */
qc_status qci_note_sentence(const qci_check *check, qci_text *text);
/* Writes the sentences on what the spec left open. */
qc_status qci_note_defaults(const qci_check *check);

#endif
