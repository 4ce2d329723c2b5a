/* The sheet of a strip set: strips sewn together and cut across into segments.
 *
 * One set is drawn as it lies on the mat: strip 1 below, each strip's end
 * stepped along, all cuts, what the first and the last cut waste, and the
 * second cut in the last segment. Between two seams only that part of a strip
 * is drawn which shows. Every fabric has one tint. Segments too narrow to be
 * told apart are drawn as one block. Cost: strips x segments. */
#include "draw/sets.h"

#include <inttypes.h>
#include <math.h>
#include <stdio.h>

#include "draw/corners.h"

#define PI 3.14159265358979323846
/* How far cuts reach beyond the cloth, so that they stand out. */
#define OVERSHOOT 4.0
#define GAP 8.0

static const qci_type small = {7.5, false, false};

static const qc_set_strip *strip_at(const qci_set_picture *p, size_t i)
{
    return qc_plan_set_strip_at(p->sheet->plan, p->set, i);
}

/* What two seams take of the width, worked out from the sewn height. */
static qc_length seam_of(const qci_set_picture *p)
{
    qc_length sum = -p->info->height, sides = 0;

    for (size_t i = 0; i < p->info->strip_count; i++) {
        sum += strip_at(p, i)->width;
        sides += i ? 2 : 0;
    }
    return sides ? sum / sides : 0;
}

/* How much of strip i shows. */
static double showing(const qci_set_picture *p, size_t i)
{
    int seams = (i > 0) + (i + 1 < p->info->strip_count);

    return (double)(strip_at(p, i)->width - seams * seam_of(p)) *
           p->sheet->scale;
}

/* The lowest strip of the same fabric. */
static size_t first_like(const qci_set_picture *p, size_t strip)
{
    size_t i = 0;

    while (strip_at(p, i)->fabric != strip_at(p, strip)->fabric)
        i++;
    return i;
}

unsigned qci_set_tint(const qci_set_picture *p, size_t strip)
{
    unsigned tint = 0;

    for (size_t i = 0; i < first_like(p, strip); i++)
        tint += first_like(p, i) == i;
    return tint;
}

static qci_corner on_page(const qci_set_picture *p, double x, double y)
{
    return (qci_corner){p->origin + x, p->sheet->bottom - y};
}

/* The lower end of cut `k`. */
static double cut_at(const qci_set_picture *p, int64_t k)
{
    return p->first + (double)k * p->pitch;
}

static double offset_of(const qci_set_picture *p, size_t strip)
{
    return (double)strip_at(p, strip)->offset * p->sheet->scale;
}

static void lay_waste(qci_set_picture *p, const qci_corner corners[4])
{
    double x, y, w, h;

    qci_corners_box(corners, 4, &x, &y, &w, &h);
    if (qci_corners_area(corners, 4) >= QCI_LEAST_SCRAP * fmax(w, h))
        qci_scene_polygon(p->sheet->scene, QCI_ROLE_SCRAP, corners, 4, 0);
}

/* Number of a segment, in the lowest strip; all of them have one form. */
static void lay_number(qci_set_picture *p, qci_fit *fit,
                       const qci_corner cell[4], size_t owner, int64_t number)
{
    char text[32];

    if (number == 1) {
        snprintf(text, sizeof text, "%" PRId64, p->segments);
        qci_label_fit(p->sheet->scene, (qci_room){.corners = cell, .count = 4},
                      (qci_caption){text, "", NULL, "", false}, fit);
    }
    snprintf(fit->texts[QCI_WORDING_NAME], QCI_LABEL_BYTES, "%" PRId64, number);
    if (!p->info->second_angle || number < p->segments)
        qci_label_place(p->sheet->scene, fit, owner);
}

/* Strip i between two seams: waste, its part of every segment, waste. */
static void lay_strip(qci_set_picture *p, size_t i, double y, double h)
{
    double left = offset_of(p, i), right = left + p->strips;
    double low = y * p->slope, up = (y + h) * p->slope;
    int64_t step = p->block ? p->segments : 1;
    double last = cut_at(p, p->segments);
    qci_fit fit;

    lay_waste(p,
              (qci_corner[]){on_page(p, left, y), on_page(p, p->first + low, y),
                             on_page(p, p->first + up, y + h),
                             on_page(p, left, y + h)});
    for (int64_t k = 0; k < p->segments; k += step) {
        double from = cut_at(p, k), to = cut_at(p, k + step);
        const qci_corner cell[] = {
            on_page(p, from + low, y), on_page(p, to + low, y),
            on_page(p, to + up, y + h), on_page(p, from + up, y + h)};
        size_t owner = qci_scene_polygon(p->sheet->scene, QCI_ROLE_PIECE, cell,
                                         4, qci_set_tint(p, i));

        if (i == 0 && !p->block)
            lay_number(p, &fit, cell, owner, k + 1);
    }
    lay_waste(p, (qci_corner[]){on_page(p, last + low, y), on_page(p, right, y),
                                on_page(p, right, y + h),
                                on_page(p, last + up, y + h)});
}

