/* chart_step.c - one step along the compass: its target band, its readings, those of an earlier pass
 * (layer: render/html). */
#include "chart.h"

#include "notes.h"
#include "sentence.h"

#include <stdlib.h>

enum {
    TOP = 40,
    PLOT = 1150,
    SMALL_PLOT = 900,
    NEAR = 3 /* notes: farther ones are not joined */
};

/* ---- the readings -------------------------------------------------------------------------------- */

static void draw_befores(const hl_frame *frame, const hl_series *series)
{
    hl_text shapes = {0}, ties = {0};
    for (int note = 1; note <= series->keys && series->n_before > 0; note++) {
        const hl_spot *spot = &series->spots[note];
        if (!spot->has_before || spot->before == spot->finding->value)
            continue;
        const int y = hl__frame_y(frame, spot->before);
        hl__way_move(&ties, hl__frame_x(frame, note), y);
        hl__way_line(&ties, hl__frame_x(frame, note), hl__frame_y(frame, spot->finding->value));
        hl__mark_shape(frame, &shapes, note, y);
    }
    hl__svg_path(frame->html, "way", &ties);
    hl__svg_path(frame->html, "before", &shapes);
}

/* Neighbours of one section are joined, so that unevenness is seen as a bend; where the sharps have limits of
 * their own, each colour is a line. */
static void draw_line(const hl_frame *frame, const hl_series *series)
{
    hl_text way = {0};
    const bool split = hl__band_is_split(series) || !series->step->across_colours;
    for (int colour = 0; colour < (split ? 2 : 1); colour++) {
        int last = 0;
        for (int note = 1; note <= series->keys; note++) {
            const hl_finding *finding = series->spots[note].finding;
            if (!finding || !finding->has_value ||
                (split && hl__frame_is_sharp(frame, note) != (colour == 1)))
                continue;
            const int x = hl__frame_x(frame, note), y = hl__frame_y(frame, finding->value);
            if (last > 0 && note - last <= NEAR &&
                hl_sheet_section(frame->sheet, last) == hl_sheet_section(frame->sheet, note))
                hl__way_line(&way, x, y);
            else
                hl__way_move(&way, x, y);
            last = note;
        }
    }
    hl__svg_path(frame->html, "line", &way);
}

/* How far a note may stand out, as a bar of that height beside the plot. */
static void draw_even(const hl_frame *frame, const hl_series *series)
{
    const hl_amount even = series->step->even, middle = (frame->scale.low + frame->scale.high) / 2;
    const int x = frame->right + 30;
    if (even <= 0)
        return;
    const int top = hl__frame_y(frame, middle + even), bottom = hl__frame_y(frame, middle - even);
    hl_text way = {0};
    hl__way_move(&way, x - 15, top);
    hl__way_line(&way, x + 15, top);
    hl__way_move(&way, x, top);
    hl__way_line(&way, x, bottom);
    hl__way_move(&way, x - 15, bottom);
    hl__way_line(&way, x + 15, bottom);
    hl__svg_path(frame->html, "even", &way);
}

/* ---- what it shows, in words --------------------------------------------------------------------- */

/* Is it out because it stands out from its neighbours, and not past a limit? */
static bool is_sort(const hl_finding *finding, hl_verdict verdict, bool uneven)
{
    return finding && finding->verdict == verdict &&
           (verdict != HL_FAIL || (finding->why == HL_WHY_UNEVEN) == uneven);
}

static int count(const hl_series *series, hl_verdict verdict)
{
    int n = 0;
    for (int note = 1; note <= series->keys; note++)
        n += is_sort(series->spots[note].finding, verdict, false);
    return n;
}

