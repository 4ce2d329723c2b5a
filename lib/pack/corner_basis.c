/* The basis of a program's solution, and the residues of pieces by it.
 *
 * Columns of the basis come one after the other in place of the surplus of a
 * row, and the inverse goes along. The product of the pivots is the
 * determinant. With it as modulus every piece has a residue, so that what
 * columns of the basis hold, whole times, has residue 0: a vector of integers
 * that the basis takes to multiples of the determinant. It is found by rounding
 * and is right only when integers say so. */
#include <math.h>
#include <stdlib.h>

#include "base/alloc.h"
#include "base/wide.h"
#include "pack/corner_inner.h"

/* What is independent moves some surplus by more than this. */
#define PIVOT 1e-6
/* Larger determinants are of no use: nothing would be found. */
#define MODULUS_MOST 4e16
/* A prime, by which they are told exactly, and what pivots may be off. */
#define PRIME INT64_C(2147483647)
#define OFF 1e8
#define REFININGS 8

static int32_t choose_pivot(const qci_basis *b)
{
    int32_t best = -1;
    double most = PIVOT;

    for (int32_t i = 0; i < b->count; i++)
        if (!b->pattern[i] && fabs(b->move[i]) > most) {
            most = fabs(b->move[i]);
            best = i;
        }
    return best;
}

/* Takes a pattern in, if it is independent of those there. */
static void enter(qci_basis *b, const qci_pattern *pattern, double *determinant)
{
    int32_t n = b->count, at;
    double *own;

    for (int32_t i = 0; i < n; i++) {
        b->move[i] = 0.0;
        for (int32_t k = 0; k < pattern->row_count; k++)
            b->move[i] += b->inverse[i * n + pattern->rows[k].row] *
                          pattern->rows[k].count;
    }
    at = choose_pivot(b);
    if (at < 0)
        return;
    b->pattern[at] = pattern;
    *determinant *= fabs(b->move[at]);
    own = b->inverse + (ptrdiff_t)at * n;
    for (int32_t k = 0; k < n; k++)
        own[k] /= b->move[at];
    for (int32_t i = 0; i < n; i++)
        for (int32_t k = 0; k < n && i != at; k++)
            b->inverse[i * n + k] -= b->move[i] * own[k];
}

/* Of what is in use first, then of what costs nothing. */
static double enter_all(qci_basis *b, const qci_master *m)
{
    double determinant = 1.0;

    for (int idle = 0; idle < 2; idle++)
        for (size_t j = 0; j < m->columns.count; j++) {
            bool used = qci_master_use(m, j) > 0.0;
            double cost = qci_lp_reduced_cost(m->lp, m->listed + (int)j);

            if (qci_master_pattern(m, j) && !m->shut.at[j] &&
                (idle ? !used && fabs(cost) < 1e-7 : used))
                enter(b, qci_master_pattern(m, j), &determinant);
        }
    return determinant;
}

/* The basis by its columns, each number in 0 .. PRIME - 1. */
static int64_t *reduce_basis(const qci_basis *b)
{
    int32_t n = b->count;
    int64_t *a = qci_calloc((size_t)n * (size_t)n, sizeof *a);

    for (int32_t i = 0; i < n && a; i++) {
        if (!b->pattern[i])
            a[i * n + b->row[i]] = PRIME - 1;
        for (int32_t k = 0; b->pattern[i] && k < b->pattern[i]->row_count; k++)
            a[i * n + b->pattern[i]->rows[k].row] =
                b->pattern[i]->rows[k].count;
    }
    return a;
}

static int64_t inverse_of(int64_t x)
{
    int64_t result = 1;

    for (int64_t power = PRIME - 2; power; power /= 2, x = x * x % PRIME)
        if (power & 1)
            result = result * x % PRIME;
    return result;
}

/* The determinant modulo PRIME, but for its sign; 0 also where a pivot is. */
static int64_t determinant_mod(int64_t *a, int32_t n)
{
    int64_t product = 1;

    for (int32_t k = 0; k < n; k++) {
        int32_t at = k;
        int64_t by;

        while (at < n && !a[at * n + k])
            at++;
        if (at == n)
            return 0;
        for (int32_t j = k; j < n && at > k; j++) {
            int64_t other = a[k * n + j];

            a[k * n + j] = a[at * n + j];
            a[at * n + j] = other;
        }
        product = product * a[k * n + k] % PRIME;
        by = inverse_of(a[k * n + k]);
        for (int32_t i = k + 1; i < n; i++) {
            int64_t times = a[i * n + k] * by % PRIME;

            for (int32_t j = k; j < n && times; j++)
                a[i * n + j] =
                    (a[i * n + j] + (PRIME - times) * a[k * n + j]) % PRIME;
        }
    }
    return product;
}

