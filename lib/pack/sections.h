/* Sections of a strip: made of a sequence of forms, compared, measured. */
#ifndef QCI_PACK_SECTIONS_H
#define QCI_PACK_SECTIONS_H

#include "pack/pack.h"

/* In `forms`, a form with QCI_OPEN opens a section. Equal sections become one
 * entry; the widest come first. */
qc_status qci_sections_make(const qci_demand *demand, const int32_t *forms,
                            int32_t length, qci_section **out, size_t *count,
                            qc_error *err);
/* NULL when memory is out. */
qci_section *qci_sections_copy(const qci_section *sections, size_t count);
void qci_sections_destroy(qci_section *sections, size_t count);

/* Width of one section; of all sections of a strip. */
qc_length qci_section_width(const qci_demand *demand,
                            const qci_section *section);
qc_length qci_sections_width(const qci_demand *demand, const qci_strip *strip);

#endif
