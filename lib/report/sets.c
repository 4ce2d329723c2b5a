/* Strip sets: what is sewn to what, how it is cut across, and what that asks of
 * the fabrics. The strips themselves are among the pieces. Directions are told
 * by the hand that segments have and by the end that is worked from. */
#include <inttypes.h>

#include "length/units.h"
#include "report/layout.h"
#include "report/phrase.h"
#include "report/section.h"

static const char *side_of(bool left)
{
    return left ? "left" : "right";
}

/* Where a strip's worked end lies, against that of the lowest one. */
static void add_offset(qci_table *table, const qc_plan *plan, qc_length offset)
{
    bool right = (offset > 0) != plan->left_handed;

    if (offset == 0)
        qci_table_add(table, "even with strip 1");
    else
        qci_table_add(
            table, "%s farther to the %s",
            qci_phrase_about(plan, offset < 0 ? -offset : offset).text,
            side_of(!right));
}

static void put_set_strips(qci_text *out, const qc_plan *plan,
                           const qci_plan_set *set)
{
    qci_table table = {.align = "rlll"};

    qci_table_add(&table, "strip");
    qci_table_add(&table, "cut width, %s", qci_units_name(plan->units));
    qci_table_add(&table, "fabric");
    qci_table_add(&table, "its %s end", plan->left_handed ? "right" : "left");
    for (size_t i = 0; i < set->info.strip_count; i++) {
        const qc_set_strip *strip = &set->strips[i];
        char number[QCI_LENGTH_TEXT];

        qc_length_format(strip->width, plan->units, number, sizeof number);
        qci_table_add(&table, "%zu", i + 1);
        qci_table_add(&table, "%s", number);
        qci_table_add(&table, "%s", plan->fabrics[strip->fabric].info.name);
        add_offset(&table, plan, strip->offset);
    }
    qci_table_put(&table, out, 4);
}

/* Of the two angles that a cut makes with the strips, the one that rulers have
 * lines for; the direction is told in words. */
static int32_t sharp(int32_t angle)
{
    return angle > 90 * QC_DEGREE ? 180 * QC_DEGREE - angle : angle;
}

static void add_cuts(qci_table *table, const qc_plan *plan,
                     const qc_plan_set *info)
{
    qci_table_add(table, "cuts");
    if (info->hand == QC_HAND_NONE)
        qci_table_add(table, "square across, %s apart",
                      qci_phrase_length(plan, info->spacing).text);
    else
        qci_table_add(table,
                      "at %s, slanting %s; %s apart, measured square to the "
                      "cut; to check: %s along the strips",
                      qci_phrase_angle(sharp(info->angle)).text,
                      side_of(info->hand == QC_HAND_LEFT),
                      qci_phrase_length(plan, info->spacing).text,
                      qci_phrase_about(plan, info->pitch).text);
}

/* The second cut is given for segments that lean as the set's angle says; in
 * those of the other hand it is mirrored, left for right. */
static bool is_mirrored(const qc_plan_set *info)
{
    return info->hand != QC_HAND_NONE &&
           (info->hand == QC_HAND_LEFT) != (info->angle > 90 * QC_DEGREE);
}

/* "its lower left corner", "the point 2 1/2 in up its right side" */
static void add_start(qci_text *text, const qc_plan *plan,
                      const qc_plan_set *info)
{
    const char *side = side_of(!is_mirrored(info));

    if (info->second_at == 0)
        qci_text_printf(text, "its lower %s corner", side);
    else
        qci_text_printf(text, "the point %s up its %s side",
                        qci_phrase_about(plan, info->second_at).text, side);
}

static void add_second(qci_table *table, const qc_plan *plan,
                       const qc_plan_set *info)
{
    bool left = (info->second_angle > 90 * QC_DEGREE) != is_mirrored(info);
    bool slants = info->second_angle != 90 * QC_DEGREE;
    qci_text start = {0};

    if (info->second_angle == 0)
        return;
    add_start(&start, plan, info);
    qci_table_add(table, "second cut");
    qci_table_add(table,
                  "through every segment, from %s, at %s to the strips%s%s; "
                  "both parts are counted",
                  start.bytes ? start.bytes : "",
                  qci_phrase_angle(sharp(info->second_angle)).text,
                  slants ? ", slanting " : "", slants ? side_of(left) : "");
    table->cells.failed |= start.failed;
    qci_text_clear(&start);
}

