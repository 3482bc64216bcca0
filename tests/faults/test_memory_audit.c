/* The machine runs out of memory at every place where a sheet is read, judged, planned and printed:
 * the n-th allocation fails, alone or with all after it, for every n.
 *
 * Then memory is named as what is missing and nothing is given out; or, when the work could do without
 * that piece, what is given out is what it would have been.  Leaks are the sanitizers' to find.
 *
 * HAMMERLINE_LONG=1 leaves nothing out; else of work that takes thousands of allocations every
 * so-many-th is tried, the first and the last forty all. */
#include "memory_works.h"

#define EDGE 40 /* allocations at either end that are always tried */
#define MANY 40 /* how many between them, in a short run */

static bool is_long;

static made run_full(size_t i, const bench *at)
{
    made out = {NULL, 0};
    hl_err err = {0};
    const hl_code code = works[i].work(&out, at, &err);
    if (code != HL_OK)
        fail_msg("%s: %s:%d: %s; %s", works[i].name, err.file, err.line, err.what, err.todo);
    return out;
}

static void run_short(size_t i, const bench *at, const made *whole, long n, bool once)
{
    made out = {NULL, 0};
    hl_err err = {0};
    memory_once = once;
    memory_left = n;
    const hl_code code = works[i].work(&out, at, &err);
    memory_left = -1;
    bool good;
    if (code == HL_OK)
        good = out.size == whole->size && (out.text == NULL) == (whole->text == NULL) &&
               (out.text == NULL || memcmp(out.text, whole->text, out.size) == 0);
    else
        good = code == HL_E_MEMORY && err.code == HL_E_MEMORY && err.what[0] != '\0' && out.text == NULL;
    if (!good)
        fail_msg("%s: allocation %ld%s: code %d, %s:%d: %s", works[i].name, n,
                 once ? "" : " and all after it", (int)code, err.file, err.line, err.what);
    hl_free(out.text);
}

static void sweep(size_t i, const bench *at)
{
    const long before = memory_asked;
    made whole = run_full(i, at);
    const long n = memory_asked - before;
    const long step = is_long || n <= 2 * EDGE + MANY ? 1 : (n - 2 * EDGE) / MANY;
    long tried = 0;
    for (long k = 0; k < n; k += k < EDGE || k >= n - EDGE ? 1 : step) {
        run_short(i, at, &whole, k, false);
        run_short(i, at, &whole, k, true);
        tried += 2;
    }
    if (is_long)
        print_message("%-26s %6ld allocations, %6ld failed\n", works[i].name, n, tried);
    assert_true(tried > 0 || works[i].work == try_check_row || works[i].work == try_leads);
    hl_free(whole.text);
}

static void set_bench(bench *at, const char *text)
{
    hl_err err;
    *at = (bench){.text = text};
    snprintf(at->folder, sizeof at->folder, "%s/memory-XXXXXX", getenv("TMPDIR") ? getenv("TMPDIR") : "/tmp");
    assert_non_null(mkdtemp(at->folder));
    if (hl_book_open(&at->book, "grand", &shelf, &err) != HL_OK ||
        hl_book_open(&at->shop, "home_upright", &shelf, &err) != HL_OK ||
        hl_sheet_open_text(&at->sheet, "bench.csv", text, strlen(text), &err) != HL_OK ||
        hl_sheet_read(at->sheet, at->book, &err) != HL_OK ||
        hl_audit_run(&at->audit, at->sheet, at->book, NULL, &err) != HL_OK ||
        hl_plan_run(&at->plan, at->audit, NULL, &err) != HL_OK)
        fail_msg("%s:%d: %s; %s", err.file, err.line, err.what, err.todo);
}

static void close_bench(bench *at)
{
    hl_plan_free(at->plan);
    hl_audit_free(at->audit);
    hl_sheet_free(at->sheet);
    hl_book_free(at->shop);
    hl_book_free(at->book);
    rmdir(at->folder);
}

/* The first lines of the demo sheet: enough notes for evenness, and for every finding's words. */
static void test_the_demo_sheet(void **state)
{
    (void)state;
    static char text[1 << 16];
    int lines = 0;
    FILE *file = fopen(SHEETS_FOLDER "/demo-grand.csv", "rb");
    assert_non_null(file);
    size_t size = fread(text, 1, sizeof text - 1, file);
    fclose(file);
    for (size_t i = 0; i < size && !is_long; i++)
        if (text[i] == '\n' && ++lines == 32)
            size = i + 1;
    text[size] = '\0';
    bench at;
    set_bench(&at, text);
    for (size_t i = 0; i < sizeof works / sizeof *works; i++)
        sweep(i, &at);
    close_bench(&at);
}

/* A tidy sheet with everything: passes, adjustments before and after, two readers, a query (invented). */
static const char tidy[] =
    "# hammerline: tidy 1\n# book: grand\n# piano: invented\n# by: Kim\n"
    "note,step,reading,time,by,method,remark\n"
    ",pass,before,,,,\nA4,key_dip,9.9,,Ann,,\nC5,key_dip,10.0,,Ann,,\nD5,key_dip,10.4,,Ann,,\n"
    "A4,key_dip,10.1,,Ben,,\nC5,key_dip,10.4,,Ben,,\nD5,key_dip,10.0,,Ben,,\n"
    "A4,blow,44,,Ann,,low\nC5,blow,44,,Ann,,\nD5,blow,44,,Ann,,\nA4,blow,44.2,,Ann,,\n"
    "A4,capstan,raise 1/4 turn,,Ann,,\nC5,capstan,raise 1/4 turn,,Ann,,\nD5,capstan,raise 1/4 turn,,Ann,,\n"
    "A4,blow,41.6,,Ann,,\nC5,blow,41.4,,Ann,,\nD5,blow,41.5,,Ann,,\nE5,blow,skip,,Ann,,string off\n"
    "A4,query,the key clicks,,,,\n,pass,final,,,,\nA4,let_off,2.4,,Ann,,\nA4,drop,4,,Ann,,\n"
    "A4,aftertouch,0.4,,Ann,,\nA4,repetition,no_rise,,Ann,,\nA4,drop,void,,Ann,,\n"
    "A4,downweight,64,,,,\nA4,upweight,20,,,,\n";

static void test_a_tidy_sheet(void **state)
{
    (void)state;
    bench at;
    set_bench(&at, tidy);
    for (size_t i = 0; i < sizeof works / sizeof *works; i++)
        if (!works[i].book_only)
            sweep(i, &at);
    close_bench(&at);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_the_demo_sheet),
                                       cmocka_unit_test(test_a_tidy_sheet)};
    is_long = getenv("HAMMERLINE_LONG") != NULL;
    return cmocka_run_group_tests(tests, NULL, NULL);
}
