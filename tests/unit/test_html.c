/* test_html.c - the HTML record: what a sheet says is shown and never obeyed, and every mark is told.
 *
 * Readings are invented.  Escapes: HTML Living Standard, 13.3 (text and attributes), and XML 1.0, 2.2
 * and 2.4 (which characters there are).  Dates: arithmetic, also by `date -d "2026-11-20 +182 days"`. */
#include "judged.h"
#include "page_check.h"

#include "hash.h"
#include "html.h"
#include "report.h"
#include "wrap.h"

/* ---- escapers ------------------------------------------------------------------------------------- */

typedef struct escape_case {
    const char *text, *between_tags, *in_quotes, *drawn;
} escape_case;

static void expect_escape(void (*escape)(hl_text *, const char *), const char *text, const char *want)
{
    hl_text out = {0};
    escape(&out, text);
    assert_false(out.failed);
    assert_string_equal(out.data ? out.data : "", want);
    hl__text_free(&out);
}

static void test_each_place_has_its_escaper(void **state)
{
    (void)state;
    static const escape_case cases[] = {
        {"C4 & C5", "C4 &amp; C5", "C4 &amp; C5", "C4 &amp; C5"},
        {"</script><svg onload=a()>", "&lt;/script&gt;&lt;svg onload=a()&gt;",
         "&lt;/script&gt;&lt;svg onload=a()&gt;", "&lt;/script&gt;&lt;svg onload=a()&gt;"},
        {"a \"b\" 'c'", "a \"b\" 'c'", "a &quot;b&quot; &#39;c&#39;", "a &quot;b&quot; &#39;c&#39;"},
        {"`x`", "`x`", "&#96;x&#96;", "`x`"},
        {"&lt;", "&amp;lt;", "&amp;lt;", "&amp;lt;"},
        /* what a browser would obey or hide is shown: line separator, override, NEL, escape, bad UTF-8 */
        {"a\xE2\x80\xA8z", "a&lt;U+2028&gt;z", "a&lt;U+2028&gt;z", "a&lt;U+2028&gt;z"},
        {"a\xE2\x80\xAEz", "a&lt;U+202E&gt;z", "a&lt;U+202E&gt;z", "a&lt;U+202E&gt;z"},
        {"a\xC2\x85z", "a&lt;U+0085&gt;z", "a&lt;U+0085&gt;z", "a&lt;U+0085&gt;z"},
        {"a\x1B[2Jz", "a\\x1B[2Jz", "a\\x1B[2Jz", "a\\x1B[2Jz"},
        {"a\nb\tc", "a\\x0Ab\\x09c", "a\\x0Ab\\x09c", "a\\x0Ab\\x09c"},
        {"a\xFFz", "a\\xFFz", "a\\xFFz", "a\\xFFz"},
        {"a\xEF\xBF\xBFz", "a&lt;U+FFFF&gt;z", "a&lt;U+FFFF&gt;z", "a&lt;U+FFFF&gt;z"},
        {"21 \xC2\xB0"
         "C \xC3\xA9t\xC3\xA9",
         "21 \xC2\xB0"
         "C \xC3\xA9t\xC3\xA9",
         "21 \xC2\xB0"
         "C \xC3\xA9t\xC3\xA9",
         "21 \xC2\xB0"
         "C \xC3\xA9t\xC3\xA9"},
        {"46\1mm", "46\xC2\xA0mm", "46\xC2\xA0mm", "46\xC2\xA0mm"}, /* HL_GLUE: no break before a unit */
        {"", "", "", ""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        expect_escape(hl__escape_text, cases[i].text, cases[i].between_tags);
        expect_escape(hl__escape_attribute, cases[i].text, cases[i].in_quotes);
        expect_escape(hl__escape_svg, cases[i].text, cases[i].drawn);
    }
}

static void test_the_writer_closes_what_it_opens(void **state)
{
    (void)state;
    hl_text out = {0};
    hl_html html = {.out = &out};
    hl__html_open(&html, "p", "class", NULL, "id", "a\"b", NULL);
    hl__html_text(&html, "it's");
    hl__html_open(&html, "svg", NULL);
    hl__html_text(&html, "it's");
    hl__html_empty(&html, "path", "d", "M0 0", NULL);
    hl__html_close(&html);
    hl__html_close(&html);
    assert_int_equal(html.depth, 0);
    assert_string_equal(out.data, "<p id=\"a&quot;b\">it's<svg>it&#39;s<path d=\"M0 0\"/></svg></p>");
    hl__text_free(&out);
}

/* ---- pages ---------------------------------------------------------------------------------------- */

static char *print_report(const judged *j, const hl_report *asked)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    assert_int_equal(hl_report_html(&text, &size, j->audit, asked, &err), HL_OK);
    assert_int_equal(strlen(text), size); /* no NUL inside */
    return text;
}

