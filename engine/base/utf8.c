/* utf8.c - characters of strange texts: reading, measuring, making them safe (layer: base). */
#include "text.h"

#include <string.h>

typedef struct span {
    uint32_t first, last;
} span;

/* Characters that a terminal would obey or hide instead of showing. */
static const span UNSAFE[] = {
    {0x80, 0x9F},       /* C1 controls */
    {0x61C, 0x61C},     /* Arabic letter mark */
    {0x200B, 0x200F},   /* zero width, and the direction marks */
    {0x2028, 0x202E},   /* line and paragraph separators, bidi embeddings and overrides */
    {0x2060, 0x206F},   /* word joiner, invisible operators, bidi isolates */
    {0xFEFF, 0xFEFF},   /* byte order mark inside a text */
    {0xFFF9, 0xFFFB},   /* interlinear annotation */
    {0xE0000, 0xE007F}, /* tags */
};

static const span COMBINING[] = {
    {0x300, 0x36F},   {0x1AB0, 0x1AFF}, {0x1DC0, 0x1DFF}, {0x200B, 0x200F},
    {0x20D0, 0x20FF}, {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F},
};

static bool is_in(const span *spans, size_t n, uint32_t point)
{
    for (size_t i = 0; i < n; i++) {
        if (point >= spans[i].first && point <= spans[i].last) {
            return true;
        }
    }
    return false;
}

int hl__utf8_next(const char *s, size_t size, uint32_t *point)
{
    static const uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
    if (size == 0) {
        return 0;
    }
    unsigned char c = (unsigned char)s[0];
    if (c < 0x80) {
        *point = c;
        return 1;
    }
    int length = c >= 0xC2 && c < 0xE0 ? 2 : c >= 0xE0 && c < 0xF0 ? 3 : c >= 0xF0 && c < 0xF5 ? 4 : 0;
    if (length == 0 || (size_t)length > size) {
        return 0;
    }
    uint32_t value = c & (0x7Fu >> length);
    for (int i = 1; i < length; i++) {
        unsigned char next = (unsigned char)s[i];
        if ((next & 0xC0u) != 0x80u) {
            return 0;
        }
        value = value << 6 | (next & 0x3Fu);
    }
    if (value < least[length] || value > 0x10FFFF || (value >= 0xD800 && value <= 0xDFFF)) {
        return 0;
    }
    *point = value;
    return length;
}

size_t hl__text_blanks(const char *s, size_t size)
{
    size_t at = 0;
    while (at < size) {
        uint32_t point = 0;
        int length = hl__utf8_next(s + at, size - at, &point);
        bool blank = length > 0 &&
                     (point == ' ' || point == '\t' || point == 0xA0 || point == 0x202F || point == 0x2009);
        if (!blank) {
            break;
        }
        at += (size_t)length;
    }
    return at;
}

const char *hl__text_trim(const char *text, size_t *size)
{
    size_t blanks = hl__text_blanks(text, *size);
    text += blanks;
    *size -= blanks;
    for (size_t end = *size; end > 0; end--) {
        if (hl__text_blanks(text + end - 1, *size - end + 1) == *size - end + 1) {
            *size = end - 1;
            end = *size + 1;
        } else if (((unsigned char)text[end - 1] & 0xC0u) != 0x80u) {
            break; /* a whole character that is no blank */
        }
    }
    return text;
}

void hl__text_safe(hl_text *text, const char *string)
{
    hl__text_safe_n(text, string, strlen(string));
}

void hl__text_safe_n(hl_text *text, const char *string, size_t left)
{
    while (left > 0) {
        uint32_t point = 0;
        int length = hl__utf8_next(string, left, &point);
        if (length == 0 || point < 0x20 || point == 0x7F) {
            hl__text_printf(text, "\\x%02X", (unsigned)(unsigned char)*string);
            length = 1;
        } else if (is_in(UNSAFE, sizeof UNSAFE / sizeof UNSAFE[0], point)) {
            hl__text_printf(text, "<U+%04X>", (unsigned)point);
        } else {
            hl__text_add_n(text, string, (size_t)length);
        }
        string += length;
        left -= (size_t)length;
    }
}

int hl__text_width(const char *string)
{
    size_t left = strlen(string);
    int width = 0;
    while (left > 0) {
        uint32_t point = 0;
        int length = hl__utf8_next(string, left, &point);
        if (length == 0) {
            length = 1;
            width++;
        } else if (!is_in(COMBINING, sizeof COMBINING / sizeof COMBINING[0], point)) {
            width++;
        }
        string += length;
        left -= (size_t)length;
    }
    return width;
}