static void name_strip(qci_set_picture *p, size_t i, double y, double h)
{
    const qc_set_strip *strip = strip_at(p, i);
    qc_length step = i ? strip->offset - strip_at(p, i - 1)->offset : 0;
    qci_band band = {.y = p->sheet->bottom - y - h, .h = h};
    char width[QCI_SIZE_BYTES];

    qc_length_format(strip->width, p->sheet->units, width, sizeof width);
    snprintf(band.name, sizeof band.name, "strip %zu", i + 1);
    snprintf(band.size, sizeof band.size, "cut %.40s", width);
    qc_length_format(step < 0 ? -step : step, p->sheet->units, width,
                     sizeof width);
    if (step)
        snprintf(band.notes[0], sizeof band.notes[0], "%.40s to the %s", width,
                 (step > 0) != qc_plan_left_handed(p->sheet->plan) ? "right"
                                                                   : "left");
    if (!qci_vec_push(&p->sheet->bands, band))
        p->sheet->scene->failed = true;
}

static void lay_line(qci_set_picture *p, qci_role role, qci_corner from,
                     qci_corner to)
{
    qci_scene_line(p->sheet->scene, role, from.x, from.y, to.x, to.y);
}

static void lay_cuts(qci_set_picture *p)
{
    double below = -OVERSHOOT, above = p->height + OVERSHOOT;

    for (int64_t k = 0; k <= p->segments; k += p->block ? p->segments : 1)
        lay_line(p, QCI_ROLE_CUT,
                 on_page(p, cut_at(p, k) + below * p->slope, below),
                 on_page(p, cut_at(p, k) + above * p->slope, above));
}

/* From a point on the last segment's left side to its right side or upper edge;
 * in a left-leaning set, which is the mirror image of a right-leaning one, from
 * the right side. That is as it lies, not as a left-handed plan measures. */
static void lay_second_cut(qci_set_picture *p)
{
    double angle = (double)p->info->second_angle / QC_DEGREE * PI / 180;
    bool flip =
        (p->info->hand == QC_HAND_LEFT) != qc_plan_left_handed(p->sheet->plan);
    double way = flip ? -1 : 1;
    double from = cut_at(p, p->segments - (flip ? 0 : 1));
    double y =
        (double)p->info->second_at * p->sheet->scale / hypot(1, p->slope);
    double dx = way * cos(angle), dy = sin(angle);
    double closer = way * (dx - p->slope * dy); /* per length of the cut */
    double run = (p->height - y) / dy;

    if (closer > 0 && p->pitch / closer < run)
        run = p->pitch / closer;
    lay_line(p, QCI_ROLE_CUT, on_page(p, from + y * p->slope, y),
             on_page(p, from + y * p->slope + run * dx, y + run * dy));
}

/* The spacing, between the first two cuts drawn on beyond the upper edge. */
static void lay_spacing(qci_set_picture *p)
{
    double side = hypot(1, p->slope), up = 1 / side, along = p->slope / side;
    double shift = p->pitch * along;
    double a = GAP + fmax(shift, 0), b = a - shift;
    double x = p->first + p->height * p->slope, y = p->height;
    qci_corner from = on_page(p, x + a * along, y + a * up);
    qci_corner to = on_page(p, x + p->pitch + b * along, y + b * up);
    double line = qci_scene_line_height(p->sheet->scene, small.size);
    char text[QCI_SIZE_BYTES];

    lay_line(p, QCI_ROLE_LEADER, on_page(p, x, y),
             on_page(p, x + (a + GAP / 2) * along, y + (a + GAP / 2) * up));
    lay_line(p, QCI_ROLE_LEADER, on_page(p, x + p->pitch, y),
             on_page(p, x + p->pitch + (b + GAP / 2) * along,
                     y + (b + GAP / 2) * up));
    lay_line(p, QCI_ROLE_DIMENSION, from, to);
    qc_length_format(p->info->spacing, p->sheet->units, text, sizeof text);
    qci_scene_text_in(p->sheet->scene, small, fmax(from.x, to.x) + GAP,
                      (from.y + to.y - line) / 2, 60, 0, text);
}

