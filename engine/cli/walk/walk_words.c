/* walk_words.c - taking back, and what is said beside the readings (layer: cli/walk).
 *
 * Nothing in the sheet is ever changed: a withdrawal, a remark and a closed query are rows too. */
#include "walk.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* ---- undo -------------------------------------------------------------------------------------- */

/* Did nobody else write below these rows? */
static bool still_count(walk *w, size_t first)
{
    for (size_t i = first; i < w->n_kept; i++) {
        const kept_row *row = &w->kept[i];
        if (hl_sheet_line(w->sheet, row->id, row->row_note) != row->line) {
            walk_say(w, 0, 2, "%s %s has a later row of somebody else's; look at it first, then: withdraw.",
                     walk_note_name(w, row->row_note), row->id);
            return false;
        }
    }
    return true;
}

/* All rows from `first` on, the last one first, in one entry. */
static bool withdraw_rows(walk *w, size_t first)
{
    const size_t n = w->n_kept - first;
    draft_row *rows = calloc(n, sizeof *rows);
    char(*voids)[32] = calloc(n, sizeof *voids);
    bool saved = false;
    for (size_t i = 0; rows && voids && i < n; i++) {
        const kept_row *kept = &w->kept[w->n_kept - 1 - i];
        walk_void(voids[i], kept);
        rows[i].row = (hl_journal_row){
            .note = walk_note_name(w, kept->row_note), .step = kept->id, .reading = voids[i]};
    }
    if (rows && voids)
        saved = walk_save(w, rows, n, false);
    else
        walk_no_memory(w);
    free(rows);
    free(voids);
    return saved;
}

static void say_undone(const walk *w, const kept_row *first, size_t n)
{
    const char *note = walk_note_name(w, first->row_note);
    if (n > 1)
        walk_say(w, 0, 2, "Withdrawn and saved: %zu rows, from %s%s%s on.", n, note, note[0] ? " " : "",
                 first->id);
    else
        walk_say(w, 0, 2, "Withdrawn and saved: %s%s%s %s.", note, note[0] ? " " : "", first->id,
                 first->text);
}

void walk_take_undo(walk *w)
{
    size_t first = w->n_kept;
    while (first > 0 && w->kept[first - 1].entry == w->kept[w->n_kept - 1].entry)
        first--;
    if (first == w->n_kept) {
        walk_say(w, 0, 2,
                 "This session has nothing left to undo. An older reading: go there, then withdraw.");
        return;
    }
    if (!still_count(w, first))
        return;
    walk_keep_verdicts(w);
    w->n_unmoved = 0;
    if (!withdraw_rows(w, first))
        return;
    const place at = w->kept[first].at;
    say_undone(w, &w->kept[first], w->n_kept - first);
    walk_forget(w, first);
    w->last = (place){-1, 0};
    for (size_t i = w->n_kept; i-- > 0 && w->last.step < 0;)
        if (!w->kept[i].adjustment)
            w->last = w->kept[i].at;
    walk_say_changes(w, &at, 1);
    w->here = w->focus = at;
    w->stay = w->moved = true;
    w->linger = -1;
}

void walk_take_withdraw(walk *w, const entry *typed)
{
    place at = w->here;
    if (typed->select == SELECT_SPAN && typed->from == typed->to)
        at.note = typed->from;
    else if (typed->select != SELECT_HERE)
        at.step = -1;
    if (at.step < 0) {
        walk_say(w, 0, 2, "Withdraw which reading? Go there first, or name one note, as in: C4 withdraw.");
        return;
    }
    hl_journal_row row = {
        .note = walk_note_name(w, at.note), .step = hl_book_step(w->book, at.step)->id, .reading = "void"};
    if (!walk_check(w, &row))
        return;
    char text[32], name[HL_ROW_NAME];
    if (hl_sheet_mark(w->sheet, row.step, at.note, name)) {
        snprintf(text, sizeof text, "void %s", name);
        row.reading = text;
    }
    walk_keep_verdicts(w);
    if (!walk_save_row(w, &row, NULL))
        return;
    walk_forget(w, 0); /* it is no reading of ours any more, if it was one */
    const hl_finding *finding = walk_cell(w, at);
    char now[160] = "not asked for";
    if (finding)
        walk_reading(w, now, sizeof now, finding);
    walk_say(w, 0, 2, "Withdrawn and saved: %s %s. What counts now: %s.", row.note, row.step, now);
    walk_say_changes(w, &at, 1);
    w->here = w->focus = at;
    w->stay = w->moved = true;
}

