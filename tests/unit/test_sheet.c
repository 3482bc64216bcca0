/* test_sheet.c - good sheets: what a technician may write, and what the engine makes of it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "good_sheet.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))
#define MM(n)       ((hl_amount)((n)*1000) * 1000) /* thousandths of a mm, exact: arithmetic */

/* The event that counts, or NULL. */
static const hl_event *find(const hl_sheet *sheet, const char *step, const char *note)
{
    int number = note[0] == '\0' ? 0 : hl_note_parse(sheet->compass, note);
    long index = hl__sheet_latest(sheet, small_step(book, step), number);
    return index < 0 ? NULL : &sheet->events[index];
}

static hl_amount amount(const hl_sheet *sheet, const char *step, const char *note)
{
    const hl_event *event = find(sheet, step, note);
    assert_non_null(event);
    assert_int_equal(event->kind, HL_EVENT_VALUE);
    return event->amount;
}

/* One and the same C4, key dip 10.1 mm, blow 46 mm: whatever the spreadsheet. */
static void separators_and_marks(void **state)
{
    static const char *const SHEETS[] = {
        "note,key_dip,blow\nC4,10.1,46\n",
        "note;key_dip;blow\nC4;10,1;46\n",
        "note\tkey_dip\tblow\nC4\t10,1\t46\n",
        "note,key_dip,blow\nC4,\"10,1\",46\n",
        "note;key_dip;blow\nC4;10.1;46\n",
        "\xEF\xBB\xBFnote,key_dip,blow\r\nC4,10.1,46\r\n",
        "\xEF\xBB\xBF\"note\",\"key_dip\",\"blow\"\n\"C4\",\"10.1\",\"46\"\n",
        "sep=;\r\nnote;key_dip;blow\r\nC4;10,1;46\r\n",
        "\"sep=;\"\nnote;key_dip;blow\nC4;10,1;46",
        "note,key_dip,blow\rC4,10.1,46\r",
        "\n\n note , Key Dip , BLOW \n\n c4 , 10.1 , 46 \n\n",
        "key,key-dip,blow\n40,10.1,46\n",
        "blow,note,key_dip\n46,C4,10.1\n",
        "note,key_dip [mm],blow (MM)\nC4,10.1,46\n",
        "note,key_dip,blow,,,\nC4,10.1,46,,,\n,,,,,\n",
        "## ours: a remark\n# no colon, no fact\nnote,key_dip,blow\n# nor here\nC4,10.1,46\n",
        "# book: small,,\n\"# piano: a, b\",,\n,,\nnote,key_dip,blow\nC4,10.1,46\n",
        "note,step,reading\nC4,key_dip,10.1\nC4,blow,46\n",
        "reading;step;note\n10,1;key_dip;C4\n46;blow;C4\n",
    };
    (void)state;
    for (size_t i = 0; i < COUNT(SHEETS); i++) {
        hl_sheet *sheet = read_sheet(SHEETS[i]);
        assert_int_equal(amount(sheet, "key_dip", "C4"), MM(10.1));
        assert_int_equal(amount(sheet, "blow", "C4"), MM(46));
        assert_int_equal(sheet->n_events, 2);
        assert_null(find(sheet, "drop", "C4")); /* blank is not measured */
        hl_sheet_free(sheet);
    }
}

/* 1 in = 25.4 mm exactly (international yard and pound agreement, 1959). */
static void inches(void **state)
{
    static const struct {
        const char *head, *cell;
        hl_amount nanometres;
    } CASES[] = {
        {"key_dip", ".390 in", 9906000},
        {"key_dip", "\"3/8\"\"\"", 9525000},
        {"key_dip", "3/8\"", 9525000},
        {"key_dip [in]", "3/8", 9525000},
        {"key_dip [in]", ".390", 9906000},
        {"key_dip [in]", "10 mm", 10000000},
        {"blow [in]", "1 3/4", 44450000},
        {"blow [inch]", "1-3/4 in", 44450000},
        {"drop", "1/16 in", 1587500},
        /* With its unit written in the cell even an unlikely reading is taken as meant. */
        {"key_dip", "0.39 mm", 390000},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(CASES); i++) {
        char text[128], step[16];
        snprintf(text, sizeof text, "note,%s\nC4,%s\n", CASES[i].head, CASES[i].cell);
        snprintf(step, sizeof step, "%.*s", (int)strcspn(CASES[i].head, " "), CASES[i].head);
        hl_sheet *sheet = read_sheet(text);
        assert_int_equal(amount(sheet, step, "C4"), CASES[i].nanometres);
        hl_sheet_free(sheet);
    }
}

static void check_event(const hl_sheet *sheet, const char *step, const char *note, hl_event_kind kind,
                        int word)
{
    const hl_event *event = find(sheet, step, note);
    assert_non_null(event);
    assert_int_equal(event->kind, kind);
    if (kind == HL_EVENT_WORD) {
        assert_int_equal(event->word, word);
    }
}

