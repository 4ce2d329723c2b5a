/* Files in and out.
 *
 * What is written to a file is complete or not there at all: it goes to a
 * hidden file in the same folder, is flushed to disk, and takes its name when
 * everything else has succeeded as well. Things that are not ordinary files
 * (a device, a pipe) cannot be replaced and are written to directly. The file
 * that the job came from is never written to. */
#include "cli.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#define LARGEST_INPUT ((size_t)64 << 20)

static const char temp_name[] = ".quiltcut-XXXXXX";

static int no_memory(void)
{
    complain("out of memory");
    return CLI_FAILED;
}

/* Reads to the end or the limit; false with errno, 0 for "too large". */
static bool read_all(int fd, char **out, size_t *size)
{
    size_t room = 0;

    *out = NULL;
    *size = 0;
    for (;;) {
        ssize_t n;

        if (*size == room) {
            char *grown = realloc(*out, room ? 2 * room : 1 << 16);

            if (!grown)
                return false;
            room = room ? 2 * room : 1 << 16;
            *out = grown;
        }
        n = read(fd, *out + *size, room - *size);
        if (n == 0)
            return true;
        if (n < 0 && errno != EINTR)
            return false;
        if (n > 0)
            *size += (size_t)n;
        if (*size > LARGEST_INPUT) {
            errno = EFBIG;
            return false;
        }
    }
}

int read_input(const char *name, char **out, size_t *size, file_mark *mark)
{
    bool from_stdin = strcmp(name, "-") == 0;
    int fd = from_stdin ? STDIN_FILENO : open(name, O_RDONLY);
    struct stat info;
    bool good = false;

    *out = NULL;
    if (fd >= 0) {
        mark->known = fstat(fd, &info) == 0 && S_ISREG(info.st_mode);
        if (mark->known) {
            mark->device = (uint64_t)info.st_dev;
            mark->number = (uint64_t)info.st_ino;
        }
        good = read_all(fd, out, size);
    }
    if (!good) {
        complain("%s: cannot be read: %s", from_stdin ? "standard input" : name,
                 errno == EFBIG ? "larger than 64 MiB" : strerror(errno));
        free(*out);
        *out = NULL;
    }
    if (fd >= 0 && !from_stdin)
        close(fd);
    return good ? CLI_DONE : CLI_INPUT;
}

static bool write_all(int fd, const char *bytes, size_t size)
{
    while (size) {
        ssize_t n = write(fd, bytes, size);

        if (n < 0 && errno != EINTR)
            return false;
        if (n > 0) {
            bytes += n;
            size -= (size_t)n;
        }
    }
    return true;
}

int print_out(const char *bytes, size_t size)
{
    if (write_all(STDOUT_FILENO, bytes, size))
        return CLI_DONE;
    complain("standard output: cannot be written: %s", strerror(errno));
    return CLI_FAILED;
}

int print_text(const char *text)
{
    return print_out(text, strlen(text));
}

int print_paths(const outputs *set)
{
    int status = CLI_DONE;

    for (size_t i = 0; i < set->count && status == CLI_DONE; i++) {
        status = print_text(set->files[i].path);
        if (status == CLI_DONE)
            status = print_text("\n");
    }
    return status;
}

static int complain_write(const char *path)
{
    complain("%s: cannot be written: %s", path, strerror(errno));
    return CLI_FAILED;
}

static int write_directly(const char *path, const void *bytes, size_t size)
{
    int fd = open(path, O_WRONLY);
    bool good = fd >= 0 && write_all(fd, bytes, size);
    int problem = errno;

    if (fd >= 0 && close(fd) != 0 && good) {
        good = false;
        problem = errno;
    }
    errno = problem;
    return good ? CLI_DONE : complain_write(path);
}

/* Name of a hidden file in the folder of `path`. */
static char *temp_beside(const char *path)
{
    const char *slash = strrchr(path, '/');
    size_t folder = slash ? (size_t)(slash + 1 - path) : 0;
    char *temp = malloc(folder + sizeof temp_name);

    if (temp) {
        memcpy(temp, path, folder);
        memcpy(temp + folder, temp_name, sizeof temp_name);
    }
    return temp;
}

static mode_t usual_mode(void)
{
    mode_t mask = umask(0);

    umask(mask);
    return 0666 & ~mask;
}

/* Makes the hidden file; on failure nothing is left of it. */
static bool fill_temp(char *temp, mode_t mode, const void *bytes, size_t size)
{
    int fd = mkstemp(temp), problem;
    bool good;

    if (fd < 0)
        return false;
    good =
        fchmod(fd, mode) == 0 && write_all(fd, bytes, size) && fsync(fd) == 0;
    problem = errno;
    if (close(fd) != 0 && good) {
        good = false;
        problem = errno;
    }
    if (!good)
        unlink(temp);
    errno = problem;
    return good;
}

static int stage_new(outputs *set, const char *path, mode_t mode,
                     const void *bytes, size_t size)
{
    struct staged *grown =
        realloc(set->files, (set->count + 1) * sizeof *grown);
    struct staged file;

    if (!grown)
        return no_memory();
    set->files = grown;
    file.path = strdup(path);
    file.temp = temp_beside(path);
    if (!file.path || !file.temp) {
        free(file.path);
        free(file.temp);
        return no_memory();
    }
    if (!fill_temp(file.temp, mode, bytes, size)) {
        int status = complain_write(path);

        free(file.path);
        free(file.temp);
        return status;
    }
    set->files[set->count++] = file;
    return CLI_DONE;
}

int stage_file(outputs *set, const char *path, const void *bytes, size_t size)
{
    struct stat info;
    char *target;
    int status;

    if (stat(path, &info) != 0) {
        if (errno != ENOENT)
            return complain_write(path);
        return stage_new(set, path, usual_mode(), bytes, size);
    }
    if (set->input.known && set->input.device == (uint64_t)info.st_dev &&
        set->input.number == (uint64_t)info.st_ino) {
        complain("%s: is the job itself; give another name for the output",
                 path);
        return CLI_USAGE;
    }
    if (!S_ISREG(info.st_mode))
        return write_directly(path, bytes, size);
    target = realpath(path, NULL); /* a link stays a link */
    if (!target)
        return complain_write(path);
    status = stage_new(set, target, info.st_mode & 07777, bytes, size);
    free(target);
    return status;
}

int commit_files(outputs *set)
{
    for (size_t i = 0; i < set->count; i++) {
        if (rename(set->files[i].temp, set->files[i].path) != 0)
            return complain_write(set->files[i].path);
        free(set->files[i].temp);
        set->files[i].temp = NULL;
    }
    return CLI_DONE;
}

void end_files(outputs *set)
{
    for (size_t i = 0; i < set->count; i++) {
        if (set->files[i].temp)
            unlink(set->files[i].temp);
        free(set->files[i].temp);
        free(set->files[i].path);
    }
    free(set->files);
    set->files = NULL;
    set->count = 0;
}
