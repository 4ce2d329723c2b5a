/* Mini jobs: building them, solving them, and checking a plan by definition.
 *
 * The check reads nothing but the public plan and the numbers of the job. It is
 * written from the definition (strips across the width, sections in a strip,
 * stacks in a section), so it is a second pair of eyes beside the library's
 * replay, which reads the cut order instead of the strips.
 */
#include "mini.h"

#include <inttypes.h>
#include <stdio.h>
#include <string.h>

void mini_init(mini_job *job)
{
    memset(job, 0, sizeof *job);
    job->width = 42 * QC_INCH;
    job->print = QC_PRINT_PLAIN;
    job->stages = 3;
    job->step = QC_YARD / 8;
    job->ruler = QC_INCH / 8;
    job->time_limit_ms = 60000;
}

void mini_add(mini_job *job, qc_length across, qc_length along, int64_t count)
{
    mini_piece *piece = &job->pieces[job->piece_count++];

    piece->across = across;
    piece->along = along;
    piece->count = count;
    piece->grain = QC_GRAIN_ANY;
}

bool mini_goals(mini_job *job, const char *letters)
{
    static const char known[] = "bumscl";

    job->goal_count = 0;
    for (; *letters; letters++) {
        const char *place = strchr(known, *letters);
        if (!place || job->goal_count == QC_GOAL_COUNT)
            return false;
        job->goals[job->goal_count++] = (qc_goal)(place - known);
    }
    return true;
}

int mini_read(FILE *file, char name[64], mini_job *job)
{
    char goals[16];
    int print, no_trim;
    size_t i, n;
    int read = fscanf(file,
                      "%63s %" SCNd64 " %d %d %d %" SCNd64 " %" SCNd64
                      " %" SCNd32 " %" SCNd64 " %" SCNd32 " %15s %zu",
                      name, &job->width, &print, &job->stages, &no_trim,
                      &job->square_up, &job->step, &job->shrink, &job->ruler,
                      &job->time_limit_ms, goals, &n);

    if (read == EOF)
        return 0;
    if (read != 12 || n > MINI_MAX_PIECES)
        return -1;
    job->print = (qc_print)print;
    job->no_trim = no_trim != 0;
    job->goal_count = 0;
    if (strcmp(goals, "-") != 0 && !mini_goals(job, goals))
        return -1;
    job->piece_count = n;
    for (i = 0; i < n; i++) {
        mini_piece *p = &job->pieces[i];
        int grain;
        if (fscanf(file, "%" SCNd64 " %" SCNd64 " %" SCNd64 " %d", &p->across,
                   &p->along, &p->count, &grain) != 4)
            return -1;
        p->grain = (qc_grain)grain;
    }
    return 1;
}

qc_status mini_create(const mini_job *job, qc_job **out, qc_error *err)
{
    static const char fabric_id[] = "cloth";
    char ids[MINI_MAX_PIECES][8];
    qc_piece_spec pieces[MINI_MAX_PIECES];
    qc_fabric_spec fabric;
    qc_job_spec spec;
    size_t i;

    qc_fabric_spec_init(&fabric);
    fabric.id = fabric_id;
    fabric.width = job->width;
    fabric.print = job->print;
    fabric.step = job->step;
    fabric.square_up = job->square_up;
    fabric.shrink_length = job->shrink;
    for (i = 0; i < job->piece_count; i++) {
        qc_piece_spec_init(&pieces[i]);
        snprintf(ids[i], sizeof ids[i], "P%u", (unsigned)i);
        pieces[i].id = ids[i];
        pieces[i].fabric = fabric_id;
        pieces[i].shape = QC_SHAPE_RECTANGLE;
        pieces[i].is_cut = true;
        pieces[i].size[0] = job->pieces[i].across;
        pieces[i].size[1] = job->pieces[i].along;
        pieces[i].grain = job->pieces[i].grain;
        pieces[i].count = job->pieces[i].count;
    }
    qc_job_spec_init(&spec, QC_UNITS_IN);
    spec.ruler = job->ruler;
    spec.fabrics = &fabric;
    spec.fabric_count = 1;
    spec.pieces = pieces;
    spec.piece_count = job->piece_count;
    memcpy(spec.goals, job->goals, sizeof spec.goals);
    spec.goal_count = job->goal_count;
    spec.stages = job->stages;
    spec.no_trim = job->no_trim;
    spec.time_limit_ms = job->time_limit_ms;
    return qc_job_create(&spec, out, err);
}

