/* test_audit.c - a whole sheet: what is asked, what is missing, and when a job is ready. */
#include "judged.h"

static void a_finished_piano_is_ready(void **state)
{
    (void)state;
    judged j = judge_finished(small_book(), "");
    assert_true(hl_audit_ready(j.audit));
    const hl_tally *total = hl_audit_total(j.audit);
    assert_int_equal(total->count[HL_FAIL] + total->count[HL_MISSING] + total->count[HL_STALE], 0);
    assert_int_equal(hl_audit_tally(j.audit, small_step(j.book, "blow"))->count[HL_PASS], 88);
    /* 52 naturals and 36 sharps on a piano of 88 keys */
    const hl_tally *sharps = hl_audit_tally(j.audit, small_step(j.book, "sharp_height"));
    assert_int_equal(sharps->count[HL_PASS], 36);
    assert_int_equal(sharps->count[HL_NOT_APPLICABLE], 52);
    put_away(&j);
}

/* Every single thing that keeps a job open.  C4's readings stand at their aims before. */
static void what_keeps_a_job_open(void **state)
{
    (void)state;
    static const struct {
        const char *rows, *step, *note;
        hl_verdict verdict;
        hl_why why;
        bool ready;
    } cases[] = {
        {"C4,blow,47\n", "blow", "C4", HL_FAIL, HL_WHY_UNEVEN, false},
        {"C4,blow,46.5\n", "blow", "C4", HL_PASS, HL_WHY_NONE, true},
        {"C4,blow,47.1\n", "blow", "C4", HL_FAIL, HL_WHY_HIGH, false},
        /* put right in a later pass: the reading counts, and the aftertouch that went with it is open */
        {"C4,blow,47.1\n,pass,final\nC4,blow,46\n", "blow", "C4", HL_PASS, HL_WHY_NONE, false},
        /* put right without a word, in one pass: which of the two holds is open until a third agrees */
        {"C4,blow,47.1\nC4,blow,46\n", "blow", "C4", HL_DOUBTFUL, HL_WHY_DISAGREE, false},
        {"C4,blow,47.1\nC4,blow,46\nC4,blow,46\n", "aftertouch", "C4", HL_STALE, HL_WHY_ADJUSTED, false},
        {"C4,blow,void\n", "blow", "C4", HL_MISSING, HL_WHY_WITHDRAWN, false},
        {"C4,blow,48\nC4,blow,void\n", "blow", "C4", HL_DOUBTFUL, HL_WHY_VOIDED, false},
        {"C4,blow,skip\n", "blow", "C4", HL_MISSING, HL_WHY_SKIPPED, false},
        {"C4,repetition,weak\n", "repetition", "C4", HL_FAIL, HL_WHY_WORD, false},
        /* by a gauge whose limits nobody stated */
        {"C4,key_dip,within\n", "key_dip", "C4", HL_DOUBTFUL, HL_WHY_OTHER_GAUGE, false},
        {"C4,capstan,+1/4 turn\n", "blow", "C4", HL_STALE, HL_WHY_ADJUSTED, false},
        {",una_corda,off\n", "una_corda", "", HL_FAIL, HL_WHY_WORD, false},
        {",una_corda,void\n", "una_corda", "", HL_MISSING, HL_WHY_WITHDRAWN, false},
        {"C4,downweight,54\nC4,upweight,32\n", "mean_weight", "C4", HL_FAIL, HL_WHY_HIGH, false},
        /* a height that nobody asked for, but it was read and it is wrong */
        {"D4,key_height,70\n", "key_height", "D4", HL_FAIL, HL_WHY_HIGH, false},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = judge_finished(small_book(), cases[i].rows);
        const hl_finding *finding = see(&j, cases[i].step, cases[i].note);
        if (finding->verdict != cases[i].verdict || finding->why != cases[i].why ||
            hl_audit_ready(j.audit) != cases[i].ready)
            fail_msg("%s gives %s", cases[i].rows, hl_verdict_name(finding->verdict));
        put_away(&j);
    }
}

/* No reading, no pass: take any required reading away, and the job is not ready. */
static void any_reading_taken_away_is_missed(void **state)
{
    (void)state;
    hl_book *book = small_book();
    static const char *const notes[] = {"A0", "C#4", "C8"};
    int tried = 0;
    for (int s = 0; s < book->n_steps; s++) {
        const hl_step *step = &book->steps[s];
        for (size_t i = 0; i < 3; i++) {
            int note = hl_note_parse(book->compass, notes[i]);
            if (step->kind == HL_DERIVED || step->scope == HL_ONCE ||
                !hl__step_at_pitch(step, hl_note_pitch(book->compass, note)))
                continue;
            char row[96];
            strcpy(row, notes[i]);
            strcat(strcat(strcat(row, ","), step->id), ",void\n");
            judged j = judge_finished(small_book(), row);
            assert_int_equal(see(&j, step->id, notes[i])->verdict, HL_MISSING);
            assert_false(hl_audit_ready(j.audit));
            put_away(&j);
            tried++;
        }
    }
    assert_true(tried > 30);
    small_book_free(book);
}

