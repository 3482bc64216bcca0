/* json.c - the JSON writer (layer: render/data).
 *
 * Strings keep their bytes, save what JSON forbids, '<' (a string may be laid into a page), and the
 * two separators that old JavaScript takes for line ends.  Bytes that are no UTF-8 become U+FFFD:
 * readers refuse the whole text otherwise. */
#include "json.h"

#include "number.h"
#include "quantity.h"

#include <math.h>
#include <string.h>

static void add_escaped(hl_text *out, const char *value)
{
    const size_t size = strlen(value);
    hl__text_char(out, '"');
    for (size_t i = 0; i < size;) {
        uint32_t point = 0;
        const int taken = hl__utf8_next(value + i, size - i, &point);
        if (taken <= 0) {
            hl__text_add(out, "\\ufffd");
            i++;
            continue;
        }
        if (point == '"' || point == '\\')
            hl__text_printf(out, "\\%c", (char)point);
        else if (point < 0x20 || point == 0x7f || point == '<' || point == 0x2028 || point == 0x2029)
            hl__text_printf(out, "\\u%04x", (unsigned)point);
        else
            hl__text_add_n(out, value + i, (size_t)taken);
        i += (size_t)taken;
    }
    hl__text_char(out, '"');
}

/* Comma, line break and key before a member of whatever is open. */
static void start_member(hl_json *json, const char *key)
{
    const int depth = json->depth;
    if (depth > 0) {
        const bool flat = json->flat[depth - 1];
        if (json->some[depth - 1])
            hl__text_add(json->out, flat ? ", " : ",");
        if (!flat) {
            hl__text_char(json->out, '\n');
            hl__text_spaces(json->out, 2 * depth);
        }
        json->some[depth - 1] = true;
    }
    if (key) {
        add_escaped(json->out, key);
        hl__text_add(json->out, ": ");
    }
}

void hl__json_open(hl_json *json, const char *key, char bracket, bool flat)
{
    start_member(json, key);
    hl__text_char(json->out, bracket);
    if (json->depth >= HL_JSON_DEPTH) {
        json->out->failed = true; /* our own shapes are never this deep */
        return;
    }
    const bool inherited = json->depth > 0 && json->flat[json->depth - 1];
    json->some[json->depth] = false;
    json->flat[json->depth] = flat || inherited;
    json->depth++;
}

void hl__json_close(hl_json *json, char bracket)
{
    if (json->depth == 0)
        return;
    json->depth--;
    if (json->some[json->depth] && !json->flat[json->depth]) {
        hl__text_char(json->out, '\n');
        hl__text_spaces(json->out, 2 * json->depth);
    }
    hl__text_char(json->out, bracket);
    if (json->depth == 0)
        hl__text_char(json->out, '\n');
}

void hl__json_string(hl_json *json, const char *key, const char *value)
{
    if (!value) {
        hl__json_null(json, key);
        return;
    }
    start_member(json, key);
    add_escaped(json->out, value);
}

void hl__json_number(hl_json *json, const char *key, long value)
{
    start_member(json, key);
    hl__text_printf(json->out, "%ld", value);
}

void hl__json_bool(hl_json *json, const char *key, bool value)
{
    start_member(json, key);
    hl__text_add(json->out, value ? "true" : "false");
}

void hl__json_null(hl_json *json, const char *key)
{
    start_member(json, key);
    hl__text_add(json->out, "null");
}

void hl__text_amount_plain(hl_text *out, hl_amount value, hl_unit unit)
{
    const int64_t scale = hl__unit_scale(unit);
    if (scale > HL_ONE) {
        /* nanometres * 10^6 / 25,400,000, without leaving whole numbers */
        const int64_t up = 5, down = scale / 200000;
        const int64_t half = value < 0 ? -(down / 2) : down / 2;
        value = (value * up + half) / down;
    }
    hl__text_exact(out, value);
}

void hl__json_amount(hl_json *json, const char *key, hl_amount value, hl_unit unit)
{
    start_member(json, key);
    hl__text_amount_plain(json->out, value, unit);
}

void hl__json_double(hl_json *json, const char *key, double value)
{
    start_member(json, key);
    if (isfinite(value))
        hl__text_double(json->out, value);
    else
        hl__text_add(json->out, "null");
}
