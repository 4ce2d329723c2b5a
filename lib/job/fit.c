/* Pieces against their fabrics. A bolt has no end, so a piece fits when, in one
 * of the ways it may lie, it is no wider than the fabric. And all pieces of a
 * fabric, cut in the simplest way (each from full strips of its own), must stay
 * within the lengths the library reckons with: no plan can need more. */
#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "job/check.h"
#include "job/purchase.h"
#include "job/turn.h"
#include "length/ruler.h"
#include "length/units.h"
#include "shape/shape.h"

typedef struct pairing {
    const qci_check *check;
    const qci_piece *piece;
    const qci_fabric *fabric;
} pairing;

/* Where the piece stands in the spec: among the pieces or blocks, or as strips
 * of a set,
 * whose lengths fit and of which there can only be too many. */
static qci_path path_of(const pairing *p, const char *member)
{
    const qc_job_spec *spec = p->check->spec;
    size_t set = 0;

    if (p->piece->block != QC_NONE)
        return qci_path_of("blocks", p->piece->block,
                           strcmp(member, "count") == 0 ? member : "size");
    for (size_t i = 0; i < spec->piece_count && spec->pieces; i++)
        if (strcmp(spec->pieces[i].id, p->piece->job_id) == 0)
            return qci_path_of("pieces", i, member);
    while (set + 1 < spec->strip_set_count &&
           strcmp(spec->strip_sets[set].id, p->piece->job_id) != 0)
        set++;
    return qci_path_of("strip_sets", set, "segments");
}

static const char *print_name(qc_print print)
{
    return print == QC_PRINT_ONE_WAY ? "one-way" : "two-way";
}

/* Why only one way was tried; or that both were. */
static const char *why_not_turned(const pairing *p)
{
    if (p->fabric->print == QC_PRINT_ONE_WAY)
        return "; the one-way print forbids a quarter turn";
    if (p->fabric->print == QC_PRINT_TWO_WAY)
        return "; the two-way print forbids a quarter turn";
    if (p->piece->grain == QC_GRAIN_LENGTHWISE ||
        p->piece->grain == QC_GRAIN_CROSSWISE)
        return "; the grain asked for forbids the other way";
    return ", turned or not";
}

static qc_status fail_wide(const pairing *p)
{
    qc_units units = p->check->job->units;
    const qci_piece *piece = p->piece;
    qci_path path = path_of(p, piece->finished[0] ? "finished" : "cut");
    char across[QCI_LENGTH_TEXT];
    char size[2 * QCI_LENGTH_TEXT + 16];
    char allowed[2 * QCI_LENGTH_TEXT];

    qc_length_format(piece->cut[0], units, across, sizeof across);
    snprintf(size, sizeof size, "cut %s x %s", across,
             qci_show(piece->cut[1], units).text);
    snprintf(allowed, sizeof allowed, "at most %s across, the usable width",
             qci_show(p->fabric->width, units).text);
    return qci_fail(p->check->err, QC_STATUS_IMPOSSIBLE,
                    (qci_place){path.text, size}, allowed,
                    "piece %s does not fit across fabric %s%s",
                    qci_short_of(piece->id).text,
                    qci_short_of(p->fabric->id).text, why_not_turned(p));
}

static qc_status fail_grain(const pairing *p)
{
    qci_path path = path_of(p, "grain");

    return qci_fail(p->check->err, QC_STATUS_IMPOSSIBLE,
                    (qci_place){path.text, "lengthwise"},
                    "any or crosswise; or the two dimensions exchanged",
                    "piece %s would lie a quarter turn round, which the %s "
                    "print of fabric %s forbids",
                    qci_short_of(p->piece->id).text,
                    print_name(p->fabric->print),
                    qci_short_of(p->fabric->id).text);
}

/* Width of the narrowest way to cut an outline: square at both ends, since
 * slants need what they lean by beside it. */
static qc_length slanted_room(const qci_piece *piece)
{
    qc_length narrowest = INT64_MAX;

    for (size_t base = 0; base < piece->base_count; base++) {
        const qc_point *outline = piece->outline + base * piece->outline_count;
        qc_length least = 0, most = 0; /* the first corner is at 0 */

        for (size_t i = 0; i < piece->outline_count; i++) {
            least = outline[i].x < least ? outline[i].x : least;
            most = outline[i].x > most ? outline[i].x : most;
        }
        narrowest = most - least < narrowest ? most - least : narrowest;
    }
    return narrowest;
}

/* Triangles from squares need no more than their square, where they may come
 * from one. */
