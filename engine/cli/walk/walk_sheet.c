/* walk_sheet.c - the walk's files: opened, appended to, read anew (layer: cli/walk).
 *
 * "Saved" is said nowhere but after hl_journal_append() returned HL_OK. */
#include "walk.h"

#include "output.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

void walk_no_memory(walk *w)
{
    complain("the machine has no memory left; close other programs. Everything that was \"saved\" is");
    w->over = true;
    w->code = EXIT_NOT_SAVED;
}

static void end_with(walk *w, int code)
{
    w->over = true;
    w->code = code;
}

const char *walk_time(char out[32])
{
    const time_t now = time(NULL);
    struct tm parts;
    out[0] = '\0';
    if (gmtime_r(&now, &parts))
        strftime(out, 32, "%Y-%m-%dT%H:%M:%SZ", &parts);
    return out;
}

/* ---- reading it anew --------------------------------------------------------------------------- */

static size_t count_cells(const walk *w)
{
    return (size_t)hl_book_n_steps(w->book) * ((size_t)w->keys + 1);
}

static bool take_rooms(walk *w)
{
    const size_t steps = (size_t)hl_book_n_steps(w->book) + 1, cells = count_cells(w) + 1;
    w->cells = calloc(cells, sizeof *w->cells);
    w->verdicts = calloc(cells, 1);
    w->opened = calloc(steps, 1);
    w->told = calloc(steps, 1);
    w->warned = calloc((size_t)hl_book_n_stages(w->book) + 1, 1);
    return w->cells && w->verdicts && w->opened && w->told && w->warned;
}

static void fill_cells(walk *w)
{
    size_t n = 0;
    const hl_finding *findings = hl_audit_findings(w->audit, &n);
    memset(w->cells, 0, count_cells(w) * sizeof *w->cells);
    for (size_t i = 0; i < n; i++)
        if (findings[i].step >= 0)
            w->cells[(size_t)findings[i].step * ((size_t)w->keys + 1) + (size_t)findings[i].note] =
                &findings[i];
}

static void say_bad_rows(const walk *w, int before)
{
    int n = 0;
    const hl_err *errors = hl_sheet_errors(w->sheet, &n);
    if (n <= before)
        return;
    for (int i = 0; i < n && i < 3; i++)
        walk_say_error(w, &errors[i]);
    walk_say(w, 0, 2, "%d %s of the sheet can't be read, and until %s mended the job is not ready.", n,
             n == 1 ? "row" : "rows", n == 1 ? "it is" : "they are");
}

static bool read_sheet(walk *w, hl_sheet **sheet, hl_audit **audit, hl_err *err)
{
    if (hl_sheet_open(sheet, w->path, err) != HL_OK)
        return false;
    const hl_code code = hl_sheet_read(*sheet, w->book, err);
    int n = 0;
    hl_sheet_errors(*sheet, &n);
    return (code == HL_OK || (code == HL_E_SHEET && n > 0)) &&
           hl_audit_run(audit, *sheet, w->book, NULL, err) == HL_OK;
}

bool walk_reload(walk *w)
{
    hl_sheet *sheet = NULL;
    hl_audit *audit = NULL;
    hl_err err = {0};
    int bad = 0;
    if (w->sheet)
        hl_sheet_errors(w->sheet, &bad);
    if (!read_sheet(w, &sheet, &audit, &err)) {
        hl_sheet_free(sheet);
        end_with(w, report(&err));
        return false;
    }
    const bool first = !w->sheet, moved = !first && hl_sheet_compass(sheet).keys != w->keys;
    hl_audit_free(w->audit);
    hl_sheet_free(w->sheet);
    w->sheet = sheet;
    w->audit = audit;
    w->keys = hl_sheet_compass(sheet).keys;
    if (moved) {
        complain("%s: the piano's compass was changed; start the walk again", w->path);
        end_with(w, EXIT_BAD_SHEET);
        return false;
    }
    if (first && !take_rooms(w)) {
        walk_no_memory(w);
        return false;
    }
    fill_cells(w);
    say_bad_rows(w, bad);
    if (walk_make_order(w) && walk_make_stops(w))
        return true;
    walk_no_memory(w);
    return false;
}

/* ---- appending --------------------------------------------------------------------------------- */

static char *copy_text(const char *text)
{
    const size_t size = strlen(text) + 1;
    char *copy = malloc(size);
    if (copy)
        memcpy(copy, text, size);
    return copy;
}

static bool keep_row(walk *w, const hl_journal_row *row, const kept_row *as)
{
    if (w->n_kept == w->room_kept) {
        const size_t room = w->room_kept ? 2 * w->room_kept : 64;
        kept_row *more = realloc(w->kept, room * sizeof *more);
        if (!more)
            return false;
        w->kept = more;
        w->room_kept = room;
    }
    kept_row *kept = &w->kept[w->n_kept++];
    *kept = *as;
    kept->entry = w->entry;
    kept->text = copy_text(row->reading);
    kept->method = copy_text(row->method ? row->method : "");
    kept->remark = copy_text(row->remark ? row->remark : "");
    return kept->text && kept->method && kept->remark;
}

static bool give_up_saving(walk *w, const hl_err *err)
{
    fflush(stdout);
    report(err);
    const char *row = hl_journal_unsaved(w->journal);
    if (!strstr(err->what, row)) /* an error's room is short, a remark may be long */
        complain("not saved: %s", row);
    complain("type that row again when this is mended");
    complain("what was typed after it was not taken; all that was \"saved\" before is in %s", w->path);
    end_with(w, EXIT_NOT_SAVED);
    return false;
}

