/* shared_head.c - sheets of a fleet that say the same above their rows (layer: fleet). */
#include "shared_head.h"

#include "evidence.h"
#include "findings.h"
#include "rows.h"
#include "sheet_parts.h"

#include <stdlib.h>
#include <string.h>

#define HEADS_KEPT 2     /* more than one when fleets are mixed */
#define TOP_MOST   16384 /* bytes; a usual head has a few lines */

typedef struct shared_head {
    char *key; /* the head's bytes, without what is only kept for the record */
    size_t key_size;
    hl_sheet *sheet; /* its facts and form; the rows of one sheet after another are read into it */
    hl_arena arena;
    hl_table table;
    hl_findings fails; /* of the sheet in hand */
    bool usable;       /* else each sheet with this head is opened by itself */
} shared_head;

typedef struct hl_shared {
    shared_head heads[HEADS_KEPT];
    int last;
    hl_text key;    /* of the head in hand */
    hl_arena arena; /* of the sheet in hand */
} hl_shared;

struct hl_shared *hl__shared_new(void)
{
    return calloc(1, sizeof(hl_shared));
}

static void free_head(shared_head *shared)
{
    hl_sheet_free(shared->sheet);
    hl__arena_free(&shared->arena);
    free(shared->key);
    *shared = (shared_head){0};
}

void hl__shared_free(struct hl_shared *shared)
{
    if (!shared)
        return;
    for (int i = 0; i < HEADS_KEPT; i++)
        free_head(&shared->heads[i]);
    hl__text_free(&shared->key);
    hl__arena_free(&shared->arena);
    free(shared);
}

/* ---- the bytes of a head ---------------------------------------------------------------------------- */

/* The size of a whole file's head, header row included: fact lines, then the first other row.  0 when it has
 * no end.  Whether it is the head is checked when it has been read. */
static size_t find_head_size(const char *bytes, size_t size)
{
    const char *at = bytes, *end = bytes + size;
    if (size >= 3 && memcmp(at, "\xEF\xBB\xBF", 3) == 0)
        at += 3;
    while (at < end) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        if (!stop)
            return 0;
        const bool fact = *at == '#' || *at == '\n' || *at == '\r' || (*at == '"' && at[1] == '#');
        at = stop + 1;
        if (!fact)
            return (size_t)(at - bytes);
    }
    return 0;
}

/* Is this fact kept for the record only? */
static bool is_record_id(const char *id)
{
    size_t n = 0;
    const char *const *records = hl__sheet_records(&n);
    for (size_t i = 0; i < n; i++)
        if (strcmp(records[i], id) == 0)
            return true;
    return false;
}

/* A line of plain text, "# piano: hall 7", whose fact is kept for the record only: no two sheets have
 * the same, and no verdict depends on it. */
static bool is_record(const char *row, size_t size)
{
    char id[HL_ID_MOST];
    const char *colon = memchr(row, ':', size);
    if (row[0] != '#' || size < 2 || row[1] == '#' || !colon || (size_t)(colon - row) >= sizeof id)
        return false;
    for (size_t i = 0; i < size; i++)
        if (row[i] < ' ' || row[i] > '~' || row[i] == '"')
            return false;
    return hl__sheet_id(id, row + 1, (size_t)(colon - row - 1)) && is_record_id(id);
}

static void make_key(hl_text *key, const char *top, size_t size)
{
    const char *at = top, *end = top + size;
    key->size = 0;
    while (at < end) {
        const size_t row = hl__many_row(at, end);
        size_t text = row;
        while (text > 0 && (at[text - 1] == '\n' || at[text - 1] == '\r'))
            text--;
        if (!is_record(at, text))
            hl__text_add_n(key, at, row);
        at += row;
    }
}

/* ---- heads ------------------------------------------------------------------------------------------ */

/* A fact that the book computes with is no mere record, whatever its name. */
static bool keeps_to_records(const hl_book *book)
{
    for (int i = 0; i < book->n_facts; i++)
        if (is_record_id(book->facts[i].id))
            return false;
    return true;
}

/* False only for want of memory. */
static bool open_head(shared_head *shared, hl_fleet *fleet)
{
    hl_err err = {0};
    bool none = true;
    if (hl_sheet_open_text(&shared->sheet, "", shared->key, shared->key_size, &err) != HL_OK)
        return err.code != HL_E_MEMORY;
    hl_sheet *sheet = shared->sheet;
    const char *name = fleet->options->book ? fleet->options->book : hl_sheet_book_id(sheet);
    const hl_book *book = name[0] ? hl__fleet_book(fleet, name, &err) : NULL;
    if (!book || !keeps_to_records(book))
        return err.code != HL_E_MEMORY;
    if (hl__sheet_read_head(sheet, book, &none, &err) != HL_OK)
        return err.code != HL_E_MEMORY;
    if (none || sheet->n_errors > 0 || sheet->rows_at != sheet->size)
        return true;
    const hl_head *head = hl__judge_head(&shared->arena, sheet, NULL);
    if (!head || !hl__table_make(&shared->table, head, &shared->arena))
        return false;
    shared->table.brief = true;
    sheet->borrowed = true;
    shared->usable = true;
    return true;
}

