/* open.c - opening a book (layer: host).  Lua runs between here and the return, and is closed
 * before it; the book that goes out holds no trace of it. */
#include "build.h"
#include "host.h"

#include "complaints.h"
#include "errors.h"

#include <stdlib.h>

/* What is opened, and how. */
typedef struct opening {
    const char *name;
    const hl_shelf *shelf;
    const hl_pick *picks;
    int n_picks;
} opening;

static void pick_options(const hl_draft *draft, const opening *how)
{
    for (int i = 0; i < how->n_picks; i++) {
        hl_draft_item *choice = hl__draft_find(draft, HL_P_CHOICE, how->picks[i].choice);
        if (choice != NULL && hl__draft_option(choice, how->picks[i].option) >= 0)
            choice->values[CHOICE_OPTION].text = how->picks[i].option;
    }
}

static hl_code open_into(hl_book *book, const opening *how, hl_complaints *all, hl_err *err)
{
    hl_loader loader;
    hl_old_names old_names = {0};
    hl_draft draft = {.arena = &book->arena, .loader = &loader, .old_names = &old_names};
    hl_rule_file *file;
    hl_code code = hl__loader_open(&loader, &book->arena, how->shelf, all, err);
    if (code == HL_OK)
        code = hl__files_open(&file, &loader.files, how->name, err);
    if (code == HL_OK)
        code = hl__draft_add(&draft, file, err);
    /* With parts missing, more would be wrong than is. */
    bool whole = !draft.lost && draft.n_bad_ids == 0;
    pick_options(&draft, how);
    if (code == HL_OK && whole)
        code = hl__draft_resolve(&draft, err);
    if (code == HL_OK && whole)
        code = hl__build(book, &draft, err);
    hl__draft_free(&draft);
    free(old_names.items);
    hl__loader_close(&loader);
    if (code == HL_E_RULE && all != NULL && hl__complaints_add(all, err) != HL_OK)
        return hl__no_memory(err);
    if (code == HL_OK && all != NULL && all->n > 0)
        code = HL_E_RULE;
    if (code == HL_E_RULE && all != NULL)
        *err = all->items[0];
    return code;
}

static hl_code open_book(hl_book **out, const opening *how, hl_complaints *all, hl_err *err)
{
    *out = NULL;
    *err = (hl_err){0};
    hl_book *book = calloc(1, sizeof *book);
    if (book == NULL)
        return hl__no_memory(err);
    hl_code code = open_into(book, how, all, err);
    if (code != HL_OK) {
        hl_book_free(book);
        return code;
    }
    *out = book;
    return HL_OK;
}

hl_code hl_book_open_all(hl_book **out, const char *name, const hl_shelf *shelf, hl_complaints *all,
                         hl_err *err)
{
    return open_book(out, &(opening){.name = name, .shelf = shelf}, all, err);
}

hl_code hl_book_open_picked(hl_book **out, const char *name, const hl_shelf *shelf, const hl_pick *picks,
                            int n, hl_err *err)
{
    return open_book(out, &(opening){name, shelf, picks, n}, NULL, err);
}

hl_code hl_book_open(hl_book **out, const char *name, const hl_shelf *shelf, hl_err *err)
{
    return open_book(out, &(opening){.name = name, .shelf = shelf}, NULL, err);
}

/* Nothing in it brings a step. */
static bool is_part_of_books(const hl_entry *entry)
{
    bool part = entry->word == HL_W_STEP || entry->word == HL_W_BOOK;
    for (int i = 0; i < entry->n_items; i++)
        part = part && entry->items[i]->word != HL_W_USE;
    return part;
}

hl_code hl_rule_part_check(bool *is_part, const char *path, const hl_shelf *shelf, hl_complaints *all,
                           hl_err *err)
{
    hl_arena arena = {0};
    hl_loader loader;
    hl_rule_file *file;
    hl_entry *entry = NULL;
    *err = (hl_err){0};
    *is_part = false;
    hl_code code = hl__loader_open(&loader, &arena, shelf, all, err);
    if (code == HL_OK)
        code = hl__files_open(&file, &loader.files, path, err);
    if (code == HL_OK)
        code = hl__load(&entry, &loader, file, err);
    if (code == HL_OK && entry != NULL)
        *is_part = is_part_of_books(entry);
    if (code == HL_OK && all->n > 0) {
        *err = all->items[0];
        code = HL_E_RULE;
    }
    hl__loader_close(&loader);
    hl__arena_free(&arena);
    return code;
}
