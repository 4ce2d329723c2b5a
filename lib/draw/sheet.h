/* The sheet: everything that the diagram of one fabric shows. */
#ifndef QCI_DRAW_SHEET_H
#define QCI_DRAW_SHEET_H

#include <quiltcut/plan.h>

#include "draw/scene.h"

/* Where things stand on a page, in points. */
#define QCI_PAGE_WIDTH 760.0
#define QCI_PAGE_MARGIN 24.0
#define QCI_GUTTER_LEFT 108.0
#define QCI_GUTTER_RIGHT 48.0
#define QCI_CLOTH_LEFT (QCI_PAGE_MARGIN + QCI_GUTTER_LEFT)
#define QCI_CLOTH_WIDTH                                                        \
    (QCI_PAGE_WIDTH - 2 * QCI_PAGE_MARGIN - QCI_GUTTER_LEFT - QCI_GUTTER_RIGHT)
#define QCI_CLOTH_LONGEST 12000.0

/* What the sheet knows of a piece type. */
typedef struct qci_kind {
    unsigned number; /* from 1, among the types of the fabric */
    bool keyed;      /* somewhere its key stands for its name */
    int64_t turned;  /* pieces that lie a quarter turned */
    uint32_t yields; /* pieces that one on the cloth becomes */
} qci_kind;

/* A band of cloth that has one label in the left gutter. */
typedef struct qci_band {
    double y, h;
    char name[64];
    char size[64];
} qci_band;

typedef struct qci_sheet {
    const qc_plan *plan;
    size_t fabric;
    const qc_plan_fabric *info;
    qc_units units;
    qci_scene *scene;
    qci_kind *kinds;  /* one per piece type of the plan */
    double scale;     /* points per qc_length */
    double top;       /* of the cloth */
    double used_to;   /* where the cut part ends */
    double bottom;    /* of the cloth */
    bool has_breaks;  /* the drawing is interrupted somewhere */
    qc_length length; /* cloth there is: bought, less shrinkage */
    QCI_VEC(qci_band) bands;
} qci_sheet;

/* Room for any length, or pair of lengths, as text. */
#define QCI_SIZE_BYTES 64

/* "2 1/2" for a square, "2 1/2 × 4 1/2" otherwise. */
void qci_sheet_size_text(const qci_sheet *sheet, qc_length w, qc_length h,
                         char text[QCI_SIZE_BYTES]);
const char *qci_sheet_unit(const qci_sheet *sheet);
/* Width of the cloth on the page. */
double qci_sheet_cloth_width(const qci_sheet *sheet);

/* The cloth from `sheet->top` down; sets used_to, bottom, bands, kinds. */
void qci_cloth_lay(qci_sheet *sheet);
/* Dimension lines and strip names around the cloth. Returns how far down the
 * gutters reach. */
double qci_margin_lay(qci_sheet *sheet);
/* Scale bar, signs, list of pieces and cautions, from `y` down; returns where
 * they end. */
double qci_legend_lay(qci_sheet *sheet, double y);

/* Lays the whole sheet of a fabric (which must exist) into an empty scene.
 * False when memory is out. */
bool qci_sheet_lay(const qc_plan *plan, size_t fabric, qci_scene *scene);

#endif
