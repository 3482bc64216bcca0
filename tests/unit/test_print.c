/* test_print.c - an audit as it is printed: the answer first, notes grouped, the act before the reason.
 *
 * Readings are invented, targets are those of the small book; expectations are plain arithmetic on
 * them, as in the tests of the judge, or the house's own way of writing. */
#include "hammerline.h"
#include "judged.h"

#include <jansson.h>

typedef hl_code printer(char **out, size_t *size, const hl_audit *audit, hl_err *err);

static hl_code print_wide(char **out, size_t *size, const hl_audit *audit, hl_err *err)
{
    return hl_audit_text(out, size, audit, NULL, err);
}

static hl_code print_narrow(char **out, size_t *size, const hl_audit *audit, hl_err *err)
{
    const hl_print print = {.width = 50};
    return hl_audit_text(out, size, audit, &print, err);
}

static hl_code print_color(char **out, size_t *size, const hl_audit *audit, hl_err *err)
{
    const hl_print print = {.color = true};
    return hl_audit_text(out, size, audit, &print, err);
}

/* The caller frees it with hl_free(). */
static char *print(const judged *j, printer *by)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    assert_int_equal(by(&text, &size, j->audit, &err), HL_OK);
    assert_int_equal(strlen(text), size);
    return text;
}

static void expect_in(const char *text, const char *part)
{
    if (!strstr(text, part))
        fail_msg("no \"%s\" in\n%s", part, text);
}

static void expect_not_in(const char *text, const char *part)
{
    if (strstr(text, part))
        fail_msg("\"%s\" in\n%s", part, text);
}

static void expect_rows_below(const char *text, size_t width)
{
    while (*text) {
        const size_t size = strcspn(text, "\n");
        if (size > width)
            fail_msg("wider than %zu: %.*s", width, (int)size, text);
        text += size + (text[size] == '\n');
    }
}

#define BLOWS                                                                                                \
    HEADS "C4,blow,48.0\nC#4,blow,48.0\nD4,blow,48.2\nE4,blow,46.0\nA4,query,feels heavy\n"                  \
          "G4,repetition,weak\n"

static void test_the_answer_comes_first(void **state)
{
    (void)state;
    judged ready = judge_finished(small_book(), "");
    char *text = print(&ready, print_wide);
    assert_int_equal(strncmp(text, "Ready: ", 7), 0);
    expect_not_in(text, "== ");
    hl_free(text);
    put_away(&ready);

    judged open = judge_finished(small_book(), "C4,blow,48.0\nD4,blow,void\n");
    text = print(&open, print_wide);
    assert_int_equal(strncmp(text, "Not ready: 1 reading out in 1 step, ", 36), 0);
    hl_free(text);
    put_away(&open);
}

static void test_notes_of_one_correction_share_a_line(void **state)
{
    (void)state;
    judged j = judge(BLOWS);
    char *text = print(&j, print_wide);
    expect_in(text, "\n  Raise the capstan about 1/4 turn: C4-D4\n      Reads 48.0-48.2 mm, high; want "
                    "45.0-47.0 mm.");
    expect_in(text, "Not measured: A0-B3 D#4 F4-C8");
    expect_in(text, "Then read again:");
    expect_in(text, "\nkey_dip: not measured at all (88 notes).\n");
    expect_in(text, "Judged \"weak\"");
    expect_in(text, "Settle, then close: A4, \"feels heavy\" (line 6)");
    expect_rows_below(text, 80);
    hl_free(text);
    text = print(&j, print_narrow);
    expect_rows_below(text, 50);
    hl_free(text);
    put_away(&j);
}

/* Words carry the verdict: without its colours the text is the same. */
static void test_colour_only_underlines(void **state)
{
    (void)state;
    judged j = judge(BLOWS);
    char *plain = print(&j, print_wide), *color = print(&j, print_color);
    assert_null(strchr(plain, '\033'));
    assert_non_null(strchr(color, '\033'));
    char *to = color;
    for (const char *from = color; *from; from++) {
        if (*from == '\033')
            from = strchr(from, 'm');
        else
            *to++ = *from;
    }
    *to = '\0';
    assert_string_equal(plain, color);
    hl_free(plain);
    hl_free(color);
    put_away(&j);
}

