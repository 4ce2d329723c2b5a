/* The methods of an entry of blocks: which units they are for, in the order
 * given. A unit is taken whole, and no patch twice; what is then left of the
 * block is cut patch by patch. */
#include <inttypes.h>
#include <stdio.h>
#include <string.h>

#include "base/alloc.h"
#include "base/nearest.h"
#include "base/text.h"
#include "job/use.h"
#include "length/ruler.h"

static const qci_range trim_range = {0, QC_M, "0 to 1 m"};

qci_path qci_method_path(const qci_use *u, size_t method, const char *member)
{
    char name[40];

    snprintf(name, sizeof name, "methods[%zu]%s%s", method, member ? "." : "",
             member ? member : "");
    return qci_path_of("blocks", u->index, name);
}

static qc_status fail(const qci_use *u, size_t method, const char *member,
                      const char *value, const char *allowed,
                      const char *problem)
{
    return qci_fail(u->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_method_path(u, method, member).text, value},
                    allowed, "%s", problem);
}

/* "two at a time or eight at a time" */
static void list_methods(uint32_t methods, char *list, size_t size)
{
    size_t at = 0;

    *list = '\0';
    for (int i = 0; i < QC_METHOD_COUNT && at < size; i++)
        if (methods & UINT32_C(1) << i)
            at += (size_t)snprintf(list + at, size - at, "%s%s",
                                   at ? " or " : "", qci_method_words[i]);
}

static uint32_t offered(const qci_use *u)
{
    uint32_t methods = 0;

    for (size_t i = 0; i < u->block->info.unit_count; i++)
        methods |= u->block->units[i].info.methods;
    return methods;
}

/* No unit of the block offers it. */
static qc_status fail_offer(const qci_use *u, size_t method, uint32_t methods)
{
    char allowed[sizeof u->check->err->allowed];

    list_methods(methods, allowed, sizeof allowed);
    return fail(u, method, "method",
                qci_method_words[u->spec->methods[method].method],
                methods ? allowed
                        : "no methods: each patch of this block is cut by "
                          "itself",
                "is not for this block: it has no patches that could be made "
                "so");
}

static qc_status fail_unit(const qci_use *u, size_t method)
{
    const char *id = u->spec->methods[method].unit;
    const char *known[QC_MAX_PATCHES] = {NULL};
    char allowed[sizeof u->check->err->allowed] = "";
    size_t count = u->block->info.unit_count, at = 0;
    const char *nearest;

    for (size_t i = 0; i < count && i < QC_MAX_PATCHES; i++) {
        known[i] = u->block->units[i].id;
        if (at < sizeof allowed)
            at += (size_t)snprintf(allowed + at, sizeof allowed - at, "%s%s",
                                   i ? ", " : "", known[i]);
    }
    nearest =
        qci_nearest(id, known, count < QC_MAX_PATCHES ? count : QC_MAX_PATCHES);
    return qci_fail(u->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_method_path(u, method, "unit").text, id},
                    count ? allowed : "left out",
                    "is no unit of this block%s%s%s",
                    nearest ? "; did you mean " : "", nearest ? nearest : "",
                    nearest ? "?" : "");
}

static const char *kind_words(qci_unit_kind kind)
{
    switch (kind) {
    case QCI_UNIT_PAIR:
        return "a square of two triangles";
    case QCI_UNIT_FLIPPED:
        return "a patch with triangles at its corners";
    case QCI_UNIT_ROW:
        return "patches in a row";
    case QCI_UNIT_HALVED:
        break;
    }
    return "a patch that is set in between diamonds";
}

static qc_status fail_fit(const qci_use *u, size_t method,
                          const qci_block_unit *unit)
{
    char allowed[sizeof u->check->err->allowed];

    list_methods(unit->info.methods, allowed, sizeof allowed);
    return qci_fail(
        u->check->err, QC_STATUS_INVALID,
        (qci_place){qci_method_path(u, method, "method").text,
                    qci_method_words[u->spec->methods[method].method]},
        allowed, "is not for unit %s, which is %s", qci_short_of(unit->id).text,
        kind_words(unit->kind));
}

/* The first method that takes a patch of the unit; QC_NONE. */
static uint32_t taken_by(const qci_use *u, const qci_block_unit *unit)
{
    uint32_t first = QC_NONE;

    for (size_t i = 0; i < unit->member_count; i++)
        if (u->method[unit->members[i]] < first)
            first = u->method[unit->members[i]];
    return first;
}

static qc_status fail_taken(const qci_use *u, size_t method,
                            const qci_block_unit *unit)
{
    return qci_fail(u->check->err, QC_STATUS_INVALID,
                    (qci_place){qci_method_path(u, method, "unit").text,
                                u->spec->methods[method].unit},
                    "each patch by one method",
                    "has patches that methods[%u] takes already",
                    (unsigned)taken_by(u, unit));
}

/* --- one unit ----------------------------------------------------------------
 */

/* On the ruler, with a seam on both sides. */
static qc_length trim_to(const qc_job *job, qci_fine finished)
{
    return qci_ruler_up(qci_fine_up(finished) + 2 * job->seam, job->ruler);
}

