/* chart_table.c - the numbers of a chart, a row a note (layer: render/html). */
#include "chart.h"

#include "leaf.h"
#include "number.h"
#include "sentence.h"
#include "wrap.h"

#include <string.h>

static const char *name_verdict(const hl_finding *finding)
{
    switch (finding->verdict) {
    case HL_PASS:
        return finding->floated ? "passes, gives way" : "passes";
    case HL_FAIL:
        return finding->why == HL_WHY_LOW      ? "out, low"
               : finding->why == HL_WHY_HIGH   ? "out, high"
               : finding->why == HL_WHY_UNEVEN ? "out, uneven"
                                               : "out";
    case HL_STALE:
        return "read again";
    case HL_DOUBTFUL:
        return "in doubt";
    case HL_MISSING:
        return "not measured";
    case HL_ACCEPTED:
        return "accepted as it is";
    case HL_NOT_APPLICABLE:
        break;
    }
    return "";
}

/* The caption names the unit, so that cells hold numbers only. */
static void drop_unit(hl_text *cell)
{
    char *glue = cell->data ? strrchr(cell->data, HL_GLUE) : NULL;
    if (glue) {
        *glue = '\0';
        cell->size = (size_t)(glue - cell->data);
    }
}

static void add_caption(hl_html *html, const hl_step *step)
{
    hl_text line = {0};
    hl__text_safe(&line, step->title);
    if (step->unit != HL_NO_UNIT && step->unit != HL_RATIO) {
        hl__text_add(&line, ", ");
        hl__text_add(&line, hl_unit_name(step->unit));
    }
    hl__html_leaf_take(html, "caption", NULL, &line);
}

static void add_reading(hl_html *html, const hl_series *series, const hl_finding *finding)
{
    hl_text cell = {0};
    if (finding->has_value)
        hl__say_amount(&cell, finding->value, series->step->unit, series->step->resolution);
    else if (finding->go)
        hl__text_add(&cell, finding->verdict == HL_PASS   ? "within gauge"
                            : finding->why == HL_WHY_LOW  ? "under gauge"
                            : finding->why == HL_WHY_HIGH ? "over gauge"
                                                          : "by gauge");
    else
        hl__text_add(&cell, "\xE2\x80\x93"); /* a dash */
    drop_unit(&cell);
    hl__html_leaf_take(html, "td", "number", &cell);
}

static void add_row(hl_html *html, const hl_series *series, int note)
{
    const hl_spot *spot = &series->spots[note];
    hl_text cell = {0};
    hl__html_open(html, "tr", "class", hl__spot_out(spot) ? "out" : NULL, NULL);
    hl__html_open(html, "th", "scope", "row", NULL);
    hl__html_text(html, hl_pitch_name(hl_note_pitch(series->audit->sheet->compass, note)));
    hl__html_close(html);
    if (series->n_before > 0) {
        if (spot->has_before)
            hl__say_amount(&cell, spot->before, series->step->unit, series->step->resolution);
        drop_unit(&cell);
        hl__html_leaf_take(html, "td", "number", &cell);
    }
    add_reading(html, series, spot->finding);
    hl__say_target(&cell, &spot->finding->target, series->step->unit, series->step->resolution);
    drop_unit(&cell);
    hl__html_leaf_take(html, "td", "number", &cell);
    hl__html_leaf(html, "td", NULL, name_verdict(spot->finding));
    hl__html_close(html);
    hl__html_line(html);
}

static void add_head(hl_html *html, const char *name, bool number)
{
    hl__html_open(html, "th", "scope", "col", "class", number ? "right" : NULL, NULL);
    hl__html_text(html, name);
    hl__html_close(html);
}

void hl__chart_table(hl_html *html, const hl_series *series, int id)
{
    hl_text name = {0};
    hl__text_printf(&name, "table-%d", id);
    hl__html_open(html, "div", "class", series->n_before > 0 ? "columns three" : "columns", NULL);
    hl__html_open(html, "table", "id", name.data, "class", "numbers", NULL);
    add_caption(html, series->step);
    hl__html_open(html, "thead", NULL);
    hl__html_open(html, "tr", NULL);
    add_head(html, "Note", false);
    if (series->n_before > 0)
        add_head(html, "First", true);
    add_head(html, series->step->kind == HL_DERIVED ? "Computed" : "Reading", true);
    add_head(html, "Wanted", true);
    add_head(html, "Verdict", false);
    hl__html_close(html);
    hl__html_close(html);
    hl__html_open(html, "tbody", NULL);
    hl__html_line(html);
    for (int note = 1; note <= series->keys; note++)
        if (series->spots[note].finding)
            add_row(html, series, note);
    hl__html_close(html);
    hl__html_close(html);
    hl__html_close(html);
    hl__html_line(html);
    html->out->failed |= name.failed;
    hl__text_free(&name);
}
