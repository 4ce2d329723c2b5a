/* Texts that people read and programs print. */
#ifndef QCI_BASE_WORDS_H
#define QCI_BASE_WORDS_H

#include <stddef.h>

#include "base/error.h"

/* The place's value is a text of `least` to QC_MAX_TEXT_BYTES bytes of UTF-8
 * without control characters, line breaks, codes that turn the writing
 * direction, or codes that are no characters.
 * @return QC_STATUS_OK or QC_STATUS_INVALID. */
qc_status qci_words_check(qc_error *err, qci_place place, size_t least);

#endif
