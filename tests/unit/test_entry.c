/* test_entry.c - entries with marks: written, torn, and every later change of them seen.
 *
 * All rows are invented.  What must be left of a file is arithmetic on bytes; the hashes are FIPS 180-4
 * through base/hash.c, which has its own test. */
#include "entry_check.h"
#include "hash.h"
#include "sheet_folder.h"

#include <ctype.h>
#include <fcntl.h>
#include <strings.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>

#define TOP2                                                                                                 \
    "# hammerline: tidy 2\n# book: grand\n# piano: invented\n# distance_ratio: 5.1\n"                        \
    "note,step,reading,time,by,method,remark,entry\n"

/* ---- marks ---------------------------------------------------------------------------------- */

static void marks_are_read_as_they_are_written(void **state)
{
    (void)state;
    static const char *const good[] = {
        "31.1/2 q4tz-17",
        "31.1/2r q4tz-17",
        "31.2/2 q4tz-17 9c41e07b5d20 <41f0aabbccdd",
        "1.1/1 b-1 000000000000 <ffffffffffff #0123456789ab",
        "1.1/1 b-1 000000000000 <ffffffffffff #0123456789abcdef0000",
        "999999999.10000/10000r zzzzzzzz-999999999 000000000000 <ffffffffffff",
    };
    static const char *const bad[] = {
        "",
        "31",
        "0.1/1 b-1 000000000000 <ffffffffffff",
        "1.0/1 b-1",
        "1.2/1 b-1 000000000000 <ffffffffffff",
        "1.1/1 b-1",                            /* the last row has its hashes */
        "1.1/2 b-1 000000000000 <ffffffffffff", /* and no other row */
        "1.1/1 b-0 000000000000 <ffffffffffff",
        "01.1/1 b-1 000000000000 <ffffffffffff",
        "1.1/1 B-1 000000000000 <ffffffffffff",
        "1.1/1 b-1 00000000000 <ffffffffffff",
        "1.1/1 b-1 000000000000  <ffffffffffff",
        "1.1/1 b-1 000000000000 <ffffffffffff ",
        "1.1/1 b-1 000000000000 <ffffffffffff #0123",
        "1.1/1 b-1 000000000000 <ffffffffffff #0123456789ab0",
        "1.1/1  b-1 000000000000 <ffffffffffff",
        "1.1/1 abcdefghi-1 000000000000 <ffffffffffff",
        "1.1/1 b-9999999999 000000000000 <ffffffffffff",
    };
    for (size_t i = 0; i < sizeof good / sizeof *good; i++) {
        hl_mark mark;
        hl_text text = {0};
        assert_true(hl__mark_read(&mark, good[i]));
        hl__mark_add(&text, &mark);
        assert_string_equal(text.data, good[i]);
        hl__text_free(&text);
    }
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        hl_mark mark;
        if (hl__mark_read(&mark, bad[i])) {
            fail_msg("taken for a mark: %s", bad[i]);
        }
    }
}

static void what_is_hashed_is_the_meaning(void **state)
{
    (void)state;
    static const struct {
        const char *step, *a, *b;
        bool same;
    } cases[] = {
        {"blow", "46.5", "46,50", true},
        {"blow", ".390 in", "0.39 in", true},
        {"blow", "46.0", "46", true},
        {"blow", "46.5", "46.05", false},
        {"blow", "4.65", "46.5", false},
        {"blow", " 46.5 ", "46.5", true},
        {"capstan", "raise 0,250 turn", "raise 0.25 turn", true},
        {"blow", "1.234,5", "1.2345", false},
        {"blow", "12.10.2025", "12.1.2025", false},
        {"blow", "10", "1", false},
        {"blow", "100.", "100", true},
        {"blow", "void 31.10", "void 31.1", false},
        {"query", "2.50 mm?", "2.5 mm?", false},
        {"blow", "-0.5", "0.5", false},
        {"blow", "1 3/4", "1 3/40", false},
    };
    const hl_mark mark = {.order = 1, .row = 1, .rows = 2, .session = "b", .counter = 1};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        const char *const one[HL_MARK_CELLS] = {"C4", cases[i].step, cases[i].a, "", "", "", ""};
        const char *const two[HL_MARK_CELLS] = {"C4", cases[i].step, cases[i].b, "", "", "", ""};
        hl_text a = {0}, b = {0};
        hl__mark_add_row(&a, one, &mark);
        hl__mark_add_row(&b, two, &mark);
        if ((strcmp(a.data, b.data) == 0) != cases[i].same) {
            fail_msg("\"%s\" and \"%s\"", cases[i].a, cases[i].b);
        }
        hl__text_free(&a);
        hl__text_free(&b);
    }
}

