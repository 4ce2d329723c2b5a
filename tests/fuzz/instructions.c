/* Any bytes as instructions, in JSON, or, where they do not begin with a brace,
 * as a table: instructions that can be carried
 * out, printed and checked, or one clear message with a place in the text, and
 * nothing left behind. The least to buy is computed with a small time limit. */
#include "fuzz.h"

#include <stdbool.h>
#include <string.h>

#include "base/alloc.h"

#define LIMIT_MS 20

static void expect_output(const qc_check *check)
{
    char *text;

    FUZZ_EXPECT(qc_check_text(check, &text, NULL) == QC_STATUS_OK);
    fuzz_expect_text(text, strlen(text));
    qc_text_destroy(text);
    FUZZ_EXPECT(qc_check_json(check, &text, NULL) == QC_STATUS_OK);
    fuzz_expect_text(text, strlen(text));
    qc_text_destroy(text);
    for (size_t i = 0; i < qc_check_fabric_count(check); i++) {
        const qc_check_fabric *fabric = qc_check_fabric_at(check, i);

        FUZZ_EXPECT(!fabric->solved || fabric->bound <= fabric->optimum);
    }
}

static void carry_out(const qc_instructions *instructions)
{
    qc_check_options options;
    qc_solve_options solve;
    qc_check *check;
    qc_error err;
    qc_status status;

    qc_error_init(&err);
    qc_solve_options_init(&solve);
    solve.time_limit_ms = LIMIT_MS;
    solve.threads = 1;
    qc_check_options_init(&options);
    options.solve = &solve;
    status = qc_instructions_check(instructions, &options, &check, &err);
    if (status) {
        FUZZ_EXPECT(!check);
        FUZZ_EXPECT(status != QC_STATUS_REJECTED && status != QC_STATUS_SOLVER);
        fuzz_expect_error(&err, status);
    } else {
        expect_output(check);
    }
    qc_check_destroy(check);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    long live = qci_alloc_live();
    bool table = size && !strchr("{[", data[0]);
    qc_instructions *instructions;
    qc_error err;
    qc_status status;

    qc_error_init(&err);
    status = table
                 ? qc_instructions_parse_table((const char *)data, size,
                                               QC_UNITS_IN, &instructions, &err)
                 : qc_instructions_parse((const char *)data, size,
                                         &instructions, &err);
    if (status) {
        FUZZ_EXPECT(!instructions);
        FUZZ_EXPECT(status == QC_STATUS_INVALID ||
                    status == QC_STATUS_IMPOSSIBLE);
        fuzz_expect_error(&err, status);
        if (!table)
            fuzz_expect_place(&err, (const char *)data, size);
    } else {
        carry_out(instructions);
    }
    qc_instructions_destroy(instructions);
    FUZZ_EXPECT(qci_alloc_live() == live);
    return 0;
}