static void an_empty_bench_misses_everything_and_passes_nothing(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,query,closed\n");
    const hl_tally *total = hl_audit_total(j.audit);
    assert_int_equal(total->count[HL_PASS], 0);
    assert_false(hl_audit_ready(j.audit));
    assert_int_equal(hl_audit_tally(j.audit, small_step(j.book, "blow"))->count[HL_MISSING], 88);
    assert_int_equal(hl_audit_tally(j.audit, small_step(j.book, "una_corda"))->count[HL_MISSING], 1);
    /* samples: the first, the middle and the last natural */
    assert_int_equal(hl_audit_tally(j.audit, small_step(j.book, "key_height"))->count[HL_MISSING], 3);
    /* a derived step is never itself missing */
    assert_null(look(&j, "mean_weight", "C4"));
    put_away(&j);
}

/* A book in which everything is optional, and a sheet in which nothing was read. */
static void nothing_read_is_never_ready(void **state)
{
    (void)state;
    hl_book *book = small_book();
    for (int i = 0; i < book->n_steps; i++)
        book->steps[i].need = HL_NEED_OPTIONAL;
    judged j = judge_by(book, HEADS "C4,query,closed\n");
    assert_false(hl_audit_ready(j.audit));
    assert_null(look(&j, "blow", "C4"));
    put_away(&j);
}

static void samples_are_those_that_the_sheet_states(void **state)
{
    (void)state;
    judged j = judge("# samples: A3 A5\n" HEADS "A3,key_height,63.5\n");
    assert_int_equal(see(&j, "key_height", "A3")->verdict, HL_PASS);
    assert_int_equal(see(&j, "key_height", "A5")->verdict, HL_MISSING);
    assert_null(look(&j, "key_height", "A0"));
    put_away(&j);
}

/* Samples are naturals; a step of the sharps on samples is asked once a section. */
static void a_sample_step_of_the_sharps_is_asked_once_a_section(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->steps[small_step(book, "sharp_height")].need = HL_NEED_SAMPLES;
    judged j = judge_by(book, "# breaks: 39\n" HEADS "F#5,sharp_height,12\n");
    int step = small_step(j.book, "sharp_height");
    assert_int_equal(hl_audit_tally(j.audit, step)->count[HL_PASS], 1);
    assert_int_equal(hl_audit_tally(j.audit, step)->count[HL_MISSING], 1);
    assert_int_equal(see(&j, "sharp_height", "A#0")->verdict, HL_MISSING); /* the first sharp */
    put_away(&j);
}

static void one_reading_in_each_section_is_enough(void **state)
{
    (void)state;
    static const struct {
        const char *rows, *missing; /* the one note where a reading is missed, or "" */
        hl_why why;
    } cases[] = {
        {"C2,key_level,0\nC6,key_level,0\n", "", HL_WHY_NONE},
        {"C6,key_level,0\n", "A0", HL_WHY_UNREAD},
        {"C2,key_level,0\n", "C4", HL_WHY_UNREAD}, /* note 40, the first after the break */
        {"C2,key_level,0\nC2,key_level,void\nC6,key_level,0\n", "C2", HL_WHY_WITHDRAWN},
        {"C2,key_level,0\nD2,key_level,0\nC2,key_level,void\nC6,key_level,0\n", "", HL_WHY_NONE},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        hl_book *book = small_book();
        int step = small_step(book, "key_level");
        book->steps[step].scope = HL_SECTIONS;
        char text[256] = "# breaks: 39\n" HEADS;
        strcat(text, cases[i].rows);
        judged j = judge_by(book, text);
        assert_int_equal(hl_audit_tally(j.audit, step)->count[HL_MISSING], *cases[i].missing ? 1 : 0);
        if (*cases[i].missing)
            assert_int_equal(see(&j, "key_level", cases[i].missing)->why, cases[i].why);
        put_away(&j);
    }
}

static void dampers_are_asked_where_there_are_any(void **state)
{
    (void)state;
    judged j = judge("# dampers: 1-66\n" HEADS "C4,blow,46\n");
    int step = small_step(j.book, "damper_key");
    assert_int_equal(hl_audit_tally(j.audit, step)->count[HL_MISSING], 66);
    assert_int_equal(hl_audit_tally(j.audit, step)->count[HL_NOT_APPLICABLE], 22);
    put_away(&j);
    /* an unknown last damper excuses no note */
    j = judge(HEADS "C4,blow,46\n");
    assert_int_equal(hl_audit_tally(j.audit, step)->count[HL_MISSING], 88);
    put_away(&j);
}

