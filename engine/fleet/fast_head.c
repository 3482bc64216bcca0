/* fast_head.c - what stands above the rows of a plain sheet, and the plan for it (layer: fleet). */
#include "fast_parts.h"

#include <string.h>

#define TOP_MOST 16384 /* bytes; a plain sheet's head has a few lines */

/* The row's size without its line end; 0 at the end of the bytes, too. */
static size_t row_size(const char *at, const char *end)
{
    const char *stop = memchr(at, '\n', (size_t)(end - at));
    return stop ? (size_t)(stop - at) : 0;
}

size_t hl__fast_head_size(const char *bytes, size_t size)
{
    const char *at = bytes, *end = bytes + size;
    while (at < end) {
        size_t row = row_size(at, end);
        const bool fact = *at == '#' || *at == '\n';
        if (row == 0 && *at != '\n')
            return 0;
        at += row + 1;
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
 * the same, and no verdict hangs on it. */
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
        size_t row = hl__many_row(at, end);
        if (!is_record(at, row - (at[row - 1] == '\n')))
            hl__text_add_n(key, at, row);
        at += row;
    }
}

static const hl_book *find_book(hl_fleet *fleet, const hl_text *key)
{
    hl_sheet *sheet = NULL;
    const hl_book *book = NULL;
    hl_err err;
    if (hl_sheet_open_text(&sheet, "", key->data, key->size, &err) != HL_OK)
        return NULL;
    const char *name = fleet->options->book ? fleet->options->book : hl_sheet_book_id(sheet);
    if (name[0])
        book = hl__fleet_book(fleet, name, &err);
    hl_sheet_free(sheet);
    return book;
}

/* A fact that the book reckons with is no mere record, whatever its name. */
static bool keeps_to_records(const hl_fast_plan *plan)
{
    for (int i = 0; plan->book && i < plan->book->n_facts; i++)
        if (is_record_id(plan->book->facts[i].id))
            return false;
    return true;
}

static bool make_plan(hl_fast *fast, hl_fleet *fleet, int index)
{
    hl_fast_plan *plan = &fast->plans[index];
    hl__fast_plan_free(plan);
    bool good = hl__fast_plan(plan, find_book(fleet, &fast->key), fast->key.data, fast->key.size);
    plan->plain = good && plan->plain && keeps_to_records(plan);
    plan->key = fast->key.data;
    plan->key_size = fast->key.size;
    fast->key = (hl_text){0};
    return good;
}

hl_fast_plan *hl__fast_find_plan(hl_fast *fast, hl_fleet *fleet, const char *top, size_t size)
{
    if (size > TOP_MOST)
        return NULL;
    make_key(&fast->key, top, size);
    if (fast->key.failed || fast->key.size == 0)
        return NULL;
    for (int i = 0; i < HL_FAST_PLANS; i++) {
        const hl_fast_plan *plan = &fast->plans[i];
        if (plan->key && plan->key_size == fast->key.size &&
            memcmp(plan->key, fast->key.data, fast->key.size) == 0) {
            fast->last = i;
            return plan->plain ? &fast->plans[i] : NULL;
        }
    }
    fast->last = (fast->last + 1) % HL_FAST_PLANS;
    if (!make_plan(fast, fleet, fast->last))
        return NULL;
    return fast->plans[fast->last].plain ? &fast->plans[fast->last] : NULL;
}
