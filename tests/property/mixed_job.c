/* Sizes are whole eighths of an inch, and a few heights come again, so that
 * pieces share strips. Every choice is drawn whether it is used or not as far
 * as its number must not depend on the scale. */
#include "mixed_job.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "mini.h"

typedef struct maker {
    mixed_job *job;
    mini_random r;
    int64_t heights[2]; /* in eighths */
    bool directed;      /* the print has a direction */
} maker;

static const char *const prints[] = {"plain", "one-way", "two-way",
                                     "reversible"};

static int64_t pick(maker *m, int64_t lo, int64_t hi)
{
    return mini_between(&m->r, lo, hi);
}

static bool one_in(maker *m, int64_t n)
{
    return pick(m, 1, n) == 1;
}

typedef struct shown {
    char text[32];
} shown;

/* A length of so many eighths of an inch. */
static shown len(const maker *m, int64_t eighths)
{
    shown out;
    int64_t n = eighths * m->job->scale * 125;

    snprintf(out.text, sizeof out.text, "%s%lld.%03lld", n < 0 ? "-" : "",
             (long long)((n < 0 ? -n : n) / 1000),
             (long long)((n < 0 ? -n : n) % 1000));
    return out;
}

static void append(char *to, size_t size, const char *format, ...)
{
    size_t at = strlen(to);
    va_list args;

    va_start(args, format);
    vsnprintf(to + at, size - at, format, args);
    va_end(args);
}

#define ADD(...) append(p->json, sizeof p->json, __VA_ARGS__)

static int64_t height(maker *m)
{
    return m->heights[pick(m, 0, 1)];
}

static void add_angle(maker *m, mixed_piece *p)
{
    static const char *const angles[] = {"30",   "36.869898", "45",  "45",
                                         "60",   "60",        "75",  "72.5",
                                         "98.3", "120",       "135", "150"};

    ADD(", \"angle\": %s", angles[pick(m, 0, 11)]);
}

static void add_hands(maker *m, mixed_piece *p)
{
    p->handed = true;
    p->left = pick(m, 0, 12);
    p->right = one_in(m, 2) ? p->left : pick(m, 0, 12);
    if (p->left + p->right == 0)
        p->right = 1;
}

static void square(maker *m, mixed_piece *p)
{
    ADD("\"shape\": \"square\", \"cut\": \"%s\"", len(m, height(m)).text);
}

static void rectangle(maker *m, mixed_piece *p)
{
    const char *kind = one_in(m, 2) ? "cut" : "finished";

    ADD("\"shape\": \"rectangle\", \"%s\": [\"%s\", \"%s\"]", kind,
        len(m, pick(m, 8, 60)).text, len(m, height(m)).text);
}

static void strip(maker *m, mixed_piece *p)
{
    static const char *const joins[] = {"none", "straight", "diagonal"};
    int64_t join = pick(m, 0, 2), width = pick(m, 8, 24);

    ADD("\"shape\": \"strip\", \"cut\": [\"%s\", \"%s\"], \"joins\": \"%s\"",
        len(m, width).text, len(m, pick(m, 100, join ? 700 : 240)).text,
        joins[join]);
    p->joined = join > 0;
}

static void triangle(maker *m, mixed_piece *p)
{
    bool half = one_in(m, 2);

    p->yields = half ? 2 : 4;
    ADD("\"shape\": \"%s-square triangle\", \"finished\": \"%s\"",
        half ? "half" : "quarter", len(m, pick(m, 8, 48)).text);
    if (one_in(m, 3))
        ADD(", \"facing\": \"kept\"");
}

static void diamond(maker *m, mixed_piece *p)
{
    bool cut = one_in(m, 2);
    shown size = len(m, height(m));

    ADD("\"shape\": \"diamond\", \"%s\": \"%s\"", cut ? "cut" : "finished",
        size.text);
    add_angle(m, p);
}

static void parallelogram(maker *m, mixed_piece *p)
{
    bool cut = one_in(m, 2);
    int64_t high = height(m), other = pick(m, 8, 40);

    if (other == high)
        other++;
    ADD("\"shape\": \"parallelogram\", \"%s\": [\"%s\", \"%s\"]",
        cut ? "cut" : "finished", len(m, other).text, len(m, high).text);
    add_angle(m, p);
    add_hands(m, p);
}

static void trapezoid(maker *m, mixed_piece *p)
{
    bool cut = one_in(m, 2);
    int64_t side = pick(m, 4, 24), inset = pick(m, 1, 16);

    ADD("\"shape\": \"trapezoid\", \"%s\": [\"%s\", \"%s\", \"%s\"]",
        cut ? "cut" : "finished", len(m, side + 2 * inset).text,
        len(m, side).text, len(m, height(m)).text);
}

