/* Room that an outline takes in its strip: between two straight cuts.
 *
 * Two pieces lie closest with a cut between them that follows a side of one,
 * and such a cut saves one later. So the leans that are tried are those of the
 * sides, each extended over the whole height, and 0.
 * Leans that differ only by what corners were rounded by become one, or rows
 * would be full of wedges a few units wide. For every pair of leans the width
 * is that between the lines that touch the outline, at half the height; a pair
 * is left out where another one, with the wedges that make up for its leans, is
 * as narrow and takes no more cuts. At most 25 x 25 pairs of 24 corners. */
#include <stdlib.h>

#include "base/wide.h"
#include "shape/shape.h"

/* What the rounding of corners does to leans; and how far a side of the outline
 * may be from a cut that was made without a cut of its own. */
#define ALIKE 4
#define SLACK ((qci_wide)2)
#define PAIRS_MAX ((QCI_CORNERS_MAX + 1) * (QCI_CORNERS_MAX + 1))

typedef struct lying {
    const qc_point *at;
    size_t count;
    qc_length height;
} lying;

typedef struct leans {
    int count;
    qc_length at[QCI_CORNERS_MAX + 1];
} leans;

static qc_length size_of(qc_length n)
{
    return n < 0 ? -n : n;
}

/* The even number next to dx x height / dy. */
static qc_length lean_of(const lying *l, size_t side)
{
    qc_point a = l->at[side], b = l->at[(side + 1) % l->count];
    qci_wide run = (qci_wide)size_of(b.x - a.x) * l->height;
    qc_length rise = size_of(b.y - a.y);
    qc_length lean;

    if (!rise)
        return 0; /* a level side leans to neither hand */
    lean = (qc_length)((run + rise) / ((qci_wide)2 * rise)) * 2;

    return (b.x > a.x) == (b.y > a.y) ? lean : -lean;
}

/* Sides that rise less than an eighth of the height, such as cut tips, are not
 * extended: a cut along one would touch next to nothing of the outline and lie
 * nearly along the strip. */
static bool has_lean(const lying *l, size_t side)
{
    qc_length rise = l->at[(side + 1) % l->count].y - l->at[side].y;

    return 8 * size_of(rise) >= l->height;
}

static int compare_lengths(const void *a, const void *b)
{
    qc_length p = *(const qc_length *)a, q = *(const qc_length *)b;

    return (p > q) - (p < q);
}

/* Between the least and the greatest of a group; 0 where that is in it. */
static qc_length middle(qc_length least, qc_length most)
{
    qc_length half = (size_of(least + most) / 2 + 1) / 2 * 2;

    if (least <= 0 && most >= 0)
        return 0;
    return least < 0 ? -half : half;
}

/* All leans, 0 among them; groups that are alike become one value each. */
static leans find_groups(const lying *l)
{
    leans all = {1, {0}}, groups = {0, {0}};

    for (size_t i = 0; i < l->count; i++)
        if (has_lean(l, i))
            all.at[all.count++] = lean_of(l, i);
    qsort(all.at, (size_t)all.count, sizeof *all.at, compare_lengths);
    for (int i = 0, k; i < all.count; i = k) {
        for (k = i + 1; k < all.count && all.at[k] - all.at[i] <= ALIKE; k++)
            ;
        groups.at[groups.count++] = middle(all.at[i], all.at[k - 1]);
    }
    return groups;
}

static bool has(const leans *list, qc_length lean)
{
    for (int i = 0; i < list->count; i++)
        if (list->at[i] == lean)
            return true;
    return false;
}

/* Candidates for either end: 0, and what the sides have. Those of the other end
 * too: the piece beside it, turned by half, has them there. */
static leans candidates(const lying *l, const leans *groups)
{
    leans out = {1, {0}};

    for (size_t i = 0; i < l->count; i++) {
        qc_length lean, nearest = 0;

        if (!has_lean(l, i))
            continue;
        lean = lean_of(l, i);
        for (int k = 0; k < groups->count; k++)
            if (size_of(groups->at[k] - lean) < size_of(nearest - lean))
                nearest = groups->at[k];
        if (!has(&out, nearest))
            out.at[out.count++] = nearest;
    }
    return out;
}

/* Where the line of that lean that touches the outline is at half the height,
 * in units of 1 / (2 height). */
static qci_wide touch(const lying *l, qc_length lean, bool left)
{
    qci_wide best = 0;

    for (size_t i = 0; i < l->count; i++) {
        qc_point p = l->at[i];
        qci_wide x = (qci_wide)p.x * 2 * l->height +
                     (qci_wide)lean * (l->height - 2 * p.y);

        if (i == 0 || (left ? x < best : x > best))
            best = x;
    }
    return best;
}

static qc_length width_of(const lying *l, qc_length left, qc_length right)
{
    qci_wide width = touch(l, right, false) - touch(l, left, true);
    qci_wide whole = 2 * (qci_wide)l->height;

    return (qc_length)((width + whole - 1) / whole);
}

/* How far p lies to the left of the line a -> b: inside (1), on it to within
 * the slack (0), or outside (-1). */
