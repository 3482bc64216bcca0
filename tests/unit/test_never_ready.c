/* test_never_ready.c - sheets made to be called ready wrongly, class by class, each class with a control that
 * is ready.
 *
 * One octave of an invented piano by an invented book; every reading is at its aim.  Then rows are added.
 * Which ways out of a doubt there are is decided in docs/method.md ("Evidence"); figures are arithmetic over
 * the book below: U is the gauge, two readings differ when they are further apart than 2 * sqrt(2) * U + one
 * resolution. */
#include "opened_book.h"

#include <stdio.h>

static const char BOOK[] =
    "return book { id = 'octave', api = 1, title = 'An octave', compass = 'C4-C5',\n"
    "  stage { 'set', title = 'Set' }, stage { 'weigh', title = 'Weigh' },\n"
    "  fact { 'travel_ratio', title = 'hammer travel for key travel', unit = 'ratio', value = 5 },\n"
    "  fact { 'capstan_rise', title = 'hammer rise for a capstan turn', unit = 'mm/turn', value = 10 },\n"
    "  use 'key_level',\n"
    "  use 'blow',\n"
    "  use 'let_off',\n"
    "  use 'key_dip',\n"
    "  use 'aftertouch',\n"
    "  use 'checking',\n"
    "  use 'repetition',\n"
    "  use 'downweight',\n"
    "  use 'upweight',\n"
    "  use 'friction',\n"
    "  adjuster { 'balance_punching', title = 'balance punching', more = 'add', less = 'remove', unit = "
    "'mm',\n"
    "    sizes = { 0.1, 0.3 }, visit = 'bench', moves = { key_level = 2, key_dip = 2, blow = -2 } },\n"
    "  adjuster { 'front_punching', title = 'front punching', more = 'add', less = 'remove', unit = 'mm',\n"
    "    sizes = { 0.1, 0.3 }, visit = 'bench', moves = { key_dip = -1 } },\n"
    "  adjuster { 'capstan', title = 'capstan', more = 'raise', less = 'lower', unit = 'turn', finest = "
    "1/8,\n"
    "    visit = 'bench', moves = { blow = '-capstan_rise' } },\n"
    "  adjuster { 'let_off_button', title = 'let-off button', more = 'lower', less = 'raise', unit = "
    "'turn',\n"
    "    finest = 1/8, visit = 'bench', moves = { let_off = 4 } },\n"
    "  adjuster { 'backcheck', title = 'backcheck', verb = 'bend', more = 'back', less = 'in', unit = 'mm',\n"
    "    finest = 0.5, visit = 'bench', moves = { checking = 1 } },\n"
    "  adjuster { 'key_lead', title = 'key lead', more = 'add', less = 'remove', unit = 'g', finest = 1,\n"
    "    visit = 'bench', irreversible = true, moves = { downweight = -1, upweight = -1 } },\n"
    "}\n";
