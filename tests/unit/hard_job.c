#include "hard_job.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

qc_job *qct_hard_job(int fabrics, int sizes, int count)
{
    static char text[40000];
    size_t used = 0;
    qc_job *job;

#define ADD(...)                                                               \
    (used += (size_t)snprintf(text + used, sizeof text - used, __VA_ARGS__))
    ADD("{\"quiltcut\": 1, \"fabrics\": [");
    for (int f = 0; f < fabrics; f++)
        ADD("%s{\"id\": \"F%d\", \"width\": \"%d\"}", f ? "," : "", f, 20 + f);
    ADD("], \"pieces\": [");
    for (int i = 0; i < fabrics * sizes; i++)
        ADD("%s{\"id\": \"P%d\", \"fabric\": \"F%d\", \"shape\": \"rectangle\","
            "\"cut\": [\"%d 1/8\", \"%d 3/8\"], \"count\": %d}",
            i ? "," : "", i, i / sizes, 2 + i * 5 % 7, 1 + i * 3 % 11,
            count + i * 13 % 17);
    ADD("]}");
    assert_true(used < sizeof text);
    assert_int_equal(qc_job_parse(text, used, &job, NULL), QC_STATUS_OK);
    return job;
}

qc_job *qct_example_job(const char *name)
{
    static char text[1 << 16];
    char path[1024];
    FILE *file;
    qc_job *job;
    size_t size;

    snprintf(path, sizeof path, QC_SOURCE_DIR "/bindings/cli/examples/%s",
             name);
    file = fopen(path, "rb");
    assert_non_null(file);
    size = fread(text, 1, sizeof text, file);
    fclose(file);
    assert_int_equal(qc_job_parse(text, size, &job, NULL), QC_STATUS_OK);
    return job;
}
