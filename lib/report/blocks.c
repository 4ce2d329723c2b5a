/* The blocks that the pieces are for: which of them each block takes, in which
 * role. How they are cut stands with the pieces. */
#include <inttypes.h>

#include "report/layout.h"
#include "report/phrase.h"
#include "report/section.h"

static bool is_listed(const qc_plan *plan, size_t piece, uint32_t block)
{
    return plan->pieces[piece].role && plan->pieces[piece].block == block;
}

/* Nothing where strip sets take all. */
static void put_block_pieces(qci_text *out, const qc_plan *plan, uint32_t index)
{
    qci_table table = {.align = "lrll"};
    bool any = false;

    for (size_t i = 0; i < plan->piece_count; i++) {
        const qc_plan_piece *piece = &plan->pieces[i];

        if (!is_listed(plan, i, index))
            continue;
        if (!any) {
            qci_table_add(&table, "piece");
            qci_table_add(&table, "in each");
            qci_table_add(&table, "role");
            qci_table_add(&table, "fabric");
        }
        any = true;
        qci_table_add(&table, "%s", piece->id);
        if (piece->in_each)
            qci_table_add(&table, "%" PRId64, piece->in_each);
        else
            qci_table_add(&table, "%s", "");
        qci_table_add(&table, "%s", piece->role);
        qci_table_add(&table, "%s", plan->fabrics[piece->fabric].info.name);
    }
    qci_table_put(&table, out, 4);
}

static void put_block(qci_text *out, const qc_plan *plan, uint32_t index)
{
    const qc_plan_block *block = &plan->blocks[index];
    const qc_length size[2] = {block->width, block->height};
    qci_text head = {0};

    qci_text_printf(&head, "%s: %s, ", block->id,
                    qci_phrase_count(block->count, "block").text);
    if (block->height_rounded)
        qci_text_printf(&head, "%s wide and %s high",
                        qci_phrase_length(plan, block->width).text,
                        qci_phrase_about(plan, block->height).text);
    else
        qci_text_printf(&head, "%s", qci_phrase_size_unit(plan, size).text);
    qci_text_printf(&head, " finished");
    qci_put_collected(out, 2, &head);
    put_block_pieces(out, plan, index);
    qci_put_units(out, plan, index);
}

void qci_put_blocks(qci_text *out, const qc_plan *plan)
{
    if (!plan->block_count)
        return;
    qci_put_heading(out, "BLOCKS");
    for (uint32_t i = 0; i < plan->block_count; i++)
        put_block(out, plan, i);
}
