/* What is cut for a unit that is sewn of squares: their sides come out of the
 * seams of the triangles that they end as, and how many are cut, out of how
 * many units they give at once.
 *
 * Two squares that are sewn on both sides of a diagonal and cut along it are
 * two triangles each: a square is that of a half-square triangle. Eight at a
 * time are four of these side by side, so the side is twice as long, rounded
 * after that. Of flying geese the large square is that of a quarter-square
 * triangle, the small ones are those of half-square triangles. A corner that is
 * sewn on and turned over is a square with a seam on every side, and so is the
 * patch under it. */
#include <inttypes.h>

#include "base/alloc.h"
#include "base/text.h"
#include "job/use.h"
#include "length/ruler.h"
#include "shape/shape.h"

/* Squares or rectangles of one fabric. */
typedef struct squares {
    const qci_unit_part *part;
    qc_length cut[2];
    bool rounded;
    int64_t gives; /* units, from so many as `each` */
    int64_t each;
    uint32_t patches; /* that one becomes */
} squares;

static int64_t count_of(const squares *s, int64_t units)
{
    return (units + s->gives - 1) / s->gives * s->each;
}

/* "pinwheel A of A+B" */
static char *name_of(const qci_making *m, const squares *s)
{
    qci_text text = {0};

    qci_text_printf(&text, "%s %s of %s", qci_use_id(m->use),
                    m->use->block->groups[s->part->group].id, m->unit->id);
    return qci_text_take(&text);
}

static qc_status add(const qci_making *m, const squares *s)
{
    const qci_use *u = m->use;
    qc_job *job = u->check->job;
    const qc_block_group *group = &u->block->groups[s->part->group].info;
    bool square = s->cut[0] == s->cut[1];
    qci_piece piece = {.fabric = u->fabric[group->role],
                       .shape = square ? QC_SHAPE_SQUARE : QC_SHAPE_RECTANGLE,
                       .twin = (uint32_t)job->piece_count,
                       .cut = {s->cut[0], s->cut[1]},
                       .finished_area = s->patches * group->area,
                       .rounded = s->rounded,
                       .grain = QC_GRAIN_ANY,
                       .count = count_of(s, m->wanted),
                       .strip_set = QC_NONE,
                       .block = (uint32_t)u->index,
                       .unit = m->made,
                       .patches = s->patches};

    piece.spares = piece.count - count_of(s, m->needed);
    if (piece.count > QC_MAX_COUNT)
        return qci_use_fail(u, "count", NULL, "fewer blocks or spares",
                            "makes more than 1000000000 pieces of a kind");
    if (job->piece_count >= QC_MAX_PIECES)
        return qci_use_fail(u, "methods", NULL, "fewer or simpler blocks",
                            "make more than 2000 kinds of pieces");
    piece.id = name_of(m, s);
    piece.job_id = piece.id ? qci_strdup(piece.id) : NULL;
    piece.role = qci_strdup(u->block->roles[group->role]);
    if (!piece.id || !piece.job_id || !piece.role) {
        qci_piece_clear(&piece);
        return qci_no_memory(u->check->err);
    }
    if (qci_job_has_name(job, piece.id)) {
        qci_piece_clear(&piece);
        return qci_use_fail(u, "id", qci_use_id(u),
                            "an \"id\" that leaves all names different",
                            "makes the name of another piece");
    }
    return qci_job_add_piece(u->check, piece);
}

/* The side of the square that is cut into triangles of this finished size, so
 * many times as long. */
static qc_status side_of(const qci_making *m, qc_shape shape, qci_fine finished,
                         qc_length trim, int64_t times, squares *s)
{
    const qc_job *job = m->use->check->job;
    qc_length up = qci_fine_up(finished), exact;
    qci_patch patch = {.shape = shape,
                       .size = {up},
                       .below = {qci_fine_of(up) - finished},
                       .seam = job->seam,
                       .trim = trim,
                       .ruler = 1};
    qci_cut_shape cut = {.cut = {0}};
    size_t at;

    if (qci_fine_whole(finished))
        patch.below[0] = 0;
    if (qci_shape_make(&patch, &cut, &at) != QCI_PATCH_FINE)
        return qci_use_fail(m->use, "size", NULL, "another size or seam",
                            "makes squares that cannot be cut");
    exact = times * cut.cut[0];
    s->cut[0] = s->cut[1] = qci_ruler_up(exact, job->ruler);
    s->rounded = cut.rounded || s->cut[0] != exact;
    return QC_STATUS_OK;
}

