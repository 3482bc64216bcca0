/* ascii.h - letters, digits and case of ASCII, whatever the locale (layer: base).
 *
 * What sheets, rule files and formulas are written with.  Bytes above 127 are no letters and have no case. */
#ifndef HL_ASCII_H
#define HL_ASCII_H

#include <stdbool.h>
#include <stddef.h>

static inline bool hl__is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static inline bool hl__is_lower(char c)
{
    return c >= 'a' && c <= 'z';
}

static inline bool hl__is_upper(char c)
{
    return c >= 'A' && c <= 'Z';
}

static inline bool hl__is_letter(char c)
{
    return hl__is_lower(c) || hl__is_upper(c);
}

static inline char hl__lower(char c)
{
    return hl__is_upper(c) ? (char)(c - 'A' + 'a') : c;
}

static inline char hl__upper(char c)
{
    return hl__is_lower(c) ? (char)(c - 'a' + 'A') : c;
}

/* The same text, whatever the case of its letters. */
static inline bool hl__same_word(const char *a, const char *b)
{
    while (*a != '\0' && hl__lower(*a) == hl__lower(*b)) {
        a++;
        b++;
    }
    return hl__lower(*a) == hl__lower(*b);
}

/* The same of `size` bytes of `text`, which need not end there. */
static inline bool hl__same_word_n(const char *text, size_t size, const char *word)
{
    size_t i = 0;
    while (i < size && word[i] != '\0' && hl__lower(text[i]) == hl__lower(word[i])) {
        i++;
    }
    return i == size && word[i] == '\0';
}

#endif
