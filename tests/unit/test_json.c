/* test_json.c - what we write, an independent reader (jansson) reads back the same.
 *
 * Escapes: RFC 8259, section 7.  '<', U+2028 and U+2029 are escaped so that a string may be laid into
 * a page.  Values are invented; the inch pair is NIST SP 811, appendix B.8 (1 in = 25.4 mm). */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <jansson.h>

#include "json.h"

static json_t *read_back(hl_text *text)
{
    json_error_t error;
    assert_false(text->failed);
    json_t *root = json_loadb(text->data, text->size, JSON_REJECT_DUPLICATES, &error);
    if (!root)
        fail_msg("%s at %d:%d in %s", error.text, error.line, error.column, text->data);
    return root;
}

static void test_strings_come_back(void **state)
{
    (void)state;
    static const char *const strings[] = {
        "",
        "key_dip",
        "Buc\xC3\xA9phale, gros \"grand\"",
        "back\\slash / tab\t line\n bell\a delete\x7f",
        "</script><svg onload=alert(1)>",
        "\xE2\x80\xA8 and \xE2\x80\xA9",
        "\xF0\x9F\x8E\xB9",
    };
    for (size_t i = 0; i < sizeof strings / sizeof *strings; i++) {
        hl_text text = {0};
        hl_json json = {.out = &text};
        hl__json_open(&json, NULL, '{', false);
        hl__json_string(&json, "value", strings[i]);
        hl__json_close(&json, '}');
        json_t *root = read_back(&text);
        assert_string_equal(json_string_value(json_object_get(root, "value")), strings[i]);
        assert_null(strchr(text.data, '<'));
        assert_null(strstr(text.data, "\xE2\x80\xA8"));
        for (const char *c = text.data; *c; c++)
            assert_true((unsigned char)*c >= 0x20 || *c == '\n');
        json_decref(root);
        hl__text_free(&text);
    }
}

static void test_broken_utf8_becomes_the_replacement(void **state)
{
    (void)state;
    hl_text text = {0};
    hl_json json = {.out = &text};
    hl__json_open(&json, NULL, '[', true);
    hl__json_string(&json, NULL,
                    "a\xFF"
                    "b");
    hl__json_close(&json, ']');
    json_t *root = read_back(&text);
    assert_string_equal(json_string_value(json_array_get(root, 0)), "a\xEF\xBF\xBD"
                                                                    "b");
    json_decref(root);
    hl__text_free(&text);
}

static void test_amounts_are_exact_decimals(void **state)
{
    (void)state;
    static const struct {
        hl_amount value;
        hl_unit unit;
        const char *want;
    } cases[] = {
        {10000000, HL_MM, "[10]\n"},    {9900000, HL_MM, "[9.9]\n"},
        {-50000, HL_MM, "[-0.05]\n"},   {1, HL_MM, "[0.000001]\n"},
        {375000, HL_TURN, "[0.375]\n"}, {25400000, HL_IN, "[1]\n"},
        {1587500, HL_IN, "[0.0625]\n"}, {9999980, HL_IN, "[0.3937]\n"},
        {-25400, HL_IN, "[-0.001]\n"},  {0, HL_G, "[0]\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_text text = {0};
        hl_json json = {.out = &text};
        hl__json_open(&json, NULL, '[', true);
        hl__json_amount(&json, NULL, cases[i].value, cases[i].unit);
        hl__json_close(&json, ']');
        assert_string_equal(text.data, cases[i].want);
        json_decref(read_back(&text));
        hl__text_free(&text);
    }
}

static void test_shapes_nest(void **state)
{
    (void)state;
    hl_text text = {0};
    hl_json json = {.out = &text};
    hl__json_open(&json, NULL, '{', false);
    hl__json_number(&json, "schema", 1);
    hl__json_open(&json, "empty", '[', false);
    hl__json_close(&json, ']');
    hl__json_open(&json, "list", '[', false);
    for (int i = 0; i < 2; i++) {
        hl__json_open(&json, NULL, '{', true);
        hl__json_bool(&json, "ready", i == 1);
        hl__json_null(&json, "note");
        hl__json_string(&json, "none", NULL);
        hl__json_close(&json, '}');
    }
    hl__json_close(&json, ']');
    hl__json_double(&json, "ratio", 5.1);
    hl__json_double(&json, "unknown", NAN);
    hl__json_close(&json, '}');
    json_t *root = read_back(&text);
    assert_int_equal(json_integer_value(json_object_get(root, "schema")), 1);
    assert_int_equal(json_array_size(json_object_get(root, "empty")), 0);
    json_t *second = json_array_get(json_object_get(root, "list"), 1);
    assert_true(json_is_true(json_object_get(second, "ready")));
    assert_true(json_is_null(json_object_get(second, "note")));
    assert_true(json_is_null(json_object_get(second, "none")));
    assert_true(json_real_value(json_object_get(root, "ratio")) == 5.1);
    assert_true(json_is_null(json_object_get(root, "unknown")));
    assert_int_equal(text.data[text.size - 1], '\n');
    json_decref(root);
    hl__text_free(&text);
}

/* A sheet that could not even be opened still gives a program its object. */
static void test_an_error_is_an_object_too(void **state)
{
    (void)state;
    const hl_err bad = {
        .code = HL_E_SHEET, .file = "x<y.csv", .line = 3, .column = 2, .what = "no", .todo = "yes"};
    hl_text text = {0};
    hl_err err;
    assert_int_equal(hl_error_json(&text.data, &text.size, "x<y.csv", &bad, 1, &err), HL_OK);
    json_t *root = read_back(&text);
    assert_int_equal(json_integer_value(json_object_get(root, "schema")), HL_SCHEMA);
    assert_true(json_is_false(json_object_get(root, "ready")));
    assert_true(json_is_null(json_object_get(root, "book")));
    assert_int_equal(json_array_size(json_object_get(root, "findings")), 0);
    json_t *error = json_array_get(json_object_get(root, "errors"), 0);
    assert_string_equal(json_string_value(json_object_get(error, "file")), "x<y.csv");
    assert_int_equal(json_integer_value(json_object_get(error, "line")), 3);
    assert_string_equal(json_string_value(json_object_get(error, "todo")), "yes");
    json_decref(root);
    hl_free(text.data);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_strings_come_back),
        cmocka_unit_test(test_broken_utf8_becomes_the_replacement),
        cmocka_unit_test(test_amounts_are_exact_decimals),
        cmocka_unit_test(test_shapes_nest),
        cmocka_unit_test(test_an_error_is_an_object_too),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
