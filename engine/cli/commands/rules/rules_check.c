/* rules_check.c - "hammerline rules check": a book, and the rule tests beside it (layer: cli/commands). */
#include "folder.h"
#include "output.h"
#include "rules.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define TESTS_ENDING "_test.lua"

/* The book at work, and where its tests look for it. */
typedef struct bench {
    const hl_book *book;
    hl_shelf shelf;                      /* the request's, behind the folder of a book given by path */
    const char *folders[SHELF_MOST + 1]; /* what `shelf` points to */
    char *own;                           /* that folder */
    hl_complaints complaints;
    path_list tests;
    size_t n_named;   /* the first ones were named by the person */
    const char *name; /* of the book, as the person gave it */
    const hl_shelf *rules;
    int n_passed; /* cases */
} bench;

static int say_complaint(const hl_err *complaint)
{
    char *text = NULL;
    size_t size = 0;
    if (hl_err_text(&text, &size, complaint) != HL_OK) {
        complain("the machine has no memory left; close other programs and run it again");
        return EXIT_NOT_SAVED;
    }
    say_text(text, size);
    hl_free(text);
    return EXIT_BAD_RULE;
}

/* The folder of a book that was named by its path; else its tests would find another of that name. */
static bool set_shelf(bench *at, const char *name, const bookshelf *from)
{
    const char *slash = strrchr(name, '/');
    const size_t n = strlen(name);
    int count = 0;
    if (slash || (n > 4 && strcmp(name + n - 4, ".lua") == 0)) {
        const size_t size = slash ? (size_t)(slash - name) + (slash == name) : 1;
        at->own = malloc(size + 1);
        if (!at->own)
            return false;
        memcpy(at->own, slash ? name : ".", size);
        at->own[size] = '\0';
        at->folders[count++] = at->own;
    }
    for (int i = 0; i < from->shelf.n_folders; i++)
        at->folders[count++] = from->folders[i];
    at->shelf = from->shelf;
    at->shelf.folders = at->folders;
    at->shelf.n_folders = count;
    return true;
}

/* Named ones first, then those beside the books of each folder and in its FOLDER/tests; of a shop's folder
 * also the one above. */
static bool find_tests(bench *at, const request *asked)
{
    for (int i = 1; i < asked->n_words; i++)
        if (!add_path(&at->tests, asked->words[i]))
            return false;
    at->n_named = at->tests.n;
    for (int i = 0; i < at->shelf.n_folders; i++) {
        if (!list_folder(&at->tests, at->folders[i], "", TESTS_ENDING) ||
            !list_folder(&at->tests, at->folders[i], "tests", TESTS_ENDING))
            return false;
        if (i == 0 && at->own && strcmp(base_name(at->own), "shops") == 0 &&
            !list_folder(&at->tests, at->own, "../tests", TESTS_ENDING))
            return false;
    }
    return true;
}

static bool was_run(const bench *at, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (is_same_file(at->tests.paths[k], at->tests.paths[i]))
            return true;
    return false;
}

static hl_err make_complaint(const char *path, const char *tested, const char *book)
{
    hl_err err = {.code = HL_E_RULE};
    snprintf(err.file, sizeof err.file, "%s", path);
    snprintf(err.what, sizeof err.what, "it tests the book %s, not %s", tested, book);
    snprintf(err.todo, sizeof err.todo, "name a test file of this book");
    return err;
}

static int say_complaints(bench *at)
{
    int worst = EXIT_READY;
    for (size_t i = 0; i < at->complaints.n; i++) {
        const int code = say_complaint(&at->complaints.items[i]);
        worst = code > worst ? code : worst;
    }
    hl_complaints_free(&at->complaints);
    return worst;
}

