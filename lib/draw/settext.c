/* The words round the picture of a strip set: how many to sew, how to cut them,
 * and which strips they are made of. Names too long for their line end in an
 * ellipsis. */
#include "draw/sets.h"

#include <inttypes.h>
#include <stdio.h>

static const qci_type small = {7.5, false, false};

static void length_text(const qci_set_picture *p, qc_length length,
                        char text[QCI_SIZE_BYTES])
{
    char number[QCI_SIZE_BYTES];

    qc_length_format(length, p->sheet->units, number, sizeof number);
    snprintf(text, QCI_SIZE_BYTES, "%.40s %s", number,
             qci_sheet_unit(p->sheet));
}

static const char *plural(int64_t count, const char *one, const char *many)
{
    return count == 1 ? one : many;
}

double qci_set_heading(qci_set_picture *p, double y)
{
    const qc_plan_set *info = p->info;
    const char *title = qc_plan_title(p->sheet->plan);
    char line[2 * QC_MAX_TEXT_BYTES], length[QCI_SIZE_BYTES];
    char height[QCI_SIZE_BYTES];

    if (title[0])
        y = qci_sheet_line(p->sheet, y, 15, true, title);
    snprintf(line, sizeof line, "Strip set %s", info->id);
    y = qci_sheet_line(p->sheet, y, title[0] ? 12 : 15, true, line);
    length_text(p, info->full_length, length);
    if (info->sets) {
        snprintf(line, sizeof line,
                 "Sew %" PRId64 " %s of strips %s long: %" PRId64 " %s%s.",
                 info->sets, plural(info->sets, "set", "sets"), length,
                 info->per_set, plural(info->per_set, "segment", "segments"),
                 info->sets > 1 ? " from each" : "");
        y = qci_sheet_line(p->sheet, y, 9, false, line);
    }
    length_text(p, info->part_length, length);
    if (info->part_segments) {
        snprintf(line, sizeof line,
                 "Sew %s set of strips %s long: %" PRId64 " %s%s.",
                 info->sets ? "one shorter" : "one", length,
                 info->part_segments,
                 plural(info->part_segments, "segment", "segments"),
                 info->sets ? ", cut in the same way; it is not drawn" : "");
        y = qci_sheet_line(p->sheet, y, 9, false, line);
    }
    length_text(p, info->height, height);
    snprintf(line, sizeof line,
             "%" PRId64 " %s in all. Sewn height %s, raw edge to raw "
             "edge. Right side up; strip 1 below; worked from the %s end%s.",
             info->segments, plural(info->segments, "segment", "segments"),
             height, qc_plan_left_handed(p->sheet->plan) ? "right" : "left",
             qc_plan_left_handed(p->sheet->plan) ? ", for the left hand" : "");
    return qci_sheet_line(p->sheet, y, 8, false, line);
}

static double lay_note(qci_set_picture *p, double y, const char *text)
{
    qci_scene_text_in(p->sheet->scene, small, QCI_CLOTH_LEFT, y,
                      QCI_PAGE_WIDTH - QCI_PAGE_MARGIN - QCI_CLOTH_LEFT, 0,
                      text);
    return y + qci_scene_line_height(p->sheet->scene, small.size) + 2;
}

double qci_set_notes(qci_set_picture *p, double y)
{
    const qc_plan_set *info = p->info;
    bool right = (info->lean > 0) != qc_plan_left_handed(p->sheet->plan);
    char line[512], first[QCI_SIZE_BYTES], spacing[QCI_SIZE_BYTES];
    char along[QCI_SIZE_BYTES], angle[QCI_SIZE_BYTES], how[96];

    length_text(p, info->first, first);
    length_text(p, info->spacing, spacing);
    length_text(p, info->pitch, along);
    qci_sheet_angle_text(info->angle, angle);
    snprintf(how, sizeof how, "at %.16s\xC2\xB0 to the strips, leaning %s",
             angle, right ? "right" : "left");
    if (p->steps)
        y = lay_note(p, y,
                     "Beside a strip stands how far its end lies from the end "
                     "of the strip below.");
    snprintf(line, sizeof line, "First cut %s%sthe end of strip 1, %s.",
             info->first ? first : "",
             info->first ? " along the lower edge from " : "from ",
             info->lean ? how : "square across");
    y = lay_note(p, y, line);
    snprintf(line, sizeof line, "Then cuts %s apart%s%s%s.", spacing,
             info->lean ? ", square to the cut: " : "", info->lean ? along : "",
             info->lean ? " along the strips" : "");
    y = lay_note(p, y, line);
    if (!info->second_angle)
        return y;
    length_text(p, info->second_at, along);
    qci_sheet_angle_text(info->second_angle, angle);
    snprintf(line, sizeof line,
             "Second cut, shown in segment %" PRId64 ": from %s up its %s "
             "side, at %.16s\xC2\xB0 to the strips.",
             p->segments, along, info->hand == QC_HAND_LEFT ? "right" : "left",
             angle);
    return lay_note(p, y, line);
}

/* "strip 2: Sand, cut 2 in; 3 of 42 in (S1 2); 1 of 20 in (S1 2 end)" */
static void describe_strip(const qci_set_picture *p, size_t i, char *text,
                           size_t size)
{
    const qc_plan *plan = p->sheet->plan;
    const qc_set_strip *strip = qc_plan_set_strip_at(plan, p->set, i);
    const qc_plan_piece *full = qc_plan_piece_at(plan, strip->full_piece);
    const qc_plan_piece *part = qc_plan_piece_at(plan, strip->part_piece);
    const char *fabric = qc_plan_fabric_at(plan, strip->fabric)->name;
    char width[QCI_SIZE_BYTES], length[QCI_SIZE_BYTES];
    int n;

    length_text(p, strip->width, width);
    n = snprintf(text, size, "strip %zu: %.200s, cut %s", i + 1, fabric, width);
    if (full) {
        length_text(p, p->info->full_length, length);
        n +=
            snprintf(text + n, size - (size_t)n, "; %" PRId64 " of %s (%.200s)",
                     p->info->sets, length, full->id);
    }
    if (part) {
        length_text(p, p->info->part_length, length);
        snprintf(text + n, size - (size_t)n, "; 1 of %s (%.200s)", length,
                 part->id);
    }
}

double qci_set_list(qci_set_picture *p, double y)
{
    qci_scene *scene = p->sheet->scene;
    double line = qci_scene_line_height(scene, small.size) + 3;
    char text[1024];

    for (size_t i = p->info->strip_count; i-- > 0;) {
        describe_strip(p, i, text, sizeof text);
        qci_scene_box(scene, QCI_ROLE_PIECE, QCI_PAGE_MARGIN, y + 0.5, 14, 8,
                      qci_set_tint(p, i));
        qci_scene_text_in(scene, small, QCI_PAGE_MARGIN + 19, y,
                          QCI_PAGE_WIDTH - 2 * QCI_PAGE_MARGIN - 19, 0, text);
        y += line;
    }
    return y;
}
