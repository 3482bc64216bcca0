/* fleet_result.c - what became of each sheet, and the books they share (layer: fleet). */
#include "fleet.h"

#include "errors.h"

#include <stdlib.h>
#include <string.h>

/* ---- results ------------------------------------------------------------------------------- */

hl_fleet_result *hl__fleet_add(hl_fleet_node *node)
{
    void *items = node->results;
    if (!hl__grow(&items, node->n, &node->room, sizeof *node->results)) {
        node->no_memory = true;
        return NULL;
    }
    node->results = items;
    hl_fleet_result *result = &node->results[node->n++];
    *result = (hl_fleet_result){0};
    return result;
}

void hl__fleet_free_result(hl_fleet_result *result)
{
    free(result->title);
    free(result->counts);
    free(result->cures);
    free(result->errors);
    hl_audit_free(result->audit);
    hl_sheet_free(result->sheet);
    free(result->text);
}

bool hl__fleet_copy_title(hl_fleet_result *result, const char *title)
{
    result->title = malloc(strlen(title) + 1);
    if (result->title)
        strcpy(result->title, title);
    return result->title != NULL;
}

bool hl__fleet_copy_errors(hl_fleet_result *result, const hl_err *errors, int n)
{
    if (n == 0)
        return true;
    result->errors = malloc((size_t)n * sizeof *errors);
    if (!result->errors)
        return false;
    memcpy(result->errors, errors, (size_t)n * sizeof *errors);
    result->n_errors = n;
    result->code = errors[0].code;
    return true;
}

void hl__fleet_refuse(hl_fleet_node *node, const char *title, const hl_err *why)
{
    hl_fleet_result *result = hl__fleet_add(node);
    if (!result)
        return;
    if (!hl__fleet_copy_title(result, title) || !hl__fleet_copy_errors(result, why, 1))
        node->no_memory = true;
}

/* ---- books --------------------------------------------------------------------------------- */

static hl_fleet_book *add_book(hl_fleet *fleet, const char *name)
{
    void *items = fleet->books;
    char *copy = malloc(strlen(name) + 1);
    if (!copy || !hl__grow(&items, fleet->n_books, &fleet->room_books, sizeof *fleet->books)) {
        free(copy);
        return NULL;
    }
    strcpy(copy, name);
    fleet->books = items;
    hl_fleet_book *added = &fleet->books[fleet->n_books++];
    *added = (hl_fleet_book){.name = copy};
    hl_book_open(&added->book, name, fleet->options->shelf, &added->err);
    return added;
}

const hl_book *hl__fleet_book(hl_fleet *fleet, const char *name, hl_err *err)
{
    const hl_fleet_book *found = NULL;
    const hl_book *book = NULL;
    pthread_mutex_lock(&fleet->book_lock);
    for (size_t i = 0; i < fleet->n_books && !found; i++)
        if (strcmp(fleet->books[i].name, name) == 0)
            found = &fleet->books[i];
    if (!found)
        found = add_book(fleet, name);
    if (found) {
        *err = found->err;
        book = found->book;
    } else {
        hl__no_memory(err);
    }
    pthread_mutex_unlock(&fleet->book_lock);
    return book;
}