static void add_sets(qci_table *table, const qc_plan *plan,
                     const qc_plan_set *info)
{
    if (info->sets > 0) {
        qci_table_add(table, "full sets");
        qci_table_add(table, "%" PRId64 "%s %s long, cut into %s", info->sets,
                      info->sets == 1 ? "," : ", each",
                      qci_phrase_length(plan, info->full_length).text,
                      qci_phrase_count(info->per_set, "segment").text);
    }
    if (info->part_segments > 0) {
        qci_table_add(table, "%s", info->sets ? "last set" : "one set");
        qci_table_add(table, "%s long, cut into %s",
                      qci_phrase_length(plan, info->part_length).text,
                      qci_phrase_count(info->part_segments, "segment").text);
    }
    qci_table_add(table, "gives");
    qci_table_add(table, "%s, %s from raw edge to raw edge",
                  qci_phrase_count(info->segments, "segment").text,
                  qci_phrase_about(plan, info->height).text);
}

/* Only where it makes a difference: which fabric sets can be no longer than. */
static void add_rule(qci_table *table, const qc_plan *plan,
                     const qci_plan_set *set)
{
    const qc_plan_fabric *least = &plan->fabrics[set->strips[0].fabric].info;
    bool differ = false;

    for (size_t i = 1; i < set->info.strip_count; i++) {
        const qc_plan_fabric *info = &plan->fabrics[set->strips[i].fabric].info;

        differ |= info->usable_width != least->usable_width;
        if (info->usable_width < least->usable_width)
            least = info;
    }
    if (!differ)
        return;
    qci_table_add(table, "length");
    qci_table_add(table, "%s at most: %s, the narrowest of the fabrics, rules",
                  qci_phrase_length(plan, least->usable_width).text,
                  least->name);
}

static uint32_t piece_of(const qc_set_strip *strip, bool full)
{
    return full ? strip->full_piece : strip->part_piece;
}

/* "14 pieces S1 a, 3 in of Night blue": once for every piece, however many of
 * the strips it is. */
static void add_need(qci_text *text, const qc_plan *plan,
                     const qci_plan_set *set, size_t index, bool full)
{
    uint32_t piece = piece_of(&set->strips[index], full);
    int64_t count = 0;

    if (piece == QC_NONE)
        return;
    for (size_t i = 0; i < set->info.strip_count; i++) {
        if (piece_of(&set->strips[i], full) != piece)
            continue;
        if (i < index)
            return;
        count += full ? set->info.sets : 1;
    }
    qci_text_printf(text, "%s%" PRId64 " %s, %s of %s", text->size ? "; " : "",
                    count, plan->pieces[piece].id,
                    qci_phrase_size_unit(plan, plan->pieces[piece].cut).text,
                    plan->fabrics[set->strips[index].fabric].info.name);
}

static void add_needs(qci_table *table, const qc_plan *plan,
                      const qci_plan_set *set)
{
    qci_text text = {0};

    for (int full = 1; full >= 0; full--)
        for (size_t i = 0; i < set->info.strip_count; i++)
            add_need(&text, plan, set, i, full);
    qci_table_add(table, "takes");
    qci_table_add(table, "%s", text.size ? text.bytes : "");
    table->cells.failed |= text.failed;
    qci_text_clear(&text);
}

static void put_set(qci_text *out, const qc_plan *plan, const qci_plan_set *set)
{
    qci_table table = {.align = "ll"};

    qci_put_paragraph(out, 2, set->info.id);
    put_set_strips(out, plan, set);
    add_cuts(&table, plan, &set->info);
    add_second(&table, plan, &set->info);
    add_sets(&table, plan, &set->info);
    add_rule(&table, plan, set);
    add_needs(&table, plan, set);
    qci_table_put(&table, out, 4);
}

void qci_put_sets(qci_text *out, const qc_plan *plan)
{
    if (plan->set_count == 0)
        return;
    qci_put_heading(out, "STRIP SETS");
    qci_put_paragraph(out, 2,
                      "Strips are counted from the lower edge up. Every seam "
                      "joins two of them along their whole length; segments "
                      "are cut across all of them.");
    for (size_t i = 0; i < plan->set_count; i++)
        put_set(out, plan, &plan->sets[i]);
}
