/* Runs a target on the inputs of a corpus, without the fuzzer: in every build,
 * with every compiler.  replay FOLDER */
#include "fuzz.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>

#define LARGEST ((size_t)1 << 20)

/* Returns whether the file was run. The input is in a block of its own size, so
 * that an address sanitizer sees what is read behind it. */
static bool run_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    uint8_t *all = malloc(LARGEST), *data;
    size_t size;

    if (!file || !all)
        return false;
    size = fread(all, 1, LARGEST, file);
    data = realloc(all, size ? size : 1);
    fclose(file);
    if (!data)
        return false;
    fprintf(stderr, "%s\n", path); /* the last one named is the culprit */
    LLVMFuzzerTestOneInput(data, size);
    free(data);
    return true;
}

int main(int argc, char **argv)
{
    DIR *folder = argc == 2 ? opendir(argv[1]) : NULL;
    struct dirent *entry;
    int run = 0, failed = 0;

    if (!folder) {
        fprintf(stderr, "replay FOLDER: there is no such folder\n");
        return 2;
    }
    while ((entry = readdir(folder))) {
        char path[4096];

        if (entry->d_name[0] == '.')
            continue;
        snprintf(path, sizeof path, "%s/%s", argv[1], entry->d_name);
        if (run_file(path))
            run++;
        else
            failed++;
    }
    closedir(folder);
    printf("%d inputs run, %d not readable\n", run, failed);
    return run == 0 || failed > 0;
}