/* Runs a test file of this book; one of another book is passed over, unless it was named. */
static int run_tests(bench *at, const char *path, bool named)
{
    hl_rule_tests *tests = NULL;
    hl_err err;
    hl_rule_look look;
    const char *book = hl_book_id(at->book);
    if (named && access(path, R_OK) != 0) {
        complain("%s: there is no such test file that can be read; name one that is there", path);
        return EXIT_WRONG_USE;
    }
    if (!named && hl_rule_file_look(&look, path) && *look.tested && strcmp(look.tested, book) != 0)
        return EXIT_READY;
    if (hl_rule_tests_open_all(&tests, path, &at->shelf, &at->complaints, &err) != HL_OK)
        return err.code == HL_E_RULE ? say_complaints(at) : report(&err);
    int code = EXIT_READY;
    const char *tested = hl_book_id(hl_rule_tests_book(tests));
    if (strcmp(tested, book) != 0) {
        const hl_err other = make_complaint(path, tested, book);
        code = named ? say_complaint(&other) : EXIT_READY;
    } else if (hl_rule_tests_run(&at->complaints, tests, &err) != HL_OK) {
        code = report(&err);
    } else {
        at->n_passed += hl_rule_tests_count(tests) - (int)at->complaints.n;
    }
    hl_rule_tests_free(tests);
    return code;
}

/* Below the result, which they leave as it is. */
static int say_warnings(bench *at)
{
    hl_err err;
    if (hl_book_warn(&at->complaints, at->book, &err) != HL_OK)
        return report(&err);
    int code = EXIT_READY;
    for (size_t i = 0; i < at->complaints.n; i++) {
        hl_err warning = at->complaints.items[i];
        snprintf(warning.what, sizeof warning.what, "warning: %.300s", at->complaints.items[i].what);
        code = say_complaint(&warning) == EXIT_NOT_SAVED ? EXIT_NOT_SAVED : code;
    }
    hl_complaints_free(&at->complaints);
    say_notices(NULL, at->book);
    return code;
}

/* ---- every school ------------------------------------------------------------------------------ */

/* The complaints of the book as it is, and those of its schools so far, so that each is said once. */
static bool is_known(const hl_complaints *known, const hl_err *one)
{
    for (size_t i = 0; i < known->n; i++)
        if (known->items[i].line == one->line && strcmp(known->items[i].file, one->file) == 0 &&
            strcmp(known->items[i].what, one->what) == 0)
            return true;
    return false;
}

static bool keep(hl_complaints *known, const hl_err *one)
{
    hl_err *items = realloc(known->items, (known->n + 1) * sizeof *items);
    if (!items)
        return false;
    items[known->n++] = *one;
    known->items = items;
    known->room = known->n;
    return true;
}

static int check_picked(bench *at, const hl_pick *picks, int n, hl_complaints *known)
{
    hl_book *book = NULL;
    hl_err err;
    hl_complaints found = {0};
    int worst = EXIT_READY;
    hl_code code = hl_book_open_picked(&book, at->name, at->rules, picks, n, &err);
    if (code == HL_E_RULE && !keep(&found, &err))
        code = HL_E_MEMORY;
    if (code == HL_OK)
        code = hl_book_check(&found, book, &err);
    for (size_t i = 0; i < found.n; i++) {
        if (is_known(known, &found.items[i]))
            continue;
        hl_err one = found.items[i];
        if (!keep(known, &one)) {
            code = HL_E_MEMORY;
            break;
        }
        if (n == 1)
            snprintf(one.what, sizeof one.what, "warning: with %s %s: %.200s", picks[0].choice,
                     picks[0].option, found.items[i].what);
        else
            snprintf(one.what, sizeof one.what, "warning: with %s %s and %s %s: %.150s", picks[0].choice,
                     picks[0].option, picks[1].choice, picks[1].option, found.items[i].what);
        if (say_complaint(&one) == EXIT_NOT_SAVED)
            worst = EXIT_NOT_SAVED;
    }
    hl_complaints_free(&found);
    hl_book_free(book);
    if (code != HL_OK && code != HL_E_RULE) {
        err.code = code;
        return code == HL_E_MEMORY ? EXIT_NOT_SAVED : report(&err);
    }
    return worst;
}

