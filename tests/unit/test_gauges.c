/* test_gauges.c - repeatability from readings taken again, and gauges too coarse for their target.
 *
 * Pooled standard deviations are held against published sets and
 * the GNU Scientific Library; what counts as a repeat is our own rule. */
#include "judged.h"

#include "gauges.h"

#include <gsl/gsl_statistics_double.h>
#include <math.h>

static const hl_repeat *see_repeat(const judged *j, const char *step, const char *method)
{
    size_t n = 0;
    const hl_repeat *list = hl_audit_repeats(j->audit, &n);
    for (size_t i = 0; i < n; i++)
        if (list[i].step == small_step(j->book, step) && strcmp(list[i].method, method) == 0)
            return &list[i];
    return NULL;
}

static const hl_gauge *see_gauge(const judged *j, const char *step)
{
    size_t n = 0;
    const hl_gauge *list = hl_audit_gauges(j->audit, &n);
    for (size_t i = 0; i < n; i++)
        if (list[i].step == small_step(j->book, step))
            return &list[i];
    return NULL;
}

static void assert_near(double got, double want, double within, const char *source)
{
    if (!(fabs(got - want) <= within))
        fail_msg("%.9f, not %.9f: %s", got, want, source);
}

/* A book whose key level may be anything and whose gauge is so coarse that no change is presumed to be
 * an adjustment: room for the numbers of others. */
static hl_book *open_book(void)
{
    hl_book *book = small_book();
    hl_step *level = &book->steps[small_step(book, "key_level")];
    hl_target *targets = (hl_target *)level->targets;
    for (int i = 0; i <= HL_PITCHES; i++)
        targets[i] = (hl_target){0};
    level->gauge = MM(1000);
    level->resolution = 1;
    return book;
}

/* GUM H.5, table H.9: ten days' standard deviations of five readings, microvolts. */
static void gum_h5(void **state)
{
    (void)state;
    static const double days[] = {60, 77, 111, 101, 67, 93, 80, 73, 88, 86};
    hl_pool pool = {0};
    for (int i = 0; i < 10; i++)
        hl__pool_add(&pool, 5, 0, 4 * days[i] * days[i]);
    assert_int_equal(pool.places, 10);
    assert_int_equal(pool.freedom, 40);
    assert_near(hl__pool_deviation(&pool), 84.887, .0005, "GUM (JCGM 100) H.5, pooled within: 85");
}

/* NIST e-Handbook 1.4.2.8, GEAR.DAT: gear diameters, ten batches of ten. */
static const double GEARS[10][10] = {
    {1.006, .996, .998, 1.000, .992, .993, 1.002, .999, .994, 1.000},
    {.998, 1.006, 1.000, 1.002, .997, .998, .996, 1.000, 1.006, .988},
    {.991, .987, .997, .999, .995, .994, 1.000, .999, .996, .996},
    {1.005, 1.002, .994, 1.000, .995, .994, .998, .996, 1.002, .996},
    {.998, .998, .982, .990, 1.002, .984, .996, .993, .980, .996},
    {1.009, 1.013, 1.009, .997, .988, 1.002, .995, .998, .981, .996},
    {.990, 1.004, .996, 1.001, .998, 1.000, 1.018, 1.010, .996, 1.002},
    {.998, 1.000, 1.006, 1.000, 1.002, .996, .998, .996, 1.002, 1.006},
    {1.002, .998, .996, .995, .996, 1.004, 1.004, .998, .999, .991},
    {.991, .995, .984, .994, .997, .997, .991, .998, 1.004, .997},
};

/* Ten notes, each read ten times by one person. */
static void gear_dat(void **state)
{
    (void)state;
    hl_text text = {0};
    hl__text_add(&text, HEADS);
    for (int i = 0; i < 10; i++)
        for (int k = 0; k < 10; k++)
            hl__text_printf(&text, "%d,key_level,%d.%03d\n", 40 + k, (int)GEARS[k][i],
                            (int)(GEARS[k][i] * 1000 + .5) % 1000);
    /* the set was typed from memory: its published mean and deviation show that it is the right one */
    assert_near(gsl_stats_mean(&GEARS[0][0], 1, 100), .99764, 1e-9, "NIST, mean of GEAR.DAT");
    assert_near(gsl_stats_sd(&GEARS[0][0], 1, 100), .00627890, 5e-9, "NIST, s of GEAR.DAT");
    judged j = judge_by(open_book(), text.data);
    const hl_repeat *repeat = see_repeat(&j, "key_level", "");
    assert_non_null(repeat);
    assert_int_equal(repeat->places, 10);
    assert_int_equal(repeat->freedom, 90);
    assert_near((double)repeat->deviation / 1e6, .00593857, 6e-7, "pooled s of GEAR.DAT");
    put_away(&j);
    hl__text_free(&text);
}

