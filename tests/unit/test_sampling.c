/* test_sampling.c - a sample of the notes: which ones, and what the audit concludes from them.
 *
 * Random numbers: the first draws of SplitMix64 from the seed 1234567 as the tables of its many
 * implementations print them (from memory).  What may be concluded: test_bound.c. */
#include "judged.h"

#include "sampling.h"

#include <math.h>

static void the_generator_is_splitmix64(void **state)
{
    (void)state;
    static const uint64_t want[] = {UINT64_C(6457827717110365317), UINT64_C(3203168211198807973),
                                    UINT64_C(9817491932198370423), UINT64_C(4593380528125082431),
                                    UINT64_C(16408922859458223821)};
    uint64_t at = 1234567;
    for (size_t i = 0; i < sizeof want / sizeof *want; i++)
        assert_true(hl__random_next(&at) == want[i]);
}

/* 7 does not divide 2^64; of 70000 draws each number gets near 10000: chi-square with 6 degrees of
 * freedom is below 22.46 in 999 of 1000 cases (common table). */
static void every_number_is_as_likely(void **state)
{
    (void)state;
    uint64_t at = 1;
    int seen[7] = {0};
    double chi = 0;
    for (int i = 0; i < 70000; i++)
        seen[hl__random_below(&at, 7)]++;
    for (int i = 0; i < 7; i++)
        chi += (seen[i] - 10000.0) * (seen[i] - 10000.0) / 10000.0;
    assert_true(chi < 22.46);
    assert_int_equal(hl__random_below(&at, 1), 0);
}

/* ---- the audit ----------------------------------------------------------------------------- */

/* A tidy sheet needs a row: the pass begins. */
#define BLANK HEADS ",pass,check\n"

static judged sample(const char *text, int notes, uint64_t seed, int at_most)
{
    hl_audit_options options = {.sample = {.notes = notes, .seed = seed}};
    options.sample.has_at_most = at_most >= 0;
    options.sample.at_most = at_most;
    return judge_with(small_book(), text, &options);
}

/* Every reading of the drawn notes and of the instrument at its aim, then `more`. */
static judged measured(const char *top, int notes, int at_most, const char *more)
{
    judged blank = sample(top, notes, 1, -1);
    const hl_sample *drawn = hl_audit_sample(blank.audit);
    hl_text text = {0};
    hl__text_add(&text, top);
    type_note(&text, blank.book, 0);
    for (int i = 0; i < drawn->n; i++)
        type_note(&text, blank.book, drawn->notes[i]);
    hl__text_add(&text, more);
    judged j = sample(text.data, notes, 1, at_most);
    hl__text_free(&text);
    put_away(&blank);
    return j;
}

static void the_notes_are_spread(void **state)
{
    (void)state;
    static const char text[] = "# breaks: 20 34 52\n" BLANK;
    for (uint64_t seed = 0; seed < 50; seed++) {
        judged j = sample(text, 22, seed, -1);
        const hl_sample *drawn = hl_audit_sample(j.audit);
        int counts[8] = {0}, sizes[8] = {0};
        assert_int_equal(drawn->n, 22);
        for (int note = 1; note <= 88; note++)
            sizes[2 * hl__sheet_section(j.sheet, note) +
                  hl_pitch_is_sharp(hl_note_pitch(hl_sheet_compass(j.sheet), note))]++;
        for (int i = 0; i < 22; i++) {
            int note = drawn->notes[i];
            assert_true(i == 0 || note > drawn->notes[i - 1]);
            counts[2 * hl__sheet_section(j.sheet, note) +
                   hl_pitch_is_sharp(hl_note_pitch(hl_sheet_compass(j.sheet), note))]++;
        }
        for (int i = 0; i < 8; i++) /* a quarter of each, rounded either way */
            assert_true(abs(4 * counts[i] - sizes[i]) < 4);
        put_away(&j);
    }
}

static void the_same_seed_draws_the_same_notes(void **state)
{
    (void)state;
    judged a = sample(BLANK, 20, 7, -1), b = sample(BLANK "C4,blow,46\n", 20, 7, -1),
           c = sample(BLANK, 20, 8, -1);
    const hl_sample *first = hl_audit_sample(a.audit);
    size_t size = 20 * sizeof *first->notes;
    assert_memory_equal(first->notes, hl_audit_sample(b.audit)->notes, size);
    assert_true(memcmp(first->notes, hl_audit_sample(c.audit)->notes, size) != 0);
    put_away(&a);
    put_away(&b);
    put_away(&c);
}

