/* Sines, roots and rounding in integers.
 *
 * A sine or cosine is the Taylor series at an angle of at most 45 degrees, in
 * units of 2^-62 (about 16 terms until they vanish), so that what is returned
 * in units of 2^-60 is off by a few of them at most; other angles are
 * reflections. A direction (x, y) is divided by its length, an integer root,
 * after both are scaled up to use all digits. Nothing is floating point: every
 * machine gets the same cut sizes. */
#include "shape/fixed.h"

/* pi x 2^60, rounded down (pi from memory: 3.14159265358979323846264338). */
#define PI INT64_C(3622009729038561421)
#define SERIES_BITS 62

/* The sum of x^n / n! with changing signs, over the n that are odd (from 1) or
 * even (from 0). x in units of 2^-62, at most 1. */
static qci_wide series(qci_wide x, int first)
{
    qci_wide term = first ? x : (qci_wide)1 << SERIES_BITS;
    qci_wide sum = 0;

    for (int n = first; term; n += 2) {
        sum += term;
        term = -((term * x) >> SERIES_BITS);
        term = ((term * x) >> SERIES_BITS) / ((qci_wide)(n + 1) * (n + 2));
    }
    return sum;
}

static int64_t to_part(qci_wide sum)
{
    const int shift = SERIES_BITS - QCI_ONE_BITS;

    return (int64_t)((sum + ((qci_wide)1 << (shift - 1))) >> shift);
}

qci_dir qci_dir_at(int32_t angle)
{
    const int32_t right = 90 * QC_DEGREE;
    qci_dir back;
    qci_wide x;

    if (angle > right) {
        back = qci_dir_at(2 * right - angle);
        return (qci_dir){-back.x, back.y};
    }
    if (angle > right / 2) {
        back = qci_dir_at(right - angle);
        return (qci_dir){back.y, back.x};
    }
    x = (qci_wide)PI * 4 * angle / ((qci_wide)2 * right);
    return (qci_dir){to_part(series(x, 0)), to_part(series(x, 1))};
}

static int64_t size_of(int64_t n)
{
    return n < 0 ? -n : n;
}

qci_dir qci_dir_along(int64_t x, int64_t y)
{
    int64_t length;

    while (size_of(x) < QCI_ONE && size_of(y) < QCI_ONE) {
        x *= 2;
        y *= 2;
    }
    length = qci_root((qci_wide)x * x + (qci_wide)y * y);
    return (qci_dir){(int64_t)((qci_wide)x * QCI_ONE / length),
                     (int64_t)((qci_wide)y * QCI_ONE / length)};
}

qc_length qci_fine_up_to(qci_fine value, qc_length step)
{
    qci_fine grid = qci_fine_of(step);
    qci_fine less = value - QCI_FINE_NEAR;
    qci_fine count = less / grid;

    return (less > 0 && less % grid ? count + 1 : count) * step;
}

qc_length qci_fine_up(qci_fine value)
{
    return qci_fine_up_to(value, 1);
}

qc_length qci_fine_even_down(qci_fine value)
{
    return -qci_fine_up_to(-value, 2);
}

bool qci_fine_whole(qci_fine value)
{
    return qci_fine_of(qci_fine_up(value)) - value <= QCI_FINE_NEAR;
}

qci_fine qci_fine_scaled(qci_fine value, int64_t top, int64_t bottom)
{
    qci_wide scaled = (qci_wide)value * top / bottom;

    return scaled > QCI_FINE_MAX    ? QCI_FINE_MAX
           : scaled < -QCI_FINE_MAX ? -QCI_FINE_MAX
                                    : (qci_fine)scaled;
}
