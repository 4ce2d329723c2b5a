/* What the fuzz targets share. A target is one file with
 * LLVMFuzzerTestOneInput(): built by clang with -fsanitize=fuzzer it searches
 * for inputs, built with replay.c it runs those of the corpus. It must not only
 * survive an input but hold what the library promises of it: FUZZ_EXPECT() ends
 * the process. */
#ifndef QC_TESTS_FUZZ_H
#define QC_TESTS_FUZZ_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include <quiltcut/quiltcut.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

#define FUZZ_EXPECT(what)                                                      \
    ((what) ? (void)0 : fuzz_broken(#what, __FILE__, __LINE__))
void fuzz_broken(const char *what, const char *file, int line);

/* The record tells what the status does, in text that may be shown. */
void fuzz_expect_error(const qc_error *err, qc_status status);
/* The place it names is in the text: its lines are counted, its columns are
 * bytes.
 */
void fuzz_expect_place(const qc_error *err, const char *text, size_t size);
/* UTF-8 without control characters, but for line feeds. */
void fuzz_expect_text(const char *text, size_t size);
/* Solves with a small limit, on a plan in either hand; every output of it is
 * what it should be. */
void fuzz_plan(const qc_job *job, int32_t time_limit_ms, bool left_handed);

/* --- bytes.c: values out of the bytes of an input ------------------------ */

typedef struct fuzz_bytes {
    const uint8_t *at;
    size_t left;
} fuzz_bytes;

/* The next byte; 0 behind the end. */
uint8_t fuzz_byte(fuzz_bytes *from);
/* One of 0 to n - 1. */
unsigned fuzz_choice(fuzz_bytes *from, unsigned n);
/* `bytes` of them, 1 to 8, as a signed number. */
int64_t fuzz_number(fuzz_bytes *from, int bytes);
/* Mostly a length that people cut, at times anything that 64 bits hold. */
qc_length fuzz_length(fuzz_bytes *from);

/* --- spec.c -------------------------------------------------------------- */

#define FUZZ_FABRICS 3
#define FUZZ_PIECES 6
#define FUZZ_SETS 2
#define FUZZ_SET_STRIPS 5

/* A job's spec and all that it points to. */
typedef struct fuzz_spec {
    qc_job_spec spec;
    qc_fabric_spec fabrics[FUZZ_FABRICS];
    qc_piece_spec pieces[FUZZ_PIECES];
    qc_point points[FUZZ_PIECES][QC_MAX_CORNERS];
    qc_strip_set_spec sets[FUZZ_SETS];
    qc_set_strip_spec strips[FUZZ_SETS][FUZZ_SET_STRIPS];
} fuzz_spec;

/* Corners, counter-clockwise where they are in luck. */
void fuzz_polygon(fuzz_bytes *from, qc_piece_spec *piece,
                  qc_point points[QC_MAX_CORNERS]);
/* Fills `spec` with whatever the bytes say; any bytes say something. */
void fuzz_fill_spec(fuzz_bytes *from, fuzz_spec *spec);

#endif
