/* test_sheet_bad.c - bad sheets: each fault is told once, with line, cell and what to do. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "bad_sheet.h"

#include <string.h>

#define COUNT(list) (sizeof(list) / sizeof *(list))

typedef struct bad_case {
    const char *text;
    int line, column;
    const char *what, *todo; /* parts of what is said */
} bad_case;

/* One fault in the sheet, so one error and no reading from its row. */
static void check_cases(const bad_case *cases, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        const bad_case *c = &cases[i];
        hl_sheet *sheet = NULL;
        hl_err err = {0};
        refuse(&sheet, c->text, strlen(c->text), &err);
        bool told = strstr(err.what, c->what) != NULL && strstr(err.todo, c->todo) != NULL;
        if (!told || err.line != c->line || err.column != c->column) {
            print_error("%d:%d %s; %s\n%s\n", err.line, err.column, err.what, err.todo, c->text);
        }
        assert_true(told);
        assert_int_equal(err.line, c->line);
        assert_int_equal(err.column, c->column);
        if (sheet != NULL) {
            int errors = 0;
            assert_string_equal(hl_sheet_errors(sheet, &errors)->what, err.what);
            assert_int_equal(errors, 1);
        }
        hl_sheet_free(sheet);
    }
}

static void whole_sheets(void **state)
{
    static const bad_case CASES[] = {
        {"", 1, 0, "the sheet is empty", "sheet new"},
        {"\xEF\xBB\xBF\r\n \n\n", 1, 0, "the sheet is empty", "sheet new"},
        {"\xFF\xFEn", 1, 0, "UTF-16", "UTF-8"},
        {"# book: small\n", 2, 0, "no header row", "name the columns"},
        {"note,blow\n", 1, 0, "no row below it, so nothing to judge", "a row for each note"},
        {"note,blow", 1, 0, "nothing to judge", "a row for each note"},
        {"note,blow\n\n,\n# a remark\n", 1, 0, "nothing to judge", "a row for each note"},
        {"note,step,reading\n", 1, 0, "nothing to judge", "a row for each note"},
        {"sep=|\nnote|blow\n", 1, 1, "names none of comma, semicolon and tab", "save the sheet"},
    };
    (void)state;
    check_cases(CASES, COUNT(CASES));
}

static void headers(void **state)
{
    static const bad_case CASES[] = {
        {"key_dip,blow\n10,46\n", 1, 1, "no column 'note'", "begin the header with 'note'"},
        {"note|key_dip\nC4|10\n", 1, 1, "no column 'note'", "comma, a semicolon or a tab"},
        {"step,reading\nblow,46\n", 1, 1, "no column 'note'", "note, step and reading"},
        {"note,key_dipp\nC4,10\n", 1, 2, "no step 'key_dipp'", "'key_dip'"},
        {"note,Blwo\nC4,46\n", 1, 2, "no step 'Blwo'", "'blow'"},
        {"note,blow,Key Dip,key_dip\nC4,46,10,10\n", 1, 4, "'key_dip' stands twice, first as column 3",
         "keep one"},
        {"note,key,blow\nC4,40,46\n", 1, 2, "stands twice", "keep one"},
        {"note,key_dip [g]\nC4,10\n", 1, 2, "key_dip is read in mm, not in g", "head"},
        {"note,downweight [mm]\nC4,50\n", 1, 2, "downweight is read in g, not in mm", "head"},
        {"note,key_dip [furlong]\nC4,10\n", 1, 2, "does not end in a unit", "[in]"},
        {"note,key_dip [mm\nC4,10\n", 1, 2, "does not end in a unit", "[in]"},
        {"note,key_dip [\nC4,10\n", 1, 2, "does not end in a unit", "[in]"},
        {"note,repetition [mm]\nC4,ok\n", 1, 2, "judged by a word", "out of the head"},
        {"note,mean_weight\nC4,38\n", 1, 2, "mean_weight is computed", "leave it out"},
        {"note,capstan\nC4,1\n", 1, 2, "adjusts", "tidy"},
        {"note,blow,,drop\nC4,46,5,1.5\n", 2, 3, "column 3 holds '5'", "name the column"},
        {"note,\"blow\nC4,46\n", 1, 2, "not closed on its line", "close it"},
        {"note,step,reading,tiem\nC4,blow,46,9\n", 1, 4, "no column 'tiem'", "'time'"},
        {"note,step,reading,,by\nC4,blow,46,9,A\n", 1, 4, "no column ''", "note, step, reading"},
        {"note,step,reading,step\nC4,blow,46,9\n", 1, 4, "'step' stands twice", "keep one"},
        {"# hammerline: tidy 1\nnote,blow\nC4,46\n", 2, 1, "calls itself tidy", "delete the line"},
        {"# hammerline: tidy 2\nnote,step,reading\nC4,blow,46\n", 2, 1, "no column 'entry'",
         "put the column back"},
    };
    (void)state;
    check_cases(CASES, COUNT(CASES));
}

