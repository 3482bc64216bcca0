/* html.h - writes HTML that is XML too, so that nothing in it can break out of its place (render).
 *
 * Names of elements and attributes, and all CSS, are literals of ours; what comes from sheets and
 * rules only ever becomes text or an attribute's value, and passes the escaper of that place.  The
 * writer keeps what is open, so that what it wrote is well-formed whatever went into it. */
#ifndef HL_HTML_H
#define HL_HTML_H

#include "hammerline/print.h"
#include "text.h"

#if defined(__GNUC__)
#define HL_ENDS_IN_NULL __attribute__((sentinel))
#else
#define HL_ENDS_IN_NULL
#endif

/* One escaper a place.  Each first makes control characters, direction marks and bad UTF-8 visible
 * (hl__text_safe); HL_GLUE becomes a no-break space.
 * text: between tags.  attribute: between double quotes.  svg: a line of drawn text, a title or a
 * description: quotes are escaped too, and a line never breaks. */
void hl__escape_text(hl_text *out, const char *text);
void hl__escape_attribute(hl_text *out, const char *text);
void hl__escape_svg(hl_text *out, const char *text);

#define HL_HTML_DEPTH 24

typedef struct hl_html {
    hl_text *out;
    const char *open[HL_HTML_DEPTH]; /* names of the open elements, outermost first */
    int depth;
    int drawings; /* how many of them are svg: text goes by its escaper there */
} hl_html;        /* start as {.out = &text} */

/* <tag name="value" ...>: pairs, then NULL.  A NULL value leaves its attribute out. */
void hl__html_open(hl_html *html, const char *tag, ...) HL_ENDS_IN_NULL;
/* The same, closed at once: <meta .../>, <path .../>. */
void hl__html_empty(hl_html *html, const char *tag, ...) HL_ENDS_IN_NULL;
/* Closes the innermost open element. */
void hl__html_close(hl_html *html);
void hl__html_text(hl_html *html, const char *text);
/* The text so far in `text`, which is emptied for the next one. */
void hl__html_take(hl_html *html, hl_text *text);
/* <tag class="style">text</tag>; style may be NULL. */
void hl__html_leaf(hl_html *html, const char *tag, const char *style, const char *text);
void hl__html_leaf_take(hl_html *html, const char *tag, const char *style, hl_text *text);
/* A line end in the file, for people who read it. */
void hl__html_line(hl_html *html);

#endif
