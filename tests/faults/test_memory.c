/* The machine runs out of memory at every place where a book is opened: the n-th allocation and all
 * later ones fail, for n = 0, 1, 2 ... until nothing does.  (With a single failure Lua collects its
 * garbage and goes on, which proves nothing.)
 *
 * Linked with --wrap=malloc,calloc,realloc; leaks are the sanitizers' to find. */
#include "rule_folder.h"
#include "short_memory.h"

#include "errors.h"
#include "host.h"

/* A book with something of everything; all figures are invented. */
static void write_book(rule_folder *folder)
{
    open_folder(folder);
    write_rule(
        folder, "drop",
        "return step { id = 'drop', title = 'Drop', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n"
        "  resolution = 0.1, fix = { 'screw' }, masks = { 'feel' },\n"
        "  target = by_colour { naturals = zones { { 'A0-B2', range(1, 3) }, { 'C3-C8', about(2, 1) } },\n"
        "    sharps = graded { { 'A0', range(1, 2) }, { 'C8', range(2, 3) } } } }\n");
    write_rule(folder, "depth",
               "return step { id = 'depth', title = 'Depth', stage = 'set', kind = 'derived', unit = 'mm', "
               "ask = 'a',\n"
               "  why = 'w', resolution = 0.1, formula = 'drop * ratio', target = function (note)\n"
               "    local t = {} for k, v in pairs { b = 1, a = 2 } do t[#t + 1] = k .. v end\n"
               "    return at_least(#table.concat(t, ', ') + note.octave) end }\n");
    write_rule(
        folder, "feel",
        "return step { id = 'feel', title = 'Feel', stage = 'set', kind = 'judged', ask = 'a', why = 'w',\n"
        "  faults = { { 'heavy', means = 'm', fix = { { 'screw', 'out' } } }, { 'dead', todo = 't' } } }\n");
    write_rule(folder, "base",
               "return book { id = 'base', api = 1, title = 'Base', stage { 'set', title = 'Set' },\n"
               "  fact { 'ratio', title = 'ratio', unit = 'ratio', value = 5 },\n"
               "  adjuster { 'screw', title = 'screw', unit = 'turn', more = 'in', less = 'out', sizes = { "
               "1, '1/8' },\n"
               "    moves = { drop = 1.5, feel = 'slight' } },\n"
               "  use 'drop', use 'depth', use 'feel' }\n");
    write_rule(folder, "shop",
               "return book { id = 'shop', api = 1, title = string.format('%s', 'Shop'), use 'base',\n"
               "  change { 'drop', even = 0.5, why = 'w' }, skip { 'feel', why = 'w' },\n"
               "  adjuster { 'screw', moves = { drop = 2 } }, float { 'drop', within = 1 },\n"
               "  acknowledge { 'screw', 'feel', why = 'w' },\n"
               "  diagnosis { 'd', title = 'D', when = 'low(drop)', causes = { { 'c' } } } }\n");
    write_rule(folder, "t",
               "return tests 'shop' { { 'drop', 'A4', reads = 4, want = 'fail', why = 'high', with = { feel "
               "= 'dead' },\n"
               "  facts = { ratio = 5 }, fix = { 'screw', 'out', '1/8' } } }\n");
}

typedef hl_code open_something(const rule_folder *folder, const hl_shelf *shelf, hl_err *err);

static hl_code open_shop(const rule_folder *folder, const hl_shelf *shelf, hl_err *err)
{
    (void)folder;
    hl_book *book;
    const hl_code code = hl_book_open(&book, "shop", shelf, err);
    assert_true((code == HL_OK) == (book != NULL));
    hl_book_free(book);
    return code;
}

static hl_code open_tests(const rule_folder *folder, const hl_shelf *shelf, hl_err *err)
{
    char path[300];
    hl_rule_tests *tests;
    snprintf(path, sizeof path, "%s/t.lua", folder->path);
    const hl_code code = hl_rule_tests_open(&tests, path, shelf, err);
    assert_true((code == HL_OK) == (tests != NULL));
    hl_rule_tests_free(tests);
    return code;
}

