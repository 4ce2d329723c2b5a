/* A checked job: every default is filled in, every size is a cut size, every
 * reference is an index. Immutable once made. */
#ifndef QCI_JOB_JOB_H
#define QCI_JOB_JOB_H

#include <quiltcut/job.h>

typedef struct qci_fabric {
    char *id;
    char *name;
    qc_length width; /* usable, after shrinkage of raw_width */
    qc_print print;
    qc_length step;
    qc_length square_up;
    int32_t shrink_length; /* hundredths of a per cent */
    int64_t price;         /* QC_DEFAULT: none */
} qci_fabric;

typedef struct qci_piece {
    char *id;
    uint32_t fabric;
    qc_shape shape;
    qc_length finished[2]; /* 0, 0 when cut sizes were given */
    /* Across, along, while not turned; ruler-rounded. Of a triangle, the square
     * that it is cut from. */
    qc_length cut[2];
    qc_length trim;
    bool rounded; /* the cut size was rounded up to the ruler */
    qc_grain grain;
    int64_t count;  /* spares included; a multiple of `yields` */
    int64_t spares; /* these and all that follow are within `count` */
    int64_t extra;  /* spares that fall out since squares give 2 or 4 */
    int32_t yields; /* pieces that one cloth of the cut size becomes */
} qci_piece;

struct qc_job {
    char *title; /* "" if none */
    qc_units units;
    qc_length ruler;
    qc_length seam;
    qci_fabric *fabrics;
    size_t fabric_count;
    qci_piece *pieces; /* in the order given */
    size_t piece_count;
    qc_goal goals[QC_GOAL_COUNT];
    size_t goal_count;
    int32_t stages;
    bool no_trim;
    qc_length keep;
    int32_t layers;
    int32_t time_limit_ms;
    char **defaults; /* sentences on what the job left open */
    size_t default_count;
};

#endif