static const struct {
    const char *id, *text;
} STEPS[] = {
    {"key_level",
     "return step { id = 'key_level', title = 'Key level', unit = 'mm', stage = 'set', resolution = 0.05,\n"
     "    gauge = 0.05, ask = 'Read.', why = 'Test.', target = range(-0.3, 0.3, 0), fix = { "
     "'balance_punching' },\n"
     "    unsourced = true }\n"},
    {"blow",
     "return step { id = 'blow', title = 'Blow', unit = 'mm', stage = 'set', resolution = 0.5, gauge = 0.5,\n"
     "    ask = 'Read.', why = 'Test.', target = range(43, 49, 46), fix = { 'capstan' }, unsourced = true "
     "}\n"},
    {"let_off",
     "return step { id = 'let_off', title = 'Let-off', unit = 'mm', stage = 'set', resolution = 0.1, gauge = "
     "0.1,\n"
     "    ask = 'Read.', why = 'Test.', target = range(1.0, 3.0, 2.0), fix = { 'let_off_button' },\n"
     "    gauge_name = 'strip', unsourced = true }\n"},
    {"key_dip",
     "return step { id = 'key_dip', title = 'Key dip', unit = 'mm', stage = 'set', resolution = 0.05, gauge "
     "= 0.05,\n"
     "    ask = 'Read.', why = 'Test.', target = range(9.6, 10.6, 10.1), fix = { 'front_punching' },\n"
     "    gauge_name = 'block', unsourced = true }\n"},
    {"aftertouch",
     "return step { id = 'aftertouch', title = 'Aftertouch', unit = 'mm', stage = 'set', resolution = 0.05,\n"
     "    gauge = 0.1, ask = 'Read.', why = 'Test.', target = range(0.6, 2.0, 1.3), fix = { 'front_punching' "
     "},\n"
     "    model = 'key_dip - (blow - let_off) / travel_ratio', unsourced = true }\n"},
    {"checking", "return step { id = 'checking', title = 'Checking', unit = 'mm', stage = 'set', resolution "
                 "= 0.5, gauge = 0.5,\n"
                 "    ask = 'Read.', why = 'Test.', target = range(13, 17, 15), fix = { 'backcheck' }, "
                 "unsourced = true }\n"},
    {"repetition",
     "return step { id = 'repetition', title = 'Repetition', kind = 'judged', stage = 'set', ask = 'Play.',\n"
     "    why = 'Test.', unsourced = true, faults = { { 'weak', means = 'it does not rise', todo = 'Look.' } "
     "} }\n"},
    {"downweight", "return step { id = 'downweight', title = 'Downweight', unit = 'g', stage = 'weigh', "
                   "resolution = 1, gauge = 1,\n"
                   "    ask = 'Weigh.', why = 'Test.', target = range(45, 55, 50), fix = { 'key_lead' }, "
                   "unsourced = true }\n"},
    {"upweight", "return step { id = 'upweight', title = 'Upweight', unit = 'g', stage = 'weigh', resolution "
                 "= 1, gauge = 1,\n"
                 "    ask = 'Weigh.', why = 'Test.', target = range(20, 32, 26), fix = { 'key_lead' }, "
                 "unsourced = true }\n"},
    {"friction",
     "return step { id = 'friction', title = 'Friction', kind = 'derived', unit = 'g', stage = 'weigh',\n"
     "    resolution = 0.5, ask = 'Nothing.', why = 'Test.', formula = '(downweight - upweight) / 2',\n"
     "    target = range(8, 16, 12), unsourced = true }\n"},
};

static rule_folder folder;
static hl_book *book;

static int set_up(void **state)
{
    (void)state;
    open_folder(&folder);
    write_rule(&folder, "octave", BOOK);
    for (size_t i = 0; i < sizeof STEPS / sizeof *STEPS; i++)
        write_rule(&folder, STEPS[i].id, STEPS[i].text);
    book = open_or_fail(&folder, "octave");
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    hl_book_free(book);
    close_folder(&folder);
    return 0;
}

/* ---- sheets --------------------------------------------------------------------------------------- */

static const struct {
    const char *step, *reading;
} AIMS[] = {{"key_level", "0"},   {"blow", "46"},        {"let_off", "2.0"},
            {"key_dip", "10.1"},  {"aftertouch", "1.3"}, {"checking", "15"},
            {"repetition", "ok"}, {"downweight", "50"},  {"upweight", "26"}};
#define N_AIMS (sizeof AIMS / sizeof *AIMS)
#define FIRST  "MK"

typedef struct paper {
    char text[60000];
    size_t size;
} paper;

static void add(paper *sheet, const char *line)
{
    const size_t n = strlen(line);
    assert_true(sheet->size + n + 2 < sizeof sheet->text);
    memcpy(sheet->text + sheet->size, line, n);
    sheet->size += n;
    if (n == 0 || line[n - 1] != '\n')
        sheet->text[sheet->size++] = '\n';
    sheet->text[sheet->size] = '\0';
}

/* Reads the piano at its aims; `but` is a step to leave out, or NULL. */
static void read_all(paper *sheet, const char *by, const char *but)
{
    char line[200];
    for (size_t i = 0; i < N_AIMS; i++)
        for (int note = 1; note <= 13; note++) {
            if (but != NULL && strcmp(but, AIMS[i].step) == 0)
                continue;
            snprintf(line, sizeof line, "%s,%s,%s,,%s,,\n",
                     hl_pitch_name(hl_note_pitch(hl_book_compass(book), note)), AIMS[i].step, AIMS[i].reading,
                     by);
            add(sheet, line);
        }
}

static void start(paper *sheet, const char *facts)
{
    *sheet = (paper){.size = 0};
    add(sheet, "## An invented octave.");
    add(sheet, "# book: octave");
    if (*facts)
        add(sheet, facts);
    add(sheet, "note,step,reading,time,by,method,remark");
}