static void regular(maker *m, mixed_piece *p)
{
    bool hexagon = one_in(m, 2), cut = one_in(m, 2);

    ADD("\"shape\": \"%s\", \"%s\": \"%s\"",
        hexagon ? "hexagon" : "equilateral triangle", cut ? "cut" : "finished",
        len(m, height(m)).text);
}

static void kite(maker *m, mixed_piece *p)
{
    bool cut = one_in(m, 2);
    int64_t length = pick(m, 12, 40);

    ADD("\"shape\": \"kite\", \"%s\": [\"%s\", \"%s\", \"%s\"]",
        cut ? "cut" : "finished", len(m, length).text,
        len(m, pick(m, 8, 32)).text,
        len(m, pick(m, length / 2, length - 2)).text);
}

/* A rectangle whose corners may be cut off. Counter-clockwise. */
static void polygon(maker *m, mixed_piece *p)
{
    bool cut = one_in(m, 2);
    int64_t w = pick(m, 12, 40), h = height(m) + 4, off[4][2];
    int64_t x[4] = {0, w, w, 0}, y[4] = {0, 0, h, h};

    for (int i = 0; i < 4; i++) {
        off[i][0] = pick(m, 2, w / 2 - 1);
        off[i][1] = pick(m, 2, h / 2 - 1);
    }
    ADD("\"shape\": \"polygon\", \"%s\": [", cut ? "cut" : "finished");
    for (int i = 0; i < 4; i++) {
        int64_t dx = (i == 1 || i == 2 ? -1 : 1) * off[i][0];
        int64_t dy = (i >= 2 ? -1 : 1) * off[i][1];
        bool off_here = i == 3 || one_in(m, 3), flat = i % 2 == 0;

        if (!off_here) {
            ADD("%s[\"%s\", \"%s\"]", i ? ", " : "", len(m, x[i]).text,
                len(m, y[i]).text);
            continue;
        }
        /* Before an even corner the outline runs along the length. */
        ADD("%s[\"%s\", \"%s\"]", i ? ", " : "",
            len(m, x[i] + (flat ? 0 : dx)).text,
            len(m, y[i] + (flat ? dy : 0)).text);
        ADD(", [\"%s\", \"%s\"]", len(m, x[i] + (flat ? dx : 0)).text,
            len(m, y[i] + (flat ? 0 : dy)).text);
    }
    ADD("]");
    if (one_in(m, 2))
        add_hands(m, p);
}

/* What goes with a shape; trims make finished sizes larger. */
static void add_extras(maker *m, mixed_piece *p)
{
    bool angled = strstr(p->json, "diamond") || strstr(p->json, "rallelog") ||
                  strstr(p->json, "trapezoid") || strstr(p->json, "hexagon") ||
                  strstr(p->json, "equilateral") || strstr(p->json, "kite") ||
                  strstr(p->json, "polygon");
    bool blunt = one_in(m, 3), any = one_in(m, 3), trim = one_in(m, 4);

    if (angled && blunt)
        ADD(", \"tips\": \"blunt\"");
    if (angled && any)
        ADD(", \"grain\": \"any\"");
    if (strstr(p->json, "finished") && trim)
        ADD(", \"trim\": \"%s\"", len(m, pick(m, 1, 3)).text);
    if (strstr(p->json, "rectangle") && any && !m->directed)
        ADD(", \"grain\": \"lengthwise\"");
}

static void add_piece(maker *m)
{
    static void (*const shapes[])(maker *, mixed_piece *) = {
        square,        rectangle,     strip,     triangle, triangle, diamond,
        parallelogram, parallelogram, trapezoid, regular,  kite,     polygon};
    mixed_piece *p = &m->job->pieces[m->job->piece_count];

    memset(p, 0, sizeof *p);
    p->yields = 1;
    snprintf(p->id, sizeof p->id, "P%u", (unsigned)m->job->piece_count++);
    ADD("{\"id\": \"%s\", \"fabric\": \"cloth\", ", p->id);
    shapes[pick(m, 0, 11)](m, p);
    add_extras(m, p);
    p->count = pick(m, 1, 25);
    if (p->handed)
        ADD(", \"count\": {\"left\": %lld, \"right\": %lld}}",
            (long long)p->left, (long long)p->right);
    else
        ADD(", \"count\": %lld}", (long long)p->count);
}

