/* walk_read.c - readings: looked at, appended, read back from the disk, answered (layer: cli/walk). */
#include "walk.h"

#include "output.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static size_t find_cell(const walk *w, place at)
{
    return (size_t)at.step * ((size_t)w->keys + 1) + (size_t)at.note;
}

static bool counts(const hl_finding *finding)
{
    return finding &&
           (finding->verdict == HL_PASS || finding->verdict == HL_FAIL || finding->verdict == HL_DOUBTFUL);
}

/* ---- what is recorded -------------------------------------------------------------------------- */

/* A range fills what is open: a number that was read, or a fault, is not to vanish under it. */
static size_t leave_standing(const walk *w, place *places, size_t n, int *left, char *names, size_t room)
{
    size_t kept = 0, used = 0;
    for (size_t i = 0; i < n; i++) {
        const hl_finding *finding = walk_cell(w, places[i]);
        if (!counts(finding) || finding->computed) {
            places[kept++] = places[i];
            continue;
        }
        (*left)++;
        if (*left <= 8 && used < room)
            used += (size_t)snprintf(names + used, room - used, " %s", walk_note_name(w, places[i].note));
    }
    return kept;
}

static hl_journal_row make_row(const walk *w, place at, const char *text, const char *remark)
{
    const hl_step *step = hl_book_step(w->book, at.step);
    const bool gauge = strcmp(text, "within") == 0 || strcmp(text, "over") == 0 || strcmp(text, "under") == 0;
    const char *method = w->with[0] && w->with_step == at.step ? w->with : gauge ? step->gauge_name : "";
    return (hl_journal_row){.note = walk_note_name(w, at.note),
                            .step = step->id,
                            .reading = text,
                            .method = method,
                            .remark = remark};
}

static bool check_all(walk *w, const place *places, size_t n, const char *text, const char *remark)
{
    for (size_t i = 0; i < n; i++) {
        const hl_journal_row row = make_row(w, places[i], text, remark);
        if (!walk_check(w, &row))
            return false;
    }
    return true;
}

/* One entry, whether it is one note or a range. */
static bool save_all(walk *w, const place *places, size_t n, const char *text, const char *remark)
{
    draft_row *rows = calloc(n, sizeof *rows);
    if (!rows) {
        walk_no_memory(w);
        return false;
    }
    for (size_t i = 0; i < n; i++) {
        rows[i].row = make_row(w, places[i], text, remark);
        rows[i].as = (kept_row){.id = rows[i].row.step, .at = places[i], .row_note = places[i].note};
    }
    const bool saved = walk_save(w, rows, n, n > 1);
    free(rows);
    return saved;
}

/* ---- what else changed ------------------------------------------------------------------------- */

static bool is_made(const place *made, size_t n, place at)
{
    for (size_t i = 0; i < n; i++)
        if (walk_same_place(made[i], at))
            return true;
    return false;
}

/* Findings elsewhere that are `now` and were not; `full`: one of this note has its own answer. */
static void say_changed(walk *w, const char *words, hl_verdict now, const place *made, size_t n)
{
    char line[600];
    size_t all = 0, used = (size_t)snprintf(line, sizeof line, "%s:", words);
    int count = 0, step = -1;
    const hl_finding *findings = hl_audit_findings(w->audit, &all);
    for (size_t i = 0; i < all; i++) {
        const hl_finding *finding = &findings[i];
        const place at = {finding->step, finding->note};
        if (at.step < 0 || finding->verdict != now || is_made(made, n, at))
            continue;
        const unsigned char was = w->verdicts[find_cell(w, at)];
        const bool lost = was == HL_PASS || was == HL_FAIL;
        if (was == now || (now == HL_STALE && !lost) || (now == HL_FAIL && was == HL_STALE))
            continue;
        if (now == HL_FAIL && n == 1 && finding->note == made[0].note && finding->computed) {
            walk_say_finding(w, finding, hl_book_step(w->book, at.step)->title);
            continue;
        }
        if (++count > 6 || used + 100 > sizeof line)
            continue;
        if (at.step != step)
            used += (size_t)snprintf(line + used, sizeof line - used, "%s %.60s", step < 0 ? "" : ";",
                                     hl_book_step(w->book, at.step)->title);
        step = at.step;
        used += (size_t)snprintf(line + used, sizeof line - used, " %s", walk_note_name(w, at.note));
    }
    if (count > 6)
        walk_say(w, 2, 2, "%s, and %d more.", line, count - 6);
    else if (count > 0)
        walk_say(w, 2, 2, "%s.", line);
}

