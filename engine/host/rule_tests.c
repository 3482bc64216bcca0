/* rule_tests.c - reading a `tests "book" { ... }` file (layer: host).  The cases are the arena's
 * of the hl_rule_tests, which also owns the book. */
#include "host.h"

#include "complaints.h"
#include "errors.h"
#include "file.h"
#include "load.h"
#include "nearest_name.h"
#include "quantity.h"
#include "text.h"

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#ifndef PATH_MAX
#define PATH_MAX 4096
#endif

typedef struct reader {
    hl_rule_tests *tests;
    hl_complaints *all; /* NULL: the first error ends it */
    hl_err *err;
} reader;

static hl_code fail_case(reader *r, const hl_entry *entry, const char *todo, const char *what,
                         const char *name)
{
    hl__fail(r->err, HL_E_RULE, "%s '%s'", what, name);
    hl__todo(r->err, "%s", todo);
    return hl__at(r->err, entry->origin.file, entry->origin.line, 0);
}

static hl_code find_name(reader *r, const hl_entry *entry, const char *id, bool step, int *out)
{
    const hl_book *book = r->tests->book;
    *out = step ? hl_book_find_step(book, id) : hl_book_find_adjuster(book, id);
    if (*out >= 0)
        return HL_OK;
    hl_suggest suggest = {id, NULL, 0};
    for (int i = 0; i < (step ? book->n_steps : book->n_adjusters); i++)
        hl__suggest_offer(&suggest, step ? book->steps[i].id : book->adjusters[i].id);
    hl__fail(r->err, HL_E_RULE, "the book '%s' has no %s '%s'", book->id, step ? "step" : "adjuster", id);
    hl__did_you_mean(r->err, suggest.best, "name one that the book has");
    return hl__at(r->err, entry->origin.file, entry->origin.line, 0);
}

/* ---- values as typed into a sheet -------------------------------------------------------------- */

static void add_value(hl_text *text, const hl_value *value)
{
    if (value->kind == HL_IS_NUMBER)
        hl__text_double(text, value->number);
    else
        hl__text_add(text, value->text);
}

static const char *keep(reader *r, hl_text *text)
{
    const char *copy =
        text->failed ? NULL : hl__arena_copy(&r->tests->arena, text->data != NULL ? text->data : "");
    hl__text_free(text);
    return copy;
}

/* { blow = 46, let_off = 2 } as "blow=46 let_off=2": readings of steps, or facts. */
static hl_code read_others(reader *r, const hl_entry *entry, const hl_value *table, bool facts,
                           const char **out)
{
    hl_text text = {0};
    for (int i = 0; i < table->n_items; i++) {
        const char *id = table->items[i].key;
        int step;
        hl_code code = HL_OK;
        if (!facts)
            code = find_name(r, entry, id, true, &step);
        else if (hl__book_find_fact(r->tests->book, id) < 0)
            code = fail_case(r, entry, "name one that the book has", "the book has no fact", id);
        if (code != HL_OK) {
            hl__text_free(&text);
            return code;
        }
        hl__text_add(&text, i > 0 ? " " : "");
        hl__text_add(&text, id);
        hl__text_char(&text, '=');
        add_value(&text, &table->items[i]);
    }
    *out = keep(r, &text);
    return *out != NULL ? HL_OK : hl__no_memory(r->err);
}

static hl_code read_reading(reader *r, const hl_entry *entry, hl_rule_test *test)
{
    const hl_value *reads = &entry->values[CASE_READS];
    if (reads->kind == HL_IS_NOTHING)
        return HL_OK;
    hl_text text = {0};
    if (reads->kind == HL_IS_NUMBER)
        hl__text_double(&text, reads->number);
    else
        hl__text_add(&text, reads->text);
    test->reads = keep(r, &text);
    return test->reads != NULL ? HL_OK : hl__no_memory(r->err);
}

/* ---- what is expected ---------------------------------------------------------------------------- */

