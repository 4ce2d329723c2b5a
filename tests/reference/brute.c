/* Every way to lay the pieces of a tiny job, one piece after the other: into a
 * section that is there, into a new section of a strip that is there, or into a
 * strip of its own, each way round that it may lie. No bound, no ordering, no
 * symmetry is used but one: sections and strips are numbered in the order in
 * which they get their first piece, so that every arrangement is met once per
 * numbering of equal copies. Six pieces: at most 2471 arrangements x 2^6 turns.
 *
 * Set-ups: the strips of one arrangement fall into classes of equal strips (the
 * same height, the same sections). A class is one set-up; besides, one strip of
 * every class may be cut short: it has some of the sections of the class only,
 * some of them perhaps with pieces left out but as wide, and then takes the
 * height of the class.
 */
#include "brute.h"

#include <string.h>

typedef struct section {
    qc_length width, height;
    int form[BRUTE_MAX]; /* 2 * piece + turned, ascending */
    int forms;
} section;

typedef struct strip {
    section sections[BRUTE_MAX];
    int count;
    qc_length width;
} strip;

typedef struct search {
    const mini_job *job;
    size_t copies[BRUTE_MAX]; /* piece type of each copy */
    int copy_count;
    strip strips[BRUTE_MAX];
    int strip_count;
    qc_length tallest; /* height that a strip may have */
    qc_length best;    /* used */
    qc_length length;  /* what set-ups may use; 0 in the first pass */
    int setups;
} search;

static qc_length strip_height(const strip *s)
{
    qc_length most = 0;
    int i;

    for (i = 0; i < s->count; i++)
        if (s->sections[i].height > most)
            most = s->sections[i].height;
    return most;
}

static bool strip_is_valid(const search *x, const strip *s)
{
    int i;

    for (i = 0; i < s->count; i++)
        if (x->job->no_trim && s->sections[i].height != strip_height(s))
            return false;
    return true;
}

/* Whether `a` is as wide as `b` and holds nothing that it does not. */
static bool section_within(const section *a, const section *b)
{
    int i, j;

    if (a->width != b->width)
        return false;
    for (i = j = 0; i < a->forms && j < b->forms; j++)
        i += a->form[i] == b->form[j];
    return i == a->forms;
}

/* Whether every section of `part` from i on is found in `whole`, each used
 * once; with pieces left out, if it is a `shorter` one. */
static bool place_sections(const strip *part, const strip *whole, bool shorter,
                           int i, bool *taken)
{
    int j;

    if (i == part->count)
        return true;
    for (j = 0; j < whole->count; j++) {
        if (taken[j] ||
            !section_within(&part->sections[i], &whole->sections[j]) ||
            (!shorter && part->sections[i].forms != whole->sections[j].forms))
            continue;
        taken[j] = true;
        if (place_sections(part, whole, shorter, i + 1, taken))
            return true;
        taken[j] = false;
    }
    return false;
}

static bool sections_within(const strip *part, const strip *whole, bool shorter)
{
    bool taken[BRUTE_MAX] = {false};

    return place_sections(part, whole, shorter, 0, taken);
}

/* Strip i is a class of its own, equal to an earlier one, or the short strip
 * of a class; tries all, in strip order. lead[i] = i for the first of a class,
 * an earlier number for its equals, -1 for a short strip still to be placed. */
static void place_short(search *x, const int *lead, int i, bool *has_short,
                        qc_length used, int setups)
{
    int j;

    if (used > x->length || (x->setups && setups >= x->setups))
        return;
    while (i < x->strip_count && lead[i] >= 0)
        i++;
    if (i == x->strip_count) {
        x->setups = setups;
        return;
    }
    for (j = 0; j < x->strip_count; j++) {
        const strip *a = &x->strips[i], *b = &x->strips[j];
        qc_length rise = strip_height(b) - strip_height(a);
        if (lead[j] != j || has_short[j] || rise < 0 ||
            (x->job->no_trim && rise != 0) || !sections_within(a, b, true))
            continue;
        has_short[j] = true;
        place_short(x, lead, i + 1, has_short, used + rise, setups);
        has_short[j] = false;
    }
}

