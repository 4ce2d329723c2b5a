/* From one job to the job of each size.
 *
 * Only the blocks change. Areas and counts are reckoned in 128 bits: a count is
 * below 2^30 and a length below 2^36. */
#include "base/alloc.h"
#include "base/error.h"
#include "base/wide.h"
#include "compare/compare.h"

static const char area_allowed[] = "up to 144 square kilometres";

static qc_status refuse(qc_error *err, const char *field, const char *allowed,
                        const char *problem)
{
    return qci_fail(err, QC_STATUS_INVALID, (qci_place){field, NULL}, allowed,
                    "%s", problem);
}

static bool is_size(qc_length length)
{
    return length > 0 && length <= QC_LENGTH_MAX;
}

static bool is_quilt(const qc_quilt_size *quilt)
{
    return is_size(quilt->width) && is_size(quilt->length);
}

static qc_status check_lists(const qc_compare_options *options, qc_error *err)
{
    static const char quilt[] = "a width and a length above 0";

    if (!options->block_size_count == !options->quilt_count)
        return refuse(err, "options", "block sizes or quilt sizes",
                      "one kind of sizes is compared at a time");
    if (options->block_size_count > QC_MAX_COMPARED ||
        options->quilt_count > QC_MAX_COMPARED)
        return refuse(err, "options", "at most 1000 sizes", "too many sizes");
    for (size_t i = 0; i < options->block_size_count; i++)
        if (options->block_sizes[i] < 1 ||
            options->block_sizes[i] > QC_MAX_WIDTH)
            return refuse(err, "options.block_sizes", "more than 0, up to 10 m",
                          "is no size of a block");
    for (size_t i = 0; i < options->quilt_count; i++)
        if (!is_quilt(&options->quilts[i]))
            return refuse(err, "options.quilts", quilt,
                          "is no size of a quilt");
    if (options->quilt && options->quilt_count)
        return refuse(err, "options.quilt", "with block sizes only",
                      "is one of the sizes compared");
    if (options->quilt && !is_quilt(options->quilt))
        return refuse(err, "options.quilt", quilt, "is no size of a quilt");
    return QC_STATUS_OK;
}

qc_status qci_sizes_check(const qc_job_spec *spec,
                          const qc_compare_options *options, qc_error *err)
{
    qc_status status = check_lists(options, err);

    if (status)
        return status;
    if (!spec->blocks || !spec->block_count)
        return refuse(err, "blocks", "one block or more",
                      "the job has no blocks whose size could change");
    for (size_t i = 1; i < spec->block_count && options->quilt_count; i++)
        if (spec->blocks[i].size != spec->blocks[0].size)
            return refuse(err, "blocks", "blocks of one size",
                          "blocks of several sizes do not make rows of a "
                          "quilt");
    return QC_STATUS_OK;
}

/* The height of a block of that width; the error is that of the trial. */
static qc_status height_of(const qc_block_spec *spec, qc_length width,
                           qc_length *height, qc_error *err)
{
    qc_block *block = NULL;
    qc_status status = spec->drawing
                           ? qc_block_create(spec->drawing, width, &block, err)
                           : qc_block_find(spec->block, width, &block, err);

    if (!status)
        *height = qc_block_describe(block)->height;
    qc_block_destroy(block);
    return status;
}

/* The blocks of one trial, in the order of the spec's. */
typedef struct layout {
    const qc_job_spec *spec;
    qc_block_spec *blocks;
    qc_length *heights;
    qci_trial *trial;
} layout;

static int64_t divided_up(int64_t a, int64_t b)
{
    return (a + b - 1) / b;
}

/* Shares `all` out by the counts of the spec, the largest remainders first and
 * the first of equals. */
static void share_out(const layout *l, int64_t all)
{
    const qc_job_spec *spec = l->spec;
    int64_t given = 0, left = all;

    for (size_t i = 0; i < spec->block_count; i++)
        given += spec->blocks[i].count;
    for (size_t i = 0; i < spec->block_count; i++) {
        l->blocks[i].count =
            (int64_t)((qci_wide)all * spec->blocks[i].count / given);
        left -= l->blocks[i].count;
    }
    for (; left > 0; left--) {
        size_t next = 0;
        qci_wide most = -1;

        for (size_t i = 0; i < spec->block_count; i++) {
            qci_wide owed = (qci_wide)all * spec->blocks[i].count -
                            (qci_wide)given * l->blocks[i].count;

            if (owed > most) {
                most = owed;
                next = i;
            }
        }
        l->blocks[next].count++;
    }
}

