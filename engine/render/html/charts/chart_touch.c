/* chart_touch.c - touchweight: downweight and upweight of a note joined by a thin line, its middle ticked,
 * and friction below (layer: render/html). */
#include "chart.h"

#include "notes.h"
#include "sentence.h"

#include <stdlib.h>
#include <string.h>

enum { TOP = 40, PLOT = 1500, BETWEEN = 190, LOW_PLOT = 620 };

static const char *const parts[] = {"downweight", "upweight", "friction"};

/* The three series; friction has no spots when the book computes none. */
typedef struct touch {
    const hl_audit *audit;
    hl_series down, up, friction;
    bool has_friction;
    bool *out; /* [keys + 1] any of the three is out */
} touch;

static int find_part(const hl_audit *audit, int part)
{
    const int step = hl_book_find_step(audit->book, parts[part]);
    return step >= 0 && audit->book->steps[step].unit == HL_G ? step : -1;
}

static int count_values(const hl_audit *audit, int step)
{
    int n = 0;
    for (size_t i = audit->findings.first[step]; i < audit->findings.first[step + 1]; i++)
        n += audit->findings.items[i].has_value && audit->findings.items[i].note > 0;
    return n;
}

bool hl__chart_has_touch(const hl_audit *audit)
{
    const int down = find_part(audit, 0), up = find_part(audit, 1);
    return down >= 0 && up >= 0 && count_values(audit, down) > 0 && count_values(audit, up) > 0;
}

bool hl__chart_in_touch(const hl_audit *audit, int step)
{
    bool part = false;
    for (int i = 0; i < 3; i++)
        part = part || find_part(audit, i) == step;
    return part && hl__chart_has_touch(audit);
}

static void free_touch(touch *of)
{
    hl__series_free(&of->down);
    hl__series_free(&of->up);
    hl__series_free(&of->friction);
    free(of->out);
}

static bool start_touch(touch *of, const hl_audit *audit)
{
    const int keys = audit->sheet->compass.keys, friction = find_part(audit, 2);
    *of = (touch){.audit = audit, .has_friction = friction >= 0 && count_values(audit, friction) > 0};
    of->out = calloc((size_t)keys + 1, sizeof *of->out);
    bool good = of->out != NULL;
    good = good && hl__series_start(&of->down, audit, find_part(audit, 0));
    good = good && hl__series_start(&of->up, audit, find_part(audit, 1));
    good = good && (!of->has_friction || hl__series_start(&of->friction, audit, friction));
    for (int note = 1; good && note <= keys; note++)
        of->out[note] = hl__spot_out(&of->down.spots[note]) || hl__spot_out(&of->up.spots[note]) ||
                        (of->has_friction && hl__spot_out(&of->friction.spots[note]));
    if (!good)
        free_touch(of);
    return good;
}

/* ---- down and up --------------------------------------------------------------------------------- */

static bool has_both(const touch *of, int note)
{
    const hl_finding *down = of->down.spots[note].finding, *up = of->up.spots[note].finding;
    return down && up && down->has_value && up->has_value;
}

static hl_scale choose_scale(const touch *of)
{
    const hl_scale down = hl__series_scale(&of->down), up = hl__series_scale(&of->up);
    return hl__scale_around(up.low < down.low ? up.low : down.low, up.high > down.high ? up.high : down.high,
                            HL_G);
}

/* The limits of one of the two. */
static void add_limits(const hl_frame *frame, const hl_series *series, hl_text *edge, hl_text *band)
{
    for (int note = 1; note <= series->keys; note++) {
        const hl_finding *finding = series->spots[note].finding;
        const int x = hl__frame_x(frame, note) - frame->breadth / 2;
        if (!finding)
            continue;
        const hl_target *target = &finding->target;
        const hl_amount limits[] = {target->low, target->high};
        const bool has[] = {target->has_low, target->has_high};
        for (int i = 0; i < 2; i++) {
            if (!has[i])
                continue;
            hl__way_move(edge, x, hl__frame_y(frame, limits[i]));
            hl__way_line(edge, x + frame->breadth, hl__frame_y(frame, limits[i]));
        }
        if (has[0] && has[1])
            hl__way_box(band, x, hl__frame_y(frame, limits[1]), frame->breadth,
                        hl__frame_y(frame, limits[0]) - hl__frame_y(frame, limits[1]));
    }
}

