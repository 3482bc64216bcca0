/* walk_turn.c - work that was done: what was advised, or what the technician says (layer: cli/walk).
 *
 * "done", "done 1/8", "turned 1/8 down", "done capstan 1/4".  The row is written in the adjuster's
 * own words; then the same note is read again. */
#include "letters.h"
#include "walk.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A piece of work as it was typed. */
typedef struct work {
    place at;
    int adjuster;
    const hl_correction *advised; /* for this adjuster, or NULL */
    char text[160];               /* the cell of the sheet */
} work;

static bool same_letters(const char *a, const char *b, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (lower(a[i]) != lower(b[i]))
            return false;
    return true;
}

static bool is_gap(char c)
{
    return c == ' ' || c == '_' || c == '-';
}

/* ---- which adjuster ---------------------------------------------------------------------------- */

/* Bytes of `text` that name the adjuster by id or title, 0 when it does not begin so. */
static size_t match_name(const char *text, const hl_adjuster *adjuster)
{
    const char *const names[] = {adjuster->id, adjuster->title};
    size_t best = 0;
    for (size_t i = 0; i < 2; i++) {
        size_t n = 0;
        while (names[i][n] && text[n]) {
            const bool same =
                lower(names[i][n]) == lower(text[n]) || (is_gap(names[i][n]) && is_gap(text[n]));
            if (!same)
                break;
            n++;
        }
        if (!names[i][n] && (!text[n] || text[n] == ' ') && n > best)
            best = n;
    }
    return best;
}

static size_t find_adjuster(const walk *w, const char *text, int *adjuster)
{
    size_t best = 0;
    for (int i = 0; i < hl_book_n_adjusters(w->book); i++) {
        const size_t used = match_name(text, hl_book_adjuster(w->book, i));
        if (used > best) {
            best = used;
            *adjuster = i;
        }
    }
    return best;
}

static const hl_correction *find_advice(const hl_finding *finding, int adjuster)
{
    for (int i = 0; finding && i < finding->n_corrections; i++)
        if (adjuster < 0 || finding->corrections[i].adjuster == adjuster)
            return &finding->corrections[i];
    return NULL;
}

/* ---- how much, and which way ------------------------------------------------------------------- */

/* Takes `word` off the start or the end of the text. */
static bool take_way(char *text, const char *word)
{
    const size_t size = strlen(text), n = strlen(word);
    if (n == 0 || n > size)
        return false;
    if (same_letters(text, word, n) && (!text[n] || text[n] == ' ')) {
        const char *rest = text + n + strspn(text + n, " ");
        memmove(text, rest, strlen(rest) + 1);
        return true;
    }
    if (n == size || !same_letters(text + size - n, word, n) || text[size - n - 1] != ' ')
        return false;
    text[size - n] = '\0';
    for (size_t end = size - n; end > 0 && text[end - 1] == ' '; end--)
        text[end - 1] = '\0';
    return true;
}

/* 1 more, -1 less, 0 not said.  "up" and "down" serve where the book says raise and lower. */
static int read_way(char *text, const hl_adjuster *adjuster)
{
    if (take_way(text, adjuster->more))
        return 1;
    if (take_way(text, adjuster->less))
        return -1;
    const int raise = strcmp(adjuster->more, "raise") == 0   ? 1
                      : strcmp(adjuster->less, "raise") == 0 ? -1
                                                             : 0;
    const int lower = strcmp(adjuster->more, "lower") == 0   ? 1
                      : strcmp(adjuster->less, "lower") == 0 ? -1
                                                             : 0;
    if (raise && take_way(text, "up"))
        return raise;
    return lower && take_way(text, "down") ? lower : 0;
}

static bool ask_way(const walk *w, const hl_adjuster *adjuster)
{
    walk_say(w, 0, 2, "Which way, and how far? As in: %s%sdone %s 1/8 %s, or: %s. Nothing was recorded.",
             w->named, w->named[0] ? " " : "", adjuster->id, adjuster->more, adjuster->less);
    return false;
}