static void what_the_book_leaves_out_is_counted(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->steps[small_step(book, "downweight")].skipped = "weighed off by the maker";
    judged j = judge_finished(book, "C4,downweight,99\n");
    const hl_finding *finding = see(&j, "downweight", "C4");
    assert_int_equal(finding->verdict, HL_NOT_APPLICABLE);
    assert_int_equal(finding->why, HL_WHY_BOOK);
    assert_string_equal(finding->remark, "weighed off by the maker");
    assert_int_equal(finding->n_corrections, 0);
    put_away(&j);
}

static void a_query_keeps_its_note_open_until_it_is_closed(void **state)
{
    (void)state;
    static const struct {
        const char *rows;
        size_t open;
    } cases[] = {
        {"C4,query,feels heavy after let-off\n", 1},
        {"C4,query,feels heavy after let-off\nC4,query,closed\n", 0},
        {"C4,query,feels heavy\nC4,query,clicks\nC4,query,closed\n", 1}, /* one answer, one question */
        {"C4,query,feels heavy\nC4,query,clicks\nC4,query,closed\nC4,query,closed\n", 0},
        {"C4,query,feels heavy\nC4,query,closed\nC4,query,clicks\n", 1},
        {"C4,query,feels heavy\nD4,query,closed\n", 1},
        {",query,pedal squeaks\n", 1},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        judged j = judge_finished(small_book(), cases[i].rows);
        size_t n = 0, open = 0;
        const hl_finding *findings = hl_audit_findings(j.audit, &n);
        for (size_t k = 0; k < n; k++) {
            if (findings[k].why != HL_WHY_QUERY)
                continue;
            open++;
            assert_int_equal(findings[k].step, -1);
            assert_int_equal(findings[k].verdict, HL_FAIL);
            assert_true(*findings[k].remark != '\0');
            assert_true(findings[k].line > 1000);
        }
        assert_int_equal(open, cases[i].open);
        assert_int_equal(hl_audit_ready(j.audit), cases[i].open == 0);
        assert_int_equal(
            j.audit->findings.first[j.book->n_steps + 1] - j.audit->findings.first[j.book->n_steps], open);
        put_away(&j);
    }
}

/* While the key is not level, its dip means nothing (geometry: balance paper cures a low key,
 * not a shallow dip). */
static void a_masked_step_waits_for_the_one_that_masks_it(void **state)
{
    (void)state;
    static const char text[] = HEADS "C4,key_level,-0.3\nC4,key_dip,9.5\nD4,key_level,0\nD4,key_dip,9.5\n";
    hl_book *book = small_book();
    hl_step *level = &book->steps[small_step(book, "key_level")];
    int masked = small_step(book, "key_dip");
    level->title = "Key level";
    level->masks = &masked;
    level->n_masks = 1;
    judged j = judge_by(book, text);
    const hl_finding *dip = see(&j, "key_dip", "C4");
    assert_int_equal(dip->verdict, HL_FAIL);
    assert_int_equal(dip->n_corrections, 0);
    assert_non_null(strstr(dip->remark, "Key level first"));
    assert_int_equal(see(&j, "key_level", "C4")->n_corrections, 1);
    assert_int_equal(see(&j, "key_dip", "D4")->n_corrections, 1);
    assert_string_equal(see(&j, "key_dip", "D4")->remark, "");
    put_away(&j);
}

static void findings_stand_in_the_books_order_along_the_compass(void **state)
{
    (void)state;
    judged j = judge_finished(small_book(), "C4,query,clicks\nC4,blow,48\nA2,drop,3\n");
    size_t n = 0;
    const hl_finding *f = hl_audit_findings(j.audit, &n);
    int counted[HL_VERDICTS] = {0};
    for (size_t i = 0; i < n; i++) {
        counted[f[i].verdict]++;
        if (i > 0 && f[i].step >= 0)
            assert_true(f[i - 1].step < f[i].step ||
                        (f[i - 1].step == f[i].step && f[i - 1].note < f[i].note));
        if (f[i].step >= 0)
            assert_true(i >= j.audit->findings.first[f[i].step] &&
                        i < j.audit->findings.first[f[i].step + 1]);
    }
    assert_int_equal(f[n - 1].step, -1);
    assert_memory_equal(counted, hl_audit_total(j.audit)->count, sizeof counted);
    put_away(&j);
}

