/* draft.c - splicing books, and the files that they use, into one list (layer: host/build). */
#include "draft.h"

#include "errors.h"

#include <string.h>

#define USE_DEPTH    16
#define MOST_ENTRIES 4000

static hl_code lay_skip(hl_draft *draft, const hl_entry *skip, hl_err *err)
{
    const char *id = skip->values[SKIP_ID].text;
    hl_draft_item *step = hl__draft_find(draft, HL_P_STEP, id);
    if (step == NULL && hl__draft_may_be_lost(draft, id))
        return HL_OK;
    if (step == NULL) {
        hl__fail(err, HL_E_RULE, "skip: there is no step '%s' in the book so far", id);
        hl__did_you_mean(err, hl__draft_nearest(draft, HL_P_STEP, id),
                         "skip comes after the use that brings the step");
        return hl__at(err, skip->origin.file, skip->origin.line, 0);
    }
    if (step->skip != NULL) {
        hl__fail(err, HL_E_RULE, "step '%s' is left out already", id);
        hl__todo(err, "see %s:%d; take one of the two out", step->skip->origin.file, step->skip->origin.line);
        return hl__at(err, skip->origin.file, skip->origin.line, 0);
    }
    step->skip = skip;
    return hl__draft_note_skip(draft, step, skip, err);
}

static hl_code lay_acknowledge(hl_draft *draft, const hl_entry *entry, hl_err *err)
{
    if (!hl__grow((void **)&draft->acknowledged, draft->n_acknowledged, &draft->room_acknowledged,
                  sizeof *draft->acknowledged))
        return hl__no_memory(err);
    draft->acknowledged[draft->n_acknowledged++] = entry;
    return HL_OK;
}

static hl_code add_file(hl_draft *draft, hl_rule_file *file, int depth, hl_err *err);

static hl_code lay_use(hl_draft *draft, const hl_rule_file *asking, const hl_entry *use, int depth,
                       hl_err *err)
{
    if (depth >= USE_DEPTH) {
        hl__fail(err, HL_E_RULE, "books use each other more than %d deep", USE_DEPTH);
        return hl__at(err, use->origin.file, use->origin.line, 0);
    }
    hl_rule_file *file;
    hl_files *files = &draft->loader->files;
    const char *name = use->values[0].text;
    hl_code code = hl__files_use(&file, files, asking, name, use->origin, err);
    /* Step files are named after their steps, so they were renamed with them. */
    hl_err other;
    const char *is = code == HL_E_RULE ? hl__rename_file(draft, name, err) : NULL;
    if (is != NULL && hl__files_use(&file, files, asking, is, use->origin, &other) == HL_OK)
        code = hl__old_name_note(draft->old_names, name, is, use->origin, err);
    return code != HL_OK ? code : add_file(draft, file, depth + 1, err);
}

/* An entry that errors were kept of is left out. */
static hl_code leave_out(hl_draft *draft, const hl_value *id)
{
    if (id->kind != HL_IS_TEXT || draft->n_bad_ids > HL_BOOK_ERRORS_MOST)
        draft->lost = true;
    else
        draft->bad_ids[draft->n_bad_ids++] = id->text;
    return HL_OK;
}

static hl_code lay_entry(hl_draft *draft, const hl_rule_file *file, hl_entry *entry, int depth, hl_err *err)
{
    if (++draft->entries > MOST_ENTRIES) {
        hl__fail(err, HL_E_RULE, "the book has more than %d entries", MOST_ENTRIES);
        return hl__at(err, entry->origin.file, entry->origin.line, 0);
    }
    if (entry->bad)
        return leave_out(draft, &entry->values[0]);
    hl_code code = hl__rename_entry(draft, entry, err);
    if (code != HL_OK)
        return code;
    switch (entry->word) {
    case HL_W_USE:
        return lay_use(draft, file, entry, depth, err);
    case HL_W_STAGE:
        return hl__draft_lay(draft, HL_P_STAGE, entry, err);
    case HL_W_CHANGE:
        return hl__draft_change(draft, entry, err);
    case HL_W_ADJUSTER:
        return hl__draft_lay(draft, HL_P_ADJUSTER, entry, err);
    case HL_W_SKIP:
        return lay_skip(draft, entry, err);
    case HL_W_FACT:
        return hl__draft_lay(draft, HL_P_FACT, entry, err);
    case HL_W_FLOAT:
        return hl__draft_float(draft, entry, err);
    case HL_W_CHOICE:
        return hl__draft_choice(draft, entry, err);
    case HL_W_CHOOSE:
        return hl__draft_choose(draft, entry, err);
    case HL_W_SOURCE:
        return hl__draft_lay(draft, HL_P_SOURCE, entry, err);
    case HL_W_RENAMED:
        return hl__draft_renamed(draft, entry, err);
    case HL_W_ACKNOWLEDGE:
        return lay_acknowledge(draft, entry, err);
    default:
        return hl__draft_lay(draft, HL_P_DIAGNOSIS, entry, err);
    }
}