static bool write_advised(work *of, const walk *w)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const bool made = hl_adjustment_text(&text, &size, w->book, of->advised, &err) == HL_OK;
    snprintf(of->text, sizeof of->text, "%s", made ? text : "");
    hl_free(text);
    return made;
}

static bool read_amount(const walk *w, work *of, char *rest)
{
    const hl_adjuster *adjuster = hl_book_adjuster(w->book, of->adjuster);
    int way = read_way(rest, adjuster);
    if (!rest[0] && way == 0)
        return of->advised ? write_advised(of, w) : ask_way(w, adjuster);
    if (!rest[0]) {
        snprintf(of->text, sizeof of->text, "%s", way > 0 ? adjuster->more : adjuster->less);
        return true;
    }
    if (rest[0] == '+' || rest[0] == '-') {
        snprintf(of->text, sizeof of->text, "%.140s", rest);
        return true;
    }
    if (way == 0 && !of->advised)
        return ask_way(w, adjuster);
    if (way == 0)
        way = of->advised->more ? 1 : -1;
    snprintf(of->text, sizeof of->text, "%s %.100s", way > 0 ? adjuster->more : adjuster->less, rest);
    return true;
}

/* ---- where ------------------------------------------------------------------------------------- */

/* What the technician looked at last, unless a note is named. */
static place find_work(const walk *w, const entry *typed)
{
    const int step = w->here.step >= 0 ? w->here.step : w->last.step;
    if (typed->select == SELECT_SPAN && typed->from == typed->to)
        return (place){step, typed->from};
    return w->focus.step >= 0 ? w->focus : w->here;
}

/* of->at tells where. */
static bool read_work(walk *w, work *of, const entry *typed)
{
    char rest[ENTRY_MOST + 1];
    if (of->at.step < 0 || (typed->select != SELECT_HERE && typed->select != SELECT_SPAN)) {
        walk_say(w, 0, 2, "Done at which note? Go there first, or name it, as in: C5 done 1/4 up.");
        return false;
    }
    const hl_finding *finding = walk_cell(w, of->at);
    of->adjuster = -1;
    const size_t used = find_adjuster(w, typed->text, &of->adjuster);
    snprintf(rest, sizeof rest, "%s", typed->text + used + strspn(typed->text + used, " "));
    of->advised = find_advice(finding, of->adjuster);
    const hl_step *step = hl_book_step(w->book, of->at.step);
    if (of->adjuster < 0)
        of->adjuster = of->advised ? of->advised->adjuster : step->n_fixes > 0 ? step->fixes[0] : -1;
    if (of->adjuster < 0) {
        walk_say(w, 0, 2, "%s names nothing to adjust. Say what was adjusted, as in: done capstan 1/8 up.",
                 step->title);
        return false;
    }
    return read_amount(w, of, rest);
}

static hl_journal_row make_row(const walk *w, const work *of)
{
    const hl_adjuster *adjuster = hl_book_adjuster(w->book, of->adjuster);
    return (hl_journal_row){.note = adjuster->whole ? "" : walk_note_name(w, of->at.note),
                            .step = adjuster->id,
                            .reading = of->text};
}

static bool check_work(walk *w, const hl_journal_row *row)
{
    const bool good = walk_check(w, row);
    if (!good)
        walk_say(w, 0, 2, "Nothing was recorded.");
    return good;
}

static kept_row make_kept(const walk *w, const work *of)
{
    const hl_adjuster *adjuster = hl_book_adjuster(w->book, of->adjuster);
    return (kept_row){
        .id = adjuster->id, .at = of->at, .row_note = adjuster->whole ? 0 : of->at.note, .adjustment = true};
}

/* Lead, heat, a plate's screws: what can't be undone was said before; this names what was done. */
static void say_done(const walk *w, const work *of)
{
    const hl_adjuster *adjuster = hl_book_adjuster(w->book, of->adjuster);
    const char *note = adjuster->whole ? "" : walk_note_name(w, of->at.note);
    walk_say(w, 0, 2, "Saved. %s%s%s: %s.", note, note[0] ? " " : "", adjuster->title, of->text);
}

