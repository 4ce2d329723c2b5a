/* How many pieces of one type that lies alone a strip holds. */
#ifndef QCI_PACK_ALONE_ROW_H
#define QCI_PACK_ALONE_ROW_H

#include "pack/pattern.h"

/* Fills a strip of this (scaled) height with a row's lays that lie alone;
 * `sequence` receives them, when it is not NULL. Returns their number. */
int32_t qci_alone_row(const qci_model *model, int32_t row, int64_t height,
                      int32_t *sequence);

#endif