typedef enum answer { READY, OPEN, REFUSED } answer;
static const char *const ANSWERS[] = {"ready", "not ready", "refused"};

/* What the program says of it; *verdict (may be NULL) of one cell. */
static answer ask(const paper *sheet, const char *step, const char *note, hl_verdict *verdict)
{
    hl_sheet *read = NULL;
    hl_audit *audit = NULL;
    hl_err err = {0};
    answer out = REFUSED;
    hl_code code = hl_sheet_open_text(&read, "octave.csv", sheet->text, sheet->size, &err);
    if (code == HL_OK)
        code = hl_sheet_read(read, book, &err);
    if (code == HL_OK)
        code = hl_audit_run(&audit, read, book, NULL, &err);
    if (code == HL_OK) {
        out = hl_audit_ready(audit) ? READY : OPEN;
        size_t n = 0;
        const hl_finding *findings = hl_audit_findings(audit, &n);
        for (size_t i = 0; verdict != NULL && i < n; i++)
            if (findings[i].step == hl_book_find_step(book, step) &&
                findings[i].note == hl_note_parse(hl_sheet_compass(read), note))
                *verdict = findings[i].verdict;
    } else {
        assert_true(err.what[0] != '\0' &&
                    err.todo[0] != '\0'); /* an error says what is wrong and what to do */
    }
    hl_audit_free(audit);
    hl_sheet_free(read);
    return out;
}

static int wrong, asked;

static void expect(const char *name, const paper *sheet, answer wanted)
{
    const answer got = ask(sheet, "", "", NULL);
    asked++;
    if (got != wanted) {
        wrong++;
        print_error("%s: %s, want %s\n", name, ANSWERS[got], ANSWERS[wanted]);
    }
}

/* A finished piano with facts above and rows below. */
static void expect_rows(const char *name, const char *facts, const char *rows, answer wanted)
{
    paper sheet;
    start(&sheet, facts);
    read_all(&sheet, FIRST, NULL);
    add(&sheet, rows);
    expect(name, &sheet, wanted);
}

static void close_class(void)
{
    assert_int_equal(wrong, 0);
}

static int begin_class(void **state)
{
    (void)state;
    wrong = 0;
    return 0;
}

/* ---- 1: an evident change ---------------------------------------------------------------------------- */

/* The first reading is in range, or out of it; the second is in range, and nobody wrote down what was done.
 * Dip, blow and let-off make the aftertouch (its model), level moves with dip and blow (the balance
 * punching). */
static const struct {
    const char *step, *second; /* further from the aim than two readings of one thing can be */
    const char *dependant, *again;
} CHANGES[] = {
    {"blow", "43.5", "aftertouch", "1.8"},    {"blow", "48.5", "aftertouch", "0.8"},
    {"let_off", "2.9", "aftertouch", "1.5"},  {"let_off", "1.1", "aftertouch", "1.1"},
    {"key_dip", "10.5", "aftertouch", "1.7"}, {"key_dip", "9.7", "aftertouch", "0.9"},
    {"key_level", "0.3", "key_dip", "10.1"},
};
static const struct {
    const char *name, *above, *by, *method;
} WAYS[] = {
    {"same pass and person", "", FIRST, ""},
    {"a later pass", ",pass,final,,,,\n", FIRST, ""},
    {"another person, a later pass", ",pass,final,,,,\n", "RS", ""},
    {"another person, same pass", "", "RS", ""},
    {"nobody named", "", "", ""},
    {"another method", "", FIRST, "rule"},
    {"another method, a later pass", ",pass,final,,,,\n", FIRST, "rule"},
};

