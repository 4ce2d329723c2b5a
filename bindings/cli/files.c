/* Files in and out.
 *
 * What is written to a file is complete or not there at all: it goes to a
 * hidden file in the same folder, is flushed to disk, and takes its name when
 * everything else has succeeded as well (place.c). Things that are not ordinary
 * files (a device, a pipe) cannot be replaced and are written to directly. The
 * file that the job came from is never written to, and no two outputs are the
 * same file.
 *
 * A signal that ends the program takes the hidden files with it: its handler
 * walks the list of outputs, which is changed only while such signals wait. */
#include "cli.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char temp_name[] = ".quiltcut-XXXXXX";

/* The outputs whose hidden files are there; read by remove_and_end(). */
static outputs *current;

static const int ending[] = {SIGINT, SIGTERM, SIGHUP};
#define ENDING (sizeof ending / sizeof *ending)

/* Makes the signals that end the program wait; hands out what waited before. */
static void hold_signals(sigset_t *before)
{
    sigset_t all;

    sigemptyset(&all);
    for (size_t i = 0; i < ENDING; i++)
        sigaddset(&all, ending[i]);
    sigprocmask(SIG_BLOCK, &all, before);
}

static void release_signals(const sigset_t *before)
{
    sigprocmask(SIG_SETMASK, before, NULL);
}

static void remove_and_end(int number)
{
    for (size_t i = 0; current && i < current->count; i++)
        if (current->files[i].there)
            unlink(current->files[i].temp);
    raise(number); /* the handler was taken off: this ends the program */
}

/* From now on a signal removes the hidden files of `set` before it ends the
 * program; one that was ignored stays so. */
static void watch_signals(outputs *set)
{
    struct sigaction action, before;

    memset(&action, 0, sizeof action);
    sigemptyset(&action.sa_mask);
    action.sa_handler = remove_and_end;
    action.sa_flags = (int)SA_RESETHAND;
    current = set;
    for (size_t i = 0; i < ENDING; i++) {
        sigaction(ending[i], NULL, &before);
        if (before.sa_handler != SIG_IGN)
            sigaction(ending[i], &action, NULL);
    }
}

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
        if (*size > QC_MAX_JSON_BYTES) {
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
                 errno == EFBIG ? "larger than 16 MiB" : strerror(errno));
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

int print_string(const char *text)
{
    int status = print_out("\"", 1);

    for (; *text && status == CLI_DONE; text++) {
        char code[8];

        if ((unsigned char)*text < 0x20 || *text == '"' || *text == '\\') {
            snprintf(code, sizeof code, "\\u%04x", (unsigned char)*text);
            status = print_out(code, 6);
        } else {
            status = print_out(text, 1);
        }
    }
    return status == CLI_DONE ? print_out("\"", 1) : status;
}

