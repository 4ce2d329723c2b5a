/* What an entry of the blocks may hold. Which roles there are is the block's to
 * say, so the fabrics are an object of any names. */
#include <stddef.h>

#include "base/error.h"
#include "json/items.h"

/* An entry while it is being read. */
typedef struct block_draft {
    qc_block_spec spec;
    qci_draft *draft;
} block_draft;

static qc_status read_fabrics(qci_reader *reader, const json_t *value,
                              const qci_field *field, void *to)
{
    block_draft *block = to;
    qc_status status = QC_STATUS_OK;
    qc_role_spec *roles;
    const char *role;
    json_t *fabric;
    size_t at = 0;

    if (!json_is_object(value))
        return qci_read_wrong_type(reader, value,
                                   "an object: {\"role\": \"fabric\", ...}");
    roles =
        qci_draft_list(block->draft, json_object_size(value), sizeof *roles);
    if (!roles)
        return qci_no_memory(reader->err);
    block->spec.fabrics = roles;
    block->spec.fabric_count = json_object_size(value);
    json_object_foreach((json_t *)value, role, fabric)
    {
        roles[at].role = role;
        qci_read_enter_key(reader, role);
        status = qci_read_text(reader, fabric, field, &roles[at++].fabric);
        qci_read_leave(reader);
        if (status)
            break;
    }
    return status;
}

qc_status qci_read_block(qci_reader *reader, const json_t *value, qci_draft *to)
{
    static const qci_field fields[] = {
        {"id", qci_read_text, offsetof(qc_block_spec, id), .required = false},
        {"block", qci_read_text, offsetof(qc_block_spec, block),
         .required = true},
        {"size", qci_read_length, offsetof(qc_block_spec, size),
         .required = true},
        {"count", qci_read_int64, offsetof(qc_block_spec, count),
         .required = true, .lo = 1, .hi = QC_MAX_COUNT},
        {"fabrics", read_fabrics, .required = true},
    };
    block_draft block = {.draft = to};
    qc_status status;

    qc_block_spec_init(&block.spec);
    status = qci_read_object(reader, value, fields, QCI_COUNT(fields), &block);
    if (status)
        return status;
    return qci_vec_push(&to->blocks, block.spec) ? QC_STATUS_OK
                                                 : qci_no_memory(reader->err);
}
