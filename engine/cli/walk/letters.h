/* letters.h - case of ASCII letters, whatever the locale (layer: cli/walk). */
#ifndef HL_LETTERS_H
#define HL_LETTERS_H

static inline char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

#endif
