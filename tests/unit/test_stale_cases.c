/* test_stale_cases.c - what overtakes a reading and what does not, case by case.
 *
 * The rule is our own (design, section 1): a shift matters that is more than a quarter of half the
 * target's width and more than the gauge.  Figures are arithmetic over the small book: a capstan turn
 * moves blow by -10 mm, 1 g of lead both weighings by -1 g. */
#include "judged.h"

typedef void change(hl_book *book);

static void set_target(hl_book *book, const char *step, hl_target target)
{
    hl_target *targets = (hl_target *)book->steps[small_step(book, step)].targets;
    for (int i = 0; i <= HL_PITCHES; i++)
        targets[i] = target;
}

static void no_change(hl_book *book)
{
    (void)book;
}

static void blow_low_only(hl_book *book) /* 2 mm from limit to aim: bears 0.5 mm */
{
    set_target(book, "blow", (hl_target){MM(44), MM(46), 0, true, false});
}

static void blow_high_only(hl_book *book)
{
    set_target(book, "blow", (hl_target){0, MM(46), MM(48), false, true});
}

static void blow_lopsided(hl_book *book) /* 2 mm wide: bears 0.25 mm, whatever the aim */
{
    set_target(book, "blow", (hl_target){MM(45.5), MM(46), MM(47.5), true, true});
}

static void weight_without_limits(hl_book *book)
{
    set_target(book, "downweight", (hl_target){0});
}

static void blow_left_out(hl_book *book)
{
    book->steps[small_step(book, "blow")].skipped = "not today";
}

static void weights_left_out(hl_book *book)
{
    book->steps[small_step(book, "downweight")].skipped = "weighed by the maker";
    book->steps[small_step(book, "upweight")].skipped = "weighed by the maker";
}

static void capstan_for_all(hl_book *book)
{
    book->adjusters[small_adjuster(book, "capstan")].whole = true;
}

/* The first step of the book. */
static void capstan_moves_key_height(hl_book *book)
{
    ((hl_move *)book->adjusters[small_adjuster(book, "capstan")].moves)->step = 0;
}

/* What follows from the first step, and a first step that follows from others (in a real book it would be
 * another; only the place counts). */
static void friction_follows_key_height(hl_book *book)
{
    capstan_moves_key_height(book);
    book->steps[small_step(book, "friction")].formula = small_formula(book, "key_height");
    small_order(book);
}

static void key_height_follows_downweight(hl_book *book)
{
    book->steps[0].kind = HL_DERIVED;
    book->steps[0].formula = small_formula(book, "downweight");
    small_order(book);
}

/* A screw for all notes that upsets what is read once. */
static void capstan_upsets_una_corda(hl_book *book)
{
    hl_adjuster *capstan = &book->adjusters[small_adjuster(book, "capstan")];
    hl_move *move = (hl_move *)capstan->moves;
    move->kind = HL_MOVE_STRONG;
    move->step = small_step(book, "una_corda");
    capstan->whole = true;
}

#define BOTH  "C4,downweight,52\nC4,upweight,28\n"
#define STALE HL_STALE, HL_WHY_ADJUSTED
#define PASS  HL_PASS, HL_WHY_NONE

