/* The strips of a sewn set against those of the job's.
 *
 * A set that is turned by half is the same set, so its strips may be listed
 * from either edge; the way that leaves less wrong is meant. Strips that are
 * alike are told of together, at the step that sews them. */
#include "check/pieces.h"
#include "job/check.h"

/* A sewn set beside the job's. */
typedef struct pairing {
    const qci_checker *c;
    uint32_t set; /* of the job */
    const qci_sewn *sewn;
    bool turned; /* its strips are listed from the job's upper edge down */
} pairing;

/* The job's place of strip i. */
static size_t place_of(const pairing *p, size_t i)
{
    return p->turned ? p->sewn->count - 1 - i : i;
}

static qc_length width_by(const pairing *p, size_t i)
{
    const qci_set *set = &p->c->of->job->sets[p->set];
    size_t place = place_of(p, i);
    qc_length most = set->strips[place].width;
    qc_length finished = set->finished[place];

    return qci_pieces_apart(p->sewn->strips[i].width,
                            finished ? finished + 2 * p->sewn->seam : most,
                            most);
}

static bool has_fabric(const pairing *p, size_t i)
{
    return p->sewn->strips[i].fabric ==
           p->c->of->job->sets[p->set].strips[place_of(p, i)].fabric;
}

static size_t wrong_strips(const pairing *p)
{
    size_t count = 0;

    for (size_t i = 0; i < p->sewn->count; i++)
        count += !has_fabric(p, i) || width_by(p, i);
    return count;
}

/* The strips are of one name, and so should they be in the job. */
static bool are_alike(const pairing *p, size_t a, size_t b)
{
    const qc_set_strip *strips = p->c->of->job->sets[p->set].strips;
    const qci_sewn_strip *sewn = p->sewn->strips;
    const qc_set_strip *x = &strips[place_of(p, a)];
    const qc_set_strip *y = &strips[place_of(p, b)];

    return sewn[a].name == sewn[b].name && x->fabric == y->fabric &&
           x->width == y->width;
}

static bool is_first(const pairing *p, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (are_alike(p, k, i))
            return false;
    return true;
}

/* "strips 1+3 of set S1 (dark)", as the job counts them. */
static void say_places(qci_text *words, const pairing *p, size_t i)
{
    const qc_instructions *of = p->c->of;
    const char *before = " ";
    size_t count = 0;

    for (size_t k = i; k < p->sewn->count; k++)
        count += are_alike(p, i, k);
    qci_text_printf(words, "strip%s", count == 1 ? "" : "s");
    for (size_t place = 0; place < p->sewn->count; place++)
        if (are_alike(p, i, place_of(p, place))) {
            qci_text_printf(words, "%s%zu", before, place + 1);
            before = "+";
        }
    qci_text_printf(
        words, " of set %s (%s) %s", of->job->sets[p->set].info.job_id,
        of->names[p->sewn->strips[i].name].name, count == 1 ? "is" : "are");
}

static qc_status find_fabric(const pairing *p, size_t i)
{
    const qc_job *job = p->c->of->job;
    uint32_t fabric = p->sewn->strips[i].fabric;
    uint32_t right = job->sets[p->set].strips[place_of(p, i)].fabric;
    qci_text words = {0};

    say_places(&words, p, i);
    qci_text_printf(&words, " of %s, to be of %s", job->fabrics[fabric].name,
                    job->fabrics[right].name);
    return qci_checker_add_set(
        p->c,
        (qc_finding){.kind = QC_FINDING_FABRIC,
                     .count = p->c->as_written->done[p->sewn->step].got},
        p->sewn->step, fabric, p->set, &words);
}

static qc_status find_width(const pairing *p, size_t i)
{
    const qc_job *job = p->c->of->job;
    const qci_set *set = &job->sets[p->set];
    qc_length width = set->strips[place_of(p, i)].width;
    qc_length finished = set->finished[place_of(p, i)];
    qc_length by = width_by(p, i);
    qci_text words = {0};

    say_places(&words, p, i);
    qci_text_printf(&words, " %s wide; ",
                    qci_show(p->sewn->strips[i].width, job->units).text);
    if (finished)
        qci_text_printf(&words, "finished %s with seams of %s ",
                        qci_show(finished, job->units).text,
                        qci_show(job->seam, job->units).text);
    qci_text_printf(&words, "it is cut %s: ", qci_show(width, job->units).text);
    qci_pieces_say_by(&words, by, "narrow", "wide", job->units);
    return qci_checker_add_set(
        p->c,
        (qc_finding){.kind = QC_FINDING_SIZE,
                     .count = p->c->as_written->done[p->sewn->step].got,
                     .by = {0, by}},
        p->sewn->step, p->sewn->strips[i].fabric, p->set, &words);
}

static qc_status find_number(const pairing *p)
{
    const qc_plan_set *set = &p->c->of->job->sets[p->set].info;
    qci_text words = {0};

    qci_text_printf(&words, "%zu strips are sewn together; set %s has %zu",
                    p->sewn->count, set->job_id, set->strip_count);
    return qci_checker_add_set(
        p->c,
        (qc_finding){.kind = QC_FINDING_SHAPE,
                     .count = p->c->as_written->done[p->sewn->step].got},
        p->sewn->step, QC_NONE, p->set, &words);
}

qc_status qci_segments_strips(const qci_checker *c, uint32_t index)
{
    pairing p = {.c = c,
                 .set = c->of->steps[index].set,
                 .sewn = &c->as_written->done[index].sewn};
    size_t as_listed;
    qc_status status = QC_STATUS_OK;

    if (p.sewn->count != p.c->of->job->sets[p.set].info.strip_count)
        return find_number(&p);
    as_listed = wrong_strips(&p);
    p.turned = true;
    if (wrong_strips(&p) >= as_listed)
        p.turned = false;
    for (size_t i = 0; i < p.sewn->count && !status; i++) {
        if (!is_first(&p, i))
            continue;
        if (!has_fabric(&p, i))
            status = find_fabric(&p, i);
        if (!status && width_by(&p, i))
            status = find_width(&p, i);
    }
    return status;
}
