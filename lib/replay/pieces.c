/* What the plan says of its pieces.
 *
 * Everything that falls out is compared with an outline, so the outlines come
 * first: each is convex, lies on its base, and is the same form as the others
 * of its piece. Hands hang on twins: the outlines of a right piece must be
 * those of the left one seen in a mirror, corner by corner, and a piece without
 * hands must be its own mirror image, unless its cloth has no wrong side. Sizes
 * that the plan prints beside an outline are measured on it. At most 24
 * outlines of 24 corners a piece. */
#include "replay/form.h"
#include "replay/state.h"

static bool is_outline(const qci_polygon *form)
{
    for (int i = 0; i < form->count; i++) {
        qci_point p = form->at[i];

        if (p.x % 2 || p.y < 0 || p.y > QC_LENGTH_MAX || p.x < -QC_LENGTH_MAX ||
            p.x > QC_LENGTH_MAX)
            return false;
    }
    return form->at[0].x == 0 && form->at[0].y == 0 && form->at[1].y == 0 &&
           qci_polygon_is_convex(form);
}

static qc_status check_outlines(qci_replay *replay, size_t index)
{
    const qc_plan_piece *piece = &replay->plan->pieces[index];
    qci_polygon first;

    if (piece->outline_count < 3 || piece->outline_count > QCI_POLYGON_MAX ||
        piece->base_count < 1 || piece->base_count > piece->outline_count)
        return qci_replay_reject_at(replay, "pieces", index,
                                    "%zu outlines of %zu corners",
                                    piece->base_count, piece->outline_count);
    first = qci_form_of(piece, 0);
    for (uint32_t base = 0; base < piece->base_count; base++) {
        qci_polygon form = qci_form_of(piece, base);

        if (!is_outline(&form))
            return qci_replay_reject_at(
                replay, "pieces", index,
                "outline %u is not convex, or not on its base", base);
        if (!qci_form_is_congruent(&first, &form))
            return qci_replay_reject_at(replay, "pieces", index,
                                        "outline %u is another form", base);
    }
    return QC_STATUS_OK;
}

/* A right angle between two equal legs: halves of the square by the legs,
 * quarters by the long side, which are a triangle on the square's middle. Those
 * are as high as their strip, and so may be rounded up to the ruler once more.
 */
static bool is_triangle_of(const qci_polygon *form, qc_length square,
                           int64_t triangles, qc_length ruler)
{
    qc_length base = triangles == 2 ? square : form->at[1].x;
    qci_polygon half = {3, {{0, 0}, {base, 0}, {0, base}}};
    qci_polygon quarter = {3, {{0, 0}, {base, 0}, {base / 2, base / 2}}};

    return qci_form_is_congruent(form, triangles == 2 ? &half : &quarter) &&
           base >= square && base <= square + 2 * ruler + QCI_FORM_SLACK;
}

/* Of a diamond or parallelogram with all its tips: four corners, two of them on
 * the base. */
static bool is_slanted(const qci_polygon *form, const qc_length cut[2])
{
    return form->count == 4 && form->at[2].y == cut[1] &&
           form->at[3].y == cut[1] &&
           form->at[2].x == form->at[1].x + form->at[3].x &&
           qci_replay_is_spacing(cut[0], form->at[1].x, form->at[3].x, cut[1]);
}

static bool has_size(const qc_plan_piece *piece, qc_length ruler)
{
    int64_t triangles = qci_replay_triangles(piece->shape);
    qci_polygon form = qci_form_of(piece, 0);
    qci_point low, high;

    qci_polygon_box(&form, &low, &high);
    if (piece->cut[0] < 1 || piece->cut[0] > QC_LENGTH_MAX)
        return false;
    if (triangles)
        return piece->blunt ||
               is_triangle_of(&form, piece->cut[0], triangles, ruler);
    if (high.y != piece->cut[1])
        return false;
    if (piece->shape == QC_SHAPE_DIAMOND ||
        piece->shape == QC_SHAPE_PARALLELOGRAM)
        return piece->blunt || is_slanted(&form, piece->cut);
    return high.x - low.x == piece->cut[0];
}

/* Which way a diamond or parallelogram leans going up, as the side does that
 * rises most: where a tip is cut off, less is left of the other one. */
