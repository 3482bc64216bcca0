/* walk_sheet.c - the walk's files: opened, appended to, read again (layer: cli/walk).
 *
 * "Saved" is said nowhere but after hl_journal_append_entry() returned HL_OK. */
#include "walk.h"

#include "conflict_copies.h"
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

/* ---- reading it again -------------------------------------------------------------------------- */

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
    w->shown = calloc(steps, 1);
    w->warned = calloc((size_t)hl_book_n_stages(w->book) + 1, 1);
    return w->cells && w->verdicts && w->opened && w->shown && w->warned;
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

void walk_keep_verdicts(walk *w)
{
    const size_t n = count_cells(w);
    for (size_t i = 0; i < n; i++)
        w->verdicts[i] = (unsigned char)(w->cells[i] ? w->cells[i]->verdict : HL_VERDICTS);
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

static bool keep_row(walk *w, const draft_row *draft, int row)
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
    *kept = draft->as;
    kept->entry = w->entry;
    kept->order = hl_journal_order(w->journal);
    kept->row = row;
    kept->text = copy_text(draft->row.reading);
    kept->method = copy_text(draft->row.method ? draft->row.method : "");
    kept->remark = copy_text(draft->row.remark ? draft->row.remark : "");
    return kept->text && kept->method && kept->remark;
}

static bool give_up_saving(walk *w, const hl_err *err)
{
    fflush(stdout);
    report(err);
    const char *rows = hl_journal_unsaved(w->journal);
    const bool several = strchr(rows, '\n') != NULL;
    if (several || !strstr(err->what, rows)) /* an error's room is short, a remark may be long */
        for (size_t size; *rows; rows += size + (rows[size] == '\n')) {
            size = strcspn(rows, "\n");
            complain("not saved: %.*s", (int)size, rows);
        }
    complain(several ? "type that entry again when this is mended"
                     : "type that row again when this is mended");
    complain("what was typed after it was not taken; all that was \"saved\" before is in %s", w->path);
    end_with(w, EXIT_NOT_SAVED);
    return false;
}

void walk_void(char out[32], const kept_row *row)
{
    if (row->order > 0)
        snprintf(out, 32, "void %ld.%d", row->order, row->row);
    else
        snprintf(out, 32, "void");
}

/* ---- somebody else ----------------------------------------------------------------------------- */

static int find_note(const walk *w, const hl_journal_row *row)
{
    return row->note && row->note[0] ? hl_note_parse(hl_sheet_compass(w->sheet), row->note) : 0;
}

static int count_queries(const walk *w, int note)
{
    size_t n = 0;
    int open = 0;
    const hl_finding *findings = hl_audit_findings(w->audit, &n);
    for (size_t i = 0; i < n; i++)
        open += findings[i].step < 0 && findings[i].note == note;
    return open;
}

/* What a row is about, as a number that changes when somebody else writes about it too. */
static int look_at(const walk *w, const hl_journal_row *row)
{
    const int note = find_note(w, row);
    return strcmp(row->step, "query") == 0 ? count_queries(w, note)
                                           : hl_sheet_line(w->sheet, row->step, note);
}

static void say_other(walk *w, const hl_journal_row *row)
{
    const int note = find_note(w, row);
    char reading[160] = "is no longer as it was";
    for (int i = 0; i < hl_book_n_steps(w->book); i++) {
        const hl_finding *finding = walk_cell(w, (place){i, note});
        if (strcmp(hl_book_step(w->book, i)->id, row->step) != 0 || !finding)
            continue;
        snprintf(reading, sizeof reading, "now reads ");
        walk_reading(w, reading + strlen(reading), sizeof reading - strlen(reading), finding);
    }
    walk_say(w, 0, 2,
             "%s%s%s %s, by somebody else. Nothing of this entry was saved; type it again if it still holds.",
             walk_note_name(w, note), note > 0 ? " " : "", row->step, reading);
}

/* Reads the sheet again after a refusal.  False: the entry is not to be written as it is. */
static bool look_again(walk *w, const draft_row *rows, size_t n)
{
    int *before = calloc(n, sizeof *before);
    if (!before) {
        walk_no_memory(w);
        return false;
    }
    for (size_t i = 0; i < n; i++)
        before[i] = look_at(w, &rows[i].row);
    hl_journal_grew(w->journal); /* this is the look */
    bool good = walk_reload(w);
    if (good)
        walk_say(w, 0, 2, "Somebody else wrote to this sheet meanwhile. It was read again.");
    for (size_t i = 0; good && i < n; i++) {
        good = look_at(w, &rows[i].row) == before[i];
        if (!good)
            say_other(w, &rows[i].row);
    }
    free(before);
    if (good)
        walk_keep_verdicts(w);
    return good;
}

