/* test_book_diff.c - `rules diff` leaves nothing out: for every field of the rule language one book that
 * gives it another value, and the line that must say so. */
#include "rule_folder.h"

#include "host.h"

typedef struct difference {
    const char *field; /* as hl__host_field() names it */
    const char *entry; /* of the second book, over the first */
    const char *says;  /* part of a line */
} difference;

static const char base[] =
    "stage { 'set', title = 'Set', caution = 'Mind the strings.' }, stage { 'end', title = 'End' }, use "
    "'one', use 'two', "
    "use 'felt', use 'third', fact { 'arm', title = 'arm', unit = 'mm', value = 1, source = 'src', why = 'w' "
    "}, "
    "adjuster { 'screw', title = 'screw', verb = 'turn', unit = 'turn', more = 'in', less = 'out', finest = "
    "0.125, "
    "reach = 2, visit = 'bench', moves = { one = 1, two = 'slight' } }, "
    "adjuster { 'shim', title = 'shim', unit = 'mm', more = 'add', less = 'take', sizes = { 0.1, 0.2 }, "
    "source = 's' }, "
    "choice { 'school', 'old', title = 'It is', options = { old = 'old', new = 'new' }, source = 's' }, "
    "diagnosis { 'd', title = 'D', when = 'low(one)', causes = { { 'c', test = 't', todo = 'o' } }, source = "
    "'s' }, "
    "diagnosis { 'e', title = 'E', when = 'high(one)', causes = { { 'c', test = 't', todo = 'o' } }, source "
    "= 's' }, "
    "source { 'key', kind = 'page', archive = 'a', subject = 's', date = '2001', differs = 'k' }, ";

