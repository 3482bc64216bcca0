/* test_fleet_page.c - one page for many pianos: sound HTML, the worst first by root causes, nothing that a
 * name can do.
 *
 * Sheets of the small book (small_book.h); all invented.  Figures are arithmetic. */
#include "hammerline.h"
#include "judged.h"

#include "page_check.h"

#define BLOW_OUT "C4,blow,48.5\nD4,blow,48.6\n" /* two causes */
#define DIP_OUT                                                                                              \
    "C4,key_dip,9.4\nC4,blow,46\nC4,let_off,1.6\nC4,aftertouch,0.5\n" /* aftertouch follows dip: one */

typedef struct counts {
    int per_step[64][HL_VERDICTS];
    int cures[64];
} counts;

/* As a fleet hands it out: the audit is kept. */
static void add(hl_fleet_page *page, const char *title, const char *rows, const char *link)
{
    char text[4000];
    snprintf(text, sizeof text, HEADS "%s", rows);
    judged j = judge(text);
    counts of = {{{0}}, {0}};
    hl_fleet_sheet sheet = {
        .title = title, .book = j.book, .judged = true, .ready = hl_audit_ready(j.audit), .audit = j.audit};
    for (int i = 0; i < hl_book_n_steps(j.book); i++)
        memcpy(of.per_step[i], hl_audit_tally(j.audit, i)->count, sizeof of.per_step[i]);
    memcpy(sheet.total, hl_audit_total(j.audit)->count, sizeof sheet.total);
    sheet.counts = (const int(*)[HL_VERDICTS])of.per_step;
    of.cures[small_adjuster(j.book, "capstan")] = 1;
    sheet.cures = of.cures;
    hl_err err;
    assert_int_equal(hl_fleet_page_add(page, &sheet, link, &err), HL_OK);
    put_away(&j); /* the page has copied what it needs */
}

static char *print_page(hl_fleet_page *page)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    assert_int_equal(hl_fleet_page_html(&text, &size, page, NULL, &err), HL_OK);
    assert_int_equal(strlen(text), size);
    return text;
}

static hl_fleet_page *new_page(void)
{
    hl_fleet_page *page = NULL;
    hl_err err;
    assert_int_equal(hl_fleet_page_new(&page, &err), HL_OK);
    return page;
}

static void the_worst_is_first_by_root_causes(void **state)
{
    (void)state;
    hl_fleet_page *page = new_page();
    add(page, "jobs/one-cause.csv", DIP_OUT, NULL);
    add(page, "jobs/two-causes.csv", BLOW_OUT, "two-causes.html");
    const hl_err error = {.code = HL_E_SHEET, .what = "no book is named", .todo = "name one"};
    const hl_fleet_sheet broken = {
        .title = "jobs/broken.csv", .errors = &error, .n_errors = 1, .code = HL_E_SHEET};
    hl_err err;
    assert_int_equal(hl_fleet_page_add(page, &broken, NULL, &err), HL_OK);
    char *text = print_page(page);
    const page_check checked = check_page(text);
    assert_int_equal(checked.drawings, 1);
    const char *list = strstr(text, "id=\"pianos\"");
    assert_non_null(list);
    const char *first = strstr(list, "broken.csv"), *second = strstr(list, "two-causes.csv"),
               *third = strstr(list, "one-cause.csv");
    assert_true(first && second && third && first < second && second < third);
    assert_non_null(strstr(text, "could not be judged: no book is named."));
    assert_non_null(strstr(text, "2 root causes, 2 out"));
    assert_non_null(strstr(text, "href=\"two-causes.html\""));
    assert_non_null(strstr(text, "0 ready, 2 not ready, 1 could not be judged."));
    hl_free(text);
    hl_fleet_page_free(page);
}

static void a_strange_name_is_text(void **state)
{
    (void)state;
    hl_fleet_page *page = new_page();
    add(page, "jobs/<script>alert(1)</script>&\"'\x1b[31m.csv", BLOW_OUT, NULL);
    char *text = print_page(page);
    check_page(text);
    assert_null(strstr(text, "<script"));
    assert_null(strchr(text, '\x1b'));
    hl_free(text);
    hl_fleet_page_free(page);
}

static void no_piano_is_a_page_too(void **state)
{
    (void)state;
    hl_fleet_page *page = new_page();
    char *text = print_page(page);
    check_page(text);
    assert_non_null(strstr(text, "Not all ready"));
    hl_free(text);
    hl_fleet_page_free(page);
}

/* Blocks of forty keep the heads near: 400 pianos are ten drawings. */
static void four_hundred_pianos_are_ten_drawings(void **state)
{
    (void)state;
    hl_fleet_page *page = new_page();
    for (int i = 0; i < 400; i++) {
        char name[40];
        snprintf(name, sizeof name, "hall-%03d.csv", i);
        add(page, name, i % 7 == 0 ? BLOW_OUT : "C4,blow,46\n", NULL);
    }
    char *text = print_page(page);
    assert_non_null(strstr(text, "400 pianos"));
    int n = 0;
    for (const char *at = strstr(text, "<svg"); at; at = strstr(at + 1, "<svg"))
        n++;
    assert_int_equal(n, 10);
    hl_free(text);
    hl_fleet_page_free(page);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_worst_is_first_by_root_causes),
        cmocka_unit_test(a_strange_name_is_text),
        cmocka_unit_test(no_piano_is_a_page_too),
        cmocka_unit_test(four_hundred_pianos_are_ten_drawings),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
