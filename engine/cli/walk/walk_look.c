/* walk_look.c - looking without recording: how, near, list, help (layer: cli/walk). */
#include "walk.h"

#include "output.h"

#include <stdio.h>
#include <string.h>

#define NEAR 3 /* neighbours of each side */

void walk_show_how(walk *w)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const place at = w->here.step >= 0 ? w->here : w->last;
    if (at.step < 0) {
        walk_say(w, 0, 2, "Go to a step first, as in: go blow.");
        return;
    }
    /* The book's compass counts the notes there; the piano's may be another. */
    const int note = at.note == 0 ? 0 : hl_note_parse(hl_book_compass(w->book), walk_note_name(w, at.note));
    if (hl_step_text(&text, &size, w->book, at.step, note, &w->print, &err) == HL_OK)
        say_text(text, size);
    else
        walk_say_error(w, &err);
    hl_free(text);
}

static bool is_sharp(const walk *w, int note)
{
    return hl_pitch_is_sharp(hl_note_pitch(hl_sheet_compass(w->sheet), note));
}

static void show_one(const walk *w, place at, bool here)
{
    char reading[160];
    const hl_finding *finding = walk_cell(w, at);
    if (finding)
        walk_reading(w, reading, sizeof reading, finding);
    else
        snprintf(reading, sizeof reading, "not asked for");
    walk_say(w, 2, 7, "%s%s %s", walk_note_name(w, at.note), here ? " (here)" : "", reading);
}

void walk_show_near(walk *w)
{
    const place at = w->here.step >= 0 ? w->here : w->last;
    int notes[2 * NEAR + 1], n = 0, below = 0;
    if (at.step < 0 || at.note == 0) {
        walk_say(w, 0, 2, "There are no neighbours here.");
        return;
    }
    for (int note = at.note - 1; note >= 1 && below < NEAR; note--)
        if (is_sharp(w, note) == is_sharp(w, at.note) && hl_sheet_applies(w->sheet, at.step, note))
            notes[below++] = note;
    walk_say(w, 0, 2, "%s:", hl_book_step(w->book, at.step)->title);
    while (below > 0)
        show_one(w, (place){at.step, notes[--below]}, false);
    show_one(w, at, true);
    for (int note = at.note + 1; note <= w->keys && n < NEAR; note++) {
        if (is_sharp(w, note) != is_sharp(w, at.note) || !hl_sheet_applies(w->sheet, at.step, note))
            continue;
        show_one(w, (place){at.step, note}, false);
        n++;
    }
}

static void list_queries(const walk *w)
{
    size_t n = 0;
    const hl_finding *findings = hl_audit_findings(w->audit, &n);
    for (size_t i = 0; i < n; i++)
        if (findings[i].step < 0)
            walk_say_finding(w, &findings[i],
                             findings[i].note > 0 ? walk_note_name(w, findings[i].note) : "Piano");
}

void walk_show_list(walk *w)
{
    int steps = 0;
    for (int i = 0; i < hl_book_n_steps(w->book); i++) {
        const int *count = hl_audit_tally(w->audit, i)->count;
        const int to_read = count[HL_MISSING] + count[HL_STALE], out = count[HL_FAIL] + count[HL_DOUBTFUL];
        if (to_read + out == 0)
            continue;
        char parts[80] = "";
        if (to_read > 0)
            snprintf(parts, sizeof parts, "%d to read%s", to_read, out > 0 ? ", " : "");
        if (out > 0)
            snprintf(parts + strlen(parts), sizeof parts - strlen(parts), "%d out", out);
        walk_say(w, 0, 4, "%s: %s", hl_book_step(w->book, i)->title, parts);
        steps++;
    }
    list_queries(w);
    walk_say_end(w);
    if (steps > 0)
        walk_say(w, 0, 2, "To go there: go STEP. All of it, tool by tool: again.");
}

static void show_row(const walk *w, const char *form, const char *about)
{
    if (w->print.width >= 60) {
        say("  %-16s", form);
        walk_say(w, 0, 18, "%s", about);
    } else {
        walk_say(w, 0, 2, "%s: %s", form, about);
    }
}

static void show_word(walk *w, const char *word)
{
    for (const entry_word *row = entry_words; row->name; row++) {
        if (!row->about || strcmp(row->name, word) != 0)
            continue;
        show_row(w, row->usage, row->about);
        return;
    }
    walk_say(w, 0, 2, "There is no command \"%s\". ? lists them.", word);
}

void walk_show_help(walk *w, const entry *typed)
{
    static const char *const FORMS[][2] = {
        {"9.6  10,2  3/8", "a number, in the step's unit or its own: .39 in"},
        {"ok  tight  ti", "a word, or its beginning"},
        {"within", "by the gauge; also over, under"},
        {"=", "the same as last"},
        {"F3 9.6", "another note"},
        {"C3-B4 within", "a range; also all, rest, naturals, sharps, samples, section"},
    };
    char more[300] = "";
    size_t used = 0;
    if (typed->text[0]) {
        show_word(w, typed->text);
        return;
    }
    for (size_t i = 0; i < sizeof FORMS / sizeof *FORMS; i++)
        show_row(w, FORMS[i][0], FORMS[i][1]);
    for (const entry_word *row = entry_words; row->name; row++) {
        if (row->often)
            show_row(w, row->usage, row->about);
        else if (row->about && used < sizeof more)
            used +=
                (size_t)snprintf(more + used, sizeof more - used, "%s%s", used > 0 ? ", " : "", row->name);
    }
    walk_say(w, 0, 2, "More: %s. \"? near\" tells about one.", more);
    walk_say(w, 0, 2, "An empty line records nothing. A range leaves alone what was read before.");
}
