/* report_say.c - short phrases that several parts of the record use (layer: render/html). */
#include "report.h"

#include "decision.h"
#include "groups.h"
#include "notes.h"
#include "sentence.h"

#include <stdlib.h>
#include <string.h>

const char *hl__base_name(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash && slash[1] ? slash + 1 : path;
}

void hl__say_note(hl_text *out, const hl_sheet *sheet, int note)
{
    hl__text_add(out, note > 0 ? hl_pitch_name(hl_note_pitch(sheet->compass, note)) : "the instrument");
}

/* ---- who ------------------------------------------------------------------------------------------ */

void hl__say_once(hl_text *list, const char *text)
{
    hl_text safe = {0};
    hl__text_safe(&safe, text);
    const size_t size = safe.size;
    const char *at = list->data ? list->data : "";
    bool there = size == 0;
    while (!there && *at) {
        const size_t length = strcspn(at, ",");
        there = length == size && memcmp(at, safe.data, size) == 0;
        at += length;
        at += strspn(at, ", ");
    }
    if (!there) {
        hl__text_add(list, list->size > 0 ? ", " : "");
        hl__text_add(list, safe.data);
    }
    list->failed |= safe.failed;
    hl__text_free(&safe);
}

void hl__say_hands(hl_text *out, const hl_sheet *sheet, int pass)
{
    uint32_t last = 0;
    if (pass < 0)
        hl__say_once(out, hl_sheet_fact(sheet, "by"));
    for (size_t i = 0; i < sheet->n_events; i++) {
        const hl_event *event = &sheet->events[i];
        if ((pass >= 0 && event->pass != pass) || event->by == 0 || event->by == last)
            continue;
        hl__say_once(out, hl__text_at(sheet, event->by));
        last = event->by;
    }
}

/* ---- the state ------------------------------------------------------------------------------------ */

int hl__count_bad_rows(const hl_sheet *sheet)
{
    int n = 0;
    hl_sheet_errors(sheet, &n);
    return sheet->unlisted > 0 ? n - 1 + (int)sheet->unlisted : n;
}

static void add_part(hl_text *out, int n, const char *one, const char *many)
{
    if (n == 0)
        return;
    hl__text_add(out, out->size > 0 ? ", " : "");
    hl__say_count(out, n, one, many);
}

void hl__say_state(hl_text *out, const hl_audit *audit)
{
    const hl_tally *total = &audit->total;
    const int n_queries = hl__count_queries(audit), n_out = total->count[HL_FAIL] - n_queries;
    if (audit->ready && audit->drawn.sample) {
        hl__say_sample(out, audit->drawn.sample);
        return;
    }
    if (audit->ready) {
        hl__say_count(out, total->count[HL_PASS], "reading passes, none is missing",
                      "readings pass, none is missing");
        return;
    }
    add_part(out, hl__count_bad_rows(audit->sheet), "row could not be read", "rows could not be read");
    add_part(out, n_out, "reading out", "readings out");
    if (n_out > 0) {
        int steps = 0;
        for (int i = 0; i < audit->book->n_steps; i++)
            steps += audit->tallies[i].count[HL_FAIL] > 0;
        hl__text_add(out, " in ");
        hl__say_count(out, steps, "step", "steps");
    }
    add_part(out, total->count[HL_STALE], "to read again", "to read again");
    add_part(out, total->count[HL_DOUBTFUL], "in doubt", "in doubt");
    add_part(out, n_queries, "query open", "queries open");
    add_part(out, total->count[HL_MISSING], "not measured", "not measured");
    if (out->size == 0)
        hl__text_add(out, audit->drawn.sample ? "the sample does not show what was asked"
                                              : "there is nothing to judge");
}

void hl__say_verdict_notes(hl_text *out, const hl_audit *audit, int step, hl_verdict verdict)
{
    const size_t first = audit->findings.first[step], end = audit->findings.first[step + 1];
    int *notes = calloc(end - first + 1, sizeof *notes);
    int n = 0;
    if (!notes) {
        out->failed = true;
        return;
    }
    for (size_t i = first; i < end; i++)
        if (audit->findings.items[i].verdict == verdict)
            notes[n++] = audit->findings.items[i].note;
    if (n > 0)
        hl__notes_fold(out, audit->sheet->compass, audit->book->steps[step].scope, notes, n);
    free(notes);
}

/* ---- dates ---------------------------------------------------------------------------------------- */

bool hl__is_count(const char *text)
{
    const size_t size = strlen(text);
    return size >= 1 && size <= 4 && strspn(text, "0123456789") == size;
}

static int read_digits(const char *text, int n)
{
    int value = 0;
    for (int i = 0; i < n; i++) {
        if (text[i] < '0' || text[i] > '9')
            return -1;
        value = 10 * value + (text[i] - '0');
    }
    return value;
}

static int count_days(int year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return days[month - 1] + (month == 2 && leap);
}

bool hl__say_weeks_later(hl_text *out, const char *date, const char *weeks)
{
    if (strlen(date) != 10 || date[4] != '-' || date[7] != '-' || !hl__is_count(weeks))
        return false;
    int year = read_digits(date, 4), month = read_digits(date + 5, 2), day = read_digits(date + 8, 2);
    if (year < 1 || month < 1 || month > 12 || day < 1 || day > count_days(year, month))
        return false;
    for (day += 7 * read_digits(weeks, (int)strlen(weeks)); day > count_days(year, month);) {
        day -= count_days(year, month);
        month++;
        if (month > 12) {
            month = 1;
            year++;
        }
    }
    hl__text_printf(out, "%04d-%02d-%02d", year, month, day);
    return true;
}