static void rows(void **state)
{
    static const bad_case CASES[] = {
        {"note,blow\nC4,46,5\n", 2, 3, "3 cells, but the header has 2", "decimal comma"},
        {"note,key_dip,blow\nC4,10,2,46\n", 2, 4, "4 cells, but the header has 3",
         "with a point, put it in quotes"},
        {"note;key_dip;blow\nC4;10,2\n", 2, 2, "2 cells, but the header has 3", "separator"},
        {"note;blow\nC4;46;a;b\n", 2, 3, "4 cells, but the header has 2", "in quotes"},
        {"note,blow\nC4,46\nC4,47\n", 3, 1, "C4 has a row already", "one row a note"},
        {"note,blow\nC#4,46\nDb4,47\n", 3, 1, "C#4 has a row already", "tidy"},
        {"note,una_corda\n,ok\n,off\n", 3, 1, "a second row without a note", "one row"},
        {"note,blow\nC4,\"46\n", 2, 2, "not closed on its line", "close it"},
        {"note,blow\nC4,\"46\"x\n", 2, 2, "text after a closing quote", "twice"},
        {"note,blow\nC4,4\xFF"
         "6\n",
         2, 2, "not UTF-8", "UTF-8"},
        {"note,blow\nC4,46\n# dampers: 1-66\n", 3, 1, "below the header", "move it"},
    };
    (void)state;
    check_cases(CASES, COUNT(CASES));
}

static void notes(void **state)
{
    static const bad_case CASES[] = {
        {"note,blow\n0,46\n", 2, 1, "note 0 is outside this piano's 88 keys (A0-C8)", "check the note"},
        {"note,blow\n89,46\n", 2, 1, "note 89 is outside this piano's 88 keys (A0-C8)", "check the note"},
        {"note,blow\n99999999999999999999,46\n", 2, 1, "is outside this piano's 88 keys", "check the note"},
        {"note,blow\nD8,46\n", 2, 1, "D8 is outside this piano's 88 keys (A0-C8)", "compass"},
        {"# compass: 85 from A0\nnote,blow\nC8,46\n", 3, 1, "C8 is outside this piano's 85 keys (A0-A7)",
         "compass"},
        {"note,blow\nH4,46\n", 2, 1, "'H4' is not a note", "C4, F#3 or Gb3"},
        {"note,blow\n-1,46\n", 2, 1, "'-1' is not a note", "1 to 88"},
        {"note,blow\n4.5,46\n", 2, 1, "'4.5' is not a note", "1 to 88"},
        {"note,blow\nC4 ?,46\n", 2, 1, "is not a note", "1 to 88"},
        {"note,blow\n,46\n", 2, 2, "blow is read note by note", "name the note"},
        {"note,una_corda\nC4,ok\n", 2, 2, "once for the piano, not at C4", "whose note is empty"},
        {"note,sharp_height\nC4,12\n", 2, 2, "sharp_height is read on sharps only, and C4 is a natural",
         "blank"},
        {"note,key_height\nC#4,63\n", 2, 2, "key_height is read on naturals only, and C#4 is a sharp",
         "blank"},
    };
    (void)state;
    check_cases(CASES, COUNT(CASES));
}

