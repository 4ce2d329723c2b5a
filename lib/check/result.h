/* What a check has found. */
#ifndef QCI_CHECK_RESULT_H
#define QCI_CHECK_RESULT_H

#include "base/text.h"
#include "base/vec.h"
#include "check/run.h"

struct qc_check {
    char *title;
    qc_units units;
    QCI_VEC(qc_finding) findings; /* texts owned */
    qc_check_fabric *fabrics;     /* texts owned */
    qc_check_width **widths;      /* per fabric; texts owned */
    size_t fabric_count;
};

/* A check while it is made. */
typedef struct qci_checker {
    const qc_instructions *of;
    const qci_run *as_written; /* at the stated widths */
    const qci_run *with_added; /* the same with the strips that are missing */
    qc_check *check;
    qc_error *err;
} qci_checker;

/* Adds a finding, whose text is `words`, which it empties; `step` is an index
 * or QC_NONE, `piece` too.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_checker_add(const qci_checker *checker, qc_finding finding,
                          uint32_t step, uint32_t fabric, uint32_t piece,
                          qci_text *words);
/* The same of a strip set of the job, by its index; `fabric` may be QC_NONE. */
qc_status qci_checker_add_set(const qci_checker *checker, qc_finding finding,
                              uint32_t step, uint32_t fabric, uint32_t set,
                              qci_text *words);

/* The parts of a check. Each returns QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_check_steps(const qci_checker *checker);
qc_status qci_check_sizes(const qci_checker *checker);
qc_status qci_check_segments(const qci_checker *checker);
qc_status qci_check_totals(const qci_checker *checker);
qc_status qci_check_yardage(const qci_checker *checker);

/* Carries a plan's own steps out and fills the check, which has room for its
 * fabrics. @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_check_plan(const qc_plan *plan, qc_check *check, qc_error *err);

/* Widths that fabrics really have; of bolts that are sold as 44 in wide, or as
 * 110 cm, after washing and without their selvages. */
#define QCI_CHECK_WIDTHS 9
size_t qci_check_widths(qc_units units, qc_length out[QCI_CHECK_WIDTHS]);
/* Room for so many widths of each fabric.
 * @return QC_STATUS_OK or QC_STATUS_NO_MEMORY. */
qc_status qci_check_make_widths(qc_check *check, size_t count, qc_error *err);

/* Squaring-up and what a run took off the bolt; -1 when that is longer than any
 * length. Nothing is squared up where nothing is cut. */
qc_length qci_check_used(const qci_run *run, uint32_t fabric);

/* "4 strips 3 1/2 in wide" of the step that gave the name first; "2 sections",
 * "3 sets". */
void qci_check_say_strips(qci_text *words, const qci_checker *checker,
                          uint32_t name, int64_t count);
/* "3 pieces", "1 piece" */
void qci_check_say_count(qci_text *words, int64_t count, const char *noun);
/* "1 1/8 yd (40 1/2 in)" */
void qci_check_say_bought(qci_text *words, qc_length length, qc_units units);

#endif