static void a_finding_knows_its_place_and_its_remark(void **state)
{
    (void)state;
    judged j = judge("note,step,reading,remark\nC4,blow,48,after new hammers\nD4,blow,skip,string missing\n");
    assert_int_equal(see(&j, "blow", "C4")->line, 2);
    assert_int_equal(see(&j, "blow", "C4")->column, 3);
    assert_string_equal(see(&j, "blow", "C4")->remark, "after new hammers");
    assert_int_equal(see(&j, "blow", "D4")->why, HL_WHY_SKIPPED);
    assert_string_equal(see(&j, "blow", "D4")->remark, "string missing");
    assert_int_equal(see(&j, "blow", "E4")->line, 0);
    put_away(&j);
}

static void go_readings_are_counted_apart(void **state)
{
    (void)state;
    judged j = judge("# go gauge key_dip: block, 9.9-10.1 mm\n" HEADS
                     "C4,key_dip,within\nD4,key_dip,10\nE4,key_dip,over\n");
    const hl_tally *tally = hl_audit_tally(j.audit, small_step(j.book, "key_dip"));
    assert_int_equal(tally->go, 1);
    assert_int_equal(tally->count[HL_PASS], 2);
    assert_true(see(&j, "key_dip", "C4")->go);
    assert_false(see(&j, "key_dip", "C4")->has_value);
    assert_int_equal(see(&j, "key_dip", "E4")->why, HL_WHY_HIGH);
    put_away(&j);
}

static void a_bad_row_keeps_the_job_open(void **state)
{
    (void)state;
    hl_book *book = small_book();
    hl_text text = {0};
    hl__text_add(&text, HEADS);
    for (int note = 0; note <= 88; note++)
        type_note(&text, book, note);
    hl__text_add(&text, "C4,blow,1e3\n");
    judged j = {book, NULL, NULL};
    hl_err err;
    assert_int_equal(hl_sheet_open_text(&j.sheet, "bench.csv", text.data, text.size, &err), HL_OK);
    assert_int_equal(hl_sheet_read(j.sheet, book, &err), HL_E_SHEET);
    assert_int_equal(hl_audit_run(&j.audit, j.sheet, book, NULL, &err), HL_OK);
    assert_int_equal(hl_audit_total(j.audit)->count[HL_FAIL], 0);
    assert_false(hl_audit_ready(j.audit));
    hl__text_free(&text);
    put_away(&j);
}

static void a_sheet_that_was_not_read_is_refused(void **state)
{
    (void)state;
    hl_book *book = small_book();
    hl_sheet *sheet = NULL;
    hl_audit *audit = NULL;
    hl_err err;
    const char *text = HEADS "C4,blow,46\n";
    assert_int_equal(hl_sheet_open_text(&sheet, "bench.csv", text, strlen(text), &err), HL_OK);
    assert_int_equal(hl_audit_run(&audit, sheet, book, NULL, &err), HL_E_USAGE);
    assert_null(audit);
    hl_sheet_free(sheet);
    small_book_free(book);
}

/* A keyboard of 85 notes ends at A7; note numbers count from its lowest key. */
static void another_compass_is_judged_by_its_own_notes(void **state)
{
    (void)state;
    judged j = judge("# compass: A0-A7\n" HEADS "A7,blow,46\n");
    assert_int_equal(see(&j, "blow", "A7")->note, 85);
    assert_int_equal(hl_audit_tally(j.audit, small_step(j.book, "blow"))->count[HL_MISSING], 84);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_finished_piano_is_ready),
        cmocka_unit_test(what_keeps_a_job_open),
        cmocka_unit_test(any_reading_taken_away_is_missed),
        cmocka_unit_test(an_empty_bench_misses_everything_and_passes_nothing),
        cmocka_unit_test(nothing_read_is_never_ready),
        cmocka_unit_test(samples_are_those_that_the_sheet_states),
        cmocka_unit_test(a_sample_step_of_the_sharps_is_asked_once_a_section),
        cmocka_unit_test(one_reading_in_each_section_is_enough),
        cmocka_unit_test(dampers_are_asked_where_there_are_any),
        cmocka_unit_test(what_the_book_leaves_out_is_counted),
        cmocka_unit_test(a_query_keeps_its_note_open_until_it_is_closed),
        cmocka_unit_test(a_masked_step_waits_for_the_one_that_masks_it),
        cmocka_unit_test(findings_stand_in_the_books_order_along_the_compass),
        cmocka_unit_test(a_finding_knows_its_place_and_its_remark),
        cmocka_unit_test(go_readings_are_counted_apart),
        cmocka_unit_test(a_bad_row_keeps_the_job_open),
        cmocka_unit_test(a_sheet_that_was_not_read_is_refused),
        cmocka_unit_test(another_compass_is_judged_by_its_own_notes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