qc_status mini_solve(const mini_job *job, int threads, qc_plan **out,
                     qc_error *err)
{
    qc_solve_options options;
    qc_job *made = NULL;
    qc_status status = mini_create(job, &made, err);

    *out = NULL;
    if (status == QC_STATUS_OK) {
        qc_solve_options_init(&options);
        options.threads = threads;
        status = qc_job_solve(made, &options, out, err);
    }
    qc_job_destroy(made);
    return status;
}

bool mini_may_lie(const mini_job *job, size_t piece, bool turned)
{
    const mini_piece *p = &job->pieces[piece];
    bool square = p->across == p->along;

    if ((turned ? p->along : p->across) > job->width)
        return false;
    if (square)
        return !turned;
    if (turned && job->print != QC_PRINT_PLAIN &&
        job->print != QC_PRINT_REVERSIBLE)
        return false;
    return p->grain != (turned ? QC_GRAIN_CROSSWISE : QC_GRAIN_LENGTHWISE);
}

qc_length mini_bought(const mini_job *job, qc_length used)
{
    int64_t kept = 10000 - job->shrink; /* of 10000 bought */
    int64_t steps = used * 10000 / (job->step * kept);

    while (steps * job->step * kept < used * 10000)
        steps++;
    return steps * job->step;
}

qc_length mini_hand_used(const mini_job *job)
{
    qc_length used = job->square_up;
    size_t i;

    for (i = 0; i < job->piece_count; i++) {
        const mini_piece *p = &job->pieces[i];
        bool turned = !mini_may_lie(job, i, false);
        qc_length w = turned ? p->along : p->across;
        qc_length h = turned ? p->across : p->along;
        int64_t per_strip = job->width / w;
        used += (p->count + per_strip - 1) / per_strip * h;
    }
    return used;
}

qc_length mini_hand_method(const mini_job *job)
{
    return mini_bought(job, mini_hand_used(job));
}

static qc_length tallest_form(const mini_job *job)
{
    qc_length most = 0;
    size_t i;

    for (i = 0; i < job->piece_count; i++) {
        const mini_piece *p = &job->pieces[i];
        if (mini_may_lie(job, i, false) && p->along > most)
            most = p->along;
        if (mini_may_lie(job, i, true) && p->across > most)
            most = p->across;
    }
    return most;
}

static const char *check_section(const mini_job *job, const qc_strip *strip,
                                 const qc_subcut *cut, int64_t *got)
{
    qc_length height = 0, widest = 0;
    size_t i;

    if (cut->count < 1 || cut->stack_count < 1)
        return "an empty section";
    if (job->stages == 2 && (cut->stack_count != 1 || cut->stacks[0].count > 1))
        return "a stack in a plan of two stages";
    for (i = 0; i < cut->stack_count; i++) {
        const qc_stack *s = &cut->stacks[i];
        bool turned = s->turn == QC_TURN_QUARTER;
        const mini_piece *p;
        if (s->piece >= job->piece_count || s->count < 1)
            return "a stack of no piece";
        p = &job->pieces[s->piece];
        if (s->width != (turned ? p->along : p->across) ||
            s->height != (turned ? p->across : p->along))
            return "a piece of the wrong size";
        if (!mini_may_lie(job, s->piece, turned))
            return "a piece turned where it must not be";
        height += s->height * s->count;
        if (s->width > widest)
            widest = s->width;
        got[s->piece] += (int64_t)s->count * cut->count * strip->repeat;
    }
    if (cut->width != widest)
        return "a section not as wide as its widest piece";
    if (height > strip->height)
        return "a stack higher than its strip";
    if (job->no_trim && height != strip->height)
        return "a trim where none is allowed";
    return NULL;
}

