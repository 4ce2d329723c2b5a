/* Any corners as a polygon that is wanted a few times: refused, or cut so that
 * the replay accepts it. */
#include "fuzz.h"

#include <string.h>

#include "base/alloc.h"

static void fill(fuzz_bytes *from, qc_piece_spec *piece,
                 qc_point points[QC_MAX_CORNERS])
{
    qc_piece_spec_init(piece);
    piece->id = "P";
    piece->fabric = "a";
    piece->shape = QC_SHAPE_POLYGON;
    piece->is_cut = fuzz_choice(from, 2);
    piece->tips = (qc_tips)fuzz_choice(from, 2);
    piece->grain = fuzz_choice(from, 2) ? QC_GRAIN_ANY : QC_GRAIN_DEFAULT;
    piece->count = 1 + fuzz_choice(from, 7);
    if (fuzz_choice(from, 2)) {
        piece->left = fuzz_choice(from, 3);
        piece->right = fuzz_choice(from, 3);
    }
    fuzz_polygon(from, piece, points);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fuzz_bytes from = {data, size};
    long live = qci_alloc_live();
    qc_point points[QC_MAX_CORNERS];
    qc_fabric_spec fabric;
    qc_piece_spec piece;
    qc_job_spec spec;
    qc_job *job;
    qc_error err;
    qc_status status;

    qc_job_spec_init(&spec, (qc_units)fuzz_choice(&from, 3));
    qc_fabric_spec_init(&fabric);
    fabric.id = "a";
    fabric.print = (qc_print)fuzz_choice(&from, 4);
    spec.seam = fuzz_choice(&from, 4) == 3 ? fuzz_length(&from) : QC_DEFAULT;
    spec.ruler = fuzz_choice(&from, 4) == 3 ? fuzz_length(&from) : QC_DEFAULT;
    fill(&from, &piece, points);
    spec.fabrics = &fabric;
    spec.fabric_count = 1;
    spec.pieces = &piece;
    spec.piece_count = 1;
    qc_error_init(&err);
    status = qc_job_create(&spec, &job, &err);
    if (status) {
        FUZZ_EXPECT(!job);
        FUZZ_EXPECT(status == QC_STATUS_INVALID ||
                    status == QC_STATUS_IMPOSSIBLE);
        fuzz_expect_error(&err, status);
    } else {
        fuzz_plan(job, 100, false);
    }
    qc_job_destroy(job);
    FUZZ_EXPECT(qci_alloc_live() == live);
    return 0;
}
