/* text.h - a growing text that printers write into, and UTF-8 (layer: base).
 *
 * A failed allocation is remembered (`failed`) and later calls do nothing, so a printer checks
 * once, at the end.  printf-style calls here must not print floating point: the locale would
 * choose the decimal mark.  Use hl__text_decimal of number.h. */
#ifndef HL_TEXT_H
#define HL_TEXT_H

#include "errors.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct hl_text {
    char *data; /* NUL-terminated once anything was added; NULL when empty */
    size_t size, room;
    bool failed;
} hl_text; /* start as {0} */

void hl__text_add(hl_text *text, const char *string);
void hl__text_add_n(hl_text *text, const char *bytes, size_t size);
void hl__text_char(hl_text *text, char c);
void hl__text_printf(hl_text *text, const char *format, ...) HL_PRINTF(2, 3);
void hl__text_spaces(hl_text *text, int n); /* n <= 0: none */
/* Text from a sheet or a rule file, safe for a terminal: control characters, C1, bidi overrides
 * and bad UTF-8 appear as \xNN or <U+NNNN>. */
void hl__text_safe(hl_text *text, const char *string);
void hl__text_safe_n(hl_text *text, const char *bytes, size_t size); /* the same of a part of a text */
/* Was anything added, or lost for want of memory?  A printer that leaves out what is empty asks this,
 * so that what was lost still makes it fail. */
bool hl__text_any(const hl_text *text);
void hl__text_free(hl_text *text);
/* Hand the bytes over (malloc'ed, never NULL on HL_OK); HL_E_MEMORY when anything failed. */
hl_code hl__text_take(hl_text *text, char **out, size_t *size, hl_err *err);

/* Length of the valid UTF-8 character at s (1..4) and its code point in *point; 0 when bad. */
int hl__utf8_next(const char *s, size_t size, uint32_t *point);
/* Bytes of blanks at the start of s: space, tab, and the no-break spaces that spreadsheets and
 * phones put between a number and its unit. */
size_t hl__text_blanks(const char *s, size_t size);
/* The text without blanks around it; *size becomes what is left. */
const char *hl__text_trim(const char *text, size_t *size);
/* Columns that the text takes on a terminal: characters, combining marks not counted. */
int hl__text_width(const char *string);

/* RFC 4648, with padding. */
void hl__text_base64(hl_text *text, const char *bytes, size_t size);

#endif
