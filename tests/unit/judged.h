/* judged.h - a few rows typed into a sheet of the small book, and what the audit says of them.
 *
 * For tests of the judge only; a failure to read the rows fails the test with the reader's words. */
#ifndef JUDGED_H
#define JUDGED_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "audit.h"
#include "errors.h"
#include "quantity.h"
#include "sheet.h"
#include "small_book.h"
#include "table.h"
#include "text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define MM(x)   ((hl_amount)((x)*1e6 + ((x) < 0 ? -0.5 : 0.5)))
#define G(x)    MM(x)
#define TURN(x) MM(x)
#define HEADS   "note,step,reading\n"

typedef struct judged {
    hl_book *book;
    hl_sheet *sheet;
    hl_audit *audit;
} judged;

/* Takes the book over.  `text` is a whole sheet; `options` may be NULL. */
static inline judged judge_with(hl_book *book, const char *text, const hl_audit_options *options)
{
    judged j = {book, NULL, NULL};
    hl_err err = {0};
    if (hl_sheet_open_text(&j.sheet, "bench.csv", text, strlen(text), &err) != HL_OK ||
        hl_sheet_read(j.sheet, book, &err) != HL_OK ||
        hl_audit_run(&j.audit, j.sheet, book, options, &err) != HL_OK)
        fail_msg("line %d: %s; %s", err.line, err.what, err.todo);
    return j;
}

static inline judged judge_by(hl_book *book, const char *text)
{
    return judge_with(book, text, NULL);
}

static inline judged judge(const char *text)
{
    return judge_by(small_book(), text);
}

static inline void put_away(judged *j)
{
    hl_audit_free(j->audit);
    hl_sheet_free(j->sheet);
    small_book_free(j->book);
}

/* NULL when the audit says nothing of this step and note ("" = the instrument). */
static inline const hl_finding *look(const judged *j, const char *step, const char *note)
{
    int s = small_step(j->book, step);
    int at = *note ? hl_note_parse(hl_sheet_compass(j->sheet), note) : 0;
    size_t n = 0;
    const hl_finding *findings = hl_audit_findings(j->audit, &n);
    for (size_t i = 0; i < n; i++)
        if (findings[i].step == s && findings[i].note == at)
            return &findings[i];
    return NULL;
}

static inline const hl_finding *see(const judged *j, const char *step, const char *note)
{
    const hl_finding *finding = look(j, step, note);
    if (!finding)
        fail_msg("no finding of %s at %s", step, note);
    return finding;
}

/* NULL when nothing was learned of this move, or nothing to learn from was recorded. */
static inline const hl_learned *learned_of(const judged *j, const char *adjuster, const char *step)
{
    size_t n = 0;
    const hl_learned *list = hl_audit_learned(j->audit, &n);
    for (size_t i = 0; i < n; i++)
        if (list[i].adjuster == small_adjuster(j->book, adjuster) &&
            list[i].step == small_step(j->book, step))
            return &list[i];
    return NULL;
}

static inline bool lists(const judged *j, const int *steps, int n, const char *step)
{
    for (int i = 0; i < n; i++)
        if (steps[i] == small_step(j->book, step))
            return true;
    return false;
}

/* Do these rows read the step at this note, and take nothing back there? */
static inline bool types_itself(const char *rows, const char *note, const char *step)
{
    char line[80], taken[90];
    const int size = snprintf(line, sizeof line, "\n%s,%s,", note, step);
    snprintf(taken, sizeof taken, "%s,%s,void", note, step);
    const char *at = strncmp(rows, line + 1, (size_t)size - 1) == 0 ? rows : strstr(rows, line);
    return at && !strstr(rows, taken) && !strstr(at, "skip");
}

/* A row for every reading the small book asks of `note` (0: the instrument), each at its aim, but for what
 * `more` reads itself: a later reading that differs would show that somebody adjusted something. */
static inline void type_note_but(hl_text *text, const hl_book *book, int note, const char *more)
{
    for (int i = 0; i < book->n_steps; i++) {
        const hl_step *step = &book->steps[i];
        int pitch = note ? hl_note_pitch(book->compass, note) : -1;
        if (step->kind == HL_DERIVED || (step->scope == HL_ONCE) != (note == 0) ||
            (note && !hl__step_at_pitch(step, pitch)) ||
            types_itself(more, note ? hl_pitch_name(pitch) : "", step->id))
            continue;
        hl__text_printf(text, "%s,%s,", note ? hl_pitch_name(pitch) : "", step->id);
        if (step->kind == HL_JUDGED)
            hl__text_add(text, "ok");
        else
            hl__text_exact(text, hl__book_target(book, i, pitch)->aim);
        hl__text_add(text, "\n");
    }
}

static inline void type_note(hl_text *text, const hl_book *book, int note)
{
    type_note_but(text, book, note, "");
}

/* A finished piano by the small book, then `more` rows.  They are of another pass: what was read
 * before is not to be suspected of having been adjusted in between. */
static inline judged judge_finished(hl_book *book, const char *more)
{
    hl_text text = {0};
    hl__text_add(&text, HEADS);
    for (int note = 0; note <= book->compass.keys; note++)
        type_note_but(&text, book, note, more);
    hl__text_add(&text, ",pass,later\n");
    hl__text_add(&text, more);
    assert_false(text.failed);
    judged j = judge_by(book, text.data);
    hl__text_free(&text);
    return j;
}

#endif