/* AIAG, Measurement Systems Analysis, 4th edition: 10 parts, 3 people, 3 trials. */
static const double AIAG[10][3][3] = {
    {{.29, .41, .64}, {.08, .25, .07}, {.04, -.11, -.15}},
    {{-.56, -.68, -.58}, {-.47, -1.22, -.68}, {-1.38, -1.13, -.96}},
    {{1.34, 1.17, 1.27}, {1.19, .94, 1.34}, {.88, 1.09, .67}},
    {{.47, .50, .64}, {.01, 1.03, .20}, {.14, .20, .11}},
    {{-.80, -.92, -.84}, {-.56, -1.20, -1.28}, {-1.46, -1.07, -1.45}},
    {{.02, -.11, -.21}, {-.20, .22, .06}, {-.29, -.67, -.49}},
    {{.59, .75, .66}, {.47, .55, .83}, {.02, .01, .21}},
    {{-.31, -.20, -.17}, {-.63, .08, -.34}, {-.46, -.56, -.49}},
    {{2.26, 1.99, 2.01}, {1.80, 2.12, 2.19}, {1.77, 1.45, 1.87}},
    {{-1.36, -1.25, -1.31}, {-1.68, -1.62, -1.50}, {-1.49, -1.77, -2.16}},
};

/* The three take turns, so that each one's repeats stand apart in the sheet. */
static void aiag_study(void **state)
{
    (void)state;
    hl_text text = {0};
    hl__text_add(&text, "note,step,reading,by\n");
    for (int trial = 0; trial < 3; trial++)
        for (int part = 0; part < 10; part++)
            for (int who = 0; who < 3; who++) {
                hl__text_printf(&text, "%d,key_level,", 40 + part);
                hl__text_exact(&text, MM(AIAG[part][who][trial]));
                hl__text_printf(&text, ",%c\n", 'A' + who);
            }
    judged j = judge_by(open_book(), text.data);
    const hl_repeat *repeat = see_repeat(&j, "key_level", "");
    assert_non_null(repeat);
    assert_int_equal(repeat->places, 30);
    assert_int_equal(repeat->freedom, 60);
    assert_near((double)repeat->deviation / 1e6, .21443466, 6e-7,
                "AIAG MSA 4th ed., repeatability (EV) without pooling the interaction");
    put_away(&j);
    hl__text_free(&text);
}

/* NIST StRD, NumAcc4: 10000000.2, then .1 and .3 by turns; certified s 0.1. */
static void numacc4(void **state)
{
    (void)state;
    const hl_amount first = INT64_C(10000000200000);
    double sum = 0, squares = 0;
    hl_pool pool = {0};
    for (int i = 0; i < 1001; i++) {
        hl_amount value = i == 0 ? first : first + (i % 2 ? -100000 : 100000);
        double from_first = (double)(value - first) / 1e6;
        sum += from_first;
        squares += from_first * from_first;
    }
    hl__pool_add(&pool, 1001, sum, squares);
    assert_near(hl__pool_deviation(&pool), .1, 1e-12, "NIST StRD, NumAcc4");
    hl_pool none = {0};
    hl__pool_add(&none, 1, 3, 9);
    assert_int_equal(none.places, 0);
    assert_true(hl__pool_deviation(&none) == 0);
}

/* Pooling unlike numbers of repeats, against GSL set by set. */
static void the_same_as_gsl(void **state)
{
    (void)state;
    uint32_t seed = 5;
    for (int round = 0; round < 200; round++) {
        hl_pool pool = {0};
        double squares = 0;
        int freedom = 0;
        for (int place = 0; place < 1 + round % 9; place++) {
            double values[12];
            int n = 1 + (round + place) % 12;
            double sum = 0, own = 0;
            for (int i = 0; i < n; i++) {
                seed = seed * UINT32_C(1664525) + UINT32_C(1013904223);
                values[i] = 46 + (double)(seed >> 16) / 65536;
                sum += values[i] - values[0];
                own += (values[i] - values[0]) * (values[i] - values[0]);
            }
            hl__pool_add(&pool, n, sum, own);
            squares += n > 1 ? gsl_stats_variance(values, 1, (size_t)n) * (n - 1) : 0;
            freedom += n - 1;
        }
        assert_int_equal(pool.freedom, freedom);
        if (freedom > 0)
            assert_near(hl__pool_deviation(&pool), sqrt(squares / freedom), 1e-12, "GSL");
    }
}

