/* walk_say.c - what the walk says: short lines that wrap, safe for a terminal (layer: cli/walk). */
#include "walk.h"

#include "output.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static void print_and_free(char *text, size_t size, hl_code code)
{
    if (code == HL_OK)
        say_text(text, size);
    else
        say("(the machine has no memory left to say more)\n");
    hl_free(text);
}

void walk_say(const walk *w, int first, int hang, const char *format, ...)
{
    char line[1600];
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(line, sizeof line, format, arguments);
    va_end(arguments);
    const hl_code code = hl_paragraph_text(&text, &size, line, first, hang, &w->print, &err);
    print_and_free(text, size, code);
}

void walk_say_error(const walk *w, const hl_err *err)
{
    char place_text[300] = "";
    if (err->line > 0)
        snprintf(place_text, sizeof place_text, "%s:%d: ", err->file, err->line);
    const size_t size = strlen(err->todo);
    const char *end = size > 0 && err->todo[size - 1] == '?' ? "" : ".";
    walk_say(w, 0, 2, "%s%s%s%s%s", place_text, err->what, size > 0 ? "; " : "", err->todo, end);
}

/* Puts the notes before each quoted rewrite of the reading: "Write 'E4 0.4 in'".  False: there was none. */
static bool name_notes(char *out, size_t room, const char *todo, const char *reading, const char *notes)
{
    size_t used = 0;
    bool any = false;
    for (; *todo && used + 1 < room; todo++) {
        out[used++] = *todo;
        if (*todo != '\'' || !reading[0] || strncmp(todo + 1, reading, strlen(reading)) != 0 ||
            used + strlen(notes) + 2 > room)
            continue;
        used += (size_t)snprintf(out + used, room - used, "%s ", notes);
        any = true;
    }
    out[used] = '\0';
    return any;
}

void walk_say_refusal(const walk *w, const hl_err *err, const char *reading)
{
    char todo[sizeof err->todo + 200];
    if (!w->named[0]) {
        walk_say_error(w, err);
        return;
    }
    const bool named = name_notes(todo, sizeof todo, err->todo, reading, w->named);
    const size_t size = strlen(todo);
    const char *end = size > 0 && todo[size - 1] == '?' ? "" : ".";
    walk_say(w, 0, 2, "%s%s%s%s%s%s%s", err->what, size > 0 ? "; " : "", todo, end, named ? "" : " Name ",
             named ? "" : w->named, named ? "" : " again.");
}

void walk_say_finding(const walk *w, const hl_finding *finding, const char *before)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const hl_code code = hl_finding_text(&text, &size, w->audit, finding, before, &w->print, &err);
    print_and_free(text, size, code);
}

static void take_phrase(char *out, size_t room, char *text, hl_code code)
{
    snprintf(out, room, "%s", code == HL_OK ? text : "");
    hl_free(text);
}

void walk_reading(const walk *w, char *out, size_t room, const hl_finding *finding)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const hl_code code = hl_reading_text(&text, &size, w->audit, finding, &err);
    take_phrase(out, room, text, code);
}

void walk_target(const walk *w, char *out, size_t room, place at)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const hl_code code = hl_target_text(&text, &size, w->audit, at.step, at.note, &err);
    take_phrase(out, room, text, code);
}

/* ---- where the walk is ------------------------------------------------------------------------- */

static void count_step(const walk *w, int step, int *open, int *all)
{
    *open = *all = 0;
    for (size_t i = 0; i < w->n_order; i++) {
        if (w->order[i].step != step)
            continue;
        (*all)++;
        *open += walk_is_open(w, w->order[i]);
    }
}

static void say_stage(walk *w, const hl_step *step)
{
    const hl_stage *stage = hl_book_stage(w->book, step->stage);
    if (w->warned[step->stage])
        return;
    w->warned[step->stage] = 1;
    if (stage->caution[0])
        walk_say(w, 0, 2, "Careful: %s", stage->caution);
}

/* The step's name at each arrival, how to read it once a session. */
static void say_step(walk *w)
{
    const hl_step *step = hl_book_step(w->book, w->here.step);
    int open, all;
    count_step(w, w->here.step, &open, &all);
    if (w->here.note == 0)
        walk_say(w, 0, 2, "== %s: %s ==", hl_book_stage(w->book, step->stage)->title, step->title);
    else
        walk_say(w, 0, 2, "== %s: %s, %d of %d notes to read ==", hl_book_stage(w->book, step->stage)->title,
                 step->title, open, all);
    say_stage(w, step);
    if (w->shown[w->here.step])
        return;
    w->shown[w->here.step] = 1;
    if (step->caution[0])
        walk_say(w, 0, 2, "Careful: %s", step->caution);
    if (step->ask[0])
        walk_say(w, 0, 2, "%s", step->ask);
}

