/* From the plan of one size to its rows.
 *
 * How a piece is cut stands in the plan's strips; that it fills strips of its
 * own need not, so as many as one holds are worked out from the spacing. The
 * pieces of the plan with the finest ruler have the same names, but for strips
 * of sets, of which there may be fewer kinds. */
#include "chart/chart.h"

#include <string.h>

#include <quiltcut/block.h>

/* How the plan cuts a piece, and as many as a strip of its own holds. */
typedef struct cutting {
    qc_length height, across, lean;
    uint32_t yields; /* pieces from one section */
    int64_t most;
} cutting;

static qc_length greater(qc_length a, qc_length b)
{
    a = a < 0 ? -a : a;
    b = b < 0 ? -b : b;
    return a > b ? a : b;
}

/* Sections that begin as the last one ends lie close; the strip's ends lose
 * half a lean each. Of others only the plan's own number is known. */
static void note_run(cutting *found, const qc_subcut *subcut,
                     const qc_stack *run, qc_length width)
{
    qc_length lean = greater(subcut->lean[0], subcut->lean[1]);
    bool close = subcut->alternate || subcut->lean[0] == subcut->lean[1];
    int64_t most = close ? (width - lean) / run->width : subcut->count;

    found->height = run->height;
    found->across = run->width;
    found->lean = lean;
    found->yields = run->yields;
    if (most * run->yields > found->most)
        found->most = most * run->yields;
}

static cutting cutting_of(const qc_plan *plan, uint32_t piece)
{
    const qc_plan_piece *info = qc_plan_piece_at(plan, piece);
    qc_length width = qc_plan_fabric_at(plan, info->fabric)->usable_width;
    const qc_strip *strip;
    cutting found = {0};

    for (size_t s = 0; (strip = qc_plan_strip_at(plan, info->fabric, s)); s++)
        for (size_t i = 0; i < strip->subcut_count; i++)
            for (size_t k = 0; k < strip->subcuts[i].stack_count; k++) {
                const qc_stack *run = &strip->subcuts[i].stacks[k];

                if (run->piece == piece ||
                    (strip->paired && run->piece == info->twin))
                    note_run(&found, &strip->subcuts[i], run, width);
            }
    if (info->shape == QC_SHAPE_DIAMOND ||
        info->shape == QC_SHAPE_PARALLELOGRAM)
        found.across = info->cut[0];
    return found;
}

/* The spacing of crosscuts is a cut size, too. */
static bool is_on_ruler(const qc_plan *plan, const qc_plan *fine)
{
    for (size_t i = 0; i < qc_plan_piece_count(plan); i++)
        if (qc_plan_piece_at(plan, i)->rounded)
            return false;
    for (size_t i = 0; i < qc_plan_set_count(plan); i++)
        if (qc_plan_set_at(plan, i)->spacing !=
            qc_plan_set_at(fine, i)->spacing)
            return false;
    return true;
}

static int64_t strips_of(const qc_plan *plan, uint32_t fabric)
{
    const qc_strip *strip;
    int64_t strips = 0;

    for (size_t s = 0; (strip = qc_plan_strip_at(plan, fabric, s)); s++)
        strips += strip->repeat;
    return strips;
}

static const qc_plan_piece *find(const qc_plan *plan, const char *id)
{
    const qc_plan_piece *piece = NULL;

    for (size_t i = 0; (piece = qc_plan_piece_at(plan, i)); i++)
        if (strcmp(piece->id, id) == 0)
            break;
    return piece;
}

/* A piece that lies in strips. */
static void read_piece(const qc_plan *plan, const qc_plan *fine, uint32_t piece,
                       qc_chart_row *row)
{
    const qc_plan_piece *info = qc_plan_piece_at(plan, piece);
    const qc_plan_piece *exact = find(fine, info->id);
    cutting how = cutting_of(plan, piece);

    row->strip = how.height;
    row->across = how.across;
    row->lean = how.lean;
    row->yields = info->patches ? info->patches : how.yields;
    row->each_strip = how.most;
    row->excess_strip = info->cut[1] - exact->cut[1];
    row->excess_across = info->cut[0] - exact->cut[0];
    row->trim_to = info->trim_to[0];
    row->trim_to_height = info->trim_to[1];
}

/* Where in its set a strip lies that the piece is. */
static size_t place_of(const qc_plan *plan, uint32_t index, uint32_t piece)
{
    size_t last = qc_plan_set_at(plan, index)->strip_count - 1, i = 0;
    const qc_set_strip *strip = qc_plan_set_strip_at(plan, index, 0);

    while (i < last && strip->full_piece != piece && strip->part_piece != piece)
        strip = qc_plan_set_strip_at(plan, index, ++i);
    return i;
}

/* A strip of a set, and how the set is cut across. With the finest ruler sets
 * may be as many as with the other, but not as many of them full. */
static void read_strip(const qc_plan *plan, const qc_plan *fine, uint32_t piece,
                       qc_chart_row *row)
{
    uint32_t index = qc_plan_piece_at(plan, piece)->strip_set;
    const qc_plan_set *set = qc_plan_set_at(plan, index);
    size_t i = place_of(plan, index, piece);
    const qc_set_strip *strip = qc_plan_set_strip_at(plan, index, i);
    const qc_set_strip *below =
        i ? qc_plan_set_strip_at(plan, index, i - 1) : NULL;

    row->each_strip =
        strip->full_piece == piece ? set->per_set : set->part_segments;
    row->strip = strip->width;
    row->excess_strip =
        strip->width - qc_plan_set_strip_at(fine, index, i)->width;
    row->across = set->spacing;
    row->excess_across = set->spacing - qc_plan_set_at(fine, index)->spacing;
    row->lean = set->lean < 0 ? -set->lean : set->lean;
    row->yields = 1;
    if (below)
        row->stagger = strip->offset > below->offset
                           ? strip->offset - below->offset
                           : below->offset - strip->offset;
}

static qc_chart_row row_of(const qc_plan *plan, const qc_plan *fine,
                           uint32_t piece)
{
    const qc_plan_piece *info = qc_plan_piece_at(plan, piece);
    const qc_plan_fabric *fabric = qc_plan_fabric_at(plan, info->fabric);
    const qc_plan_unit *unit = qc_plan_unit_at(plan, info->unit);
    qc_chart_row row = {
        .first_of_size = piece == 0,
        .first_of_fabric =
            piece == 0 ||
            qc_plan_piece_at(plan, piece - 1)->fabric != info->fabric,
        .piece = info->id,
        .fabric = fabric->id,
        .count = info->count,
        .strips = strips_of(plan, info->fabric),
        .bought = fabric->bought,
        .outcome = fabric->outcome,
    };

    if (info->strip_set == QC_NONE)
        read_piece(plan, fine, piece, &row);
    else
        read_strip(plan, fine, piece, &row);
    if (unit) {
        row.method = qc_method_name(unit->method);
        row.trim_to = unit->trim_to[0];
        row.trim_to_height = unit->trim_to[1];
    }
    return row;
}

void qci_chart_read(qc_length size, const qc_plan *plan, const qc_plan *fine,
                    qc_chart_fn each, void *user)
{
    bool on_ruler = is_on_ruler(plan, fine);

    for (uint32_t i = 0; i < qc_plan_piece_count(plan); i++) {
        qc_chart_row row = row_of(plan, fine, i);

        row.size = size;
        row.on_ruler = on_ruler;
        each(&row, user);
    }
}
