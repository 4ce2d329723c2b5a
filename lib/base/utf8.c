/* Well-formed UTF-8, by the table of RFC 3629 section 4: what a lead byte
 * allows as its second byte rules out overlong forms, surrogates and anything
 * beyond U+10FFFF; later bytes are always 80 to BF. */
#include "base/utf8.h"

static size_t length_by_lead(unsigned char lead)
{
    if (lead < 0x80)
        return 1;
    if (lead >= 0xC2 && lead <= 0xDF)
        return 2;
    if (lead >= 0xE0 && lead <= 0xEF)
        return 3;
    return lead >= 0xF0 && lead <= 0xF4 ? 4 : 0;
}

static bool second_fits(unsigned char lead, unsigned char second)
{
    unsigned char low = lead == 0xE0 ? 0xA0 : lead == 0xF0 ? 0x90 : 0x80;
    unsigned char high = lead == 0xED ? 0x9F : lead == 0xF4 ? 0x8F : 0xBF;

    return second >= low && second <= high;
}

size_t qci_utf8_step(const char *text, size_t size)
{
    const unsigned char *byte = (const unsigned char *)text;
    size_t n = size ? length_by_lead(byte[0]) : 0;

    if (n > size || (n > 1 && !second_fits(byte[0], byte[1])))
        return 0;
    for (size_t i = 2; i < n; i++)
        if ((byte[i] & 0xC0) != 0x80)
            return 0;
    return n;
}

bool qci_utf8_valid(const char *text, size_t size)
{
    while (size) {
        size_t n = qci_utf8_step(text, size);

        if (!n)
            return false;
        text += n;
        size -= n;
    }
    return true;
}

/* The code of the well-formed character of `n` bytes, 2 to 4. */
static unsigned long code_of(const unsigned char *byte, size_t n)
{
    unsigned long code = byte[0] & (0x7Fu >> n);

    for (size_t i = 1; i < n; i++)
        code = code << 6 | (byte[i] & 0x3F);
    return code;
}

bool qci_utf8_is_control(const char *text, size_t size)
{
    const unsigned char *byte = (const unsigned char *)text;
    size_t n = qci_utf8_step(text, size);

    if (n == 1)
        return byte[0] < 0x20 || byte[0] == 0x7F;
    return (n == 2 && code_of(byte, n) <= 0x9F) ||
           qci_utf8_is_layout(text, size);
}

bool qci_utf8_is_layout(const char *text, size_t size)
{
    const unsigned char *byte = (const unsigned char *)text;
    size_t n = qci_utf8_step(text, size);
    unsigned long code = n == 3 ? code_of(byte, n) : 0;

    return (code >= 0x2028 && code <= 0x202E) ||
           (code >= 0x2066 && code <= 0x2069);
}

bool qci_utf8_is_noncharacter(const char *text, size_t size)
{
    size_t n = qci_utf8_step(text, size);
    unsigned long code;

    if (n < 3)
        return false;
    code = code_of((const unsigned char *)text, n);
    return (code & 0xFFFE) == 0xFFFE || (code >= 0xFDD0 && code <= 0xFDEF);
}
