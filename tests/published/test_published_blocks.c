/* What blocks are cut from, against what quilters add to finished sizes: the
 * constants below are derived by geometry at a seam of 1/4 in, and the trade's
 * own rules (7/8 and 1 1/4 in, strips 1/2 in wider than the diamond, 3/4 in for
 * triangles of 60 degrees) are those, rounded up: members.shaw.ca/
 * beverlysquiltingpage for the triangles, and common practice. Every block size
 * from 3 to 24 in by quarters. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include <quiltcut/block.h>

#include "block_job.h"

#define ROOT2 1.4142135623730951
#define ROOT3 1.7320508075688772
#define HALF 0.8535533905932737    /* (2 + sqrt2) / 4 */
#define QUARTER 1.2071067811865475 /* (1 + sqrt2) / 2 */

/* A piece, by its id without the block's; what is cut for it in a block of so
 * many inches; across or along. */
typedef struct row {
    const char *block, *piece;
    int side;
    double (*inches)(double size);
} row;

static double goose(double f)
{
    return f + QUARTER;
}

static double sky(double f)
{
    return f / 2 + HALF;
}

static double on_point(double f)
{
    return f / ROOT2 + 0.5;
}

static double star_strip(double f)
{
    return f * (ROOT2 - 1) / 2 + 0.5;
}

static double star_corner(double f)
{
    return f / (2 + ROOT2) + 0.5;
}

static double star_edge(double f)
{
    return f / (2 + ROOT2) * ROOT2 + QUARTER;
}

static double lone_strip(double f)
{
    return f / 3 / (2 + ROOT2) / ROOT2 + 0.5;
}

static double sixty_strip(double f)
{
    return f / 3 * ROOT3 / 2 + 0.5;
}

static double hexagon_strip(double f)
{
    return f / 2 * ROOT3 + 0.5;
}

/* Legs f/4 and f/8, on the long one: b + s (1 + (b + c) / a). */
static double half_rectangle(double f)
{
    double a = f / 4, b = f / 8;

    return b + (1 + (b + hypot(a, b)) / a) / 4;
}

static double nine(double f)
{
    return f / 3 + 0.5;
}

static const row rows[] = {
    {"flying geese", "A", 0, goose},
    {"flying geese", "B", 0, sky},
    {"square in a square", "A", 0, on_point},
    {"square in a square", "B", 0, sky},
    {"eight-pointed star", "A", 0, star_strip},
    {"eight-pointed star", "A", 1, star_strip},
    {"eight-pointed star", "B", 0, star_corner},
    {"eight-pointed star", "C", 0, star_edge},
    {"lone star", "C", 1, lone_strip},
    {"six-pointed star", "A", 1, sixty_strip},
    {"hexagon", "A", 1, hexagon_strip},
    {"storm at sea", "E left", 1, half_rectangle},
    {"nine patch", "B", 1, nine},
};

static const qci_piece *find(const qc_job *job, const char *piece)
{
    for (size_t i = 0; i < job->piece_count; i++)
        if (strcmp(job->pieces[i].id + 2, piece) == 0)
            return &job->pieces[i];
    fail_msg("no piece %s", piece);
    return NULL;
}

static void cut_sizes_are_the_trades(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        for (int quarters = 12; quarters <= 96; quarters++) {
            qc_job *job =
                job_of(rows[i].block, quarters * QC_INCH / 4, 1, NULL);
            const qci_piece *piece = find(job, rows[i].piece);
            double exact = rows[i].inches(quarters / 4.0);

            if (piece->cut[rows[i].side] !=
                (qc_length)ceil(exact * 8 - 1e-7) * QC_INCH / 8)
                fail_msg("%s %s at %g in: %g in, not %g up to an eighth",
                         rows[i].block, rows[i].piece, quarters / 4.0,
                         (double)piece->cut[rows[i].side] / 203200, exact);
            qc_job_destroy(job);
        }
    }
}

/* Strips for stars of 6 and 12 in: 1 3/4 and 3 in; the trade divides the block
 * by 3.41 for the side of a diamond (common practice). */
static void stars_of_6_and_12(void **state)
{
    qc_job *six = job_of("eight-pointed star", 6 * QC_INCH, 1, NULL);
    qc_job *twelve = job_of("eight-pointed star", 12 * QC_INCH, 1, NULL);

    (void)state;
    assert_int_equal(find(six, "A")->cut[1], 7 * QC_INCH / 4);
    assert_int_equal(find(twelve, "A")->cut[1], 3 * QC_INCH);
    assert_true(fabs(12 / ((double)find(twelve, "A")->finished[0] / 203200) -
                     3.41) < 0.005);
    qc_job_destroy(six);
    qc_job_destroy(twelve);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cut_sizes_are_the_trades),
        cmocka_unit_test(stars_of_6_and_12),
    };

    return cmocka_run_group_tests(tests, NULL, NULL);
}