static const struct {
    const char *what;
    change *change;
    const char *rows, *step, *note;
    hl_verdict verdict;
    hl_why why;
    hl_amount shift;
    bool presumed;
} cases[] = {
    {"one limit below: a quarter of the way to the aim is borne", blow_low_only,
     "C4,blow,46\nC4,capstan,+0.05 turn\n", "blow", "C4", PASS, 0, false},
    {"and no more", blow_low_only, "C4,blow,46\nC4,capstan,+0.0501 turn\n", "blow", "C4", STALE, MM(-.501),
     false},
    {"one limit above", blow_high_only, "C4,blow,46\nC4,capstan,-0.05 turn\n", "blow", "C4", PASS, 0, false},
    {"and no more there", blow_high_only, "C4,blow,46\nC4,capstan,-0.0501 turn\n", "blow", "C4", STALE,
     MM(.501), false},
    {"two limits: the width counts, not the aim", blow_lopsided, "C4,blow,46\nC4,capstan,+0.025 turn\n",
     "blow", "C4", PASS, 0, false},
    {"and a hair more does not pass", blow_lopsided, "C4,blow,46\nC4,capstan,-0.0251 turn\n", "blow", "C4",
     STALE, MM(.251), false},
    {"without limits the smallest shift matters", weight_without_limits,
     "C4,downweight,52\nC4,key_lead,+0.000001\n", "downweight", "C4", STALE, -1, false},
    {"by how much is not known", no_change, "C4,blow,46\nC4,capstan,done\n", "blow", "C4", STALE, 0, false},
    {"what the capstan does not move stays", no_change, "C4,let_off,1.6\nC4,capstan,done\n", "let_off", "C4",
     PASS, 0, false},
    {"what it moves slightly stays too", no_change, "C4,checking,15\nC4,front_punching,done\n", "checking",
     "C4", PASS, 0, false},
    {"a withdrawn reading is withdrawn", no_change, "C4,blow,46\nC4,blow,void\nC4,capstan,+1 turn\n", "blow",
     "C4", HL_MISSING, HL_WHY_WITHDRAWN, 0, false},
    {"a skipped one is skipped", no_change, "C4,blow,skip\nC4,capstan,+1 turn\n", "blow", "C4", HL_MISSING,
     HL_WHY_SKIPPED, 0, false},
    {"a step that the book leaves out is left out", blow_left_out, "C4,blow,46\nC4,capstan,+1 turn\n", "blow",
     "C4", HL_NOT_APPLICABLE, HL_WHY_BOOK, 0, false},
    {"a failing reading can be overtaken", no_change, "C4,blow,49\nC4,capstan,+1/4 turn\n", "blow", "C4",
     STALE, MM(-2.5), false},
    {"further than can be reckoned with", no_change,
     "C4,downweight,52\nC4,key_lead,+1000000\nC4,key_lead,+1000000\n", "downweight", "C4", STALE, 0, false},
    {"derived: two slight shifts come to one that matters", no_change, BOTH "C4,key_lead,+1.2\n",
     "mean_weight", "C4", STALE, G(-1.2), false},
    {"which neither weighing shows", no_change, BOTH "C4,key_lead,+1.2\n", "downweight", "C4", PASS, 0,
     false},
    {"derived: what a quarter of half the width bears", no_change, BOTH "C4,key_lead,+1\n", "mean_weight",
     "C4", PASS, 0, false},
    {"derived: friction does not move with lead", no_change, BOTH "C4,key_lead,+1.2\n", "friction", "C4",
     PASS, 0, false},
    {"derived from what the book leaves out", weights_left_out, BOTH "C4,key_lead,+5\n", "mean_weight", "C4",
     STALE, G(-5), false},
    {"left out, and not moved by enough", weights_left_out, BOTH "C4,key_lead,+0.5\n", "mean_weight", "C4",
     PASS, 0, false},
    {"presumed: the other weighing has gone too", no_change, BOTH "C4,downweight,45\nC4,downweight,45\n",
     "upweight", "C4", STALE, G(-7), true},
    {"presumed: and what is derived", no_change, BOTH "C4,downweight,45\nC4,downweight,45\n", "mean_weight",
     "C4", STALE, G(-3.5), true},
    {"presumed and recorded: the record is enough", no_change,
     BOTH "C4,downweight,45\nC4,downweight,45\nC4,key_lead,+5\n", "upweight", "C4", STALE, G(-12), false},
    {"and so it is for what is derived", no_change,
     BOTH "C4,downweight,45\nC4,downweight,45\nC4,key_lead,+5\n", "mean_weight", "C4", STALE, G(-8.5), false},
    {"a recorded move that nobody measured is enough as well", no_change,
     BOTH "C4,key_lead,done\nC4,downweight,45\n", "upweight", "C4", STALE, 0, false},
    {"a strong one on record after one that is presumed", no_change,
     BOTH "C4,downweight,45\nC4,key_lead,done\n", "upweight", "C4", STALE, 0, false},
    {"the first step of the book is no exception", capstan_moves_key_height,
     "C4,key_height,63.5\nC4,capstan,+1/8 turn\n", "key_height", "C4", STALE, MM(-1.25), false},
    {"derived: the first of its readings alone has gone", no_change, BOTH "C4,key_lead,+5\nC4,upweight,23\n",
     "mean_weight", "C4", STALE, G(-2.5), false},
    {"left out: the first row of the sheet has gone, too", weights_left_out,
     "C4,downweight,52\nC4,key_lead,+5\nC4,upweight,28\n", "mean_weight", "C4", STALE, G(-2.5), false},
    {"derived: from a reading that has gone, though what follows has not gone far", no_change,
     BOTH "C4,key_lead,+1.5\nC4,upweight,26\n", "mean_weight", "C4", STALE, G(-.75), false},
    {"left out: the first row, gone by little", weights_left_out,
     "C4,downweight,52\nC4,key_lead,+1.5\nC4,upweight,26\n", "mean_weight", "C4", STALE, G(-.75), false},
    {"derived from the first step of the book", friction_follows_key_height,
     "C4,key_height,63.5\nC4,capstan,+1/8 turn\n", "friction", "C4", STALE, MM(-1.25), false},
    {"the first step of the book, derived", key_height_follows_downweight, BOTH "C4,key_lead,+5\n",
     "key_height", "C4", STALE, G(-5), false},
    {"derived: not from what it does not name", capstan_moves_key_height,
     BOTH "C4,key_height,63.5\nC4,capstan,+1/8 turn\n", "mean_weight", "C4", PASS, 0, false},
    {"left out, and moved nobody knows how far", weights_left_out, BOTH "C4,key_lead,done\n", "mean_weight",
     "C4", STALE, 0, false},
    {"left out, and the difference stays", weights_left_out, BOTH "C4,key_lead,+5\n", "friction", "C4", STALE,
     0, false},
    {"for all notes: the lowest", capstan_for_all, "A0,blow,46\n,capstan,+1/8 turn\n", "blow", "A0", STALE,
     MM(-1.25), false},
    {"for all notes: the highest", capstan_for_all, "C8,blow,46\n,capstan,+1/8 turn\n", "blow", "C8", STALE,
     MM(-1.25), false},
    {"for all notes: what is read once", capstan_upsets_una_corda, ",una_corda,ok\n,capstan,+1/8 turn\n",
     "una_corda", "", STALE, 0, false},
    {"read again after one of two turns", no_change,
     "C4,blow,46\nC4,capstan,+1 turn\nC4,blow,46\nC4,capstan,+1/8 turn\n", "blow", "C4", STALE, MM(-1.25),
     false},
};

static void case_by_case(void **state)
{
    (void)state;
    bool bad = false;
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[400] = HEADS;
        hl_book *book = small_book();
        cases[i].change(book);
        strcat(text, cases[i].rows);
        judged j = judge_by(book, text);
        const hl_finding *finding = see(&j, cases[i].step, cases[i].note);
        if (finding->verdict != cases[i].verdict || finding->why != cases[i].why ||
            finding->shift != cases[i].shift || finding->presumed != cases[i].presumed) {
            print_error("%s: %s, why %d, shift %lld%s\n", cases[i].what, hl_verdict_name(finding->verdict),
                        (int)finding->why, (long long)finding->shift, finding->presumed ? ", presumed" : "");
            bad = true;
        }
        put_away(&j);
    }
    assert_false(bad);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(case_by_case)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
