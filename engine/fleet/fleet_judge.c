/* fleet_judge.c - one sheet of a fleet: opened, read, judged, counted (layer: fleet). */
#include "fleet.h"

#include "errors.h"
#include "fast_audit.h"

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

static bool copy_title(hl_fleet_result *result, const char *title)
{
    result->title = malloc(strlen(title) + 1);
    if (result->title)
        strcpy(result->title, title);
    return result->title != NULL;
}

static bool copy_errors(hl_fleet_result *result, const hl_err *errors, int n)
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
    if (!copy_title(result, title) || !copy_errors(result, why, 1))
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

static const hl_book *find_book(hl_fleet *fleet, const hl_sheet *sheet, hl_err *err)
{
    const char *name = fleet->options->book ? fleet->options->book : hl_sheet_book_id(sheet);
    if (!name[0]) {
        hl__fail(err, HL_E_SHEET, "no book is named");
        hl__todo(err, "write a line \"# book: grand\" above the column heads, or say --book grand");
        hl__at(err, sheet->name, 0, 0);
        return NULL;
    }
    const hl_book *book = hl__fleet_book(fleet, name, err);
    if (!book && err->code == HL_E_USAGE && !fleet->options->book) {
        err->code = HL_E_SHEET; /* no such book: it is the sheet that asks for it */
        if (!err->file[0])
            hl__at(err, sheet->name, 0, 0);
    }
    return book;
}

/* ---- one sheet ----------------------------------------------------------------------------- */

static bool count_audit(hl_fleet_result *result, const hl_audit *audit)
{
    const size_t steps = (size_t)audit->book->n_steps, adjusters = (size_t)audit->book->n_adjusters;
    result->judged = true;
    result->ready = audit->ready;
    result->counts = calloc(steps + 1, sizeof *result->counts);
    result->cures = calloc(adjusters + 1, sizeof *result->cures);
    if (!result->counts || !result->cures)
        return false;
    memcpy(result->total, audit->total.count, sizeof result->total);
    for (size_t i = 0; i < steps; i++)
        memcpy(result->counts[i], audit->tallies[i].count, sizeof result->counts[i]);
    for (size_t i = 0; i < audit->n_findings; i++)
        if (audit->findings[i].n_corrections > 0)
            result->cures[audit->findings[i].corrections[0].adjuster]++;
    return true;
}

static hl_code judge_read(const hl_fleet *fleet, hl_fleet_result *result, hl_sheet *sheet, hl_err *err)
{
    const hl_fleet_options *options = fleet->options;
    hl_code code = hl_audit_run(&result->audit, sheet, result->book, options->judging, err);
    if (code != HL_OK)
        return code;
    if (!count_audit(result, result->audit))
        return hl__no_memory(err);
    if (options->print)
        code = options->print(&result->text, &result->size, result->audit, err);
    return code;
}

static hl_code read_and_judge(hl_fleet *fleet, hl_fleet_result *result, hl_sheet *sheet, hl_err *err)
{
    int n = 0;
    result->book = find_book(fleet, sheet, err);
    if (!result->book)
        return err->code;
    hl_code code = hl_sheet_read(sheet, result->book, err);
    const hl_err *errors = hl_sheet_errors(sheet, &n);
    if (code != HL_OK && (code != HL_E_SHEET || n == 0))
        return code;
    if (!copy_errors(result, errors, n))
        return hl__no_memory(err);
    result->unlisted = sheet->unlisted;
    return judge_read(fleet, result, sheet, err);
}

void hl__fleet_judge_sheet(hl_fleet_worker *worker, hl_fleet_node *node, hl_sheet *sheet)
{
    hl_fleet_result *result = hl__fleet_add(node);
    hl_err err = {0};
    if (!result || !copy_title(result, sheet->title)) {
        node->no_memory = true;
        hl_sheet_free(sheet);
        return;
    }
    hl_code code = read_and_judge(worker->fleet, result, sheet, &err);
    if (code != HL_OK) {
        result->judged = false;
        free(result->errors);
        result->errors = NULL;
        result->n_errors = 0;
        node->no_memory |= code == HL_E_MEMORY || !copy_errors(result, &err, 1);
    }
    if (worker->fleet->options->keep && result->audit) {
        result->sheet = sheet;
        return;
    }
    hl_audit_free(result->audit);
    result->audit = NULL;
    hl_sheet_free(sheet);
}

void hl__fleet_judge_path(hl_fleet_worker *worker, hl_fleet_node *node, const char *path)
{
    hl_sheet *sheet = NULL;
    hl_err err;
    if (hl_sheet_open(&sheet, path, &err) == HL_OK)
        hl__fleet_judge_sheet(worker, node, sheet);
    else if (err.code == HL_E_MEMORY)
        node->no_memory = true;
    else
        hl__fleet_refuse(node, path, &err);
}

bool hl__fleet_judge_fast(hl_fleet_worker *worker, hl_fleet_node *node, const hl_fleet_sheet_text *text,
                          size_t *used)
{
    const size_t first = node->n;
    if (!worker->fast || !hl__fast_judge(worker, node, text, used))
        return false;
    if (node->n > first)
        node->results[first].name = hl__fleet_hash(text->part.part);
    return true;
}

void hl__fleet_judge(hl_fleet_worker *worker, hl_fleet_node *node, const hl_fleet_sheet_text *text)
{
    hl_sheet *sheet = NULL;
    hl_err err;
    const size_t first = node->n;
    hl_part_text part = text->part;
    part.line += hl__fleet_lines(text->piece, (size_t)(part.rows - text->piece));
    if (hl__sheet_open_part(&sheet, text->path, &part, &err) == HL_OK)
        hl__fleet_judge_sheet(worker, node, sheet);
    else
        hl__fleet_refuse(node, text->path, &err);
    if (node->n > first)
        node->results[first].name = hl__fleet_hash(text->part.part);
}
