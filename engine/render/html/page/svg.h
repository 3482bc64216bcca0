/* svg.h - the few shapes that charts are made of (layer: render/html).
 *
 * Places are whole tenths of a unit, so that the same chart is the same bytes everywhere.  How a
 * shape looks is the style sheet's business: a shape has a class and no style of its own. */
#ifndef HL_SVG_H
#define HL_SVG_H

#include "html.h"

/* "12.5" of 125. */
void hl__svg_number(hl_text *out, int tenths);
/* A number as an attribute's value; `room` of at least 16 bytes. */
const char *hl__svg_value(char *room, int tenths);

void hl__svg_line(hl_html *html, const char *style, int x1, int y1, int x2, int y2);
void hl__svg_rect(hl_html *html, const char *style, int x, int y, int width, int height);
/* Anchored by its class. */
void hl__svg_text(hl_html *html, const char *style, int x, int y, const char *text);
/* A path of what was added to `way`, which is emptied; nothing when it is empty. */
void hl__svg_path(hl_html *html, const char *style, hl_text *way);

/* Pieces of a way. */
void hl__way_move(hl_text *way, int x, int y);
void hl__way_line(hl_text *way, int x, int y);
void hl__way_box(hl_text *way, int x, int y, int width, int height);
void hl__way_disc(hl_text *way, int x, int y, int radius);
void hl__way_diamond(hl_text *way, int x, int y, int radius);
void hl__way_triangle(hl_text *way, int x, int y, int radius); /* its tip is up */
void hl__way_cross(hl_text *way, int x, int y, int radius);

#endif
