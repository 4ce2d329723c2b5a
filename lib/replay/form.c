/* Comparing forms.
 *
 * A convex polygon is rigid once its sides and the distances between corners
 * next but one are given, so two forms are equal when these are, from some
 * corner on, in the same order. Distances are compared by their squares: where
 * p and q are the squares of lengths that differ by d, (p - q)^2 is d^2 times
 * the square of the sum of both lengths, and that is at most 2 (p + q). Corner
 * by corner of either polygon: at most 24 x 24 comparisons. */
#include "replay/form.h"

#include "replay/angle.h"

qci_polygon qci_form_of(const qc_plan_piece *piece, uint32_t base)
{
    const qc_point *from = piece->outline + base * piece->outline_count;
    qci_polygon form = {(int)piece->outline_count, {{0}}};

    for (int i = 0; i < form.count; i++)
        form.at[i] = (qci_point){from[i].x, from[i].y};
    return form;
}

qci_polygon qci_form_lying(const qc_plan_piece *piece, uint32_t base,
                           qc_turn turn, bool mirrored)
{
    qci_polygon form = qci_form_of(piece, base);

    if (mirrored)
        form = qci_polygon_mirrored(&form);
    return qci_polygon_turned(&form, (int)turn);
}

static qci_wide square_between(const qci_polygon *form, int i, int j)
{
    qci_point p = form->at[i % form->count], q = form->at[j % form->count];

    return (qci_wide)(q.x - p.x) * (q.x - p.x) +
           (qci_wide)(q.y - p.y) * (q.y - p.y);
}

/* How far corner i may be off. The slack over the sine of the angle between its
 * sides, which is their cross product over both their lengths; at most 2^20. */
static qc_length slack_at(const qci_polygon *form, int i)
{
    int last = i + form->count - 1;
    qci_wide lengths =
        (qci_wide)qci_replay_root(square_between(form, last, i)) *
        qci_replay_root(square_between(form, i, i + 1));
    qci_wide cross = qci_polygon_cross(form->at[last % form->count],
                                       form->at[i % form->count],
                                       form->at[(i + 1) % form->count]);
    qci_wide slack = (lengths + cross) * QCI_FORM_SLACK / cross;

    return slack < 1 << 20 ? (qc_length)slack : 1 << 20;
}

/* The lengths of which these are the squares, below 2^76, are equal but for the
 * slack. */
static bool are_close(qci_wide p, qci_wide q, qc_length slack)
{
    qci_wide apart = p > q ? p - q : q - p;

    /* A length below 2^38 and one longer by the slack. */
    if (apart > (qci_wide)1 << 60)
        return false;
    return apart * apart <= 2 * (qci_wide)slack * slack * (p + q);
}

/* Corner 0 of `a` comes to lie on corner `start` of `b`. */
static bool fits_from(const qci_polygon *a, const qci_polygon *b, int start,
                      const qc_length *slack)
{
    for (int i = 0; i < a->count; i++) {
        for (int on = 1; on <= 2; on++) {
            if (!are_close(square_between(a, i, i + on),
                           square_between(b, start + i, start + i + on),
                           slack[i] + slack[(i + on) % a->count]))
                return false;
        }
    }
    return true;
}

bool qci_form_is_congruent(const qci_polygon *a, const qci_polygon *b)
{
    qc_length slack[QCI_POLYGON_MAX];

    if (a->count != b->count)
        return false;
    for (int i = 0; i < a->count; i++)
        slack[i] = slack_at(a, i);
    for (int start = 0; start < b->count; start++) {
        if (fits_from(a, b, start, slack))
            return true;
    }
    return false;
}

bool qci_form_is_symmetric(const qci_polygon *form)
{
    qci_polygon mirrored = qci_polygon_mirrored(form);

    return qci_form_is_congruent(form, &mirrored);
}

bool qci_form_fits_some_base(const qc_plan_piece *piece, qc_turn turn,
                             bool mirrored, const qci_polygon *cloth)
{
    for (uint32_t base = 0; base < piece->base_count; base++) {
        qci_polygon lying = qci_form_lying(piece, base, turn, mirrored);

        if (qci_polygon_is_same(&lying, cloth))
            return true;
    }
    return false;
}
