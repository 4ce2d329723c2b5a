/* Where the bytes of a picture go. */
#ifndef QUILTCUT_CLI_RECEIVER_H
#define QUILTCUT_CLI_RECEIVER_H

#include "cli.h"

typedef struct receiver {
    /* stage_file() of a path that the user wrote out, else stage_inside() */
    int (*stage)(outputs *set, const char *path, const void *bytes,
                 size_t size);
    outputs *set;
    const char *path;
    int status;
} receiver;

/* Stages what is drawn; a qc_write_fn. */
int receive(const void *bytes, size_t size, void *user);
/* Says what went wrong before there was anything to stage; the exit code. */
int end_receiving(receiver *to, qc_status status, const qc_error *err);

#endif
