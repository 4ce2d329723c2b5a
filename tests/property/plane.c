/* Polygons cut by lines, turned over and compared. All are convex and small. */
#include "plane.h"

#include <math.h>

static double over(half h, vec p)
{
    return h.a * p.x + h.b * p.y - h.c;
}

half opposite(half h)
{
    return (half){-h.a, -h.b, -h.c};
}

half left_of(vec p, vec q, double by)
{
    double l = hypot(q.x - p.x, q.y - p.y);
    half h = {(p.y - q.y) / l, (q.x - p.x) / l, 0};

    h.c = h.a * p.x + h.b * p.y + by;
    return h;
}

poly clipped(const poly *p, half h)
{
    poly out = {p->role, 0, {{0, 0}}};

    for (int i = 0; i < p->count; i++) {
        vec a = p->at[i], b = p->at[(i + 1) % p->count];
        double oa = over(h, a), ob = over(h, b);

        if (oa >= 0)
            out.at[out.count++] = a;
        if ((oa > 0 && ob < 0) || (oa < 0 && ob > 0))
            out.at[out.count++] = (vec){a.x + (b.x - a.x) * oa / (oa - ob),
                                        a.y + (b.y - a.y) * oa / (oa - ob)};
    }
    return out;
}

void clip_all(cloth *c, half h)
{
    for (int i = 0; i < c->count; i++)
        c->at[i] = clipped(&c->at[i], h);
}

/* Turned over a line; corners stay counter-clockwise. */
static poly mirrored(const poly *p, half h)
{
    poly out = *p;

    for (int i = 0; i < p->count; i++) {
        vec from = p->at[p->count - 1 - i];
        double by = 2 * over(h, from) / (h.a * h.a + h.b * h.b);

        out.at[i] = (vec){from.x - h.a * by, from.y - h.b * by};
    }
    return out;
}

poly box(int role, double x, double y, double w, double h)
{
    return (poly){role, 4, {{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}};
}

double area(const poly *p)
{
    double doubled = 0;

    for (int i = 0; i < p->count; i++) {
        vec a = p->at[i], b = p->at[(i + 1) % p->count];

        doubled += a.x * b.y - b.x * a.y;
    }
    return doubled / 2;
}

poly tidy(const poly *p)
{
    poly out = {p->role, 0, {{0, 0}}}, last;

    for (int i = 0; i < p->count; i++) {
        vec a = p->at[i], b = p->at[(i + 1) % p->count];

        if (hypot(a.x - b.x, a.y - b.y) > NEAR)
            out.at[out.count++] = a;
    }
    last = out;
    out.count = 0;
    for (int i = 0; i < last.count; i++) {
        vec a = last.at[(i + last.count - 1) % last.count], b = last.at[i],
            c = last.at[(i + 1) % last.count];
        double cross = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);

        if (fabs(cross) > NEAR * hypot(c.x - a.x, c.y - a.y))
            out.at[out.count++] = b;
    }
    return out;
}

void sew(cloth *c, const poly *upper, half h)
{
    poly part = clipped(upper, h);

    clip_all(c, h);
    c->at[c->count++] = mirrored(&part, h);
}

/* --- comparing --------------------------------------------------------------
 */

/* The same figure, moved and turned so that corner k of the first polygon comes
 * to lie on the first corner of the other's. */
static bool agrees(const cloth *a, const cloth *b, int k)
{
    const poly *p = &a->at[0], *q = &b->at[0];
    vec from = p->at[k], next = p->at[(k + 1) % p->count];
    vec to = q->at[0], beyond = q->at[1];
    double turn = atan2(beyond.y - to.y, beyond.x - to.x) -
                  atan2(next.y - from.y, next.x - from.x);
    double c = cos(turn), s = sin(turn);

    for (int i = 0; i < a->count; i++) {
        const poly *one = &a->at[i], *two = &b->at[i];
        bool found = false;

        if (one->count != two->count || one->role != two->role)
            return false;
        for (int shift = 0; shift < one->count && !found; shift++) {
            found = true;
            for (int n = 0; n < one->count; n++) {
                vec d = {one->at[n].x - from.x, one->at[n].y - from.y};
                vec at = {to.x + c * d.x - s * d.y, to.y + s * d.x + c * d.y};
                vec want = two->at[(n + shift) % two->count];

                found = found && hypot(at.x - want.x, at.y - want.y) < NEAR;
            }
        }
        if (!found)
            return false;
    }
    return true;
}

/* The polygons of `a` in some order: of those of a role any may be any. */
static bool same_from(cloth *a, const cloth *b, int first)
{
    if (first == a->count) {
        for (int k = 0; k < a->at[0].count; k++)
            if (agrees(a, b, k))
                return true;
        return false;
    }
    for (int i = first; i < a->count; i++) {
        poly kept = a->at[first];
        bool same;

        if (a->at[i].role != b->at[first].role ||
            a->at[i].count != b->at[first].count)
            continue;
        a->at[first] = a->at[i];
        a->at[i] = kept;
        same = same_from(a, b, first + 1);
        kept = a->at[first];
        a->at[first] = a->at[i];
        a->at[i] = kept;
        if (same)
            return true;
    }
    return false;
}

bool are_same(const cloth *a, const cloth *b)
{
    cloth one = {0}, two = {0};

    for (int i = 0; i < a->count; i++)
        one.at[one.count++] = tidy(&a->at[i]);
    for (int i = 0; i < b->count; i++)
        two.at[two.count++] = tidy(&b->at[i]);
    return one.count == two.count && same_from(&one, &two, 0);
}