/* ---- writing -------------------------------------------------------------------------------- */

static hl_journal_row row(const char *note, const char *step, const char *reading)
{
    return (hl_journal_row){.note = note, .step = step, .reading = reading, .by = "MK"};
}

static void add_entry(hl_journal *journal, const hl_journal_row *rows, size_t n, bool range)
{
    hl_err err;
    const hl_journal_entry entry = {.rows = rows, .n = n, .range = range};
    if (hl_journal_append_entry(journal, &entry, NULL, &err) != HL_OK) {
        fail_msg("%s; %s", err.what, err.todo);
    }
}

/* Two sessions: single rows, a range, work put between two readings, a row by hand among them. */
static char *make_sheet(size_t *size)
{
    write_file("sheet.csv", TOP2);
    hl_journal *journal = open_journal("sheet.csv");
    const hl_journal_row one[] = {row("C4", "blow", "46.25")};
    const hl_journal_row range[] = {row("D4", "repetition", "ok"), row("E4", "repetition", "ok"),
                                    row("F4", "repetition", "ok")};
    add_entry(journal, one, 1, false);
    assert_int_equal(hl_journal_order(journal), 1);
    add_entry(journal, range, 3, true);
    assert_int_equal(hl_journal_order(journal), 2);
    hl_journal_close(journal);
    FILE *file = fopen("sheet.csv", "a");
    assert_non_null(file);
    fputs("G4,blow,45.5,,MK,,by hand,\n", file);
    fclose(file);
    journal = open_journal("sheet.csv");
    const hl_journal_row between[] = {
        row("C4", "blow", "void 1.1"),
        row("C4", "capstan", "+1/4 turn"),
        {.note = "C4", .step = "blow", .reading = "46.25", .by = "MK", .remark = "twice, \"so\""}};
    add_entry(journal, between, 3, false);
    const hl_journal_row last[] = {row("A4", "blow", "44.125")};
    add_entry(journal, last, 1, false);
    hl_journal_close(journal);
    return read_file("sheet.csv", size);
}

static hl_entries check(const char *bytes, size_t size)
{
    hl_entries entries;
    hl_err err;
    if (hl__entries_check(&entries, "sheet.csv", bytes, size, &err) != HL_OK) {
        fail_msg("%s", err.what);
    }
    return entries;
}

static void assert_clean(const char *bytes, size_t size, size_t marked, size_t unmarked)
{
    hl_entries entries = check(bytes, size);
    if (entries.n_changes > 0) {
        fail_msg("change %d at line %d of:\n%s", (int)entries.changes[0].kind, entries.changes[0].line,
                 bytes);
    }
    assert_int_equal(entries.n_marked, marked);
    assert_int_equal(entries.n_unmarked, unmarked);
    hl__entries_free(&entries);
}