static const difference differences[] = {
    {"book.title", "title = 'Other',", "title \"T\" becomes \"Other\""},
    {"book.about", "about = 'For us',", "about (none) becomes \"For us\""},
    {"book.compass", "compass = 'A0-A7',", "compass A0-C8 becomes A0-A7"},
    {"book.stale_share", "stale_share = 0.5,", "stale_share \"0.25\" becomes \"0.5\""},
    {"stage.[1]", "stage { 'more', title = 'More' },", "stage more: new stage"},
    {"stage.title", "stage { 'set', title = 'Setting' },", "stage set: title \"Set\" becomes \"Setting\""},
    {"stage.caution", "stage { 'end', caution = 'Hot' },", "stage end: caution (none) becomes \"Hot\""},
    {"change.title", "change { 'one', title = 'Uno' },", "one: title \"One\" becomes \"Uno\""},
    {"change.plain", "change { 'one', plain = 'p' },", "one: plain (none) becomes \"p\""},
    {"change.stage", "change { 'one', stage = 'end' },", "one: stage \"set\" becomes \"end\""},
    {"change.unit", "change { 'one', unit = 'in' },", "one: unit \"mm\" becomes \"in\""},
    {"change.need", "change { 'one', need = 'samples' },", "one: asked of every note becomes samples"},
    {"change.scope", "change { 'one', scope = 'naturals' },", "one: asked of every note becomes "},
    {"change.target", "change { 'one', target = range(1, 4) },", "one: target 1.0-3.0 mm becomes 1.0-4.0 mm"},
    {"change.resolution", "change { 'one', resolution = 0.5 },", "one: resolution 0.1 mm becomes 0.5 mm"},
    {"change.gauge", "change { 'one', gauge = 0.05 },", "one: gauge (none) becomes 0.05 mm"},
    {"change.even", "change { 'one', even = 0.3 },", "one: even (none) becomes 0.3 mm"},
    {"change.breaks", "change { 'one', breaks = false },", "one: breaks \"yes\" becomes \"no\""},
    {"change.across", "change { 'one', even = 0.3, across = 'colours' },",
     "one: across (none) becomes \"colours\""},
    {"change.pair", "change { 'one', pair = 'two' },", "one: pair (none) becomes \"two\""},
    {"change.faults", "change { 'felt', faults = { { 'soft', todo = 'x' } } },",
     "felt: faults \"hard\" becomes \"soft\""},
    {"fault.means", "change { 'felt', faults = { { 'hard', todo = 'Ease it.', means = 'm' } } },",
     "felt, hard: means (none) becomes \"m\""},
    {"fault.todo", "change { 'felt', faults = { { 'hard', todo = 'Leave it.' } } },",
     "felt, hard: todo \"Ease it.\" becomes \"Leave it.\""},
    {"fault.fix",
     "change { 'felt', faults = { { 'hard', todo = 'Ease it.', fix = { { 'screw', 'in' } } } } },",
     "felt, hard: fix (none) becomes \"in screw\""},
    {"change.formula", "change { 'sum', formula = 'one - two' },",
     "sum: formula \"one + two\" becomes \"one - two\""},
    {"change.model", "change { 'third', model = 'two' },", "third: model (none) becomes \"two\""},
    {"change.fix", "change { 'one', fix = { 'shim' } },", "one: fix \"screw\" becomes \"shim\""},
    {"change.low_todo", "change { 'one', low_todo = 'Up.' },", "one: low_todo (none) becomes \"Up.\""},
    {"change.high_todo", "change { 'one', high_todo = 'Down.' },", "one: high_todo (none) becomes \"Down.\""},
    {"change.masks", "change { 'one', masks = { 'two' } },", "one: masks (none) becomes \"two\""},
    {"change.ask", "change { 'one', ask = 'Read.' },", "one: ask \"a\" becomes \"Read.\""},
    {"change.method", "change { 'one', method = 'by eye' },", "one: method (none) becomes \"by eye\""},
    {"change.gauge_name", "change { 'one', gauge_name = 'block' },",
     "one: gauge_name (none) becomes \"block\""},
    {"change.caution", "change { 'one', caution = 'Lead.' },", "one: caution (none) becomes \"Lead.\""},
    {"stage.caution", "stage { 'set', caution = 'And the felt.' },",
     "caution \"Mind the strings.\" becomes \"Mind the strings. And the felt.\""},
    {"stage.why", "stage { 'set', caution = false, why = 'no strings here' },",
     "caution \"Mind the strings.\" becomes \"none by this book: no strings here\""},
    {"change.source", "change { 'one', source = 'key' },", "one: source (none) becomes \"key\""},
    {"change.unsourced", "change { 'one', unsourced = true },", "one: unsourced \"no\" becomes \"yes\""},
    {"change.why", "change { 'one', title = 'Uno', why = 'our word' },", "becomes \"Uno\": our word"},
    {"skip.[1]", "skip { 'third', why = 'no need' },", "third: left out: no need"},
    {"skip.why", "skip { 'third', why = 'no need' },", "third: left out: no need"},
    {"adjuster.[1]", "adjuster { 'wire', title = 'wire', more = 'a', less = 'b' },", "wire: new adjuster"},
    {"adjuster.title", "adjuster { 'screw', title = 'Screw' },", "screw: title \"screw\" becomes \"Screw\""},
    {"adjuster.verb", "adjuster { 'screw', verb = 'drive' },", "screw: verb \"turn\" becomes \"drive\""},
    {"adjuster.more", "adjuster { 'screw', more = 'up' },", "screw: more \"in\" becomes \"up\""},
    {"adjuster.less", "adjuster { 'screw', less = 'down' },", "screw: less \"out\" becomes \"down\""},
    {"adjuster.finest", "adjuster { 'screw', finest = 0.25 },", "screw: finest 1/8 turn becomes 1/4 turn"},
    {"adjuster.sizes", "adjuster { 'shim', sizes = { 0.3 } },",
     "shim: sizes \"0.1 mm, 0.2 mm\" becomes \"0.3 mm\""},
    {"adjuster.reach", "adjuster { 'screw', reach = 3 },", "screw: reach 2 turns becomes 3 turns"},
    {"adjuster.whole", "adjuster { 'screw', whole = true },", "screw: whole \"no\" becomes \"yes\""},
    {"adjuster.irreversible", "adjuster { 'screw', irreversible = true },",
     "screw: irreversible \"no\" becomes \"yes\""},
    {"adjuster.visit", "adjuster { 'screw', visit = 'stack off' },",
     "screw: visit \"bench\" becomes \"stack off\""},
    {"adjuster.moves", "adjuster { 'screw', moves = { two = false } },",
     "screw: moves.two slight becomes nothing"},
    {"move.[1]", "adjuster { 'screw', moves = { one = { 2 } } },", "screw: moves.one 1 becomes 2"},
    {"move.assumed", "adjuster { 'screw', moves = { one = { 1, assumed = true } } },",
     "moves.one 1 becomes 1 (assumed)"},
    {"move.again", "adjuster { 'screw', moves = { one = { 1, again = true } } },",
     "moves.one 1 becomes 1 (read again)"},
    {"move.way", "adjuster { 'screw', moves = { one = { 1, way = 'down' } } },",
     "moves.one 1 becomes 1 (down)"},
    {"adjuster.assumed", "adjuster { 'screw', assumed = true },", "screw: assumed \"no\" becomes \"yes\""},
    {"adjuster.source", "adjuster { 'screw', source = 'key' },", "screw: source (none) becomes \"key\""},
    {"adjuster.why", "adjuster { 'screw', reach = 3, why = 'longer' },", "becomes 3 turns: longer"},
    {"fact.[1]", "fact { 'leg', title = 'leg', unit = 'mm', value = 2 },", "new fact leg: 2 mm"},
    {"fact.title", "fact { 'arm', title = 'Arm' },", "fact arm: title \"arm\" becomes \"Arm\""},
    {"fact.value", "fact { 'arm', value = 2 },", "arm: 1 mm becomes arm: 2 mm"},
    {"fact.naturals", "fact { 'arm', naturals = 2 },", "arm: 1 mm becomes arm: 2, sharps 1 mm"},
    {"fact.sharps", "fact { 'arm', sharps = 3 },", "arm: 1 mm becomes arm: 1, sharps 3 mm"},
    {"fact.assumed", "fact { 'arm', assumed = true },", "becomes arm: 1 mm (assumed)"},
    {"fact.source", "fact { 'arm', source = 'key' },", "fact arm: source \"src\" becomes \"key\""},
    {"fact.why", "fact { 'arm', why = 'z' },", "fact arm: why \"w\" becomes \"z\""},
    {"float.[1]", "float { 'two', within = 1 },", "float: nothing gives way, becomes two by 1 mm"},
    {"float.within", "float { 'two', within = 2 },", "float: nothing gives way, becomes two by 2 mm"},
    {"acknowledge.[1]", "acknowledge { 'screw', 'two', why = 'known' },",
     "screw: that it spoils two is acknowledged: known"},
    {"acknowledge.[2]", "acknowledge { 'screw', 'one', why = 'known' },",
     "screw: that it spoils one is acknowledged: known"},
    {"acknowledge.why", "acknowledge { 'screw', 'one', why = 'seen' },", "acknowledged: seen"},
    {"choice.[1]", "choice { 'way', 'a', title = 'W', options = { a = 'x', b = 'y' } },",
     "choice way: new choice"},
    {"choose.[2]", "choose { 'school', 'new', why = 'ours' },", "choice school: old becomes new: ours"},
    {"choose.why", "choose { 'school', 'new', why = 'ours' },", "choice school: old becomes new: ours"},
    {"diagnosis.[1]", "diagnosis { 'f', title = 'F', when = 'low(two)', causes = { { 'c', todo = 't' } } },",
     "diagnosis f: new diagnosis"},
    {"renamed.[1]", "renamed { 'uno', 'one' },", "name of before uno: now (none) becomes \"one\""},
    {"renamed.[2]", "renamed { 'uno', 'one' },", "name of before uno: now (none) becomes \"one\""},
    {"source.[1]", "source { 'more', kind = 'page', subject = 'x' },", "source more: new source"},
};

