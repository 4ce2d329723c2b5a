/* Specs in which everything is left open. */
#include <quiltcut/job.h>

#include <string.h>

void qc_job_spec_init(qc_job_spec *spec, qc_units units)
{
    memset(spec, 0, sizeof *spec);
    spec->struct_size = (uint32_t)sizeof *spec;
    spec->units = units;
    spec->ruler = QC_DEFAULT;
    spec->seam = QC_DEFAULT;
    spec->stages = QC_DEFAULT;
    spec->keep = QC_DEFAULT;
    spec->layers = QC_DEFAULT;
    spec->spare_count = QC_DEFAULT;
    spec->spare_percent = QC_DEFAULT;
    spec->time_limit_ms = QC_DEFAULT;
}

void qc_fabric_spec_init(qc_fabric_spec *spec)
{
    memset(spec, 0, sizeof *spec);
    spec->width = QC_DEFAULT;
    spec->raw_width = QC_DEFAULT;
    spec->print = QC_PRINT_DEFAULT;
    spec->step = QC_DEFAULT;
    spec->square_up = QC_DEFAULT;
    spec->shrink_length = QC_DEFAULT;
    spec->shrink_width = QC_DEFAULT;
    spec->price = QC_DEFAULT;
}

void qc_piece_spec_init(qc_piece_spec *spec)
{
    memset(spec, 0, sizeof *spec);
    spec->trim = QC_DEFAULT;
    spec->grain = QC_GRAIN_DEFAULT;
    spec->left = QC_DEFAULT;
    spec->right = QC_DEFAULT;
}

void qc_strip_set_spec_init(qc_strip_set_spec *spec)
{
    memset(spec, 0, sizeof *spec);
    spec->angle = QC_DEFAULT;
    spec->spacing = QC_DEFAULT;
}

void qc_block_spec_init(qc_block_spec *spec)
{
    memset(spec, 0, sizeof *spec);
}