static void rows_are_marked_as_decided(void **state)
{
    (void)state;
    size_t size = 0;
    char *bytes = make_sheet(&size), *line = bytes, *next;
    static const char *const begins[] = {
        "C4,blow,46.25,,MK,,,1.1/1 ",        "D4,repetition,ok,,MK,,,2.1/3r ",
        "E4,repetition,ok,,MK,,,2.2/3r ",    "F4,repetition,ok,,MK,,,2.3/3r ",
        "G4,blow,45.5,,MK,,by hand,",        "C4,blow,void 1.1,,MK,,,3.1/3 ",
        "C4,capstan,+1/4 turn,,MK,,,3.2/3 ", "C4,blow,46.25,,MK,,\"twice, \"\"so\"\"\",3.3/3 ",
        "A4,blow,44.125,,MK,,,4.1/1 "};
    static const bool hashes[] = {true, false, false, true, false, false, false, true, true};
    static const bool facts[] = {true, false, false, false, false, false, false, true, false};
    line += strlen(TOP2);
    for (size_t i = 0; i < sizeof begins / sizeof *begins; i++, line = next + 1) {
        next = strchr(line, '\n');
        assert_non_null(next);
        *next = '\0';
        assert_memory_equal(line, begins[i], strlen(begins[i]));
        assert_int_equal(strstr(line, " <") != NULL, hashes[i]);
        assert_int_equal(strstr(line, " #") != NULL, facts[i]);
        *next = '\n';
    }
    assert_string_equal(line, "");
    assert_clean(bytes, size, 8, 1);
    free(bytes);
}

static void another_way_to_write_the_same_is_no_change(void **state)
{
    (void)state;
    size_t size = 0;
    char *bytes = make_sheet(&size);
    hl_text other = {0};
    const char *at = bytes;
    /* As a spreadsheet with decimal commas saves it: semicolons, CRLF, quotes, zeros. */
    hl__text_add(&other, "\xEF\xBB\xBF");
    for (const char *end; *at != '\0'; at = end + 1) {
        end = strchr(at, '\n');
        bool quoted = false;
        for (; at < end; at++) {
            quoted = quoted != (*at == '"');
            if (*at == ',' && !quoted) {
                hl__text_add(&other, ";");
            } else if (strncmp(at, "46.25,", 6) == 0 || strncmp(at, "45.5,", 5) == 0) {
                const bool long_one = at[1] == '6';
                hl__text_add(&other, long_one ? "\"46,250\"" : "45,50");
                at += long_one ? 4 : 3;
            } else {
                hl__text_char(&other, *at);
            }
        }
        hl__text_add(&other, "\r\n");
    }
    assert_non_null(strstr(other.data, "C4;blow;\"46,250\";"));
    assert_clean(other.data, other.size, 8, 1);
    write_bytes("other.csv", other.data, other.size);
    hl_journal *journal = open_journal("other.csv"); /* and it goes on there */
    append(journal, "B4", "blow", "44.5");
    hl_journal_close(journal);
    size_t more = 0;
    char *again = read_file("other.csv", &more);
    assert_non_null(strstr(again, "\r\nB4;blow;44,5;;;;;5.1/1 "));
    assert_clean(again, more, 9, 1);
    unlink("other.csv.lock");
    hl__text_free(&other);
    free(again);
    free(bytes);
}

/* ---- torn ------------------------------------------------------------------------------------- */

/* A kill between any two bytes of the last entry: it goes whole, and all before it stays as it was. */
static void a_cut_entry_goes_whole(void **state)
{
    (void)state;
    size_t size, left = 0;
    char *bytes = make_sheet(&size);
    char *begin = strstr(bytes, "C4,blow,void"), *end = strstr(bytes, "A4,blow");
    const size_t from = (size_t)(begin - bytes), to = (size_t)(end - bytes);
    for (size_t cut = from; cut <= to; cut++) {
        unlink("sheet.csv.torn");
        write_bytes("sheet.csv", bytes, cut);
        hl_journal *journal = open_journal("sheet.csv");
        const bool whole = cut == to || cut == to - 1; /* only the line end is missing */
        assert_int_equal(hl_journal_torn(journal)[0] != '\0', cut > from && !whole);
        char *now = read_file("sheet.csv", &left);
        assert_int_equal(left, whole ? cut : from);
        assert_memory_equal(now, bytes, left);
        free(now);
        now = read_file("sheet.csv.torn", &left);
        assert_int_equal(now != NULL, cut > from && !whole);
        if (now != NULL) {
            const size_t ended = bytes[cut - 1] == '\n';
            assert_int_equal(left, cut - from + 1 - ended);
            assert_memory_equal(now, bytes + from, cut - from);
            free(now);
        }
        append(journal, "C8", "blow", "47");
        append(journal, "C8", "blow", "47.5");
        hl_journal_close(journal);
        now = read_file("sheet.csv", &left);
        const size_t kept = whole ? to : from;
        assert_memory_equal(now, bytes, kept);
        assert_memory_equal(now + kept, "C8,blow,47,,,,,", 15);
        assert_int_equal(strncmp(now + kept + 15, whole ? "4.1/1 " : "3.1/1 ", 6), 0);
        assert_clean(now, left, whole ? 9 : 6, 1);
        free(now);
    }
    free(bytes);
}

