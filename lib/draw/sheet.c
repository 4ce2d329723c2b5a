/* The sheet of one fabric: heading, cloth, margins, legend, from the top down.
 *
 * A page is as wide as it always is and as long as it has to be. The cloth
 * fills its width, but is never drawn larger than it is. */
#include "draw/sheet.h"

#include <inttypes.h>
#include <stdio.h>

static const char times[] = " \xC3\x97 ";

void qci_sheet_size_text(const qci_sheet *sheet, qc_length w, qc_length h,
                         char text[QCI_SIZE_BYTES])
{
    char across[QCI_SIZE_BYTES], along[QCI_SIZE_BYTES];

    qc_length_format(w, sheet->units, across, sizeof across);
    qc_length_format(h, sheet->units, along, sizeof along);
    if (w == h)
        snprintf(text, QCI_SIZE_BYTES, "%s", across);
    else
        snprintf(text, QCI_SIZE_BYTES, "%.28s%s%.28s", across, times, along);
}

const char *qci_sheet_unit(const qci_sheet *sheet)
{
    static const char *const units[] = {"in", "cm", "mm"};

    return units[sheet->units];
}

double qci_sheet_cloth_width(const qci_sheet *sheet)
{
    return (double)sheet->info->usable_width * sheet->scale;
}

void qci_sheet_angle_text(int32_t angle, char text[QCI_SIZE_BYTES])
{
    int rest = angle % QC_DEGREE;
    size_t n = (size_t)snprintf(text, QCI_SIZE_BYTES, "%d.%06d",
                                (int)(angle / QC_DEGREE), rest);

    while (n && text[n - 1] == '0')
        text[--n] = '\0';
    if (n && text[n - 1] == '.')
        text[n - 1] = '\0';
}

static void gather(qci_kind *kind, const qc_stack *stack, int64_t count)
{
    if (stack->yields > kind->yields)
        kind->yields = stack->yields;
    if (stack->yields <= 1)
        kind->singles += count * stack->count;
    if (stack->turn == QC_TURN_QUARTER)
        kind->turned += count * stack->count;
}

/* `count` stacks; of paired strips half of them hold the mirror image. */
static void gather_stack(qci_sheet *sheet, const qc_stack *stack, bool paired,
                         int64_t count)
{
    uint32_t twin = qc_plan_piece_at(sheet->plan, stack->piece)->twin;

    if (paired && twin < qc_plan_piece_count(sheet->plan)) {
        gather(&sheet->kinds[twin], stack, count / 2);
        count -= count / 2;
    }
    gather(&sheet->kinds[stack->piece], stack, count);
}

/* Numbers the fabric's piece types and counts their quarter turns. */
static bool gather_kinds(qci_sheet *sheet)
{
    size_t count = qc_plan_piece_count(sheet->plan);
    unsigned number = 0;

    sheet->kinds = qci_calloc(count, sizeof *sheet->kinds);
    if (!sheet->kinds)
        return false;
    for (size_t i = 0; i < count; i++)
        if (qc_plan_piece_at(sheet->plan, i)->fabric == sheet->fabric)
            sheet->kinds[i].number = ++number;
    for (size_t i = 0; i < sheet->info->strip_count; i++) {
        const qc_strip *strip = qc_plan_strip_at(sheet->plan, sheet->fabric, i);

        for (size_t j = 0; j < strip->subcut_count; j++) {
            const qc_subcut *subcut = &strip->subcuts[j];

            for (size_t k = 0; k < subcut->stack_count; k++)
                gather_stack(sheet, &subcut->stacks[k], strip->paired,
                             (int64_t)strip->repeat * subcut->count);
        }
    }
    return true;
}

double qci_sheet_line(qci_sheet *sheet, double y, double size, bool strong,
                      const char *text)
{
    qci_scene_text_in(sheet->scene, (qci_type){size, strong, false},
                      QCI_PAGE_MARGIN, y, QCI_PAGE_WIDTH - 2 * QCI_PAGE_MARGIN,
                      0, text);
    return y + qci_scene_line_height(sheet->scene, size) + 2;
}