static int count(const char *text, const char *what)
{
    int n = 0;
    for (const char *at = strstr(text, what); at; at = strstr(at + 1, what))
        n++;
    return n;
}

static void expect_holds(const char *text, const char *what)
{
    if (!strstr(text, what))
        fail_msg("the page does not hold: %s", what);
}

static void expect_lacks(const char *text, const char *what)
{
    const char *at = strstr(text, what);
    if (at)
        fail_msg("the page holds: %.80s", at);
}

static const char BENCH[] =
    "# piano: invented grand\n# date: 2026-11-20\n# by: Kim\n# breaks: C4\n# go gauge key_dip: block, "
    "9.9-10.1 mm\n" HEADS "C4,blow,46\nC#4,blow,46\nD4,blow,48\nE4,blow,46\nF4,blow,45\n"
    "C4,key_dip,within\nD4,key_dip,over\n"
    "C4,downweight,52\nC4,upweight,26\nD4,downweight,61\nD4,upweight,24\n"
    "C4,repetition,weak\n";

static void test_the_record_is_sound_and_complete(void **state)
{
    (void)state;
    static const hl_report asked = {.made = "2026-11-21"};
    static const char *const parts[] = {
        "Not ready",
        "invented grand",
        "2026-11-20",
        "Measured by</dt><dd>Kim",
        "Decision rule",
        "Hammerline 0",
        "Record made</dt><dd>2026-11-21",
        "id=\"charts\"",
        "id=\"out\"",
        "id=\"missing\"",
        "id=\"edits\"",
        "id=\"remarks\"",
        "id=\"sign\"",
        "id=\"numbers\"",
        "Checked, by somebody else",
        "default-src 'none'",
    };
    judged j = judge(BENCH);
    char *text = print_report(&j, &asked);
    const page_check page = check_page(text);
    assert_int_equal(page.drawings, 5); /* the board, dip, blow, mean weight, touchweight */
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        expect_holds(text,
                     strcmp(parts[i], "default-src 'none'") == 0 ? "default-src &#39;none&#39;" : parts[i]);
    expect_holds(text, hl_book_hash(j.book));
    expect_lacks(text, "http://www.w3.org/2000/svg\" onload");
    hl_free(text);
    put_away(&j);
}

static void test_a_chart_and_its_table_tell_the_same(void **state)
{
    (void)state;
    judged j = judge(BENCH);
    char *text = print_report(&j, &(hl_report){.numbers = true});
    /* a blow of 48 against 45-47 (small_book.h): named above its column, and in the table */
    expect_holds(text, "1 out of limits: D4.");
    expect_lacks(text, "ring uneven");
    expect_holds(text, ">D4</text>");
    expect_holds(text, "class=\"ring\"");
    expect_holds(text, "class=\"hatch\"");
    expect_holds(text, "<tr class=\"out\"><th scope=\"row\">D4</th><td class=\"number\">48.0</td>"
                       "<td class=\"number\">45.0-47.0</td><td>out, high</td></tr>");
    expect_holds(text, "<tr><th scope=\"row\">C4</th><td class=\"number\">46.0</td>"
                       "<td class=\"number\">45.0-47.0</td><td>passes</td></tr>");
    /* by gauge: no number is made up */
    expect_holds(text, "<th scope=\"row\">C4</th><td class=\"number\">within gauge</td>");
    expect_holds(text, "<th scope=\"row\">D4</th><td class=\"number\">over gauge</td>");
    /* no reading, no pass: 83 of 88 keys have no blow */
    expect_holds(text, "<th scope=\"row\">G4</th><td class=\"number\">\xE2\x80\x93</td>"
                       "<td class=\"number\">45.0-47.0</td><td>not measured</td></tr>");
    expect_holds(text, "83 not measured: ");
    hl_free(text);
    put_away(&j);
}