/* The number nearest to `about` that leaves `rest` modulo PRIME. */
static int64_t nearest_with(int64_t about, int64_t rest)
{
    int64_t off = (rest - about % PRIME + PRIME) % PRIME;

    return about + (off > PRIME / 2 ? off - PRIME : off);
}

/* The product of the pivots, made exact; 0 where it is too far off. */
static bool find_modulus(qci_basis *b, double product)
{
    int64_t *a, about, rest, one, other;

    if (product > MODULUS_MOST)
        return true;
    a = reduce_basis(b);
    if (!a)
        return false;
    rest = determinant_mod(a, b->count);
    qci_free(a);
    about = llround(product);
    one = nearest_with(about, rest);
    other = nearest_with(about, PRIME - rest);
    b->modulus = llabs(one - about) < llabs(other - about) ? one : other;
    if (!rest || b->modulus < 1 || (double)llabs(b->modulus - about) > OFF)
        b->modulus = 0;
    return true;
}

/* What the residues of a place's column lack to a multiple of the modulus. */
static qci_wide lack(const qci_basis *b, int part, int32_t at, int64_t multiple)
{
    qci_wide sum = (qci_wide)multiple * b->modulus;

    if (!b->pattern[at])
        return sum + b->residue[b->row[at]].part[part];
    for (int32_t k = 0; k < b->pattern[at]->row_count; k++)
        sum -= (qci_wide)b->residue[b->pattern[at]->rows[k].row].part[part] *
               b->pattern[at]->rows[k].count;
    return sum;
}

/* Adds what is lacking, by the inverse; false when nothing is. */
static bool refine(qci_basis *b, int part)
{
    int32_t n = b->count;
    uint64_t seed = (uint64_t)part + 1;
    bool any = false;

    for (int32_t i = 0; i < n; i++) {
        seed = seed * UINT64_C(6364136223846793005) +
               UINT64_C(1442695040888963407);
        b->move[i] = (double)lack(b, part, i, (int64_t)(seed >> 61));
        any = any || b->move[i] != 0.0;
    }
    for (int32_t k = 0; k < n && any; k++) {
        double sum = 0.0;

        for (int32_t i = 0; i < n; i++)
            sum += b->move[i] * b->inverse[i * n + k];
        if (!(fabs(sum) < 1e18))
            return true;
        b->residue[k].part[part] += llround(sum);
    }
    return any;
}

static bool find_part(qci_basis *b, int part)
{
    int turns = 0;

    while (refine(b, part) && turns < REFININGS)
        turns++;
    for (int32_t k = 0; k < b->count; k++) {
        int64_t *r = &b->residue[k].part[part];

        *r %= b->modulus;
        *r += *r < 0 ? b->modulus : 0;
    }
    return turns < REFININGS;
}

static void find_residues(qci_basis *b)
{
    for (int part = 0; part < QCI_RESIDUES && b->modulus; part++)
        if (!find_part(b, part))
            b->modulus = 0;
}

bool qci_basis_create(qci_basis *b, const qci_master *master)
{
    size_t n = (size_t)master->model->row_count;

    *b = (qci_basis){.count = (int32_t)n};
    b->pattern = qci_calloc(n, sizeof *b->pattern);
    b->row = qci_calloc(n, sizeof *b->row);
    b->inverse = qci_calloc(n * n, sizeof *b->inverse);
    b->move = qci_calloc(n, sizeof *b->move);
    b->residue = qci_calloc(n, sizeof *b->residue);
    if (!b->pattern || !b->row || !b->inverse || !b->move || !b->residue)
        return false;
    for (size_t i = 0; i < n; i++) {
        b->row[i] = (int32_t)i;
        b->inverse[i * n + i] = -1.0;
    }
    if (!find_modulus(b, enter_all(b, master)))
        return false;
    find_residues(b);
    return true;
}

void qci_basis_clear(qci_basis *b)
{
    qci_free(b->pattern);
    qci_free(b->row);
    qci_free(b->inverse);
    qci_free(b->move);
    qci_free(b->residue);
}

bool qci_basis_fill(qci_basis *b, const int64_t *need)
{
    for (int32_t i = 0; i < b->count; i++) {
        double sum = 0.0;

        for (int32_t k = 0; k < b->count; k++)
            sum += b->inverse[i * b->count + k] * (double)need[k];
        b->move[i] = round(sum);
        if (b->move[i] < 0.0 || fabs(sum - b->move[i]) > 1e-3)
            return false;
    }
    return true;
}