/* Those that a later entry can't lay over an earlier one: two books that declare them from the start. */
static const struct {
    const char *field, *was, *is, *says;
} declared[] = {
    {"choice.title", "title = 'It is'", "title = 'It was'",
     "choice school: title \"It is\" becomes \"It was\""},
    {"choice.options", "new = 'new'", "new = 'newer'", "choice school: options "},
    {"choice.source", "new = 'new' }, source = 's'", "new = 'new' }, source = 'k'",
     "choice school: source \"s\" becomes \"k\""},
    {"choice.[2]", "'school', 'old'", "'school', 'new'", "choice school: old becomes new"},
    {"diagnosis.title", "title = 'D'", "title = 'DD'", "diagnosis d: title \"D\" becomes \"DD\""},
    {"diagnosis.when", "low(one)", "low(two)", "diagnosis d: when \"low(one)\" becomes \"low(two)\""},
    {"diagnosis.causes", "{ 'c', test = 't', todo = 'o' } }, source = 's' }, diagnosis { 'e'",
     "{ 'c', test = 't', todo = 'o' }, { 'k' } }, source = 's' }, diagnosis { 'e'",
     "diagnosis d: cause 2 (none) becomes \"k\""},
    {"cause.[1]", "'low(one)', causes = { { 'c'", "'low(one)', causes = { { 'k'",
     "diagnosis d: cause 1 \"c\" becomes \"k\""},
    {"cause.test", "test = 't'", "test = 'u'", "diagnosis d: test of cause 1 \"t\" becomes \"u\""},
    {"cause.todo", "todo = 'o' } }, source", "todo = 'p' } }, source",
     "diagnosis d: todo of cause 1 \"o\" becomes \"p\""},
    {"diagnosis.spread", "title = 'D',", "title = 'D', spread = 'wide',",
     "diagnosis d: spread \"note\" becomes \"wide\""},
    {"diagnosis.quiet_by", "title = 'D',", "title = 'D', quiet_by = 'e',",
     "diagnosis d: quiet_by (none) becomes \"e\""},
    {"diagnosis.source", "todo = 'o' } }, source = 's'", "todo = 'o' } }, source = 'k'",
     "diagnosis d: source \"s\" becomes \"k\""},
    {"source.kind", "kind = 'page'", "kind = 'message'", "source key: kind \"page\" becomes \"message\""},
    {"source.archive", "archive = 'a'", "archive = 'b'", "source key: archive \"a\" becomes \"b\""},
    {"source.subject", "subject = 's'", "subject = 't'", "source key: subject \"s\" becomes \"t\""},
    {"source.date", "2001", "2002", "source key: date \"2001\" becomes \"2002\""},
    {"source.differs", "differs = 'k'", "differs = 'l'", "source key: differs \"k\" becomes \"l\""},
    {"adjuster.unit", "unit = 'mm', more = 'add'", "unit = 'g', more = 'add'",
     "shim: unit \"mm\" becomes \"g\""},
    {"fact.unit", "title = 'arm', unit = 'mm'", "title = 'arm', unit = 'g'",
     "fact arm: unit \"mm\" becomes \"g\""},
};

