/* chart_frame.c - axes, section breaks and the keyboard of a chart (layer: render/html). */
#include "chart.h"

#include "number.h"
#include "quantity.h"

#include <stdlib.h>

enum {
    LEFT = 560,
    SMALL_LEFT = 420,
    RIGHT = 80,       /* beside the plot */
    KEYS_GAP = 30,    /* from the plot to the keys */
    KEYS_TALL = 120,  /* a natural */
    SHARP_TALL = 75,  /* a sharp */
    NAMES_DOWN = 110, /* from the keys to the foot of their names */
    FOOT = 40,
};

hl_frame hl__frame_at(hl_html *html, const hl_audit *audit, hl_unit unit, hl_scale scale, int top, int height,
                      bool small)
{
    const int left = small ? SMALL_LEFT : LEFT, width = small ? HL_CHART_SMALL : HL_CHART_WIDTH;
    hl_frame frame = {.html = html,
                      .sheet = audit->sheet,
                      .unit = unit,
                      .scale = scale,
                      .top = top,
                      .bottom = top + height,
                      .left = left,
                      .keys = audit->sheet->compass.keys,
                      .small = small};
    frame.breadth = (width - left - RIGHT) / frame.keys;
    frame.right = left + frame.breadth * frame.keys;
    return frame;
}

int hl__frame_x(const hl_frame *frame, int note)
{
    return frame->left + frame->breadth * (note - 1) + frame->breadth / 2;
}

int hl__frame_beyond(const hl_frame *frame, hl_amount value)
{
    return value > frame->scale.high ? 1 : value < frame->scale.low ? -1 : 0;
}

int hl__frame_y(const hl_frame *frame, hl_amount value)
{
    const hl_amount span = frame->scale.high - frame->scale.low;
    const int height = frame->bottom - frame->top;
    if (hl__frame_beyond(frame, value) != 0)
        return value > frame->scale.high ? frame->top : frame->bottom;
    return frame->bottom - (int)(((value - frame->scale.low) * height + span / 2) / span);
}

bool hl__frame_is_sharp(const hl_frame *frame, int note)
{
    return hl_pitch_is_sharp(hl_note_pitch(frame->sheet->compass, note));
}

/* ---- the amount axis ----------------------------------------------------------------------------- */

static hl_amount find_first_tick(const hl_scale *scale)
{
    hl_amount first = scale->low / scale->tick * scale->tick;
    return first < scale->low ? first + scale->tick : first;
}

static void draw_ticks(const hl_frame *frame)
{
    const hl_scale *scale = &frame->scale;
    for (hl_amount at = find_first_tick(scale); at <= scale->high; at += scale->tick) {
        const int y = hl__frame_y(frame, at);
        hl_text name = {0};
        hl__svg_line(frame->html, "rule", frame->left, y, frame->right, y);
        hl__text_amount(&name, at, frame->unit, scale->tick, false);
        hl__svg_text(frame->html, "amount", frame->left - 60, y + 38, name.data ? name.data : "");
        frame->html->out->failed |= name.failed;
        hl__text_free(&name);
    }
}

static void draw_breaks(const hl_frame *frame)
{
    hl_text way = {0};
    for (int i = 0; i < frame->sheet->n_breaks; i++) {
        const int x = frame->left + frame->breadth * frame->sheet->breaks[i];
        hl__way_move(&way, x, frame->top - 20);
        hl__way_line(&way, x, frame->bottom + KEYS_GAP);
    }
    hl__svg_path(frame->html, "break", &way);
}

void hl__frame_axes(const hl_frame *frame)
{
    const char *unit = frame->unit == HL_RATIO ? "" : hl_unit_name(frame->unit);
    hl__svg_rect(frame->html, "plot", frame->left, frame->top, frame->right - frame->left,
                 frame->bottom - frame->top);
    draw_ticks(frame);
    draw_breaks(frame);
    if (unit[0])
        hl__svg_text(frame->html, "unit", 20, frame->top + 70, unit);
}

/* ---- the keyboard -------------------------------------------------------------------------------- */

int hl__frame_keys_height(bool small)
{
    return small ? NAMES_DOWN + FOOT : KEYS_GAP + KEYS_TALL + NAMES_DOWN + FOOT;
}

/* The lowest natural and every C: what a hand looks for. */
static bool is_named(const hl_frame *frame, int note)
{
    const int pitch = hl_note_pitch(frame->sheet->compass, note);
    return pitch % 12 == 0 || (note == 1 && pitch % 12 != 11 && !hl_pitch_is_sharp(pitch));
}

int hl__frame_keys(const hl_frame *frame)
{
    const int top = frame->bottom + KEYS_GAP;
    hl_text naturals = {0}, sharps = {0};
    for (int note = 1; note <= frame->keys && frame->small; note++)
        if (is_named(frame, note))
            hl__svg_text(frame->html, "name", hl__frame_x(frame, note), frame->bottom + NAMES_DOWN,
                         hl_pitch_name(hl_note_pitch(frame->sheet->compass, note)));
    if (frame->small)
        return frame->bottom + NAMES_DOWN + FOOT;
    for (int note = 1; note <= frame->keys; note++) {
        const int x = frame->left + frame->breadth * (note - 1);
        if (hl__frame_is_sharp(frame, note))
            hl__way_box(&sharps, x, top, frame->breadth, SHARP_TALL);
        else
            hl__way_box(&naturals, x, top, frame->breadth, KEYS_TALL);
    }
    hl__svg_rect(frame->html, "bed", frame->left, top, frame->right - frame->left, KEYS_TALL);
    hl__svg_path(frame->html, "naturals", &naturals);
    hl__svg_path(frame->html, "sharps", &sharps);
    for (int note = 1; note <= frame->keys; note++)
        if (is_named(frame, note))
            hl__svg_text(frame->html, "name", hl__frame_x(frame, note), top + KEYS_TALL + NAMES_DOWN,
                         hl_pitch_name(hl_note_pitch(frame->sheet->compass, note)));
    return top + KEYS_TALL + NAMES_DOWN + FOOT;
}