/* Another session was killed while ours was open. */
static void a_cut_entry_of_another_session_goes_too(void **state)
{
    (void)state;
    size_t size, left = 0;
    char *bytes = make_sheet(&size);
    char *begin = strstr(bytes, "C4,blow,void"), *end = strstr(bytes, "C4,blow,46.25,,MK,,\"");
    const size_t from = (size_t)(begin - bytes), to = (size_t)(end - bytes);
    write_bytes("sheet.csv", bytes, from);
    hl_journal *journal = open_journal("sheet.csv");
    write_bytes("sheet.csv", bytes, to); /* two rows of three, each with its line end */
    append(journal, "C8", "blow", "47");
    assert_non_null(strstr(hl_journal_torn(journal), "+1/4 turn"));
    append(journal, "C8", "blow", "46");
    hl_journal_close(journal);
    char *now = read_file("sheet.csv", &left);
    assert_memory_equal(now, bytes, from);
    assert_memory_equal(now + from, "C8,blow,47,,,,,3.1/1 ", 21);
    assert_clean(now, left, 6, 1);
    free(now);
    free(bytes);
}

/* ---- changes ---------------------------------------------------------------------------------- */

static bool is_said(const hl_entries *entries, hl_entry_fault kind, int line)
{
    for (size_t i = 0; i < entries->n_changes; i++) {
        if (entries->changes[i].kind == kind && (line == 0 || entries->changes[i].line == line)) {
            return true;
        }
    }
    return false;
}

/* The lines of the sheet in this order, from 1; 0 ends. */
static char *pick_lines(const char *bytes, const int *lines)
{
    hl_text out = {0};
    for (; *lines != 0; lines++) {
        const char *at = bytes;
        for (int i = 1; i < *lines; i++) {
            at = strchr(at, '\n') + 1;
        }
        hl__text_add_n(&out, at, (size_t)(strchr(at, '\n') + 1 - at));
    }
    return out.data;
}