/* Fails from the n-th allocation on; returns how many n failed. */
static long sweep(const rule_folder *folder, open_something *open)
{
    const char *folders[] = {folder->path};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    for (long n = 0; n < 100000; n++) {
        hl_err err = {0};
        memory_left = n;
        const hl_code code = open(folder, &shelf, &err);
        memory_left = -1;
        if (code == HL_OK)
            return n;
        if (code != HL_E_MEMORY || err.code != HL_E_MEMORY || err.what[0] == '\0')
            print_error("allocation %ld: code %d, %s:%d: %s\n", n, (int)code, err.file, err.line, err.what);
        assert_int_equal(code, HL_E_MEMORY);
        assert_int_equal(err.code, HL_E_MEMORY);
        assert_true(err.what[0] != '\0');
    }
    fail_msg("a book that takes more than 100000 allocations");
    return 0;
}

static void test_a_book_without_memory(void **state)
{
    (void)state;
    rule_folder folder;
    write_book(&folder);
    assert_true(sweep(&folder, open_shop) > 300); /* the libraries of Lua alone take more than that */
    close_folder(&folder);
}

static void test_rule_tests_without_memory(void **state)
{
    (void)state;
    rule_folder folder;
    write_book(&folder);
    assert_true(sweep(&folder, open_tests) > 600); /* two states: the tests' and the book's */
    close_folder(&folder);
}

/* A mistake in a rule file is told without memory, or memory is what is told to be missing. */
static void test_a_mistake_without_memory(void **state)
{
    (void)state;
    rule_folder folder;
    write_book(&folder);
    write_rule(
        &folder, "shop",
        "return book { id = 'shop', api = 1, title = 'S', use 'base', change { 'dorp', even = 1 } }\n");
    const char *folders[] = {folder.path};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    bool told = false;
    for (long n = 0; n < 100000 && !told; n++) {
        hl_err err = {0};
        memory_left = n;
        const hl_code code = open_shop(&folder, &shelf, &err);
        memory_left = -1;
        told = code == HL_E_RULE;
        assert_true(told || code == HL_E_MEMORY);
        if (told)
            assert_string_equal(err.what, "change: there is no step 'dorp' in the book so far");
    }
    assert_true(told);
    close_folder(&folder);
}

/* Too small a cap is the rule files' fault, and says so; it never ends the process. */
static void test_a_cap_at_every_size(void **state)
{
    (void)state;
    rule_folder folder;
    write_book(&folder);
    const char *folders[] = {folder.path};
    bool opened = false;
    int refused = 0;
    for (size_t memory = 500; memory < (4 << 20) && !opened; memory += memory < 60000 ? 100 : 1000) {
        const hl_shelf shelf = {.folders = folders, .n_folders = 1, .memory = memory};
        hl_err err = {0};
        const hl_code code = open_shop(&folder, &shelf, &err);
        opened = code == HL_OK;
        refused += !opened;
        if (!opened)
            assert_int_equal(code, HL_E_RULE);
    }
    assert_true(opened);
    assert_true(refused > 100);
    close_folder(&folder);
}

/* The wrapping is there: without it every other test here would pass and prove nothing. */
static void test_the_counter_counts(void **state)
{
    (void)state;
    hl_arena arena = {0};
    const long before = memory_asked;
    memory_left = 0;
    void *none = hl__arena_take(&arena, 8);
    memory_left = -1;
    assert_null(none);
    assert_non_null(hl__arena_take(&arena, 8));
    assert_true(memory_asked >= before + 2);
    hl__arena_free(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_counter_counts),        cmocka_unit_test(test_a_book_without_memory),
        cmocka_unit_test(test_rule_tests_without_memory), cmocka_unit_test(test_a_mistake_without_memory),
        cmocka_unit_test(test_a_cap_at_every_size),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