static void add_set(maker *m)
{
    static const char *const angles[] = {"45", "60", "90", "120"};
    static const char *const hands[] = {"right", "left", "pairs"};
    static const char *const staggers[] = {"auto", "none", "cut width"};
    char *to = m->job->set;
    size_t size = sizeof m->job->set;
    int64_t strips = pick(m, 2, 4), angle = pick(m, 0, 3);

    append(to, size, "\"strip_sets\": [{\"id\": \"S\", \"strips\": [");
    for (int64_t i = 0; i < strips; i++)
        append(to, size, "%s{\"fabric\": \"cloth\", \"cut\": \"%s\"}",
               i ? ", " : "", len(m, pick(m, 8, 24)).text);
    append(to, size,
           "], \"angle\": %s, \"hand\": \"%s\", \"stagger\": \"%s\", "
           "\"spacing\": \"%s\", \"segments\": %lld}], ",
           angles[angle], angle == 2 ? "right" : hands[pick(m, 0, 2)],
           staggers[pick(m, 0, 2)], len(m, pick(m, 8, 24)).text,
           (long long)pick(m, 1, 30));
}

static void set_cloth(maker *m)
{
    mixed_job *job = m->job;
    int64_t print = pick(m, 0, 3);

    m->directed = print == 1 || print == 2;
    job->reversible = print == 3;
    snprintf(job->fabric, sizeof job->fabric,
             "\"ruler\": \"%s\", \"seam\": \"%s\", \"fabrics\": [{\"id\": "
             "\"cloth\", \"width\": \"%s\", \"print\": \"%s\", \"step\": "
             "\"%s\", \"square_up\": \"%s\"}], ",
             len(m, pick(m, 1, 2)).text, len(m, 2).text,
             len(m, pick(m, 280, 350)).text, prints[print], len(m, 36).text,
             len(m, pick(m, 0, 4)).text);
    snprintf(job->options, sizeof job->options,
             "\"options\": {\"stages\": %lld, \"trim\": %s, \"layers\": %lld, "
             "\"keep\": \"%s\"}, ",
             (long long)pick(m, 2, 3), one_in(m, 5) ? "false" : "true",
             (long long)pick(m, 1, 8), len(m, 12).text);
}

void mixed_make(mixed_job *job, uint64_t seed, int64_t scale)
{
    maker m = {.job = job, .r = {seed}};
    int64_t pieces;

    memset(job, 0, sizeof *job);
    job->scale = scale;
    set_cloth(&m);
    m.heights[0] = pick(&m, 8, 28);
    m.heights[1] = pick(&m, 8, 40);
    pieces = pick(&m, 1, MIXED_PIECES);
    while (pieces-- > 0)
        add_piece(&m);
    if (one_in(&m, 5))
        add_set(&m);
}

void mixed_write(const mixed_job *job, size_t first, char *to, size_t size)
{
    to[0] = '\0';
    append(to, size, "{\"quiltcut\": 1, %s%s%s\"pieces\": [", job->fabric,
           job->options, job->set);
    for (size_t i = 0; i < job->piece_count; i++)
        append(to, size, "%s%s", i ? ",\n" : "\n",
               job->pieces[(first + i) % job->piece_count].json);
    append(to, size, "]}");
}

static const char *check_piece(const mixed_job *job, const mixed_piece *p,
                               const qc_plan *plan)
{
    int64_t found[3] = {0, 0, 0}, all;

    for (size_t i = 0; i < qc_plan_piece_count(plan); i++) {
        const qc_plan_piece *piece = qc_plan_piece_at(plan, i);

        if (strcmp(piece->job_id, p->id) == 0)
            found[piece->hand] += piece->count;
    }
    all = found[QC_HAND_NONE] + found[QC_HAND_LEFT] + found[QC_HAND_RIGHT];
    if (p->joined)
        return all ? NULL : "no piece of a joined strip";
    if (p->handed && !job->reversible)
        return found[QC_HAND_LEFT] == p->left &&
                       found[QC_HAND_RIGHT] == p->right
                   ? NULL
                   : "not as many of each hand";
    if (p->handed)
        return all == p->left + p->right ? NULL : "not as many of both hands";
    return all >= p->count && all < p->count + p->yields ? NULL : "not as many";
}

const char *mixed_check(const mixed_job *job, const qc_plan *plan)
{
    const qc_plan_fabric *f = qc_plan_fabric_at(plan, 0);

    for (size_t i = 0; i < job->piece_count; i++) {
        const char *wrong = check_piece(job, &job->pieces[i], plan);

        if (wrong)
            return wrong;
    }
    if (f->bound > f->bought)
        return "a bound above what is bought";
    if (f->area.finished + f->area.seams + f->area.leftover + f->area.scrap !=
        f->bought * f->usable_width)
        return "areas that do not add up";
    return NULL;
}
