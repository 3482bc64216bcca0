/* page_frame.h - the frame of every HTML page, and its small blocks (layer: render/html). */
#ifndef HL_PAGE_FRAME_H
#define HL_PAGE_FRAME_H

#include "html.h"

/* Doctype to <main>; `kind` becomes the class of <body>.  `foot` is printed at the foot of every sheet of
 * paper; NULL for none.  Ended by hl__page_end. */
void hl__page_start(hl_html *html, const char *title, const char *kind, const char *foot);
void hl__page_end(hl_html *html);
/* The parts of the style sheet, joined; the page states its hash, so that no other style applies. */
void hl__page_style(hl_text *out);
/* <section><h2 id=...>: close with hl__html_close. */
void hl__section_open(hl_html *html, const char *id, const char *title);
/* <table> with a caption and column heads, up to <tbody>; close with hl__grid_end.  Heads end in NULL;
 * one that begins with '>' is over numbers. */
void hl__grid_start(hl_html *html, const char *style, const char *caption, const char *const *heads);
void hl__grid_end(hl_html *html);
void hl__row_start(hl_html *html, const char *head); /* <tr><th scope=row> */
void hl__row_start_take(hl_html *html, hl_text *head);
void hl__row_end(hl_html *html);
/* <div><dt>label</dt><dd>value</dd></div>; a blank value says "not stated". */
void hl__pair(hl_html *html, const char *label, const char *value);
void hl__pair_take(hl_html *html, const char *label, hl_text *value);
/* Text as a paragraph; the text is emptied. */
void hl__paragraph(hl_html *html, const char *style, hl_text *text);

#endif
