/* Pieces against their fabrics. A bolt has no end, so a piece fits when, in one
 * of the ways it may lie, it is no wider than the fabric. And all pieces of a
 * fabric, cut in the simplest way (each from full strips of its own), must stay
 * within the lengths the library reckons with: no plan can need more. */
#include <inttypes.h>
#include <stdio.h>

#include "job/check.h"
#include "job/purchase.h"
#include "job/turn.h"
#include "length/units.h"

typedef struct pairing {
    const qci_check *check;
    size_t index;
    const qci_piece *piece;
    const qci_fabric *fabric;
} pairing;

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
    if (p->piece->grain != QC_GRAIN_ANY)
        return "; the grain asked for forbids the other way";
    return ", turned or not";
}

static qc_status fail_wide(const pairing *p)
{
    qc_units units = p->check->job->units;
    const qci_piece *piece = p->piece;
    qci_path path = qci_path_of("pieces", p->index,
                                piece->finished[0] ? "finished" : "cut");
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
    qci_path path = qci_path_of("pieces", p->index, "grain");

    return qci_fail(p->check->err, QC_STATUS_IMPOSSIBLE,
                    (qci_place){path.text, "lengthwise"},
                    "any or crosswise; or the two dimensions exchanged",
                    "piece %s would lie a quarter turn round, which the %s "
                    "print of fabric %s forbids",
                    qci_short_of(p->piece->id).text,
                    print_name(p->fabric->print),
                    qci_short_of(p->fabric->id).text);
}

static qc_status check_pair(const pairing *p)
{
    qc_print print = p->fabric->print;

    if (qci_piece_fits(p->piece, p->fabric, QC_TURN_NONE) ||
        qci_piece_fits(p->piece, p->fabric, QC_TURN_QUARTER))
        return QC_STATUS_OK;
    if (!qci_piece_may_lie(p->piece, print, QC_TURN_NONE) &&
        !qci_piece_may_lie(p->piece, print, QC_TURN_QUARTER))
        return fail_grain(p);
    return fail_wide(p);
}

/* Length of the strips this piece alone fills; -1 beyond QC_LENGTH_MAX. */
static qc_length strips_of(const pairing *p)
{
    qc_turn turn = qci_piece_fits(p->piece, p->fabric, QC_TURN_NONE)
                       ? QC_TURN_NONE
                       : QC_TURN_QUARTER;
    int64_t across = p->fabric->width / qci_piece_across(p->piece, turn);
    int64_t cloths = p->piece->count / p->piece->yields;
    int64_t strips = (cloths + across - 1) / across;
    qc_length height = qci_piece_along(p->piece, turn);

    return strips > QC_LENGTH_MAX / height ? -1 : strips * height;
}

static qc_status fail_long(const pairing *p)
{
    qci_path path = qci_path_of("pieces", p->index, "count");
    char count[32];

    snprintf(count, sizeof count, "%" PRId64, p->piece->count);
    return qci_fail(p->check->err, QC_STATUS_INVALID,
                    (qci_place){path.text, count},
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
        pairing p = {check, i, &job->pieces[i], cloth};
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
        pairing p = {check, i, piece, &job->fabrics[piece->fabric]};

        status = check_pair(&p);
    }
    for (size_t i = 0; i < job->fabric_count && !status; i++)
        status = check_length(check, i);
    return status;
}