/* Blow is read to 0.1, so two readings 0.1 apart are no presumed adjustment. */
static void what_is_a_repeat(void **state)
{
    (void)state;
    static const struct {
        const char *what, *rows;
        int places, freedom;
    } cases[] = {
        {"the same note twice", "C4,blow,46.0,A,\nC4,blow,46.1,A,\n", 1, 1},
        {"once is no repeat", "C4,blow,46.0,A,\nD4,blow,46.1,A,\n", 0, 0},
        {"three of one, two of another",
         "C4,blow,46,A,\nC4,blow,46.1,A,\nC4,blow,46,A,\nD4,blow,46,A,\nD4,blow,"
         "46,A,\n",
         2, 3},
        {"another person's reading is none", "C4,blow,46.0,A,\nC4,blow,46.1,B,\n", 0, 0},
        {"but it does not part the first one's", "C4,blow,46.0,A,\nC4,blow,46.1,B,\nC4,blow,46.1,A,\n", 1, 1},
        {"another method", "C4,blow,46.0,A,rule\nC4,blow,46.1,A,gauge\n", 0, 0},
        {"an adjustment between that moves it", "C4,blow,46.0,A,\nC4,capstan,+1/8,A,\nC4,blow,46.1,A,\n", 0,
         0},
        {"one that moves it by an unknown amount", "C4,blow,46.0,A,\nC4,capstan,done,A,\nC4,blow,46.1,A,\n",
         0, 0},
        {"one that does not move it", "C4,blow,46.0,A,\nC4,drop_screw,+1,A,\nC4,blow,46.1,A,\n", 1, 1},
        {"one of another note", "C4,blow,46.0,A,\nD4,capstan,+1,A,\nC4,blow,46.1,A,\n", 1, 1},
        {"one that was taken back",
         "C4,blow,46.0,A,\nC4,capstan,+1,A,\nC4,capstan,void,A,\nC4,blow,46.1,A,\n", 1, 1},
        {"a new pass", "C4,blow,46.0,A,\n,pass,later,,\nC4,blow,46.1,A,\n", 0, 0},
        {"a withdrawn reading", "C4,blow,46.0,A,\nC4,blow,46.1,A,\nC4,blow,void,A,\n", 0, 0},
        {"a change that gives an adjustment away", "C4,blow,48.0,A,\nC4,blow,46.0,A,\n", 0, 0},
        {"after it they repeat again", "C4,blow,48.0,A,\nC4,blow,46.0,A,\nC4,blow,46.1,A,\n", 1, 1},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[400] = "note,step,reading,by,method\n";
        strcat(text, cases[i].rows);
        judged j = judge(text);
        const hl_repeat *repeat = see_repeat(&j, "blow", "");
        if ((repeat ? repeat->places : 0) != cases[i].places ||
            (repeat ? repeat->freedom : 0) != cases[i].freedom)
            fail_msg("%s: %d places, %d degrees", cases[i].what, repeat ? repeat->places : 0,
                     repeat ? repeat->freedom : 0);
        put_away(&j);
    }
}

/* What `note` writes in a walk: the last reading once more, with the remark. */
static void a_remark_is_no_reading(void **state)
{
    (void)state;
    static const struct {
        const char *what, *rows;
        int places;
    } cases[] = {
        {"six remarks, a note each",
         "C4,blow,46,A,\nC4,blow,46,A,worn\nD4,blow,46,A,\nD4,blow,46,A,worn\nE4,blow,46,A,\nE4,blow,46,A,"
         "worn\n"
         "F4,blow,46,A,\nF4,blow,46,A,worn\nG4,blow,46,A,\nG4,blow,46,A,worn\nA4,blow,46,A,\nA4,blow,46,A,"
         "worn\n",
         0},
        {"six on one",
         "C4,blow,46,A,\nC4,blow,46,A,a\nC4,blow,46,A,b\nC4,blow,46,A,c\nC4,blow,46,A,d\n"
         "C4,blow,46,A,e\nC4,blow,46,A,f\n",
         0},
        {"the same number, really read again", "C4,blow,46,A,\nC4,blow,46,A,\n", 1},
        {"all rows have the same remark", "C4,blow,46,A,hot\nC4,blow,46,A,hot\n", 1},
        {"another number", "C4,blow,46,A,\nC4,blow,46.1,A,worn\n", 1},
        {"read again after the remark", "C4,blow,46,A,\nC4,blow,46,A,worn\nC4,blow,46.1,A,\n", 1},
        {"of somebody else's reading", "C4,blow,46.1,A,\nC4,blow,46,B,\nC4,blow,46,A,worn\n", 1},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[600] = "note,step,reading,by,remark\n";
        strcat(text, cases[i].rows);
        judged j = judge(text);
        const hl_repeat *repeat = see_repeat(&j, "blow", "");
        const int places = repeat ? repeat->places : 0, freedom = repeat ? repeat->freedom : 0;
        if (places != cases[i].places || freedom != cases[i].places)
            fail_msg("%s: %d places, %d degrees", cases[i].what, places, freedom);
        put_away(&j);
    }
}

