/* subject.c - what was judged: the file, the piano, who read it, in which passes (layer: render/data). */
#include "subject.h"

#include <string.h>

static const char *cut_folders(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

const char *hl__subject_sheet(const hl_sheet *sheet)
{
    return sheet->part ? sheet->part : cut_folders(sheet->name);
}

const char *hl__subject_title(const char *title, const char *path, size_t *path_size)
{
    const size_t n = strlen(path);
    const bool part = n > 0 && strncmp(title, path, n) == 0 && strncmp(title + n, ": ", 2) == 0;
    *path_size = part ? n : strlen(title);
    return part ? title + n + 2 : cut_folders(title);
}

const char *hl__subject_answer(const hl_audit *audit)
{
    return hl_audit_ready(audit) ? "ready" : "not ready";
}

/* ---- persons and passes ------------------------------------------------------------------------- */

typedef void name_taker(void *context, const char *name);

/* Is it the first event of this person?  The names are few, and most rows repeat the one before. */
static bool is_new(const hl_sheet *sheet, size_t at, const char *name)
{
    if (strcmp(hl_sheet_fact(sheet, "by"), name) == 0)
        return false;
    for (size_t i = 0; i < at; i++)
        if (strcmp(hl__text_at(sheet, sheet->events[i].by), name) == 0)
            return false;
    return true;
}

static void each_person(const hl_sheet *sheet, name_taker *take, void *context)
{
    const char *before = hl_sheet_fact(sheet, "by");
    if (before[0])
        take(context, before);
    for (size_t i = 0; i < sheet->n_events; i++) {
        const char *name = hl__text_at(sheet, sheet->events[i].by);
        if (!name[0] || strcmp(name, before) == 0)
            continue;
        before = name;
        if (is_new(sheet, i, name))
            take(context, name);
    }
}

static void each_pass(const hl_sheet *sheet, name_taker *take, void *context)
{
    for (int i = 1; i < sheet->n_passes; i++)
        take(context, sheet->passes[i]);
}

typedef struct joining {
    hl_text *out;
    const char *between;
    bool some;
} joining;

static void join(void *context, const char *name)
{
    joining *to = context;
    if (to->some)
        hl__text_add(to->out, to->between);
    to->some = true;
    hl__text_add(to->out, name);
}

void hl__subject_persons(hl_text *out, const hl_sheet *sheet, const char *between)
{
    joining to = {out, between, false};
    each_person(sheet, join, &to);
}

void hl__subject_passes(hl_text *out, const hl_sheet *sheet, const char *between)
{
    joining to = {out, between, false};
    each_pass(sheet, join, &to);
}

void hl__subject_compass(hl_text *out, hl_compass compass)
{
    hl__text_add(out, hl_pitch_name(hl_note_pitch(compass, 1)));
    hl__text_printf(out, " to %s, %d keys", hl_pitch_name(hl_note_pitch(compass, compass.keys)),
                    compass.keys);
}

/* ---- as JSON ------------------------------------------------------------------------------------- */

static void add_name(void *context, const char *name)
{
    hl__json_string(context, NULL, name);
}

static void add_fact(hl_json *json, const hl_audit *audit, const char *id)
{
    const char *value = audit ? hl_sheet_fact(audit->sheet, id) : "";
    hl__json_string(json, id, value[0] ? value : NULL);
}

static void add_path(hl_json *json, const hl_audit *audit, const char *title, const char *path)
{
    hl_text shown = {0};
    size_t size = 0;
    if (audit) {
        hl__json_string(json, "path", audit->sheet->name);
        hl__json_string(json, "sheet", hl__subject_sheet(audit->sheet));
        return;
    }
    const char *name = hl__subject_title(title, path, &size);
    hl__text_add_n(&shown, title, size);
    hl__json_string(json, "path", shown.data ? shown.data : "");
    hl__json_string(json, "sheet", name);
    json->out->failed |= shown.failed;
    hl__text_free(&shown);
}

static void add_compass(hl_json *json, const hl_audit *audit)
{
    if (!audit) {
        hl__json_null(json, "compass");
        return;
    }
    const hl_compass compass = audit->sheet->compass;
    hl__json_open(json, "compass", '{', true);
    hl__json_string(json, "lowest", hl_pitch_name(hl_note_pitch(compass, 1)));
    hl__json_string(json, "highest", hl_pitch_name(hl_note_pitch(compass, compass.keys)));
    hl__json_number(json, "keys", compass.keys);
    hl__json_close(json, '}');
}

static void add_book(hl_json *json, const hl_audit *audit)
{
    if (!audit) {
        hl__json_null(json, "book");
        return;
    }
    hl__json_open(json, "book", '{', true);
    hl__json_string(json, "id", audit->book->id);
    hl__json_string(json, "title", audit->book->title);
    hl__json_string(json, "hash", audit->book->hash);
    hl__json_close(json, '}');
}

void hl__json_subject(hl_json *json, const hl_audit *audit, const char *title, const char *path)
{
    hl__json_number(json, "schema", HL_SCHEMA);
    hl__json_string(json, "engine", HL_VERSION);
    add_path(json, audit, title, path);
    add_fact(json, audit, "piano");
    add_fact(json, audit, "date");
    hl__json_open(json, "persons", '[', true);
    if (audit)
        each_person(audit->sheet, add_name, json);
    hl__json_close(json, ']');
    hl__json_open(json, "passes", '[', true);
    if (audit)
        each_pass(audit->sheet, add_name, json);
    hl__json_close(json, ']');
    add_compass(json, audit);
    add_book(json, audit);
}
