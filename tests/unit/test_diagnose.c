/* test_diagnose.c - several readings of a note, and what they point to together.
 *
 * First the rules of telling, on the small book with conditions of our own (arithmetic); then the
 * shipped grand's table, whose causes and order come from the sources named in its file. */
#include "shipped.h"

#include "diagnose.h"

static void add_diagnosis(hl_book *book, const char *id, const char *when, hl_spread spread, int quiet_by)
{
    static hl_cause cause = {"a cause", "a test", "a way out"};
    if (book->diagnoses == NULL)
        book->diagnoses = hl__arena_array(&book->arena, 8, sizeof *book->diagnoses);
    assert_non_null(book->diagnoses);
    assert_true(book->n_diagnoses < 8);
    book->diagnoses[book->n_diagnoses++] = (hl_diagnosis){.id = id,
                                                          .title = id,
                                                          .when = small_formula(book, when),
                                                          .causes = &cause,
                                                          .n_causes = 1,
                                                          .spread = spread,
                                                          .quiet_by = quiet_by,
                                                          .source = "arithmetic",
                                                          .origin = {"test", 1}};
}

static judged diagnose(const char *when, const char *rows)
{
    hl_book *book = small_book();
    char text[1024] = "";
    add_diagnosis(book, "it", when, HL_SPREAD_NOTE, -1);
    if (rows[0] != '#')
        strcat(text, HEADS);
    strcat(text, rows);
    return judge_by(book, text);
}