/* Words in full or begun, go/no-go, skipped; the whole piano's steps in a row without a note. */
static void wide_words(void **state)
{
    hl_sheet *sheet = read_sheet("note,key_dip,repetition,damper_key,sharp_height,una_corda,remark\n"
                                 "C4,10,ok,Early,,,\n"
                                 "C#4,Within,WEAK,late,12,,\"sticks, a bit\"\n"
                                 "D4,over,w,skip,,,felt gone\n"
                                 ",,,,,off,\n"
                                 "88,under,s,,,,\n"
                                 "1,void,,,,,\n");
    (void)state;
    check_event(sheet, "repetition", "C4", HL_EVENT_WORD, -1);
    check_event(sheet, "damper_key", "C4", HL_EVENT_WORD, 0);
    check_event(sheet, "key_dip", "C#4", HL_EVENT_WITHIN, 0);
    check_event(sheet, "repetition", "Db4", HL_EVENT_WORD, 0);
    check_event(sheet, "damper_key", "C#4", HL_EVENT_WORD, 1);
    check_event(sheet, "key_dip", "D4", HL_EVENT_OVER, 0);
    check_event(sheet, "repetition", "D4", HL_EVENT_WORD, 0);
    check_event(sheet, "damper_key", "D4", HL_EVENT_SKIP, 0);
    check_event(sheet, "una_corda", "", HL_EVENT_WORD, 0);
    check_event(sheet, "key_dip", "C8", HL_EVENT_UNDER, 0);
    check_event(sheet, "repetition", "C8", HL_EVENT_WORD, 1);
    assert_string_equal(hl__text_at(sheet, find(sheet, "sharp_height", "C#4")->remark), "sticks, a bit");
    assert_int_equal(find(sheet, "sharp_height", "C#4")->line, 3);
    assert_int_equal(hl__event_column(sheet, find(sheet, "sharp_height", "C#4")), 5);
    assert_null(find(sheet, "key_dip", "A0"));
    assert_true(hl__sheet_withdrawn(sheet, small_step(book, "key_dip"), 1));
    assert_false(hl__sheet_withdrawn(sheet, small_step(book, "key_dip"), 2));
    hl_sheet_free(sheet);
}

/* The latest counts; void gives back the one before; a skip can be withdrawn too. */
static void history(void **state)
{
    hl_sheet *sheet = read_sheet("# hammerline: tidy 1\n# book: small\n"
                                 "note,step,reading,time,by,method,remark\n"
                                 "C4,key_dip,10.4,09:00,Ann,block,\n"
                                 "C4,key_dip,10.1,09:10,Ann,block,shimmed\n"
                                 "C4,blow,46,,,,\n"
                                 "C4,blow,void,,,,\n"
                                 "D4,drop,1.4,,,,\n"
                                 "D4,drop,1.5,,,,\n"
                                 "D4,drop,skip,,,,no light\n"
                                 "D4,drop,void,,,,\n"
                                 "D4,drop,void,,,,\n"
                                 "E4,drop,,,,,\n"
                                 ",una_corda,ok,,,,\n"
                                 ",pass,final,,,,\n"
                                 "E4,drop,1.6,,,,\n");
    (void)state;
    assert_true(sheet->tidy);
    assert_true(sheet->version == 1);
    assert_int_equal(amount(sheet, "key_dip", "C4"), MM(10.1));
    const hl_event *event = find(sheet, "key_dip", "C4");
    assert_string_equal(hl__text_at(sheet, event->time), "09:10");
    assert_string_equal(hl__text_at(sheet, event->by), "Ann");
    assert_string_equal(hl__text_at(sheet, event->method), "block");
    assert_string_equal(hl__text_at(sheet, event->remark), "shimmed");
    assert_int_equal(event->line, 5);
    assert_int_equal(hl__event_column(sheet, event), 3);
    assert_int_equal(sheet->events[event->before].amount, MM(10.4));
    assert_null(find(sheet, "blow", "C4"));
    assert_true(hl__sheet_withdrawn(sheet, small_step(book, "blow"), 40));
    assert_int_equal(amount(sheet, "drop", "D4"), MM(1.4));
    check_event(sheet, "una_corda", "", HL_EVENT_WORD, -1);
    assert_int_equal(sheet->n_passes, 2);
    assert_string_equal(sheet->passes[1], "final");
    assert_int_equal(find(sheet, "drop", "E4")->pass, 1);
    assert_int_equal(find(sheet, "drop", "D4")->pass, 0);
    hl_sheet_free(sheet);
}

