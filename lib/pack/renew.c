/* Some strips of a plan are taken out, those that waste much rather than
 * others, and a dive cuts what they held anew. So small a need is often met
 * with nothing to spare, where a dive for everything would have to be right in
 * each of its many choices. */
#include "pack/renew.h"

#include "base/error.h"
#include "base/wide.h"
#include "pack/dive.h"

/* Strips taken out. */
#define FEWEST 8
#define MOST 40
/* So many of a hundred are chosen by what they waste, the others at random. */
#define WASTEFUL 70
/* Linear programs for a dive. */
#define ROUNDS 60

/* A number below `below`, by a linear congruence: alike on every machine. */
static int64_t draw(uint64_t *seed, int64_t below)
{
    *seed =
        *seed * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (int64_t)((qci_wide)(*seed >> 33) * below >> 31);
}

/* What of a strip no piece takes, as an area: in heights, and parts of the
 * fabric's width so large that sums stay small. */
static int64_t waste(const qci_model *model, const qci_pattern *pattern)
{
    int64_t left = pattern->height * model->width;

    for (int32_t i = 0; i < pattern->length; i++) {
        const qci_lay *lay = &model->lays[QCI_LAY(pattern->sequence[i])];

        left -= lay->width * lay->height;
    }
    return left > 0 ? left / (model->width / 1024 + 1) : 0;
}

/* A use, those that waste more likelier. */
static size_t choose_wasteful(const qci_model *model,
                              const qci_solution *solution, uint64_t *seed)
{
    int64_t sum = 0;
    size_t i;

    for (i = 0; i < solution->uses.count; i++)
        sum += solution->uses.at[i].times *
               waste(model, solution->uses.at[i].pattern);
    sum = draw(seed, sum);
    for (i = 0; i + 1 < solution->uses.count && sum >= 0; i++)
        sum -= solution->uses.at[i].times *
               waste(model, solution->uses.at[i].pattern);
    return sum < 0 ? i - 1 : i;
}

static void remove_strip(qci_solution *solution, size_t at)
{
    qci_use *use = &solution->uses.at[at];

    solution->height -= use->pattern->height;
    if (!--use->times)
        *use = solution->uses.at[--solution->uses.count];
}

static void take_out(const qci_model *model, qci_solution *kept, uint64_t *seed)
{
    int64_t strips = FEWEST + draw(seed, MOST - FEWEST + 1);

    for (; strips && kept->uses.count; strips--)
        remove_strip(kept, draw(seed, 100) < WASTEFUL
                               ? choose_wasteful(model, kept, seed)
                               : (size_t)draw(seed, (int64_t)kept->uses.count));
}

qc_status qci_renew(qci_master *master, const qci_solution *from, int64_t cap,
                    uint64_t *seed, qci_solution *out, qc_error *err)
{
    qci_solution kept = {0};
    qci_dive_plan plan = {.cap = cap, .rounds = ROUNDS, .kept = &kept};
    qc_status status;

    if (!qci_solution_copy(&kept, from))
        return qci_no_memory(err);
    take_out(master->model, &kept, seed);
    status = qci_dive(master, plan, out, err);
    qci_solution_clear(&kept);
    return status;
}
