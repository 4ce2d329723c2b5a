/* Outputs take their names all together, or none does.
 *
 * A file that is replaced keeps a second, hidden name until the last output has
 * its place. When one of them cannot be renamed, the old files take their names
 * back, and what was not there before goes. Where the file system gives no
 * second names, a replaced file cannot come back; that is then said. */
#include "cli.h"

#include <errno.h>
#include <limits.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

/* The hidden file's name is nobody else's; so is this, which is made of it. */
static bool old_name(const struct staged *file, char out[PATH_MAX])
{
    int n = snprintf(out, PATH_MAX, "%s.old", file->temp);

    return n > 0 && n < PATH_MAX;
}

static int place(struct staged *file)
{
    char old[PATH_MAX];
    int problem;

    file->before = OLD_GONE;
    if (old_name(file, old) && link(file->path, old) == 0)
        file->before = OLD_KEPT;
    else if (access(file->path, F_OK) != 0 && errno == ENOENT)
        file->before = OLD_NONE;
    if (rename(file->temp, file->path) == 0) {
        file->there = false;
        return CLI_DONE;
    }
    problem = errno;
    if (file->before == OLD_KEPT)
        unlink(old);
    complain("%s: cannot be written: %s", file->name, strerror(problem));
    return CLI_FAILED;
}

static void take_back(const struct staged *file)
{
    char old[PATH_MAX];
    bool back = false;

    if (file->before == OLD_KEPT)
        back = old_name(file, old) && rename(old, file->path) == 0;
    else if (file->before == OLD_NONE)
        back = unlink(file->path) == 0;
    if (!back)
        complain("%s: was replaced before that, and cannot be put back",
                 file->name);
}

static void forget_old(const struct staged *file)
{
    char old[PATH_MAX];

    if (file->before == OLD_KEPT && old_name(file, old))
        unlink(old);
}

int place_files(outputs *set)
{
    size_t done = 0;

    while (done < set->count && place(&set->files[done]) == CLI_DONE)
        done++;
    if (done == set->count) {
        for (size_t i = 0; i < done; i++)
            forget_old(&set->files[i]);
        return CLI_DONE;
    }
    while (done-- > 0)
        take_back(&set->files[done]);
    return CLI_FAILED;
}
