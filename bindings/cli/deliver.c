/* A command's one text: to the file that --output names, among the others that
 * are written, or to the standard output once these are in place. */
#include "cli.h"

#include <string.h>

int not_made(qc_status status)
{
    complain("%s", qc_status_text(status));
    return CLI_FAILED;
}

int stage_text(outputs *set, const char *output, const char *text)
{
    return output ? stage_file(set, output, text, strlen(text)) : CLI_DONE;
}

int deliver_text(outputs *set, const char *output, const char *text)
{
    int status = commit_files(set);

    return status == CLI_DONE && !output ? print_text(text) : status;
}