/* A seam on every side of what is sewn as it is. */
static void frame(const qci_making *m, int side, qci_fine finished, squares *s)
{
    const qc_job *job = m->use->check->job;
    qc_length exact = qci_fine_up(finished) + 2 * job->seam + m->trim;

    s->cut[side] = qci_ruler_up(exact, job->ruler);
    s->rounded |= s->cut[side] != exact || !qci_fine_whole(finished);
}

/* `times`: as long as the square of two at a time. */
static qc_status make_pair(const qci_making *m, uint32_t at_a_time,
                           int64_t times)
{
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < 2 && !status; i++) {
        squares s = {.part = &m->unit->parts[i],
                     .gives = at_a_time,
                     .each = 1,
                     .patches = at_a_time};

        status = side_of(m, QC_SHAPE_HALF_SQUARE_TRIANGLE, s.part->high,
                         m->trim, times, &s);
        if (!status)
            status = add(m, &s);
    }
    return status;
}

/* The unit is twice as wide as high, and stays so when it is trimmed. */
static qc_status make_geese(const qci_making *m)
{
    squares large = {
        .part = &m->unit->parts[0], .gives = 4, .each = 1, .patches = 4};
    squares small = {
        .part = &m->unit->parts[1], .gives = 4, .each = 4, .patches = 2};
    qci_fine width = qci_fine_max(m->unit->size[0], m->unit->size[1]);
    qc_status status = side_of(m, QC_SHAPE_QUARTER_SQUARE_TRIANGLE, width,
                               2 * m->trim, 1, &large);

    if (!status)
        status = side_of(m, QC_SHAPE_HALF_SQUARE_TRIANGLE, small.part->high,
                         m->trim, 1, &small);
    if (!status)
        status = add(m, &large);
    return status ? status : add(m, &small);
}

static qc_status make_flipped(const qci_making *m)
{
    squares base = {
        .part = &m->unit->parts[0], .gives = 1, .each = 1, .patches = 1};
    qc_status status;

    frame(m, 0, m->unit->size[0], &base);
    frame(m, 1, m->unit->size[1], &base);
    status = add(m, &base);
    for (size_t i = 1; i < m->unit->part_count && !status; i++) {
        squares corner = {.part = &m->unit->parts[i],
                          .gives = 1,
                          .each = m->unit->parts[i].each,
                          .patches = 1};

        frame(m, 0, corner.part->high, &corner);
        frame(m, 1, corner.part->high, &corner);
        status = add(m, &corner);
    }
    return status;
}

/* Two triangles for each patch, its group's but for shape and size. */
static qc_status make_halves(const qci_making *m)
{
    const qci_unit_part *part = &m->unit->parts[0];
    qci_block_group half = m->use->block->groups[part->group];
    qci_text text = {0};
    qc_status status;
    char *name;

    half.info.shape = QC_SHAPE_HALF_SQUARE_TRIANGLE;
    half.info.angle = 0;
    half.info.count = 2 * m->unit->info.count;
    half.info.left = half.info.right = 0;
    half.info.area /= 2;
    half.size[0] = part->high;
    half.info.size[0] = qci_fine_up(part->high);
    half.info.rounded = !qci_fine_whole(part->high);
    qci_text_printf(&text, "%s halves", half.id);
    name = qci_text_take(&text);
    if (!name)
        return qci_no_memory(m->use->check->err);
    status = qci_use_add(m->use, &half, m->made, name);
    qci_free(name);
    return status;
}

qc_status qci_make_squares(const qci_making *m)
{
    qc_plan_unit *made = &m->use->check->job->made[m->made];

    switch (made->method) {
    case QC_METHOD_TWO_AT_A_TIME:
        made->made = (m->wanted + 1) / 2 * 2;
        return make_pair(m, 2, 1);
    case QC_METHOD_EIGHT_AT_A_TIME:
        made->made = (m->wanted + 7) / 8 * 8;
        return make_pair(m, 8, 2);
    case QC_METHOD_FOUR_AT_A_TIME:
        made->made = (m->wanted + 3) / 4 * 4;
        return make_geese(m);
    case QC_METHOD_STITCH_AND_FLIP:
        return make_flipped(m);
    case QC_METHOD_HALF_SQUARE_TRIANGLES:
    case QC_METHOD_STRIP_SET:
        break;
    }
    return make_halves(m);
}
