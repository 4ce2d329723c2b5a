/* Pieces that are trimmed from sections: each must hold the piece's outline.
 *
 * The outline is laid on the section's lower edge and pushed to the left as far
 * as it goes; what then hangs over on the right, or at the top, is short. Of
 * the sides that may lie on the edge, of half turns and mirror images the one
 * that lacks least is meant; whether the print lets it lie so is asked apart.
 * Sections lean by numbers that were rounded, so that a few units are nothing.
 */
#include "base/wide.h"
#include "check/pieces.h"
#include "job/check.h"
#include "job/turn.h"
#include "replay/form.h"

#define SLACK 64

/* Where a side's line is at a height. */
static qc_length line_at(qci_point a, qci_point b, qc_length y)
{
    return a.x + (qc_length)((qci_wide)(b.x - a.x) * (y - a.y) / (b.y - a.y));
}

/* By how much the outline, lying on the section's lower edge, lies beyond the
 * sides that rise, on the right, or fall, on the left, at the most. */
static qc_length beyond(const qci_polygon *section, qc_length low,
                        const qci_polygon *outline, bool right)
{
    qc_length most = INT64_MIN;
    qci_point corner, high;

    qci_polygon_box(outline, &corner, &high);
    for (int i = 0; i < section->count; i++) {
        qci_point a = section->at[i];
        qci_point b = section->at[(i + 1) % section->count];

        if (right ? b.y <= a.y : b.y >= a.y)
            continue;
        for (int k = 0; k < outline->count; k++) {
            qci_point p = outline->at[k];
            qc_length edge = line_at(a, b, p.y - corner.y + low);
            qc_length out = right ? p.x - edge : edge - p.x;

            most = out > most ? out : most;
        }
    }
    return most;
}

/* How the outline lies, and how much the section lacks. */
typedef struct lying {
    bool allowed;
    qc_length along, up;
} lying;

static lying lay(const qci_polygon *section, const qci_polygon *outline)
{
    qci_point low, high, from, to;
    lying out = {.allowed = true};
    qc_length over, up;

    qci_polygon_box(section, &low, &high);
    qci_polygon_box(outline, &from, &to);
    up = (to.y - from.y) - (high.y - low.y);
    /* Pushed to the left edge by as much as it lies beyond it. */
    over = beyond(section, low.y, outline, true) +
           beyond(section, low.y, outline, false);
    out.up = up > SLACK ? up : 0;
    out.along = over > SLACK ? over : 0;
    return out;
}

/* Less is lacking; of equal ones that which is allowed. */
static bool is_better(lying a, lying b)
{
    qc_length left = a.along + a.up, right = b.along + b.up;

    return left != right ? left < right : a.allowed && !b.allowed;
}

static bool is_triangle(const qci_piece *piece)
{
    return piece->shape == QC_SHAPE_HALF_SQUARE_TRIANGLE ||
           piece->shape == QC_SHAPE_QUARTER_SQUARE_TRIANGLE;
}

/* Half of a square, or a quarter, on the side that its strip takes. */
static void set_triangle(const qci_piece *piece, qc_point corners[3])
{
    bool half = piece->shape == QC_SHAPE_HALF_SQUARE_TRIANGLE;
    qc_length side = piece->cut[0];

    corners[0] = (qc_point){0, 0};
    corners[1] = (qc_point){side, 0};
    corners[2] = half ? (qc_point){0, side} : (qc_point){side / 2, side / 2};
}

