/* chart_legend.c - what the shapes of a chart mean, once a page (layer: render/html). */
#include "chart.h"

enum { TALL = 180, MIDDLE = 90 };

/* Adds the shape to the ways; each has a style of its own. */
typedef struct sample {
    const char *means;
    const char *style;
    enum {
        A_DISC,
        A_DIAMOND,
        A_RING,
        A_RING_CROSSED,
        A_BOX,
        A_BAND,
        A_TICK,
        A_BREAK,
        A_SQUARE,
        A_TRIANGLE,
        A_TRIANGLE_DOTTED,
        A_STROKES,
        A_CROSS,
        A_DOT,
        A_BAR,
        A_LINE,
    } shape;
} sample;

static const sample samples[] = {
    {"a natural that passes", "good", A_DISC},
    {"a sharp that passes", "good", A_DIAMOND},
    {"out of its limits: ringed and crossed, its column hatched, its name above", "ring", A_RING_CROSSED},
    {"uneven: stands out from its neighbours; hatched and named too", "ring", A_TRIANGLE_DOTTED},
    {"to read again, something was adjusted since", "again", A_RING},
    {"in doubt", "doubt", A_RING},
    {"not measured", "none", A_BOX},
    {"within its go/no-go gauge, no number", "go", A_TICK},
    {"the target, with its aim", "band", A_BAND},
    {"a section break", "break", A_BREAK},
};
/* Of the board; the same shapes as on the page at the piano. */
static const sample board_samples[] = {
    {"passes", "good", A_DOT},
    {"passes by go/no-go gauge", "good", A_BAR},
    {"out", "good", A_SQUARE},
    {"uneven", "good", A_TRIANGLE},
    {"in doubt", "doubt", A_RING},
    {"to read again", "cross", A_STROKES},
    {"not read", "none", A_BOX},
    {"left out at the bench", "cross", A_CROSS},
    {"accepted as it is", "good", A_LINE},
};
static const sample before = {"the first reading, of an earlier pass", "before", A_DISC};

static void draw_band(hl_html *html)
{
    hl_text edge = {0};
    hl__svg_rect(html, "band", 20, 45, 220, 90);
    hl__way_move(&edge, 20, 45);
    hl__way_line(&edge, 240, 45);
    hl__way_move(&edge, 20, 135);
    hl__way_line(&edge, 240, 135);
    hl__svg_path(html, "edge", &edge);
    hl__svg_line(html, "aim", 60, MIDDLE, 200, MIDDLE);
}

static void draw_crossed(hl_html *html)
{
    hl_text hatch = {0}, ring = {0}, cross = {0};
    for (int x = -100; x < 81; x += 60) {
        const int from = x > 0 ? x : 0, to = x + 180 < 81 ? x + 180 : 81;
        hl__way_move(&hatch, 90 + from, 180 - (from - x));
        hl__way_line(&hatch, 90 + to, 180 - (to - x));
    }
    hl__svg_rect(html, "column", 90, 0, 81, 180);
    hl__svg_path(html, "hatch", &hatch);
    hl__way_disc(&ring, 130, MIDDLE, 44);
    hl__way_cross(&cross, 130, MIDDLE, 22);
    hl__svg_path(html, "ring", &ring);
    hl__svg_path(html, "cross", &cross);
}

static void draw_uneven(hl_html *html)
{
    hl_text triangle = {0}, inner = {0};
    hl__way_triangle(&triangle, 130, MIDDLE, 62);
    hl__way_disc(&inner, 130, MIDDLE, 18);
    hl__svg_path(html, "ring", &triangle);
    hl__svg_path(html, "good", &inner);
}

static void draw_sample(hl_html *html, const sample *one)
{
    hl_text way = {0};
    hl__html_open(html, "svg", "xmlns", "http://www.w3.org/2000/svg", "class", "chart key", "viewBox",
                  "0 0 26 18", "aria-hidden", "true", NULL);
    switch (one->shape) {
    case A_DISC:
        hl__way_disc(&way, 130, MIDDLE, 32);
        break;
    case A_DIAMOND:
        hl__way_diamond(&way, 130, MIDDLE, 42);
        break;
    case A_RING:
        hl__way_disc(&way, 130, MIDDLE, 44);
        break;
    case A_RING_CROSSED:
        draw_crossed(html);
        break;
    case A_BOX:
        hl__way_box(&way, 110, 70, 40, 40);
        break;
    case A_DOT:
        hl__way_disc(&way, 130, MIDDLE, 22);
        break;
    case A_BAR:
        hl__way_box(&way, 126, MIDDLE - 40, 8, 80);
        break;
    case A_LINE:
        hl__way_box(&way, 90, MIDDLE - 10, 80, 20);
        break;
    case A_SQUARE:
        hl__way_box(&way, 130 - 40, MIDDLE - 40, 80, 80);
        break;
    case A_TRIANGLE:
        hl__way_triangle(&way, 130, MIDDLE, 50);
        break;
    case A_TRIANGLE_DOTTED:
        draw_uneven(html);
        break;
    case A_STROKES:
        for (int k = -1; k <= 1; k++) {
            hl__way_move(&way, 130 - 40 + 26 * k, MIDDLE + 40);
            hl__way_line(&way, 130 + 40 + 26 * k, MIDDLE - 40);
        }
        break;
    case A_CROSS:
        hl__way_cross(&way, 130, MIDDLE, 40);
        break;
    case A_BAND:
        draw_band(html);
        break;
    case A_TICK:
        hl__way_move(&way, 130, 30);
        hl__way_line(&way, 130, 150);
        break;
    default:
        hl__way_move(&way, 130, 0);
        hl__way_line(&way, 130, TALL);
        break;
    }
    hl__svg_path(html, one->style, &way);
    hl__html_close(html);
}

static void draw_row(hl_html *html, const sample *one)
{
    hl__html_open(html, "li", NULL);
    draw_sample(html, one);
    hl__html_leaf(html, "span", NULL, one->means);
    hl__html_close(html);
}

void hl__board_legend(hl_html *html)
{
    hl__html_open(html, "ul", "class", "legend", NULL);
    for (size_t i = 0; i < sizeof board_samples / sizeof *board_samples; i++)
        draw_row(html, &board_samples[i]);
    hl__html_close(html);
    hl__html_line(html);
}

void hl__chart_legend(hl_html *html, bool befores)
{
    hl__html_open(html, "ul", "class", "legend", NULL);
    for (size_t i = 0; i < sizeof samples / sizeof *samples; i++)
        draw_row(html, &samples[i]);
    if (befores)
        draw_row(html, &before);
    hl__html_close(html);
    hl__html_line(html);
}