static qc_hand hand_of(const qci_polygon *form)
{
    qci_point up = {0, 0};

    for (int i = 0; i < form->count; i++) {
        qci_point from = form->at[i], to = form->at[(i + 1) % form->count];

        if (to.y - from.y > up.y)
            up = (qci_point){to.x - from.x, to.y - from.y};
    }
    return up.x > 0 ? QC_HAND_RIGHT : QC_HAND_LEFT;
}

/* Outline by outline, in any order. */
static bool are_mirrored(const qc_plan_piece *piece, const qc_plan_piece *twin)
{
    if (piece->outline_count != twin->outline_count ||
        piece->base_count != twin->base_count)
        return false;
    for (uint32_t base = 0; base < piece->base_count; base++) {
        qci_polygon image = qci_form_lying(piece, base, QC_TURN_NONE, true);

        if (!qci_form_fits_some_base(twin, QC_TURN_NONE, false, &image))
            return false;
    }
    return true;
}

static qc_status check_twin(qci_replay *replay, size_t index)
{
    const qc_plan *plan = replay->plan;
    const qc_plan_piece *piece = &plan->pieces[index], *twin;

    if (piece->twin == QC_NONE)
        return QC_STATUS_OK;
    if (piece->twin >= plan->piece_count || piece->twin == index)
        return qci_replay_reject_at(replay, "pieces", index,
                                    "has a hand, but no twin");
    twin = &plan->pieces[piece->twin];
    if (twin->twin != index || twin->fabric != piece->fabric ||
        twin->hand == QC_HAND_NONE || twin->hand == piece->hand)
        return qci_replay_reject_at(replay, "pieces", index,
                                    "piece %u is not its twin", piece->twin);
    if (!are_mirrored(piece, twin))
        return qci_replay_reject_at(replay, "pieces", index,
                                    "piece %u is not its mirror image",
                                    piece->twin);
    return QC_STATUS_OK;
}

static qc_status check_hand(qci_replay *replay, size_t index)
{
    const qc_plan_piece *piece = &replay->plan->pieces[index];
    qci_polygon form = {0};
    bool both_sides;

    if (piece->fabric >= replay->plan->fabric_count)
        return qci_replay_reject_at(replay, "pieces", index,
                                    "there is no fabric %u", piece->fabric);
    both_sides =
        replay->plan->fabrics[piece->fabric].info.print == QC_PRINT_REVERSIBLE;
    if (piece->outline_count)
        form = qci_form_of(piece, 0);
    if (piece->hand == QC_HAND_NONE) {
        if (piece->twin != index)
            return qci_replay_reject_at(replay, "pieces", index,
                                        "has no hand, but a twin");
        if (form.count && !both_sides && !qci_form_is_symmetric(&form))
            return qci_replay_reject_at(
                replay, "pieces", index,
                "has no hand, but is not its own mirror image");
        return QC_STATUS_OK;
    }
    if (piece->hand != QC_HAND_LEFT && piece->hand != QC_HAND_RIGHT)
        return qci_replay_reject_at(replay, "pieces", index,
                                    "there is no hand %d", (int)piece->hand);
    if (!form.count)
        return qci_replay_reject_at(replay, "pieces", index,
                                    "is a rectangle with a hand");
    if ((piece->shape == QC_SHAPE_DIAMOND ||
         piece->shape == QC_SHAPE_PARALLELOGRAM) &&
        hand_of(&form) != piece->hand)
        return qci_replay_reject_at(replay, "pieces", index,
                                    "leans to the other hand");
    return check_twin(replay, index);
}

qc_status qci_replay_check_pieces(qci_replay *replay)
{
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; status == QC_STATUS_OK && i < replay->plan->piece_count;
         i++) {
        const qc_plan_piece *piece = &replay->plan->pieces[i];

        if (piece->outline_count) {
            status = check_outlines(replay, i);
            if (status == QC_STATUS_OK && !has_size(piece, replay->plan->ruler))
                status = qci_replay_reject_at(
                    replay, "pieces", i,
                    "its cut size is not that of its outline");
        }
        if (status == QC_STATUS_OK)
            status = check_hand(replay, i);
    }
    return status;
}
