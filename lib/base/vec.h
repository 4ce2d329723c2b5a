/* Growable arrays: QCI_VEC(int) list = {0}; if (!qci_vec_push(&list, 3)) ... */
#ifndef QCI_BASE_VEC_H
#define QCI_BASE_VEC_H

#include <stdbool.h>
#include <stddef.h>

#include "base/alloc.h"

#define QCI_VEC(type)                                                          \
    struct {                                                                   \
        type *at;                                                              \
        size_t count;                                                          \
        size_t room;                                                           \
    }

/* Makes room for one more element of `size` bytes. */
static inline bool qci_vec_grow(void **at, size_t count, size_t *room,
                                size_t size)
{
    size_t wanted = *room ? 2 * *room : 8;
    void *grown;

    if (count < *room)
        return true;
    grown = qci_realloc(*at, wanted, size);
    if (!grown)
        return false;
    *at = grown;
    *room = wanted;
    return true;
}

/* Room for one more element; false when memory is out. */
#define qci_vec_reserve(vec)                                                   \
    qci_vec_grow((void **)&(vec)->at, (vec)->count, &(vec)->room,              \
                 sizeof *(vec)->at)

/* Appends a value; false when memory is out. */
#define qci_vec_push(vec, ...)                                                 \
    (qci_vec_reserve(vec) && ((vec)->at[(vec)->count++] = (__VA_ARGS__), true))

#define qci_vec_clear(vec)                                                     \
    (qci_free((vec)->at), (vec)->at = NULL, (vec)->count = (vec)->room = 0)

#endif