static bool is_readable(const walk *w, place at)
{
    return hl_book_step(w->book, at.step)->kind != HL_DERIVED;
}

static bool prepare(walk *w, work *of, const entry *typed)
{
    snprintf(w->named, sizeof w->named, "%s", typed->notes);
    bool good = read_work(w, of, typed);
    if (good) {
        const hl_journal_row row = make_row(w, of);
        good = check_work(w, &row);
    }
    w->named[0] = '\0';
    return good;
}

void walk_take_done(walk *w, const entry *typed)
{
    work of = {.at = find_work(w, typed)};
    if (!prepare(w, &of, typed))
        return;
    const hl_journal_row row = make_row(w, &of);
    const kept_row as = make_kept(w, &of);
    walk_keep_verdicts(w);
    if (!walk_save_row(w, &row, &as))
        return;
    say_done(w, &of);
    const place none = {-1, 0};
    walk_say_changes(w, &none, 1);
    if (!is_readable(w, of.at))
        return;
    w->here = w->focus = of.at;
    w->spoken = of.at.step == w->spoken.step ? of.at : w->spoken;
    w->stay = w->moved = true;
}

/* Rows that the last reading takes up: one, and one more for each remark on it. */
static size_t count_rows(const walk *w)
{
    size_t n = 1;
    for (; n < w->n_kept; n++) {
        const kept_row *row = &w->kept[w->n_kept - n], *before = row - 1;
        if (before->adjustment || !walk_same_place(before->at, row->at) || !row->remark[0] ||
            strcmp(before->text, row->text) != 0)
            break;
    }
    return n;
}

/* Two readings, and the work between them was not said: the later one is withdrawn, the work
 * written, and the reading written again. */
void walk_take_between(walk *w, const entry *typed)
{
    const kept_row *last = w->n_kept > 0 ? &w->kept[w->n_kept - 1] : NULL;
    if (!last || last->adjustment || hl_sheet_line(w->sheet, last->id, last->row_note) != last->line) {
        walk_say(w, 0, 2,
                 "The last entry is not a reading of this session. Type done AMOUNT, then read again.");
        return;
    }
    entry at = *typed;
    const kept_row again = {.id = last->id, .at = last->at, .row_note = last->row_note};
    char text[ENTRY_MOST + 1], method[128], remark[ENTRY_MOST + 1];
    snprintf(text, sizeof text, "%s", last->text);
    snprintf(method, sizeof method, "%s", last->method);
    snprintf(remark, sizeof remark, "%s", last->remark);
    at.select = SELECT_HERE;
    work of = {.at = again.at}; /* wherever the walk is now */
    if (!read_work(w, &of, &at))
        return;
    const hl_journal_row turn = make_row(w, &of);
    if (!check_work(w, &turn))
        return;
    const size_t n = count_rows(w);
    draft_row *rows = calloc(n + 2, sizeof *rows);
    char(*voids)[32] = calloc(n, sizeof *voids);
    if (rows && voids) {
        /* One entry: a saved reading is never away without being back. */
        for (size_t i = 0; i < n; i++) {
            walk_void(voids[i], &w->kept[w->n_kept - 1 - i]);
            rows[i].row = (hl_journal_row){
                .note = walk_note_name(w, again.row_note), .step = again.id, .reading = voids[i]};
        }
        rows[n] = (draft_row){.row = turn, .as = make_kept(w, &of)};
        rows[n + 1].row = rows[0].row;
        rows[n + 1].row.reading = text;
        rows[n + 1].row.method = method;
        rows[n + 1].row.remark = remark;
        rows[n + 1].as = again;
        walk_keep_verdicts(w);
        if (walk_save(w, rows, n + 2, false)) {
            say_done(w, &of);
            walk_say_changes(w, &again.at, 1);
        }
    } else {
        walk_no_memory(w);
    }
    free(rows);
    free(voids);
}