static lying lay_outlined(const qci_checker *c, uint32_t index,
                          const qci_polygon *section)
{
    const qci_piece *piece = &c->of->job->pieces[index];
    const qci_piece *least = qci_pieces_least(c, index);
    qc_plan_piece view = {.outline = least->outline,
                          .outline_count = least->outline_count,
                          .base_count = least->base_count};
    qc_print print = c->of->job->fabrics[piece->fabric].print;
    lying best = {false, QC_LENGTH_MAX, QC_LENGTH_MAX};
    qc_point corners[3];

    if (is_triangle(piece)) {
        set_triangle(least, corners);
        view.outline = corners;
        view.outline_count = 3;
        view.base_count = 1;
    }
    for (uint32_t i = 0; i < 4 * view.base_count; i++) {
        bool half = i % 2, mirrored = i / 2 % 2;
        qci_polygon outline = qci_form_lying(
            &view, i / 4, half ? QC_TURN_HALF : QC_TURN_NONE, mirrored);
        lying one = lay(section, &outline);

        if (mirrored && piece->hand != QC_HAND_NONE)
            continue;
        one.allowed = !(half && print == QC_PRINT_ONE_WAY) &&
                      !(mirrored && qci_print_has_direction(print));
        if (is_better(one, best))
            best = one;
    }
    return best;
}

static lying lay_rectangle(const qci_checker *c, uint32_t index,
                           const qci_polygon *section)
{
    const qci_piece *piece = &c->of->job->pieces[index];
    const qci_piece *least = qci_pieces_least(c, index);
    qc_print print = c->of->job->fabrics[piece->fabric].print;
    lying best = {false, QC_LENGTH_MAX, QC_LENGTH_MAX};

    for (int i = 0; i < 2; i++) {
        qc_turn turn = i ? QC_TURN_QUARTER : QC_TURN_NONE;
        qci_polygon outline = qci_polygon_rectangle(
            qci_piece_across(least, turn), qci_piece_along(least, turn));
        lying one = lay(section, &outline);

        one.allowed = qci_piece_may_lie(piece, print, turn);
        if (is_better(one, best))
            best = one;
    }
    return best;
}

static qc_status add(const qci_checker *c, uint32_t index, qc_finding finding,
                     qci_text *words)
{
    const qci_instruction *step = &c->of->steps[index];

    finding.count = c->as_written->done[index].got;
    return qci_checker_add(c, finding, index, step->fabric, step->piece, words);
}

static qc_status find_small(const qci_checker *c, uint32_t index, lying best)
{
    const qci_instruction *step = &c->of->steps[index];
    const qci_piece *piece = &c->of->job->pieces[step->piece];
    qc_units units = c->of->job->units;
    qci_text words = {0};

    qci_text_printf(&words, "piece %s does not lie inside the sections (%s)",
                    piece->id, c->of->names[step->from].name);
    qci_pieces_say_finished(&words, c, step->piece);
    qci_text_printf(&words, "it takes strips of %s: the sections are ",
                    qci_show(piece->cut[1], units).text);
    if (best.up)
        qci_pieces_say_by(&words, -best.up, "low", "high", units);
    if (best.up && best.along)
        qci_text_printf(&words, ", ");
    if (best.along)
        qci_pieces_say_by(&words, -best.along, "short along the strip", "long",
                          units);
    return add(
        c, index,
        (qc_finding){.kind = QC_FINDING_SIZE, .by = {-best.along, -best.up}},
        &words);
}

static qc_status find_turned(const qci_checker *c, uint32_t index)
{
    const qci_piece *piece = &c->of->job->pieces[c->of->steps[index].piece];
    qci_text words = {0};

    qci_text_printf(&words,
                    "piece %s lies inside the sections only as its print or "
                    "grain forbids: turned, or turned over",
                    piece->id);
    return add(c, index, (qc_finding){.kind = QC_FINDING_TURNED}, &words);
}

qc_status qci_pieces_trimmed(const qci_checker *c, uint32_t index)
{
    uint32_t piece = c->of->steps[index].piece;
    const qci_piece *wanted = &c->of->job->pieces[piece];
    const qci_polygon *section = &c->as_written->done[index].cloth;
    lying best = wanted->outline || is_triangle(wanted)
                     ? lay_outlined(c, piece, section)
                     : lay_rectangle(c, piece, section);

    if (best.along || best.up)
        return find_small(c, index, best);
    return best.allowed ? QC_STATUS_OK : find_turned(c, index);
}
