#include "receiver.h"

int receive(const void *bytes, size_t size, void *user)
{
    receiver *to = user;

    to->status = to->stage(to->set, to->path, bytes, size);
    return to->status;
}

int end_receiving(receiver *to, qc_status status, const qc_error *err)
{
    if (status != QC_STATUS_OK && to->status == CLI_DONE) {
        complain("%s: cannot be drawn: %s", to->path, err->problem);
        to->status = CLI_FAILED;
    }
    return to->status;
}
