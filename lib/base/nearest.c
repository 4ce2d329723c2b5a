/* Edit distance for "did you mean".
 *
 * The distance is the optimal-alignment one: insert, delete, replace, and swap
 * two neighbours, a slip each. Three rows of the usual table are kept, on the
 * stack, so that an error message never needs memory. Words longer than
 * LONGEST have no neighbours: nobody mistypes a known name into one of those.
 * Cost: length of the word x length of all known words. */
#include "base/nearest.h"

#include <string.h>

#define LONGEST 200

static size_t least(size_t a, size_t b)
{
    return a < b ? a : b;
}

/* ASCII only, since tolower() depends on the host's locale. */
static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool qci_same_word(const char *a, const char *b)
{
    while (*a && lower(*a) == lower(*b)) {
        a++;
        b++;
    }
    return lower(*a) == lower(*b);
}

static size_t slips_between(const char *a, size_t m, const char *b, size_t n)
{
    size_t table[3][LONGEST + 1];

    for (size_t j = 0; j <= n; j++)
        table[0][j] = j;
    for (size_t i = 1; i <= m; i++) {
        const size_t *before = table[(i + 1) % 3];
        const size_t *above = table[(i - 1) % 3];
        size_t *row = table[i % 3];

        row[0] = i;
        for (size_t j = 1; j <= n; j++) {
            char x = lower(a[i - 1]), y = lower(b[j - 1]);

            row[j] =
                least(above[j - 1] + (x != y), least(above[j], row[j - 1]) + 1);
            if (i > 1 && j > 1 && x == lower(b[j - 2]) && y == lower(a[i - 2]))
                row[j] = least(row[j], before[j - 2] + 1);
        }
    }
    return table[m % 3][n];
}

const char *qci_nearest(const char *word, const char *const *known, size_t n)
{
    size_t size = strlen(word);
    size_t fewest = LONGEST;
    const char *best = NULL;

    if (size > LONGEST)
        return NULL;
    for (size_t i = 0; i < n; i++) {
        size_t other = strlen(known[i]);
        size_t slips;

        if (other > LONGEST)
            continue;
        slips = slips_between(word, size, known[i], other);
        if (slips > ((size > other ? size : other) + 1) / 3)
            continue;
        if (slips < fewest) {
            fewest = slips;
            best = known[i];
        }
    }
    return best;
}