static void what_moves_with_a_changed_reading_is_to_be_read_again(void **state)
{
    (void)state;
    for (size_t c = 0; c < sizeof CHANGES / sizeof *CHANGES; c++)
        for (size_t w = 0; w < sizeof WAYS / sizeof *WAYS; w++) {
            char rows[600], name[200];
            int n = snprintf(rows, sizeof rows, "%sC4,%s,%s,,%s,%s,\n", WAYS[w].above, CHANGES[c].step,
                             CHANGES[c].second, WAYS[w].by, WAYS[w].method);
            snprintf(name, sizeof name, "%s to %s, %s", CHANGES[c].step, CHANGES[c].second, WAYS[w].name);
            expect_rows(name, "", rows, OPEN);
            /* Control: confirmed by one more reading (in one pass two persons may differ), and all that moves
             * with it read again by the same hand. */
            n += snprintf(rows + n, sizeof rows - (size_t)n, "C4,%s,%s,,%s,%s,\n", CHANGES[c].step,
                          CHANGES[c].second, WAYS[w].by, WAYS[w].method);
            static const struct {
                const char *step, *reading;
            } OTHERS[] = {{"key_level", "0"}, {"key_dip", "10.1"}, {"blow", "46"}, {"let_off", "2.0"}};
            for (size_t i = 0; i < 4; i++)
                if (strcmp(OTHERS[i].step, CHANGES[c].step) != 0 &&
                    strcmp(OTHERS[i].step, CHANGES[c].dependant) != 0)
                    n += snprintf(rows + n, sizeof rows - (size_t)n, "C4,%s,%s,,%s,%s,\n", OTHERS[i].step,
                                  OTHERS[i].reading, WAYS[w].by, WAYS[w].method);
            snprintf(rows + n, sizeof rows - (size_t)n, "C4,%s,%s,,%s,%s,\n%s", CHANGES[c].dependant,
                     CHANGES[c].again, WAYS[w].by, WAYS[w].method,
                     strcmp(CHANGES[c].step, "key_level") == 0 ? "C4,aftertouch,1.3,,MK,,\n" : "");
            strcat(name, ", and read again");
            expect_rows(name, "", rows, READY);
        }
    close_class();
}

static void a_repeated_reading_that_agrees_changes_nothing(void **state)
{
    (void)state;
    for (size_t w = 0; w < sizeof WAYS / sizeof *WAYS; w++) {
        char rows[300];
        snprintf(rows, sizeof rows, "%sC4,blow,46.5,,%s,%s,\n", WAYS[w].above, WAYS[w].by, WAYS[w].method);
        expect_rows(WAYS[w].name, "", rows, READY);
    }
    close_class();
}

/* ---- 2: two people, voids ---------------------------------------------------------------------------- */

static void two_people_who_differ_leave_the_cell_in_doubt(void **state)
{
    (void)state;
    static const struct {
        const char *name, *rows;
        answer wanted;
    } CASES[] = {
        {"one note, far apart", "C4,blow,44,,RS,,\nC4,aftertouch,1.3,,RS,,\n", OPEN},
        {"within what two gauges allow", "C4,blow,45,,RS,,\n", READY},
        {"a third reading agrees with the first", "C4,blow,44,,RS,,\nC4,blow,46,,MK,,\n", READY},
        {"a third reading agrees with the second, dependants read after",
         "C4,blow,43.5,,RS,,\nC4,blow,43.5,,MK,,\nC4,aftertouch,1.8,,MK,,\nC4,key_dip,10.1,,MK,,\nC4,key_"
         "level,0,,MK,,\n",
         READY},
        {"confirmed in words",
         "C4,blow,44,,RS,,\nC4,confirm,blow,,RS,,the rule slipped the first time\nC4,aftertouch,1.7,,RS,,\n"
         "C4,key_dip,10.1,,RS,,\nC4,key_level,0,,RS,,\n",
         READY},
        {"a failing reading, then by eye", "C4,blow,52,,RS,,\nC4,blow,44,,MK,eye,\n", OPEN},
        {"void of another's failing reading, no reason", "C4,blow,52,,RS,,\nC4,blow,void,,MK,,\n", OPEN},
        {"void of another's reading, with a reason",
         "C4,blow,46,,RS,,\nC4,blow,void,,MK,,the rule stood on the strip\n", READY},
        {"void of one's own failing reading, not replaced", "C4,blow,52,,RS,,\nC4,blow,void,,RS,,\n", OPEN},
        {"void of one's own slip, replaced", "C4,blow,64,,MK,,\nC4,blow,void,,MK,,\nC4,blow,46,,MK,,\n",
         READY},
        {"after a void no older pass comes back",
         ",pass,final,,,,\nC4,blow,46,,MK,,\nC4,blow,void,,MK,,typo\n", OPEN},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++)
        expect_rows(CASES[i].name, "", CASES[i].rows, CASES[i].wanted);
    /* Twelve notes 14 mm apart: one reader uses another datum. */
    char rows[1200];
    int n = 0;
    for (int note = 1; note <= 12; note++)
        n += snprintf(rows + n, sizeof rows - (size_t)n, "%s,checking,%s,,RS,,\n",
                      hl_pitch_name(hl_note_pitch(hl_book_compass(book), note)), "29");
    expect_rows("twelve notes 14 mm apart", "", rows, OPEN);
    close_class();
}

