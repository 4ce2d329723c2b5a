/* The plan as text.
 *
 * In the order of use: what to take to the shop; the blade; what must come out;
 * the steps; what is put away; and last what only the curious read. The steps'
 * sentences come from the order room, everything else is worded here. Ids,
 * names and titles were checked when the job was made: valid UTF-8, no control
 * characters. */
#include <inttypes.h>
#include <stdio.h>

#include "base/caution.h"
#include "base/error.h"
#include "report/layout.h"
#include "report/phrase.h"
#include "report/section.h"

#include <quiltcut/report.h>

void qci_put_heading(qci_text *out, const char *heading)
{
    qci_text_printf(out, "\n%s\n", heading);
}

/* How sure the lengths are, in one sentence. */
static void add_verdict(qci_text *words, const qc_plan *plan)
{
    size_t cut = 0, proved = 0;

    for (size_t i = 0; i < plan->fabric_count; i++) {
        const qc_plan_fabric *info = &plan->fabrics[i].info;

        cut += info->bought > 0;
        proved += info->bought > 0 && info->bound >= info->bought;
    }
    if (proved == cut && cut == 1)
        qci_text_printf(words, "The length to buy is proved minimal.");
    else if (proved == cut)
        qci_text_printf(words, "All lengths to buy are proved minimal.");
    else if (cut == 1)
        qci_text_printf(words, "The length to buy is the best found, not "
                               "proved minimal.");
    else
        qci_text_printf(words,
                        "Of %zu lengths to buy, %zu %s proved minimal; the "
                        "rest are the best found.",
                        cut, proved, proved == 1 ? "is" : "are");
}

static void put_title(qci_text *out, const qc_plan *plan)
{
    qci_text words = {0};
    int64_t pieces = 0, segments = 0;

    for (size_t i = 0; i < plan->piece_count; i++)
        pieces += plan->pieces[i].count;
    for (size_t i = 0; i < plan->set_count; i++)
        segments += plan->sets[i].info.segments;
    qci_put_paragraph(out, 0, plan->title[0] ? plan->title : "Quilt");
    qci_text_printf(
        &words, "Cutting plan: %s of %s from %s",
        qci_phrase_count(pieces, "piece").text,
        qci_phrase_count((int64_t)plan->piece_count, "kind").text,
        qci_phrase_count((int64_t)plan->fabric_count, "fabric").text);
    if (segments > 0)
        qci_text_printf(&words, ", and %s from strip sets",
                        qci_phrase_count(segments, "segment").text);
    qci_text_printf(&words, ". ");
    add_verdict(&words, plan);
    qci_put_collected(out, 0, &words);
}

static void put_cautions(qci_text *out)
{
    qci_text words = {0};

    qci_put_heading(out, "MIND THE BLADE");
    for (size_t i = 0; i < QCI_CAUTION_COUNT; i++)
        qci_text_printf(&words, "%s%s", i ? " " : "", qci_cautions[i]);
    qci_put_collected(out, 2, &words);
}

static void put_order_intro(qci_text *out, const qc_plan *plan)
{
    qci_text words = {0};

    qci_text_printf(&words,
                    "Lay the fabric with its width from left to right and its "
                    "length going up. Leave what is cut in piles as it lies "
                    "until its step comes. ");
    if (plan->layers > 1)
        qci_text_printf(&words, "No pile is deeper than %d layers. ",
                        (int)plan->layers);
    qci_text_printf(&words,
                    "A name in brackets, such as (strip 2), is what later "
                    "steps call what has just been cut: mark the pile with "
                    "it. What no step names is scrap. %s",
                    plan->left_handed
                        ? "This order is for the left hand: strips are worked "
                          "from their right end to the left, and the diagrams "
                          "show them so."
                        : "This order is for the right hand; the left hand "
                          "needs one of its own.");
    qci_put_collected(out, 2, &words);
}

static void put_step(qci_text *out, const qc_step *step)
{
    char number[16];
    int width = snprintf(number, sizeof number, "%4" PRIu32 ". ", step->number);

    qci_text_printf(out, "  %s", number);
    qci_put_wrapped(out, 2 + (size_t)width, 8, step->text);
    qci_text_add(out, "\n", 1);
}

/* What the steps that follow are done to. */
static void put_step_head(qci_text *out, const char *kind, const char *name,
                          int64_t cuts, qci_phrase blade)
{
    qci_text words = {0};

    qci_text_printf(&words, "%s%s: %s, %s of cutting", kind, name,
                    qci_phrase_count(cuts, "cut").text, blade.text);
    qci_text_add(out, "\n", 1);
    qci_put_collected(out, 2, &words);
}

static int64_t cuts_of_set(const qc_plan *plan, uint32_t set)
{
    int64_t cuts = 0;

    for (size_t i = 0; i < plan->step_count; i++)
        cuts += plan->steps[i].set == set ? plan->steps[i].cuts : 0;
    return cuts;
}

/* The head before a step, where it is the first of its fabric or strip set. */
static void put_head_before(qci_text *out, const qc_plan *plan,
                            const qc_step *step, const qc_step *last)
{
    if (last && last->fabric == step->fabric && last->set == step->set)
        return;
    if (step->fabric != QC_NONE) {
        const qc_plan_fabric *info = &plan->fabrics[step->fabric].info;

        put_step_head(out, "", info->name, info->cuts,
                      qci_phrase_blade(plan, info->blade));
    } else {
        const qc_plan_set *info = &plan->sets[step->set].info;

        put_step_head(out, "Strip sets: ", info->id,
                      cuts_of_set(plan, step->set),
                      qci_phrase_blade(plan, info->blade));
    }
}

static void put_order(qci_text *out, const qc_plan *plan)
{
    const qc_step *last = NULL;

    qci_put_heading(out, "CUT ORDER");
    put_order_intro(out, plan);
    for (size_t i = 0; i < plan->step_count; i++) {
        put_head_before(out, plan, &plan->steps[i], last);
        last = &plan->steps[i];
        put_step(out, last);
    }
}

static void put_defaults(qci_text *out, const qc_plan *plan)
{
    if (!plan->default_count)
        return;
    qci_put_heading(out, "DEFAULTS");
    qci_put_paragraph(out, 2, "The job left these open; they were taken as:");
    for (size_t i = 0; i < plan->default_count; i++)
        qci_put_paragraph(out, 4, plan->defaults[i]);
}

qc_status qc_plan_text(const qc_plan *plan, char **out_text, qc_error *err)
{
    qci_text out = {0};

    *out_text = NULL;
    put_title(&out, plan);
    qci_put_shopping(&out, plan);
    put_cautions(&out);
    qci_put_blocks(&out, plan);
    qci_put_pieces(&out, plan);
    qci_put_sets(&out, plan);
    qci_put_strips(&out, plan);
    put_order(&out, plan);
    qci_put_leftovers(&out, plan);
    qci_put_areas(&out, plan);
    qci_put_goals(&out, plan);
    put_defaults(&out, plan);
    *out_text = qci_text_take(&out);
    return *out_text ? QC_STATUS_OK : qci_no_memory(err);
}