/* What is at a place that was gone to: its reading and the advice. */
static void say_standing(walk *w)
{
    const hl_finding *finding = walk_cell(w, w->here);
    if (!finding || (finding->verdict == HL_MISSING && finding->why == HL_WHY_UNREAD))
        return;
    char before[200];
    const char *note = walk_note_name(w, w->here.note);
    snprintf(before, sizeof before, "%s%s%s", note, note[0] ? " " : "",
             hl_book_step(w->book, w->here.step)->title);
    walk_say_finding(w, finding, before);
}

/* A heading where the stops of the next tool begin. */
static void say_group(walk *w)
{
    for (size_t i = 0; i < w->n_stops; i++) {
        const stop *at = &w->stops[i];
        if (!walk_same_place(at->at, w->here))
            continue;
        const bool same =
            w->group.at.step >= 0 && w->group.rank == at->rank && w->group.adjuster == at->adjuster;
        w->group = *at;
        if (same)
            return;
        int n = 0;
        for (size_t k = 0; k < w->n_stops; k++)
            n += w->stops[k].rank == at->rank && w->stops[k].adjuster == at->adjuster;
        if (at->adjuster < 0) {
            walk_say(w, 0, 2, "== To read or look at: %d ==", n);
            return;
        }
        const hl_adjuster *adjuster = hl_book_adjuster(w->book, at->adjuster);
        walk_say(w, 0, 2, "== %s%s%s: %d ==", adjuster->visit, adjuster->visit[0] ? ", " : "",
                 adjuster->title, n);
        return;
    }
}

void walk_announce(walk *w)
{
    if (w->here.step < 0)
        return;
    if (walk_lingers(w)) {
        if (!w->linger_said)
            walk_say(w, 0, 2, "All of %s is read. Exceptions now, each with its note; then: next.",
                     hl_book_step(w->book, w->here.step)->title);
        w->linger_said = true;
        return;
    }
    w->linger_said = false;
    if (walk_same_place(w->here, w->spoken))
        return;
    const bool new_step = w->here.step != w->spoken.step;
    if (w->again) {
        say_group(w);
        if (new_step)
            say_stage(w, hl_book_step(w->book, w->here.step));
    } else if (new_step) {
        say_step(w);
    }
    w->spoken = w->here;
    if (!w->again && !w->stay)
        return;
    w->focus = w->here;
    say_standing(w);
}

/* "C4 Hammer blow (44.0-48.0 mm): "; what does not fit beside the reading is left out. */
void walk_prompt(walk *w)
{
    char target[200], line[480];
    if (!w->terminal.typed)
        return;
    if (w->here.step < 0) {
        say("> ");
        return;
    }
    const char *note = walk_note_name(w, w->here.note), *title = hl_book_step(w->book, w->here.step)->title;
    walk_target(w, target, sizeof target, w->here);
    if (walk_lingers(w))
        snprintf(line, sizeof line, "%s, note and reading, or next", title);
    else
        snprintf(line, sizeof line, "%s%s%s (%s)", note, note[0] ? " " : "", title, target);
    if ((int)strlen(line) + 8 > w->print.width)
        snprintf(line, sizeof line, "%s%s%s", walk_lingers(w) ? "" : note, note[0] ? " " : "", title);
    /* Titles are a rule file's: through the printer that makes them safe. */
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    const hl_print wide = {.width = 1000};
    if (hl_paragraph_text(&text, &size, line, 0, 0, &wide, &err) == HL_OK && size > 0)
        say("%.*s: ", (int)(size - 1), text);
    hl_free(text);
}

void walk_say_end(walk *w)
{
    const hl_tally *total = hl_audit_total(w->audit);
    const int out = total->count[HL_FAIL] + total->count[HL_DOUBTFUL];
    if (hl_audit_ready(w->audit)) {
        walk_say(w, 0, 2, "Ready: everything is read and passes.");
        return;
    }
    walk_say(w, 0, 2, "%d to read, %d out, %d passed.", total->count[HL_MISSING] + total->count[HL_STALE],
             out, total->count[HL_PASS]);
}
