/* walk_clean.c - what gauges and terminals add to a line, taken off (layer: cli/walk).
 *
 * Forms of gauges: public manuals of serial and keyboard interfaces; a code of two digits and a
 * letter, a sign and eight characters: three decimals are millimetres, five are inches. */
#include "walk_clean.h"

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

static const char PASTE_BEGIN[] = "\033[200~", PASTE_END[] = "\033[201~";

/* ---- the line ---------------------------------------------------------------------------------- */

/* Bytes of the UTF-8 character at s, 0 when it is none; C0, C1 and DEL are none here. */
static size_t measure_character(const char *s)
{
    const unsigned char *u = (const unsigned char *)s;
    static const uint32_t LEAST[] = {0, 0, 0x80, 0x800, 0x10000};
    if (u[0] < 0x80)
        return u[0] >= 0x20 && u[0] != 0x7F ? 1 : 0;
    const size_t n = u[0] >= 0xF0 && u[0] < 0xF5 ? 4 : u[0] >= 0xE0 ? 3 : u[0] >= 0xC2 ? 2 : 0;
    if (n == 0 || u[0] >= 0xF5)
        return 0;
    uint32_t point = u[0] & (0xFFu >> (n + 1));
    for (size_t i = 1; i < n; i++) {
        if ((u[i] & 0xC0u) != 0x80u)
            return 0;
        point = point << 6 | (u[i] & 0x3Fu);
    }
    const bool surrogate = point >= 0xD800 && point < 0xE000;
    return point < LEAST[n] || point < 0xA0 || surrogate || point > 0x10FFFF ? 0 : n;
}

/* Blanks of all kinds as one: phones and word processors put in no-break ones. */
static size_t measure_blank(const char *s)
{
    static const char *const BLANKS[] = {" ", "\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x89"};
    for (size_t i = 0; i < sizeof BLANKS / sizeof *BLANKS; i++)
        if (strncmp(s, BLANKS[i], strlen(BLANKS[i])) == 0)
            return strlen(BLANKS[i]);
    return 0;
}

const char *clean_line(char *out, size_t room, const char *line)
{
    size_t n = 0;
    for (const char *s = line; *s;) {
        if (strncmp(s, PASTE_BEGIN, sizeof PASTE_BEGIN - 1) == 0 ||
            strncmp(s, PASTE_END, sizeof PASTE_END - 1) == 0) {
            s += sizeof PASTE_END - 1;
            continue;
        }
        const size_t blank = measure_blank(s), size = blank ? blank : measure_character(s);
        const bool dash = strncmp(s, "\xE2\x80\x93", 3) == 0; /* what a phone makes of a hyphen */
        if (size == 0)
            return "that line holds a control character, as from an arrow key, or bytes that are no text";
        if (n + size >= room)
            return "that line is too long";
        if (blank || dash) {
            if (dash || n > 0)
                out[n++] = dash ? '-' : ' ';
        } else {
            memcpy(out + n, s, size);
            n += size;
        }
        s += size;
    }
    while (n > 0 && out[n - 1] == ' ')
        n--;
    out[n] = '\0';
    return NULL;
}

/* ---- a number ---------------------------------------------------------------------------------- */

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static size_t count_digits(const char *text)
{
    return strspn(text, "0123456789");
}

/* "01A+0009.53": bytes before the sign, else 0. */
static size_t measure_code(const char *text)
{
    const bool code = is_digit(text[0]) && is_digit(text[1]) && text[2] >= 'A' && text[2] <= 'Z' &&
                      (text[3] == '+' || text[3] == '-') && is_digit(text[4]);
    return code ? 3 : 0;
}

/* After the sign of a coded value: two digits, a mark and five: inches. */
static bool is_coded_inch(const char *text, hl_unit unit)
{
    const bool length = unit == HL_MM || unit == HL_IN;
    return length && count_digits(text) == 2 && (text[2] == '.' || text[2] == ',') &&
           count_digits(text + 3) == 5 && !text[8];
}

/* One comma between digits and no point is a decimal comma. */
static bool has_decimal_comma(const char *text)
{
    const char *comma = strchr(text, ',');
    return comma && !strchr(comma + 1, ',') && !strchr(text, '.') && is_digit(comma[1]);
}

void clean_number(char *out, size_t room, const char *text, hl_unit unit)
{
    const size_t code = measure_code(text);
    text += code;
    const char *body = text + (*text == '+' || *text == '-');
    const bool inches = code > 0 && is_coded_inch(body, unit);
    if (!is_digit(*body) && *body != '.' && *body != ',') {
        snprintf(out, room, "%s", text);
        return;
    }
    while (body[0] == '0' && is_digit(body[1]))
        body++;
    snprintf(out, room, "%s%s%s", *text == '-' ? "-" : "", body, inches ? " in" : "");
    if (has_decimal_comma(out))
        *strchr(out, ',') = '.';
}