/* Dip 9.8-10.2, even 0.15 (small_book.h): 10.2 among tens is inside its limits and stands out; 10.3 is past
 * them. */
static void test_uneven_has_a_mark_of_its_own(void **state)
{
    (void)state;
    judged j = judge("note,step,reading\nC4,key_dip,10\nD4,key_dip,10\nE4,key_dip,10.2\nF4,key_dip,10\n"
                     "G4,key_dip,10\nA4,key_dip,10\nB4,key_dip,10.3\n");
    char *text = print_report(&j, &(hl_report){.numbers = true});
    expect_holds(text, "5 notes pass. 1 out of limits: B4. 1 uneven: E4.");
    expect_holds(text, "class=\"ring uneven\"");
    expect_holds(text, "class=\"ring\"");
    expect_holds(text, "in a triangle: uneven");
    expect_holds(text, ">out, uneven</td>");
    hl_free(text);
    put_away(&j);
}

/* Downweight and upweight as marks of their keys' shapes, joined by a line; no bars. */
static void test_touchweight_joins_down_and_up(void **state)
{
    (void)state;
    judged j =
        judge("note,step,reading\nC4,downweight,50\nC4,upweight,26\nC#4,downweight,70\nC#4,upweight,26\n");
    char *text = print_report(&j, &(hl_report){.numbers = true});
    expect_holds(text, "<h3>Touchweight</h3>");
    expect_holds(text, "2 notes are weighed. A thin line joins downweight, above, and upweight");
    expect_holds(text, "class=\"joint\"");
    expect_lacks(text, "class=\"bar");
    hl_free(text);
    put_away(&j);
}

static void test_hostile_text_shows_and_does_nothing(void **state)
{
    (void)state;
    static const char sheet[] =
        "# piano: </title></script><svg onload=alert(1)>\xE2\x80\xAE\n"
        "# place: \" onmouseover=\"alert(1)\n# by: <img src=x onerror=alert(1)>\n"
        "# remark: ]]> --> &lt;b&gt; javascript:alert(1)\n"
        "note,step,reading,by,method,remark\n"
        "C4,blow,49,'><script>alert(1)</script>,</table><script>,\xE2\x80\xA8</td><a href=javascript:a()>\n"
        "C4,query,<iframe src=//x>,,,\n,pass,</h2><style>*{display:none}</style>,,,\nC4,blow,46,,,\n";
    judged j = judge(sheet);
    for (int owner = 0; owner < 2; owner++) {
        const hl_report asked = {.owner = owner == 1};
        char *text = print_report(&j, &asked);
        check_page(text);
        expect_holds(text, "&lt;/title&gt;&lt;/script&gt;&lt;svg onload=alert(1)&gt;&lt;U+202E&gt;");
        expect_holds(text, "&lt;iframe src=//x&gt;");
        assert_int_equal(count(text, "<style>"), 1);
        expect_lacks(text, "\xE2\x80\xA8");
        expect_lacks(text, "\xE2\x80\xAE");
        hl_free(text);
    }
    put_away(&j);
}

static void test_the_same_audit_gives_the_same_bytes(void **state)
{
    (void)state;
    static const hl_report asked = {.made = "2026-11-21"};
    judged a = judge(BENCH), b = judge(BENCH);
    char *first = print_report(&a, &asked), *second = print_report(&b, &asked);
    assert_string_equal(first, second);
    hl_free(first);
    hl_free(second);
    put_away(&a);
    put_away(&b);
}

