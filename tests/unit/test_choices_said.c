/* test_choices_said.c - the audit names the schools that it judged by, in words and for programs; a
 * book's own pages and a comparison of two books name them too. */
#include "hammerline.h"
#include "shipped.h"

#include <jansson.h>

#define OTHER RULES_FOLDER "/tests/grand_schools.lua"

/* Without line ends, so that a sentence can be looked for whole. */
static char *flat(char *text)
{
    size_t n = 0;
    for (size_t i = 0; text[i] != '\0'; i++) {
        const char c = text[i] == '\n' ? ' ' : text[i];
        if (c != ' ' || (n > 0 && text[n - 1] != ' '))
            text[n++] = c;
    }
    text[n] = '\0';
    return text;
}

static void assert_said(char *text, const char *sentence)
{
    if (strstr(flat(text), sentence) == NULL)
        fail_msg("not said: %s\n%s", sentence, text);
    hl_free(text);
}

static judged judge_one(const char *book)
{
    return judge_by(open_shipped(book), "# book: grand\n" HEADS "A4,key_dip,10\n");
}

static void the_audit_names_them(void **state)
{
    (void)state;
    static const struct {
        const char *book, *sentence;
    } cases[] = {
        {"grand",
         "By this book: aftertouch is counted from the jack's escape; the key line is straight; the "
         "shift pedal clears the left string; the pedal lifts dampers a hair less than the key does."},
        {OTHER, "By this book: aftertouch is counted from the jack's first contact with its button; the key "
                "line is crowned, 1/32 in high in the middle; the shift pedal lets the hammer brush the left "
                "string; the pedal lifts dampers as far as the key does."},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = judge_one(cases[i].book);
        char *text;
        size_t size;
        hl_err err;
        assert_int_equal(hl_audit_text(&text, &size, j.audit, NULL, &err), HL_OK);
        assert_said(text, cases[i].sentence);
        put_away(&j);
    }
}

static void programs_read_them(void **state)
{
    (void)state;
    judged j = judge_one(OTHER);
    char *text;
    size_t size;
    hl_err err;
    assert_int_equal(hl_audit_json(&text, &size, j.audit, &err), HL_OK);
    json_t *audit = json_loads(text, JSON_REJECT_DUPLICATES, NULL);
    const json_t *choices = json_object_get(audit, "choices");
    assert_int_equal(json_object_size(choices), 4);
    assert_string_equal(json_string_value(json_object_get(choices, "aftertouch_from")), "contact");
    assert_string_equal(json_string_value(json_object_get(choices, "pedal_lift")), "equal");
    json_decref(audit);
    hl_free(text);
    put_away(&j);
}

static void books_show_them(void **state)
{
    (void)state;
    hl_book *one = open_shipped("grand"), *two = open_shipped(OTHER);
    char *text;
    size_t size;
    hl_err err;
    assert_int_equal(hl_book_text(&text, &size, two, NULL, &err), HL_OK);
    assert_said(text, "The key line is crowned, 1/32 in high in the middle (key_line: crowned; or straight). "
                      "[tests/grand_schools.lua:6]");
    assert_int_equal(hl_book_diff(&text, &size, one, two, NULL, &err), HL_OK);
    assert_said(text, "choice una_corda: clear becomes graze [tests/grand_schools.lua:7]");
    assert_int_equal(hl_book_diff(&text, &size, one, one, NULL, &err), HL_OK);
    assert_int_equal(size, 0);
    hl_free(text);
    hl_book_free(one);
    hl_book_free(two);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_audit_names_them),
        cmocka_unit_test(programs_read_them),
        cmocka_unit_test(books_show_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