static double lay_purchase(qci_sheet *sheet, double y)
{
    const qc_plan_fabric *info = sheet->info;
    static const char *const units[] = {"inches", "centimetres", "millimetres"};
    char shop[QCI_SIZE_BYTES], bound[QCI_SIZE_BYTES], line[320];
    int64_t strips = 0;

    for (size_t i = 0; i < info->strip_count; i++)
        strips += qc_plan_strip_at(sheet->plan, sheet->fabric, i)->repeat;
    qc_length_format_purchase(info->bought, sheet->units, shop, sizeof shop);
    qc_length_format_purchase(info->bound, sheet->units, bound, sizeof bound);
    if (info->bound >= info->bought)
        snprintf(line, sizeof line,
                 "Buy %s, proved minimal: no plan of this kind buys less.",
                 shop);
    else
        snprintf(line, sizeof line,
                 "Buy %s, the best found: no plan of this kind buys less than "
                 "%s.",
                 shop, bound);
    y = qci_sheet_line(sheet, y, 9, false, line);
    snprintf(line, sizeof line,
             "%" PRId64 " %s, %u %s, %" PRId64
             " cuts. Sizes in pieces: across%salong, in %s.",
             strips, strips == 1 ? "strip" : "strips", info->setups,
             info->setups == 1 ? "set-up" : "set-ups", info->cuts, times,
             units[sheet->units]);
    y = qci_sheet_line(sheet, y, 8, false, line);
    snprintf(line, sizeof line,
             "As the steps measure: squared-up edge of the bolt below, uncut "
             "end above, squared end of the strips on the %s%s.",
             qc_plan_left_handed(sheet->plan) ? "right" : "left",
             qc_plan_left_handed(sheet->plan) ? ", for the left hand" : "");
    return qci_sheet_line(sheet, y, 8, false, line);
}

static double lay_heading(qci_sheet *sheet)
{
    const char *title = qc_plan_title(sheet->plan);
    double y = QCI_PAGE_MARGIN;

    if (title[0])
        y = qci_sheet_line(sheet, y, 15, true, title);
    y = qci_sheet_line(sheet, y, title[0] ? 12 : 15, true, sheet->info->name);
    if (!sheet->info->strip_count)
        return qci_sheet_line(sheet, y, 9, false,
                              "Nothing is cut from this fabric.");
    return lay_purchase(sheet, y);
}

/* Least length of cloth that is drawn: of equal strips at most two. */
static qc_length least_drawn(const qci_sheet *sheet)
{
    qc_length length = sheet->info->square_up;

    for (size_t i = 0; i < sheet->info->strip_count; i++) {
        const qc_strip *strip = qc_plan_strip_at(sheet->plan, sheet->fabric, i);

        length += strip->height * (strip->repeat > 1 ? 2 : 1);
    }
    return length;
}

/* The cloth fills its place on the page, at most at its natural size, and
 * becomes narrower when it would be too long otherwise. */
static double choose_scale(const qci_sheet *sheet)
{
    double scale = QCI_CLOTH_WIDTH / (double)sheet->info->usable_width;
    double natural = 72.0 / (double)QC_INCH;
    double length = (double)least_drawn(sheet);

    if (scale > natural)
        scale = natural;
    if (scale * length > QCI_CLOTH_LONGEST)
        scale = QCI_CLOTH_LONGEST / length;
    return scale;
}

bool qci_sheet_lay(const qc_plan *plan, size_t fabric, qci_scene *scene)
{
    qci_sheet sheet = {.plan = plan,
                       .fabric = fabric,
                       .info = qc_plan_fabric_at(plan, fabric),
                       .units = qc_plan_units(plan),
                       .scene = scene};
    double y;

    if (!gather_kinds(&sheet))
        goto done;
    sheet.scale = choose_scale(&sheet);
    sheet.length =
        sheet.info->bought * (10000 - sheet.info->shrink_length) / 10000;
    y = lay_heading(&sheet);
    if (sheet.info->strip_count) {
        sheet.top = y + 30;
        qci_cloth_lay(&sheet);
        y = qci_legend_lay(&sheet, qci_margin_lay(&sheet) + 14);
    }
    scene->width = QCI_PAGE_WIDTH;
    scene->height = y + QCI_PAGE_MARGIN;
done:
    if (!sheet.kinds)
        scene->failed = true;
    qci_vec_clear(&sheet.bands);
    qci_free(sheet.kinds);
    return !scene->failed;
}