static hl_code read_want(reader *r, const hl_entry *entry, hl_rule_test *test)
{
    static const char *const wants[] = {"pass",    "fail",           "doubtful", "stale",
                                        "missing", "not applicable", "accepted"};
    test->want = entry->values[CASE_WANT].text;
    bool good = false;
    for (size_t i = 0; i < sizeof wants / sizeof *wants; i++)
        good = good || strcmp(wants[i], test->want) == 0;
    if (!good)
        return fail_case(r, entry, "want is pass, fail, doubtful, stale, missing or not applicable",
                         "no verdict is called", test->want);
    const hl_value *why = &entry->values[CASE_WHY];
    test->why = why->kind == HL_IS_TEXT ? why->text : "";
    if (why->kind == HL_IS_NOTHING)
        return HL_OK;
    static const char *const whys[] = {"low", "high", "uneven"};
    const hl_step *step = &r->tests->book->steps[test->step];
    for (size_t i = 0; i < sizeof whys / sizeof *whys; i++) {
        if (strcmp(whys[i], test->why) == 0)
            return HL_OK;
    }
    for (int i = 0; i < step->n_words; i++) {
        if (strcmp(step->words[i].word, test->why) == 0)
            return HL_OK;
    }
    return fail_case(r, entry, "why is low, high, uneven, or a fault word of the step", "no reason is called",
                     test->why);
}

static hl_code read_fix(reader *r, const hl_entry *entry, hl_rule_test *test)
{
    const hl_value *fix = &entry->values[CASE_FIX];
    test->adjuster = -1;
    test->way = "";
    test->amount = -1;
    if (fix->kind == HL_IS_NOTHING)
        return HL_OK;
    hl_code code = find_name(r, entry, fix->items[0].text, false, &test->adjuster);
    if (code != HL_OK)
        return code;
    const hl_adjuster *adjuster = &r->tests->book->adjusters[test->adjuster];
    test->way = fix->items[1].text;
    if (strcmp(test->way, adjuster->more) != 0 && strcmp(test->way, adjuster->less) != 0) {
        hl__fail(r->err, HL_E_RULE, "'%s' is no way of '%s'", test->way, adjuster->id);
        hl__todo(r->err, "its ways are '%s' and '%s'", adjuster->more, adjuster->less);
        return hl__at(r->err, entry->origin.file, entry->origin.line, 0);
    }
    if (fix->n_list < 3)
        return HL_OK;
    const hl_value *amount = &fix->items[2];
    if (adjuster->unit == HL_NO_UNIT)
        return fail_case(r, entry, "leave the amount out",
                         "it goes by judgement and has no amount:", adjuster->id);
    bool good = amount->kind == HL_IS_NUMBER;
    if (amount->kind == HL_IS_TEXT) {
        code = hl__quantity_read(&test->amount, amount->text, adjuster->unit, HL_E_RULE, NULL, r->err);
        return code == HL_OK ? HL_OK : hl__at(r->err, entry->origin.file, entry->origin.line, 0);
    }
    double base = amount->number * ((double)hl__unit_scale(adjuster->unit) / (double)HL_ONE);
    if (!good || !hl__amount_from(base, &test->amount) || test->amount < 0)
        return fail_case(r, entry, "write a positive amount in its unit", "this is no amount of",
                         adjuster->id);
    return HL_OK;
}

static hl_code read_case(reader *r, const hl_entry *entry, hl_rule_test *test)
{
    const hl_book *book = r->tests->book;
    test->origin = entry->origin;
    test->source = entry->values[CASE_SOURCE].kind == HL_IS_TEXT ? entry->values[CASE_SOURCE].text : "";
    hl_code code = find_name(r, entry, entry->values[CASE_STEP].text, true, &test->step);
    if (code != HL_OK)
        return code;
    const char *note = entry->values[CASE_NOTE].text;
    bool once = note[0] == '\0' || strcmp(note, "once") == 0;
    test->note = once ? 0 : hl_note_parse(book->compass, note);
    if (!once && test->note == 0)
        return fail_case(r, entry, "write a note such as \"A4\", or \"\" for the instrument",
                         "the book has no note", note);
    if (once != (book->steps[test->step].scope == HL_ONCE))
        return fail_case(r, entry, once ? "name a note" : "write \"\" for the note",
                         once ? "this step is read at notes:" : "this step is read once for the instrument:",
                         book->steps[test->step].id);
    code = read_reading(r, entry, test);
    if (code == HL_OK)
        code = read_others(r, entry, &entry->values[CASE_WITH], false, &test->with);
    if (code == HL_OK)
        code = read_others(r, entry, &entry->values[CASE_FACTS], true, &test->facts);
    if (code == HL_OK)
        code = read_want(r, entry, test);
    return code == HL_OK ? read_fix(r, entry, test) : code;
}

/* ---- opening ------------------------------------------------------------------------------------- */