static void cells(void **state)
{
    static const bad_case CASES[] = {
        {"note,key_dip\nC4,1e3\n", 2, 2, "C4 key_dip: '1e3'", ""},
        {"note,key_dip\nC4,0x10\n", 2, 2, "0x10", ""},
        {"note,key_dip\nC4,nan\n", 2, 2, "nan", ""},
        {"note,key_dip\nC4,ten\n", 2, 2, "ten", ""},
        {"note;key_dip\nC4;1.234,5\n", 2, 2, "1.234,5", ""},
        {"note,key_dip\nC4,10 g\n", 2, 2, "'10 g' is a weight", "in mm or in"},
        {"note,downweight\nC4,50 mm\n", 2, 2, "a length", "in g"},
        {"note,key_dip\nC4,10 furlongs\n", 2, 2, "furlongs", "mm, in"},
        {"note,key_dip\nC4,10%\n", 2, 2, "percentage", "amount"},
        {"note,key_dip\nC4,9999999999\n", 2, 2, "9999999999", ""},
        {"note,key_dip\nC4,within 10\n", 2, 2, "within", ""},
        {"note,key_dip\nC4,ok\n", 2, 2, "ok", ""},
        {"note,repetition\nC4,week\n", 2, 2, "'week' is not a word",
         "did you mean 'weak'? The words are: ok, weak, strong"},
        {"note,repetition\nC4,3\n", 2, 2, "'3' is not a word", "ok, weak, strong"},
        {"note,repetition\nC4,o\n", 2, 2, "'o' is not a word", "ok, weak, strong"},
        {"note,repetition\nC4,within\n", 2, 2, "'within' is not a word", "ok, weak, strong"},
        {"note,repetition\nC4,okk\n", 2, 2, "'okk' is not a word", "did you mean 'ok'"},
        /* Decimal marks: one kind in a sheet, and none that can be read in two ways. */
        {"note;key_dip\nC4;10,1\nD4;10.1\n", 3, 2, "a decimal point, after numbers with a decimal comma",
         "one"},
        {"note,key_dip\nC4,10.1\nD4,\"10,1\"\n", 3, 2, "a decimal comma, after", "one decimal mark"},
        {"note,key_dip\nC4,\"1,234\"\n", 2, 2, "read in two ways", "point"},
    };
    (void)state;
    check_cases(CASES, COUNT(CASES));
}

/* An inch among millimetres is 25.4 times off; the cell that says its unit is believed. */
static void inch_or_millimetre(void **state)
{
    static const bad_case CASES[] = {
        {"note,key_dip\nC4,0.39\n", 2, 2, "C4 key_dip: 0.39 mm is about 26 times below the target",
         "is it 0.39 in? Write '0.39 in', or '0.39 mm' if it is so"},
        {"note,key_dip\nC4,3/8\n", 2, 2, "3/8 mm is about 27 times below", "is it 3/8 in?"},
        {"note,key_dip [in]\nC4,10\n", 2, 2, "10 in is about 25 times above", "is it 10 mm?"},
        {"note,blow\nC4,1 3/4\n", 2, 2, "about 26 times below", "1 3/4 in"},
    };
    (void)state;
    check_cases(CASES, COUNT(CASES));
}

static void tidy_rows(void **state)
{
    static const bad_case CASES[] = {
        {"note,step,reading\nC4,blwo,46\n", 2, 2, "no step or adjuster 'blwo'", "did you mean 'blow'?"},
        {"note,step,reading\nC4,capstn,1/4 turn\n", 2, 2, "no step or adjuster 'capstn'", "'capstan'"},
        {"note,step,reading\nC4,,46\n", 2, 2, "names no step", "name the step"},
        {"note,step,reading\nC4,mean_weight,38\n", 2, 2, "mean_weight is computed", "leave it out"},
        {"note,step,reading\n,blow,46\n", 2, 2, "blow is read note by note", "name the note"},
        {"note,step,reading\nC4,una_corda,ok\n", 2, 2, "once for the piano", "whose note is empty"},
        {"note,step,reading\nH4,blow,46\n", 2, 1, "'H4' is not a note", "1 to 88"},
        {"note,step,reading\nC4,blow,1e3\n", 2, 3, "C4 blow: '1e3'", ""},
        {"note,step,reading\nC4,blow,void\n", 2, 3, "nothing of blow here to withdraw", "check the note"},
        {"note,step,reading\nC4,blow,46\nD4,blow,void\n", 3, 3, "nothing of blow here", "check the note"},
        {"note,step,reading\nC4,capstan,void\n", 2, 3, "nothing of capstan here", "check the note"},
        {"note,step,reading\n,capstan,done\n", 2, 3, "capstan is adjusted note by note", "name the note"},
        {"note,step,reading\nC4,capstan,rise 1/4\n", 2, 3, "capstan: 'rise 1/4' is not an adjustment",
         "'+1 turn', 'raise 1 turn', 'lower 1 turn' or 'done'"},
        {"note,step,reading\nC4,capstan,rise\n", 2, 3, "'rise' is not an adjustment",
         "did you mean 'raise'?"},
        {"note,step,reading\nC4,capstan,lower -1/4 turn\n", 2, 3, "a way and a sign",
         "'lower' without a sign"},
        {"note,step,reading\nC4,capstan,1/4 mm\n", 2, 3, "a length", ""},
        {"note,step,reading\nC4,pass,final\n", 2, 3, "names no note", "leave its note empty"},
        {"note,step,reading\n,pass,\n", 2, 3, "without a text", "reading"},
        {"note,step,reading\nC4,query,\n", 2, 3, "without a text", "reading"},
        {"note,step,reading\n,fact,5.2\n", 2, 3, "'5.2' states no fact", "travel_ratio = 5.2"},
        {"note,step,reading\n,fact,travel_rato = 5.2\n", 2, 3, "no fact 'travel_rato'", "'travel_ratio'"},
        {"note,step,reading\n,fact,compass = A0-A7\n", 2, 3, "compass can't change", "above the header"},
        /* The half of a row that a power cut left must not become a reading. */
        {"# hammerline: tidy 1\nnote,step,reading\nC4,blow,46\nC4,blow,4", 4, 0, "the last line is torn",
         "read that note again"},
        {"# hammerline: tidy 1\nnote,step,reading\nC4,blow,46\nC4,\"bl", 4, 0, "the last line is torn",
         "read that note again"},
    };
    (void)state;
    check_cases(CASES, COUNT(CASES));
}