static void what_is_cut_copied_or_sorted_is_seen(void **state)
{
    (void)state;
    size_t size = 0;
    char *bytes = make_sheet(&size);
    /* lines: 6 = entry 1, 7-9 = entry 2, 10 = by hand, 11-13 = entry 3, 14 = entry 4 */
    static const struct {
        int lines[20];
        int kind, line; /* -1: nothing is said */
    } cases[] = {
        {{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14}, -1, 0},
        {{1, 2, 3, 4, 5, 6, 7, 9, 10, 11, 12, 13, 14}, HL_ENTRY_ROW_GONE, 7},
        {{1, 2, 3, 4, 5, 6, 8, 9, 10, 11, 12, 13, 14}, HL_ENTRY_ROW_GONE, 7},
        {{1, 2, 3, 4, 5, 6, 7, 8, 11, 12, 13, 14}, HL_ENTRY_ROW_GONE, 7},
        {{1, 2, 3, 4, 5, 7, 8, 9, 10, 11, 12, 13, 14}, HL_ENTRY_ENTRY_GONE, 6}, /* the first */
        {{1, 2, 3, 4, 5, 6, 11, 12, 13, 14}, HL_ENTRY_ENTRY_GONE, 7},           /* 2, and the row by hand */
        {{1, 2, 3, 4, 5, 6, 7, 8, 9, 14}, HL_ENTRY_ENTRY_GONE, 10},
        {{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 14},
         HL_ENTRY_BY_HAND,
         11}, /* line 10 may be entry 3, its mark cleared */
        {{1, 2, 3, 4, 5, 6, 7, 10, 11, 12, 13, 14},
         HL_ENTRY_ROW_GONE,
         7}, /* two are missing, one stands there */
        {{2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14}, HL_ENTRY_VERSION, 0},
        {{1, 2, 3, 4, 5, 6, 10, 11, 12, 13, 14}, HL_ENTRY_BY_HAND, 8}, /* a row by hand in place of 2 */
        {{1, 2, 3, 4, 5, 6, 7, 8, 9, 11, 12, 13, 14}, -1, 0},          /* the row by hand is nobody's */
        {{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12}, HL_ENTRY_UNFINISHED, 11},
        {{1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13}, -1, 0}, /* cut at the end: only a record can tell */
        {{1, 2, 3, 4, 5, 7, 6, 8, 9, 10, 11, 12, 13, 14}, HL_ENTRY_SORTED, 7},
        {{1, 2, 3, 4, 5, 14, 13, 12, 11, 10, 9, 8, 7, 6}, HL_ENTRY_SORTED, 7},
        {{1, 2, 3, 4, 5, 6, 7, 8, 9, 9, 10, 11, 12, 13, 14}, HL_ENTRY_TWICE, 10},
        {{1, 2, 3, 4, 5, 6, 6, 7, 8, 9, 10, 11, 12, 13, 14}, HL_ENTRY_TWICE, 7},
        {{1, 2, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14}, HL_ENTRY_FACT, 0}, /* piano */
        {{1, 2, 4, 3, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14}, HL_ENTRY_FACT, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char *text = pick_lines(bytes, cases[i].lines);
        hl_entries entries = check(text, strlen(text));
        if (cases[i].kind < 0 ? entries.n_changes > 0
                              : !is_said(&entries, (hl_entry_fault)cases[i].kind, cases[i].line)) {
            fail_msg("case %zu: %zu changes, the first %d at line %d", i, entries.n_changes,
                     entries.n_changes > 0 ? (int)entries.changes[0].kind : -1,
                     entries.n_changes > 0 ? entries.changes[0].line : 0);
        }
        hl__entries_free(&entries);
        free(text);
    }
    free(bytes);
}

static char *replace(const char *bytes, const char *from, const char *to)
{
    const char *at = strstr(bytes, from);
    assert_non_null(at);
    hl_text out = {0};
    hl__text_add_n(&out, bytes, (size_t)(at - bytes));
    hl__text_add(&out, to);
    hl__text_add(&out, at + strlen(from));
    return out.data;
}

static void an_edited_cell_is_named_by_its_row(void **state)
{
    (void)state;
    static const struct {
        const char *from, *to;
        int kind, line, last;
        const char *fact;
    } cases[] = {
        {"A4,blow,44.125", "A4,blow,45.125", HL_ENTRY_EDITED, 14, 14, NULL},
        {"A4,blow,44.125", "A#4,blow,44.125", HL_ENTRY_EDITED, 14, 14, NULL},
        {"+1/4 turn", "+3/4 turn", HL_ENTRY_EDITED, 11, 13, NULL},
        {"twice", "once", HL_ENTRY_EDITED, 11, 13, NULL},
        {"E4,repetition,ok,,MK,,,2.2/3r", "E4,repetition,ok,,MK,,,2.2/3", HL_ENTRY_EDITED, 8, 8, NULL},
        {"void 1.1", "void 1.10", HL_ENTRY_EDITED, 11, 13, NULL},
        {",4.1/1 ", ",4.1/1  ", HL_ENTRY_MARK, 14, 14, NULL},
        {",2.2/3r", ",2.2/3q", HL_ENTRY_MARK, 8, 8, NULL},
        {"# piano: invented", "# piano: another", HL_ENTRY_FACT, 0, 0, "piano"},
        {"# distance_ratio: 5.1", "# distance_ratio: 5.2", HL_ENTRY_FACT, 0, 0, "distance_ratio"},
        {"# piano: invented\n", "# piano: invented\n# scope: inspect only\n", HL_ENTRY_FACT, 0, 0, "scope"},
    };
    size_t size = 0;
    char *bytes = make_sheet(&size);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char *text = replace(bytes, cases[i].from, cases[i].to);
        hl_entries entries = check(text, strlen(text));
        assert_int_equal(entries.n_changes, 1);
        assert_int_equal(entries.changes[0].kind, cases[i].kind);
        assert_int_equal(entries.changes[0].line, cases[i].line);
        assert_int_equal(entries.changes[0].last, cases[i].last);
        if (cases[i].fact != NULL) {
            assert_string_equal(entries.changes[0].fact, cases[i].fact);
            assert_int_equal(entries.changes[0].order, 3); /* the second session's first */
        }
        hl__entries_free(&entries);
        free(text);
    }
    /* The cell cleared: an ordinary row by hand.  What follows it is as it was. */
    char *mark = strstr(bytes, "44.125,,MK,,,") + 13;
    hl_text cleared = {0};
    hl__text_add_n(&cleared, bytes, (size_t)(mark - bytes));
    hl__text_add(&cleared, "\n");
    assert_clean(cleared.data, cleared.size, 7, 2);
    hl__text_free(&cleared);
    free(bytes);
}