/* Over many seeds each note turns up as often as the others of its stratum. */
static void within_a_stratum_all_are_alike_likely(void **state)
{
    (void)state;
    int seen[89] = {0}, strata[2] = {0};
    hl_book *book = small_book();
    hl_arena arena = {0};
    hl_drawn drawn;
    hl_sample_ask ask = {.notes = 20};
    hl_sheet sheet = {.compass = {HL_A0, 88}};
    for (uint64_t seed = 0; seed < 4000; seed++) {
        ask.seed = seed;
        assert_true(hl__sample_draw(&drawn, &arena, &sheet, &ask));
        for (int i = 0; i < drawn.sample->n; i++)
            seen[drawn.sample->notes[i]]++;
        strata[0] = drawn.strata[0].drawn;
        strata[1] = drawn.strata[1].drawn;
        hl__arena_free(&arena);
    }
    assert_int_equal(strata[0], 12); /* 52 naturals * 20 / 88 = 11.8, 36 sharps * 20 / 88 = 8.2 */
    assert_int_equal(strata[1], 8);
    for (int note = 1; note <= 88; note++) {
        int sharp = hl_pitch_is_sharp(hl_note_pitch(sheet.compass, note));
        double want = 4000.0 * strata[sharp] / (sharp ? 36 : 52);
        assert_true(fabs(seen[note] - want) < 5 * sqrt(want));
    }
    small_book_free(book);
}

static void few_notes_join_the_strata(void **state)
{
    (void)state;
    static const char text[] = "# breaks: 20 34 52\n" BLANK;
    for (int notes = 1; notes <= 12; notes++) {
        judged j = sample(text, notes, 3, -1);
        int n = 0, drawn = 0;
        for (int i = 0; i < HL_STRATA_MOST; i++) {
            n += j.audit->drawn.strata[i].size > 0;
            drawn += j.audit->drawn.strata[i].drawn;
            assert_true(j.audit->drawn.strata[i].size == 0 || j.audit->drawn.strata[i].drawn > 0);
        }
        assert_int_equal(drawn, notes);
        assert_int_equal(n, notes == 1 ? 1 : notes < 9 ? 2 : 8);
        put_away(&j);
    }
}

static void a_clean_sample_says_how_many_may_be_out(void **state)
{
    (void)state;
    judged j = measured(BLANK, 20, -1, "");
    const hl_sample *found = hl_audit_sample(j.audit);
    assert_true(found->concluded);
    assert_int_equal(found->out, 0);
    assert_int_equal(found->at_most, 10);
    assert_int_equal(hl_audit_total(j.audit)->count[HL_MISSING], 0);
    assert_false(hl_audit_ready(j.audit)); /* nobody said how many would do */
    put_away(&j);
    j = measured(BLANK, 20, 10, "");
    assert_true(hl_audit_ready(j.audit));
    put_away(&j);
    j = measured(BLANK, 20, 9, "");
    assert_false(hl_audit_ready(j.audit));
    put_away(&j);
}

/* Two pianos without section breaks are four strata. */
static void several_pianos_are_one_lot(void **state)
{
    (void)state;
    hl_samples all = {.n = 0};
    hl_err err = {0};
    judged j = measured(BLANK, 20, -1, "");
    judged whole = judge(BLANK);
    for (int i = 0; i < 2; i++)
        assert_int_equal(hl_samples_add(&all, j.audit, &err), HL_OK);
    assert_int_equal(all.total.population, 176);
    assert_int_equal(all.total.n, 40);
    assert_true(all.total.concluded);
    int plain = hl_sample_bound(176, 40, 0, 950000);
    assert_true(hl_samples_at_most(&all) >= plain && hl_samples_at_most(&all) <= plain + 1);
    assert_int_equal(hl_samples_add(&all, whole.audit, &err), HL_E_USAGE);
    hl_samples_free(&all);
    put_away(&j);
    put_away(&whole);
}

/* Bad ones one to a stratum of eight are the likeliest to be missed: one or two more than in a single lot. */
static void sections_cost_a_little(void **state)
{
    (void)state;
    judged j = measured("# breaks: 20 34 52\n" BLANK, 20, -1, "");
    const hl_sample *found = hl_audit_sample(j.audit);
    assert_true(found->at_most >= 10 && found->at_most <= 12);
    put_away(&j);
}

