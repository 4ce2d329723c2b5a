/* Ending a proof. Lists are the proof's own. */
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