static shared_head *find_head(hl_shared *shared, hl_fleet *fleet, const char *top, size_t size)
{
    if (size == 0 || size > TOP_MOST)
        return NULL;
    make_key(&shared->key, top, size);
    if (shared->key.failed || shared->key.size == 0)
        return NULL;
    for (int i = 0; i < HEADS_KEPT; i++) {
        shared_head *head = &shared->heads[i];
        if (head->key && head->key_size == shared->key.size &&
            memcmp(head->key, shared->key.data, shared->key.size) == 0) {
            shared->last = i;
            return head->usable ? head : NULL;
        }
    }
    shared->last = (shared->last + 1) % HEADS_KEPT;
    shared_head *head = &shared->heads[shared->last];
    free_head(head);
    head->key = shared->key.data;
    head->key_size = shared->key.size;
    shared->key = (hl_text){0};
    return open_head(head, fleet) && head->usable ? head : NULL;
}

/* ---- one sheet -------------------------------------------------------------------------------------- */

static bool read_rows(shared_head *shared, const hl_fleet_sheet_text *text, size_t head, size_t *used)
{
    const hl_part_text *part = &text->part;
    hl_sheet *sheet = shared->sheet;
    hl_err err;
    if ((sheet->form->at[HL_HEAD_SHEET] >= 0) != (part->part != NULL))
        return false;
    if (sheet->form->at[HL_HEAD_ENTRY] >= 0)
        return false; /* its rows are held against their marks, all together */
    hl__sheet_again(sheet, text->path, part->part);
    const hl_code code =
        hl__sheet_rows(sheet, part->rows + head, part->rows + part->rows_size, part->part, 1, used, &err);
    *used += head;
    return code == HL_OK && sheet->n_errors == 0 && !sheet->needs_own;
}

static char *make_title(const hl_fleet_sheet_text *text)
{
    const char *part = text->part.part;
    const size_t first = strlen(text->path), second = part ? strlen(part) + 2 : 0;
    char *title = malloc(first + second + 1);
    if (!title)
        return NULL;
    memcpy(title, text->path, first + 1);
    if (part) {
        memcpy(title + first, ": ", 2);
        memcpy(title + first + 2, part, second - 1);
    }
    return title;
}

static bool fill_result(const hl_table *table, const hl_findings *fails, hl_fleet_result *result)
{
    const size_t steps = (size_t)table->book->n_steps;
    result->book = table->book;
    result->judged = true;
    result->counts = malloc((steps + 1) * sizeof *result->counts);
    result->cures = calloc((size_t)table->book->n_adjusters + 1, sizeof *result->cures);
    if (!result->counts || !result->cures)
        return false;
    memcpy(result->counts, table->counts, steps * sizeof *result->counts);
    hl__judge_total(table, hl__judge_queries(table->sheet, NULL, NULL), result->total);
    for (size_t i = 0; i < fails->n; i++)
        if (fails->items[i].n_corrections > 0)
            result->cures[fails->items[i].corrections[0].adjuster]++;
    result->ready = hl__judge_ready(result->total, 0);
    return true;
}

bool hl__shared_judge(hl_fleet_worker *worker, hl_fleet_node *node, const hl_fleet_sheet_text *text,
                      size_t *used)
{
    hl_shared *shared = worker->shared;
    const hl_part_text *part = &text->part;
    hl_found found;
    /* a whole file begins with its head; of a file of many it is kept apart */
    const size_t head = part->part ? 0 : find_head_size(part->rows, part->rows_size);
    shared_head *of = find_head(shared, worker->fleet, part->part ? part->top : part->rows,
                                part->part ? part->top_size : head);
    if (!of || !read_rows(of, text, head, used))
        return false;
    if (hl__evidence_asks(of->table.head, of->sheet) && !hl__sheet_expand(of->sheet))
        return false;
    hl__arena_reset(&shared->arena);
    of->table.arena = &shared->arena;
    if (!hl__judge(&of->table, of->sheet, &found) ||
        !hl__findings_list(&of->fails, &of->arena, &of->table, true) ||
        !hl__findings_advise(&of->fails, &of->table, false))
        return false;
    hl_fleet_result *result = hl__fleet_add(node);
    if (!result)
        return true;
    result->name = part->part ? hl__fleet_hash(part->part) : 0;
    result->title = make_title(text);
    if (!result->title || !fill_result(&of->table, &of->fails, result))
        node->no_memory = true;
    return true;
}
