/* The sheet: everything that the diagram of one fabric, or of one strip set,
 * shows.
 *
 * The cloth lies as the cut order measures it: its squared-up edge below, its
 * uncut end above, strips worked from the left. Of a left-handed plan all is
 * laid like that too, and then turned left for right. */
#ifndef QCI_DRAW_SHEET_H
#define QCI_DRAW_SHEET_H

#include <quiltcut/plan.h>

#include "draw/label.h"

/* Where things stand on a page, in points. */
#define QCI_PAGE_WIDTH 760.0
#define QCI_PAGE_MARGIN 24.0
#define QCI_GUTTER_LEFT 108.0
#define QCI_GUTTER_RIGHT 48.0
#define QCI_CLOTH_LEFT (QCI_PAGE_MARGIN + QCI_GUTTER_LEFT)
#define QCI_CLOTH_WIDTH                                                        \
    (QCI_PAGE_WIDTH - 2 * QCI_PAGE_MARGIN - QCI_GUTTER_LEFT - QCI_GUTTER_RIGHT)
#define QCI_CLOTH_LONGEST 12000.0
/* Pieces narrower or lower than this are drawn as one block. */
#define QCI_LEAST_PIECE 2.0
/* Scrap narrower than this is not drawn: a line would cover it. */
#define QCI_LEAST_SCRAP 0.3

/* What the sheet knows of a piece type. */
typedef struct qci_kind {
    unsigned number; /* from 1, among the types of the fabric */
    bool keyed;      /* somewhere its key stands for its name */
    int64_t turned;  /* pieces that lie a quarter turned */
    int64_t singles; /* pieces that are not cut corner to corner from squares */
    uint32_t yields; /* the most pieces that one on the cloth becomes */
} qci_kind;

/* A band of cloth that has one label in the left gutter. */
typedef struct qci_band {
    double y, h;
    char name[64];
    char size[64];
    char notes[2][64]; /* "": none */
} qci_band;

/* A straight cut across a strip: where it is on the strip's lower and on its
 * upper edge. */
typedef struct qci_edge {
    double low, up;
} qci_edge;

typedef struct qci_sheet {
    const qc_plan *plan;
    size_t fabric; /* these four: of the sheet of a fabric */
    const qc_plan_fabric *info;
    qc_units units;
    qci_scene *scene;
    qci_kind *kinds;  /* one per piece type of the plan */
    qc_length length; /* cloth there is: bought, less shrinkage */
    double scale;     /* points per qc_length */
    double top;       /* of the cloth */
    double used_from; /* where the cut part begins, above which none is cut */
    double bottom;    /* of the cloth */
    bool has_breaks;  /* the drawing is interrupted somewhere */
    bool has_pairs;   /* some strips lie in twos when they are cut */
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

/* "45" or "67.5". */
void qci_sheet_angle_text(int32_t angle, char text[QCI_SIZE_BYTES]);
/* One line over the page's whole width; returns where the next begins. */
double qci_sheet_line(qci_sheet *sheet, double y, double size, bool strong,
                      const char *text);

/* Size of a piece as the list gives it: two sides, or what a slanted one is cut
 * by. */
void qci_name_size(const qci_sheet *sheet, const qc_plan_piece *piece,
                   char text[QCI_SIZE_BYTES]);
/* The label of `together` equal pieces of a stack, which fill one room; where
 * the strip is `paired` the piece's mirror image is named too. */
void qci_name_fit(qci_sheet *sheet, const qc_stack *stack, bool paired,
                  uint64_t together, qci_room room, qci_fit *fit);

/* The cloth from `sheet->top` down; sets used_from, bottom, bands, kinds. */
void qci_cloth_lay(qci_sheet *sheet);

/* Has the section slanted sides, or is it trimmed to an outline? */
bool qci_slant_wants(const qci_sheet *sheet, const qc_subcut *subcut);
/* Scrap between two cuts, in a strip from `y` down. */
void qci_slant_scrap(qci_sheet *sheet, qci_edge from, qci_edge to, double y,
                     double h);
/* Scrap between the cut that is there and the next one, which has the lean
 * `lean` and meets it on one of the strip's edges; returns the next. */
qci_edge qci_slant_wedge(qci_sheet *sheet, qci_edge edge, double lean, double y,
                         double h);
/* Lays a run of such sections beyond `edge`; returns their last side. */
qci_edge qci_slant_lay(qci_sheet *sheet, const qc_strip *strip,
                       const qc_subcut *subcut, qci_edge edge, double y,
                       double h);
/* The outline of a piece, whose lowest corner is at y = 0 and whose left one at
 * x = 0, with y upwards, in qc_length. Returns the number of its corners. */
size_t qci_slant_outline(const qc_plan_piece *piece, uint32_t base,
                         qc_turn turn, bool mirrored, qci_corner *out);

/* Dimension lines and strip names around the cloth. Returns how far down the
 * gutters reach. */
double qci_margin_lay(qci_sheet *sheet);
/* The names of the bands alone; returns how far down they reach. */
double qci_margin_names(qci_sheet *sheet);
/* Says from which end strips are worked, below that end of what is drawn from
 * `left` to `right`; returns where the next line begins. */
double qci_margin_end(qci_sheet *sheet, double left, double right, double y);

/* Scale bar, signs, list of pieces and cautions, from `y` down; returns where
 * they end. */
double qci_legend_lay(qci_sheet *sheet, double y);
/* Parts of it that every sheet has. */
void qci_legend_scale(qci_sheet *sheet, double y);
/* Returns where the next sign may stand. */
double qci_legend_sign(qci_sheet *sheet, double x, double y, qci_role role,
                       const char *text);
double qci_legend_cautions(qci_sheet *sheet, double y);

/* Lays the whole sheet of a fabric (which must exist) into an empty scene.
 * False when memory is out. */
bool qci_sheet_lay(const qc_plan *plan, size_t fabric, qci_scene *scene);
/* The same for a strip set. */
bool qci_sets_lay(const qc_plan *plan, size_t set, qci_scene *scene);

#endif