static void draw_limits(const hl_frame *frame, const touch *of)
{
    hl_text edge = {0}, floor = {0}, band = {0};
    add_limits(frame, &of->down, &edge, &band);
    add_limits(frame, &of->up, &floor, &band);
    hl__svg_path(frame->html, "band", &band);
    hl__svg_path(frame->html, "edge", &edge);
    hl__svg_path(frame->html, "floor", &floor);
}

static void draw_befores(const hl_frame *frame, const touch *of)
{
    hl_text way = {0};
    for (int note = 1; note <= of->down.keys; note++) {
        const hl_spot *down = &of->down.spots[note], *up = &of->up.spots[note];
        if (!down->has_before || !up->has_before)
            continue;
        const int x = hl__frame_x(frame, note) - 34;
        hl__way_move(&way, x, hl__frame_y(frame, up->before));
        hl__way_line(&way, x, hl__frame_y(frame, down->before));
    }
    hl__svg_path(frame->html, "way", &way);
}

/* What the two readings of a note have between them, with a tick at their mean. */
static void draw_joints(const hl_frame *frame, const touch *of)
{
    hl_text joints = {0}, middles = {0};
    for (int note = 1; note <= of->down.keys; note++) {
        if (!has_both(of, note))
            continue;
        const hl_amount down = of->down.spots[note].finding->value, up = of->up.spots[note].finding->value;
        const int x = hl__frame_x(frame, note), middle = hl__frame_y(frame, up + (down - up) / 2);
        hl__way_move(&joints, x, hl__frame_y(frame, down));
        hl__way_line(&joints, x, hl__frame_y(frame, up));
        hl__way_move(&middles, x - 30, middle);
        hl__way_line(&middles, x + 30, middle);
    }
    hl__svg_path(frame->html, "joint", &joints);
    hl__svg_path(frame->html, "middle", &middles);
}

/* ---- friction ------------------------------------------------------------------------------------ */

static void draw_friction(const hl_frame *frame, const touch *of)
{
    hl_text edge = {0}, band = {0};
    add_limits(frame, &of->friction, &edge, &band);
    hl__svg_path(frame->html, "band", &band);
    hl__svg_path(frame->html, "edge", &edge);
    hl__frame_hatch(frame, of->out);
    hl__frame_axes(frame);
    hl__marks_draw(frame, &of->friction);
    hl__svg_text(frame->html, "panel", frame->left + 20, frame->top - 30, of->friction.step->title);
}

/* ---- the chart ----------------------------------------------------------------------------------- */

static void say_touch(hl_text *out, const touch *of)
{
    int *notes = calloc((size_t)of->down.keys + 1, sizeof *notes);
    int n = 0, both = 0;
    if (!notes) {
        out->failed = true;
        return;
    }
    for (int note = 1; note <= of->down.keys; note++) {
        both += has_both(of, note);
        if (of->out[note])
            notes[n++] = note;
    }
    hl__say_count(out, both, "note is weighed.", "notes are weighed.");
    hl__text_add(out, " A thin line joins downweight, above, and upweight; its tick is the mean weight.");
    if (n > 0) {
        hl__text_printf(out, " %d out or to read again: ", n);
        hl__notes_fold(out, of->audit->sheet->compass, HL_EVERY_NOTE, notes, n);
        hl__text_char(out, '.');
    }
    hl__text_add(out, " The numbers are in the tables of its steps.");
    free(notes);
}

void hl__chart_touch(hl_html *html, const hl_audit *audit, int id)
{
    touch of;
    if (!start_touch(&of, audit)) {
        html->out->failed = true;
        return;
    }
    const int top = TOP + hl__names_height(audit, of.out);
    const hl_frame plot = hl__frame_at(html, audit, HL_G, choose_scale(&of), top, PLOT, false);
    hl_frame last = plot;
    if (of.has_friction)
        last = hl__frame_at(html, audit, HL_G, hl__series_scale(&of.friction), plot.bottom + BETWEEN,
                            LOW_PLOT, false);
    hl_text about = {0};
    say_touch(&about, &of);
    hl__chart_open(html, id, last.bottom + hl__frame_keys_height(false), "Touchweight along the compass",
                   &about);
    draw_limits(&plot, &of);
    hl__frame_hatch(&plot, of.out);
    hl__frame_axes(&plot);
    draw_befores(&plot, &of);
    draw_joints(&plot, &of);
    hl__marks_draw(&plot, &of.down);
    hl__marks_draw(&plot, &of.up);
    hl__names_draw(&plot, of.out, top);
    if (of.has_friction)
        draw_friction(&last, &of);
    hl__frame_keys(&last);
    hl__html_close(html);
    free_touch(&of);
}