/* The id in the file must be its name, else `use` and `change` would speak of different things. */
static hl_code check_id(const hl_rule_file *file, const hl_entry *entry, hl_err *err)
{
    const char *id = entry->values[0].text; /* first field of step and book */
    if (strcmp(id, file->id) == 0)
        return HL_OK;
    hl__fail(err, HL_E_RULE, "the file is named '%s.lua' and the %s in it '%s'", file->id,
             hl__word_name(entry->word), id);
    hl__todo(err, "give both the same name");
    return hl__at(err, entry->origin.file, entry->origin.line, 0);
}

static hl_code check_api(const hl_entry *book, hl_err *err)
{
    double api = book->values[BOOK_API].number;
    if (api == HL_RULE_API)
        return HL_OK;
    hl__fail(err, HL_E_RULE,
             "the book is written for version %ld of the rule language; this program reads version %d",
             (long)api, HL_RULE_API);
    hl__todo(err, api > HL_RULE_API ? "use a newer hammerline" : "write api = 1");
    return hl__at(err, book->origin.file, book->origin.line, 0);
}

static hl_code add_book(hl_draft *draft, hl_rule_file *file, const hl_entry *book, int depth, hl_err *err)
{
    hl_complaints *all = draft->loader->box.all;
    hl_code code =
        book->bad ? leave_out(draft, &(hl_value){0}) : hl__keep_error(all, check_api(book, err), err);
    file->loading = true;
    for (int i = 0; code == HL_OK && i < book->n_items; i++) {
        code = lay_entry(draft, file, book->items[i], depth, err);
        draft->lost = draft->lost || (code != HL_OK && book->items[i]->word == HL_W_USE);
        if (draft->loader->box.trip == HL_TRIP_NONE)
            code = hl__keep_error(all, code, err);
    }
    file->loading = false;
    for (int i = 0; i < BOOK_FIELDS; i++) {
        if (book->values[i].kind != HL_IS_NOTHING)
            draft->book[i] = book->values[i]; /* the outermost comes last and wins */
    }
    draft->book_origin = book->origin;
    return code;
}

static hl_code add_file(hl_draft *draft, hl_rule_file *file, int depth, hl_err *err)
{
    hl_entry *entry;
    hl_code code = hl__load(&entry, draft->loader, file, err);
    if (code != HL_OK)
        return code;
    if (entry == NULL) {
        draft->lost = true;
        return HL_OK;
    }
    bool is_book = entry->word == HL_W_BOOK;
    if (!is_book && (depth == 0 || entry->word != HL_W_STEP)) {
        hl__fail(err, HL_E_RULE, "the file returns %s; a book%s is needed here", hl__word_name(entry->word),
                 depth == 0 ? "" : " or a step");
        hl__todo(err, "end it with return book { ... }%s", depth == 0 ? "" : " or return step { ... }");
        return hl__at(err, entry->origin.file, entry->origin.line, 0);
    }
    if (!is_book && entry->bad)
        return leave_out(draft, &(hl_value){.kind = HL_IS_TEXT, .text = file->id});
    code = entry->bad ? HL_OK : hl__keep_error(draft->loader->box.all, check_id(file, entry, err), err);
    if (code != HL_OK)
        return code;
    if (is_book)
        return add_book(draft, file, entry, depth, err);
    code = hl__rename_entry(draft, entry, err);
    return code == HL_OK ? hl__draft_step(draft, entry, err) : code;
}

hl_code hl__draft_add(hl_draft *draft, hl_rule_file *file, hl_err *err)
{
    return add_file(draft, file, 0, err);
}
