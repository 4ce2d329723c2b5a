/* Blocks as they look when sewn: every role has a tint.
 *
 * One block is drawn large, its patches named as its pieces are, with a list of
 * what stands for which role. Many are drawn side by side with their names and
 * roles. Cost: linear in the corners. */
#include "draw/block.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>

#include "draw/corners.h"

#define MARGIN 24.0
#define GAP 18.0
#define LARGE 360.0
#define SMALL 128.0
#define ACROSS 5 /* small ones in a row */
#define SAMPLE 10.0

static const qci_type name_type = {10, true, false};
static const qci_type note_type = {7.5, false, false};
static const qci_type label_type = {9, false, false};

static double value_of(const qc_block_summary *info, qc_block_number n)
{
    return ((double)n.whole + (double)n.root * sqrt((double)info->radicand)) /
           (double)info->denominator;
}

/* The piece's name inside a patch, where there is room. */
static void put_label(qci_scene *scene, const qci_corner *at, size_t count,
                      size_t owner, const char *text)
{
    double w = qci_scene_text_width(scene, label_type, text);
    double h = qci_scene_line_height(scene, label_type.size);
    double x, y;

    if (qci_corners_place(at, count, w, h, &x, &y))
        qci_scene_text(scene, QCI_ROLE_LABEL, label_type, x, y, owner, text);
}

void qci_block_put(qci_scene *scene, const qc_block *block, double left,
                   double top, double side, bool labels)
{
    const qc_block_summary *info = qc_block_describe(block);
    double height = value_of(info, info->height_exact);
    double scale = side / fmax(1, height);

    left += (side - scale) / 2;
    for (size_t i = 0; i < info->patch_count; i++) {
        const qc_block_patch *patch = qc_block_patch_at(block, i);
        qci_corner at[QC_MAX_CORNERS];
        size_t mark;

        for (size_t k = 0; k < patch->corner_count; k++) {
            at[k].x = left + scale * value_of(info, patch->corners[k].x);
            at[k].y = top + side - scale * value_of(info, patch->corners[k].y);
        }
        mark = qci_scene_polygon(scene, QCI_ROLE_PIECE, at, patch->corner_count,
                                 patch->role);
        if (labels)
            put_label(scene, at, patch->corner_count, mark,
                      qc_block_group_at(block, patch->group)->id);
    }
}

/* "A × 8, B × 4" of one role. */
static void list_groups(const qc_block *block, uint32_t role, char *text,
                        size_t size)
{
    const qc_block_group *group;
    size_t at = 0;

    *text = '\0';
    for (size_t i = 0; (group = qc_block_group_at(block, i)); i++)
        if (group->role == role && at < size)
            at +=
                (size_t)snprintf(text + at, size - at, "%s%s \xC3\x97 %" PRId64,
                                 at ? ", " : "", group->id, group->count);
}

double qci_block_roles(qci_scene *scene, const qc_block *block, double x,
                       double y, double room)
{
    double line = qci_scene_line_height(scene, label_type.size) + 4;
    const char *role;

    for (uint32_t i = 0; (role = qc_block_role_at(block, i)); i++) {
        char groups[256], text[512];

        list_groups(block, i, groups, sizeof groups);
        snprintf(text, sizeof text, "%s: %s", role, groups);
        qci_scene_box(scene, QCI_ROLE_PIECE, x, y + 1, SAMPLE, SAMPLE, i);
        qci_scene_text_in(scene, label_type, x + SAMPLE + 6, y,
                          room - SAMPLE - 6, 0, text);
        y += line;
    }
    return y;
}

static void lay_one(const qc_block *block, qci_scene *scene)
{
    double y = MARGIN;

    scene->width = 2 * MARGIN + LARGE;
    qci_scene_text_in(scene, name_type, MARGIN, y, LARGE, 0,
                      qc_block_describe(block)->name);
    y += qci_scene_line_height(scene, name_type.size) + 6;
    qci_block_put(scene, block, MARGIN, y, LARGE, true);
    scene->height =
        qci_block_roles(scene, block, MARGIN, y + LARGE + GAP, LARGE) + MARGIN;
}

/* The roles' names with their tints, in as many lines as it takes. */
static void put_names(qci_scene *scene, const qc_block *block, double x,
                      double y)
{
    double right = x + SMALL, at = x;
    const char *role;

    for (unsigned i = 0; (role = qc_block_role_at(block, i)); i++) {
        double w = qci_scene_text_width(scene, note_type, role);

        if (at > x && at + 8 + w > right) {
            at = x;
            y += qci_scene_line_height(scene, note_type.size);
        }
        qci_scene_box(scene, QCI_ROLE_PIECE, at, y + 2, 6, 6, i);
        qci_scene_text_in(scene, note_type, at + 8, y, right - at - 8, 0, role);
        at += 8 + w + 6;
    }
}

static void lay_many(const qc_block *const *blocks, size_t count,
                     qci_scene *scene)
{
    double name = qci_scene_line_height(scene, name_type.size);
    double step =
        SMALL + name + 3 * qci_scene_line_height(scene, note_type.size) + GAP;
    size_t across = count < ACROSS ? count : ACROSS;
    size_t rows = (count + ACROSS - 1) / ACROSS;

    scene->width =
        2 * MARGIN + (double)across * SMALL + (double)(across - 1) * GAP;
    scene->height = 2 * MARGIN + (double)rows * step - GAP;
    for (size_t i = 0; i < count; i++) {
        size_t row = i / ACROSS, column = i % ACROSS;
        double x = MARGIN + (double)column * (SMALL + GAP);
        double y = MARGIN + (double)row * step;

        qci_block_put(scene, blocks[i], x, y, SMALL, false);
        y += SMALL + 3;
        qci_scene_text_in(scene, name_type, x, y, SMALL, 0,
                          qc_block_describe(blocks[i])->name);
        put_names(scene, blocks[i], x, y + name);
    }
}

bool qci_blocks_lay(const qc_block *const *blocks, size_t count,
                    qci_scene *scene)
{
    if (count == 1)
        lay_one(blocks[0], scene);
    else
        lay_many(blocks, count, scene);
    return !scene->failed;
}
