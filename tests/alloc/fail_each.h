/* A public call with its n-th allocation failing, for every n. */
#ifndef QC_TEST_FAIL_EACH_H
#define QC_TEST_FAIL_EACH_H

#include <stdbool.h>

#include <quiltcut/status.h>

/* One public call. It hands back what it made, through `out`. */
typedef qc_status (*call)(void **out, qc_error *err);

/* Allocations of the JSON library are ours from now on. They are counted for
 * one thread. */
void take_json_allocations(void);
/* Has everything been given back, the JSON library's and ours? */
bool nothing_is_live(void);

/* Makes the n-th allocation fail, of the JSON library's or of ours; onwards:
 * all after it, too; 0: none. */
void fail_at(bool json, long n, bool onwards);

/* Tries n = 1, 1 + stride, ... until the call gets through. Returns how many
 * failed; each with NO_MEMORY, nothing handed out and nothing left behind. */
long fail_each(call make, void (*destroy)(void *), bool json, bool onwards,
               long stride);

#endif