/* Every option of every choice, and every pair of options: what can't be worked by only when two schools meet
 * shows too.  A warning: this book has chosen otherwise, but one that builds on it may not. */
static int check_schools(bench *at, hl_complaints *known)
{
    const int n = hl_book_n_choices(at->book);
    int worst = EXIT_READY;
    for (int i = 0; i < n; i++) {
        const hl_chosen *a = hl_book_choice(at->book, i);
        for (int x = 0; x < a->n_options; x++) {
            const hl_pick one = {a->id, a->options[x].name};
            int code = x == a->option ? EXIT_READY : check_picked(at, &one, 1, known);
            worst = code > worst ? code : worst;
            for (int k = i + 1; k < n && x != a->option; k++) {
                const hl_chosen *b = hl_book_choice(at->book, k);
                for (int y = 0; y < b->n_options; y++) {
                    const hl_pick two[] = {one, {b->id, b->options[y].name}};
                    code = y == b->option ? EXIT_READY : check_picked(at, two, 2, known);
                    worst = code > worst ? code : worst;
                }
            }
        }
    }
    return worst;
}

static const char *plural(int n)
{
    return n == 1 ? "" : "s";
}

/* What was proved. */
static void say_sound(const bench *at)
{
    int steps = 0;
    const int choices = hl_book_n_choices(at->book), keys = hl_book_compass(at->book).keys;
    for (int i = 0; i < hl_book_n_steps(at->book); i++)
        steps += hl_book_step(at->book, i)->skipped == NULL;
    say("%s: %d step%s, %d choice%s, %d notes: sound; ", hl_book_id(at->book), steps, plural(steps), choices,
        plural(choices), keys);
    if (at->n_passed > 0)
        say("%d test%s passed\n", at->n_passed, plural(at->n_passed));
    else
        say("no tests\n");
}

/* ---- tests that nobody would run ---------------------------------------------------------------- */

static bool is_there(const char *folder, size_t size, const char *middle, const char *id)
{
    char path[4096];
    const int n = snprintf(path, sizeof path, "%.*s%s%s.lua", (int)size, folder, middle, id);
    return n > 0 && (size_t)n < sizeof path && access(path, F_OK) == 0;
}

static bool has_book(const bench *at, const char *test, const char *id)
{
    bool found = is_there(test, (size_t)(base_name(test) - test), "", id);
    for (int i = 0; !found && i < at->shelf.n_folders; i++) {
        const char *folder = at->folders[i];
        found = is_there(folder, strlen(folder), "/", id) || is_there(folder, strlen(folder), "/shops/", id);
    }
    return found;
}

static int warn_of_test(const bench *at, const char *path, bool looked_for)
{
    hl_rule_look look;
    hl_err err = {.code = HL_E_RULE};
    const char *name = base_name(path);
    const size_t size = strlen(name), end = strlen(TESTS_ENDING);
    if (!hl_rule_file_look(&look, path) || !*look.tested)
        return EXIT_READY;
    snprintf(err.file, sizeof err.file, "%s", path);
    if (size < end || strcmp(name + size - end, TESTS_ENDING) != 0) {
        snprintf(err.what, sizeof err.what, "warning: its tests of the book %s are never run", look.tested);
        snprintf(err.todo, sizeof err.todo, "rename it: a test file ends in %s", TESTS_ENDING);
    } else if (!looked_for) {
        snprintf(err.what, sizeof err.what, "warning: its tests of the book %s are never run", look.tested);
        snprintf(err.todo, sizeof err.todo, "put it beside the book, or into a folder named tests there");
    } else if (!has_book(at, path, look.tested)) {
        snprintf(err.what, sizeof err.what, "warning: it tests the book %s, and there is none", look.tested);
        snprintf(err.todo, sizeof err.todo, "write the id of a book: tests \"%s\" { ... }",
                 hl_book_id(at->book));
    } else {
        return EXIT_READY;
    }
    return say_complaint(&err) == EXIT_NOT_SAVED ? EXIT_NOT_SAVED : EXIT_READY;
}

