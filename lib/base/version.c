#include <quiltcut/version.h>

const char *qc_version(void)
{
    return QC_VERSION;
}
