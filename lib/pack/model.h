/* The packing problem in its normal form: equal piece types merged, lengths
 * divided by their greatest common divisors, forms in a canonical order, and
 * the strip heights (classes) that a plan may use. */
#ifndef QCI_PACK_MODEL_H
#define QCI_PACK_MODEL_H

#include "demand/demand.h"

/* One way to lie, in scaled lengths. */
typedef struct qci_lay {
    int32_t row;
    int32_t yield; /* what it gives of the row's demand */
    int64_t width; /* at half the height */
    int64_t height;
    int64_t left, right; /* half the leans of its sides, scaled as widths are */
    bool alone;          /* lies only in strips of its own height, with nothing
                            above it: it has slanted sides or is trimmed */
    bool half;           /* alone, and half of a square that its row has too,
                            which is as high and twice as wide */
    int32_t form;        /* index of such a form in the demand */
} qci_lay;

typedef struct qci_model {
    int32_t row_count;
    int64_t *demand; /* per row; in cloths of `unit` pieces */
    int32_t *unit;   /* per row: pieces that every cloth of it yields, where all
                        yield the same; else 1 */
    int32_t lay_count;
    qci_lay *lays; /* by width falling, then height falling, then row; those
                      that lie alone after all others */
    int32_t alone_count; /* so many lie alone */
    bool mixed;          /* some lie alone, or yield more than one piece */
    int32_t *surplus;    /* per row: pieces that a pattern may hold beyond what
                            is asked for, since some lay yields several */
    int32_t *twin;       /* per row: its mirror image's row; itself; or -1 */
    int32_t class_count;
    int64_t
        *height;   /* class k holds strips up to this height; rising; scaled */
    int64_t *cost; /* no strip of class k is lower than this: equal to its
                      height, but where there are too many heights */
    int64_t width; /* of the fabric, scaled, rounded down */
    int64_t width_unit;
    int64_t height_unit;
    bool stacks;
    bool trim;
    /* Stacks that may not be trimmed cannot leave a surplus piece uncut: the
     * demand is then met exactly. */
    bool exact;
    int32_t *row_of; /* per demand row: the merged row it belongs to */
} qci_model;

/* Every row must have a form no wider than `fabric_width`.
 * @return QC_STATUS_OK, QC_STATUS_NO_MEMORY, or QC_STATUS_INVALID for stacks
 * without trimming that have too many heights. */
qc_status qci_model_create(const qci_demand *demand, qc_length fabric_width,
                           qci_model **out, qc_error *err);
void qci_model_destroy(qci_model *model);

/* Width that is lost between two sides with these leans, in scaled units. */
static inline int64_t qci_wedge(int64_t a, int64_t b)
{
    return a < b ? b - a : a - b;
}

/* The form of demand row `row` that lies as `lay` does. */
int32_t qci_model_form(const qci_demand *demand, const qci_model *model,
                       int32_t row, int32_t lay);

/* The lowest class that is at least `height` high (which must exist). */
int32_t qci_model_class(const qci_model *model, int64_t height);

/* Lays that may stand in a section come first, those that lie alone after. */
static inline int32_t qci_square_count(const qci_model *model)
{
    return model->lay_count - model->alone_count;
}

/* Is there a strip of the class that the lay may lie in? */
bool qci_lay_fits(const qci_model *model, const qci_lay *lay, int32_t cls);

/* Is one of the row among the lays from `from` to before `to` that fit so? */
bool qci_row_fits(const qci_model *model, int32_t row, int32_t from, int32_t to,
                  int32_t cls);

#endif
