/* The table of what a fabric may hold. */
#include "json/items.h"

#include <stddef.h>

#include "base/error.h"

QCI_WORD_READER(read_print, qc_print, "plain", "one-way", "two-way",
                "reversible")
static qc_status read_shrink(qci_reader *reader, const json_t *value,
                             const qci_field *field, void *to)
{
    static const qci_field fields[] = {
        {"length", qci_read_int32, offsetof(qc_fabric_spec, shrink_length),
         .decimals = 2, .lo = 0, .hi = 9999},
        {"width", qci_read_int32, offsetof(qc_fabric_spec, shrink_width),
         .decimals = 2, .lo = 0, .hi = 9999},
    };

    (void)field;
    return qci_read_object(reader, value, fields, QCI_COUNT(fields), to);
}

qc_status qci_read_fabric(qci_reader *reader, const json_t *value, void *user)
{
    qci_draft *to = user;
    static const qci_field fields[] = {
        {"id", qci_read_text, offsetof(qc_fabric_spec, id), .required = true},
        {"name", qci_read_text, offsetof(qc_fabric_spec, name),
         .required = false},
        {"width", qci_read_length, offsetof(qc_fabric_spec, width),
         .required = false},
        {"raw_width", qci_read_length, offsetof(qc_fabric_spec, raw_width),
         .required = false},
        {"print", read_print, offsetof(qc_fabric_spec, print),
         .required = false},
        {"step", qci_read_length, offsetof(qc_fabric_spec, step),
         .required = false},
        {"square_up", qci_read_length, offsetof(qc_fabric_spec, square_up),
         .required = false},
        {"shrink", read_shrink, .required = false},
        {"price", qci_read_int64, offsetof(qc_fabric_spec, price),
         .decimals = 4, .lo = 0, .hi = QC_MAX_PRICE},
        {.name = "stock"},
    };
    qc_fabric_spec fabric;
    qc_status status;

    qc_fabric_spec_init(&fabric);
    status = qci_read_object(reader, value, fields, QCI_COUNT(fields), &fabric);
    if (status)
        return status;
    return qci_vec_push(&to->fabrics, fabric) ? QC_STATUS_OK
                                              : qci_no_memory(reader->err);
}
