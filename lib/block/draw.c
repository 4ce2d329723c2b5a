/* From a drawing to patches: the corners are read, and the copies turned and
 * mirrored about the block's centre.
 *
 * A turn by a multiple of 30 degrees has a sine and a cosine in halves with the
 * root of 3, one of 45 degrees in halves with that of 2; points are turned from
 * where they were drawn, never twice, so that nothing is rounded. Linear in the
 * corners. */
#include <stdio.h>
#include <string.h>

#include "base/words.h"
#include "block/drawing.h"

#define CORNERS_ALLOWED                                                        \
    "3 to 12 corners, counter-clockwise, such as \"0,0 2,0 1,1\""

/* A cosine; the sine is that of a right angle less. Halves. */
static qc_block_number cosine(int degrees)
{
    static const qc_block_number of_30 = {0, 1}, of_60 = {1, 0};
    static const qc_block_number of_45 = {0, 1}, of_0 = {2, 0}, of_90 = {0, 0};
    qc_block_number value;
    int turned = ((degrees % 360) + 360) % 360;
    int sharp = turned > 180 ? 360 - turned : turned;

    switch (sharp > 90 ? 180 - sharp : sharp) {
    case 0:
        value = of_0;
        break;
    case 30:
        value = of_30;
        break;
    case 45:
        value = of_45;
        break;
    case 60:
        value = of_60;
        break;
    default:
        value = of_90;
    }
    return sharp > 90 ? qci_minus(of_90, value) : value;
}

static qc_block_number halved(qc_block_number n)
{
    return (qc_block_number){n.whole / 2, n.root / 2};
}

/* Coordinates and centre are multiples of QCI_TURNED / 2, so that nothing is
 * lost when the products are halved. */
static qc_block_point turned(const qci_block_draft *draft, qc_block_point p,
                             int degrees)
{
    int64_t r = draft->radicand;
    qc_block_point centre = {halved(draft->size.x), halved(draft->size.y)};
    qc_block_point d = qci_from_to(centre, p);
    qc_block_number c = cosine(degrees), s = cosine(90 - degrees);

    return (qc_block_point){
        qci_plus(centre.x, halved(qci_minus(qci_product(d.x, c, r),
                                            qci_product(d.y, s, r)))),
        qci_plus(centre.y, halved(qci_plus(qci_product(d.x, s, r),
                                           qci_product(d.y, c, r))))};
}

/* Left for right; the corners run the other way round. */
static void mirror(const qci_block_draft *draft, qci_patch_draft *patch)
{
    for (size_t i = 0; i < patch->count; i++)
        patch->at[i].x = qci_minus(draft->size.x, patch->at[i].x);
    for (size_t i = 0; i < patch->count / 2; i++) {
        qc_block_point kept = patch->at[i];

        patch->at[i] = patch->at[patch->count - 1 - i];
        patch->at[patch->count - 1 - i] = kept;
    }
}

static qc_status read_corners(qci_block_draft *draft, qci_patch_draft *patch)
{
    const char *text = draft->drawing->patches[patch->drawn].corners;
    qc_status status = QC_STATUS_OK;

    if (!text)
        text = "";
    patch->count = 0;
    for (text += strspn(text, " "); *text; text += strspn(text, " ")) {
        qc_block_point *to = &patch->at[patch->count];

        if (patch->count++ == QC_MAX_CORNERS)
            break;
        status =
            qci_read_coordinate(draft, patch->drawn, "corners", &text, &to->x);
        if (status)
            return status;
        if (*text++ != ',')
            return qci_draft_fail(
                draft, patch->drawn, "corners", CORNERS_ALLOWED,
                "has no comma behind the x of corner %zu", patch->count);
        status =
            qci_read_coordinate(draft, patch->drawn, "corners", &text, &to->y);
        if (status)
            return status;
        if (*text && *text != ' ')
            return qci_draft_fail(
                draft, patch->drawn, "corners", CORNERS_ALLOWED,
                "has no space behind corner %zu", patch->count);
    }
    if (patch->count < 3 || patch->count > QC_MAX_CORNERS)
        return qci_draft_fail(draft, patch->drawn, "corners", CORNERS_ALLOWED,
                              "has %s corners",
                              patch->count < 3 ? "too few" : "too many");
    return QC_STATUS_OK;
}