/* The page allows one style sheet, by its hash; a wrong hash would leave it bare. */
static void test_the_policy_names_the_style_it_has(void **state)
{
    (void)state;
    static const char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    judged j = judge(BENCH);
    char *text = print_report(&j, NULL), hex[65], said[67] = "";
    const char *style = strstr(text, "<style>") + 7, *end = strstr(style, "</style>");
    const char *base64 = strstr(text, "&#39;sha256-") + strlen("&#39;sha256-");
    hl_hash hash;
    hl__hash_start(&hash);
    hl__hash_add(&hash, style, (size_t)(end - style));
    hl__hash_end(&hash, hex);
    unsigned bits = 0;
    int have = 0, n = 0;
    for (; n < 64 && strchr(letters, *base64); base64++) {
        bits = bits << 6 | (unsigned)(strchr(letters, *base64) - letters);
        for (have += 6; have >= 4 && n < 64; have -= 4)
            said[n++] = "0123456789abcdef"[bits >> (have - 4) & 15];
    }
    assert_string_equal(said, hex);
    hl_free(text);
    put_away(&j);
}

static void test_earlier_readings_stand_beside_the_later(void **state)
{
    (void)state;
    judged j = judge("note,step,reading,time,by\n,pass,before,,\nC4,blow,49,09:00,Kim\nD4,blow,46,09:01,Kim\n"
                     ",pass,final,,\nC4,capstan,+1/4 turn,10:00,Kim\nC4,blow,46.2,10:01,Robin\n"
                     "C4,blow,46,10:02,Robin\nE4,blow,52,10:03,Robin\nE4,blow,void,10:04,Robin\n");
    char *text = print_report(&j, &(hl_report){.numbers = true});
    check_page(text);
    expect_holds(text, "class=\"before\"");
    expect_holds(text,
                 "<tr><th scope=\"row\">C4</th><td class=\"number\">49.0</td><td class=\"number\">46.0</td>");
    /* within the round: an edit, with both values; what was withdrawn is kept */
    expect_holds(text, "<th scope=\"row\">C4</th><td>blow</td><td>46.2\xC2\xA0mm</td><td>46.0\xC2\xA0mm</td>"
                       "<td>Robin</td><td>10:02</td>");
    expect_holds(text, "<th scope=\"row\">E4</th><td>blow</td><td>52.0\xC2\xA0mm</td><td>withdrawn</td>");
    expect_holds(text, "<th scope=\"row\">capstan</th><td class=\"number\">1</td><td>C4</td>");
    expect_holds(text, "Measured by</dt><dd>Kim, Robin</dd>");
    hl_free(text);
    put_away(&j);
}

/* ---- coming back ---------------------------------------------------------------------------------- */