void walk_say_changes(walk *w, const place *made, size_t n)
{
    say_changed(w, "Now out too", HL_FAIL, made, n);
    say_changed(w, "Read again", HL_STALE, made, n);
}

/* ---- the answer -------------------------------------------------------------------------------- */

static void ring(const walk *w)
{
    if (w->asked->given[OPTION_BELL] && w->terminal.shown)
        say("\a");
}

static void answer_one(walk *w, place at, bool named)
{
    char before[200];
    const hl_finding *finding = walk_cell(w, at);
    const hl_step *step = hl_book_step(w->book, at.step);
    const char *note = walk_note_name(w, at.note);
    const bool titled = at.note == 0 || w->again || named;
    snprintf(before, sizeof before, "Saved. %s%s%s", note, note[0] && titled ? " " : "",
             titled ? step->title : "");
    if (!finding) {
        walk_say(w, 0, 2, "%s.", before);
        return;
    }
    walk_say_finding(w, finding, before);
    if (finding->verdict == HL_FAIL)
        ring(w);
}

static void answer_many(walk *w, const place *places, size_t n, const char *text)
{
    char names[200] = "";
    size_t used = 0, out = 0, passed = 0;
    for (size_t i = 0; i < n; i++) {
        const hl_finding *finding = walk_cell(w, places[i]);
        passed += finding && finding->verdict == HL_PASS;
        if (!finding || finding->verdict != HL_FAIL)
            continue;
        if (++out <= 10 && used < sizeof names)
            used +=
                (size_t)snprintf(names + used, sizeof names - used, " %s", walk_note_name(w, places[i].note));
    }
    walk_say(w, 0, 2, "Saved. %zu notes, %s to %s, %s: %zu pass.", n, walk_note_name(w, places[0].note),
             walk_note_name(w, places[n - 1].note), text, passed);
    if (out == 0)
        return;
    walk_say(w, 2, 2, "%zu out:%s%s. \"again\" goes through them.", out, names, out > 10 ? " ..." : "");
    ring(w);
}

static const hl_presumed *find_presumed(const walk *w, place at)
{
    size_t n = 0;
    const hl_presumed *presumed = hl_audit_presumed(w->audit, &n);
    const int line = hl_sheet_line(w->sheet, hl_book_step(w->book, at.step)->id, at.note);
    for (size_t i = 0; i < n; i++)
        if (presumed[i].step == at.step && presumed[i].note == at.note && presumed[i].line == line)
            return &presumed[i];
    return NULL;
}

/* The audit presumes that something was turned: asked, and never written down by itself. */
static void ask_between(walk *w, place at, const expectation *e)
{
    char first[120] = "It changed by more than the gauge.", amount[64];
    const hl_presumed *presumed = find_presumed(w, at);
    if (walk_says_unmoved(w, at, e, presumed != NULL) || !presumed)
        return;
    if (e->adjuster >= 0 && !e->known) {
        snprintf(first, sizeof first, "It is not what the work on record makes of the number before.");
    } else if (e->known) {
        walk_amount(w, at.step, e->after, amount, sizeof amount);
        snprintf(first, sizeof first, "Expected %s.", amount);
    }
    const hl_adjuster *adjuster = hl_book_adjuster(w->book, presumed->adjuster);
    walk_say(w, 2, 2,
             "%s Was the %s moved (%s) since the last reading? Then type what was done, as in: between %s%s",
             first, adjuster->title, presumed->amount < 0 ? adjuster->less : adjuster->more,
             adjuster->unit == HL_TURN ? "1/8 " : "", presumed->amount < 0 ? adjuster->less : adjuster->more);
}

