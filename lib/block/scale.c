/* From the grid's unit to widths of the block.
 *
 * Dividing by a width with a root in it multiplies by its conjugate and divides
 * by their product, which is whole. The greatest divisor of all parts is then
 * taken out, and what is left must be small enough to be reckoned with exactly.
 * Linear in the corners. */
#include "base/gcd.h"
#include "block/drawing.h"

typedef struct scaling {
    qc_block_number factor; /* a number becomes its product with this, */
    int64_t radicand;
    int64_t divisor; /* divided by this; later: by this alone */
    int64_t most;    /* the largest part there is */
} scaling;

static void each_point(qci_block_draft *draft,
                       void (*visit)(qc_block_number *, scaling *), scaling *to)
{
    visit(&draft->size.x, to);
    visit(&draft->size.y, to);
    for (size_t i = 0; i < draft->patch_count; i++)
        for (size_t k = 0; k < draft->patches[i].count; k++) {
            visit(&draft->patches[i].at[k].x, to);
            visit(&draft->patches[i].at[k].y, to);
        }
}

static int64_t magnitude(int64_t n)
{
    return n < 0 ? -n : n;
}

static void multiply(qc_block_number *n, scaling *by)
{
    *n = qci_product(*n, by->factor, by->radicand);
    by->divisor = qci_gcd(by->divisor, magnitude(n->whole));
    by->divisor = qci_gcd(by->divisor, magnitude(n->root));
}

static void divide(qc_block_number *n, scaling *by)
{
    n->whole /= by->divisor;
    n->root /= by->divisor;
    for (int i = 0; i < 2; i++) {
        int64_t part = magnitude(i ? n->root : n->whole);

        by->most = part > by->most ? part : by->most;
    }
}

qc_status qci_draft_scale(qci_block_draft *draft)
{
    int64_t radicand = draft->radicand;
    qc_block_number width = draft->size.x;
    int64_t norm =
        width.whole * width.whole - radicand * width.root * width.root;
    int64_t turn = norm < 0 ? -1 : 1;
    scaling by = {
        {turn * width.whole, turn * -width.root}, radicand, turn * norm, 0};

    each_point(draft, multiply, &by);
    each_point(draft, divide, &by);
    draft->denominator = turn * norm / by.divisor;
    if (by.most > QCI_NUMBER_MAX || draft->denominator > QCI_NUMBER_MAX)
        return qci_draft_fail(draft, QC_NONE, "width",
                              "a coarser grid, or simpler fractions",
                              "makes coordinates that are too fine");
    return QC_STATUS_OK;
}
