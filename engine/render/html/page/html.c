/* html.c - escapes for each place, and keeps elements balanced (layer: render/html). */
#include "html.h"

#include "wrap.h"

#include <assert.h>
#include <stdarg.h>
#include <string.h>

typedef enum place { PLACE_TEXT, PLACE_ATTRIBUTE, PLACE_SVG } place;

/* What XML has no way to hold, and hl__text_safe lets through. */
static bool is_noncharacter(uint32_t point)
{
    return (point & 0xFFFE) == 0xFFFE || (point >= 0xFDD0 && point <= 0xFDEF);
}

static const char *find_entity(uint32_t point, place where)
{
    switch (point) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return where == PLACE_TEXT ? NULL : "&quot;";
    case '\'':
        return where == PLACE_TEXT ? NULL : "&#39;";
    case '`':
        return where == PLACE_ATTRIBUTE ? "&#96;" : NULL;
    case ' ':
        /* Drawn text is one line: no renderer may fold or break it. */
        return where == PLACE_SVG ? " " : NULL;
    default:
        return NULL;
    }
}

static void escape_safe(hl_text *out, const char *safe, size_t size, place where)
{
    for (size_t i = 0; i < size;) {
        uint32_t point = 0;
        const int taken = hl__utf8_next(safe + i, size - i, &point);
        if (taken <= 0) { /* not so: the text is safe */
            i++;
            continue;
        }
        const char *entity = find_entity(point, where);
        if (entity)
            hl__text_add(out, entity);
        else if (is_noncharacter(point))
            hl__text_printf(out, "&lt;U+%04lX&gt;", (unsigned long)point);
        else
            hl__text_add_n(out, safe + i, (size_t)taken);
        i += (size_t)taken;
    }
}

static void escape(hl_text *out, const char *text, place where)
{
    const char glue[] = {HL_GLUE, '\0'};
    for (;;) {
        const size_t size = strcspn(text, glue);
        hl_text piece = {0}, safe = {0};
        hl__text_add_n(&piece, text, size);
        hl__text_safe(&safe, piece.data ? piece.data : "");
        escape_safe(out, safe.data ? safe.data : "", safe.size, where);
        out->failed |= piece.failed || safe.failed;
        hl__text_free(&piece);
        hl__text_free(&safe);
        if (!text[size])
            return;
        hl__text_add(out, "\xC2\xA0"); /* no-break space */
        text += size + 1;
    }
}

void hl__escape_text(hl_text *out, const char *text)
{
    escape(out, text, PLACE_TEXT);
}

void hl__escape_attribute(hl_text *out, const char *text)
{
    escape(out, text, PLACE_ATTRIBUTE);
}

void hl__escape_svg(hl_text *out, const char *text)
{
    escape(out, text, PLACE_SVG);
}

static void start_tag(hl_html *html, const char *tag, va_list pairs)
{
    hl__text_char(html->out, '<');
    hl__text_add(html->out, tag);
    for (const char *name = va_arg(pairs, const char *); name; name = va_arg(pairs, const char *)) {
        const char *value = va_arg(pairs, const char *);
        if (!value)
            continue;
        hl__text_char(html->out, ' ');
        hl__text_add(html->out, name);
        hl__text_add(html->out, "=\"");
        hl__escape_attribute(html->out, value);
        hl__text_char(html->out, '"');
    }
}

void hl__html_open(hl_html *html, const char *tag, ...)
{
    va_list pairs;
    va_start(pairs, tag);
    start_tag(html, tag, pairs);
    va_end(pairs);
    hl__text_char(html->out, '>');
    assert(html->depth < HL_HTML_DEPTH);
    html->open[html->depth++] = tag;
    html->drawings += strcmp(tag, "svg") == 0;
}

void hl__html_empty(hl_html *html, const char *tag, ...)
{
    va_list pairs;
    va_start(pairs, tag);
    start_tag(html, tag, pairs);
    va_end(pairs);
    hl__text_add(html->out, "/>");
}

void hl__html_close(hl_html *html)
{
    assert(html->depth > 0);
    const char *tag = html->open[--html->depth];
    html->drawings -= strcmp(tag, "svg") == 0;
    hl__text_add(html->out, "</");
    hl__text_add(html->out, tag);
    hl__text_char(html->out, '>');
}

void hl__html_text(hl_html *html, const char *text)
{
    if (html->drawings > 0)
        hl__escape_svg(html->out, text);
    else
        hl__escape_text(html->out, text);
}

void hl__html_take(hl_html *html, hl_text *text)
{
    hl__html_text(html, text->data ? text->data : "");
    html->out->failed |= text->failed;
    hl__text_free(text);
    *text = (hl_text){0};
}

void hl__html_leaf(hl_html *html, const char *tag, const char *style, const char *text)
{
    hl__html_open(html, tag, "class", style, NULL);
    hl__html_text(html, text);
    hl__html_close(html);
}

void hl__html_leaf_take(hl_html *html, const char *tag, const char *style, hl_text *text)
{
    hl__html_open(html, tag, "class", style, NULL);
    hl__html_take(html, text);
    hl__html_close(html);
}

void hl__html_line(hl_html *html)
{
    hl__text_char(html->out, '\n');
}