/* ---- saving ------------------------------------------------------------------------------------ */

#define TRIES 20 /* others may write again while we look */

static bool append(walk *w, const draft_row *rows, const hl_journal_entry *written)
{
    hl_err err = {0};
    for (int i = 0; i < TRIES; i++) {
        bool changed = false;
        if (hl_journal_append_entry(w->journal, written, &changed, &err) == HL_OK)
            return true;
        if (!changed)
            return give_up_saving(w, &err);
        if (!look_again(w, rows, written->n))
            return false;
    }
    walk_say(w, 0, 2,
             "Somebody else writes to this sheet without a pause. Nothing was saved; type it again.");
    return false;
}

static bool remember(walk *w, const draft_row *rows, size_t n)
{
    w->entry++;
    w->n_saved += (int)n;
    for (size_t i = 0; i < n; i++)
        if (rows[i].as.id && !keep_row(w, &rows[i], (int)i + 1)) {
            walk_no_memory(w);
            return false;
        }
    return true;
}

static void say_torn(walk *w)
{
    const char *torn = hl_journal_torn(w->journal);
    if (!torn[0] || w->torn_told)
        return;
    w->torn_told = true;
    walk_say(w, 0, 2, "The last %s was cut short by a crash. It was set aside into %s.torn: %s",
             strchr(torn, '\n') ? "entry" : "line", w->path, torn);
}

static void place_rows(walk *w)
{
    for (size_t i = w->n_kept; i-- > 0 && w->kept[i].entry == w->entry;)
        w->kept[i].line = hl_sheet_line(w->sheet, w->kept[i].id, w->kept[i].row_note);
}

/* Columns that the sheet has not got are left out. */
bool walk_save(walk *w, const draft_row *rows, size_t n, bool range)
{
    char now[32];
    walk_time(now);
    hl_journal_row *full = calloc(n, sizeof *full);
    if (!full) {
        walk_no_memory(w);
        return false;
    }
    for (size_t i = 0; i < n; i++) {
        full[i] = rows[i].row;
        full[i].time = hl_journal_has(w->journal, "time") ? now : NULL;
        full[i].by = hl_journal_has(w->journal, "by") ? w->asked->by : NULL;
        if (!hl_journal_has(w->journal, "method"))
            full[i].method = NULL;
        if (!hl_journal_has(w->journal, "remark"))
            full[i].remark = NULL;
    }
    const hl_journal_entry written = {.rows = full, .n = n, .range = range, .unless_changed = true};
    const bool saved = append(w, rows, &written) && remember(w, rows, n);
    free(full);
    if (!saved)
        return false;
    say_torn(w);
    if (!walk_reload(w))
        return false;
    place_rows(w);
    return true;
}

bool walk_save_row(walk *w, const hl_journal_row *row, const kept_row *as)
{
    const draft_row draft = {.row = *row, .as = as ? *as : (kept_row){.id = NULL}};
    return walk_save(w, &draft, 1, false);
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

/* A shared folder that two computers wrote at once keeps both files. */
static void say_conflict_copies(const walk *w)
{
    conflict_copies copies;
    find_conflict_copies(&copies, w->path);
    for (int i = 0; i < copies.n; i++)
        walk_say(w, 0, 2,
                 "Beside this sheet lies \"%s\", which looks like a second copy of it from a shared folder; "
                 "it may hold readings that this one lacks.",
                 copies.names[i]);
}

static void say_held(void *context, int seconds)
{
    const walk *w = context;
    walk_say(w, 0, 2, "Another program holds this sheet; waiting for it, %d seconds at most.", seconds);
    fflush(stdout);
}

int walk_open(walk *w)
{
    hl_err err = {0};
    const hl_journal_wait wait = {say_held, w};
    const int code = open_book(w);
    if (code != EXIT_READY)
        return code;
    if (hl_journal_open_waiting(&w->journal, w->path, &wait, &err) != HL_OK)
        return refuse_sheet(w, &err);
    say_torn(w);
    say_conflict_copies(w);
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
    free(w->shown);
    free(w->warned);
    hl_audit_free(w->audit);
    hl_sheet_free(w->sheet);
    hl_journal_close(w->journal);
    hl_book_free(w->book);
    close_bookshelf(&w->shelf);
}
