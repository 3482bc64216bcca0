/* test_order.c - verdicts do not depend on the order in which a book names its steps.
 *
 * Steps and figures are invented; what is expected is arithmetic.  A derived step builds on a derived step,
 * and one is only read on naturals, so that the chain goes through a value that is not judged on sharps. */
#include "rule_folder.h"

#include "audit.h"

#define N_STEPS 7
#define CHAIN   6 /* permuted in full; the last step is judged and stays behind */

static const char *const STEPS[N_STEPS] = {"m1", "m2", "gap", "leverage", "span", "modelled", "feel"};

static const char *const BODIES[N_STEPS] = {
    "resolution = 0.01, target = range(0, 100), fix = { 'screw' }",
    "resolution = 0.01, target = range(0, 100)",
    "kind = 'derived', resolution = 0.01, formula = 'm1 - m2', target = range(-100, 100), scope = 'naturals'",
    "kind = 'derived', resolution = 0.01, formula = 'gap * 10', target = range(0, 40)",
    "kind = 'derived', resolution = 0.01, formula = 'leverage + m2', target = range(0, 200), even = 5",
    "resolution = 0.01, target = range(-200, 200), model = 'leverage - m1'",
    NULL,
};

static void write_steps(rule_folder *folder)
{
    open_folder(folder);
    for (int i = 0; i < N_STEPS; i++) {
        char text[400];
        if (BODIES[i] != NULL)
            snprintf(
                text, sizeof text,
                "return step { id = '%s', title = 'S', stage = 'set', unit = 'mm', ask = 'a', why = 'w', %s, "
                "source = 's' }\n",
                STEPS[i], BODIES[i]);
        else
            snprintf(
                text, sizeof text,
                "return step { id = '%s', title = 'S', stage = 'set', kind = 'judged', ask = 'a', why = 'w', "
                "source = 's', faults = { { 'stiff', todo = 'Ease it.' } } }\n",
                STEPS[i]);
        write_rule(folder, STEPS[i], text);
    }
}

static hl_book *open_ordered(rule_folder *folder, const int *order)
{
    char text[1000], path[400];
    hl_book *book = NULL;
    hl_err err = {0};
    int n = snprintf(text, sizeof text,
                     "return book { id = 'main', api = 1, title = 'Main', stage { 'set', title = "
                     "'Set' },\n");
    for (int i = 0; i < N_STEPS; i++)
        n += snprintf(text + n, sizeof text - (size_t)n, "  use '%s',\n", STEPS[order[i]]);
    snprintf(
        text + n, sizeof text - (size_t)n,
        "  adjuster { 'screw', title = 'screw', unit = 'turn', more = 'in', less = 'out', finest = 1/8,\n"
        "    moves = { m1 = 1 }, source = 's' },\n}\n");
    snprintf(path, sizeof path, "%s/main.lua", folder->path);
    remove(path);
    folder->n -= strcmp(folder->names[folder->n - 1], "main") == 0;
    write_rule(folder, "main", text);
    if (open_book(folder, "main", &book, &err) != HL_OK)
        fail_msg("%s: %s", err.what, err.todo);
    return book;
}

static bool is_accepted(const hl_book *book)
{
    hl_complaints complaints = {0};
    hl_err err;
    assert_int_equal(hl_book_check(&complaints, book, &err), HL_OK);
    const bool accepted = complaints.n == 0;
    hl_complaints_free(&complaints);
    return accepted;
}

/* Of each step at each note, by the names of the steps: verdict, reason and shift. */
typedef struct told {
    int verdict, why;
    hl_amount value, shift;
} told;

typedef struct result {
    bool ready;
    told of[N_STEPS][HL_PITCHES + 1];
} result;

static void judge_rows(result *out, const hl_book *book, const char *rows)
{
    hl_sheet *sheet = NULL;
    hl_audit *audit = NULL;
    hl_err err = {0};
    size_t n = 0;
    memset(out, 0, sizeof *out);
    if (hl_sheet_open_text(&sheet, "bench.csv", rows, strlen(rows), &err) != HL_OK ||
        hl_sheet_read(sheet, book, &err) != HL_OK || hl_audit_run(&audit, sheet, book, NULL, &err) != HL_OK)
        fail_msg("line %d: %s; %s", err.line, err.what, err.todo);
    out->ready = hl_audit_ready(audit);
    const hl_finding *findings = hl_audit_findings(audit, &n);
    for (size_t i = 0; i < n; i++)
        for (int k = 0; k < N_STEPS; k++)
            if (findings[i].step == hl_book_find_step(book, STEPS[k]))
                out->of[k][findings[i].note] = (told){(int)findings[i].verdict + 1, (int)findings[i].why,
                                                      findings[i].value, findings[i].shift};
    hl_audit_free(audit);
    hl_sheet_free(sheet);
}

