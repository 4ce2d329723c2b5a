/* The blocks of a job become pieces: one for each group of patches that are cut
 * alike, named after the block and the group. Roles and fabrics are matched by
 * name, each role once. What a block is made of is the block room's to say; its
 * faults get the place of the block in the job. */
#include <stdio.h>
#include <string.h>

#include "base/alloc.h"
#include "base/nearest.h"
#include "base/text.h"
#include "job/use.h"

static const qci_range count_range = {1, QC_MAX_COUNT, "1 to 1000000000"};
static const qci_range size_range = {1, QC_MAX_WIDTH,
                                     "more than 0, up to 10 m"};

qc_status qci_use_fail(const qci_use *u, const char *member, const char *value,
                       const char *allowed, const char *problem)
{
    return qci_fail(
        u->check->err, QC_STATUS_INVALID,
        (qci_place){qci_path_of("blocks", u->index, member).text, value},
        allowed, "%s", problem);
}

/* "blocks[2].fabrics.star" */
static qci_path role_path(const qci_use *u, const char *role)
{
    char member[64];

    snprintf(member, sizeof member, "fabrics.%s", role ? role : "");
    return qci_path_of("blocks", u->index, member);
}

static void list_roles(const qci_use *u, char *list, size_t size)
{
    size_t at = 0;

    *list = '\0';
    for (size_t i = 0; i < u->block->info.role_count && at < size; i++)
        at += (size_t)snprintf(list + at, size - at, "%s%s", i ? ", " : "",
                               qci_short_of(u->block->roles[i]).text);
}

static qc_status fail_role(const qci_use *u, const char *role)
{
    const char *const *known = (const char *const *)u->block->roles;
    const char *nearest = qci_nearest(role, known, u->block->info.role_count);
    char allowed[sizeof u->check->err->allowed];

    list_roles(u, allowed, sizeof allowed);
    return qci_fail(
        u->check->err, QC_STATUS_INVALID,
        (qci_place){role_path(u, role).text, NULL}, allowed,
        "is no role of this block%s%s%s", nearest ? "; did you mean " : "",
        nearest ? qci_short_of(nearest).text : "", nearest ? "?" : "");
}

static qc_status take_fabric(qci_use *u, const qc_role_spec *given)
{
    qci_path path = role_path(u, given->role);
    uint32_t fabric = 0;
    qc_status status = qci_check_text(u->check, path.text, given->role, 1);

    if (!status)
        status = qci_find_fabric(u->check, path.text, given->fabric, &fabric);
    if (status)
        return status;
    for (size_t i = 0; i < u->block->info.role_count; i++) {
        if (strcmp(u->block->roles[i], given->role) != 0)
            continue;
        if (u->fabric[i] != QC_NONE)
            return qci_fail(u->check->err, QC_STATUS_INVALID,
                            (qci_place){path.text, NULL}, "one fabric",
                            "is a role that has a fabric already");
        u->fabric[i] = fabric;
        return QC_STATUS_OK;
    }
    return fail_role(u, given->role);
}

static qc_status take_fabrics(qci_use *u)
{
    char allowed[sizeof u->check->err->allowed];
    size_t given = u->spec->fabrics ? u->spec->fabric_count : 0;
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < QC_MAX_PATCHES; i++)
        u->fabric[i] = QC_NONE;
    for (size_t i = 0; i < given && !status; i++)
        status = take_fabric(u, &u->spec->fabrics[i]);
    for (size_t i = 0; i < u->block->info.role_count && !status; i++) {
        if (u->fabric[i] != QC_NONE)
            continue;
        list_roles(u, allowed, sizeof allowed);
        status = qci_fail(
            u->check->err, QC_STATUS_INVALID,
            (qci_place){qci_path_of("blocks", u->index, "fabrics").text, NULL},
            allowed, "names no fabric for the role \"%s\"",
            qci_short_of(u->block->roles[i]).text);
    }
    return status;
}

const char *qci_use_id(const qci_use *u)
{
    return u->spec->id ? u->spec->id : u->block->info.name;
}

/* The piece of the spec that a group stands for. */
static qc_piece_spec spec_of(const qci_use *u, const qci_block_group *group,
                             const char *id)
{
    const qc_block_group *info = &group->info;
    qc_piece_spec spec;

    qc_piece_spec_init(&spec);
    spec.id = id;
    spec.shape = info->shape;
    for (int i = 0; i < 3; i++)
        spec.size[i] = info->size[i];
    spec.size_rounded = info->rounded;
    spec.angle = info->angle;
    spec.points = info->points;
    spec.point_count = info->point_count;
    if (info->left || info->right) {
        spec.left = u->spec->count * info->left;
        spec.right = u->spec->count * info->right;
    } else {
        spec.count = u->spec->count * info->count;
    }
    return spec;
}