static int place_of(qc_point a, qc_point b, qc_point p)
{
    qci_wide dx = b.x - a.x, dy = b.y - a.y;
    qci_wide cross = dx * (p.y - a.y) - dy * (p.x - a.x);

    if (cross * cross <= SLACK * SLACK * (dx * dx + dy * dy))
        return 0;
    return cross > 0 ? 1 : -1;
}

/* Sides of the outline, moved along by x, that none of the section's four sides
 * makes; all when it does not lie inside. Where its cuts meet in a corner, the
 * section has three sides. */
static int32_t cuts_at(const lying *l, const qc_point section[4], qc_length x)
{
    int32_t cuts = 0;

    for (size_t i = 0; i < l->count; i++) {
        qc_point p = l->at[i], q = l->at[(i + 1) % l->count];
        bool made = false;

        p.x += x;
        q.x += x;
        for (int k = 0; k < 4; k++) {
            qc_point a = section[k], b = section[(k + 1) % 4];
            int at_p = place_of(a, b, p);

            if (a.x == b.x && a.y == b.y)
                continue;
            if (at_p < 0)
                return (int32_t)l->count;
            made |= at_p == 0 && place_of(a, b, q) == 0;
        }
        cuts += !made;
    }
    return cuts;
}

/* The outline is pushed to the left; rounding leaves it a few places there. */
static int32_t count_corners(const lying *l, const qci_footprint *f)
{
    qc_length lower = f->width - (f->right - f->left) / 2;
    const qc_point section[] = {{0, 0},
                                {lower, 0},
                                {lower + f->right, l->height},
                                {f->left, l->height}};
    qc_length from = INT64_MIN;
    int32_t least = (int32_t)l->count;

    for (size_t i = 0; i < l->count; i++) {
        qci_wide run = (qci_wide)f->left * l->at[i].y;
        qc_length edge =
            (qc_length)(run / l->height) - (run % l->height < 0 ? 1 : 0);

        from = edge - l->at[i].x > from ? edge - l->at[i].x : from;
    }
    for (qc_length x = from - SLACK; x <= from + SLACK; x++) {
        int32_t cuts = cuts_at(l, section, x);

        least = cuts < least ? cuts : least;
    }
    return least;
}

static qc_length leans_of(const qci_footprint *f)
{
    return size_of(f->left) + size_of(f->right);
}

/* In a strip that is higher than the outline two cuts may meet above it. */
static bool meet_within(const qci_footprint *f)
{
    return 2 * f->width < size_of(f->right - f->left);
}

/* Narrowest first. */
static int compare_widths(const void *a, const void *b)
{
    const qci_footprint *p = a, *q = b;

    if (p->width != q->width)
        return p->width < q->width ? -1 : 1;
    if (p->corners != q->corners)
        return p->corners < q->corners ? -1 : 1;
    if (leans_of(p) != leans_of(q))
        return leans_of(p) < leans_of(q) ? -1 : 1;
    return (p->left > q->left) - (p->left < q->left);
}

/* Is q never better than p? */
static bool beats(const qci_footprint *p, const qci_footprint *q)
{
    return p->corners <= q->corners &&
           q->width >= p->width + size_of(p->left - q->left) / 2 +
                           size_of(p->right - q->right) / 2;
}

static int32_t drop_beaten(qci_footprint *list, int32_t count)
{
    int32_t left = 0;

    for (int32_t i = 0; i < count; i++) {
        bool beaten = false;

        for (int32_t k = 0; k < count && !beaten; k++)
            beaten = k != i && beats(&list[k], &list[i]);
        if (!beaten)
            list[left++] = list[i];
    }
    return left;
}

static void put_fewest_first(qci_footprint *list, int32_t count)
{
    int32_t fewest = 0;
    qci_footprint first;

    for (int32_t i = 1; i < count; i++)
        fewest = list[i].corners < list[fewest].corners ? i : fewest;
    first = list[fewest];
    for (int32_t i = fewest; i > 0; i--)
        list[i] = list[i - 1];
    list[0] = first;
}

int32_t qci_shape_footprints(const qc_point *at, size_t count, qc_length height,
                             qci_footprint *out)
{
    const lying l = {at, count, height};
    leans groups = find_groups(&l);
    leans ends = candidates(&l, &groups);
    qci_footprint list[PAIRS_MAX];
    int32_t n = 0;

    for (int i = 0; i < ends.count; i++) {
        for (int k = 0; k < ends.count; k++) {
            qci_footprint f = {width_of(&l, ends.at[i], ends.at[k]), height,
                               ends.at[i], ends.at[k], 0};

            if (meet_within(&f))
                continue;
            f.corners = count_corners(&l, &f);
            list[n++] = f;
        }
    }
    if (!n)
        return 0;
    qsort(list, (size_t)n, sizeof *list, compare_widths);
    n = drop_beaten(list, n);
    put_fewest_first(list, n);
    n = n < QCI_FOOTPRINT_MAX ? n : QCI_FOOTPRINT_MAX;
    for (int32_t i = 0; i < n; i++)
        out[i] = list[i];
    return n;
}
