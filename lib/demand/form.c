/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the later rooms ask of a form. */

#include "demand/demand.h"

#include "shape/shape.h"

bool qci_form_is_alone(const qci_form *form)
{
    return form->left || form->right || form->corners;
}

qc_length qci_form_room(const qci_form *form)
{
    return form->width + qci_lean_gap(form->left, 0) +
           qci_lean_gap(form->right, 0);
}

bool qci_form_is_turned(const qci_form *a, const qci_form *b)
{
    return a->row == b->row && a->width == b->width && a->height == b->height &&
           a->left == b->right && a->right == b->left && a->left != a->right &&
           a->base == b->base && a->mirrored == b->mirrored &&
           a->turn != b->turn && (a->turn + b->turn) % 2 == 0;
}

int32_t qci_demand_mirror(const qci_demand *demand, int32_t form, int32_t row)
{
    const qci_form *f = &demand->forms[form];

    for (size_t i = 0; i < demand->form_count; i++) {
        const qci_form *g = &demand->forms[i];

        if (g->row == row && g->width == f->width && g->height == f->height &&
            g->left == -f->right && g->right == -f->left &&
            g->yields == f->yields)
            return (int32_t)i;
    }
    return -1;
}