qc_status qci_use_add(const qci_use *u, const qci_block_group *group,
                      uint32_t unit, const char *name)
{
    qci_piece piece = {.fabric = u->fabric[group->info.role],
                       .shape = group->info.shape,
                       .angle = group->info.angle,
                       .twin = QC_NONE,
                       .strip_set = QC_NONE,
                       .block = (uint32_t)u->index,
                       .in_each = group->info.count,
                       .unit = unit};
    qci_text text = {0};
    qc_piece_spec spec;
    qci_entry e = {u->check, &spec, u->index,
                   &piece,   group, u->block->roles[group->info.role]};
    qc_status status;
    char *id;

    if (u->check->job->piece_count >= QC_MAX_PIECES)
        return qci_use_fail(u, "block", NULL, "fewer or simpler blocks",
                            "makes more than 2000 kinds of pieces");
    qci_text_printf(&text, "%s %s", qci_use_id(u), name);
    id = qci_text_take(&text);
    if (!id)
        return qci_no_memory(u->check->err);
    spec = spec_of(u, group, id);
    piece.grain =
        qci_shape_is_angled(spec.shape) ? QC_GRAIN_BASE : QC_GRAIN_ANY;
    status = qci_piece_expand(&e);
    qci_free(id);
    return status;
}

/* What of each group no method takes. */
static qc_status add_groups(const qci_use *u)
{
    qc_status status = QC_STATUS_OK;

    for (uint32_t i = 0; i < u->block->info.group_count && !status; i++) {
        qci_block_group left = u->block->groups[i];

        for (size_t k = 0; k < u->block->info.patch_count; k++) {
            const qc_block_patch *patch = &u->block->patches[k];

            if (patch->group != i || u->method[k] == QC_NONE)
                continue;
            left.info.count--;
            left.info.left -= patch->hand == QC_HAND_LEFT;
            left.info.right -= patch->hand == QC_HAND_RIGHT;
        }
        if (left.info.count)
            status = qci_use_add(u, &left, QC_NONE, left.id);
    }
    return status;
}

/* So that the plan can say which pieces are whose. */
static qc_status add_block(const qci_use *u)
{
    qc_job *job = u->check->job;
    const qc_block_summary *info = &u->block->info;
    qc_plan_block *to = &job->blocks[job->block_count++];

    to->id = qci_strdup(qci_use_id(u));
    to->name = qci_strdup(info->name);
    to->width = info->width;
    to->height = info->height;
    to->height_rounded = info->height_rounded;
    to->count = u->spec->count;
    return to->id && to->name ? QC_STATUS_OK : qci_no_memory(u->check->err);
}

static qc_status check_id(const qci_use *u)
{
    const qc_job *job = u->check->job;
    const char *id = qci_use_id(u);
    qc_status status = qci_check_text(
        u->check, qci_path_of("blocks", u->index, "id").text, id, 1);

    for (size_t i = 0; i < job->block_count && !status; i++)
        if (strcmp(job->blocks[i].id, id) == 0)
            status = qci_use_fail(u, u->spec->id ? "id" : "block", id,
                                  "an \"id\" of its own for every entry",
                                  "is also the id or name of other blocks");
    return status;
}

/* The block room names "block" or "size", or a place in a drawing. */
static qc_status make_block(qci_use *u)
{
    const qc_block_spec *spec = u->spec;
    char member[160];
    qc_status status;
    qc_error own;

    qc_error_init(&own);
    status = spec->drawing
                 ? qc_block_create(spec->drawing, spec->size, &u->block, &own)
                 : qc_block_find(spec->block, spec->size, &u->block, &own);
    if (!status)
        return QC_STATUS_OK;
    snprintf(member, sizeof member, "%s%s", spec->drawing ? "drawing." : "",
             own.field);
    return qci_fail(
        u->check->err, status,
        (qci_place){qci_path_of("blocks", u->index, member).text, own.value},
        own.allowed, "%s", own.problem);
}

static qc_status check_block(const qci_check *check, size_t index)
{
    qci_use u = {
        .check = check, .spec = &check->spec->blocks[index], .index = index};
    qc_status status =
        qci_check_length(check, qci_path_of("blocks", index, "size").text,
                         u.spec->size, size_range);

    if (!status)
        status =
            qci_check_number(check, qci_path_of("blocks", index, "count").text,
                             u.spec->count, count_range);
    if (status || (status = make_block(&u)))
        return status;
    if (u.spec->count > QC_MAX_COUNT / (int64_t)u.block->info.patch_count)
        status = qci_use_fail(&u, "count", NULL,
                              "blocks of at most 1000000000 patches in all",
                              "makes too many pieces");
    if (!status && !(status = check_id(&u)) && !(status = take_fabrics(&u)) &&
        !(status = add_block(&u)) && !(status = qci_use_methods(&u)))
        status = add_groups(&u);
    qc_block_destroy(u.block);
    return status;
}

qc_status qci_check_blocks(const qci_check *check)
{
    size_t count = check->spec->blocks ? check->spec->block_count : 0;
    qc_status status = QC_STATUS_OK;

    if (count > QC_MAX_BLOCKS)
        return qci_fail(check->err, QC_STATUS_INVALID,
                        (qci_place){"blocks", NULL}, "at most 200 entries",
                        "has %zu entries", count);
    check->job->blocks = qci_calloc(count, sizeof *check->job->blocks);
    if (!check->job->blocks)
        return qci_no_memory(check->err);
    for (size_t i = 0; i < count && !status; i++)
        status = check_block(check, i);
    return status;
}
