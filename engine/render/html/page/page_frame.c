/* page_frame.c - the frame of every HTML page, and its small blocks (layer: render/html).
 *
 * The page forbids itself everything (Content-Security-Policy) but the one style sheet, by its
 * hash: no script, no picture, no font and no address outside, whatever its text says. */
#include "page_frame.h"

#include "hash.h"

#include <string.h>

/* "sha256-..." in base 64, as browsers write it. */
static void add_hash(hl_text *out, const hl_text *bytes)
{
    static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    static const char digits[] = "0123456789abcdef";
    unsigned char raw[33] = {0};
    char hex[65];
    hl_hash hash;
    hl__hash_start(&hash);
    hl__hash_add(&hash, bytes->data ? bytes->data : "", bytes->size);
    hl__hash_end(&hash, hex);
    for (int i = 0; i < 64; i++)
        raw[i / 2] = (unsigned char)(raw[i / 2] << 4 | (strchr(digits, hex[i]) - digits));
    hl__text_add(out, "sha256-");
    for (int i = 0; i < 33; i += 3) {
        const unsigned bits = (unsigned)raw[i] << 16 | (unsigned)raw[i + 1] << 8 | raw[i + 2];
        for (int k = 0; k < 4; k++)
            hl__text_char(out, i == 30 && k == 3 ? '=' : letters[bits >> (18 - 6 * k) & 63]);
    }
}

static void add_policy(hl_html *html, const hl_text *style)
{
    hl_text policy = {0};
    hl__text_add(&policy, "default-src 'none'; style-src '");
    add_hash(&policy, style);
    hl__text_add(&policy, "'; base-uri 'none'; form-action 'none'");
    hl__html_empty(html, "meta", "http-equiv", "Content-Security-Policy", "content",
                   policy.data ? policy.data : "", NULL);
    html->out->failed |= policy.failed;
    hl__text_free(&policy);
    hl__html_line(html);
}

/* A string of CSS.  Whatever is no plain letter, digit or mark is written as its number, so that no text can
 * end the string, the rule or the element. */
static void add_css_string(hl_text *out, const char *text)
{
    hl_text safe = {0};
    hl__text_safe(&safe, text);
    hl__text_char(out, '"');
    for (size_t at = 0; at < safe.size;) {
        uint32_t point = 0;
        const int n = hl__utf8_next(safe.data + at, safe.size - at, &point);
        const bool plain = point == ' ' || point == '.' || point == ',' || point == '-' ||
                           (point >= '0' && point <= '9') || (point >= 'A' && point <= 'Z') ||
                           (point >= 'a' && point <= 'z');
        if (plain)
            hl__text_char(out, (char)point);
        else
            hl__text_printf(out, "\\%06x", (unsigned)point);
        at += n > 0 ? (size_t)n : 1;
    }
    hl__text_char(out, '"');
    out->failed |= safe.failed;
    hl__text_free(&safe);
}

static void add_foot(hl_text *style, const char *foot)
{
    hl__text_add(style, "@page{@bottom-left{font:7.5pt serif;content:");
    add_css_string(style, foot);
    hl__text_add(style, "}}\n");
}

void hl__page_start(hl_html *html, const char *title, const char *kind, const char *foot)
{
    hl_text style = {0};
    hl__page_style(&style);
    if (foot)
        add_foot(&style, foot);
    hl__text_add(html->out, "<!DOCTYPE html>\n");
    hl__html_open(html, "html", "xmlns", "http://www.w3.org/1999/xhtml", "lang", "en", NULL);
    hl__html_open(html, "head", NULL);
    hl__html_empty(html, "meta", "charset", "utf-8", NULL);
    hl__html_line(html);
    add_policy(html, &style);
    hl__html_empty(html, "meta", "name", "viewport", "content", "width=device-width, initial-scale=1", NULL);
    hl__html_empty(html, "meta", "name", "referrer", "content", "no-referrer", NULL);
    hl__html_leaf(html, "title", NULL, title);
    hl__html_line(html);
    hl__html_open(html, "style", NULL);
    hl__text_add_n(html->out, style.data ? style.data : "", style.size);
    hl__html_close(html);
    hl__html_close(html);
    hl__html_line(html);
    hl__html_open(html, "body", "class", kind, NULL);
    hl__html_open(html, "main", NULL);
    hl__html_line(html);
    html->out->failed |= style.failed;
    hl__text_free(&style);
}

void hl__page_end(hl_html *html)
{
    while (html->depth > 0)
        hl__html_close(html);
    hl__html_line(html);
}

void hl__section_open(hl_html *html, const char *id, const char *title)
{
    hl__html_line(html);
    hl__html_open(html, "section", "class", id, "aria-labelledby", id, NULL);
    hl__html_open(html, "h2", "id", id, NULL);
    hl__html_text(html, title);
    hl__html_close(html);
    hl__html_line(html);
}

void hl__grid_start(hl_html *html, const char *style, const char *caption, const char *const *heads)
{
    hl__html_open(html, "div", "class", "wide", "tabindex", "0", "role", "region", "aria-label", caption,
                  NULL);
    hl__html_open(html, "table", "class", style, NULL);
    hl__html_leaf(html, "caption", NULL, caption);
    hl__html_open(html, "thead", NULL);
    hl__html_open(html, "tr", NULL);
    for (; *heads; heads++) {
        const bool number = **heads == '>';
        hl__html_open(html, "th", "scope", "col", "class", number ? "right" : NULL, NULL);
        hl__html_text(html, *heads + number);
        hl__html_close(html);
    }
    hl__html_close(html);
    hl__html_close(html);
    hl__html_open(html, "tbody", NULL);
    hl__html_line(html);
}

void hl__grid_end(hl_html *html)
{
    hl__html_close(html);
    hl__html_close(html);
    hl__html_close(html);
    hl__html_line(html);
}

void hl__row_start(hl_html *html, const char *head)
{
    hl__html_open(html, "tr", NULL);
    hl__html_open(html, "th", "scope", "row", NULL);
    hl__html_text(html, head);
    hl__html_close(html);
}

void hl__row_start_take(hl_html *html, hl_text *head)
{
    hl__row_start(html, head->data ? head->data : "");
    html->out->failed |= head->failed;
    hl__text_free(head);
    *head = (hl_text){0};
}

void hl__row_end(hl_html *html)
{
    hl__html_close(html);
    hl__html_line(html);
}

void hl__pair(hl_html *html, const char *label, const char *value)
{
    hl__html_open(html, "div", NULL);
    hl__html_leaf(html, "dt", NULL, label);
    hl__html_leaf(html, "dd", value[0] ? NULL : "unsaid", value[0] ? value : "not stated");
    hl__html_close(html);
    hl__html_line(html);
}

void hl__pair_take(hl_html *html, const char *label, hl_text *value)
{
    hl__pair(html, label, value->data ? value->data : "");
    html->out->failed |= value->failed;
    hl__text_free(value);
    *value = (hl_text){0};
}

void hl__paragraph(hl_html *html, const char *style, hl_text *text)
{
    hl__html_leaf_take(html, "p", style, text);
    hl__html_line(html);
}