/* Capstan pitch, ratios: stated facts are not assumed, and are not explained. */
static void test_about_is_explained_once(void **state)
{
    (void)state;
    judged j = judge(BLOWS);
    char *text = print(&j, print_wide);
    expect_in(text, "\n\"About\": the amount rests on the book's figures");
    expect_in(text, "\n    # capstan_pitch: 1 mm/turn");
    expect_not_in(text, "drop_pitch");
    assert_null(strstr(strstr(text, "# capstan_pitch") + 1, "# capstan_pitch"));
    hl_free(text);
    put_away(&j);
    j = judge("# capstan_pitch: 0.9\n# travel_ratio: 5.2\n# capstan_ratio: 0.5\n" BLOWS);
    text = print(&j, print_wide);
    expect_not_in(text, "# capstan_pitch");
    hl_free(text);
    put_away(&j);
}

/* Each line that the footnote offers is one that a sheet takes. */
static void test_explained_facts_can_be_typed(void **state)
{
    (void)state;
    judged j = judge(BLOWS);
    char *text = print(&j, print_wide);
    hl_text sheet = {0};
    int n = 0;
    for (const char *line = strstr(text, "    # "); line; line = strstr(line + 1, "\n    # ")) {
        const char *start = strchr(line, '#');
        const char *colon = strchr(start, ':');
        const char *end = strstr(colon, "  ");
        const char *stop = colon + strcspn(colon, "\n");
        hl__text_add_n(&sheet, start, (size_t)((end && end < stop ? end : stop) - start));
        hl__text_char(&sheet, '\n');
        n++;
    }
    assert_true(n > 0);
    hl__text_add(&sheet, BLOWS);
    judged again = judge(sheet.data);
    char *clean = print(&again, print_wide);
    expect_not_in(clean, "    # ");
    hl_free(clean);
    hl_free(text);
    hl__text_free(&sheet);
    put_away(&again);
    put_away(&j);
}

/* 10 mm a turn of the small book's capstan: 1 mm pitch x 5 / 0.5. */
static void test_old_readings_name_what_was_done_since(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,blow,46.0\nC#4,blow,46.0\nD4,blow,46.0\nC4,capstan,+1/4 turn\n"
                           "C#4,capstan,+1/4 turn\nD4,capstan,-1/4 turn\n");
    char *text = print(&j, print_wide);
    expect_in(text, "Read again: C4 C#4\n      Reads 46.0 mm, but that was before work on the capstan (raise "
                    "1/4 turn):\n      expect 43.5 mm.");
    expect_in(text, "Read again: D4\n      Reads 46.0 mm, but that was before work on the capstan (lower 1/4 "
                    "turn):\n      expect 48.5 mm.");
    hl_free(text);
    put_away(&j);
}

static void test_empty_rows_and_columns_are_left_out(void **state)
{
    (void)state;
    judged j = judge(BLOWS);
    char *text = print(&j, print_wide);
    const char *table = strstr(text, "\nStep ");
    assert_non_null(table);
    expect_in(table, " pass");
    expect_in(table, " missing");
    expect_not_in(table, " doubt");
    expect_not_in(table, " stale");
    hl_free(text);
    put_away(&j);
}

/* A journal that ends in the middle of a row. */
static void test_a_torn_last_line_is_said(void **state)
{
    (void)state;
    static const char sheet[] = "# hammerline: tidy 1\n" HEADS "C4,blow,46\nD4,blow,4";
    judged j = {small_book(), NULL, NULL};
    hl_err err = {0};
    assert_int_equal(hl_sheet_open_text(&j.sheet, "bench.csv", sheet, sizeof sheet - 1, &err), HL_OK);
    assert_int_equal(hl_sheet_read(j.sheet, j.book, &err), HL_E_SHEET);
    assert_int_equal(hl_sheet_torn(j.sheet), 4);
    assert_int_equal(hl_audit_run(&j.audit, j.sheet, j.book, NULL, &err), HL_OK);
    char *text = print(&j, print_wide);
    expect_in(text, "The last line (4) was cut short while it was saved");
    hl_free(text);
    text = print(&j, hl_audit_json);
    expect_in(text, "\"torn\": 4");
    hl_free(text);
    put_away(&j);
}

static void test_sheet_text_cannot_repaint_the_verdict(void **state)
{
    (void)state;
    judged j = judge("# piano: grand \xE2\x80\xAE"
                     "ydaer\n" BLOWS);
    char *text = print(&j, print_wide);
    assert_null(strstr(text, "\xE2\x80\xAE"));
    hl_free(text);
    text = print(&j, hl_audit_json);
    json_t *root = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    assert_non_null(root);
    json_decref(root);
    hl_free(text);
    put_away(&j);
}

