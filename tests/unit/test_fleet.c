/* Many sheets at once: every sheet told once, in the order given, the same for any number of threads and
 * with a shared head and with one for each sheet; a bad sheet stops nobody else.  The readings are invented.
 */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "hammerline.h"
#include "text.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define PATHS 8

typedef struct list {
    const char *paths[PATHS];
    int at;
} list;

static const char *next_path(void *context)
{
    list *l = context;
    return l->at < PATHS ? l->paths[l->at++] : NULL;
}

/* All that is told of a sheet, as text. */
static bool take(void *context, const hl_fleet_sheet *sheet)
{
    hl_text *out = context;
    hl__text_printf(out, "%s judged %d ready %d code %d errors %d", sheet->title, sheet->judged, sheet->ready,
                    (int)sheet->code, sheet->n_errors);
    for (int i = 0; i < sheet->n_errors; i++)
        hl__text_printf(out, " [%d:%d %s]", sheet->errors[i].line, sheet->errors[i].column,
                        sheet->errors[i].what);
    for (int i = 0; sheet->judged && i < hl_book_n_steps(sheet->book); i++)
        for (int k = 0; k < HL_VERDICTS; k++)
            hl__text_printf(out, " %d", sheet->counts[i][k]);
    for (int i = 0; sheet->judged && i < hl_book_n_adjusters(sheet->book); i++)
        hl__text_printf(out, " %d", sheet->cures[i]);
    hl__text_printf(out, " text %zu\n", sheet->size);
    return true;
}

static void run(hl_text *out, const list *paths, hl_fleet_options options)
{
    static const char *const folders[] = {RULES_FOLDER};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    list l = *paths;
    hl_err err;
    options.shelf = &shelf;
    assert_int_equal(hl_fleet_run(&options, next_path, &l, take, out, &err), HL_OK);
    assert_false(out->failed);
}

/* ---- files ----------------------------------------------------------------------------------- */

static char folder[] = "/tmp/hammerline-fleet-XXXXXX";

static const char *put(const char *name, const char *text, size_t size)
{
    char *path = malloc(sizeof folder + strlen(name) + 2);
    snprintf(path, sizeof folder + strlen(name) + 2, "%s/%s", folder, name);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
    return path;
}

/* One sheet's rows: three steps, the blow of one note out. */
static void add_rows(hl_text *out, const char *name, int out_at)
{
    for (int note = 1; note <= 88; note++)
        hl__text_printf(out, "%s%s%s,46,2.1,%s\n", name, *name ? "," : "", hl_pitch_name(HL_A0 + note - 1),
                        note == out_at ? "99" : "1.2");
}

static const char *put_many(const char *name, int n)
{
    hl_text text = {0};
    hl__text_add(&text, "# book: grand\nsheet,note,blow,let_off,drop\n");
    for (int i = 1; i <= n; i++) {
        char sheet[32];
        snprintf(sheet, sizeof sheet, i % 50 == 0 ? "\"hall, %d\"" : "hall %d", i);
        add_rows(&text, sheet, i % 90);
    }
    const char *path = put(name, text.data, text.size);
    hl__text_free(&text);
    return path;
}

static const char *put_one(const char *name, const char *extra)
{
    hl_text text = {0};
    hl__text_add(&text, "# book: grand\n# piano: the one in the foyer\nnote,blow,let_off,drop\n");
    add_rows(&text, "", 40);
    hl__text_add(&text, extra);
    const char *path = put(name, text.data, text.size);
    hl__text_free(&text);
    return path;
}

static const char *put_text(const char *name, const char *text)
{
    return put(name, text, strlen(text));
}

static int start(void **paths)
{
    list *l = calloc(1, sizeof *l);
    assert_non_null(mkdtemp(folder));
    l->paths[0] = put_one("first.csv", "");
    l->paths[1] = put_one("bad.csv", "C4,46,2.1,1.2\n"); /* a second row for a note */
    l->paths[2] = "no-such-sheet.csv";
    l->paths[3] = put_many("many.csv", 400); /* larger than a block that is read at once */
    l->paths[4] = put_text("empty.csv", "");
    l->paths[5] = put_text("apart.csv", "# book: grand\nsheet,note,blow\na,A0,46\nb,A0,46\na,A#0,46\n");
    l->paths[6] =
        put_text("nameless.csv", "# book: grand\nsheet,note,step,reading\n,A0,blow,46\nx,A0,blow,46\n");
    l->paths[7] = put_one("last.csv", "");
    *paths = l;
    return 0;
}