static void count_setups(search *x, qc_length used)
{
    unsigned shorts;

    for (shorts = 0; shorts < 1u << x->strip_count; shorts++) {
        int lead[BRUTE_MAX], i, j, setups = 0;
        bool has_short[BRUTE_MAX] = {false};
        for (i = 0; i < x->strip_count; i++) {
            lead[i] = -1;
            if (shorts >> i & 1)
                continue;
            for (j = 0; j < i && lead[i] < 0; j++)
                if (lead[j] == j && x->strips[i].count == x->strips[j].count &&
                    sections_within(&x->strips[i], &x->strips[j], false))
                    lead[i] = j;
            if (lead[i] < 0) {
                lead[i] = i;
                setups++;
            }
        }
        place_short(x, lead, 0, has_short, used, setups);
    }
}

static void weigh(search *x)
{
    qc_length used = x->job->square_up;
    int i;

    for (i = 0; i < x->strip_count; i++) {
        if (!strip_is_valid(x, &x->strips[i]))
            return;
        used += strip_height(&x->strips[i]);
    }
    if (x->best == 0 || used < x->best)
        x->best = used;
    if (x->length && used <= x->length)
        count_setups(x, used);
}

static void place(search *x, int copy);

static void place_in_section(search *x, int copy, strip *s, section *c,
                             int form, qc_length w, qc_length h)
{
    section before = *c;
    qc_length width = s->width;
    int at = c->forms++;

    while (at > 0 && c->form[at - 1] > form) {
        c->form[at] = c->form[at - 1];
        at--;
    }
    c->form[at] = form;
    c->height += h;
    if (w > c->width) {
        s->width += w - c->width;
        c->width = w;
    }
    if (c->height <= x->tallest && s->width <= x->job->width)
        place(x, copy + 1);
    *c = before;
    s->width = width;
}

static void place_form(search *x, int copy, bool turned)
{
    const mini_piece *p = &x->job->pieces[x->copies[copy]];
    qc_length w = turned ? p->along : p->across;
    qc_length h = turned ? p->across : p->along;
    int form = 2 * (int)x->copies[copy] + turned;
    int i, j;

    for (i = 0; i <= x->strip_count && i < BRUTE_MAX; i++) {
        strip *s = &x->strips[i];
        bool new_strip = i == x->strip_count;
        int sections;
        if (new_strip)
            memset(s, 0, sizeof *s);
        sections = s->count;
        for (j = x->job->stages == 3 ? 0 : sections; j <= sections; j++) {
            section *c = &s->sections[j];
            if (j == sections) {
                memset(c, 0, sizeof *c);
                s->count++;
            }
            x->strip_count += new_strip;
            place_in_section(x, copy, s, c, form, w, h);
            x->strip_count -= new_strip;
            if (j == sections)
                s->count--;
        }
        if (new_strip)
            break;
    }
}

static void place(search *x, int copy)
{
    if (copy == x->copy_count) {
        weigh(x);
        return;
    }
    if (mini_may_lie(x->job, x->copies[copy], false))
        place_form(x, copy, false);
    if (mini_may_lie(x->job, x->copies[copy], true))
        place_form(x, copy, true);
}

brute_answer brute_solve(const mini_job *job, bool setups)
{
    search x;
    brute_answer answer = {0, 0, 0};
    size_t i;
    int64_t k;

    memset(&x, 0, sizeof x);
    x.job = job;
    for (i = 0; i < job->piece_count; i++) {
        const mini_piece *p = &job->pieces[i];
        if (mini_may_lie(job, i, false) && p->along > x.tallest)
            x.tallest = p->along;
        if (mini_may_lie(job, i, true) && p->across > x.tallest)
            x.tallest = p->across;
        for (k = 0; k < p->count && x.copy_count < BRUTE_MAX; k++)
            x.copies[x.copy_count++] = i;
    }
    place(&x, 0);
    answer.used = x.best;
    answer.bought = mini_bought(job, x.best);
    if (setups) {
        /* The longest length that still buys no more. */
        x.length = answer.bought * (10000 - job->shrink) / 10000;
        place(&x, 0);
        answer.setups = x.setups;
    }
    return answer;
}

qc_length brute_narrowest(const mini_job *job, qc_length bought)
{
    mini_job narrow = *job;
    qc_length width;
    size_t i;

    for (width = job->ruler; width <= job->width; width += job->ruler) {
        bool fits = true;
        narrow.width = width;
        for (i = 0; i < job->piece_count; i++)
            fits = fits && (mini_may_lie(&narrow, i, false) ||
                            mini_may_lie(&narrow, i, true));
        if (fits && brute_solve(&narrow, false).bought <= bought)
            return width;
    }
    return job->width;
}