/* In the folder of the book itself; of the shipped rules when it is one of theirs. */
static int warn_of_tests(const bench *at)
{
    static const char *const middles[] = {"", "tests", "test"};
    int code = EXIT_READY;
    for (int i = 0; i < at->shelf.n_folders; i++)
        for (int m = 0; m < 3; m++) {
            path_list found = {0};
            if (!list_folder(&found, at->folders[i], middles[m], ".lua"))
                code = EXIT_NOT_SAVED;
            for (size_t k = 0; k < found.n && code == EXIT_READY; k++)
                code = warn_of_test(at, found.paths[k], m < 2);
            free_paths(&found);
        }
    return code;
}

static int check_book(bench *at, const request *asked)
{
    hl_err err;
    if (hl_book_check(&at->complaints, at->book, &err) != HL_OK)
        return report(&err);
    hl_complaints known = {0};
    for (size_t i = 0; i < at->complaints.n; i++)
        if (!keep(&known, &at->complaints.items[i]))
            return EXIT_NOT_SAVED;
    int worst = say_complaints(at);
    const int schools = check_schools(at, &known);
    hl_complaints_free(&known);
    worst = schools > worst ? schools : worst;
    if (!find_tests(at, asked)) {
        complain("the machine has no memory left; close other programs and run it again");
        return EXIT_NOT_SAVED;
    }
    for (size_t i = 0; i < at->tests.n; i++) {
        if (was_run(at, i))
            continue;
        const int opened = run_tests(at, at->tests.paths[i], i < at->n_named);
        const int ran = say_complaints(at);
        worst = opened > worst ? opened : worst;
        worst = ran > worst ? ran : worst;
    }
    int warned = say_warnings(at);
    if (warned == EXIT_READY)
        warned = warn_of_tests(at);
    worst = warned > worst ? warned : worst;
    if (worst == EXIT_READY)
        say_sound(at);
    return worst;
}

/* A step, or adjusters alone, named by path: looked over as far as that goes without a book.  False: it is
 * none. */
static bool check_part(int *code, const char *name, const bookshelf *shelf)
{
    bench at = {.book = NULL};
    hl_err err;
    bool is_part = false;
    const bool path = strchr(name, '/') || (strlen(name) > 4 && strcmp(name + strlen(name) - 4, ".lua") == 0);
    if (!path)
        return false;
    const hl_code checked = hl_rule_part_check(&is_part, name, &shelf->shelf, &at.complaints, &err);
    if (is_part && checked == HL_OK)
        say("%s: a part of books; its words and fields are right.  Check a book that uses it for the rest: "
            "hammerline "
            "rules check BOOK\n",
            name);
    *code = is_part && checked != HL_OK ? say_complaints(&at) : EXIT_READY;
    hl_complaints_free(&at.complaints);
    return is_part;
}

int rules_check(const request *asked, const bookshelf *shelf)
{
    hl_book *book = NULL;
    hl_err err;
    bench at = {.book = NULL};
    int part = EXIT_READY;
    if (check_part(&part, asked->words[0], shelf))
        return part;
    if (hl_book_open_all(&book, asked->words[0], &shelf->shelf, &at.complaints, &err) != HL_OK) {
        const int refused = err.code == HL_E_RULE ? say_complaints(&at) : report(&err);
        hl_complaints_free(&at.complaints);
        return refused;
    }
    at.book = book;
    at.name = asked->words[0];
    at.rules = &shelf->shelf;
    int code = EXIT_NOT_SAVED;
    if (set_shelf(&at, asked->words[0], shelf))
        code = check_book(&at, asked);
    else
        complain("the machine has no memory left; close other programs and run it again");
    hl_complaints_free(&at.complaints);
    free_paths(&at.tests);
    free(at.own);
    hl_book_free(book);
    return code;
}