static bool is_from_strips(const pairing *p)
{
    return p->piece->outline_count &&
           (qci_shape_yields(p->piece->shape) == 1 ||
            qci_piece_keeps_facing(p->piece, p->fabric->print));
}

static qc_status check_slanted(const pairing *p)
{
    qc_units units = p->check->job->units;
    qc_length room = slanted_room(p->piece);
    qci_path path = path_of(p, "fabric");

    if (room <= p->fabric->width)
        return QC_STATUS_OK;
    return qci_fail(
        p->check->err, QC_STATUS_IMPOSSIBLE,
        (qci_place){path.text, p->fabric->id},
        "a wider fabric or smaller pieces",
        "piece %s needs about %s of width with its slanted ends; "
        "fabric %s has %s",
        qci_short_of(p->piece->id).text,
        qci_show(qci_ruler_up(room, p->check->job->ruler), units).text,
        qci_short_of(p->fabric->id).text,
        qci_show(p->fabric->width, units).text);
}

static qc_status check_pair(const pairing *p)
{
    qc_print print = p->fabric->print;

    if (is_from_strips(p))
        return check_slanted(p);
    if (qci_piece_fits(p->piece, p->fabric, QC_TURN_NONE) ||
        qci_piece_fits(p->piece, p->fabric, QC_TURN_QUARTER))
        return QC_STATUS_OK;
    if (!qci_piece_may_lie(p->piece, print, QC_TURN_NONE) &&
        !qci_piece_may_lie(p->piece, print, QC_TURN_QUARTER))
        return fail_grain(p);
    return fail_wide(p);
}

/* So many at least lie in a strip, a wedge between every two. */
static int64_t slanted_count(const pairing *p)
{
    qci_footprint ways[QCI_FOOTPRINT_MAX];
    qc_length room = slanted_room(p->piece);

    if (p->fabric->width <= room)
        return 1;
    qci_shape_footprints(p->piece->outline, p->piece->outline_count,
                         p->piece->cut[1], ways);
    return 1 + (p->fabric->width - room) /
                   (ways[0].width + qci_lean_gap(ways[0].right, ways[0].left));
}

/* Length of the strips this piece alone fills; -1 beyond QC_LENGTH_MAX. */
static qc_length strips_of(const pairing *p)
{
    qc_turn turn = qci_piece_fits(p->piece, p->fabric, QC_TURN_NONE)
                       ? QC_TURN_NONE
                       : QC_TURN_QUARTER;
    int64_t across = is_from_strips(p)
                         ? slanted_count(p)
                         : p->fabric->width / qci_piece_across(p->piece, turn) *
                               qci_shape_yields(p->piece->shape);
    int64_t strips = (p->piece->count + across - 1) / across;
    qc_length height =
        is_from_strips(p) ? p->piece->cut[1] : qci_piece_along(p->piece, turn);

    return strips > QC_LENGTH_MAX / height ? -1 : strips * height;
}

static qc_status fail_long(const pairing *p)
{
    qci_path path = path_of(p, "count");
    char count[32];

    snprintf(count, sizeof count, "%" PRId64, p->piece->count);
    return qci_fail(
        p->check->err, QC_STATUS_INVALID,
        (qci_place){path.text, p->piece->strip_set == QC_NONE ? count : NULL},
        "counts and sizes that need at most 4294.967296 m of each "
        "fabric",
        "takes fabric %s beyond the greatest length",
        qci_short_of(p->fabric->id).text);
}

/* Adds up, per fabric, what the pieces need; refuses the one too many. */
static qc_status check_length(const qci_check *check, size_t fabric)
{
    const qc_job *job = check->job;
    const qci_fabric *cloth = &job->fabrics[fabric];
    const qci_purchase purchase = {cloth->step, cloth->shrink_length};
    qc_length used = cloth->square_up;

    for (size_t i = 0; i < job->piece_count; i++) {
        pairing p = {check, &job->pieces[i], cloth};
        qc_length strips;

        if (p.piece->fabric != fabric)
            continue;
        strips = strips_of(&p);
        if (strips < 0 || qci_purchase_bought(purchase, used + strips) < 0)
            return fail_long(&p);
        used += strips;
    }
    return QC_STATUS_OK;
}

qc_status qci_check_fit(const qci_check *check)
{
    const qc_job *job = check->job;
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < job->piece_count && !status; i++) {
        const qci_piece *piece = &job->pieces[i];
        pairing p = {check, piece, &job->fabrics[piece->fabric]};

        status = check_pair(&p);
    }
    for (size_t i = 0; i < job->fabric_count && !status; i++)
        status = check_length(check, i);
    return status;
}
