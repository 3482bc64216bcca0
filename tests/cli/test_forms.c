/* test_forms.c - every option on every form of every command: taken where the table lists it, refused by
 * name where it does not; and every help fits 80 columns. */
#include "options.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
/* cmocka wants those above first */
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#define ROOM 65536

static char said[ROOM];

/* Runs the program with these words; what it says on both streams is in `said`.  Returns its exit code. */
static int run(const char *words)
{
    char line[1024];
    snprintf(line, sizeof line, "'%s' %s 2>&1 </dev/null", PROGRAM, words);
    FILE *pipe = popen(line, "r");
    assert_non_null(pipe);
    const size_t size = fread(said, 1, sizeof said - 1, pipe);
    said[size] = '\0';
    const int status = pclose(pipe);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

static bool lists(const option_row *rows, option_id id)
{
    for (; rows->id != OPTION_END; rows++)
        if (rows->id == id)
            return true;
    return false;
}

/* Every option of every form and of the program, each once. */
static int collect(const option_row *out[OPTIONS])
{
    const option_row *sources[64];
    int n_sources = 0, n = 0;
    sources[n_sources++] = program_options;
    sources[n_sources++] = common_options;
    for (const command *row = commands; row->name; row++)
        for (const command_form *of = row->forms; of->run; of++) {
            assert_true(n_sources < 64);
            sources[n_sources++] = of->options;
        }
    for (int i = 0; i < n_sources; i++)
        for (const option_row *row = sources[i]; row->id != OPTION_END; row++) {
            int k = 0;
            while (k < n && out[k]->id != row->id)
                k++;
            if (k == n)
                out[n++] = row;
        }
    return n;
}

/* A value that the option takes: a word of its own, or a number. */
static const char *make_value(const option_row *row)
{
    return !row->value ? "" : row->word ? row->word(0) : row->id == OPTION_RULES ? "." : "60";
}

/* Operands of which none is there, so that nothing is ever written. */
static const char *make_operands(const command_form *of)
{
    static const char *const words[] = {"", "no-such-1", "no-such-1 no-such-2", "no-such-1 C4 no-such-3"};
    assert_true(of->least < 4);
    return words[of->least];
}

static void try_option(const command_form *of, const option_row *row, const char *typed)
{
    char words[512], name[64], wanted[160];
    name_form(name, sizeof name, of);
    snprintf(words, sizeof words, "%s %s%s%s %s", name, typed, row->value ? " " : "", make_value(row),
             make_operands(of));
    const int code = run(words);
    if (row->id == OPTION_HELP || lists(of->options, row->id) || lists(common_options, row->id)) {
        if (strstr(said, "takes no --") || strstr(said, "unknown option"))
            fail_msg("hammerline %s: listed, and refused: %s", words, said);
        return;
    }
    snprintf(wanted, sizeof wanted, "hammerline: %s takes no --%s", name, row->name);
    if (code != EXIT_WRONG_USE || strncmp(said, wanted, strlen(wanted)) != 0)
        fail_msg("hammerline %s: exit %d, not refused by name: %s", words, code, said);
}

static void every_option_on_every_form(void **state)
{
    const option_row *all[OPTIONS];
    const int n = collect(all);
    int tried = 0;
    (void)state;
    for (const command *row = commands; row->name; row++)
        for (const command_form *of = row->forms; of->run; of++)
            for (int i = 0; i < n; i++) {
                char typed[64];
                snprintf(typed, sizeof typed, "--%s", all[i]->name);
                try_option(of, all[i], typed);
                tried++;
                if (!all[i]->letter)
                    continue;
                snprintf(typed, sizeof typed, "-%c", all[i]->letter);
                try_option(of, all[i], typed);
            }
    assert_true(n > 20 && tried > 200);
}

/* Options before the command count as its form's. */
static void an_option_before_the_command(void **state)
{
    (void)state;
    assert_int_equal(run("--color never rules list"), EXIT_WRONG_USE);
    assert_non_null(strstr(said, "rules list takes no --color"));
    assert_int_equal(run("--verbose"), EXIT_WRONG_USE);
    assert_int_equal(run("--rules . --color never audit no-such"), EXIT_BAD_SHEET);
}

/* A second value would have to push out the first one. */
static void a_value_twice(void **state)
{
    (void)state;
    for (const command *row = commands; row->name; row++)
        for (const command_form *of = row->forms; of->run; of++)
            for (const option_row *option = of->options; option->id != OPTION_END; option++) {
                char words[512], name[64];
                if (!option->value || option->repeats)
                    continue;
                name_form(name, sizeof name, of);
                snprintf(words, sizeof words, "%s --%s %s --%s %s %s", name, option->name, make_value(option),
                         option->name, make_value(option), make_operands(of));
                if (run(words) != EXIT_WRONG_USE || !strstr(said, "is given twice"))
                    fail_msg("hammerline %s: %s", words, said);
            }
}

/* One operand too few, one too many: refused, with the form's name and how it is used. */
static void the_number_of_operands(void **state)
{
    (void)state;
    for (const command *row = commands; row->name; row++)
        for (const command_form *of = row->forms; of->run; of++) {
            char words[512], name[64];
            name_form(name, sizeof name, of);
            if (of->least > 0 && (run(name) != EXIT_WRONG_USE || !strstr(said, of->operands)))
                fail_msg("hammerline %s: %s", name, said);
            if (of->most == ANY_NUMBER)
                continue;
            snprintf(words, sizeof words, "%s", name);
            for (int i = 0; i <= of->most; i++)
                snprintf(words + strlen(words), sizeof words - strlen(words), " w%d", i);
            if (run(words) != EXIT_WRONG_USE || !strstr(said, name) || !strstr(said, "\"w"))
                fail_msg("hammerline %s: %s", words, said);
        }
}

static void check_width(const char *words)
{
    int columns = 0;
    assert_int_equal(run(words), EXIT_READY);
    assert_true(strlen(said) > 200);
    for (const char *c = said; *c; c++) {
        columns = *c == '\n' ? 0 : columns + 1;
        if (columns > 80)
            fail_msg("hammerline %s: a line of more than 80 columns:\n%s", words, said);
    }
}

static void help_is_narrow_and_whole(void **state)
{
    (void)state;
    check_width("--help");
    for (const exit_meaning *row = exit_meanings; row->meaning; row++)
        assert_non_null(strstr(said, row->meaning));
    for (const command *row = commands; row->name; row++) {
        char words[80];
        snprintf(words, sizeof words, "%s --help", row->name);
        check_width(words);
        for (const command_form *of = row->forms; of->run; of++) {
            char name[64];
            name_form(name, sizeof name, of);
            snprintf(words, sizeof words, "%s --help", name);
            check_width(words);
            for (const option_row *option = of->options; option->id != OPTION_END; option++)
                assert_non_null(strstr(said, option->name));
        }
    }
}

/* Every option that a form lists has a meaning: no row of the table is there for nothing. */
static void ids_are_unique_in_a_form(void **state)
{
    (void)state;
    for (const command *row = commands; row->name; row++)
        for (const command_form *of = row->forms; of->run; of++)
            for (const option_row *a = of->options; a->id != OPTION_END; a++) {
                assert_false(lists(a + 1, a->id));
                assert_true(a->about && a->about[0]);
            }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_option_on_every_form),
        cmocka_unit_test(an_option_before_the_command),
        cmocka_unit_test(a_value_twice),
        cmocka_unit_test(the_number_of_operands),
        cmocka_unit_test(help_is_narrow_and_whole),
        cmocka_unit_test(ids_are_unique_in_a_form),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