/* Columns that the sheet has not got are left out; a remark that is lost so is said. */
bool walk_append(walk *w, const hl_journal_row *row, const kept_row *as)
{
    char now[32];
    hl_err err = {0};
    hl_journal_row full = *row;
    full.time = hl_journal_has(w->journal, "time") ? walk_time(now) : NULL;
    full.by = hl_journal_has(w->journal, "by") ? w->asked->by : NULL;
    if (!hl_journal_has(w->journal, "method"))
        full.method = NULL;
    if (!hl_journal_has(w->journal, "remark"))
        full.remark = NULL;
    if (hl_journal_append(w->journal, &full, &err) != HL_OK)
        return give_up_saving(w, &err);
    w->n_saved++;
    if (as && !keep_row(w, &full, as)) {
        walk_no_memory(w);
        return false;
    }
    if (hl_journal_torn(w->journal)[0] && !w->torn_told) {
        w->torn_told = true;
        walk_say(w, 0, 2, "A last line that was cut short by a crash was set aside into %s.torn: %s", w->path,
                 hl_journal_torn(w->journal));
    }
    return true;
}

void walk_place_rows(walk *w)
{
    for (size_t i = w->n_kept; i-- > 0 && w->kept[i].entry == w->entry;)
        w->kept[i].line = hl_sheet_line(w->sheet, w->kept[i].id, w->kept[i].row_note);
}

void walk_forget(walk *w, size_t n_left)
{
    while (w->n_kept > n_left) {
        w->n_kept--;
        free(w->kept[w->n_kept].text);
        free(w->kept[w->n_kept].method);
        free(w->kept[w->n_kept].remark);
    }
}

bool walk_check(walk *w, const hl_journal_row *row)
{
    hl_err err = {0};
    if (row->remark && row->remark[0] && !hl_journal_has(w->journal, "remark")) {
        walk_say(w, 0, 2,
                 "The sheet has no column \"remark\", so the text has no place; add that head to it.");
        return false;
    }
    if (hl_sheet_check_row(w->sheet, row, &err) == HL_OK)
        return true;
    walk_say_refusal(w, &err, row->reading);
    return false;
}

/* ---- opening ----------------------------------------------------------------------------------- */

static int open_book(walk *w)
{
    hl_sheet *sheet = NULL;
    hl_err err = {0};
    if (hl_sheet_open(&sheet, w->path, &err) != HL_OK) {
        const int code = report(&err);
        complain("a new one is made with: hammerline walk --new grand %s", w->path);
        return code;
    }
    const char *name = w->asked->book ? w->asked->book : hl_sheet_book_id(sheet);
    int code = EXIT_READY;
    if (!name[0]) {
        complain("%s: no book is named; write a line \"# book: grand\" above the column heads, or say "
                 "--book grand",
                 w->path);
        code = EXIT_BAD_SHEET;
    } else if (hl_book_open(&w->book, name, &w->shelf.shelf, &err) != HL_OK) {
        code = report(&err);
        code = code == EXIT_WRONG_USE && !w->asked->book ? EXIT_BAD_SHEET : code;
    }
    hl_sheet_free(sheet);
    return code;
}

/* The journal refused the sheet: is it because it is a wide one? */
static int refuse_sheet(walk *w, const hl_err *why)
{
    hl_sheet *sheet = NULL;
    hl_err err = {0};
    const bool read = hl_sheet_open(&sheet, w->path, &err) == HL_OK;
    const hl_code code = read ? hl_sheet_read(sheet, w->book, &err) : HL_E_SHEET;
    int n = 0;
    if (read)
        hl_sheet_errors(sheet, &n);
    const bool wide = why->code == HL_E_SHEET && strncmp(why->what, "not a tidy sheet", 16) == 0 &&
                      (code == HL_OK || n > 0);
    hl_sheet_free(sheet);
    if (!wide)
        return report(why);
    complain("%s is a wide sheet, a row a note; the walk appends a row a reading and needs a tidy one. "
             "Make one, the old one stays as it is: hammerline sheet convert %s -o NEW.csv. Then: hammerline "
             "walk NEW.csv",
             w->path, w->path);
    return EXIT_BAD_SHEET;
}

int walk_open(walk *w)
{
    hl_err err = {0};
    const int code = open_book(w);
    if (code != EXIT_READY)
        return code;
    if (hl_journal_open(&w->journal, w->path, &err) != HL_OK)
        return refuse_sheet(w, &err);
    if (hl_journal_torn(w->journal)[0]) {
        w->torn_told = true;
        walk_say(w, 0, 2, "The last line was cut short by a crash. It was set aside into %s.torn: %s",
                 w->path, hl_journal_torn(w->journal));
    }
    if (!walk_reload(w))
        return w->code;
    say_notices(w->sheet, w->book);
    return EXIT_READY;
}

void walk_close(walk *w)
{
    walk_forget(w, 0);
    free(w->kept);
    free(w->order);
    free(w->stops);
    free((void *)w->cells);
    free(w->verdicts);
    free(w->opened);
    free(w->told);
    free(w->warned);
    hl_audit_free(w->audit);
    hl_sheet_free(w->sheet);
    hl_journal_close(w->journal);
    hl_book_free(w->book);
    close_bookshelf(&w->shelf);
}