/* Room for one more of the job's units, filled. */
static qc_status note_unit(const qci_making *m)
{
    qc_job *job = m->use->check->job;
    const qc_method_spec *spec = &m->use->spec->methods[m->method];
    qc_plan_unit *grown =
        qci_realloc(job->made, job->made_count + 1, sizeof *job->made);

    if (!grown)
        return qci_no_memory(m->use->check->err);
    job->made = grown;
    grown += job->made_count;
    *grown = (qc_plan_unit){.block = (uint32_t)m->use->index,
                            .id = qci_strdup(m->unit->id),
                            .method = spec->method,
                            .count = m->needed,
                            .made = m->wanted,
                            .trim = m->trim};
    if (!grown->id)
        return qci_no_memory(m->use->check->err);
    job->made_count++;
    for (int i = 0; i < 2 && m->unit->kind == QCI_UNIT_ROW; i++)
        grown->outer[i] =
            qci_fine_up(m->unit->parts[i ? m->unit->part_count - 1 : 0].high) +
            job->seam;
    for (int i = 0; i < 2; i++) {
        grown->size[i] = m->unit->info.size[i];
        if (m->unit->kind != QCI_UNIT_HALVED)
            grown->trim_to[i] = trim_to(job, m->unit->size[i]);
    }
    return QC_STATUS_OK;
}

static qc_status make_unit(qci_use *u, size_t method,
                           const qci_block_unit *unit)
{
    const qc_method_spec *spec = &u->spec->methods[method];
    int64_t needed = u->spec->count * unit->info.count;
    qci_making m = {.use = u,
                    .method = method,
                    .unit = unit,
                    .made = (uint32_t)u->check->job->made_count,
                    .needed = needed,
                    .wanted = needed + qci_spares_of(u->check->spec, needed),
                    .trim = spec->trim == QC_DEFAULT ? 0 : spec->trim};
    qc_status status;

    if (unit->kind == QCI_UNIT_HALVED && m.trim)
        return fail(u, method, "trim", NULL, "left out",
                    "is not for this method: nothing is trimmed after it");
    if (m.wanted > QC_MAX_COUNT)
        return qci_use_fail(u, "count", NULL, "fewer blocks or spares",
                            "makes more than 1000000000 units");
    for (size_t i = 0; i < unit->member_count; i++)
        u->method[unit->members[i]] = (uint32_t)method;
    status = note_unit(&m);
    if (status)
        return status;
    return unit->kind == QCI_UNIT_ROW ? qci_make_row(&m) : qci_make_squares(&m);
}

/* --- one method
 * ---------------------------------------------------------------- */

static bool offers(const qci_block_unit *unit, qc_method method)
{
    return unit->info.methods & UINT32_C(1) << method;
}

/* Every unit that offers it and is whole. */
static qc_status make_all(qci_use *u, size_t method)
{
    qc_method wanted = u->spec->methods[method].method;
    uint32_t methods = offered(u);
    qc_status status = QC_STATUS_OK;
    size_t made = 0;

    if (!(methods & UINT32_C(1) << wanted))
        return fail_offer(u, method, methods);
    for (size_t i = 0; i < u->block->info.unit_count && !status; i++) {
        const qci_block_unit *unit = &u->block->units[i];

        if (!offers(unit, wanted) || taken_by(u, unit) != QC_NONE)
            continue;
        status = make_unit(u, method, unit);
        made++;
    }
    if (!status && !made)
        status = fail(u, method, "method", qci_method_words[wanted],
                      "each patch by one method",
                      "finds no unit whose patches the methods before leave");
    return status;
}

static qc_status make_named(qci_use *u, size_t method)
{
    const qc_method_spec *spec = &u->spec->methods[method];

    for (size_t i = 0; i < u->block->info.unit_count; i++) {
        const qci_block_unit *unit = &u->block->units[i];

        if (!qci_same_word(unit->id, spec->unit))
            continue;
        if (!offers(unit, spec->method))
            return fail_fit(u, method, unit);
        if (taken_by(u, unit) != QC_NONE)
            return fail_taken(u, method, unit);
        return make_unit(u, method, unit);
    }
    return fail_unit(u, method);
}

static qc_status use_method(qci_use *u, size_t method)
{
    const qc_method_spec *spec = &u->spec->methods[method];
    char allowed[sizeof u->check->err->allowed];
    qc_status status = QC_STATUS_OK;

    if ((unsigned)spec->method >= QC_METHOD_COUNT) {
        list_methods(offered(u), allowed, sizeof allowed);
        return fail(u, method, "method", NULL, allowed, "is no method");
    }
    if (spec->trim != QC_DEFAULT)
        status =
            qci_check_length(u->check, qci_method_path(u, method, "trim").text,
                             spec->trim, trim_range);
    if (status)
        return status;
    return spec->unit ? make_named(u, method) : make_all(u, method);
}

qc_status qci_use_methods(qci_use *u)
{
    size_t count = u->spec->methods ? u->spec->method_count : 0;
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < QC_MAX_PATCHES; i++)
        u->method[i] = QC_NONE;
    if (count > QC_MAX_METHODS)
        return qci_use_fail(u, "methods", NULL, "at most 40 methods",
                            "has more than 40 entries");
    for (size_t i = 0; i < count && !status; i++)
        status = use_method(u, i);
    return status;
}
