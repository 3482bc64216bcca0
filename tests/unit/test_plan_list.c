/* test_plan_list.c - what comes of a plan: parts, lines between samples, text and JSON.
 *
 * The JSON is read back by an independent reader (jansson).  Readings and pianos are invented. */
#include "hammerline.h"
#include "planned.h"
#include "shipped.h"

#include <jansson.h>

/* ---- parts ----------------------------------------------------------------------------------- */

static int count_part(const planned *p, const char *adjuster, hl_amount size, bool sharps)
{
    int n = 0, a = small_adjuster(p->j.book, adjuster);
    const hl_part *parts = hl_plan_parts(p->plan, &n);
    for (int i = 0; i < n; i++)
        if (parts[i].adjuster == a && parts[i].size == size && parts[i].sharps == sharps)
            return parts[i].count;
    return 0;
}

/* A deep dip takes front paper; a shallow one gives paper back, which is no part to buy.
 * 0.3 mm too deep is 0.28 of paper: .010 in and a little, or .010 alone (arithmetic: 230/250). */
static void test_punchings_are_counted_by_size_and_colour(void **state)
{
    (void)state;
    planned p = plan_finished(small_book(),
                              "C4,key_dip,10.3\nC4,aftertouch,1.4\nD4,key_dip,10.3\nD4,aftertouch,1.4\n"
                              "F#4,key_dip,10.3\nF#4,aftertouch,1.4\nA4,key_dip,9.7\nA4,aftertouch,0.8\n",
                              NULL);
    int n = 0, pieces = 0;
    const hl_part *parts = hl_plan_parts(p.plan, &n);
    for (int i = 0; i < n; i++)
        pieces += parts[i].count;
    assert_true(moved(&p, "C4", "front_punching") > 0);
    assert_true(moved(&p, "A4", "front_punching") < 0);
    assert_int_equal(count_part(&p, "front_punching", MM(0.254), false), 2);
    assert_int_equal(count_part(&p, "front_punching", MM(0.254), true), 1);
    assert_int_equal(pieces, 3 + count_part(&p, "front_punching", MM(0.0762), false) +
                                 count_part(&p, "front_punching", MM(0.0762), true));
    put_plan_away(&p);
}

/* Eight grams too heavy at the key front: the box's leads of 6, 8, 11 and 14 g, further back than the
 * measuring point (common practice, no source), come to one piece. */
static void test_leads_are_counted_from_the_box(void **state)
{
    (void)state;
    planned p = plan_finished(open_shipped("grand"), "E5,downweight,57\nE5,upweight,34\n", NULL);
    int n = 0;
    const hl_part *parts = hl_plan_parts(p.plan, &n);
    assert_true(moved(&p, "E5", "key_lead") > 0);
    assert_int_equal(n, 1);
    assert_int_equal(parts[0].adjuster, small_adjuster(p.j.book, "lead"));
    assert_int_equal(parts[0].count, 1);
    assert_false(parts[0].sharps);
    put_plan_away(&p);
}

/* ---- lines ----------------------------------------------------------------------------------- */

/* Samples C3 45.5 and C4 46.5; one key up is 1/12 mm (arithmetic). */
static planned plan_on_line(const char *rows)
{
    static const char *const lines[] = {"blow"};
    const hl_plan_options options = {.lines = lines, .n_lines = 1};
    hl_text text = {0};
    hl__text_add(&text, "# samples: C3 C4\n" HEADS "C3,blow,45.5\nC4,blow,46.5\n");
    hl__text_add(&text, rows);
    planned p = plan_judged(judge_by(small_book(), text.data), &options);
    hl__text_free(&text);
    return p;
}

static const hl_on_line *on_line(const planned *p, const char *note)
{
    int n = 0, at = hl_note_parse(p->j.book->compass, note);
    const hl_on_line *lines = hl_plan_lines(p->plan, &n);
    for (int i = 0; i < n; i++)
        if (lines[i].note == at)
            return &lines[i];
    return NULL;
}

static void test_notes_between_samples_belong_on_their_line(void **state)
{
    (void)state;
    planned p = plan_on_line("F#3,blow,46\nG3,blow,45.3\n");
    assert_null(on_line(&p, "C3")); /* the samples are the line */
    assert_null(on_line(&p, "C4"));
    assert_null(on_line(&p, "D4")); /* no sample beyond */
    assert_int_equal(on_line(&p, "F#3")->target.aim, MM(46.0));
    assert_int_equal(on_line(&p, "F#3")->target.low, MM(45.25)); /* 0.75 is this book's evenness */
    assert_int_equal(on_line(&p, "A3")->target.aim, MM(46.3));   /* 45.5 + 9/12, to the book's 0.1 */
    assert_true(on_line(&p, "F#3")->read);
    assert_false(on_line(&p, "A3")->read);
    /* F#3 is on it; G3 should stand at 46.1 within 0.75, and does not: 1/8 turn lower gives 46.55 */
    assert_int_equal(count_moved(&p, "F#3"), 0);
    assert_int_equal(moved(&p, "G3", "capstan"), -TURN(0.125));
    assert_false(hl_plan_idle(p.plan));
    put_plan_away(&p);
}

/* The line stays inside the book's target, even where its band would reach out of it. */
static void test_a_line_does_not_leave_the_target(void **state)
{
    (void)state;
    static const char *const lines[] = {"blow"};
    const hl_plan_options options = {.lines = lines, .n_lines = 1};
    planned p = plan_judged(judge_by(small_book(), "# samples: C3 C4\n" HEADS "C3,blow,46.8\nC4,blow,46.8\n"),
                            &options);
    assert_int_equal(on_line(&p, "E3")->target.high, MM(47));
    put_plan_away(&p);
}