static void test_weeks_after_a_date(void **state)
{
    (void)state;
    static const struct {
        const char *date, *weeks, *want; /* "": it can't be told */
    } cases[] = {
        {"2026-11-20", "26", "2027-05-21"}, {"2024-02-15", "2", "2024-02-29"}, /* a leap year */
        {"2023-02-15", "2", "2023-03-01"},  {"2100-02-22", "1", "2100-03-01"}, /* a century that is none */
        {"2026-12-31", "0", "2026-12-31"},  {"2026-11-20", "half", ""},        {"2026-11-20", "-3", ""},
        {"20 Nov 2026", "26", ""},          {"2026-13-01", "26", ""},          {"2026-02-30", "26", ""},
        {"2026/11/20", "26", ""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_text out = {0};
        assert_int_equal(hl__say_weeks_later(&out, cases[i].date, cases[i].weeks), cases[i].want[0] != '\0');
        assert_string_equal(out.data ? out.data : "", cases[i].want);
        hl__text_free(&out);
    }
}

static void test_no_return_is_invented(void **state)
{
    (void)state;
    judged silent = judge(BENCH);
    judged stated =
        judge("# date: 2026-11-20\n# return_weeks: 26\n# return_hours: 200\n" HEADS "C4,blow,46\n");
    char *text = print_report(&silent, NULL);
    assert_int_equal(count(text, "<dd class=\"fill\"></dd>"), 2);
    hl_free(text);
    text = print_report(&stated, NULL);
    expect_holds(text, "26 weeks after the date of this record: about 2027-05-21");
    expect_holds(text, "after 200 hours played");
    hl_free(text);
    put_away(&silent);
    put_away(&stated);
}

/* ---- the owner's page ------------------------------------------------------------------------------ */

static void test_the_owner_reads_plain_words(void **state)
{
    (void)state;
    static const hl_report asked = {.owner = true};
    /* words of the trade that an owner need not know */
    static const char *const jargon[] = {"let-off",  "aftertouch", "blow",     "capstan",    "drop",
                                         "upweight", "friction",   "naturals", "\xC2\xA0mm", "Kim"};
    judged j = judge(BENCH);
    char *text = print_report(&j, &asked);
    check_page(text);
    const char *body = strstr(text, "<main>");
    expect_holds(body, "The work is not finished yet.");
    /* blow and dip, in one line */
    expect_holds(body, "How far keys and hammers go: D4.");
    assert_int_equal(count(body, "How far keys and hammers go: D4."), 1);
    expect_holds(body, "40 to 60 % relative humidity");
    expect_holds(body, "technical reference guide"); /* with its source */
    for (size_t i = 0; i < sizeof jargon / sizeof *jargon; i++)
        expect_lacks(body, jargon[i]);
    hl_free(text);
    put_away(&j);
}

/* A step without plain words goes by its title, and by itself. */
static void test_the_owner_reads_a_title(void **state)
{
    (void)state;
    static const hl_report asked = {.owner = true};
    judged j = judge(BENCH);
    hl_step *blow = &j.book->steps[small_step(j.book, "blow")];
    blow->plain = "";
    blow->title = "Blow & more";
    char *text = print_report(&j, &asked);
    check_page(text);
    expect_holds(text, "<li>Blow &amp; more: D4.</li>");
    expect_holds(text, "<li>How far keys and hammers go: D4.</li>");
    hl_free(text);
    put_away(&j);
}

static void test_a_bare_number_has_no_unit(void **state)
{
    (void)state;
    judged j = judge("# temperature: 20.5\n# humidity: 46 %\n" HEADS "C4,blow,46\n");
    char *text = print_report(&j, NULL);
    expect_holds(text, "<dd>20.5 (no unit stated)</dd>");
    expect_holds(text, "<dd>46 %</dd>");
    hl_free(text);
    put_away(&j);
}

/* ---- the bench form -------------------------------------------------------------------------------- */

static void test_the_form_asks_for_what_is_read(void **state)
{
    (void)state;
    hl_book *book = small_book();
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    assert_int_equal(hl_form_html(&text, &size, book, &err), HL_OK);
    check_page(text);
    assert_int_equal(count(text, "<section class=\"stage\">"), book->n_stages);
    expect_holds(text, "blow</strong>: 45.0-47.0\xC2\xA0mm. Read it.");
    expect_holds(text, "ok, weak or strong");
    expect_lacks(text, "friction"); /* computed */
    assert_int_equal(count(text, ">A0</th>"), 1);
    assert_int_equal(count(text, ">C8</th>"), 1);
    hl_free(text);
    small_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_each_place_has_its_escaper),
        cmocka_unit_test(test_the_writer_closes_what_it_opens),
        cmocka_unit_test(test_the_record_is_sound_and_complete),
        cmocka_unit_test(test_a_chart_and_its_table_tell_the_same),
        cmocka_unit_test(test_uneven_has_a_mark_of_its_own),
        cmocka_unit_test(test_touchweight_joins_down_and_up),
        cmocka_unit_test(test_hostile_text_shows_and_does_nothing),
        cmocka_unit_test(test_the_same_audit_gives_the_same_bytes),
        cmocka_unit_test(test_the_policy_names_the_style_it_has),
        cmocka_unit_test(test_earlier_readings_stand_beside_the_later),
        cmocka_unit_test(test_weeks_after_a_date),
        cmocka_unit_test(test_no_return_is_invented),
        cmocka_unit_test(test_the_owner_reads_plain_words),
        cmocka_unit_test(test_the_owner_reads_a_title),
        cmocka_unit_test(test_a_bare_number_has_no_unit),
        cmocka_unit_test(test_the_form_asks_for_what_is_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
