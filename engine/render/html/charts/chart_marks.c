/* chart_marks.c - a mark a reading: discs for naturals, diamonds for sharps (layer: render/html).
 *
 * Out of its limits: ringed and crossed.  Uneven, though inside its limits: in a triangle. */
#include "chart.h"

enum { DISC = 25, DIAMOND = 34, RING = 44, TRIANGLE = 62, GO = 60 };

static void add_shape(const hl_frame *frame, hl_text *way, int note, int y, int disc, int diamond)
{
    if (hl__frame_is_sharp(frame, note))
        hl__way_diamond(way, hl__frame_x(frame, note), y, diamond);
    else
        hl__way_disc(way, hl__frame_x(frame, note), y, disc);
}

/* The ways that readings of each sort are collected in; one path a sort keeps the page small. */
typedef struct marks {
    hl_text good, out, cross, uneven, inner, again, doubt, go, none, arrows;
} marks;

static int find_place(const hl_frame *frame, const hl_finding *finding)
{
    const hl_target *target = &finding->target;
    if (finding->has_value)
        return hl__frame_y(frame, finding->value);
    if (finding->why == HL_WHY_LOW && target->has_low)
        return hl__frame_y(frame, target->low) + GO;
    if (finding->why == HL_WHY_HIGH && target->has_high)
        return hl__frame_y(frame, target->high) - GO;
    return hl__frame_y(frame, target->aim);
}

static void add_arrow(const hl_frame *frame, hl_text *way, int x, int beyond)
{
    const int y = beyond > 0 ? frame->top : frame->bottom, tip = beyond > 0 ? -35 : 35;
    hl__way_move(way, x - 30, y);
    hl__way_line(way, x, y + tip);
    hl__way_line(way, x + 30, y);
}

static void add_mark(const hl_frame *frame, marks *in, int note, const hl_finding *finding)
{
    const int x = hl__frame_x(frame, note), y = find_place(frame, finding);
    if (finding->verdict == HL_MISSING) {
        hl__way_box(&in->none, x - 20, frame->bottom - 45, 40, 40);
        return;
    }
    if (finding->has_value && hl__frame_beyond(frame, finding->value) != 0)
        add_arrow(frame, &in->arrows, x, hl__frame_beyond(frame, finding->value));
    if (finding->go && finding->verdict == HL_PASS) {
        hl__way_move(&in->go, x, y - GO);
        hl__way_line(&in->go, x, y + GO);
    } else if (finding->verdict == HL_PASS) {
        add_shape(frame, &in->good, note, y, DISC, DIAMOND);
    } else if (finding->verdict == HL_FAIL && finding->why == HL_WHY_UNEVEN) {
        hl__way_triangle(&in->uneven, x, y, TRIANGLE);
        add_shape(frame, &in->inner, note, y, DISC - 7, DIAMOND - 10);
    } else if (finding->verdict == HL_FAIL) {
        add_shape(frame, &in->out, note, y, RING, RING + 10);
        hl__way_cross(&in->cross, x, y, 22);
    } else {
        hl_text *way = finding->verdict == HL_STALE ? &in->again : &in->doubt;
        add_shape(frame, way, note, y, RING, RING + 10);
    }
}

void hl__marks_draw(const hl_frame *frame, const hl_series *series)
{
    marks in = {.good = {0}};
    for (int note = 1; note <= series->keys; note++)
        if (series->spots[note].finding)
            add_mark(frame, &in, note, series->spots[note].finding);
    hl__svg_path(frame->html, "none", &in.none);
    hl__svg_path(frame->html, "go", &in.go);
    hl__svg_path(frame->html, "good", &in.good);
    hl__svg_path(frame->html, "again", &in.again);
    hl__svg_path(frame->html, "doubt", &in.doubt);
    hl__svg_path(frame->html, "ring uneven", &in.uneven);
    hl__svg_path(frame->html, "good", &in.inner);
    hl__svg_path(frame->html, "ring", &in.out);
    hl__svg_path(frame->html, "cross", &in.cross);
    hl__svg_path(frame->html, "arrow", &in.arrows);
}

void hl__mark_shape(const hl_frame *frame, hl_text *way, int note, int y)
{
    add_shape(frame, way, note, y, DISC, DIAMOND);
}