static json_t *find(json_t *findings, const char *step, const char *name)
{
    size_t i = 0;
    json_t *one = NULL;
    json_array_foreach(findings, i, one)
    {
        const char *step_id = json_string_value(json_object_get(one, "step"));
        const char *note = json_string_value(json_object_get(one, "name"));
        if (step_id && note && strcmp(step_id, step) == 0 && strcmp(note, name) == 0)
            return one;
    }
    fail_msg("no finding of %s at %s", step, name);
    return NULL;
}

static void test_json_holds_every_finding_but_passes(void **state)
{
    (void)state;
    judged j = judge(BLOWS);
    char *text = print(&j, hl_audit_json);
    json_error_t error;
    json_t *root = json_loads(text, JSON_REJECT_DUPLICATES, &error);
    if (!root)
        fail_msg("%s at line %d", error.text, error.line);
    const hl_tally *total = hl_audit_total(j.audit);
    json_t *findings = json_object_get(root, "findings");
    assert_int_equal(json_array_size(findings), total->count[HL_FAIL] + total->count[HL_MISSING]);
    assert_int_equal(json_integer_value(json_object_get(json_object_get(root, "counts"), "fail")),
                     total->count[HL_FAIL]);
    assert_true(json_is_false(json_object_get(root, "ready")));
    assert_string_equal(json_string_value(json_object_get(json_object_get(root, "book"), "id")), "small");

    json_t *blow = find(findings, "blow", "C4");
    assert_int_equal(json_integer_value(json_object_get(blow, "note")), 40);
    assert_true(json_number_value(json_object_get(blow, "reading")) == 48.0);
    assert_true(json_number_value(json_object_get(blow, "high")) == 47.0);
    assert_string_equal(json_string_value(json_object_get(blow, "why")), "high");
    assert_int_equal(json_integer_value(json_object_get(blow, "line")), 2);
    json_t *correction = json_array_get(json_object_get(blow, "corrections"), 0);
    assert_string_equal(json_string_value(json_object_get(correction, "adjuster")), "capstan");
    assert_true(json_number_value(json_object_get(correction, "amount")) == 0.25);
    assert_string_equal(json_string_value(json_object_get(correction, "unit")), "turn");
    assert_string_equal(json_string_value(json_object_get(correction, "way")), "raise");
    assert_true(json_is_true(json_object_get(correction, "assumed")));
    assert_string_equal(json_string_value(json_object_get(find(findings, "repetition", "G4"), "reading")),
                        "weak");
    assert_true(json_is_null(json_object_get(find(findings, "blow", "F4"), "reading")));
    json_decref(root);
    hl_free(text);
    put_away(&j);
}

/* What `sheet new` prints is a sheet: it reads without a complaint, and shows nothing yet. */
static void test_the_blank_sheet_reads_back(void **state)
{
    (void)state;
    hl_book *book = small_book();
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    assert_int_equal(hl_sheet_blank(&text, &size, book, &err), HL_OK);
    judged j = judge_by(book, text);
    const hl_tally *total = hl_audit_total(j.audit);
    assert_int_equal(total->count[HL_PASS], 0);
    assert_int_equal(total->count[HL_FAIL], 0);
    assert_true(total->count[HL_MISSING] > 88);
    assert_false(hl_audit_ready(j.audit));
    assert_string_equal(hl_sheet_book_id(j.sheet), "small");
    assert_non_null(strstr(text, "\nnote,"));
    assert_non_null(strstr(text, ",key_dip [mm],"));
    assert_null(strstr(text, ",friction")); /* computed: nobody reads it */
    assert_non_null(strstr(text, "\nC8,"));
    hl_free(text);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_answer_comes_first),
        cmocka_unit_test(test_notes_of_one_correction_share_a_line),
        cmocka_unit_test(test_colour_only_underlines),
        cmocka_unit_test(test_about_is_explained_once),
        cmocka_unit_test(test_explained_facts_can_be_typed),
        cmocka_unit_test(test_old_readings_name_what_was_done_since),
        cmocka_unit_test(test_empty_rows_and_columns_are_left_out),
        cmocka_unit_test(test_a_torn_last_line_is_said),
        cmocka_unit_test(test_sheet_text_cannot_repaint_the_verdict),
        cmocka_unit_test(test_json_holds_every_finding_but_passes),
        cmocka_unit_test(test_the_blank_sheet_reads_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