static const char HEAD[] = "# compass: A0-E1\nnote,step,reading\n"; /* 8 notes */

static void add_readings(char *text, size_t room)
{
    static const char *const notes[] = {"A0", "A#0", "B0", "C1", "C#1", "D1", "D#1", "E1"};
    size_t n = (size_t)snprintf(text, room, "%s", HEAD);
    for (size_t i = 0; i < sizeof notes / sizeof *notes; i++)
        n += (size_t)snprintf(text + n, room - n, "%s,m1,%d.5\n%s,m2,%d\n%s,modelled,9.5\n%s,feel,ok\n",
                              notes[i], 10 + (int)(i % 3), notes[i], 8 + (int)(i % 3), notes[i], notes[i]);
}

static int note_of(const char *name)
{
    return hl_note_parse((hl_compass){HL_A0, 8}, name);
}

/* The case that a wrong "Ready" came from: work after the readings, seen through two derived steps. */
static void work_overtakes_what_is_derived_from_the_derived(void **state)
{
    (void)state;
    static const int orders[][N_STEPS] = {
        {0, 1, 2, 3, 4, 5, 6}, {0, 1, 3, 2, 4, 5, 6}, {4, 3, 2, 1, 0, 5, 6}};
    rule_folder folder;
    char rows[4000];
    write_steps(&folder);
    add_readings(rows, sizeof rows);
    strcat(rows, "A0,screw,+1 turn\nA#0,screw,+1 turn\n");
    for (size_t i = 0; i < sizeof orders / sizeof *orders; i++) {
        hl_book *book = open_ordered(&folder, orders[i]);
        result r;
        judge_rows(&r, book, rows);
        assert_false(r.ready);
        assert_int_equal(r.of[3][note_of("A0")].verdict, HL_STALE + 1);
        assert_int_equal(r.of[3][note_of("A0")].shift, 10 * HL_ONE); /* ten times the gap's one */
        assert_int_equal(r.of[4][note_of("A0")].verdict, HL_STALE + 1);
        assert_int_equal(r.of[3][note_of("A#0")].verdict, HL_STALE + 1); /* where the gap is not judged */
        assert_int_equal(r.of[3][note_of("B0")].verdict, HL_PASS + 1);
        hl_book_free(book);
    }
    close_folder(&folder);
}

static bool next_permutation(int *order, int n)
{
    int i = n - 2, k = n - 1;
    while (i >= 0 && order[i] > order[i + 1])
        i--;
    if (i < 0)
        return false;
    while (order[k] < order[i])
        k--;
    int swap = order[i];
    order[i] = order[k];
    order[k] = swap;
    for (int low = i + 1, high = n - 1; low < high; low++, high--) {
        swap = order[low];
        order[low] = order[high];
        order[high] = swap;
    }
    return true;
}

static const char *const WORK[] = {
    "",
    "A0,screw,+1 turn\nC1,screw,+0.125 turn\n",
    "A#0,screw,-2 turn\nA#0,m1,8.5\n",
    "B0,screw,done\nC#1,m1,12.75\nE1,feel,stiff\nA0,m2,void\n",
};
#define N_WORK ((int)(sizeof WORK / sizeof *WORK))

static void no_accepted_order_changes_a_verdict(void **state)
{
    (void)state;
    static result first[N_WORK], now;
    rule_folder folder;
    int order[N_STEPS] = {0, 1, 2, 3, 4, 5, 6}, accepted = 0;
    write_steps(&folder);
    do {
        hl_book *book = open_ordered(&folder, order);
        for (int w = 0; is_accepted(book) && w < N_WORK; w++) {
            char rows[4000];
            add_readings(rows, sizeof rows);
            strcat(rows, WORK[w]);
            judge_rows(&now, book, rows);
            if (accepted < N_WORK)
                first[w] = now;
            if (memcmp(&first[w], &now, sizeof now) != 0)
                fail_msg("other verdicts with the steps in the order %d %d %d %d %d %d", order[0], order[1],
                         order[2], order[3], order[4], order[5]);
            accepted++;
        }
        hl_book_free(book);
    } while (next_permutation(order, CHAIN));
    assert_int_equal(accepted, 720 * N_WORK);
    close_folder(&folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(work_overtakes_what_is_derived_from_the_derived),
        cmocka_unit_test(no_accepted_order_changes_a_verdict),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