/* What a condition may ask of C4, and whether the rows let it say yes. */
static void conditions(void **state)
{
    (void)state;
    static const struct {
        const char *when, *rows;
        bool holds;
    } cases[] = {
        {"high(downweight) and low(upweight)", "C4,downweight,70\nC4,upweight,15\n", true},
        {"high(downweight) and low(upweight)", "C4,downweight,70\nC4,upweight,25\n", false},
        {"high(downweight) and low(upweight)", "C4,downweight,70\n", false},
        /* nobody weighed it: that is no answer, not even to `not` */
        {"high(downweight) and not low(upweight)", "C4,downweight,70\n", false},
        {"high(downweight) and not low(upweight)", "C4,downweight,70\nC4,upweight,25\n", true},
        {"high(downweight) and missing(upweight)", "C4,downweight,70\n", true},
        {"high(downweight) and read(upweight)", "C4,downweight,70\nC4,upweight,25\n", true},
        {"read(blow)", "C4,blow,skip\n", false},
        {"read(blow)", "C4,blow,46\nC4,blow,void\n", false},
        {"passes(drop) and fails(repetition)", "C4,drop,1.4\nC4,repetition,weak\n", true},
        {"passes(drop) and fails(repetition)", "C4,drop,1.4\nC4,repetition,ok\n", false},
        {"passes(drop) and fails(repetition)", "C4,drop,2\nC4,repetition,weak\n", false},
        /* the gauge says which side, but no number */
        {"high(key_dip)", "C4,key_dip,over\n", true},
        {"key_dip > 1", "C4,key_dip,over\n", false},
        /* a capstan turned since: the blow that was read is not the blow that is */
        {"high(blow)", "C4,blow,48\n", true},
        {"high(blow)", "C4,blow,48\nC4,capstan,+1/8 turn\n", false},
        {"blow > 47", "C4,blow,48\nC4,capstan,+1/8 turn\n", false},
        {"read(blow)", "C4,blow,48\nC4,capstan,+1/8 turn\n", true},
        /* derived values take part, a model's guess at an unread step does not */
        {"friction > 30", "C4,downweight,81\nC4,upweight,16\n", true},
        {"aftertouch > 0", "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.6\n", false},
        {"missing(aftertouch) and read(blow)", "C4,key_dip,10\nC4,blow,46\nC4,let_off,1.6\n", true},
        /* facts, stated or the book's */
        {"blow / key_dip > travel_ratio - 0.5", "C4,blow,46\nC4,key_dip,10\n", true},
        {"blow / key_dip > travel_ratio - 0.5",
         "# travel_ratio: 5.2\nnote,step,reading\nC4,blow,46\nC4,key_dip,10\n", false},
        {"low(blow) and high(blow)", "C4,blow,46\n", false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = diagnose(cases[i].when, cases[i].rows);
        if ((told(&j, "it", "C4") != NULL) != cases[i].holds || count_told(&j) != (cases[i].holds ? 1 : 0))
            fail_msg("%s, with %s", cases[i].when, cases[i].rows);
        put_away(&j);
    }
}

/* The four naturals around E4 stand at 10.0, 10.0, 10.1, 10.1: their median is 10.05. */
static void neighbours_of_the_same_colour(void **state)
{
    (void)state;
    static const struct {
        const char *when, *rows;
        bool holds;
    } cases[] = {
        {"abs(key_dip - neighbours(key_dip)) > 0.14", "E4,key_dip,9.9\n", true},
        {"abs(key_dip - neighbours(key_dip)) > 0.16", "E4,key_dip,9.9\n", false},
        {"neighbours(key_dip) > 10.049 and neighbours(key_dip) < 10.051", "", true},
        {"neighbours(blow) > 0", "", false}, /* nobody read a blow */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char rows[256] = "C4,key_dip,10\nD4,key_dip,10.1\nF4,key_dip,10\nG4,key_dip,10.1\nD#4,key_dip,9\n";
        strcat(rows, cases[i].rows);
        judged j = diagnose(cases[i].when, rows);
        if ((told(&j, "it", "E4") != NULL) != cases[i].holds)
            fail_msg("%s", cases[i].when);
        put_away(&j);
    }
    judged j = diagnose("neighbours(key_dip) > 0", "C4,key_dip,10\nD4,key_dip,10\n");
    assert_int_equal(count_told(&j), 0); /* two tell nothing */
    put_away(&j);
}

/* With a graded aim the neighbours' lean is put on this note's own aim: no unevenness. */
static void neighbours_along_a_graded_target(void **state)
{
    (void)state;
    hl_book *book = small_book();
    hl_target *targets = (hl_target *)book->steps[small_step(book, "key_dip")].targets;
    for (int i = 0; i < HL_PITCHES; i++)
        targets[i] = (hl_target){MM(9), MM(10) + i * 10000, MM(12), true, true};
    add_diagnosis(book, "off", "abs(key_dip - neighbours(key_dip)) > 0.005", HL_SPREAD_NOTE, -1);
    /* C4 is pitch 48: the aims are 10.48, 10.50, 10.52, 10.53, 10.55; all but E4 lie on them */
    judged j = judge_by(book, HEADS "C4,key_dip,10.48\nD4,key_dip,10.50\nE4,key_dip,10.53\nF4,key_dip,10.53\n"
                                    "G4,key_dip,10.55\n");
    assert_int_equal(count_told(&j), 1);
    assert_non_null(told(&j, "off", "E4"));
    put_away(&j);
}

/* "Everywhere" is more than half of the notes that can be told, and of at least three. */
static void short_everywhere_or_on_one_note(void **state)
{
    (void)state;
    static const struct {
        const char *rows;
        int holds, told; /* 0: not told of the instrument */
        size_t of_notes;
    } cases[] = {
        {"C4,aftertouch,.5\nD4,aftertouch,.5\nE4,aftertouch,1.1\n", 2, 3, 0},
        {"C4,aftertouch,.5\nD4,aftertouch,.5\nE4,aftertouch,1.1\nF4,aftertouch,1.1\n", 0, 0, 2},
        {"C4,aftertouch,.5\nD4,aftertouch,1.1\nE4,aftertouch,1.1\n", 0, 0, 1},
        {"C4,aftertouch,.5\n", 0, 0, 1},
        {"C4,aftertouch,.5\nD4,aftertouch,.5\n", 0, 0, 2},
        {"C4,aftertouch,1.1\nD4,aftertouch,1.1\nE4,aftertouch,1.1\n", 0, 0, 0},
        {"C4,blow,46\n", 0, 0, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_book *book = small_book();
        char text[256] = HEADS;
        strcat(text, cases[i].rows);
        add_diagnosis(book, "on_one", "low(aftertouch)", HL_SPREAD_NOTE, 1);
        add_diagnosis(book, "everywhere", "low(aftertouch)", HL_SPREAD_WIDE, -1);
        judged j = judge_by(book, text);
        const hl_diagnosed *wide = told(&j, "everywhere", "");
        assert_int_equal(wide ? wide->holds : 0, cases[i].holds);
        assert_int_equal(wide ? wide->known : 0, cases[i].told);
        assert_int_equal(count_told(&j), (wide ? 1 : 0) + cases[i].of_notes);
        put_away(&j);
    }
}

static void who_silences_whom(void **state)
{
    (void)state;
    hl_book *book = small_book();
    add_diagnosis(book, "first", "high(downweight) and low(upweight)", HL_SPREAD_NOTE, -1);
    add_diagnosis(book, "second", "high(downweight)", HL_SPREAD_NOTE, 0);
    add_diagnosis(book, "third", "read(downweight)", HL_SPREAD_NOTE, 1);
    add_diagnosis(book, "one", "read(upweight)", HL_SPREAD_NOTE, 5);
    add_diagnosis(book, "two", "read(upweight)", HL_SPREAD_NOTE, 3);
    add_diagnosis(book, "three", "read(upweight)", HL_SPREAD_NOTE, 4);
    assert_false(hl__book_quiet_circle(book, 2));
    assert_true(hl__book_quiet_circle(book, 3));
    judged j = judge_by(book, HEADS "C4,downweight,70\nC4,upweight,15\nD4,downweight,70\n");
    assert_non_null(told(&j, "first", "C4"));
    assert_null(told(&j, "second", "C4"));
    assert_non_null(told(&j, "third", "C4")); /* what would silence it is silent itself */
    assert_non_null(told(&j, "second", "D4"));
    assert_null(told(&j, "third", "D4"));
    /* in a circle nobody is silenced: better said twice than not at all */
    assert_non_null(told(&j, "one", "C4"));
    assert_non_null(told(&j, "two", "C4"));
    assert_non_null(told(&j, "three", "C4"));
    put_away(&j);
}

static void what_is_read_once_is_told_once(void **state)
{
    (void)state;
    judged j = diagnose("fails(una_corda)", ",una_corda,off\nC4,blow,46\n");
    assert_int_equal(count_told(&j), 1);
    assert_non_null(told(&j, "it", ""));
    put_away(&j);
    /* beside a step of notes, it speaks at each of them */
    j = diagnose("fails(una_corda) and passes(blow)", ",una_corda,off\nC4,blow,46\nD4,blow,48\n");
    assert_int_equal(count_told(&j), 1);
    assert_non_null(told(&j, "it", "C4"));
    put_away(&j);
}

static void a_book_without_diagnoses_says_nothing(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,downweight,81\nC4,upweight,16\n");
    assert_int_equal(count_told(&j), 0);
    put_away(&j);
}

/* A careless diagnosis is found when the book is checked, with its place. */
static void what_a_check_finds(void **state)
{
    (void)state;
    hl_book *book = small_book();
    hl_complaints complaints = {0};
    hl_err err = {0};
    static const hl_cause untested = {"a cause", "", "a way out"};
    assert_int_equal(hl_book_check(&complaints, book, &err), HL_OK);
    size_t before = complaints.n;
    hl_complaints_free(&complaints);
    add_diagnosis(book, "round", "low(blow)", HL_SPREAD_NOTE, 0);
    add_diagnosis(book, "sourceless", "low(blow)", HL_SPREAD_NOTE, -1);
    add_diagnosis(book, "untested", "low(blow)", HL_SPREAD_NOTE, -1);
    book->diagnoses[1].source = "";
    book->diagnoses[2].causes = &untested;
    assert_int_equal(hl_book_check(&complaints, book, &err), HL_OK);
    assert_int_equal(complaints.n, before + 3);
    for (size_t i = before; i < complaints.n; i++) {
        assert_string_equal(complaints.items[i].file, "test");
        assert_non_null(strstr(complaints.items[i].what, book->diagnoses[i - before].id));
    }
    hl_complaints_free(&complaints);
    small_book_free(book);
}

/* ---- the shipped grand ------------------------------------------------------------------- */

#define FIVE(step, value, mine)                                                                              \
    "C4," step "," value "\nD4," step "," value "\nE4," step "," mine "\nF4," step "," value "\nG4," step    \
    "," value "\n"

/* Rows typed as at the bench, and the one diagnosis that follows. */
static void the_grand_names_causes(void **state)
{
    (void)state;
    static const struct {
        const char *rows, *id, *note;
    } cases[] = {
        /* downweight 81, upweight 16, friction 32.5: [list-2003-friction-c5] */
        {"C5,downweight,81\nC5,upweight,16\n", "friction_first", "C5"},
        /* 70 and 20: friction 25 tells, though 20 g still returns the key: [college-2004-friction-first] */
        {"A4,downweight,70\nA4,upweight,20\n", "friction_first", "A4"},
        /* (30 - 60) / 2 = -15 g of friction: arithmetic, there is no such thing */
        {"A4,downweight,30\nA4,upweight,60\n", "weights_crossed", "A4"},
        /* both high, friction 10: weight or leverage; a list on touchweight */
        {"A4,downweight,62\nA4,upweight,42\n", "heavy_not_rough", "A4"},
        {"A4,drop,1.2\nA4,repetition,no_rise\n", "no_repetition", "A4"},
        {"A4,checking,17\n", "does_not_check", "A4"},
        {FIVE("aftertouch", "1.2", "0.5"), "aftertouch_short", "E4"},
        {FIVE("aftertouch", "0.5", "1.2"), "aftertouch_short_everywhere", ""},
        {FIVE("aftertouch", "1.2", "0.85") FIVE("key_dip", "10", "10"), "aftertouch_uneven", "E4"},
        /* (46 - 1.5) / (10 - 1.1) = 5.00 beside (46 - 1.5) / (10.6 - 1.1) = 4.68 */
        {FIVE("aftertouch", "1.1", "1.1") FIVE("blow", "46", "46") FIVE("let_off", "1.5", "1.5")
             FIVE("key_dip", "10", "10.6"),
         "ratio_stands_out", "E4"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[1024] = "# book: grand\n" HEADS;
        strcat(text, cases[i].rows);
        judged j = judge_by(open_shipped("grand"), text);
        if (told(&j, cases[i].id, cases[i].note) == NULL)
            fail_msg("%s was not told", cases[i].id);
        if (count_told(&j) != 1)
            fail_msg("%s: %zu told", cases[i].id, count_told(&j));
        put_away(&j);
    }
}

static void a_sound_note_has_no_diagnosis(void **state)
{
    (void)state;
    judged j =
        judge_by(open_shipped("grand"),
                 "# book: grand\n" HEADS "A4,downweight,48\nA4,upweight,30\nA4,drop,1.2\nA4,checking,15\n"
                 "A4,repetition,ok\n" FIVE("aftertouch", "1.2", "1.2") FIVE("key_dip", "10", "10"));
    assert_int_equal(count_told(&j), 0);
    put_away(&j);
}

/* Every cause has its test, and says what to do: before any correction. */
static void every_cause_can_be_told_apart(void **state)
{
    (void)state;
    hl_book *book = open_shipped("grand");
    assert_true(hl_book_n_diagnoses(book) >= 8);
    for (int i = 0; i < hl_book_n_diagnoses(book); i++) {
        const hl_diagnosis *d = hl_book_diagnosis(book, i);
        assert_true(d->n_causes >= 2);
        assert_true(d->source[0] != '\0');
        for (int k = 0; k < d->n_causes; k++)
            if (d->causes[k].test[0] == '\0' || d->causes[k].todo[0] == '\0')
                fail_msg("%s: %s", d->id, d->causes[k].cause);
    }
    hl_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(conditions),
        cmocka_unit_test(neighbours_of_the_same_colour),
        cmocka_unit_test(neighbours_along_a_graded_target),
        cmocka_unit_test(short_everywhere_or_on_one_note),
        cmocka_unit_test(who_silences_whom),
        cmocka_unit_test(what_is_read_once_is_told_once),
        cmocka_unit_test(a_book_without_diagnoses_says_nothing),
        cmocka_unit_test(what_a_check_finds),
        cmocka_unit_test(the_grand_names_causes),
        cmocka_unit_test(a_sound_note_has_no_diagnosis),
        cmocka_unit_test(every_cause_can_be_told_apart),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
