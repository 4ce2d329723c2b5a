/* The ways a piece may lie in a strip.
 *
 * Print and facing say which turns there are. A rectangle has at most two that
 * differ. A triangle comes from a square, which turns its triangles every way,
 * or singly from a strip; where the print must face one way, singly only. All
 * else lies with one of its bases on the strip's edge, at the lower or the
 * upper one, and as its mirror image where that is the same piece: because of
 * its shape, on cloth without a direction, or because the cloth has no wrong
 * side. A list is short, so forms are compared one by one. */
#include "demand/forms.h"

#include "job/turn.h"
#include "length/ruler.h"
#include "shape/shape.h"

typedef struct list {
    qci_forms *forms;
    size_t from; /* first form of the row */
    const qci_piece *piece;
    const qci_fabric *fabric;
    int32_t row;
    qc_length ruler;
} list;

static bool is_alike(const qci_form *a, const qci_form *b)
{
    return a->width == b->width && a->height == b->height &&
           a->left == b->left && a->right == b->right && a->yields == b->yields;
}

static bool add_form(const list *l, const qci_form *form)
{
    if (qci_form_room(form) > l->fabric->width)
        return true;
    for (size_t i = l->from; i < l->forms->count; i++)
        if (is_alike(&l->forms->at[i], form))
            return true;
    return qci_vec_push(l->forms, *form);
}

static bool keeps_facing(const list *l)
{
    return qci_piece_keeps_facing(l->piece, l->fabric->print);
}

static bool add_rectangle(const list *l, qc_turn turn)
{
    qci_form form = {.row = l->row,
                     .width = qci_piece_across(l->piece, turn),
                     .height = qci_piece_along(l->piece, turn),
                     .yields = qci_shape_yields(l->piece->shape),
                     .turn = turn};

    /* A piece as long as wide has one form, which nobody would call turned. */
    if (l->piece->cut[0] == l->piece->cut[1])
        form.turn = QC_TURN_NONE;
    return !qci_piece_fits(l->piece, l->fabric, turn) || add_form(l, &form);
}

static bool add_rectangles(const list *l)
{
    return add_rectangle(l, QC_TURN_NONE) && add_rectangle(l, QC_TURN_QUARTER);
}

static bool add_outline(const list *l, size_t base, qc_turn turn, bool mirrored)
{
    size_t count = l->piece->outline_count;
    const qc_point *outline = l->piece->outline + base * count;
    qc_point lying[QCI_CORNERS_MAX];
    qci_footprint found[QCI_FOOTPRINT_MAX];
    qc_length height = 0;
    int32_t n;

    qci_outline_lay(outline, count, turn, mirrored, lying);
    for (size_t i = 0; i < count; i++)
        height = lying[i].y > height ? lying[i].y : height;
    /* On its base the shape is as high as a ruler shows; on another side the
     * strip is, and what is too much is trimmed off. */
    if (base)
        height = qci_ruler_up(height, l->ruler);
    n = qci_shape_footprints(lying, count, height, found);
    for (int32_t i = 0; i < n; i++) {
        qci_form form = {.row = l->row,
                         .width = found[i].width,
                         .height = height,
                         .left = found[i].left,
                         .right = found[i].right,
                         .yields = 1,
                         .corners = found[i].corners,
                         .turn = turn,
                         .base = (uint32_t)base,
                         .mirrored = mirrored};

        if (!add_form(l, &form))
            return false;
    }
    return true;
}

static bool may_turn(const list *l, qc_turn turn)
{
    switch (turn) {
    case QC_TURN_NONE:
        return true;
    case QC_TURN_HALF:
        return l->fabric->print != QC_PRINT_ONE_WAY ||
               (qci_shape_yields(l->piece->shape) > 1 && !keeps_facing(l));
    default:
        /* Of a square's quarters the long side lies both ways; but singly they
         * come from strips along it. */
        return l->piece->shape == QC_SHAPE_HALF_SQUARE_TRIANGLE &&
               !keeps_facing(l);
    }
}

static bool may_mirror(const list *l)
{
    return qci_shape_yields(l->piece->shape) == 1 &&
           l->piece->hand == QC_HAND_NONE &&
           !qci_print_has_direction(l->fabric->print);
}

static bool add_turns(const list *l, size_t base, bool mirrored)
{
    for (int turn = QC_TURN_NONE; turn <= QC_TURN_THREE_QUARTERS; turn++)
        if (may_turn(l, (qc_turn)turn) &&
            !add_outline(l, base, (qc_turn)turn, mirrored))
            return false;
    return true;
}

bool qci_forms_add(qci_forms *forms, const qci_piece *piece,
                   const qci_fabric *fabric, int32_t row, qc_length ruler)
{
    const list l = {forms, forms->count, piece, fabric, row, ruler};
    bool triangle = qci_shape_yields(piece->shape) > 1;

    if (!piece->outline_count || (triangle && !keeps_facing(&l)))
        if (!add_rectangles(&l))
            return false;
    for (size_t base = 0; base < piece->base_count; base++)
        if (!add_turns(&l, base, false))
            return false;
    for (size_t base = 0; base < piece->base_count && may_mirror(&l); base++)
        if (!add_turns(&l, base, true))
            return false;
    return true;
}