/* Below: how far in the first cut is, and the step from cut to cut. */
static void lay_steps(qci_set_picture *p)
{
    double y = -GAP;

    if (p->first >= QCI_LEAST_PIECE)
        lay_line(p, QCI_ROLE_DIMENSION, on_page(p, 0, y),
                 on_page(p, p->first, y));
    lay_line(p, QCI_ROLE_DIMENSION, on_page(p, p->first, y),
             on_page(p, p->first + p->pitch, y));
}

static void lay_picture(qci_set_picture *p)
{
    qci_sheet *sheet = p->sheet;
    size_t first = sheet->scene->marks.count;
    double y = 0;

    for (size_t i = 0; i < p->info->strip_count; i++) {
        lay_strip(p, i, y, showing(p, i));
        y += showing(p, i);
    }
    for (size_t i = p->info->strip_count; i-- > 0;) {
        y -= showing(p, i);
        name_strip(p, i, y, showing(p, i));
    }
    lay_cuts(p);
    if (p->info->second_angle && !p->block)
        lay_second_cut(p);
    if (!p->block) {
        lay_spacing(p);
        lay_steps(p);
    }
    if (qc_plan_left_handed(sheet->plan))
        qci_scene_mirror(sheet->scene, first, QCI_CLOTH_LEFT,
                         QCI_CLOTH_LEFT + p->width);
}

/* Chooses what is drawn, and how large. */
static void measure(qci_set_picture *p)
{
    qci_sheet *sheet = p->sheet;
    const qc_plan_set *info = p->info;
    qc_length least = 0, most = 0;
    double extent;

    p->length = info->sets ? info->full_length : info->part_length;
    p->segments = info->sets ? info->per_set : info->part_segments;
    for (size_t i = 0; i < info->strip_count; i++) {
        qc_length offset = strip_at(p, i)->offset;

        least = offset < least ? offset : least;
        most = offset > most ? offset : most;
        p->steps |= offset != 0;
    }
    extent = (double)(most - least + p->length);
    sheet->scale = fmin(QCI_CLOTH_WIDTH / extent, 72.0 / (double)QC_INCH);
    sheet->scale = fmin(sheet->scale, QCI_CLOTH_LONGEST / (double)info->height);
    p->width = extent * sheet->scale;
    p->origin = QCI_CLOTH_LEFT - (double)least * sheet->scale;
    p->strips = (double)p->length * sheet->scale;
    p->height = (double)info->height * sheet->scale;
    p->slope = (double)info->lean / (double)info->height;
    p->first = (double)info->first * sheet->scale;
    p->pitch = (double)info->pitch * sheet->scale;
    p->block = p->pitch < QCI_LEAST_PIECE;
}

bool qci_sets_lay(const qc_plan *plan, size_t set, qci_scene *scene)
{
    qci_sheet sheet = {
        .plan = plan, .units = qc_plan_units(plan), .scene = scene};
    qci_set_picture p = {
        .sheet = &sheet, .set = set, .info = qc_plan_set_at(plan, set)};
    double spacing, y, names;

    measure(&p);
    spacing = p.block ? 0
                      : fabs((double)p.info->spacing * sheet.scale * p.slope /
                             hypot(1, p.slope));
    sheet.top = qci_set_heading(&p, QCI_PAGE_MARGIN) + spacing + 3 * GAP;
    sheet.bottom = sheet.top + p.height;
    lay_picture(&p);
    names = qci_margin_names(&sheet);
    y = qci_margin_end(&sheet, QCI_CLOTH_LEFT, QCI_CLOTH_LEFT + p.width,
                       sheet.bottom + 2 * GAP);
    y = fmax(qci_set_notes(&p, y + GAP), names) + 14;
    qci_legend_scale(&sheet, y);
    qci_legend_sign(&sheet, QCI_PAGE_MARGIN + 180, y, QCI_ROLE_SCRAP,
                    "cut away");
    y = qci_set_list(&p, y + 26);
    scene->width = QCI_PAGE_WIDTH;
    scene->height = qci_legend_cautions(&sheet, y + 10) + QCI_PAGE_MARGIN;
    qci_vec_clear(&sheet.bands);
    return !scene->failed;
}
