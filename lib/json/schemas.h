/* The schema files beside this header, made part of the library when it is
 * built. */
#ifndef QCI_JSON_SCHEMAS_H
#define QCI_JSON_SCHEMAS_H

extern const char qci_schema_job[];
extern const char qci_schema_plan[];
extern const char qci_schema_certificate[];
extern const char qci_schema_instructions[];
extern const char qci_schema_check[];
extern const char qci_schema_batch[];
extern const char qci_schema_compare[];
extern const char qci_schema_chart[];
extern const char qci_schema_blocks[];

#endif
