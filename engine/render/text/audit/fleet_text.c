/* fleet_text.c - a line a sheet, and what all sheets come to (layer: render/text). */
#include "fleet_total.h"
#include "sentence.h"
#include "text.h"
#include "wrap.h"

#include "book.h"

#include <string.h>

#define WIDTH 80

/* ---- a sheet -------------------------------------------------------------------------------- */

static void add_part(hl_text *out, int n, const char *one, const char *many)
{
    if (n == 0)
        return;
    hl__text_add(out, out->data[out->size - 1] == ':' ? " " : ", ");
    hl__say_count(out, n, one, many);
}

static int count_fails(const hl_fleet_sheet *sheet, int *steps)
{
    int fails = 0;
    *steps = 0;
    for (int i = 0; i < sheet->book->n_steps; i++) {
        fails += sheet->counts[i][HL_FAIL];
        *steps += sheet->counts[i][HL_FAIL] > 0;
    }
    return fails;
}

static void say_open(hl_text *out, const hl_fleet_sheet *sheet)
{
    const int *total = sheet->total;
    int steps = 0;
    const int fails = count_fails(sheet, &steps);
    const size_t bare = out->size;
    add_part(out, sheet->n_errors - (sheet->unlisted > 0) + (int)sheet->unlisted, "bad row", "bad rows");
    add_part(out, fails, "reading out", "readings out");
    if (fails > 0) {
        hl__text_add(out, " in ");
        hl__say_count(out, steps, "step", "steps");
    }
    add_part(out, total[HL_STALE], "to read again", "to read again");
    add_part(out, total[HL_DOUBTFUL], "in doubt", "in doubt");
    add_part(out, total[HL_FAIL] - fails, "query open", "queries open");
    add_part(out, total[HL_MISSING], "not measured", "not measured");
    if (out->size == bare)
        hl__text_add(out,
                     total[HL_PASS] > 0 ? " its sample does not show enough" : " there is nothing to judge");
}

hl_code hl_fleet_line(char **out, size_t *size, const hl_fleet_sheet *sheet, hl_err *err)
{
    hl_text text = {0};
    hl__text_safe(&text, sheet->title);
    if (!sheet->judged) {
        hl__text_add(&text, ": can't be judged");
    } else if (sheet->ready) {
        hl__text_add(&text, ": ready: ");
        hl__say_count(&text, sheet->total[HL_PASS], "reading passes", "readings pass");
    } else {
        hl__text_add(&text, ": not ready:");
        if (!text.failed)
            say_open(&text, sheet);
    }
    hl__text_char(&text, '\n');
    return hl__text_take(&text, out, size, err);
}

/* ---- all of them ----------------------------------------------------------------------------- */

static void add_column(hl_text *out, const char *text, int width)
{
    hl__text_spaces(out, width - (int)strlen(text));
    hl__text_add(out, text);
}

static void add_number(hl_text *out, long n, int width)
{
    hl_text number = {0};
    hl__text_printf(&number, "%ld", n);
    add_column(out, number.data ? number.data : "", width);
    out->failed |= number.failed;
    hl__text_free(&number);
}

/* As long as there is anything but passes, and what lies outside the scope. */
static bool is_open(const long *counts)
{
    return counts[HL_FAIL] + counts[HL_STALE] + counts[HL_DOUBTFUL] + counts[HL_MISSING] > 0;
}

static const hl_verdict COLUMNS[] = {HL_FAIL, HL_STALE, HL_DOUBTFUL, HL_MISSING, HL_PASS};
static const char *const HEADS[] = {"out", "read again", "in doubt", "missing", "pass"};
#define N_COLUMNS (sizeof COLUMNS / sizeof *COLUMNS)
#define TITLE     26
#define WIDE      11

static void add_steps(hl_text *out, const hl_fleet_total *total)
{
    bool any = false;
    for (int i = 0; i < total->n_steps; i++) {
        if (!is_open(total->counts[i]))
            continue;
        if (!any) {
            hl__text_spaces(out, TITLE);
            for (size_t k = 0; k < N_COLUMNS; k++)
                add_column(out, HEADS[k], k == 0 ? WIDE - 3 : WIDE);
            hl__text_char(out, '\n');
        }
        any = true;
        hl__text_safe(out, total->steps[i]);
        const int taken = hl__text_width(total->steps[i]);
        if (taken >= TITLE) {
            hl__text_char(out, '\n');
            hl__text_spaces(out, TITLE);
        }
        hl__text_spaces(out, TITLE - taken);
        for (size_t k = 0; k < N_COLUMNS; k++)
            add_number(out, total->counts[i][COLUMNS[k]], k == 0 ? WIDE - 3 : WIDE);
        hl__text_char(out, '\n');
    }
}

static void add_cures(hl_text *out, const hl_fleet_total *total)
{
    hl_text line = {0};
    for (int i = 0; i < total->n_adjusters; i++) {
        if (total->cures[i] == 0)
            continue;
        hl__text_add(&line, line.size == 0 ? "First cures: " : ", ");
        hl__text_safe(&line, total->adjusters[i]);
        hl__text_printf(&line, " %ld", total->cures[i]);
    }
    if (line.size > 0) {
        hl__text_char(&line, '.');
        hl__wrap(out, line.data ? line.data : "", WIDTH, 0, 2);
    }
    out->failed |= line.failed;
    hl__text_free(&line);
}

hl_code hl_fleet_totals_text(char **out, size_t *size, const hl_fleet_totals *totals, hl_err *err)
{
    hl_text text = {0};
    for (size_t i = 0; i < totals->n; i++) {
        const hl_fleet_total *total = &totals->books[i];
        hl__text_printf(&text, "\nAll sheets by the book ");
        hl__text_safe(&text, total->id);
        hl__text_add(&text, ":\n");
        add_steps(&text, total);
        if (total->queries > 0)
            hl__text_printf(&text, "Open queries: %ld.\n", total->queries);
        add_cures(&text, total);
    }
    hl__text_printf(&text, "\n%ld of %ld sheets are ready", totals->n_ready, totals->n_sheets);
    if (totals->n_judged < totals->n_sheets)
        hl__text_printf(&text, "; %ld could not be judged", totals->n_sheets - totals->n_judged);
    hl__text_add(&text, ".\n");
    return hl__text_take(&text, out, size, err);
}