static void test_a_line_needs_two_samples(void **state)
{
    (void)state;
    static const char *const sheets[] = {
        "# samples: C3 C4\n" HEADS "C3,blow,45.5\n",
        "# samples: C3 C4\n" HEADS "C3,blow,45.5\nC4,blow,48\n",                 /* it does not pass */
        "# samples: C3 C4\n# breaks: E3\n" HEADS "C3,blow,45.5\nC4,blow,46.5\n", /* a break between */
    };
    static const char *const lines[] = {"blow"};
    const hl_plan_options options = {.lines = lines, .n_lines = 1};
    for (size_t i = 0; i < sizeof sheets / sizeof *sheets; i++) {
        judged j = judge_by(small_book(), sheets[i]);
        hl_plan *plan = NULL;
        hl_err err = {0};
        assert_int_equal(hl_plan_run(&plan, j.audit, &options, &err), HL_E_SHEET);
        assert_non_null(strstr(err.what, "blow"));
        put_away(&j);
    }
}

/* ---- printed --------------------------------------------------------------------------------- */

static const char FAULTS[] = "C4,blow,48\nC4,aftertouch,0.7\nD4,repetition,weak\nE4,aftertouch,0.2\n"
                             "F4,key_dip,10.3\nF4,aftertouch,1.4\n";

static const char *string_at(json_t *object, const char *key)
{
    json_t *value = json_object_get(object, key);
    assert_true(json_is_string(value));
    return json_string_value(value);
}

static void check_json_note(json_t *note)
{
    json_t *adjustments = json_object_get(note, "adjustments"), *one = json_array_get(adjustments, 0);
    assert_int_equal(json_integer_value(json_object_get(note, "note")), 40);
    assert_string_equal(string_at(note, "name"), "C4");
    assert_int_equal(json_array_size(adjustments), 1);
    assert_string_equal(string_at(one, "adjuster"), "capstan");
    assert_string_equal(string_at(one, "unit"), "turn");
    assert_string_equal(string_at(one, "way"), "raise");
    assert_true(json_is_true(json_object_get(one, "assumed")));
    assert_float_equal(json_number_value(json_object_get(one, "amount")), 0.25, 1e-9);
    assert_float_equal(json_number_value(json_object_get(json_object_get(note, "predicted"), "blow")), 45.5,
                       1e-9);
    assert_int_equal(json_array_size(json_object_get(note, "unmet")), 0);
}

static void test_json_says_what_the_issue_asks_for(void **state)
{
    (void)state;
    planned p = plan_finished(small_book(), FAULTS, NULL);
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    json_error_t error;
    assert_int_equal(hl_plan_json(&text, &size, p.plan, &err), HL_OK);
    json_t *root = json_loadb(text, size, JSON_REJECT_DUPLICATES, &error);
    assert_non_null(root);
    assert_int_equal(json_integer_value(json_object_get(root, "schema")), HL_SCHEMA);
    assert_string_equal(string_at(root, "sheet"), "bench.csv");
    assert_string_equal(string_at(json_object_get(root, "book"), "id"), "small");
    json_t *notes = json_object_get(root, "notes"), *parts = json_object_get(root, "parts");
    assert_int_equal(json_array_size(notes), 3);
    check_json_note(json_array_get(notes, 0));
    json_t *unmet_one = json_array_get(json_object_get(json_array_get(notes, 1), "unmet"), 0);
    assert_string_equal(string_at(unmet_one, "step"), "aftertouch");
    assert_string_equal(string_at(unmet_one, "why"), "geometry");
    assert_true(json_number_value(json_object_get(unmet_one, "by")) > 0);
    json_t *part = json_array_get(parts, json_array_size(parts) - 1);
    assert_string_equal(string_at(part, "adjuster"), "front_punching");
    assert_string_equal(string_at(part, "unit"), "mm");
    assert_true(json_is_integer(json_object_get(part, "count")));
    assert_true(json_is_number(json_object_get(part, "size")));
    json_decref(root);
    hl_free(text);
    put_plan_away(&p);
}

static void test_text_is_a_list_to_tick(void **state)
{
    (void)state;
    static const char *const said[] = {
        "Raise the capstan about 1/4 turn:",
        "40 C4",
        "== Parts ==",
        "Geometry:",
        "Make the repetition spring a step stronger:",
        "Afterwards, read again",
    };
    planned p = plan_finished(small_book(), FAULTS, NULL);
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    assert_int_equal(hl_plan_text(&text, &size, p.plan, NULL, &err), HL_OK);
    for (size_t i = 0; i < sizeof said / sizeof *said; i++)
        if (!strstr(text, said[i]))
            fail_msg("no \"%s\" in\n%s", said[i], text);
    assert_null(strchr(text, '\1'));
    assert_null(strchr(text, '\033'));
    hl_free(text);
    put_plan_away(&p);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_punchings_are_counted_by_size_and_colour),
        cmocka_unit_test(test_leads_are_counted_from_the_box),
        cmocka_unit_test(test_notes_between_samples_belong_on_their_line),
        cmocka_unit_test(test_a_line_does_not_leave_the_target),
        cmocka_unit_test(test_a_line_needs_two_samples),
        cmocka_unit_test(test_json_says_what_the_issue_asks_for),
        cmocka_unit_test(test_text_is_a_list_to_tick),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