static qc_status cover_quilt(const layout *l, qc_error *err)
{
    qc_compare_row *row = &l->trial->row;
    const qc_quilt_size *quilt = row->quilt;
    qci_wide wanted;

    for (size_t i = 1; i < l->spec->block_count; i++)
        if (l->heights[i] != l->heights[0])
            return refuse(err, "blocks", "blocks of one height",
                          "blocks of several heights do not make rows of a "
                          "quilt");
    row->columns = divided_up(quilt->width, row->block_size);
    row->rows = divided_up(quilt->length, l->heights[0]);
    wanted = (qci_wide)quilt->width * quilt->length;
    if (wanted > INT64_MAX)
        return refuse(err, "quilt", area_allowed, "is too large");
    l->trial->wanted = (int64_t)wanted;
    if (row->columns > QC_MAX_COUNT / row->rows)
        return refuse(err, "blocks", "up to 1000000000 blocks",
                      "are too many at this size");
    share_out(l, row->columns * row->rows);
    return QC_STATUS_OK;
}

/* The block that is as much higher as it is wider covers a square's share. */
static qc_status cover_as_before(const layout *l, qc_error *err)
{
    qc_length size = l->trial->row.block_size;
    qci_wide wanted = 0;

    for (size_t i = 0; i < l->spec->block_count; i++) {
        const qc_block_spec *given = &l->spec->blocks[i];
        qci_wide square = (qci_wide)size * size;
        qci_wide cover = (qci_wide)given->size * given->size * given->count;
        qc_length height;
        qc_status status = height_of(given, given->size, &height, err);

        if (status)
            return status;
        cover = (cover + square - 1) / square;
        if (cover > QC_MAX_COUNT)
            return refuse(err, "blocks", "up to 1000000000 blocks",
                          "are too many at this size");
        l->blocks[i].count = (int64_t)cover;
        wanted += (qci_wide)given->size * height * given->count;
    }
    if (wanted > INT64_MAX)
        return refuse(err, "blocks", area_allowed, "cover too much");
    l->trial->wanted = (int64_t)wanted;
    return QC_STATUS_OK;
}

static qc_status lay_out(const layout *l, qc_error *err)
{
    qc_compare_row *row = &l->trial->row;
    qci_wide covered = 0;
    qc_status status = QC_STATUS_OK;

    for (size_t i = 0; i < l->spec->block_count && !status; i++) {
        l->blocks[i] = l->spec->blocks[i];
        l->blocks[i].size = row->block_size;
        status = height_of(&l->blocks[i], row->block_size, &l->heights[i], err);
    }
    if (!status)
        status = row->quilt ? cover_quilt(l, err) : cover_as_before(l, err);
    if (status)
        return status;
    for (size_t i = 0; i < l->spec->block_count; i++) {
        row->blocks += l->blocks[i].count;
        covered +=
            (qci_wide)l->blocks[i].count * row->block_size * l->heights[i];
    }
    covered -= l->trial->wanted;
    row->beyond = covered < 0           ? 0
                  : covered > INT64_MAX ? INT64_MAX
                                        : (int64_t)covered;
    return QC_STATUS_OK;
}

/* The spec with the blocks laid out; a kind that has none left is left out. */
static qc_job_spec spec_of(const layout *l)
{
    qc_job_spec spec = *l->spec;

    spec.blocks = l->blocks;
    spec.block_count = 0;
    for (size_t i = 0; i < l->spec->block_count; i++)
        if (l->blocks[i].count > 0)
            l->blocks[spec.block_count++] = l->blocks[i];
    return spec;
}

qc_status qci_sizes_make(const qc_job_spec *spec,
                         const qc_compare_options *options, qci_trial *trial,
                         qc_error *err)
{
    layout l = {.spec = spec, .trial = trial};
    qc_compare_row *row = &trial->row;
    bool of_blocks = options->block_size_count > 0;
    qc_status status = QC_STATUS_NO_MEMORY;

    row->quilt = of_blocks ? options->quilt : &options->quilts[row->index];
    row->block_size =
        of_blocks ? options->block_sizes[row->index] : spec->blocks[0].size;
    l.blocks = qci_calloc(spec->block_count, sizeof *l.blocks);
    l.heights = qci_calloc(spec->block_count, sizeof *l.heights);
    if (l.blocks && l.heights)
        status = lay_out(&l, &trial->err);
    if (!status) {
        qc_job_spec made = spec_of(&l);

        status = qc_job_create(&made, &trial->job, &trial->err);
    }
    qci_free(l.blocks);
    qci_free(l.heights);
    return status == QC_STATUS_NO_MEMORY ? qci_no_memory(err) : QC_STATUS_OK;
}