static int end(void **paths)
{
    list *l = *paths;
    for (int i = 0; i < PATHS; i++) {
        if (i == 2)
            continue;
        unlink(l->paths[i]);
        free((char *)l->paths[i]);
    }
    rmdir(folder);
    free(l);
    return 0;
}

/* ---- the tests --------------------------------------------------------------------------------- */

static void test_threads(void **paths)
{
    hl_text one = {0};
    run(&one, *paths, (hl_fleet_options){.threads = 1});
    for (int threads = 2; threads <= 7; threads += 5) {
        hl_text more = {0};
        run(&more, *paths, (hl_fleet_options){.threads = threads});
        assert_string_equal(more.data, one.data);
        hl__text_free(&more);
    }
    hl_text kept = {0}; /* with a head of its own for each sheet */
    run(&kept, *paths, (hl_fleet_options){.threads = 2, .keep = true});
    assert_string_equal(kept.data, one.data);
    hl__text_free(&kept);
    hl__text_free(&one);
}

static int count(const char *text, const char *what)
{
    int n = 0;
    for (const char *at = strstr(text, what); at; at = strstr(at + 1, what))
        n++;
    return n;
}

static void test_told(void **paths)
{
    hl_text out = {0};
    run(&out, *paths, (hl_fleet_options){.threads = 2});
    assert_int_equal(count(out.data, "\n"), 1 + 1 + 1 + 400 + 1 + 3 + 1 + 1);
    assert_non_null(strstr(out.data, "bad.csv judged 1 ready 0 code 3 errors 1 [92:1 C4 has a row already]"));
    assert_non_null(strstr(out.data, "no-such-sheet.csv judged 0"));
    assert_non_null(strstr(out.data, "many.csv: hall, 50 judged 1")); /* quoted in the file */
    assert_non_null(strstr(out.data, "empty.csv judged 0"));
    /* told twice, the second time as what it is: no whole sheet */
    assert_non_null(strstr(out.data, "apart.csv: a judged 0 ready 0 code 3 errors 1"));
    assert_non_null(strstr(out.data, "[3:1 the row does not say of which sheet it is]"));
    assert_true(strstr(out.data, "first.csv") < strstr(out.data, "last.csv"));
    hl__text_free(&out);
}

static hl_code print_ready(char **out, size_t *size, const hl_audit *audit, hl_err *err)
{
    (void)err;
    *out = malloc(16);
    *size = *out ? (size_t)snprintf(*out, 16, "%d", hl_audit_ready(audit)) : 0;
    return HL_OK;
}

/* With a text a sheet, each is a piece of its own. */
static void test_print(void **paths)
{
    hl_text one = {0}, two = {0};
    run(&one, *paths, (hl_fleet_options){.threads = 1, .print = print_ready});
    run(&two, *paths, (hl_fleet_options){.threads = 3, .print = print_ready, .keep = true});
    assert_string_equal(one.data, two.data);
    assert_int_equal(count(one.data, " text 1\n"), count(one.data, "judged 1"));
    hl__text_free(&one);
    hl__text_free(&two);
}

static bool take_three(void *context, const hl_fleet_sheet *sheet)
{
    (void)sheet;
    return ++*(int *)context < 3;
}

static void test_stopped(void **paths)
{
    static const char *const folders[] = {RULES_FOLDER};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    const hl_fleet_options options = {.shelf = &shelf, .threads = 3};
    list l = *(list *)*paths;
    int taken = 0;
    hl_err err;
    assert_int_equal(hl_fleet_run(&options, next_path, &l, take_three, &taken, &err), HL_OK);
    assert_int_equal(taken, 3);
}

static void test_is_many(void **paths)
{
    const list *l = *paths;
    assert_true(hl_fleet_is_many(l->paths[3]));
    assert_true(hl_fleet_is_many(l->paths[5]));
    assert_false(hl_fleet_is_many(l->paths[0]));
    assert_false(hl_fleet_is_many(l->paths[2]));
    assert_false(hl_fleet_is_many(l->paths[4]));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_threads), cmocka_unit_test(test_told),    cmocka_unit_test(test_print),
        cmocka_unit_test(test_stopped), cmocka_unit_test(test_is_many),
    };
    return cmocka_run_group_tests(tests, start, end);
}
