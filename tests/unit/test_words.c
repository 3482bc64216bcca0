/* The words and fields that editors are told of are those that the engine knows: both ways. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "file.h"
#include "host.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char *text;

static int read_words(void **state)
{
    (void)state;
    size_t size;
    hl_err err;
    return (int)hl__file_read(&text, &size, RULES_FOLDER "/meta/words.lua", 1 << 20, HL_E_RULE, &err);
}

static int forget_words(void **state)
{
    (void)state;
    free(text);
    return 0;
}

/* Calls `see` with the rest of every line that begins with `start`, cut at the first of `stops`. */
static int each_line(const char *start, const char *stops, void (*see)(const char *name, void *context),
                     void *context)
{
    int n = 0;
    for (const char *line = text; line != NULL && *line != '\0';) {
        const char *end = strchr(line, '\n');
        if (strncmp(line, start, strlen(start)) == 0) {
            char name[100] = "";
            const char *from = line + strlen(start);
            const size_t size = strcspn(from, stops);
            assert_true(size > 0 && size < sizeof name);
            memcpy(name, from, size);
            see(name, context);
            n++;
        }
        line = end != NULL ? end + 1 : NULL;
    }
    return n;
}

static bool is_known(const char *(*list)(int), const char *name)
{
    for (int i = 0; list(i) != NULL; i++) {
        if (strcmp(list(i), name) == 0)
            return true;
    }
    return false;
}

static int count(const char *(*list)(int))
{
    int n = 0;
    while (list(n) != NULL)
        n++;
    return n;
}

static void see_word(const char *name, void *context)
{
    (void)context;
    if (!is_known(hl__host_word, name))
        print_error("rules/meta/words.lua describes the word '%s', which the engine does not have\n", name);
    assert_true(is_known(hl__host_word, name));
}

static void test_words(void **state)
{
    (void)state;
    assert_int_equal(each_line("function ", "(", see_word, NULL), count(hl__host_word));
    assert_true(count(hl__host_word) > 15);
    assert_null(hl__host_word(-1));
}

/* Fields come as "---@field name? type help" below "---@class (exact) hl.step". */
typedef struct fields {
    char word[40];
    int n;
} fields;

static void see_line(const char *line, void *context)
{
    fields *f = context;
    char name[100];
    if (strncmp(line, "class ", 6) == 0) {
        const char *dot = strstr(line, "hl.");
        assert_non_null(dot);
        snprintf(f->word, sizeof f->word, "%.*s", (int)strcspn(dot + 3, " :"), dot + 3);
        return;
    }
    /* What a function of the note is given, a book's entries and the options of a choice are no fields. */
    if (strncmp(line, "field ", 6) != 0 || strcmp(f->word, "note") == 0 ||
        strncmp(line + 6, "[integer]", 9) == 0 || strncmp(line + 6, "[string]", 8) == 0)
        return;
    snprintf(name, sizeof name, "%s.%.*s", f->word, (int)strcspn(line + 6, " ?"), line + 6);
    if (!is_known(hl__host_field, name))
        print_error("rules/meta/words.lua describes the field '%s', which the engine does not have\n", name);
    assert_true(is_known(hl__host_field, name));
    f->n++;
}

static void test_fields(void **state)
{
    (void)state;
    fields f = {"", 0};
    /* The first 60 bytes of a line are enough for its name. */
    for (char *line = text; *line != '\0';) {
        char start[61] = "";
        const size_t size = strcspn(line, "\n");
        memcpy(start, line, size < 60 ? size : 60);
        if (strncmp(start, "---@", 4) == 0)
            see_line(start + 4, &f);
        line += size + (line[size] == '\n' ? 1 : 0);
    }
    assert_int_equal(f.n, count(hl__host_field)); /* none is missing, and none stands twice */
    assert_true(f.n > 80);
    assert_null(hl__host_field(-1));
}

static void test_no_field_twice(void **state)
{
    (void)state;
    for (int i = 0; hl__host_field(i) != NULL; i++) {
        for (int k = 0; k < i; k++)
            assert_string_not_equal(hl__host_field(i), hl__host_field(k));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_fields),
        cmocka_unit_test(test_no_field_twice),
    };
    return cmocka_run_group_tests(tests, read_words, forget_words);
}
