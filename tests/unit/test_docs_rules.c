/* test_docs_rules.c - the guide for shop editors: every file in it is written to a folder and run as it
 * stands there, and its lists of words and fields are those of the engine.
 *
 * A block begins with its file's name.  A second remark, "fails: ...", holds the whole message with which
 * the file is refused; it may go on over more lines. */
#include "rule_folder.h"

#include "file.h"
#include "host.h"

#define GUIDE        RULES_FOLDER "/../docs/rules.md"
#define MOST_MESSAGE 1000

static char *guide;
static rule_folder folder;
static char fails[MOST_RULES][MOST_MESSAGE]; /* by file of the folder; "" for those that are taken */
static const char *from[MOST_RULES];         /* where the block stands */

/* ---- taking the guide apart -------------------------------------------------------------------- */

/* The remarks below a block's name, joined, when they begin with "fails: ". */
static void read_message(const char *block, char *message)
{
    static const char start[] = "-- fails: ";
    message[0] = '\0';
    if (strncmp(block, start, sizeof start - 1) != 0)
        return;
    block += sizeof start - 1;
    for (;;) {
        const size_t size = strcspn(block, "\n");
        assert_true(strlen(message) + size + 2 < MOST_MESSAGE);
        strncat(message, block, size);
        block += size + 1;
        if (strncmp(block, "-- ", 3) != 0)
            return;
        block += 3;
        strcat(message, " ");
    }
}

static void take_block(const char *block, size_t size)
{
    char name[80] = "";
    const size_t line = strcspn(block, "\n");
    assert_true(strncmp(block, "-- ", 3) == 0 && line > 7 && line < sizeof name);
    assert_memory_equal(block + line - 4, ".lua", 4);
    memcpy(name, block + 3, line - 7);
    for (int i = 0; i < folder.n; i++)
        assert_string_not_equal(folder.names[i], name);
    read_message(block + line + 1, fails[folder.n]);
    from[folder.n] = block;
    write_rule_bytes(&folder, name, block, size);
}

static int open_guide(void **state)
{
    (void)state;
    size_t size;
    hl_err err;
    if (hl__file_read(&guide, &size, GUIDE, 1 << 20, HL_E_RULE, &err) != HL_OK)
        return 1;
    open_folder(&folder);
    for (const char *at = guide; (at = strstr(at, "```lua\n")) != NULL;) {
        at += sizeof "```lua\n" - 1;
        const char *end = strstr(at, "```");
        assert_non_null(end);
        take_block(at, (size_t)(end - at));
        at = end + 3;
    }
    return 0;
}

static int close_guide(void **state)
{
    (void)state;
    close_folder(&folder);
    free(guide);
    return 0;
}

/* ---- running the files ------------------------------------------------------------------------- */

typedef struct shelf_of_guide {
    const char *folders[2];
    hl_shelf shelf;
} shelf_of_guide;

static void fill_shelf(shelf_of_guide *s)
{
    s->folders[0] = folder.path;
    s->folders[1] = RULES_FOLDER;
    s->shelf = (hl_shelf){.folders = s->folders, .n_folders = 2};
}

static bool is_test(int i)
{
    const size_t size = strlen(folder.names[i]);
    return size > 5 && strcmp(folder.names[i] + size - 5, "_test") == 0;
}

static bool is_step(int i)
{
    return strstr(from[i], "return step {") != NULL &&
           strstr(from[i], "return step {") < strstr(from[i], "```");
}

static void assert_silent(const hl_complaints *complaints, const char *name)
{
    for (size_t i = 0; i < complaints->n; i++)
        print_error("%s:%d: %s; %s\n", complaints->items[i].file, complaints->items[i].line,
                    complaints->items[i].what, complaints->items[i].todo);
    if (complaints->n > 0)
        fail_msg("%s of docs/rules.md", name);
}

/* Marks the guide's step files that the book holds. */
static void mark_steps(const hl_book *book, bool *used)
{
    for (int s = 0; s < hl_book_n_steps(book); s++)
        for (int i = 0; i < folder.n; i++)
            used[i] = used[i] || strcmp(hl_book_step(book, s)->id, folder.names[i]) == 0;
}

static void check_book(const char *name, const hl_book *book)
{
    hl_complaints complaints = {0};
    hl_err err;
    assert_int_equal(hl_book_check(&complaints, book, &err), HL_OK);
    assert_int_equal(hl_book_warn(&complaints, book, &err), HL_OK);
    assert_silent(&complaints, name);
    hl_complaints_free(&complaints);
}