/* ---- the entry --------------------------------------------------------------------------------- */

static const char *find_last_text(walk *w, int step)
{
    for (size_t i = w->n_kept; i-- > 0;)
        if (!w->kept[i].adjustment && w->kept[i].at.step == step)
            return w->kept[i].text;
    walk_say(w, 0, 2, "There is no last reading of this step to repeat. Type it.");
    return NULL;
}

static void record_one(walk *w, place at, bool named, const char *text, const char *remark)
{
    const expectation expected = walk_expect(w, at);
    walk_keep_verdicts(w);
    if (!save_all(w, &at, 1, text, remark))
        return;
    w->last = w->focus = at;
    w->moved = false;
    answer_one(w, at, named);
    walk_say_changes(w, &at, 1);
    ask_between(w, at, &expected);
}

static void record_many(walk *w, place *places, size_t n, const entry *typed, const char *text,
                        const char *remark)
{
    char names[120] = "";
    int left = 0;
    if (!typed->replaces)
        n = leave_standing(w, places, n, &left, names, sizeof names);
    if (n > 0 && !check_all(w, places, n, text, remark))
        return;
    walk_keep_verdicts(w);
    if (n > 0) {
        if (!save_all(w, places, n, text, remark))
            return;
        w->last = w->focus = places[n - 1];
        w->moved = false;
        answer_many(w, places, n, text);
        walk_say_changes(w, places, n);
        const place next = walk_begin_step(w, places[0].step);
        w->linger = next.step >= 0 && !walk_is_open(w, next) ? next.step : -1;
    }
    if (left > 0)
        walk_say(w, n > 0 ? 2 : 0, 2,
                 "%sRead before, left as they are:%s%s. To replace them, end with: replace.",
                 n > 0 ? "" : "Nothing recorded. ", names, left > 8 ? " ..." : "");
}

static void record(walk *w, const entry *typed, const char *text, const char *remark)
{
    size_t n = 0;
    if (typed->select == SELECT_HERE && walk_lingers(w)) {
        walk_say(w, 0, 2, "Which note? All of %s is read. Name the note, or type next. Nothing was recorded.",
                 hl_book_step(w->book, w->here.step)->title);
        return;
    }
    place *places = walk_select(w, typed, &n);
    if (!places)
        return;
    const bool one = n == 1 && (typed->select == SELECT_HERE || typed->select == SELECT_SPAN);
    const place first = places[0];
    bool saved = true;
    if (!one)
        record_many(w, places, n, typed, text, remark);
    else if (check_all(w, places, 1, text, remark))
        record_one(w, first, typed->select != SELECT_HERE, text, remark);
    else
        saved = false;
    free(places);
    if (saved && w->stay && (!one || walk_same_place(first, w->here)))
        w->stay = false;
}

void walk_take_reading(walk *w, const entry *typed)
{
    char text[ENTRY_MOST + 1];
    const int step = w->here.step >= 0 ? w->here.step : w->last.step;
    const char *from = typed->same ? find_last_text(w, step) : typed->text;
    if (!from)
        return;
    /* The list that it comes from may move. */
    snprintf(text, sizeof text, "%s", from);
    snprintf(w->named, sizeof w->named, "%s", typed->notes);
    record(w, typed, text, "");
    w->named[0] = '\0';
}

void walk_take_skip(walk *w, const entry *typed)
{
    if (!typed->text[0]) {
        walk_say(w, 0, 2, "Say why, as in: skip key is being re-bushed. To leave it for later, type next.");
        return;
    }
    const place at = w->here;
    record(w, typed, "skip", typed->text);
    if (!w->over && w->again && walk_same_place(at, w->here)) {
        const hl_finding *finding = walk_cell(w, at);
        if (finding && finding->why == HL_WHY_SKIPPED)
            w->here = walk_next_stop(w, at);
    }
}