/* ---- 3: passes --------------------------------------------------------------------------------------- */

static void readings_as_found_do_not_finish_a_job(void **state)
{
    (void)state;
    static const char *const NAMES[] = {"before", "as found", "Before", "As found"};
    for (size_t i = 0; i < 4; i++) {
        paper sheet;
        char line[80];
        snprintf(line, sizeof line, ",pass,%s,,,,", NAMES[i]);
        start(&sheet, "");
        add(&sheet, line);
        read_all(&sheet, FIRST, NULL);
        expect("only as found: an inspection", &sheet, READY);
        add(&sheet, ",pass,final,,,,");
        expect("a later pass was begun", &sheet, OPEN);
        add(&sheet, "C4,blow,46,,MK,,");
        expect("a later pass with one reading", &sheet, OPEN);
        read_all(&sheet, FIRST, NULL);
        expect("all read again in it", &sheet, READY);
        start(&sheet, "");
        add(&sheet, line);
        read_all(&sheet, FIRST, NULL);
        add(&sheet, "C4,capstan,+1/8 turn,,MK,,");
        add(&sheet, "C4,blow,45,,MK,,");
        expect("work was done since", &sheet, OPEN);
    }
    close_class();
}

/* ---- 4: go and no-go ---------------------------------------------------------------------------------- */

static void within_counts_where_the_sheet_names_its_gauge(void **state)
{
    (void)state;
    static const struct {
        const char *name, *facts;
        answer wanted;
    } CASES[] = {
        {"no gauge is named", "", OPEN},
        {"its limits lie inside the target", "# go gauge let_off: strip, 1.4-2.6 mm", READY},
        {"its limits are the target's", "# go gauge let_off: strip, 1.0-3.0 mm", READY},
        {"its limits are wider", "# go gauge let_off: strip, 0.5-3.0 mm", OPEN},
        {"a name without limits", "# go gauge let_off: strip", REFUSED},
        {"limits of another unit", "# go gauge let_off: strip, 10-20 g", REFUSED},
        {"a step that does not exist", "# go gauge let_of: strip, 1.4-2.6 mm", REFUSED},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        paper sheet;
        start(&sheet, CASES[i].facts);
        read_all(&sheet, FIRST, "let_off");
        for (int note = 1; note <= 13; note++) {
            char line[80];
            snprintf(line, sizeof line, "%s,let_off,within,,MK,,",
                     hl_pitch_name(hl_note_pitch(hl_book_compass(book), note)));
            add(&sheet, line);
        }
        for (int note = 1; note <= 13; note++) {
            char line[80];
            snprintf(line, sizeof line, "%s,aftertouch,1.3,,MK,,",
                     hl_pitch_name(hl_note_pitch(hl_book_compass(book), note)));
            add(&sheet, line);
        }
        expect(CASES[i].name, &sheet, CASES[i].wanted);
    }
    /* Weights by blocks alone: the friction that they make is an interval, too wide to pass. */
    paper sheet;
    start(&sheet, "# go gauge downweight: weights, 45-55 g\n# go gauge upweight: weights, 20-32 g");
    read_all(&sheet, FIRST, NULL);
    for (int note = 1; note <= 13; note++) {
        char line[160];
        const char *name = hl_pitch_name(hl_note_pitch(hl_book_compass(book), note));
        snprintf(line, sizeof line, "%s,downweight,within,,MK,,\n%s,upweight,within,,MK,,", name, name);
        add(&sheet, line);
    }
    expect("friction of two intervals", &sheet, OPEN);
    start(&sheet, "# go gauge downweight: weights, 48-52 g\n# go gauge upweight: weights, 24-28 g");
    read_all(&sheet, FIRST, NULL);
    for (int note = 1; note <= 13; note++) {
        char line[160];
        const char *name = hl_pitch_name(hl_note_pitch(hl_book_compass(book), note));
        snprintf(line, sizeof line, "%s,downweight,within,,MK,,\n%s,upweight,within,,MK,,", name, name);
        add(&sheet, line);
    }
    expect("friction of two narrow ones, 10 to 14 g", &sheet, READY);
    close_class();
}

