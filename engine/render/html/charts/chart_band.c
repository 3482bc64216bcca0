/* chart_band.c - the target of a step along the compass (layer: render/html).
 *
 * A note's piece of the band reaches half way to its neighbours that the step concerns too, so that
 * the band of the naturals has no holes at the sharps. */
#include "chart.h"

#include "leaf.h"

enum { NEAR = 3 }; /* notes: farther ones are no neighbours */

typedef enum colour { BOTH, NATURALS, SHARPS } colour;

typedef struct band {
    const hl_frame *frame;
    const hl_series *series;
    colour which;
    hl_text fill, edge, aim;
} band;

static const hl_target *target_at(const hl_series *series, int note)
{
    const hl_finding *finding = series->spots[note].finding;
    return finding && (finding->target.has_low || finding->target.has_high) ? &finding->target : NULL;
}

static bool is_of(const hl_series *series, int note, colour which)
{
    const bool sharp = hl_pitch_is_sharp(hl_note_pitch(series->audit->sheet->compass, note));
    return which == BOTH || sharp == (which == SHARPS);
}

/* A black key beside a white one, with other limits: at most pairs when each colour has its own, at a
 * few when the target is graded. */
bool hl__band_is_split(const hl_series *series)
{
    int pairs = 0, different = 0;
    for (int note = 2; note <= series->keys; note++) {
        const hl_target *a = target_at(series, note - 1), *b = target_at(series, note);
        if (!a || !b || is_of(series, note, SHARPS) == is_of(series, note - 1, SHARPS))
            continue;
        pairs++;
        different += !hl__same_limits(a, b);
    }
    return pairs > 0 && 2 * different > pairs;
}

/* Where the note's piece ends on one side: -1 or +1. */
static int find_end(const band *of, int note, int side)
{
    const int x = hl__frame_x(of->frame, note);
    for (int i = 1; i <= NEAR; i++) {
        const int other = note + side * i;
        if (other < 1 || other > of->series->keys)
            break;
        if (target_at(of->series, other) && is_of(of->series, other, of->which))
            return (x + hl__frame_x(of->frame, other)) / 2;
    }
    return x + side * of->frame->breadth / 2;
}

static void add_edge(hl_text *way, int left, int right, int y)
{
    hl__way_move(way, left, y);
    hl__way_line(way, right, y);
}

static void add_note(band *to, int note)
{
    const hl_target *target = target_at(to->series, note);
    const hl_frame *frame = to->frame;
    const int left = find_end(to, note, -1), right = find_end(to, note, 1);
    const int high = target->has_high ? hl__frame_y(frame, target->high) : frame->top;
    const int low = target->has_low ? hl__frame_y(frame, target->low) : frame->bottom;
    hl__way_box(&to->fill, left, high, right - left, low - high);
    if (target->has_high)
        add_edge(&to->edge, left, right, high);
    if (target->has_low)
        add_edge(&to->edge, left, right, low);
    add_edge(&to->aim, hl__frame_x(frame, note) - frame->breadth / 4,
             hl__frame_x(frame, note) + frame->breadth / 4, hl__frame_y(frame, target->aim));
}

static void draw(const hl_frame *frame, const hl_series *series, colour which, bool filled)
{
    band of = {.frame = frame, .series = series, .which = which};
    for (int note = 1; note <= series->keys; note++)
        if (target_at(series, note) && is_of(series, note, which))
            add_note(&of, note);
    if (filled)
        hl__svg_path(frame->html, "band", &of.fill);
    hl__svg_path(frame->html, filled ? "edge" : "floor", &of.edge);
    hl__svg_path(frame->html, "aim", &of.aim);
    hl__text_free(&of.fill);
}

void hl__band_draw(const hl_frame *frame, const hl_series *series)
{
    if (!hl__band_is_split(series)) {
        draw(frame, series, BOTH, true);
        return;
    }
    draw(frame, series, NATURALS, true);
    draw(frame, series, SHARPS, false);
}