/* A rewritten entry whose own check fits is still another than the one that was linked. */
static void a_replaced_entry_does_not_fit_the_next(void **state)
{
    (void)state;
    size_t size = 0;
    char *bytes = make_sheet(&size), *end = strstr(bytes, "A4,blow");
    hl_mark mark;
    hl_text out = {0}, hashed = {0};
    const char *const cells[HL_MARK_CELLS] = {"C4", "blow", "45.25", "", "MK", "", ""};
    char *cell = strstr(bytes, "1.1/1"), *line_end = strchr(cell, '\n');
    *line_end = '\0';
    assert_true(hl__mark_read(&mark, cell));
    hl__mark_add_row(&hashed, cells, &mark);
    hl__mark_check(mark.check, hashed.data, hashed.size);
    hl__text_add_n(&out, bytes, (size_t)(strstr(bytes, "C4,blow") - bytes));
    hl__text_add(&out, "C4,blow,45.25,,MK,,,");
    hl__mark_add(&out, &mark);
    hl__text_add(&out, "\n");
    hl__text_add_n(&out, line_end + 1, (size_t)(end - line_end - 1));
    hl_entries entries = check(out.data, out.size);
    assert_int_equal(entries.n_changes, 1);
    assert_int_equal(entries.changes[0].kind, HL_ENTRY_REPLACED);
    assert_int_equal(entries.changes[0].line, 7);
    hl__entries_free(&entries);
    hl__text_free(&hashed);
    hl__text_free(&out);
    free(bytes);
}

/* ---- every byte -------------------------------------------------------------------------------- */

/* All that a sheet says, one cell after another; facts' names folded.  Not entry_mark.c's way. */
static void say_all(hl_text *out, const char *bytes, size_t size)
{
    hl_csv csv;
    hl_err err;
    int n, line;
    assert_int_equal(hl__csv_start(&csv, "", bytes, size, ',', &err), HL_OK);
    csv.one_line = true;
    for (;;) {
        if (hl__csv_row(&csv, &n, &line, &err) != HL_OK) {
            hl__text_add(out, "bad row\n");
            continue;
        }
        if (n == 0) {
            break;
        }
        while (n > 1 && csv.cells[n - 1].size == 0 && (n > 8 || csv.cells[0].text[0] == '#')) {
            n--;
        }
        const char *first = csv.cells[0].text + (csv.cells[0].text[0] == '#');
        if (first > csv.cells[0].text && strncasecmp(first + strspn(first, " \t"), "hammerline", 10) == 0) {
            for (const char *p = csv.cells[0].text; *p != '\0';
                 p++) { /* capitals and blanks are nothing here */
                hl__text_add_n(out, p, *p != ' ' && *p != '\t');
                if (out->size > 0) {
                    out->data[out->size - 1] = (char)tolower((unsigned char)out->data[out->size - 1]);
                }
            }
            n = 0;
        }
        for (int i = 0; i < n; i++) {
            bool folded = csv.cells[0].text[0] == '#' && i == 0;
            const bool head = strcasecmp(csv.cells[0].text, "note") == 0;
            bool word = false;
            for (const char *p = csv.cells[i].text; *p != '\0'; p++) {
                const bool gap = folded && (*p == ' ' || *p == '\t' || *p == '_' || *p == '-');
                folded = folded && *p != ':';
                if (gap || (!folded && !word && (*p == ' ' || *p == '\t') && csv.cells[0].text[0] == '#')) {
                    continue;
                }
                word = csv.cells[0].text[0] != '#' || (!folded && *p != ':');
                hl__text_char(out, (folded || head) && *p >= 'A' && *p <= 'Z' ? (char)(*p | 32) : *p);
            }
            hl__text_add(out, "|");
        }
        hl__text_add(out, "\n");
    }
    hl__csv_end(&csv);
}