/* ---- remarks ----------------------------------------------------------------------------------- */

/* "query F3 feels heavy" and "note F3 is worn" name their note too. */
static void take_note_in_text(const walk *w, entry *typed)
{
    char name[8];
    const size_t size = strcspn(typed->text, " ");
    if (typed->select != SELECT_HERE || size == 0 || size >= sizeof name ||
        (typed->text[0] >= '0' && typed->text[0] <= '9'))
        return;
    memcpy(name, typed->text, size);
    name[size] = '\0';
    const int note = hl_note_parse(hl_sheet_compass(w->sheet), name);
    if (note == 0)
        return;
    typed->select = SELECT_SPAN;
    typed->from = typed->to = note;
    const char *rest = typed->text + size + strspn(typed->text + size, " ");
    memmove(typed->text, rest, strlen(rest) + 1);
}

/* The note that the line names, else the one shown after going about, else the last reading's.  A reading
 * may have finished its step: that step is meant all the same. */
static place find_remark_place(const walk *w, const entry *typed)
{
    const bool shown = w->here.step >= 0 && (w->moved || w->last.step < 0);
    const int step = shown ? w->here.step : w->last.step;
    if (typed->select == SELECT_SPAN)
        return (place){step, step >= 0 && hl_book_step(w->book, step)->scope == HL_ONCE ? 0 : typed->from};
    return w->moved && shown ? w->here : w->last;
}

/* Written again, a reading would count as one after any work since, and in the pass of now. */
static bool has_aged(const walk *w, const kept_row *row)
{
    const hl_finding *finding = walk_cell(w, row->at);
    return row->entry <= w->pass_entry ||
           (finding && (finding->verdict == HL_STALE || finding->moved != 0 || finding->shift != 0));
}

/* This session's reading of a place, if it counts still; NULL after a complaint. */
static const kept_row *find_remark_row(const walk *w, place at, const char *text)
{
    const kept_row *row = NULL;
    for (size_t i = 0; i < w->n_kept; i++)
        if (!w->kept[i].adjustment && walk_same_place(w->kept[i].at, at))
            row = &w->kept[i];
    if (at.step < 0) {
        walk_say(
            w, 0, 2,
            "A remark goes to a reading, and this session has none yet. For a note that needs care: query %s",
            text);
        return NULL;
    }
    const char *note = walk_note_name(w, at.note), *blank = note[0] ? " " : "";
    const char *title = hl_book_step(w->book, at.step)->title, *why = NULL;
    const int line = hl_sheet_line(w->sheet, hl_book_step(w->book, at.step)->id, at.note);
    if (line == 0)
        why = "is not read yet";
    else if (!row || row->line != line)
        why = "has an older reading, or somebody else's";
    else if (has_aged(w, row))
        why = "was read before other work or another round";
    if (!why)
        return row;
    walk_say(w, 0, 2,
             "%s%s%s %s, and a remark needs a reading to stand beside. Read it first, then: note %s. Or "
             "keep the note open: "
             "%s%squery %s",
             note, blank, title, why, text, note, blank, text);
    return NULL;
}

/* A row can't be changed, so the same reading is written again, with the remark.  Repeats leave it out
 * (judge/gauges.c). */