/* ---- 5: recorded work ---------------------------------------------------------------------------------- */

static void work_on_record_is_held_against_the_readings(void **state)
{
    (void)state;
    static const struct {
        const char *name, *rows;
        answer wanted;
    } CASES[] = {
        {"a blank amount of a screw", "C4,capstan,,,MK,,\nC4,blow,46,,MK,,\n", REFUSED},
        {"work after the last reading", "C4,backcheck,-2.5 mm,,MK,,\n", OPEN},
        {"work whose own result is out of range", "C4,checking,14,,MK,,\nC4,backcheck,-2 mm,,MK,,\n", OPEN},
        {"work, then read", "C4,backcheck,-1 mm,,MK,,\nC4,checking,14,,MK,,\n", READY},
        {"a whole turn that moved nothing",
         "C4,capstan,+1/2 turn,,MK,,\nC4,blow,46,,MK,,\nC4,aftertouch,1.3,,MK,,\n", OPEN},
        {"a whole turn the wrong way round",
         "C4,capstan,+1/4 turn,,MK,,\nC4,blow,48.5,,MK,,\nC4,aftertouch,0.8,,MK,,\n", OPEN},
        {"a turn that moved what it should",
         "C4,capstan,+1/4 turn,,MK,,\nC4,blow,43.5,,MK,,\nC4,aftertouch,1.8,,MK,,\n", READY},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++)
        expect_rows(CASES[i].name, "", CASES[i].rows, CASES[i].wanted);
    close_class();
}

/* ---- 6: facts ------------------------------------------------------------------------------------------ */

static void facts_that_cannot_be_are_refused_or_in_doubt(void **state)
{
    (void)state;
    static const char *const BAD[] = {
        "# travel_ratio: 0",     "# travel_ratio: -5",    "# travel_ratio: 999999", "# capstan_rise: 0",
        "# capstan_rise: -10",   "# capstan_rise: 25000", "# gauge blow: 9 mm",     "# gauge blow: 0",
        "# gauge blow: -0.5 mm", "# humidity: wet",       "# temperature: warm",    "# humidity: 460 %",
        "# temperature: 2050 C", "# gauge let_off: 9 mm", "# travel_ratio: 5 mm",
    };
    for (size_t i = 0; i < sizeof BAD / sizeof *BAD; i++) {
        paper sheet;
        start(&sheet, BAD[i]);
        read_all(&sheet, FIRST, NULL);
        asked++;
        if (ask(&sheet, "", "", NULL) == READY) {
            wrong++;
            print_error("%s: ready\n", BAD[i]);
        }
    }
    static const char *const GOOD[] = {"# travel_ratio: 5.2", "# capstan_rise: 9.5", "# gauge blow: 0.3 mm",
                                       "# humidity: 46 %", "# temperature: 20.5 C"};
    for (size_t i = 0; i < sizeof GOOD / sizeof *GOOD; i++)
        expect_rows(GOOD[i], GOOD[i], "", READY);
    close_class();
}

/* ---- 8: clock, queries ------------------------------------------------------------------------------------
 */

static void time_and_queries(void **state)
{
    (void)state;
    static const struct {
        const char *name, *rows;
        answer wanted;
    } CASES[] = {
        {"two questions, one answer",
         "C4,query,hammer loose?,,MK,,\nC4,query,click in C4,,MK,,\nC4,query,closed,,MK,,\n", OPEN},
        {"two questions, two answers",
         "C4,query,hammer loose?,,MK,,\nC4,query,click in "
         "C4,,MK,,\nC4,query,closed,,MK,,\nC4,query,closed,,MK,,\n",
         READY},
        /* Sorted by step in a spreadsheet: the reading is below the work but was taken before it. */
        {"a reading whose own time is before the work",
         "C4,capstan,+1/8 turn,2026-03-02T10:00,MK,,\nC4,blow,45,2026-03-02T09:30,MK,,\n"
         "C4,aftertouch,1.5,2026-03-02T10:20,MK,,\n",
         OPEN},
        {"in the order of time",
         "C4,capstan,+1/8 turn,2026-03-02T10:00,MK,,\nC4,blow,45,2026-03-02T10:10,MK,,\n"
         "C4,aftertouch,1.5,2026-03-02T10:20,MK,,\n",
         READY},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++)
        expect_rows(CASES[i].name, "", CASES[i].rows, CASES[i].wanted);
    close_class();
}