/* What no book can differ by, or what is compared by other names. */
static const char *const apart[] = {
    "step.",             /* what a step's file says is compared as what a change says */
    "book.id",           /* two books have two */
    "book.api",          /* one version */
    "change.[1]",        /* the id */
    "renamed.",          /* names of before, for sheets and old books: no rule */
    "by_choice.",        /* the value that it came to is compared */
    "by_colour.",        /* the targets are */
    "choose.[1]",        /* the id */
    "fault.[1]",         /* change.faults */
    "case.",             /* of tests */
    "renamed.",          /* old names for what is compared by its own */
    "adjuster.elsewhere" /* says which moves may be missing; the moves are compared */
};

static void write_steps(rule_folder *folder)
{
    write_rule(folder, "one",
               "return step { id = 'one', title = 'One', stage = 'set', unit = 'mm', resolution = 0.1, "
               "ask = 'a', why = 'w', target = range(1, 3), fix = { 'screw' } }\n");
    write_rule(folder, "two",
               "return step { id = 'two', title = 'Two', stage = 'set', unit = 'mm', resolution = 0.1, "
               "ask = 'a', why = 'w', target = range(1, 3) }\n");
    write_rule(folder, "third",
               "return step { id = 'third', title = 'Third', stage = 'set', unit = 'mm', resolution = 0.1, "
               "ask = 'a', why = 'w', target = range(1, 3) }\n");
    write_rule(folder, "sum",
               "return step { id = 'sum', title = 'Sum', stage = 'set', unit = 'mm', resolution = 0.1, "
               "kind = 'derived', formula = 'one + two', ask = 'a', why = 'w' }\n");
    write_rule(folder, "felt",
               "return step { id = 'felt', title = 'Felt', stage = 'end', kind = 'judged', ask = 'a', "
               "why = 'w', faults = { { 'hard', todo = 'Ease it.' } } }\n");
}

/* Lines are joined: a long one is wrapped. */
static char *read_diff(const char *first, const char *second)
{
    rule_folder folder;
    hl_book *a = NULL, *b = NULL;
    hl_err err = {0};
    char *text = NULL;
    size_t size = 0;
    const hl_print print = {.width = 1000};
    open_folder(&folder);
    write_steps(&folder);
    write_rule(&folder, "a", first);
    write_rule(&folder, "b", second);
    if (open_book(&folder, "a", &a, &err) != HL_OK || open_book(&folder, "b", &b, &err) != HL_OK)
        fail_msg("%s:%d: %s; %s\n%s", err.file, err.line, err.what, err.todo, second);
    close_folder(&folder);
    assert_int_equal(hl_book_diff(&text, &size, a, b, &print, &err), HL_OK);
    hl_book_free(a);
    hl_book_free(b);
    return text;
}

static int expect(const char *field, const char *first, const char *second, const char *says)
{
    char *text = read_diff(first, second);
    const bool good = strstr(text, says) != NULL;
    if (!good)
        print_error("%s: no line says %s\n%s\n", field, says, text);
    hl_free(text);
    return good ? 0 : 1;
}

