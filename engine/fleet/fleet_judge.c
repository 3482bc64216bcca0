/* fleet_judge.c - one sheet of a fleet: opened, read, judged, counted (layer: fleet). */
#include "fleet.h"

#include "errors.h"
#include "shared_head.h"

#include <stdlib.h>
#include <string.h>

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
    for (size_t i = 0; i < audit->findings.n; i++)
        if (audit->findings.items[i].n_corrections > 0)
            result->cures[audit->findings.items[i].corrections[0].adjuster]++;
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
    if (!hl__fleet_copy_errors(result, errors, n))
        return hl__no_memory(err);
    result->unlisted = sheet->unlisted;
    return judge_read(fleet, result, sheet, err);
}

void hl__fleet_judge_sheet(hl_fleet_worker *worker, hl_fleet_node *node, hl_sheet *sheet)
{
    hl_fleet_result *result = hl__fleet_add(node);
    hl_err err = {0};
    if (!result || !hl__fleet_copy_title(result, sheet->title)) {
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
        node->no_memory |= code == HL_E_MEMORY || !hl__fleet_copy_errors(result, &err, 1);
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

void hl__fleet_judge(hl_fleet_worker *worker, hl_fleet_node *node, const hl_fleet_sheet_text *text)
{
    hl_sheet *sheet = NULL;
    hl_err err;
    const size_t first = node->n;
    hl_part_text part = text->part;
    part.line += hl__many_lines(text->piece, (size_t)(part.rows - text->piece));
    if (hl__sheet_open_part(&sheet, text->path, &part, &err) == HL_OK)
        hl__fleet_judge_sheet(worker, node, sheet);
    else
        hl__fleet_refuse(node, text->path, &err);
    if (node->n > first)
        node->results[first].name = hl__fleet_hash(text->part.part);
}
