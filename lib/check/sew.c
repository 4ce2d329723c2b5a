/* Sewing strips into sets, and cutting the sets across.
 *
 * A set takes the next whole strip of each of its names; a person sews strips
 * off which nothing was cut yet. Equal sets are sewn at once: as many as the
 * lots hold that the first of them took its strips from. Where strips give out
 * the run goes on with what there is; with `adds`, those are added that are
 * missing. Costs a look at the lots of every name for each lot that is used up.
 */
#include "check/run.h"

#include "base/error.h"

static bool is_whole(const qci_lot *lot)
{
    qc_length width = qci_cloth_extent(&lot->cloth, QCI_MEASURE_ACROSS);
    qc_length height = qci_cloth_extent(&lot->cloth, QCI_MEASURE_UP);

    return lot->copies && !lot->touched &&
           qci_cloth_is_rectangle(&lot->cloth, width, height);
}

/* A set, and the lots that its strips come from. */
typedef struct pick {
    qci_lot *from[QC_MAX_SET_STRIPS];
    qci_sewn set;
} pick;

/* Takes one copy; NULL when there is none. */
static qci_lot *take(qci_heap *heap)
{
    for (size_t i = 0; i < heap->lots.count; i++)
        if (is_whole(&heap->lots.at[i])) {
            heap->lots.at[i].copies--;
            return &heap->lots.at[i];
        }
    return NULL;
}

static void give_back(pick *p, size_t count)
{
    for (size_t i = 0; i < count; i++)
        p->from[i]->copies++;
}

/* Lays strips as the step says; false when the next is too narrow. */
static bool lay(const qci_run *run, const qci_instruction *step, uint32_t name,
                const qci_polygon *cloth, qci_sewn *set)
{
    qc_length offset = step->stagger * (qc_length)set->count;
    qci_sewn_strip strip = {
        .name = name,
        .fabric = run->of->names[name].fabric,
        .width = qci_cloth_extent(cloth, QCI_MEASURE_UP),
        .left = offset,
        .right = offset + qci_cloth_extent(cloth, QCI_MEASURE_ACROSS)};

    if (strip.width <= 2 * set->seam)
        return false;
    qci_sewn_add(set, strip);
    return true;
}

static qci_sewn no_strips(const qci_run *run, size_t sewing)
{
    return (qci_sewn){.step = (uint32_t)sewing, .seam = run->of->job->seam};
}

static qc_status fail_narrow(const qci_run *run, size_t index)
{
    return qci_run_fail(run, index, "strips wider than two seam allowances",
                        "sews a strip of which its seams leave nothing");
}

/* Takes the strips of one set; *taken is false when they do not suffice. */
static qc_status pick_strips(qci_run *run, size_t index, pick *p, bool *taken)
{
    const qci_instruction *step = &run->of->steps[index];

    p->set = no_strips(run, index);
    for (size_t i = 0; i < step->strip_count; i++) {
        p->from[i] = take(&run->heaps[step->strips[i]]);
        if (!p->from[i]) {
            give_back(p, i);
            return QC_STATUS_OK;
        }
        if (!lay(run, step, step->strips[i], &p->from[i]->cloth, &p->set))
            return fail_narrow(run, index);
    }
    *taken = true;
    return QC_STATUS_OK;
}

/* How many sets more the same lots give. */
static int64_t more_of(const pick *p)
{
    int64_t more = INT64_MAX;

    for (size_t i = 0; i < p->set.count; i++) {
        int64_t uses = 1;

        for (size_t k = 0; k < p->set.count; k++)
            uses += k != i && p->from[k] == p->from[i];
        if (p->from[i]->copies / uses < more)
            more = p->from[i]->copies / uses;
    }
    return more;
}

/* Sews up to `wanted` sets that a step tells, and adds them to its name. */
static qc_status sew_sets(qci_run *run, size_t index, int64_t wanted,
                          int64_t *made)
{
    qci_heap *heap = &run->heaps[run->of->steps[index].gives];
    qc_status status = QC_STATUS_OK;

    for (*made = 0; *made < wanted;) {
        bool taken = false;
        pick p;
        int64_t more;
        qci_set_lot lot;

        status = pick_strips(run, index, &p, &taken);
        if (status || !taken)
            return status;
        more = more_of(&p);
        if (more > wanted - *made - 1)
            more = wanted - *made - 1;
        for (size_t i = 0; i < p.set.count; i++)
            p.from[i]->copies -= more;
        lot = (qci_set_lot){p.set, more + 1};
        heap->cloths += lot.copies;
        *made += lot.copies;
        if (!qci_vec_push(&heap->sets, lot))
            return qci_no_memory(run->err);
    }
    return status;
}

static int64_t whole_of(const qci_heap *heap)
{
    int64_t count = 0;

    for (size_t i = 0; i < heap->lots.count; i++)
        if (is_whole(&heap->lots.at[i]))
            count += heap->lots.at[i].copies;
    return count;
}

/* Adds the strips that `sets` more sets of a sewing step lack. */
static qc_status supply_strips(qci_run *run, size_t index, size_t sewing,
                               int64_t sets)
{
    const qci_instruction *step = &run->of->steps[sewing];
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < step->strip_count && !status; i++) {
        uint32_t name = step->strips[i];
        int64_t uses = 0, lacking;
        size_t first = 0;

        while (step->strips[first] != name)
            first++;
        for (size_t k = 0; k < step->strip_count; k++)
            uses += step->strips[k] == name;
        lacking = uses * sets - whole_of(&run->heaps[name]);
        if (first == i && lacking > 0)
            status = qci_run_supply(run, index, name, lacking);
    }
    return status;
}