static void say_notes(hl_text *out, const hl_series *series, hl_verdict verdict, bool uneven,
                      const char *words)
{
    int *notes = calloc((size_t)series->keys + 1, sizeof *notes);
    int n = 0;
    if (!notes) {
        out->failed = true;
        return;
    }
    for (int note = 1; note <= series->keys; note++)
        if (is_sort(series->spots[note].finding, verdict, uneven))
            notes[n++] = note;
    if (n > 0) {
        hl__text_printf(out, " %d %s: ", n, words);
        hl__notes_fold(out, series->audit->sheet->compass, series->step->scope, notes, n);
        hl__text_char(out, '.');
    }
    free(notes);
}

static void say_chart(hl_text *out, const hl_series *series)
{
    hl__say_count(out, count(series, HL_PASS), "note passes.", "notes pass.");
    say_notes(out, series, HL_FAIL, false, "out of limits");
    say_notes(out, series, HL_FAIL, true, "uneven");
    say_notes(out, series, HL_STALE, false, "to read again");
    say_notes(out, series, HL_DOUBTFUL, false, "in doubt");
    say_notes(out, series, HL_MISSING, false, "not measured");
    if (series->n_go > 0)
        hl__text_printf(out, " %d by go/no-go gauge, without a number.", series->n_go);
    if (series->n_before > 0)
        hl__text_add(out, " Hollow marks: the first reading, of an earlier pass.");
    hl__text_printf(out, " The numbers are in the table of %s.", series->step->title);
}

static void open_chart(hl_html *html, int id, int height, const char *title, hl_text *description, bool small)
{
    char a[16], b[16];
    hl_text box = {0}, first = {0}, second = {0}, ids = {0};
    hl__text_printf(&first, "chart-%d-title", id);
    hl__text_printf(&second, "chart-%d-about", id);
    hl__text_printf(&ids, "chart-%d-title chart-%d-about", id, id);
    hl__text_printf(&box, "0 0 %s %s", hl__svg_value(a, small ? HL_CHART_SMALL : HL_CHART_WIDTH),
                    hl__svg_value(b, height));
    hl__html_open(html, "svg", "xmlns", "http://www.w3.org/2000/svg", "class", small ? "chart half" : "chart",
                  "role", "img", "viewBox", box.data, "aria-labelledby", ids.data, NULL);
    hl__html_open(html, "title", "id", first.data, NULL);
    hl__html_text(html, title);
    hl__html_close(html);
    hl__html_open(html, "desc", "id", second.data, NULL);
    hl__html_take(html, description);
    hl__html_close(html);
    html->out->failed |= box.failed || first.failed || second.failed || ids.failed;
    hl__text_free(&box);
    hl__text_free(&first);
    hl__text_free(&second);
    hl__text_free(&ids);
}

void hl__chart_open(hl_html *html, int id, int height, const char *title, hl_text *description)
{
    open_chart(html, id, height, title, description, false);
}

void hl__chart_step(hl_html *html, const hl_series *series, int id, bool small)
{
    const hl_audit *audit = series->audit;
    bool *out = calloc((size_t)series->keys + 1, sizeof *out);
    if (!out) {
        html->out->failed = true;
        return;
    }
    for (int note = 1; note <= series->keys; note++)
        out[note] = hl__spot_out(&series->spots[note]);
    const int top = TOP + hl__names_height(audit, out);
    const hl_frame frame = hl__frame_at(html, audit, series->step->unit, hl__series_scale(series), top,
                                        small ? SMALL_PLOT : PLOT, small);
    hl_text title = {0}, about = {0};
    hl__text_add(&title, series->step->title);
    hl__text_add(&title, " along the compass");
    say_chart(&about, series);
    open_chart(html, id, frame.bottom + hl__frame_keys_height(small), title.data ? title.data : "", &about,
               small);
    html->out->failed |= title.failed;
    hl__text_free(&title);
    hl__band_draw(&frame, series);
    hl__frame_hatch(&frame, out);
    hl__frame_axes(&frame);
    draw_even(&frame, series);
    draw_befores(&frame, series);
    draw_line(&frame, series);
    hl__marks_draw(&frame, series);
    hl__names_draw(&frame, out, top);
    hl__frame_keys(&frame);
    hl__html_close(html);
    free(out);
}
