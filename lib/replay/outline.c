/* Trimming a section to the outline of its piece.
 *
 * The section and the outline, as it lies, have one lower edge; the outline is
 * pushed to the left as far as it goes. There it must lie inside the section,
 * and every side of it that is no side of the section takes a cut. Corners are
 * rounded to whole numbers, so both are judged to within two units; and of the
 * few places that this leaves, the one with the fewest cuts counts. The cuts
 * themselves need not be carried out: straight ones along all sides of a convex
 * outline leave the outline. At most 24 sides against 32. */
#include "replay/form.h"
#include "replay/state.h"

#define SLACK ((qci_wide)2)

/* On which side of the line a -> b, and how far from it, p lies. */
typedef enum place {
    PLACE_INSIDE,
    PLACE_ON, /* to within the slack */
    PLACE_OUTSIDE
} place;

static place place_of(qci_point a, qci_point b, qci_point p)
{
    qci_wide cross = qci_polygon_cross(a, b, p);
    qci_wide square = (qci_wide)(b.x - a.x) * (b.x - a.x) +
                      (qci_wide)(b.y - a.y) * (b.y - a.y);

    /* The distance is cross / root(square); sides are shorter than 2^38. */
    if (cross > (qci_wide)1 << 40)
        return PLACE_INSIDE;
    if (cross < -((qci_wide)1 << 40))
        return PLACE_OUTSIDE;
    if (cross * cross <= SLACK * SLACK * square)
        return PLACE_ON;
    return cross > 0 ? PLACE_INSIDE : PLACE_OUTSIDE;
}

static bool is_inside(const qci_polygon *section, const qci_polygon *outline)
{
    for (int i = 0; i < section->count; i++) {
        qci_point a = section->at[i];
        qci_point b = section->at[(i + 1) % section->count];

        for (int k = 0; k < outline->count; k++) {
            if (place_of(a, b, outline->at[k]) == PLACE_OUTSIDE)
                return false;
        }
    }
    return true;
}

static bool is_side_of(const qci_polygon *section, qci_point p, qci_point q)
{
    for (int i = 0; i < section->count; i++) {
        qci_point a = section->at[i];
        qci_point b = section->at[(i + 1) % section->count];

        if (place_of(a, b, p) == PLACE_ON && place_of(a, b, q) == PLACE_ON)
            return true;
    }
    return false;
}

/* Sides of the outline that no side of the section is; -1: it does not lie
 * inside. */
static int cuts_at(const qci_polygon *section, const qci_polygon *outline)
{
    int cuts = 0;

    if (!is_inside(section, outline))
        return -1;
    for (int i = 0; i < outline->count; i++)
        cuts += !is_side_of(section, outline->at[i],
                            outline->at[(i + 1) % outline->count]);
    return cuts;
}

static qci_polygon moved(const qci_polygon *from, qc_length x, qc_length y)
{
    qci_polygon out = *from;

    for (int i = 0; i < out.count; i++) {
        out.at[i].x += x;
        out.at[i].y += y;
    }
    return out;
}

/* The least x by which the outline must be moved for no corner to lie left of
 * the section's left edge, which rises to the right by the lean; rounded down.
 */
static qc_length push_left(const qci_polygon *section,
                           const qci_polygon *outline)
{
    qci_point lower, upper;
    qc_length least = INT64_MIN;

    qci_cloth_left(section, &lower, &upper);
    for (int i = 0; i < outline->count; i++) {
        qci_point p = outline->at[i];
        qci_wide run = (qci_wide)(upper.x - lower.x) * (p.y - lower.y);
        qci_wide rise = upper.y - lower.y;
        qci_wide edge = run / rise - (run % rise < 0);
        qc_length x = lower.x + (qc_length)edge - p.x;

        least = x > least ? x : least;
    }
    return least;
}

/* The fewest cuts that trim the section; -1: the outline does not fit in. */
static int count_cuts(const qci_polygon *section, const qci_polygon *outline)
{
    qci_point from, to, high;
    qci_polygon lying;
    qc_length x;
    int least = -1;

    qci_polygon_box(section, &to, &high);
    qci_polygon_box(outline, &from, &high);
    lying = moved(outline, 0, to.y - from.y);
    x = push_left(section, &lying);
    for (qc_length on = -SLACK; on <= SLACK; on++) {
        qci_polygon at = moved(&lying, x + on, 0);
        int cuts = cuts_at(section, &at);

        if (cuts >= 0 && (least < 0 || cuts < least))
            least = cuts;
    }
    return least;
}

static qc_status check_form(qci_replay *replay, const qc_step *step)
{
    qc_status status = qci_replay_piece(replay, step);

    if (status != QC_STATUS_OK)
        return status;
    if (!replay->plan->pieces[step->piece].outline_count)
        return qci_replay_reject(replay, step, "piece %u has no outline",
                                 step->piece);
    if (step->part_out != QC_NONE || step->rest_is_piece || step->distance)
        return qci_replay_reject(
            replay, step, "trimming to an outline has no part, rest or ruler");
    return QC_STATUS_OK;
}

/* Sections that were turned back have pieces that lie the other way up too. */
static qc_status check_lying(qci_replay *replay, const qc_step *step,
                             const qci_part *part)
{
    qc_status status = qci_replay_lying(replay, step, step->turn, true);

    if (status == QC_STATUS_OK && part->both_ways)
        status = qci_replay_lying(replay, step,
                                  (qc_turn)(((int)step->turn + 2) % 4), true);
    return status;
}

qc_status qci_replay_outline(qci_replay *replay, const qc_step *step,
                             qci_part *part)
{
    bool left_handed = replay->plan->left_handed;
    qci_polygon seen, outline;
    int cuts;
    qc_status status = check_form(replay, step);

    if (status == QC_STATUS_OK)
        status = check_lying(replay, step, part);
    if (status != QC_STATUS_OK)
        return status;
    seen = left_handed ? qci_polygon_mirrored(&part->cloth) : part->cloth;
    outline = qci_form_lying(&replay->plan->pieces[step->piece], step->base,
                             step->turn, step->mirrored);
    cuts = count_cuts(&seen, &outline);
    if (cuts < 0)
        return qci_replay_reject(replay, step,
                                 "the outline of piece %u is not inside what "
                                 "is trimmed",
                                 step->piece);
    if (cuts == 0 || (int64_t)step->repeat != cuts)
        return qci_replay_reject(replay, step,
                                 "%d sides of piece %u are to be cut, not %u",
                                 cuts, step->piece, step->repeat);
    part->gone = true;
    replay->scrap_area += (qci_polygon_doubled_area(&part->cloth) -
                           qci_polygon_doubled_area(&outline)) *
                          step->copies;
    return qci_replay_count(replay, step, &outline, step->copies);
}
