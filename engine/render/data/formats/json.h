/* json.h - writes JSON, so that nothing in it can break out of a page or a terminal (layer: render/data).
 *
 * Keys and order are the caller's; the writer keeps commas, indents and escapes.  Numbers are
 * written exactly, without a float in between. */
#ifndef HL_JSON_H
#define HL_JSON_H

#include "hammerline/print.h"
#include "text.h"

#define HL_JSON_DEPTH 16

typedef struct hl_json {
    hl_text *out;
    int depth;
    bool some[HL_JSON_DEPTH]; /* the open thing at this depth has a member */
    bool flat[HL_JSON_DEPTH]; /* its members stand on one line */
} hl_json;                    /* start as {.out = &text} */

/* `key` is NULL inside an array and at the top.  `flat` keeps the members on one line. */
void hl__json_open(hl_json *json, const char *key, char bracket, bool flat); /* '{' or '[' */
void hl__json_close(hl_json *json, char bracket);                            /* '}' or ']' */
/* NULL is written as null. */
void hl__json_string(hl_json *json, const char *key, const char *value);
void hl__json_number(hl_json *json, const char *key, long value);
void hl__json_bool(hl_json *json, const char *key, bool value);
void hl__json_null(hl_json *json, const char *key);
/* The amount in its unit, as an exact decimal; inches to the millionth. */
void hl__json_amount(hl_json *json, const char *key, hl_amount value, hl_unit unit);
/* The same number alone, for other formats. */
void hl__text_amount_plain(hl_text *out, hl_amount value, hl_unit unit);
/* A double; null when it is not a number. */
void hl__json_double(hl_json *json, const char *key, double value);

#endif
