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

bool qci_utf8_is_control(const char *text, size_t size)
{
    const unsigned char *byte = (const unsigned char *)text;

    if (!size)
        return false;
    return byte[0] < 0x20 || byte[0] == 0x7F ||
           (byte[0] == 0xC2 && size > 1 && byte[1] >= 0x80 && byte[1] <= 0x9F);
}

bool qci_utf8_is_noncharacter(const char *text, size_t size)
{
    const unsigned char *byte = (const unsigned char *)text;
    size_t n = qci_utf8_step(text, size);
    unsigned long code;

    if (n < 3)
        return false;
    code = n == 3 ? byte[0] & 0x0F : byte[0] & 0x07;
    for (size_t i = 1; i < n; i++)
        code = code << 6 | (byte[i] & 0x3F);
    return (code & 0xFFFE) == 0xFFFE || (code >= 0xFDD0 && code <= 0xFDEF);
}
