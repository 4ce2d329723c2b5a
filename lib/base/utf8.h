/* Strict UTF-8 (RFC 3629). */
#ifndef QCI_BASE_UTF8_H
#define QCI_BASE_UTF8_H

#include <stdbool.h>
#include <stddef.h>

/* Bytes of the well-formed character at `text`, 1 to 4; 0 when there is none
 * within `size` bytes. */
size_t qci_utf8_step(const char *text, size_t size);

/* Well-formed throughout: nothing overlong, no surrogates, at most U+10FFFF. */
bool qci_utf8_valid(const char *text, size_t size);

/* The character at `text` is a control: U+0000 to U+001F, U+007F to U+009F, or
 * one of layout. */
bool qci_utf8_is_control(const char *text, size_t size);
/* The character at `text` begins a line or a paragraph (U+2028, U+2029), or
 * turns the direction of what follows (U+202A to U+202E, U+2066 to U+2069: the
 * explicit formatting characters of Unicode Standard Annex 9), so that a text
 * around it reads other than it is. */
bool qci_utf8_is_layout(const char *text, size_t size);
/* The character at `text`, which is well-formed, is one of the 66 that Unicode
 * keeps out of text for ever: U+FDD0 to U+FDEF and the last two of each plane.
 */
bool qci_utf8_is_noncharacter(const char *text, size_t size);

#endif
