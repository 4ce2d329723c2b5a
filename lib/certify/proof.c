/* The form of a proof, whatever it argues. Lists are the proof's own. */
#include "certify/proof.h"

void qci_proof_clear(qci_proof *proof)
{
    for (size_t i = 0; i < proof->pieces.count; i++)
        qci_free(proof->pieces.at[i].id);
    for (size_t i = 0; i < proof->nodes.count; i++) {
        qci_vec_clear(&proof->nodes.at[i].values);
        qci_vec_clear(&proof->nodes.at[i].weights);
    }
    qci_vec_clear(&proof->pieces);
    qci_vec_clear(&proof->forms);
    qci_vec_clear(&proof->heights);
    qci_vec_clear(&proof->nodes);
    qci_free(proof->fabric);
    qci_free(proof->missing);
    proof->fabric = proof->missing = NULL;
}

void qci_proof_destroy(qci_proof *proof)
{
    if (!proof)
        return;
    qci_proof_clear(proof);
    qci_free(proof);
}

static bool within(int64_t value, int64_t lo, int64_t hi)
{
    return value >= lo && value <= hi;
}

static bool is_length(int64_t value)
{
    return within(value, 1, QCI_PROOF_LENGTH);
}

static bool is_lean(int64_t value)
{
    return within(value, -QCI_PROOF_LENGTH, QCI_PROOF_LENGTH) && value % 2 == 0;
}

/* A form, and whether it may stand behind the one before it. */
static bool good_form(const qci_proof *p, size_t i)
{
    const qci_proof_form *f = &p->forms.at[i], *last = i ? f - 1 : f;
    bool alone = qci_proof_alone(f);

    return within(f->kind, 0, p->kind_count - 1) && is_length(f->width) &&
           is_length(f->height) && is_lean(f->left) && is_lean(f->right) &&
           within(f->right - f->left, -2 * f->width, 2 * f->width) &&
           within(f->yields, 1, QCI_PROOF_YIELDS) &&
           (alone || (!qci_proof_alone(last) && f->width <= last->width));
}

static bool good_values(const qci_numbers *numbers)
{
    for (size_t i = 0; i < numbers->count; i++)
        if (!within(numbers->at[i], -QCI_PROOF_VALUE, QCI_PROOF_VALUE))
            return false;
    return true;
}

static bool good_node(const qci_proof *p, const qci_proof_node *n)
{
    if (n->ask == QCI_ASK_CLASS)
        return within(n->most, 0, QCI_PROOF_COUNT) &&
               within(n->at, 0, (int64_t)p->heights.count - 2);
    if (n->ask == QCI_ASK_KIND)
        return within(n->most, 0, QCI_PROOF_COUNT) &&
               within(n->at, 1, QCI_PROOF_COUNT) &&
               within(n->kind, 0, p->kind_count - 1);
    return n->values.count == (size_t)p->kind_count &&
           good_values(&n->values) && good_values(&n->weights);
}

/* Rising, and no form below the first or beyond the last. */
static bool good_heights(const qci_proof *p)
{
    const qci_numbers *h = &p->heights;

    for (size_t i = 0; i < h->count; i++)
        if (!is_length(h->at[i]) || (i && h->at[i] <= h->at[i - 1]))
            return false;
    for (size_t i = 0; i < p->forms.count && h->count; i++)
        if (!within(p->forms.at[i].height, h->at[0], h->at[h->count - 1] - 1))
            return false;
    return h->count > 1;
}

/* Each form takes a cell at least, tables are not too large, and a strip does
 * not hold too many of them. */
static bool good_cells(const qci_proof *p)
{
    size_t most = QCI_PROOF_CELLS / (p->forms.count + 1);
    int64_t narrow = p->width, top;

    if (!is_length(p->cell_across) || !is_length(p->cell_along) ||
        qci_proof_cells_across(p) > most || qci_proof_cells_along(p) > most)
        return false;
    for (size_t i = 0; i < p->forms.count; i++) {
        const qci_proof_form *f = &p->forms.at[i];

        if (p->cell_across > f->width ||
            (!qci_proof_alone(f) && p->cell_along > f->height))
            return false;
        narrow = f->width < narrow ? f->width : narrow;
    }
    top = p->heights.at[p->heights.count - 1];
    return p->width / narrow * (p->stacks ? top / p->heights.at[0] : 1) <=
           QCI_PROOF_FORMS;
}

const char *qci_proof_fault(const qci_proof *p)
{
    if (!is_length(p->step) || !is_length(p->bought) || p->bought % p->step ||
        !within(p->shrink, 0, 9999) || !is_length(p->width) ||
        !within(p->square_up, 0, QCI_PROOF_LENGTH) ||
        !within(p->used, 0, QCI_PROOF_LENGTH))
        return "a length is not possible, or bought is not a multiple of step";
    if (!within(p->kind_count, 1, QCI_PROOF_LIST) ||
        !within((int64_t)p->pieces.count, 1, QCI_PROOF_LIST) ||
        !within((int64_t)p->forms.count, 1, QCI_PROOF_LIST))
        return "nothing is to be cut, or too many kinds of piece";
    for (size_t i = 0; i < p->pieces.count; i++)
        if (!within(p->pieces.at[i].kind, 0, p->kind_count - 1) ||
            !within(p->pieces.at[i].count, 1, QCI_PROOF_COUNT))
            return "a count of pieces is not possible";
    for (size_t i = 0; i < p->forms.count; i++)
        if (!good_form(p, i))
            return "a form is not possible, or stands in the wrong place";
    if (!good_heights(p))
        return "heights: do not rise, or do not hold all forms";
    if (!good_cells(p))
        return "cells are too large, or too fine";
    for (size_t i = 0; i < p->nodes.count; i++)
        if (!good_node(p, &p->nodes.at[i]))
            return "a node asks what cannot be, or has not a value for each "
                   "kind";
    return NULL;
}