/* Adjustments made, in the adjuster's own words. */
static void adjustments(void **state)
{
    static const struct {
        const char *step, *reading;
        hl_amount amount; /* millionths */
        bool no_amount;
        int word;
    } CASES[] = {
        {"capstan", "+1/4 turn", 250000, false, 0},
        {"capstan", "-1/8", -125000, false, 0},
        {"capstan", "1/4 turn", 250000, false, 0},
        {"capstan", "raise 1/4 turn", 250000, false, 0},
        {"capstan", "Lower 3/8", -375000, false, 0},
        {"front_punching", "-.25 mm", -250000, false, 0},
        {"front_punching", ".010 in", 254000, false, 0},
        {"front_punching", "remove .25", -250000, false, 0},
        {"backcheck", "bend toward the tail 1 mm", 1000000, false, 0},
        {"backcheck", "away from the tail", 0, true, -1},
        {"repetition_spring", "stronger 1 step", 1000000, false, 0},
        {"repetition_spring", "make weaker", 0, true, -1},
        {"repetition_spring", "stronger", 0, true, 1},
        {"key_lead", "add 3 g", 3000000, false, 0},
        {"capstan", "done", 0, true, 0},
    };
    (void)state;
    for (size_t i = 0; i < COUNT(CASES); i++) {
        char text[128];
        snprintf(text, sizeof text, "note,step,reading\nC4,%s,%s\n", CASES[i].step, CASES[i].reading);
        hl_sheet *sheet = read_sheet(text);
        assert_int_equal(sheet->n_events, 1);
        assert_int_equal(sheet->events[0].kind, HL_EVENT_ADJUSTMENT);
        assert_int_equal(sheet->events[0].step, small_adjuster(book, CASES[i].step));
        assert_int_equal(sheet->events[0].note, 40);
        assert_int_equal(sheet->events[0].amount, CASES[i].amount);
        assert_int_equal(sheet->events[0].no_amount, CASES[i].no_amount);
        assert_int_equal(sheet->events[0].word, CASES[i].word);
        hl_sheet_free(sheet);
    }
}

static void withdrawn_adjustment(void **state)
{
    hl_sheet *sheet =
        read_sheet("note,step,reading\nC4,capstan,+1/4 turn\nC4,capstan,1/8\nC4,capstan,void\n");
    (void)state;
    assert_false(sheet->events[0].withdrawn);
    assert_true(sheet->events[1].withdrawn);
    assert_int_equal(sheet->events[2].kind, HL_EVENT_VOID);
    assert_int_equal(sheet->events[2].step, -1);
    hl_sheet_free(sheet);
}

static void queries(void **state)
{
    hl_sheet *sheet = read_sheet("note,step,reading\nC4,query,feels heavy after let-off\nC4,query,closed\n");
    (void)state;
    assert_int_equal(sheet->events[0].kind, HL_EVENT_QUERY);
    assert_int_equal(sheet->events[0].note, 40);
    assert_int_equal(sheet->events[0].word, 0);
    assert_string_equal(hl__text_at(sheet, sheet->events[0].remark), "feels heavy after let-off");
    assert_int_equal(sheet->events[1].word, 1);
    hl_sheet_free(sheet);
}

/* The blank sheet and the journal just begun hold nothing yet, but are in order. */
static void nothing_measured(void **state)
{
    (void)state;
    hl_sheet *sheet = read_sheet("note,key_dip,blow\nA0,,\nA#0,,\n,,\n");
    assert_int_equal(sheet->n_events, 0);
    hl_sheet_free(sheet);
    sheet = read_sheet("# hammerline: tidy 1\nnote,step,reading\n");
    assert_int_equal(sheet->n_events, 0);
    hl_sheet_free(sheet);
}

static void read_once(void **state)
{
    hl_err err = {0};
    hl_sheet *sheet = read_sheet("note,blow\nC4,46\n");
    int n = -1;
    (void)state;
    assert_int_equal(hl_sheet_read(sheet, book, &err), HL_E_USAGE);
    hl_sheet_errors(sheet, &n);
    assert_int_equal(n, 0);
    hl_sheet_free(sheet);
    hl_sheet_free(NULL);
}

/* A file on disk reads like its text. */
static void from_a_file(void **state)
{
    static const char TEXT[] = "# book: small\nnote,blow\nC4,46\n";
    char path[] = "/tmp/hammerline-test-XXXXXX";
    hl_sheet *sheet = NULL;
    hl_err err = {0};
    (void)state;
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    assert_int_equal(write(fd, TEXT, sizeof TEXT - 1), sizeof TEXT - 1);
    close(fd);
    assert_int_equal(hl_sheet_open(&sheet, path, &err), HL_OK);
    assert_string_equal(hl_sheet_book_id(sheet), "small");
    assert_string_equal(hl_sheet_name(sheet), path);
    assert_int_equal(hl_sheet_read(sheet, book, &err), HL_OK);
    assert_int_equal(amount(sheet, "blow", "C4"), MM(46));
    hl_sheet_free(sheet);
    unlink(path);
    assert_int_equal(hl_sheet_open(&sheet, path, &err), HL_E_SHEET);
    assert_null(sheet);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(separators_and_marks),
        cmocka_unit_test(inches),
        cmocka_unit_test(wide_words),
        cmocka_unit_test(history),
        cmocka_unit_test(adjustments),
        cmocka_unit_test(withdrawn_adjustment),
        cmocka_unit_test(queries),
        cmocka_unit_test(nothing_measured),
        cmocka_unit_test(read_once),
        cmocka_unit_test(from_a_file),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