static void every_field_is_compared(void **state)
{
    (void)state;
    char first[4000], second[5000];
    int wrong = 0;
    snprintf(first, sizeof first, "return book { id = 'a', api = 1, title = 'T', %s use 'sum' }\n", base);
    for (size_t i = 0; i < sizeof differences / sizeof *differences; i++) {
        const difference *one = &differences[i];
        snprintf(second, sizeof second, "return book { id = 'b', api = 1, %s %s use 'sum', %s }\n",
                 strcmp(one->field, "book.title") == 0 ? "" : "title = 'T',", base, one->entry);
        wrong += expect(one->field, first, second, one->says);
    }
    for (size_t i = 0; i < sizeof declared / sizeof *declared; i++) {
        const char *at = strstr(first, declared[i].was);
        assert_non_null(at);
        snprintf(second, sizeof second, "%.*s%s%s", (int)(at - first), first, declared[i].is,
                 at + strlen(declared[i].was));
        char *id = strstr(second, "id = 'a'");
        id[6] = 'b';
        wrong += expect(declared[i].field, first, second, declared[i].says);
    }
    assert_int_equal(wrong, 0);
}

/* A field that is added to the rule language must be added here too. */
static void no_field_is_forgotten(void **state)
{
    (void)state;
    int forgotten = 0;
    for (int i = 0; hl__host_field(i) != NULL; i++) {
        const char *field = hl__host_field(i);
        bool known = false;
        for (size_t k = 0; k < sizeof differences / sizeof *differences; k++)
            known = known || strcmp(differences[k].field, field) == 0;
        for (size_t k = 0; k < sizeof declared / sizeof *declared; k++)
            known = known || strcmp(declared[k].field, field) == 0;
        for (size_t k = 0; k < sizeof apart / sizeof *apart; k++)
            known = known || strncmp(apart[k], field, strlen(apart[k])) == 0;
        if (!known)
            print_error("%s is not compared by any row here\n", field);
        forgotten += !known;
    }
    assert_int_equal(forgotten, 0);
}

/* The other side: the same rules under another name differ in nothing. */
static void the_same_book_differs_in_nothing(void **state)
{
    (void)state;
    char first[4000], second[4000];
    snprintf(first, sizeof first, "return book { id = 'a', api = 1, title = 'T', %s use 'sum' }\n", base);
    snprintf(second, sizeof second, "return book { id = 'b', api = 1, title = 'T', %s use 'sum' }\n", base);
    char *text = read_diff(first, second);
    assert_string_equal(text, "");
    hl_free(text);
}

static void what_is_gone_and_what_was_moved(void **state)
{
    (void)state;
    char first[4000];
    snprintf(first, sizeof first,
             "return book { id = 'a', api = 1, title = 'T', %s use 'sum', float { 'two', within = 1 }, "
             "acknowledge { 'screw', 'one', why = 'known' } }\n",
             base);
    static const char second[] =
        "return book { id = 'b', api = 1, title = 'T', stage { 'end', title = 'End' }, stage { 'set', title "
        "= 'Set' }, "
        "use 'two', use 'one', adjuster { 'screw', title = 'screw', verb = 'turn', unit = 'turn', more = "
        "'in', less = "
        "'out', finest = 0.125, reach = 2, visit = 'bench', moves = { one = 1 } } }\n";
    static const char *const says[] = {
        "stage set: caution \"Mind the strings.\" becomes (none)",
        "order of the stages \"set, end\" becomes \"end, set\"",
        "choice school: not in book b",
        "float: two by 1 mm gives way, becomes nothing",
        "felt: not in book b",
        "sum: not in book b",
        "one: comes after (none) becomes \"two\"",
        "fact arm: not in book b",
        "shim: not in book b",
        "screw: moves.two slight becomes nothing",
        "screw: that it spoils one is acknowledged no longer",
        "diagnosis d: not in book b",
        "source key: not in book b",
    };
    char *text = read_diff(first, second);
    const char *caution = strstr(text, "caution");
    for (size_t i = 0; i < sizeof says / sizeof *says; i++) {
        if (strstr(text, says[i]) == NULL)
            print_error("no line says %s\n%s\n", says[i], text);
        assert_non_null(strstr(text, says[i]));
    }
    assert_true(caution != NULL && caution < strchr(text, '\n')); /* it comes first */
    hl_free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_field_is_compared),
        cmocka_unit_test(no_field_is_forgotten),
        cmocka_unit_test(the_same_book_differs_in_nothing),
        cmocka_unit_test(what_is_gone_and_what_was_moved),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