/* Whether two sections are cut alike: the same sizes from the lower edge up,
 * whichever pieces those are. */
static bool same_cuts(const qc_subcut *a, const qc_subcut *b)
{
    size_t i = 0, j = 0;
    uint32_t in_a = 0, in_b = 0;

    while (i < a->stack_count && j < b->stack_count) {
        if (a->stacks[i].width != b->stacks[j].width ||
            a->stacks[i].height != b->stacks[j].height)
            return false;
        if (++in_a == a->stacks[i].count) {
            in_a = 0;
            i++;
        }
        if (++in_b == b->stacks[j].count) {
            in_b = 0;
            j++;
        }
    }
    return i == a->stack_count && j == b->stack_count;
}

static uint32_t count_same(const qc_strip *strip, const qc_subcut *subcut)
{
    uint32_t n = 0;
    size_t i;

    for (i = 0; i < strip->subcut_count; i++)
        if (same_cuts(&strip->subcuts[i], subcut))
            n += strip->subcuts[i].count;
    return n;
}

/* Whether `part` is `whole` with pieces left out above the first, as wide. */
static bool is_part_of(const qc_subcut *part, const qc_subcut *whole)
{
    size_t i = 0, j = 0;
    uint32_t in_i = 0, in_j = 0;

    if (part->width != whole->width)
        return false;
    for (; i < part->stack_count && j < whole->stack_count; j += in_j == 0) {
        if (part->stacks[i].width == whole->stacks[j].width &&
            part->stacks[i].height == whole->stacks[j].height) {
            in_i = (in_i + 1) % part->stacks[i].count;
            i += in_i == 0;
        }
        in_j = (in_j + 1) % whole->stacks[j].count;
    }
    return i == part->stack_count;
}

/* Finds a section of `whole` for section `at` of `strip`, moving those of other
 * sections where need be (a matching by augmenting paths; from memory).
 * Sections are numbered through all subcuts. */
#define SECTIONS 512

static const qc_subcut *section_at(const qc_strip *strip, uint32_t at)
{
    size_t i;

    for (i = 0; i < strip->subcut_count; i++) {
        if (at < strip->subcuts[i].count)
            return &strip->subcuts[i];
        at -= strip->subcuts[i].count;
    }
    return NULL;
}

static bool find_place(const qc_strip *strip, const qc_strip *whole,
                       uint32_t at, uint32_t *taken, bool *asked)
{
    uint32_t i;

    for (i = 0; i < SECTIONS && section_at(whole, i); i++) {
        if (asked[i] ||
            !is_part_of(section_at(strip, at), section_at(whole, i)))
            continue;
        asked[i] = true;
        if (taken[i] == 0 ||
            find_place(strip, whole, taken[i] - 1, taken, asked)) {
            taken[i] = at + 1;
            return true;
        }
    }
    return false;
}

static bool is_short_of(const qc_strip *strip, const qc_strip *whole)
{
    uint32_t taken[SECTIONS] = {0}, at;

    for (at = 0; section_at(strip, at); at++) {
        bool asked[SECTIONS] = {false};
        if (!find_place(strip, whole, at, taken, asked))
            return false;
    }
    return true;
}

/* Whether `strip` has of every section as many as `whole`. */
static bool is_cut_as(const qc_strip *strip, const qc_strip *whole)
{
    uint32_t mine = 0, others = 0;
    size_t i;

    for (i = 0; i < strip->subcut_count; i++) {
        const qc_subcut *a = &strip->subcuts[i];
        if (count_same(strip, a) != count_same(whole, a))
            return false;
        mine += a->count;
    }
    for (i = 0; i < whole->subcut_count; i++)
        others += whole->subcuts[i].count;
    return mine == others;
}