/* The book under test: beside the test file first, as `use` would find it, then by id. */
static hl_code open_book(hl_rule_tests *tests, const char *path, const hl_entry *entry, const hl_shelf *shelf,
                         hl_err *err)
{
    const char *name = entry->values[0].text;
    char beside[PATH_MAX];
    const char *slash = strrchr(path, '/');
    int folder = slash != NULL ? (int)(slash - path) + 1 : 0;
    int n = snprintf(beside, sizeof beside, "%.*s%s.lua", folder, path, name);
    bool near = n > 0 && (size_t)n < sizeof beside && strchr(name, '/') == NULL && hl__file_exists(beside);
    hl_code code = hl_book_open(&tests->book, near ? beside : name, shelf, err);
    if (code == HL_E_USAGE) {
        err->code = HL_E_RULE; /* it is the test file that asked */
        hl__at(err, entry->origin.file, entry->origin.line, 0);
        code = HL_E_RULE;
    }
    return code;
}

static hl_code read_cases(hl_rule_tests *tests, const hl_entry *entry, hl_complaints *all, hl_err *err)
{
    tests->cases = hl__arena_array(&tests->arena, (size_t)entry->n_items + 1, sizeof *tests->cases);
    if (tests->cases == NULL)
        return hl__no_memory(err);
    reader r = {tests, all, err};
    hl_code code = HL_OK;
    for (int i = 0; code == HL_OK && i < entry->n_items; i++) {
        if (!entry->items[i]->bad)
            code = hl__keep_error(all, read_case(&r, entry->items[i], &tests->cases[i]), err);
        tests->n++;
    }
    return code;
}

static hl_code load_entry(hl_entry **out, hl_rule_tests *tests, const char *path, const hl_shelf *shelf,
                          hl_complaints *all, hl_err *err)
{
    hl_loader loader;
    hl_rule_file *file;
    *out = NULL;
    hl_code code = hl__loader_open(&loader, &tests->arena, shelf, all, err);
    if (code == HL_OK && strchr(path, '/') == NULL) {
        /* hl__files_open would take a bare name for an id. */
        char here[PATH_MAX];
        int n = snprintf(here, sizeof here, "./%s", path);
        code = n > 0 && (size_t)n < sizeof here ? hl__files_open(&file, &loader.files, here, err)
                                                : hl__fail(err, HL_E_USAGE, "the path is too long");
    } else if (code == HL_OK) {
        code = hl__files_open(&file, &loader.files, path, err);
    }
    if (code == HL_OK)
        code = hl__load(out, &loader, file, err);
    hl__loader_close(&loader);
    if (code != HL_OK || *out == NULL || (*out)->word == HL_W_TESTS)
        return code;
    hl__fail(err, HL_E_RULE, "the file returns a %s, not tests", hl__word_name((*out)->word));
    hl__todo(err, "end it with return tests \"book\" { ... }");
    return hl__at(err, (*out)->origin.file, (*out)->origin.line, 0);
}

hl_code hl_rule_tests_open_all(hl_rule_tests **out, const char *path, const hl_shelf *shelf,
                               hl_complaints *all, hl_err *err)
{
    *out = NULL;
    *err = (hl_err){0};
    hl_rule_tests *tests = calloc(1, sizeof *tests);
    if (tests == NULL)
        return hl__no_memory(err);
    hl_entry *entry;
    hl_code code = load_entry(&entry, tests, path, shelf, all, err);
    if (code == HL_OK && entry != NULL)
        code = open_book(tests, path, entry, shelf, err);
    if (code == HL_OK && entry != NULL)
        code = read_cases(tests, entry, all, err);
    if (code == HL_E_RULE && all != NULL && hl__complaints_add(all, err) != HL_OK)
        code = hl__no_memory(err);
    if (code == HL_OK && all != NULL && all->n > 0)
        code = HL_E_RULE;
    if (code == HL_E_RULE && all != NULL)
        *err = all->items[0];
    if (code != HL_OK) {
        hl_rule_tests_free(tests);
        return code;
    }
    *out = tests;
    return HL_OK;
}

hl_code hl_rule_tests_open(hl_rule_tests **out, const char *path, const hl_shelf *shelf, hl_err *err)
{
    return hl_rule_tests_open_all(out, path, shelf, NULL, err);
}

void hl_rule_tests_free(hl_rule_tests *tests)
{
    if (tests == NULL)
        return;
    hl_book_free(tests->book);
    hl__arena_free(&tests->arena);
    free(tests);
}