static void run_cases(const char *name, const hl_rule_tests *tests)
{
    hl_complaints complaints = {0};
    hl_err err;
    assert_true(hl_rule_tests_count(tests) > 0);
    assert_int_equal(hl_rule_tests_run(&complaints, tests, &err), HL_OK);
    assert_silent(&complaints, name);
    hl_complaints_free(&complaints);
}

/* Opens file i, as a book or as tests, runs it, and compares what it says with what the guide says. */
static void run_file(int i, bool *used)
{
    shelf_of_guide s;
    hl_book *book = NULL;
    hl_rule_tests *tests = NULL;
    hl_err err = {0};
    char path[400], got[MOST_MESSAGE] = "";
    fill_shelf(&s);
    snprintf(path, sizeof path, "%s/%s.lua", folder.path, folder.names[i]);
    const hl_code code = is_test(i) ? hl_rule_tests_open(&tests, path, &s.shelf, &err)
                                    : hl_book_open(&book, folder.names[i], &s.shelf, &err);
    if (code != HL_OK)
        snprintf(got, sizeof got, "%s:%d: %s%s%s", err.file, err.line, err.what,
                 err.todo[0] != '\0' ? "; " : "", err.todo);
    if (strcmp(got, fails[i]) != 0)
        print_error("%s of docs/rules.md\n  got      %s\n  expected %s\n", folder.names[i], got, fails[i]);
    assert_string_equal(got, fails[i]);
    if (book != NULL) {
        check_book(folder.names[i], book);
        mark_steps(book, used);
    }
    if (tests != NULL)
        run_cases(folder.names[i], tests);
    hl_book_free(book);
    hl_rule_tests_free(tests);
}

/* A book that lacks a step of the shop is not the shop's, so the adjusters-only book is run through others.
 */
static bool is_part(int i)
{
    const char *end = strstr(from[i], "```");
    const char *use = strstr(from[i], "use \"");
    return !is_test(i) && !is_step(i) && (use == NULL || use > end);
}

static void every_file_does_what_the_guide_says(void **state)
{
    (void)state;
    bool used[MOST_RULES] = {false};
    int books = 0, tests = 0, steps = 0, refused = 0;
    for (int i = 0; i < folder.n; i++) {
        if (is_step(i) || is_part(i))
            continue;
        run_file(i, used);
        refused += fails[i][0] != '\0';
        tests += is_test(i);
        books += !is_test(i) && fails[i][0] == '\0';
    }
    for (int i = 0; i < folder.n; i++) {
        steps += is_step(i);
        if (is_step(i) && !used[i])
            fail_msg("no book of docs/rules.md uses %s", folder.names[i]);
    }
    assert_true(books >= 4 && tests >= 3 && steps >= 3 && refused >= 6);
}

/* ---- the lists --------------------------------------------------------------------------------- */

static bool is_listed(const char *(*list)(int), const char *name)
{
    for (int i = 0; list(i) != NULL; i++)
        if (strcmp(list(i), name) == 0)
            return true;
    return false;
}

static int count(const char *(*list)(int))
{
    int n = 0;
    while (list(n) != NULL)
        n++;
    return n;
}

/* Calls on every `name` in the first cell of a row. */
static int take_row(const char *row, const char *word, const char *(*list)(int))
{
    int n = 0;
    const char *end = strchr(row + 1, '|');
    for (const char *at = row; (at = strchr(at, '`')) != NULL && at < end; n++) {
        char name[100];
        const size_t size = strcspn(at + 1, "`");
        snprintf(name, sizeof name, "%s%s%.*s", word, word[0] != '\0' ? "." : "", (int)size, at + 1);
        if (!is_listed(list, name))
            fail_msg("docs/rules.md lists '%s', which the engine does not have", name);
        at += size + 2;
    }
    return n;
}

static void all_words_and_fields_are_listed(void **state)
{
    (void)state;
    int words = 0, fields = 0;
    char word[40] = "";
    const char *line = strstr(guide, "## All words\n");
    assert_non_null(line);
    for (; *line != '\0'; line += strcspn(line, "\n"), line += *line == '\n') {
        if (strncmp(line, "### `", 5) == 0)
            snprintf(word, sizeof word, "%.*s", (int)strcspn(line + 5, "`"), line + 5);
        if (strncmp(line, "| `", 3) != 0)
            continue;
        if (word[0] == '\0')
            words += take_row(line, "", hl__host_word);
        else
            fields += take_row(line, word, hl__host_field);
    }
    assert_int_equal(words, count(hl__host_word));
    assert_int_equal(fields, count(hl__host_field));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_file_does_what_the_guide_says),
        cmocka_unit_test(all_words_and_fields_are_listed),
    };
    return cmocka_run_group_tests(tests, open_guide, close_guide);
}