static const char *check_strip(const mini_job *job, const qc_strip *strip,
                               int64_t *got)
{
    qc_length across = 0;
    size_t i;

    if (strip->height > tallest_form(job))
        return "a strip higher than any piece";
    if (strip->repeat < 1 || strip->subcut_count < 1)
        return "an empty strip";
    for (i = 0; i < strip->subcut_count; i++) {
        const char *wrong = check_section(job, strip, &strip->subcuts[i], got);
        if (wrong)
            return wrong;
        across += strip->subcuts[i].width * strip->subcuts[i].count;
    }
    if (across > job->width)
        return "a strip wider than the fabric";
    if (across != strip->used_width)
        return "used_width is not the sum of the sections";
    return NULL;
}

static const char *check_levels(const qc_plan *plan)
{
    const qc_plan_fabric *f = qc_plan_fabric_at(plan, 0);
    size_t i;

    for (i = 0; i < f->level_count; i++) {
        const qc_level *level = qc_plan_level_at(plan, 0, i);
        bool more_is_better = level->goal == QC_GOAL_LEFTOVER;
        if (more_is_better ? level->bound < level->value
                           : level->bound > level->value)
            return "a level's bound on the wrong side of its value";
        if ((level->outcome == QC_OUTCOME_OPTIMAL) !=
            (level->bound == level->value))
            return "a level's outcome and bound disagree";
        if ((level->goal == QC_GOAL_BOUGHT && level->value != f->bought) ||
            (level->goal == QC_GOAL_USED && level->value != f->used) ||
            (level->goal == QC_GOAL_SETUPS && level->value != f->setups) ||
            (level->goal == QC_GOAL_CUTS && level->value != f->cuts))
            return "a level's value is not the fabric's";
    }
    if (f->outcome != qc_plan_level_at(plan, 0, 0)->outcome)
        return "the fabric's outcome is not that of its first level";
    return NULL;
}

const char *mini_check(const mini_job *job, const qc_plan *plan)
{
    int64_t got[MINI_MAX_PIECES] = {0};
    const qc_plan_fabric *f = qc_plan_fabric_at(plan, 0);
    qc_length used = job->square_up;
    uint32_t setups = 0;
    size_t i;

    for (i = 0; i < f->strip_count; i++) {
        const qc_strip *strip = qc_plan_strip_at(plan, 0, i);
        const char *wrong = check_strip(job, strip, got);
        if (wrong)
            return wrong;
        const qc_strip *before = i ? qc_plan_strip_at(plan, 0, i - 1) : NULL;
        if (!strip->cut_short && !strip->alike)
            setups++;
        else if (!before || strip->height != before->height)
            return "a strip of a set-up with another height";
        else if (before->cut_short || (strip->cut_short && strip->repeat > 1))
            return "a second short strip of a set-up";
        else if (strip->cut_short ? !is_short_of(strip, before)
                                  : !is_cut_as(strip, before))
            return "a strip of a set-up with a section of its own";
        used += strip->height * strip->repeat;
    }
    for (i = 0; i < job->piece_count; i++)
        if (got[i] != job->pieces[i].count)
            return "the pieces cut are not the pieces asked for";
    if (used != f->used)
        return "used is not strips and squaring-up";
    if (f->bought != mini_bought(job, used))
        return "bought is not what covers used";
    if (f->bound > f->bought || f->bound % job->step != 0)
        return "the bound is above bought, or no whole step";
    if (f->setups != setups)
        return "set-ups miscounted";
    if (f->hand_method < f->bought)
        return "the hand method buys less";
    if (f->narrowest_width > job->width)
        return "the narrowest width is wider than the fabric";
    return check_levels(plan);
}

uint64_t mini_next(mini_random *random)
{
    uint64_t z = (random->state += UINT64_C(0x9e3779b97f4a7c15));

    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

int64_t mini_between(mini_random *random, int64_t lo, int64_t hi)
{
    return lo + (int64_t)(mini_next(random) % (uint64_t)(hi - lo + 1));
}