static qc_status find_role(qci_block_draft *draft, qci_patch_draft *patch)
{
    const char *role = draft->drawing->patches[patch->drawn].role;
    uint32_t at = 0;
    char path[96];

    if (!role || !*role || strlen(role) > QC_MAX_TEXT_BYTES)
        return qci_draft_fail(draft, patch->drawn, "role",
                              "1 to 200 bytes, such as \"background\"",
                              "is no name of a role");
    snprintf(path, sizeof path, "patches[%u].role", (unsigned)patch->drawn);
    if (qci_words_check(draft->err, (qci_place){path, role}, 1))
        return QC_STATUS_INVALID;
    while (at < draft->role_count && strcmp(draft->roles[at], role) != 0)
        at++;
    if (at == draft->role_count)
        draft->roles[draft->role_count++] = role;
    patch->role = at;
    return QC_STATUS_OK;
}

/* 90, 180 and 360 degrees are in any block; the others have a root. */
static qc_status check_turns(qci_block_draft *draft, uint32_t drawn, int turns)
{
    int64_t needed = turns == 8                                ? 2
                     : turns == 3 || turns == 6 || turns == 12 ? 3
                                                               : 0;

    if (turns < 1 || (!needed && turns != 1 && turns != 2 && turns != 4))
        return qci_draft_fail(draft, drawn, "turns", "1, 2, 3, 4, 6, 8 or 12",
                              "is no number of turned copies");
    if (needed && draft->radicand && draft->radicand != needed)
        return qci_draft_fail(draft, drawn, "turns",
                              "8 in blocks with r2; 3, 6 or 12 with r3",
                              "needs the other root than the block has");
    if (needed)
        draft->radicand = needed;
    return QC_STATUS_OK;
}

static qc_status add_copies(qci_block_draft *draft, qci_patch_draft patch)
{
    const qc_drawn_patch *drawn = &draft->drawing->patches[patch.drawn];
    int turns = drawn->turns ? drawn->turns : 1;
    int mirrored = drawn->mirrored ? 2 : 1;
    qc_status status = check_turns(draft, patch.drawn, turns);

    if (status)
        return status;
    for (int side = 0; side < mirrored; side++) {
        for (int turn = 0; turn < turns; turn++) {
            qci_patch_draft *to = &draft->patches[draft->patch_count];

            if (draft->patch_count++ == QC_MAX_PATCHES)
                return qci_draft_fail(draft, patch.drawn, "turns",
                                      "at most 512 patches, copies counted",
                                      "makes too many patches");
            *to = patch;
            for (size_t i = 0; i < patch.count; i++)
                to->at[i] = turned(draft, patch.at[i], 360 / turns * turn);
        }
        mirror(draft, &patch);
    }
    return QC_STATUS_OK;
}

static qc_status read_side(qci_block_draft *draft, const char *member,
                           const char *text, qc_block_number *out)
{
    qc_status status;

    if (!text)
        text = "";
    status = qci_read_coordinate(draft, QC_NONE, member, &text, out);
    if (status)
        return status;
    if (*text || qci_sign(*out, draft->radicand) <= 0)
        return qci_draft_fail(draft, QC_NONE, member,
                              "more than 0, such as 4 or 2+r2",
                              "is no side of a block");
    return QC_STATUS_OK;
}

qc_status qci_draw(qci_block_draft *draft)
{
    const qc_block_drawing *drawing = draft->drawing;
    qc_status status =
        read_side(draft, "width", drawing->width, &draft->size.x);

    draft->size.y = draft->size.x;
    if (!status && drawing->height)
        status = read_side(draft, "height", drawing->height, &draft->size.y);
    if (!status && (!drawing->patches || !drawing->patch_count ||
                    drawing->patch_count > QC_MAX_PATCHES))
        status = qci_draft_fail(draft, QC_NONE, "patches", "1 to 512 patches",
                                "has no patches, or too many");
    for (size_t i = 0; i < drawing->patch_count && !status; i++) {
        qci_patch_draft patch = {.drawn = (uint32_t)i};

        if (!(status = find_role(draft, &patch)) &&
            !(status = read_corners(draft, &patch)))
            status = add_copies(draft, patch);
    }
    draft->denominator = QCI_GRID * QCI_TURNED;
    if (!draft->radicand)
        draft->radicand = 2;
    return status;
}