int print_paths(const outputs *set)
{
    bool terminal = isatty(STDOUT_FILENO);
    int status = CLI_DONE;

    for (size_t i = 0; i < set->count && status == CLI_DONE; i++) {
        if (terminal)
            hide_controls(set->files[i].name);
        status = print_text(set->files[i].name);
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
static bool fill_temp(struct staged *file, mode_t mode, const void *bytes,
                      size_t size)
{
    sigset_t before;
    int fd, problem;
    bool good;

    hold_signals(&before);
    fd = mkstemp(file->temp);
    file->there = fd >= 0;
    release_signals(&before);
    if (fd < 0)
        return false;
    good =
        fchmod(fd, mode) == 0 && write_all(fd, bytes, size) && fsync(fd) == 0;
    problem = errno;
    if (close(fd) != 0 && good) {
        good = false;
        problem = errno;
    }
    errno = problem;
    return good; /* end_files() removes what is not good */
}

/* Room for one more in the list, and its hidden file's name. */
static struct staged *add_file(outputs *set, const char *name, const char *path)
{
    struct staged file = {
        .name = strdup(name), .path = strdup(path), .temp = temp_beside(path)};
    struct staged *grown;
    sigset_t before;

    hold_signals(&before);
    grown = realloc(set->files, (set->count + 1) * sizeof *grown);
    if (grown)
        set->files = grown;
    if (grown && file.name && file.path && file.temp)
        set->files[set->count++] = file;
    release_signals(&before);
    if (grown && file.name && file.path && file.temp)
        return &set->files[set->count - 1];
    free(file.name);
    free(file.path);
    free(file.temp);
    return NULL;
}

/* The part of a path behind its folder. */
static const char *name_of(const char *path)
{
    const char *slash = strrchr(path, '/');

    return slash ? slash + 1 : path;
}

/* Are two paths the same place? Their folders are known by number, so that it
 * does not matter how they are written. */
static bool same_place(const char *a, const char *b)
{
    char folder[2][PATH_MAX];
    struct stat info[2];
    const char *path[2] = {a, b};

    if (strcmp(name_of(a), name_of(b)) != 0)
        return false;
    for (int i = 0; i < 2; i++) {
        int n = (int)(name_of(path[i]) - path[i]);

        snprintf(folder[i], sizeof folder[i], "%.*s", n ? n : 1,
                 n ? path[i] : ".");
        if (stat(folder[i], &info[i]) != 0)
            return false;
    }
    return info[0].st_dev == info[1].st_dev && info[0].st_ino == info[1].st_ino;
}

static int stage_new(outputs *set, const char *name, const char *path,
                     mode_t mode, const void *bytes, size_t size)
{
    struct staged *file;

    for (size_t i = 0; i < set->count; i++)
        if (same_place(set->files[i].path, path)) {
            complain("%s: two outputs have this name; give one another name",
                     name);
            return CLI_USAGE;
        }
    if (current != set)
        watch_signals(set);
    file = add_file(set, name, path);
    if (!file)
        return no_memory();
    return fill_temp(file, mode, bytes, size) ? CLI_DONE : complain_write(name);
}

/* Neither the job itself nor what is no ordinary file is staged. */
static int stage_over(outputs *set, const char *path, const struct stat *info,
                      const void *bytes, size_t size)
{
    char *target;
    int status;

    if (set->input.known && set->input.device == (uint64_t)info->st_dev &&
        set->input.number == (uint64_t)info->st_ino) {
        complain("%s: is the job itself; give another name for the output",
                 path);
        return CLI_USAGE;
    }
    if (!S_ISREG(info->st_mode))
        return write_directly(path, bytes, size);
    target = realpath(path, NULL); /* a link stays a link */
    if (!target)
        return complain_write(path);
    status = stage_new(set, path, target, info->st_mode & 07777, bytes, size);
    free(target);
    return status;
}

int stage_file(outputs *set, const char *path, const void *bytes, size_t size)
{
    struct stat info;

    if (stat(path, &info) == 0)
        return stage_over(set, path, &info, bytes, size);
    if (errno != ENOENT)
        return complain_write(path);
    return stage_new(set, path, path, usual_mode(), bytes, size);
}

int stage_inside(outputs *set, const char *path, const void *bytes, size_t size)
{
    struct stat info;

    if (lstat(path, &info) == 0 && S_ISLNK(info.st_mode)) {
        complain("%s: is a link, which might lead out of its folder; remove it "
                 "or give another name",
                 path);
        return CLI_FAILED;
    }
    return stage_file(set, path, bytes, size);
}

int commit_files(outputs *set)
{
    sigset_t before;
    int status;

    hold_signals(&before); /* all together */
    status = place_files(set);
    release_signals(&before);
    return status;
}

void end_files(outputs *set)
{
    sigset_t before;

    hold_signals(&before);
    if (current == set)
        current = NULL;
    for (size_t i = 0; i < set->count; i++) {
        if (set->files[i].there)
            unlink(set->files[i].temp);
        free(set->files[i].temp);
        free(set->files[i].path);
        free(set->files[i].name);
    }
    free(set->files);
    set->files = NULL;
    set->count = 0;
    release_signals(&before);
}
