/* A checked job: every default is filled in, every size is a cut size, every
 * reference is an index. Immutable once made. */
#ifndef QCI_JOB_JOB_H
#define QCI_JOB_JOB_H

#include <quiltcut/plan.h>

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

/* What is cut alike: a piece of the spec; one hand of it; the whole or the end
 * pieces of a joined strip; strips of a strip set. */
typedef struct qci_piece {
    char *id;     /* what it is called in the plan; unique */
    char *job_id; /* in the spec */
    uint32_t fabric;
    qc_shape shape; /* of joined strips and strips of sets: a rectangle */
    qc_hand hand;   /* NONE on reversible cloth too */
    uint32_t twin;  /* index of its mirror image; itself; QC_NONE */
    qc_length finished[3]; /* 0 when cut sizes were given */
    qc_length cut[2];      /* as qc_plan_piece */
    int64_t finished_area; /* of one, rounded down */
    int32_t angle;
    bool blunt;
    qc_point *outline; /* NULL for rectangles; as qc_plan_piece */
    size_t outline_count;
    size_t base_count;
    qc_length trim;
    qc_length trim_to[2]; /* as qc_plan_piece */
    bool rounded;         /* the cut size was rounded up to the ruler */
    qc_grain grain;       /* ANY, LENGTHWISE or CROSSWISE of rectangles; ANY or
                             BASE of others */
    qc_facing facing;
    int64_t count;      /* spares included */
    int64_t spares;     /* within `count` */
    uint32_t strip_set; /* QC_NONE */
    uint32_t block;     /* QC_NONE */
    char *role;         /* in the block; NULL */
    int64_t in_each;    /* block */
    uint32_t unit;      /* QC_NONE */
    uint32_t patches;   /* as qc_plan_piece */
} qci_piece;

typedef struct qci_set {
    qc_plan_set info; /* texts owned */
    qc_set_strip *strips;
    qc_length *finished; /* width of each strip as given; 0: a cut one was */
} qci_set;

struct qc_job {
    char *title; /* "" if none */
    qc_units units;
    qc_length ruler;
    qc_length seam;
    qci_fabric *fabrics;
    size_t fabric_count;
    qci_piece *pieces; /* in the order given */
    size_t piece_count;
    qc_plan_block *blocks; /* texts owned */
    size_t block_count;
    qc_plan_unit *made; /* ids owned */
    size_t made_count;
    qci_set *sets; /* one for each hand */
    size_t set_count;
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
