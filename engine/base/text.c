/* text.c - a growing text, and UTF-8 (layer: base).
 *
 * The hl_text owns its bytes until they are taken or freed. */
#include "text.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Room for `more` bytes and a NUL. */
static bool make_room(hl_text *text, size_t more)
{
    if (text->failed) {
        return false;
    }
    if (more >= SIZE_MAX / 4 || text->size >= SIZE_MAX / 4) {
        text->failed = true;
        return false;
    }
    size_t want = text->size + more + 1;
    if (want <= text->room) {
        return true;
    }
    size_t room = text->room < 64 ? 64 : text->room;
    while (room < want) {
        room *= 2;
    }
    char *data = realloc(text->data, room);
    if (data == NULL) {
        text->failed = true;
        return false;
    }
    text->data = data;
    text->room = room;
    return true;
}

void hl__text_add(hl_text *text, const char *string)
{
    hl__text_add_n(text, string, strlen(string));
}

void hl__text_add_n(hl_text *text, const char *bytes, size_t size)
{
    if (!make_room(text, size)) {
        return;
    }
    if (size > 0) {
        memcpy(text->data + text->size, bytes, size);
    }
    text->size += size;
    text->data[text->size] = '\0';
}

void hl__text_char(hl_text *text, char c)
{
    hl__text_add_n(text, &c, 1);
}

void hl__text_printf(hl_text *text, const char *format, ...)
{
    va_list words, again;
    va_start(words, format);
    va_copy(again, words);
    int n = vsnprintf(NULL, 0, format, words);
    va_end(words);
    if (n < 0) {
        text->failed = true;
    } else if (make_room(text, (size_t)n)) {
        vsnprintf(text->data + text->size, (size_t)n + 1, format, again);
        text->size += (size_t)n;
    }
    va_end(again);
}

void hl__text_spaces(hl_text *text, int n)
{
    if (n <= 0 || !make_room(text, (size_t)n)) {
        return;
    }
    memset(text->data + text->size, ' ', (size_t)n);
    text->size += (size_t)n;
    text->data[text->size] = '\0';
}

void hl__text_base64(hl_text *text, const char *bytes, size_t size)
{
    static const char LETTERS[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    for (size_t i = 0; i < size; i += 3) {
        const size_t left = size - i;
        const uint32_t three = (uint32_t)(unsigned char)bytes[i] << 16 |
                               (left > 1 ? (uint32_t)(unsigned char)bytes[i + 1] << 8 : 0) |
                               (left > 2 ? (uint32_t)(unsigned char)bytes[i + 2] : 0);
        const char four[4] = {LETTERS[three >> 18], LETTERS[three >> 12 & 63],
                              left > 1 ? LETTERS[three >> 6 & 63] : '=',
                              left > 2 ? LETTERS[three & 63] : '='};
        hl__text_add_n(text, four, sizeof four);
    }
}

bool hl__text_any(const hl_text *text)
{
    return text->size > 0 || text->failed;
}

void hl__text_free(hl_text *text)
{
    free(text->data);
    *text = (hl_text){0};
}

hl_code hl__text_take(hl_text *text, char **out, size_t *size, hl_err *err)
{
    *out = NULL;
    hl__text_add_n(text, "", 0); /* an empty text is a text too */
    if (text->failed) {
        hl__text_free(text);
        return hl__no_memory(err);
    }
    *out = text->data;
    if (size != NULL) {
        *size = text->size;
    }
    *text = (hl_text){0};
    return HL_OK;
}