qc_status qci_run_sew(qci_run *run, size_t index)
{
    qci_done *done = &run->done[index];
    qci_heap *heap = &run->heaps[run->of->steps[index].gives];
    size_t first = heap->sets.count;
    qc_status status = qci_run_asked(run, index, &done->asked);
    bool as_many = done->asked == INT64_MAX;
    int64_t made = 0;

    if (!status)
        status = sew_sets(run, index, done->asked, &done->got);
    if (as_many)
        done->asked = done->got ? done->got : 1;
    if (!status && done->got < done->asked && run->adds) {
        status = supply_strips(run, index, index, done->asked - done->got);
        if (!status && !done->hopeless)
            status = sew_sets(run, index, done->asked - done->got, &made);
        done->got += made;
    }
    done->fell = heap->sets.count > first;
    if (done->fell)
        done->sewn = heap->sets.at[first].set;
    return status;
}

/* Cuts `per` segments off each of the first `copies` sets of a lot. */
static qc_status cut_lot(qci_run *run, size_t index, size_t at, int64_t per,
                         int64_t copies)
{
    const qci_instruction *step = &run->of->steps[index];
    qci_heap *heap = &run->heaps[step->from];
    qci_done *done = &run->done[index];
    qci_set_lot others = heap->sets.at[at];

    if (!done->fell)
        done->sewn = others.set;
    done->fell = true;
    done->got += per * copies;
    if (done->got > QC_MAX_COUNT)
        return qci_run_fail(run, index, "up to 1000000000",
                            "cuts too many segments");
    qci_sewn_cut(&heap->sets.at[at].set,
                 qci_across_of(step, &heap->sets.at[at].set), per);
    heap->sets.at[at].copies = copies;
    others.copies -= copies;
    if (!others.copies)
        return QC_STATUS_OK;
    if (!qci_vec_push(&heap->sets, others))
        return qci_no_memory(run->err);
    /* They come next. */
    for (size_t i = heap->sets.count - 1; i > at + 1; i--)
        heap->sets.at[i] = heap->sets.at[i - 1];
    heap->sets.at[at + 1] = others;
    return QC_STATUS_OK;
}

static int64_t segments_of(const qci_instruction *step, const qci_sewn *set)
{
    int64_t most = qci_sewn_fits(set, qci_across_of(step, set));

    return step->each != QC_DEFAULT && step->each < most ? step->each : most;
}

/* Cuts what is still wanted from the sets of the step's name. */
static qc_status cut_sets(qci_run *run, size_t index, int64_t wanted)
{
    const qci_instruction *step = &run->of->steps[index];
    qci_heap *heap = &run->heaps[step->from];
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < heap->sets.count && wanted > 0 && !status; i++) {
        int64_t copies = heap->sets.at[i].copies;
        int64_t per = segments_of(step, &heap->sets.at[i].set);
        int64_t full = per ? wanted / per : 0;

        if (!per || !copies)
            continue;
        if (full > copies)
            full = copies;
        if (!full) /* one set, and not all that it would give */
            return cut_lot(run, index, i, wanted, 1);
        status = cut_lot(run, index, i, per, full);
        wanted -= full * per;
    }
    return status;
}

/* A set as the step sews it of whole strips; false when there are none. */
static bool fresh_set(const qci_run *run, size_t sewing, qci_sewn *set)
{
    const qci_instruction *step = &run->of->steps[sewing];

    *set = no_strips(run, sewing);
    for (size_t i = 0; i < step->strip_count; i++) {
        qci_polygon cloth;

        if (!qci_run_fresh(run, step->strips[i], &cloth) ||
            !lay(run, step, step->strips[i], &cloth, set))
            return false;
    }
    return true;
}

/* Cuts the rest of what the step asks for from sets that are added. */
static qc_status add_sets(qci_run *run, size_t index, int64_t missing)
{
    const qci_instruction *step = &run->of->steps[index];
    uint32_t origin = run->of->names[step->from].origin;
    qci_done *done = &run->done[index];
    int64_t sets, made = 0, per = 0;
    qci_sewn set;
    qc_status status;

    if (fresh_set(run, origin, &set))
        per = segments_of(step, &set);
    if (!per) {
        done->hopeless = true;
        return QC_STATUS_OK;
    }
    sets = (missing + per - 1) / per;
    status = supply_strips(run, index, origin, sets);
    if (!status)
        status = sew_sets(run, origin, sets, &made);
    done->added = made;
    return status ? status : cut_sets(run, index, missing);
}

qc_status qci_run_crosscut(qci_run *run, size_t index)
{
    qci_done *done = &run->done[index];
    qc_status status = qci_run_asked(run, index, &done->asked);
    bool as_many = done->asked == INT64_MAX;

    if (!status)
        status = cut_sets(run, index, done->asked);
    if (as_many)
        done->asked = done->got ? done->got : 1;
    if (!status && done->got < done->asked && run->adds)
        status = add_sets(run, index, done->asked - done->got);
    return status;
}

bool qci_run_uses(const qc_instructions *of, uint32_t index, uint32_t fabric)
{
    const qci_instruction *step = &of->steps[index];

    if (step->fabric != QC_NONE)
        return step->fabric == fabric;
    if (step->kind == QC_INSTRUCTION_CROSSCUT)
        step = &of->steps[of->names[step->from].origin];
    for (size_t i = 0; i < step->strip_count; i++)
        if (of->names[step->strips[i]].fabric == fabric)
            return true;
    return false;
}