static void fact_lines(void **state)
{
#define REST "\nnote,blow\nC4,46\n"
    static const bad_case CASES[] = {
        {"# travel_rato: 5" REST, 1, 1, "no fact 'travel_rato'", "did you mean 'travel_ratio'?"},
        {"# damper: 1-66" REST, 1, 1, "no fact 'damper'", "'dampers'"},
        {"# travel_ratio: five" REST, 1, 1, "the fact travel_ratio: 'five'", ""},
        {"# travel_ratio: 1,234" REST, 1, 1, "can be read in two ways", "point"},
        {"# travel_ratio: 5 mm" REST, 1, 1, "travel_ratio is a number with no unit, not 'mm'", "alone"},
        {"# key_front: 220 g" REST, 1, 1, "key_front is a number with mm, not 'g'", "the number and mm"},
        {"# capstan_pitch: 1 mm" REST, 1, 1, "a number with mm/turn, not 'mm'", "mm/turn"},
        {"# key_front: 220\n# place: Hall\n# key_front: 221" REST, 3, 1, "stated twice, first on line 1",
         "keep one"},
        {"# compass: 88" REST, 1, 1, "'88' is not a compass", "88 from A0"},
        {"# compass: C8-A0" REST, 1, 1, "is not a compass", "A0-C8"},
        {"# compass: 0 from A0" REST, 1, 1, "is not a compass", "A0-C8"},
        {"# compass: 108 from A0" REST, 1, 1, "is not a compass", "A0-C8"},
        {"# compass sharps: A0-C8" REST, 1, 1, "compass has no colour", "once"},
        /* One number alone would mean that no other note has a damper. */
        {"# dampers: 66" REST, 1, 1, "'66' does not say which notes have dampers", "'1-66'"},
        {"# dampers: 66-1" REST, 1, 1, "'66-1' does not say", "'1-66'"},
        {"# dampers: 1-89" REST, 1, 1, "note 89 is outside", "check the note"},
        {"# samples: ,;" REST, 1, 1, "the list of samples is empty", "A0 C4 C8"},
        {"# breaks: 52 20" REST, 1, 1, "the break '20' is out of order", "from the bass up"},
        {"# breaks: 20 88" REST, 1, 1, "the break '88' is out of order", "but the final one"},
        {"# breaks: 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17" REST, 1, 1, "more than 16 breaks",
         "last note"},
        {"# samples: H4" REST, 1, 1, "'H4' is not a note", ""},
        {"# book,small" REST, 1, 1, "'# book' has no colon", "'# book: small'"},
        {"# book: ../secret" REST, 1, 1, "'../secret' is not the id of a book", "never by path"},
        {"# book: /etc/passwd" REST, 1, 1, "is not the id of a book", "never by path"},
        {"# book: x.lua" REST, 1, 1, "is not the id of a book", "never by path"},
        {"# place: \"a\"b\n# owner: \x01" REST, 2, 1, "a control character", "delete it"},
    };
#undef REST
    (void)state;
    check_cases(CASES, COUNT(CASES));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(whole_sheets), cmocka_unit_test(headers),    cmocka_unit_test(rows),
        cmocka_unit_test(notes),        cmocka_unit_test(cells),      cmocka_unit_test(inch_or_millimetre),
        cmocka_unit_test(tidy_rows),    cmocka_unit_test(fact_lines),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