/* ---- 9: units
 * ---------------------------------------------------------------------------------------------- */

static void numbers_of_another_unit_are_asked_about(void **state)
{
    (void)state;
    static const struct {
        const char *step, *reading;
    } BAD[] = {{"let_off", "-5"}, {"let_off", "466"}, {"key_level", "460"}, {"key_dip", "0.4"},
               {"blow", "1.8"},   {"blow", "46237"},  {"checking", "0.6"},  {"blow", "0"}};
    for (size_t i = 0; i < sizeof BAD / sizeof *BAD; i++) {
        char rows[120];
        snprintf(rows, sizeof rows, "C4,%s,%s,,MK,,\n", BAD[i].step, BAD[i].reading);
        paper sheet;
        start(&sheet, "");
        read_all(&sheet, FIRST, NULL);
        add(&sheet, rows);
        asked++;
        if (ask(&sheet, "", "", NULL) == READY) {
            wrong++;
            print_error("%s %s: ready\n", BAD[i].step, BAD[i].reading);
        }
    }
    /* Key level of .012 in typed bare in a mm column passes each cell; as a whole it fits inches better. */
    paper sheet;
    start(&sheet, "");
    read_all(&sheet, FIRST, "key_level");
    for (int note = 1; note <= 13; note++) {
        char line[80];
        snprintf(line, sizeof line, "%s,key_level,.0%d,,MK,,",
                 hl_pitch_name(hl_note_pitch(hl_book_compass(book), note)), 10 + note % 3);
        add(&sheet, line);
    }
    expect("three decimals below .1 on a rule of .05: inches?", &sheet, OPEN);
    close_class();
}

/* ---- 10, 11: confirm, accepted, unrecorded work
 * -------------------------------------------------------------- */

static void ways_out_are_written_down(void **state)
{
    (void)state;
    static const struct {
        const char *name, *rows;
        answer wanted;
    } CASES[] = {
        {"a fault accepted as it is, with a reason",
         "C4,checking,17.5,,MK,,\nC4,accepted,checking,,MK,,the owner's wish\n", READY},
        {"accepted without a reason", "C4,checking,17.5,,MK,,\nC4,accepted,checking,,MK,,\n", REFUSED},
        {"accepted by nobody", "C4,checking,17.5,,MK,,\nC4,accepted,checking,,,,the owner's wish\n", REFUSED},
        {"accepted, then read again and out",
         "C4,checking,17.5,,MK,,\nC4,accepted,checking,,MK,,as it is\nC4,checking,19,,MK,,\n", OPEN},
        {"confirm is no reading", "C4,confirm,checking,,MK,,sure\n", READY},
        {"confirm of a failing reading", "C4,checking,19,,MK,,\nC4,confirm,checking,,MK,,sure\n", OPEN},
        {"weights that changed after a friction cure, read twice",
         "C4,downweight,46,,MK,,\nC4,upweight,30,,MK,,\nC4,downweight,46,,MK,,\nC4,upweight,30,,MK,,\n",
         READY},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++)
        expect_rows(CASES[i].name, "", CASES[i].rows, CASES[i].wanted);
    close_class();
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(what_moves_with_a_changed_reading_is_to_be_read_again, begin_class),
        cmocka_unit_test_setup(a_repeated_reading_that_agrees_changes_nothing, begin_class),
        cmocka_unit_test_setup(two_people_who_differ_leave_the_cell_in_doubt, begin_class),
        cmocka_unit_test_setup(readings_as_found_do_not_finish_a_job, begin_class),
        cmocka_unit_test_setup(within_counts_where_the_sheet_names_its_gauge, begin_class),
        cmocka_unit_test_setup(work_on_record_is_held_against_the_readings, begin_class),
        cmocka_unit_test_setup(facts_that_cannot_be_are_refused_or_in_doubt, begin_class),
        cmocka_unit_test_setup(time_and_queries, begin_class),
        cmocka_unit_test_setup(numbers_of_another_unit_are_asked_about, begin_class),
        cmocka_unit_test_setup(ways_out_are_written_down, begin_class),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
