/* test_leads.c - the key front load that a mean weight needs, and the lead that gives it.
 *
 * Published where a key of docs/sources.md is named, arithmetic otherwise.  "Arithmetic" sheets state round
 * arms, and no wood, so that the sums can be seen. */
#include "shipped.h"

#include "leads.h"

#include <math.h>

#define NEAR(x) ((hl_amount)llround((x)*1e6))
#define ROUND   "# book: grand\n# key_front: 200\n# lead_wood: 0\n"

static void assert_near(double value, double wanted, double within)
{
    if (!(fabs(value - wanted) <= within))
        fail_msg("%.9f, not %.9f", value, wanted);
}

/* ---- the arithmetic ---------------------------------------------------------------------- */

static void what_a_lead_gives(void **state)
{
    (void)state;
    static const struct {
        double mass, place, front, gives, inertia;
        const char *source;
    } cases[] = {
        {14, 100, 200, 7, 140000, "arithmetic"},
        {14, 200, 220, 12.727273, 560000, "arithmetic"},
        {12, 150, 240, 7.5, 270000, "arithmetic"},
        /* in cm: equal moments of 30 g cm, inertias of 30 and 90 g cm2 */
        {30, 1, 1, 30, 30, "[list-2003-lead-inertia]"},
        {10, 3, 1, 30, 90, "[list-2003-lead-inertia]"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        assert_near(hl__front_by_lead(cases[i].mass, cases[i].place, cases[i].front), cases[i].gives, 5e-7);
        assert_near(hl__lead_inertia(cases[i].mass, cases[i].place), cases[i].inertia, 1e-9);
    }
    /* nearer the pin with more mass, the same moment, less inertia: [list-1995-lead-law] */
    assert_true(hl__front_by_lead(14, 100, 200) == hl__front_by_lead(8, 175, 200));
    assert_true(hl__lead_inertia(14, 100) < hl__lead_inertia(8, 175));
}

static void what_hammer_and_whippen_come_to(void **state)
{
    (void)state;
    static const struct {
        hl_weights weights;
        double lifted, within;
        const char *source;
    } cases[] = {
        {{0, 100, 0, .588}, 58.8, 1e-9, "[list-1999-capstan-ratio]"},
        {{0, 10, 0, .59}, 5.9, 1e-9, "[list-1999-capstan-ratio]"},
        {{0, 10, 0, .5}, 5, 1e-9, "[page-weight-levers]"},
        {{0, 5, 0, .5}, 2.5, 1e-9, "[list-2006-capstan-weight] (computed)"},
        {{0, 6, 0, .5}, 3, 1e-9, "[list-2006-capstan-weight] (computed)"},
        /* mean 44 and front 28 at leverage 6.0 (5.998); 38.8 and 28 at 5.5 */
        {{10.4, 18.5, 5.998, .52}, 72, .01, "[college-2004-leverage]"},
        {{10.4, 18.5, 5.5, .52}, 66.8, .05, "[college-2004-leverage]"},
        /* synthetic, arithmetic: 38 + 25 and 37 + 30 */
        {{9.5, 18, 5.684211, .5}, 63, 1e-5, "arithmetic"},
        {{10, 18, 5.764, .52}, 67, 1e-9, "arithmetic"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        assert_near(hl__lifted(&cases[i].weights), cases[i].lifted, cases[i].within);
}

/* ---- one note ---------------------------------------------------------------------------- */

static hl_leads plan_for(judged *j, const char *note, const hl_leads_ask *ask)
{
    hl_leads leads;
    hl_err err = {0};
    int at = hl_note_parse(hl_sheet_compass(j->sheet), note);
    assert_int_equal(hl_leads_for_note(&leads, j->audit, at, ask, &err), HL_OK);
    return leads;
}

static hl_leads plan(const char *text, const hl_leads_ask *ask)
{
    judged j = judge_by(open_shipped("grand"), text);
    hl_leads leads = plan_for(&j, "C4", ask);
    put_away(&j);
    return leads;
}

static hl_leads_ask wanted(double target)
{
    return (hl_leads_ask){.has_target = true, .target = NEAR(target)};
}

/* Mean weight 45 -> 38: 7 g, by 14 g at 100 mm (arithmetic). */
static void from_the_measured_mean_weight(void **state)
{
    (void)state;
    hl_leads l = plan(ROUND HEADS "C4,downweight,56\nC4,upweight,34\nC4,key_front_load,21\n", NULL);
    assert_int_equal(l.by, HL_LEADS_MEAN);
    assert_int_equal(l.target, G(38)); /* the grand's aim */
    assert_int_equal(l.mean, G(45));
    assert_int_equal(l.change, G(7));
    assert_int_equal(l.needed, G(28));
    assert_false(l.remove);
    assert_int_equal(l.n_leads, 1);
    assert_int_equal(l.leads[0].mass, G(14));
    assert_int_equal(l.leads[0].place, MM(100));
    assert_int_equal(l.gives, G(7));
    assert_int_equal(l.predicted, G(38));
    assert_true(l.lands);
    assert_near(l.inertia, 140000, 1e-6);
    assert_false(l.short_of || l.too_much || l.friction_first || l.sampled);
    assert_true(l.assumed); /* the limits of a lead's place are the book's */
}

/* 12.727273 g, by way of the front measuring point at 220 mm (arithmetic). */
static void a_length_that_does_not_come_out_even(void **state)
{
    (void)state;
    hl_leads_ask ask = wanted(50 - 12.727273);
    hl_leads l = plan(
        "# book: grand\n# key_front: 220\n# lead_wood: 0\n" HEADS "C4,downweight,62\nC4,upweight,38\n", &ask);
    assert_int_equal(l.leads[0].mass, G(14));
    assert_int_equal(l.leads[0].place, MM(200));
    assert_int_equal(l.gives, 12727273);
    assert_false(l.has_front || l.has_needed);
}

/* One gram of key front load is one of mean weight, the other way: [college-weights]; +5 g
 * gives -5 g: [list-2008-key-front-load]. */
static void a_gram_for_a_gram(void **state)
{
    (void)state;
    static const struct {
        const char *front;
        double mean;
    } cases[] = {{"28", 38.82}, {"29", 37.82}, {"33", 33.82}, {"27", 39.82}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[512] = ROUND "# hammer_leverage: 5.5\n# capstan_ratio: 0.52\n" HEADS
                               "C4,hammer_weight,10.4\nC4,whippen_weight,18.5\nC4,key_front_load,";
        strcat(text, cases[i].front);
        strcat(text, "\n");
        hl_leads_ask ask = wanted(39);
        hl_leads l = plan(text, &ask);
        /* 28, 10.4, 18.5, .52 at leverage 5.5: mean weight 39 (38.8): [college-2004-leverage] */
        assert_int_equal(l.by, HL_LEADS_WEIGHTS);
        assert_int_equal(l.mean, NEAR(cases[i].mean));
        assert_int_equal(l.needed, NEAR(27.82));
        assert_int_equal(l.change, l.mean - l.target);
        assert_int_equal(l.predicted, l.mean - l.gives);
    }
}

/* Too light: 33 where 38 is wanted.  5 g come out: 14 g at 5 x 200 / 14 = 71 mm. */
static void taking_out(void **state)
{
    (void)state;
    hl_leads_ask ask = {.has_carried = true, .carried = G(30)};
    hl_leads l = plan(ROUND HEADS "C4,downweight,43\nC4,upweight,23\n", &ask);
    assert_int_equal(l.change, G(-5));
    assert_true(l.remove);
    assert_int_equal(l.leads[0].mass, G(14));
    assert_int_equal(l.leads[0].place, MM(71));
    assert_int_equal(l.gives, G(-4.97));
    assert_int_equal(l.predicted, G(37.97));
    assert_int_equal(l.carried, G(16));
}

/* The drilled wood takes 4 % off again: 7 g need 14.58 g at 100 mm, or 14 g at 104 mm. */
static void drilled_wood(void **state)
{
    (void)state;
    hl_leads l = plan("# book: grand\n# key_front: 200\n" HEADS "C4,downweight,56\nC4,upweight,34\n", NULL);
    assert_int_equal(l.leads[0].place, MM(104));
    assert_int_equal(l.gives, NEAR(14 * .96 * 104 / 200));
    assert_near(l.inertia, 14 * .96 * 104 * 104, 1e-6);
    assert_true(l.assumed);
}

/* Sharps have arms of their own: 221 mm, and room for a lead up to 177 mm only. */
static void sharps_have_their_own_arms(void **state)
{
    (void)state;
    judged j = judge_by(open_shipped("grand"),
                        "# book: grand\n# lead_wood: 0\n" HEADS
                        "C4,downweight,60\nC4,upweight,40\nC#4,downweight,60\nC#4,upweight,40\n");
    hl_leads natural = plan_for(&j, "C4", NULL), sharp = plan_for(&j, "C#4", NULL);
    assert_int_equal(natural.n_leads, 2); /* 12 g x 254 mm is more than 14 g at 210 mm */
    assert_int_equal(sharp.n_leads, 2);
    /* 12 x 254 / 28 = 108.9, and 9 mm to each side; 12 x 221 / 28 = 94.7 */
    assert_int_equal(natural.leads[0].place, MM(118));
    assert_int_equal(natural.leads[1].place, MM(100));
    assert_int_equal(sharp.leads[0].place, MM(104));
    assert_int_equal(sharp.leads[1].place, MM(86));
    put_away(&j);
}

/* Half a gram: 6 g at 40 mm give 1.2, so doing nothing is nearer.  0.7 g: the lead is. */
static void less_than_the_smallest_lead(void **state)
{
    (void)state;
    hl_leads_ask ask = wanted(38);
    hl_leads l = plan(ROUND HEADS "C4,downweight,50\nC4,upweight,27\n", &ask);
    assert_int_equal(l.change, G(.5));
    assert_int_equal(l.n_leads, 0);
    assert_int_equal(l.gives, 0);
    assert_int_equal(l.predicted, G(38.5));
    assert_true(l.lands);
    ask = wanted(37.8);
    l = plan(ROUND HEADS "C4,downweight,50\nC4,upweight,27\n", &ask);
    assert_int_equal(l.n_leads, 1);
    assert_int_equal(l.leads[0].mass, G(6));
    assert_int_equal(l.leads[0].place, MM(40));
    assert_int_equal(l.gives, G(1.2));
    ask = wanted(38.5);
    l = plan(ROUND HEADS "C4,downweight,50\nC4,upweight,27\n", &ask);
    assert_int_equal(l.change, 0);
    assert_int_equal(l.n_leads, 0);
}

/* The shop says how much a key may carry; past that, look at friction and geometry first. */
static void more_lead_than_the_shop_allows(void **state)
{
    (void)state;
    static const struct {
        const char *fact;
        bool known;
        double carried;
        bool too_much;
    } cases[] = {
        {"", true, 90, false}, /* the shop has not said */
        {"# most_lead_per_key: 56\n", false, 0, false},
        {"# most_lead_per_key: 56\n", true, 42, false}, /* exactly as much */
        {"# most_lead_per_key: 56\n", true, 43, true},
        {"# most_lead_per_key: 13\n", false, 0, true}, /* the new one alone is more */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_leads_ask ask = {.has_carried = cases[i].known, .carried = NEAR(cases[i].carried)};
        char text[256] = ROUND;
        strcat(text, cases[i].fact);
        strcat(text, HEADS "C4,downweight,56\nC4,upweight,34\n");
        hl_leads l = plan(text, &ask);
        assert_int_equal(l.carried, NEAR(cases[i].carried) + G(14));
        if (l.too_much != cases[i].too_much)
            fail_msg("%s, %g g in the key", cases[i].fact, cases[i].carried);
    }
    /* mean 110: four leads of 14 g at 210 ... 156 mm give 51.24 g, and 72 are asked for */
    hl_leads l = plan(ROUND "# most_lead_per_key: 900\n" HEADS "C4,downweight,120\nC4,upweight,100\n", NULL);
    assert_true(l.short_of);
    assert_true(l.too_much);
    assert_int_equal(l.n_leads, 4);
    assert_int_equal(l.lead, G(56));
    assert_int_equal(l.gives, NEAR(14. * (210 + 192 + 174 + 156) / 200));
    assert_false(l.lands);
}

/* 81 and 16: friction 32.5.  Lead would cure nothing: friction first, then weigh again. */
static void friction_comes_first(void **state)
{
    (void)state;
    hl_leads l = plan(ROUND HEADS "C4,downweight,81\nC4,upweight,16\n", NULL);
    assert_true(l.friction_first);
    assert_int_equal(l.mean, G(48.5)); /* [list-2003-friction-c5] (computed) */
}

/* Hammers of 11 g at A3 (note 37) and 8 g at A4 (note 49): C4 (note 40) lies a quarter of the way. */
static void weights_by_samples(void **state)
{
    (void)state;
    const char *rows =
        "A3,hammer_weight,11\nA4,hammer_weight,8\nA3,whippen_weight,18\nC4,key_front_load,25\n";
    char text[512] = ROUND "# hammer_leverage: 5.5\n# capstan_ratio: 0.5\n" HEADS;
    strcat(text, rows);
    hl_leads l = plan(text, NULL);
    assert_true(l.sampled);
    assert_int_equal(l.mean, NEAR(10.25 * 5.5 + 18 * .5 - 25));
    /* a section that ends at B3 (note 39) keeps A3's hammer out: A4's is held level */
    strcpy(text, ROUND "# hammer_leverage: 5.5\n# capstan_ratio: 0.5\n# breaks: 39\n" HEADS);
    strcat(text, rows);
    l = plan(text, NULL);
    assert_int_equal(l.by, HL_LEADS_LACKING);
    assert_string_equal(l.lacks, "whippen_weight");
    strcat(text, "C5,whippen_weight,18\n");
    l = plan(text, NULL);
    assert_int_equal(l.mean, NEAR(8 * 5.5 + 18 * .5 - 25));
}

static void what_is_lacking(void **state)
{
    (void)state;
    static const struct {
        const char *rows, *lacks;
        bool has_needed;
    } cases[] = {
        {"C4,blow,46\n", "hammer_weight", false},
        {"C4,hammer_weight,10\n", "whippen_weight", false},
        {"C4,hammer_weight,10\nC4,whippen_weight,18\n", "key_front_load", true},
        {"C4,downweight,56\n", "hammer_weight", false}, /* half a weighing is none */
        /* weighed before lead went in: no longer true */
        {"C4,downweight,56\nC4,upweight,34\nC4,key_lead,+5\n", "hammer_weight", false},
        {"C4,hammer_weight,10\nC4,whippen_weight,18\nC4,key_front_load,25\nC4,key_lead,+5\n",
         "key_front_load", true},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[256] = ROUND HEADS;
        strcat(text, cases[i].rows);
        hl_leads l = plan(text, NULL);
        assert_int_equal(l.by, HL_LEADS_LACKING);
        assert_string_equal(l.lacks, cases[i].lacks);
        assert_int_equal(l.has_needed, cases[i].has_needed);
        assert_false(l.has_change);
        assert_int_equal(l.n_leads, 0);
    }
}

/* A shop's limits that can't be met are said, not worked around. */
static void a_key_with_no_room(void **state)
{
    (void)state;
    hl_leads l = plan(ROUND "# lead_farthest: 30\n" HEADS "C4,downweight,56\nC4,upweight,34\n", NULL);
    assert_string_equal(l.lacks, "lead_farthest");
    assert_int_equal(l.n_leads, 0);
    /* the small book has no box of leads */
    judged j = judge(HEADS "C4,downweight,56\nC4,upweight,34\n");
    l = plan_for(&j, "C4", NULL);
    assert_string_equal(l.lacks, "lead");
    assert_int_equal(l.change, G(7));
    put_away(&j);
}

static void questions_that_make_no_sense(void **state)
{
    (void)state;
    hl_leads l;
    hl_err err = {0};
    judged j = judge(HEADS "C4,downweight,56\nC4,upweight,34\n");
    assert_int_equal(hl_leads_for_note(&l, j.audit, 0, NULL, &err), HL_E_USAGE);
    assert_int_equal(hl_leads_for_note(&l, j.audit, 89, NULL, &err), HL_E_USAGE);
    assert_non_null(strstr(err.what, "89"));
    assert_true(err.todo[0] != '\0');
    put_away(&j);
    hl_book *book = small_book();
    book->steps[small_step(book, "mean_weight")].id = "weight_by_another_name";
    j = judge_by(book, HEADS "C4,downweight,56\nC4,upweight,34\n");
    assert_int_equal(hl_leads_for_note(&l, j.audit, 40, NULL, &err), HL_E_USAGE);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(what_a_lead_gives),
        cmocka_unit_test(what_hammer_and_whippen_come_to),
        cmocka_unit_test(from_the_measured_mean_weight),
        cmocka_unit_test(a_length_that_does_not_come_out_even),
        cmocka_unit_test(a_gram_for_a_gram),
        cmocka_unit_test(taking_out),
        cmocka_unit_test(drilled_wood),
        cmocka_unit_test(sharps_have_their_own_arms),
        cmocka_unit_test(less_than_the_smallest_lead),
        cmocka_unit_test(more_lead_than_the_shop_allows),
        cmocka_unit_test(friction_comes_first),
        cmocka_unit_test(weights_by_samples),
        cmocka_unit_test(what_is_lacking),
        cmocka_unit_test(a_key_with_no_room),
        cmocka_unit_test(questions_that_make_no_sense),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