static void what_keeps_it_from_ready(void **state)
{
    (void)state;
    judged blank = sample(BLANK, 20, 1, -1);
    const hl_sample *drawn = hl_audit_sample(blank.audit);
    hl_compass compass = hl_sheet_compass(blank.sheet);
    const char *in = hl_pitch_name(hl_note_pitch(compass, drawn->notes[3]));
    int other = 1;
    for (int i = 0; i < drawn->n && drawn->notes[i] == other; i++)
        other++;
    const char *beside = hl_pitch_name(hl_note_pitch(compass, other));
    const struct {
        const char *what, *format, *note;
        int at_most;
        bool ready, concluded;
    } cases[] = {
        {"a drawn note out, none allowed", "%s,blow,49\n", in, -1, false, true},
        /* what is known to be out is put right, however many unknown ones would do */
        {"a drawn note out, enough allowed", "%s,blow,49\n", in, 17, false, true},
        {"a drawn note withdrawn", "%s,blow,void\n", in, 88, false, false},
        {"a drawn note skipped", "%s,blow,skip\n", in, 88, false, false},
        {"a drawn note adjusted since", "%s,capstan,+1\n", in, 88, false, false},
        {"a query at a drawn note", "%s,query,heavy\n", in, -1, false, true},
        {"a note beside the sample out", "%s,blow,49\n", beside, -1, false, true},
        {"the same, within what is allowed", "%s,blow,49\n", beside, 10, false, true},
        {"a note beside the sample skipped", "%s,blow,skip\n", beside, 10, true, true},
        {"a note beside it adjusted since", "%s,blow,46\n", beside, 10, true, true},
        {"nobody said how many would do", "%s,blow,46\n", beside, -1, false, true},
        {"the instrument", ",una_corda,off\n%s,blow,46\n", beside, 88, false, true},
        {"a whole-instrument step withdrawn", ",una_corda,void\n%s,blow,46\n", beside, 88, false, true},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_text more = {0};
        for (const char *c = cases[i].format; *c; c++) {
            if (c[0] == '%') {
                hl__text_add(&more, cases[i].note);
                c++;
            } else {
                hl__text_char(&more, *c);
            }
        }
        judged j = measured(BLANK, 20, cases[i].at_most, more.data);
        if (hl_audit_ready(j.audit) != cases[i].ready ||
            hl_audit_sample(j.audit)->concluded != cases[i].concluded)
            fail_msg("%s", cases[i].what);
        put_away(&j);
        hl__text_free(&more);
    }
    put_away(&blank);
}

/* Faults seen beside the sample are no estimate, but they are there. */
static void faults_beside_the_sample_count_as_known(void **state)
{
    (void)state;
    hl_text more = {0};
    judged blank = sample(BLANK, 20, 1, -1);
    for (int note = 1; note <= 88; note++)
        if (!blank.audit->drawn.sampled[note])
            hl__text_printf(&more, "%d,blow,49\n", note);
    judged j = measured(BLANK, 20, -1, more.data);
    const hl_sample *found = hl_audit_sample(j.audit);
    assert_int_equal(found->out, 0);
    assert_int_equal(found->known_out, 68);
    assert_int_equal(found->at_most, 68);
    put_away(&j);
    put_away(&blank);
    hl__text_free(&more);
}

static void nothing_measured_shows_nothing(void **state)
{
    (void)state;
    judged j = sample(BLANK, 20, 1, 88);
    assert_false(hl_audit_ready(j.audit));
    assert_false(hl_audit_sample(j.audit)->concluded);
    assert_int_equal(hl_audit_sample(j.audit)->open, 20);
    put_away(&j);
}

static void nonsense_is_refused(void **state)
{
    (void)state;
    static const hl_sample_ask asks[] = {
        {.notes = 89},
        {.notes = -1},
        {.notes = 20, .confidence = HL_ONE},
        {.notes = 20, .confidence = -1},
        {.notes = 20, .has_at_most = true, .at_most = -1},
        {.notes = 0, .has_at_most = true, .at_most = 3},
    };
    judged j = judge(BLANK);
    for (size_t i = 0; i < sizeof asks / sizeof *asks; i++) {
        const hl_audit_options options = {.sample = asks[i]};
        hl_audit *audit = NULL;
        hl_err err = {0};
        assert_int_equal(hl_audit_run(&audit, j.sheet, j.book, &options, &err), HL_E_USAGE);
        assert_null(audit);
        assert_true(err.what[0] && err.todo[0]);
    }
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_generator_is_splitmix64),
        cmocka_unit_test(every_number_is_as_likely),
        cmocka_unit_test(the_notes_are_spread),
        cmocka_unit_test(the_same_seed_draws_the_same_notes),
        cmocka_unit_test(within_a_stratum_all_are_alike_likely),
        cmocka_unit_test(few_notes_join_the_strata),
        cmocka_unit_test(a_clean_sample_says_how_many_may_be_out),
        cmocka_unit_test(several_pianos_are_one_lot),
        cmocka_unit_test(sections_cost_a_little),
        cmocka_unit_test(what_keeps_it_from_ready),
        cmocka_unit_test(faults_beside_the_sample_count_as_known),
        cmocka_unit_test(nothing_measured_shows_nothing),
        cmocka_unit_test(nonsense_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
