/* svg.c - lines, boxes, texts and ways, in whole tenths (layer: render/html). */
#include "svg.h"

#include <stdio.h>
#include <stdlib.h>

void hl__svg_number(hl_text *out, int tenths)
{
    const int size = abs(tenths);
    hl__text_printf(out, size % 10 ? "%s%d.%d" : "%s%d", tenths < 0 ? "-" : "", size / 10, size % 10);
}

const char *hl__svg_value(char *room, int tenths)
{
    const int size = abs(tenths);
    if (size % 10)
        snprintf(room, 16, "%s%d.%d", tenths < 0 ? "-" : "", size / 10, size % 10);
    else
        snprintf(room, 16, "%s%d", tenths < 0 ? "-" : "", size / 10);
    return room;
}

void hl__svg_line(hl_html *html, const char *style, int x1, int y1, int x2, int y2)
{
    char a[16], b[16], c[16], d[16];
    hl__html_empty(html, "line", "class", style, "x1", hl__svg_value(a, x1), "y1", hl__svg_value(b, y1), "x2",
                   hl__svg_value(c, x2), "y2", hl__svg_value(d, y2), NULL);
}

void hl__svg_rect(hl_html *html, const char *style, int x, int y, int width, int height)
{
    char a[16], b[16], c[16], d[16];
    hl__html_empty(html, "rect", "class", style, "x", hl__svg_value(a, x), "y", hl__svg_value(b, y), "width",
                   hl__svg_value(c, width), "height", hl__svg_value(d, height), NULL);
}

void hl__svg_text(hl_html *html, const char *style, int x, int y, const char *text)
{
    char a[16], b[16];
    hl__html_open(html, "text", "class", style, "x", hl__svg_value(a, x), "y", hl__svg_value(b, y), NULL);
    hl__html_text(html, text);
    hl__html_close(html);
}

void hl__svg_path(hl_html *html, const char *style, hl_text *way)
{
    if (way->size > 0)
        hl__html_empty(html, "path", "class", style, "d", way->data, NULL);
    html->out->failed |= way->failed;
    hl__text_free(way);
    *way = (hl_text){0};
}

static void add_place(hl_text *way, char letter, int x, int y)
{
    hl__text_char(way, letter);
    hl__svg_number(way, x);
    hl__text_char(way, ' ');
    hl__svg_number(way, y);
}

void hl__way_move(hl_text *way, int x, int y)
{
    add_place(way, 'M', x, y);
}

void hl__way_line(hl_text *way, int x, int y)
{
    add_place(way, 'L', x, y);
}

void hl__way_box(hl_text *way, int x, int y, int width, int height)
{
    add_place(way, 'M', x, y);
    hl__text_char(way, 'h');
    hl__svg_number(way, width);
    hl__text_char(way, 'v');
    hl__svg_number(way, height);
    hl__text_char(way, 'h');
    hl__svg_number(way, -width);
    hl__text_char(way, 'z');
}

void hl__way_disc(hl_text *way, int x, int y, int radius)
{
    char r[16], across[16], back[16];
    hl__svg_value(r, radius);
    hl__svg_value(across, 2 * radius);
    hl__svg_value(back, -2 * radius);
    add_place(way, 'M', x - radius, y);
    hl__text_printf(way, "a%s %s 0 1 0 %s 0a%s %s 0 1 0 %s 0z", r, r, across, r, r, back);
}

void hl__way_diamond(hl_text *way, int x, int y, int radius)
{
    add_place(way, 'M', x - radius, y);
    add_place(way, 'L', x, y - radius);
    add_place(way, 'L', x + radius, y);
    add_place(way, 'L', x, y + radius);
    hl__text_char(way, 'z');
}

void hl__way_triangle(hl_text *way, int x, int y, int radius)
{
    add_place(way, 'M', x, y - radius);
    add_place(way, 'L', x + radius, y + radius * 4 / 5);
    add_place(way, 'L', x - radius, y + radius * 4 / 5);
    hl__text_char(way, 'z');
}

void hl__way_cross(hl_text *way, int x, int y, int radius)
{
    add_place(way, 'M', x - radius, y - radius);
    add_place(way, 'L', x + radius, y + radius);
    add_place(way, 'M', x - radius, y + radius);
    add_place(way, 'L', x + radius, y - radius);
}