static void add_remark(walk *w, const kept_row *last, const char *remark)
{
    char text[ENTRY_MOST + 1], method[128];
    const kept_row as = {.id = last->id, .at = last->at, .row_note = last->row_note};
    snprintf(text, sizeof text, "%s", last->text);
    snprintf(method, sizeof method, "%s", last->method);
    const hl_journal_row row = {.note = walk_note_name(w, as.row_note),
                                .step = as.id,
                                .reading = text,
                                .method = method,
                                .remark = remark};
    if (!walk_check(w, &row))
        return;
    if (!walk_save_row(w, &row, &as))
        return;
    walk_say(w, 0, 2, "Saved. %s%s%s: \"%s\".", row.note, row.note[0] ? " " : "",
             hl_book_step(w->book, as.at.step)->title, remark);
}

void walk_take_remark(walk *w, const entry *given)
{
    entry typed = *given;
    take_note_in_text(w, &typed);
    if (typed.select != SELECT_HERE && (typed.select != SELECT_SPAN || typed.from != typed.to)) {
        walk_say(w, 0, 2, "A remark is about one note. Nothing was recorded.");
        return;
    }
    if (!typed.text[0]) {
        walk_say(w, 0, 2, "Say what, as in: note knuckle is worn.");
        return;
    }
    const kept_row *row = find_remark_row(w, find_remark_place(w, &typed), typed.text);
    if (row && strcmp(row->remark, typed.text) == 0)
        walk_say(w, 0, 2, "That remark is there already.");
    else if (row)
        add_remark(w, row, typed.text);
}

static int find_query_note(const walk *w, const entry *typed)
{
    if (typed->select == SELECT_SPAN)
        return typed->from;
    if (w->here.step >= 0 && (w->moved || w->last.step < 0))
        return w->here.note;
    return w->last.step >= 0 ? w->last.note : 0;
}

void walk_take_query(walk *w, const entry *given, bool close)
{
    entry typed = *given;
    take_note_in_text(w, &typed);
    if (typed.select != SELECT_HERE && (typed.select != SELECT_SPAN || typed.from != typed.to)) {
        walk_say(w, 0, 2, "A query is about one note. Nothing was recorded.");
        return;
    }
    if (!close && (!typed.text[0] || strcmp(typed.text, "closed") == 0)) {
        walk_say(w, 0, 2, "Say what, as in: query feels heavy after let-off.");
        return;
    }
    const int note = find_query_note(w, &typed);
    const hl_journal_row row = {
        .note = walk_note_name(w, note), .step = "query", .reading = close ? "closed" : typed.text};
    if (!walk_check(w, &row))
        return;
    if (!walk_save_row(w, &row, NULL))
        return;
    const char *where = note > 0 ? row.note : "the piano";
    if (close)
        walk_say(w, 0, 2, "Saved. The query of %s is closed.", where);
    else
        walk_say(w, 0, 2, "Saved. %s stays open, whatever it reads, until: closed %s", where, row.note);
}

/* ---- passes and gauges ------------------------------------------------------------------------- */

void walk_take_pass(walk *w, const entry *typed)
{
    if (!typed->text[0]) {
        walk_say(w, 0, 2, "Give it a name, as in: pass played in.");
        return;
    }
    const hl_journal_row row = {.note = "", .step = "pass", .reading = typed->text};
    if (!walk_check(w, &row))
        return;
    if (!walk_save_row(w, &row, NULL))
        return;
    w->pass_entry = w->entry;
    walk_say(w, 0, 2, "Saved. From here on: %s. Older readings count until a note is read again.",
             typed->text);
}

void walk_take_with(walk *w, const entry *typed)
{
    if (!typed->text[0] || w->here.step < 0) {
        w->with[0] = '\0';
        walk_say(w, 0, 2, "No gauge or method is written from here on.");
        return;
    }
    if (!hl_journal_has(w->journal, "method")) {
        walk_say(w, 0, 2, "The sheet has no column \"method\"; add that head to it.");
        return;
    }
    if (strlen(typed->text) >= sizeof w->with) {
        walk_say(w, 0, 2, "That name is too long.");
        return;
    }
    snprintf(w->with, sizeof w->with, "%.127s", typed->text);
    w->with_step = w->here.step;
    walk_say(w, 0, 2, "%s is read with: %s. It is written to each reading of this step.",
             hl_book_step(w->book, w->here.step)->title, w->with);
}
