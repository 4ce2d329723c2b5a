/* What the two usual ways of planning by hand or by rule would use.
 *
 * For every job line on stdin (see mini_read) one line on stdout:
 *   name hand=USED hand_bought=BOUGHT ffdh=USED ffdh_bought=BOUGHT
 *
 * hand: one size to a strip, each size rounded up to whole strips, as given.
 * ffdh: first fit by decreasing height: pieces from the tallest down, each into
 * the first strip with room for it, or into a new strip as tall as itself. When
 * pieces may be turned, all of them lying, all standing and all as given are
 * tried, and the best of the three counts, as a sensible person would do.
 * Equal pieces are laid by counts, strip by strip, so that time does not grow
 * with demand more than the number of strips does.
 */
#include "mini.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>

typedef struct block {
    qc_length width, height;
    int64_t count;
} block;

typedef enum rule { AS_GIVEN, LYING, STANDING } rule;

static int taller_first(const void *a, const void *b)
{
    const block *x = a, *y = b;

    if (x->height != y->height)
        return x->height > y->height ? -1 : 1;
    return x->width != y->width ? (x->width > y->width ? -1 : 1) : 0;
}

static block lay(const mini_job *job, size_t piece, rule way)
{
    const mini_piece *p = &job->pieces[piece];
    bool given = mini_may_lie(job, piece, false);
    bool turned = mini_may_lie(job, piece, true);
    block out = {p->across, p->along, p->count};

    if (given && turned && way != AS_GIVEN)
        turned = (p->across < p->along) == (way == LYING);
    else
        turned = !given;
    if (turned) {
        out.width = p->along;
        out.height = p->across;
    }
    return out;
}

/* First fit: of every strip the room left and its height. */
static qc_length first_fit(const mini_job *job, rule way)
{
    static block blocks[MINI_MAX_PIECES];
    qc_length *room = NULL, *height = NULL, used = 0;
    size_t strips = 0, space = 0, i, s;

    for (i = 0; i < job->piece_count; i++)
        blocks[i] = lay(job, i, way);
    qsort(blocks, job->piece_count, sizeof blocks[0], taller_first);
    for (i = 0; i < job->piece_count; i++) {
        block *b = &blocks[i];
        for (s = 0; b->count > 0; s++) {
            int64_t fit;
            if (s == strips) {
                if (strips == space) {
                    space = space ? 2 * space : 64;
                    room = realloc(room, space * sizeof *room);
                    height = realloc(height, space * sizeof *height);
                    if (!room || !height)
                        exit(1);
                }
                room[strips] = job->width;
                height[strips] = b->height;
                used += b->height;
                strips++;
            }
            if (job->no_trim && height[s] != b->height)
                continue;
            fit = room[s] / b->width;
            if (fit > b->count)
                fit = b->count;
            room[s] -= fit * b->width;
            b->count -= fit;
        }
    }
    free(room);
    free(height);
    return used;
}

int main(void)
{
    static mini_job job;
    char name[64];

    while (mini_read(stdin, name, &job) > 0) {
        qc_length hand = mini_hand_used(&job);
        qc_length best = first_fit(&job, AS_GIVEN);
        qc_length other = first_fit(&job, LYING);
        if (other < best)
            best = other;
        other = first_fit(&job, STANDING);
        if (other < best)
            best = other;
        best += job.square_up;
        printf("%s hand=%" PRId64 " hand_bought=%" PRId64 " ffdh=%" PRId64
               " ffdh_bought=%" PRId64 "\n",
               name, hand, mini_bought(&job, hand), best,
               mini_bought(&job, best));
    }
    return 0;
}