static void methods_are_kept_apart(void **state)
{
    (void)state;
    judged j = judge("note,step,reading,method\nC4,blow,46.0,rule\nC4,blow,46.0,gauge\nC4,blow,46.1,rule\n"
                     "C4,blow,46.0,gauge\n");
    assert_int_equal(see_repeat(&j, "blow", "rule")->deviation, 70711); /* 0.1 / sqrt 2 */
    assert_int_equal(see_repeat(&j, "blow", "gauge")->deviation, 0);
    put_away(&j);
}

/* Blow 45-47: tolerance 2.  A tenth is 0.2, a quarter 0.5. */
static void coarse_gauges(void **state)
{
    (void)state;
    static const struct {
        double resolution, gauge;
        bool coarse_resolution, coarse_gauge;
    } cases[] = {
        {.2, .5, false, false},
        {.200001, .5, true, false},
        {.2, .500001, false, true},
        {1, 0, true, true}, /* what it is read to stands in for the gauge */
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_book *book = small_book();
        hl_step *blow = &book->steps[small_step(book, "blow")];
        blow->resolution = MM(cases[i].resolution);
        blow->gauge = MM(cases[i].gauge);
        judged j = judge_by(book, HEADS "C4,blow,46\n");
        const hl_gauge *gauge = see_gauge(&j, "blow");
        assert_int_equal(gauge->tolerance, MM(2));
        assert_int_equal(gauge->coarse_resolution, cases[i].coarse_resolution);
        assert_int_equal(gauge->coarse_gauge, cases[i].coarse_gauge);
        assert_null(see_gauge(&j, "key_dip")); /* nothing was read */
        put_away(&j);
    }
}

static void the_tolerance_is_the_narrowest(void **state)
{
    (void)state;
    hl_book *book = small_book();
    hl_target *targets = (hl_target *)book->steps[small_step(book, "blow")].targets;
    targets[48] = (hl_target){MM(45), MM(46), MM(46.5), true, true}; /* C4 */
    targets[50] = (hl_target){MM(45), MM(45.3), 0, true, false};     /* D4: from the limit to the aim */
    judged j = judge_by(book, HEADS "C5,blow,46\nC5,downweight,50\nC5,upweight,26\n");
    assert_int_equal(see_gauge(&j, "blow")->tolerance, MM(.3));
    const hl_gauge *mean = see_gauge(&j, "mean_weight"); /* 34-42 g, from two readings to 1 g */
    assert_int_equal(mean->from, HL_GAUGE_COMPUTED);
    assert_int_equal(mean->uncertainty, 707107);
    assert_false(mean->coarse_gauge);
    put_away(&j);
}

/* s of n pairs 0.1 apart is 0.1 / sqrt 2 = 0.0707. */
static judged pairs(int n, double gauge, double high)
{
    hl_text text = {0};
    hl_book *book = small_book();
    hl_step *blow = &book->steps[small_step(book, "blow")];
    hl_target *targets = (hl_target *)blow->targets;
    for (int i = 0; i <= HL_PITCHES; i++)
        targets[i].high = MM(high);
    blow->gauge = MM(gauge);
    hl__text_add(&text, HEADS);
    for (int i = 0; i < n; i++)
        hl__text_printf(&text, "%d,blow,46\n%d,blow,46.1\n", 40 + i, 40 + i);
    judged j = judge_by(book, text.data);
    hl__text_free(&text);
    return j;
}

static void coarse_repeats(void **state)
{
    (void)state;
    static const struct {
        int n;
        double gauge, high;
        bool coarse, worse;
    } cases[] = {
        {5, .15, 47, false, false},    {5, .14, 47, false, true}, /* 2 s = 0.1414 > 0.14 */
        {4, .14, 47, false, false},    /* four degrees of freedom are too few to say so */
        {5, .15, 45.56, true, false},  /* a quarter of 0.56 is 0.14 */
        {5, .15, 45.57, false, false}, /* a quarter of 0.57 is 0.1425 */
        {4, .15, 45.56, false, false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = pairs(cases[i].n, cases[i].gauge, cases[i].high);
        const hl_repeat *repeat = see_repeat(&j, "blow", "");
        assert_int_equal(repeat->freedom, cases[i].n);
        assert_int_equal(repeat->deviation, 70711);
        if (repeat->coarse != cases[i].coarse || repeat->worse != cases[i].worse)
            fail_msg("case %zu", i);
        put_away(&j);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gum_h5),
        cmocka_unit_test(gear_dat),
        cmocka_unit_test(aiag_study),
        cmocka_unit_test(numacc4),
        cmocka_unit_test(the_same_as_gsl),
        cmocka_unit_test(what_is_a_repeat),
        cmocka_unit_test(a_remark_is_no_reading),
        cmocka_unit_test(methods_are_kept_apart),
        cmocka_unit_test(coarse_gauges),
        cmocka_unit_test(the_tolerance_is_the_narrowest),
        cmocka_unit_test(coarse_repeats),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
