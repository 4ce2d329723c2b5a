/* A certificate in memory: what is written and read. */
#ifndef QCI_JSON_CERTIFICATE_H
#define QCI_JSON_CERTIFICATE_H

#include <quiltcut/length.h>

#include "certify/proof.h"

typedef struct qci_certificate {
    const char *title; /* while it is being read */
    qc_units units;    /* that lengths are told in */
    QCI_VEC(qci_proof) proofs;
} qci_certificate;

/* Reads a certificate; what it says is not checked. The caller clears `out`, on
 * failure too. */
qc_status qci_certificate_read(const char *text, size_t size,
                               qci_certificate *out, qc_error *err);
void qci_certificate_clear(qci_certificate *certificate);

#endif