static void every_changed_byte_is_seen(void **state)
{
    (void)state;
    size_t size, tried = 0, same = 0;
    char *bytes = make_sheet(&size);
    hl_text was = {0};
    say_all(&was, bytes, size);
    const char *by_hand = strstr(bytes, "G4,blow"), *after = strchr(by_hand, '\n') + 1;
    const char *heads = strstr(bytes, "note,step"), *heads_end = strchr(heads, '\n');
    for (size_t i = 0; i < size; i++) {
        if (bytes + i >= by_hand && bytes + i < after) {
            continue; /* not protected */
        }
        for (int value = 1; value < 256; value++) {
            if (value == (unsigned char)bytes[i]) {
                continue;
            }
            const char kept = bytes[i];
            bytes[i] = (char)value;
            hl_entries entries;
            hl_err err;
            const bool refused = hl__entries_check(&entries, "", bytes, size, &err) != HL_OK;
            tried++;
            if (!refused && entries.n_changes == 0) {
                hl_text is = {0};
                say_all(&is, bytes, size);
                /* A row that is no CSV is a bad row of the sheet, and a head that is none is refused: its
                 * reader names them. */
                const bool head = bytes + i >= heads && bytes + i < heads_end;
                if (strcmp(is.data, was.data) != 0 && strstr(is.data, "bad row") == NULL && !head) {
                    fail_msg("byte %zu, %d for %d, is not seen:\n%s", i, value, kept, bytes);
                }
                same += strcmp(is.data, was.data) == 0;
                hl__text_free(&is);
            }
            if (!refused) {
                hl__entries_free(&entries);
            }
            bytes[i] = kept;
        }
    }
    assert_true(tried > 100000);
    assert_true(same < tried / 50); /* a blank for a blank, a capital in a head */
    hl__text_free(&was);
    free(bytes);
}

/* ---- two at one sheet --------------------------------------------------------------------------- */

static void nothing_is_written_over_news(void **state)
{
    (void)state;
    write_file("sheet.csv", TOP2);
    hl_journal *one = open_journal("sheet.csv"), *two = open_journal("sheet.csv");
    const hl_journal_row mine = row("C4", "blow", "void");
    const hl_journal_entry careful = {.rows = &mine, .n = 1, .unless_changed = true};
    bool changed = true;
    hl_err err;
    append(one, "C4", "blow", "46");
    append(two, "C4", "blow", "45"); /* takes no heed */
    assert_int_equal(hl_journal_append_entry(one, &careful, &changed, &err), HL_E_SAVE);
    assert_true(changed);
    assert_int_equal(hl_journal_append_entry(one, &careful, &changed, &err),
                     HL_E_SAVE); /* nor the second time */
    assert_true(hl_journal_grew(one));
    assert_int_equal(hl_journal_append_entry(one, &careful, &changed, &err), HL_OK);
    assert_false(changed);
    assert_int_equal(hl_journal_append_entry(two, &careful, &changed, &err), HL_E_SAVE);
    assert_true(changed); /* news that it wrote over itself are news still */
    assert_true(hl_journal_grew(two));
    assert_false(hl_journal_grew(two));
    assert_int_equal(hl_journal_append_entry(two, &careful, &changed, &err), HL_OK);
    hl_journal_close(one);
    hl_journal_close(two);
    size_t size = 0;
    char *bytes = read_file("sheet.csv", &size);
    assert_clean(bytes, size, 4, 0); /* orders and links across both sessions */
    free(bytes);
}

/* The same size and the same second: the bytes tell. */
static void a_change_is_seen_without_a_clock(void **state)
{
    (void)state;
    write_file("sheet.csv", TOP2);
    hl_journal *journal = open_journal("sheet.csv");
    append(journal, "C4", "blow", "46");
    struct stat then;
    assert_int_equal(stat("sheet.csv", &then), 0);
    size_t size = 0;
    char *bytes = read_file("sheet.csv", &size);
    bytes[size - 2] = bytes[size - 2] == '0' ? '1' : '0'; /* the last digit of the mark */
    write_bytes("sheet.csv", bytes, size);
    const struct timespec times[2] = {then.st_atim, then.st_mtim};
    assert_int_equal(utimensat(AT_FDCWD, "sheet.csv", times, 0), 0);
    assert_true(hl_journal_grew(journal));
    hl_journal_close(journal);
    free(bytes);
}

static int n_held;

static void count_held(void *context, int seconds)
{
    assert_ptr_equal(context, &n_held);
    assert_true(seconds > 0);
    n_held++;
}

static void a_held_lock_is_said(void **state)
{
    (void)state;
    const hl_journal_wait wait = {count_held, &n_held};
    hl_journal *journal;
    hl_err err;
    int ready[2];
    char byte;
    n_held = 0;
    write_file("sheet.csv", TOP2);
    assert_int_equal(hl_journal_open_waiting(&journal, "sheet.csv", &wait, &err), HL_OK);
    append(journal, "C4", "blow", "45");
    assert_int_equal(n_held, 0);
    assert_int_equal(pipe(ready), 0);
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        const struct timespec while_working = {.tv_sec = 1};
        int lock = open("sheet.csv.lock", O_RDWR);
        bool locked = flock(lock, LOCK_EX) == 0 && write(ready[1], "", 1) == 1;
        nanosleep(&while_working, NULL);
        _exit(locked ? 0 : 1);
    }
    assert_int_equal(read(ready[0], &byte, 1), 1);
    append(journal, "C4", "blow", "46");
    assert_int_equal(n_held, 1);
    hl_journal_close(journal);
    int status = -1;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_int_equal(status, 0);
    close(ready[0]);
    close(ready[1]);
}

/* All rows of an entry that was refused are in the message or beside it. */
static void a_refused_entry_is_given_back_whole(void **state)
{
    (void)state;
    write_file("sheet.csv", TOP2);
    hl_journal *journal = open_journal("sheet.csv");
    const hl_journal_row rows[] = {row("C4", "blow", "46"), row("D4", "blow", "4\x01"),
                                   row("E4", "blow", "44")};
    const hl_journal_entry entry = {.rows = rows, .n = 3};
    hl_err err;
    assert_int_equal(hl_journal_append_entry(journal, &entry, NULL, &err), HL_E_SAVE);
    assert_non_null(strstr(err.what, "not saved: 3 rows, the first is C4,blow,46"));
    assert_string_equal(hl_journal_unsaved(journal), "C4,blow,46,,MK\nD4,blow,4\x01,,MK\nE4,blow,44,,MK");
    assert_file("sheet.csv", TOP2);
    hl_journal_close(journal);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(marks_are_read_as_they_are_written),
        cmocka_unit_test(what_is_hashed_is_the_meaning),
        IN_FOLDER(rows_are_marked_as_decided),
        IN_FOLDER(another_way_to_write_the_same_is_no_change),
        IN_FOLDER(a_cut_entry_goes_whole),
        IN_FOLDER(a_cut_entry_of_another_session_goes_too),
        IN_FOLDER(what_is_cut_copied_or_sorted_is_seen),
        IN_FOLDER(an_edited_cell_is_named_by_its_row),
        IN_FOLDER(a_replaced_entry_does_not_fit_the_next),
        IN_FOLDER(every_changed_byte_is_seen),
        IN_FOLDER(nothing_is_written_over_news),
        IN_FOLDER(a_change_is_seen_without_a_clock),
        IN_FOLDER(a_held_lock_is_said),
        IN_FOLDER(a_refused_entry_is_given_back_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
