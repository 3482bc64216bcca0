/* Books from rule files: what ends up in the flattened book, and from where.
 *
 * All targets and moves here are invented for the test; they say nothing about pianos.  The
 * expected values are arithmetic on them, and 1 in = 25.4 mm (international inch, 1959). */
#include "opened_book.h"

#include "book.h"
#include "rule_test.h"

static const char drop_step[] = "return step {\n"
                                "  id = 'drop', title = 'Drop', stage = 'set', unit = 'mm',\n"
                                "  plain = 'How a hammer falls back', ask = 'Press slowly.', why = 'It "
                                "blocks.', resolution = 0.1, gauge = 0.25,\n"
                                "  target = range(1, 3), even = 0.5, fix = { 'drop_screw' }, pair = 'blow',\n"
                                "  low_todo = 'Read it again.',\n"
                                "}\n";
static const char blow_step[] =
    "return step { id = 'blow', title = 'Blow', stage = 'set', unit = 'mm', ask = 'Measure.',\n"
    "  why = 'Power.', resolution = 0.5, target = range(40, 50, 46), even = 0.5, across = 'colours' }\n";
static const char touch_step[] =
    "return step { id = 'aftertouch', title = 'Aftertouch', stage = 'set', unit = 'mm', ask = 'Feel.', why = "
    "'Sure.',\n"
    "  resolution = 0.05, target = range(0.5, 1.5), model = '10 - blow / travel_ratio' }\n";
static const char repetition_step[] = "return step { id = 'repetition', title = 'Repetition', stage = "
                                      "'finish', kind = 'judged', ask = 'Play.',\n"
                                      "  why = 'Trills.', faults = {\n"
                                      "    { 'slow', means = 'hammer rises late', fix = { { 'drop_screw', "
                                      "'less' }, { 'spring', 'stronger' } } },\n"
                                      "    { 'click', todo = 'Look for a loose flange.' },\n"
                                      "  } }\n";
static const char base_book[] =
    "return book {\n"
    "  id = 'base', api = 1, title = 'Base', compass = 'A0-C8',\n"
    "  stage { 'set', title = 'Set' },\n"
    "  stage { 'finish', title = 'Finish', caution = 'Softly.' },\n"
    "  fact { 'travel_ratio', title = 'travel ratio', unit = 'ratio', value = 5, assumed = true },\n"
    "  fact { 'screw_pitch', title = 'screw pitch', unit = 'mm/turn', naturals = 1, sharps = 1.25 },\n"
    "  use 'drop', use 'grand/blow', use 'aftertouch', use 'repetition',\n"
    "  adjuster { 'drop_screw', title = 'drop screw', verb = 'turn', unit = 'turn', more = 'more', less = "
    "'less',\n"
    "    finest = 1/8, moves = { drop = 2.5, blow = { '2 * screw_pitch', assumed = true, again = true }, "
    "repetition = "
    "'strong' } },\n"
    "  adjuster { 'spring', title = 'spring', more = 'stronger', less = 'weaker', moves = { repetition = "
    "'slight' } },\n"
    "  float { 'aftertouch', within = '.01 in' },\n"
    "  acknowledge { 'drop_screw', 'blow', why = 'hardly felt' },\n"
    "  diagnosis { 'dead', title = 'Dead key', when = 'low(drop) and fails(repetition) and blow > 40', "
    "causes = {\n"
    "    { 'spring', test = 'lift it' }, { 'friction', todo = 'ease it' } } },\n"
    "}\n";

static void write_base(rule_folder *folder)
{
    open_folder(folder);
    write_rule(folder, "drop", drop_step);
    write_rule(folder, "grand/blow", blow_step);
    write_rule(folder, "aftertouch", touch_step);
    write_rule(folder, "repetition", repetition_step);
    write_rule(folder, "base", base_book);
}

static void test_a_book_holds_what_its_files_say(void **state)
{
    (void)state;
    rule_folder folder;
    write_base(&folder);
    hl_book *book = open_or_fail(&folder, "base");
    assert_string_equal(hl_book_id(book), "base");
    assert_int_equal(hl_book_compass(book).lowest, HL_A0);
    assert_int_equal(hl_book_compass(book).keys, 88);
    assert_int_equal(hl_book_n_stages(book), 2);
    assert_string_equal(hl_book_stage(book, 1)->caution, "Softly.");
    assert_int_equal(hl_book_n_steps(book), 4);
    assert_string_equal(hl_book_step(book, 1)->id, "blow"); /* in the order of use */
    const hl_step *drop = step_of(book, "drop");
    assert_target(drop, C4, 1, 2, 3);
    assert_target(drop, HL_PITCHES, 1, 2, 3);
    assert_string_equal(drop->plain, "How a hammer falls back");
    assert_string_equal(step_of(book, "blow")->plain, ""); /* the owner's page falls back on the title */
    assert_int_equal(drop->even, 500000);
    assert_false(drop->across_colours);
    assert_true(step_of(book, "blow")->across_colours);
    assert_int_equal(drop->pair, hl_book_find_step(book, "blow")); /* one says it, both know it */
    assert_int_equal(step_of(book, "blow")->pair, hl_book_find_step(book, "drop"));
    assert_int_equal(step_of(book, "aftertouch")->pair, -1);
    assert_string_equal(drop->low_todo, "Read it again.");
    assert_string_equal(drop->high_todo, "");
    assert_int_equal(drop->gauge, 250000);
    assert_string_equal(drop->origin.file, "drop.lua");
    assert_int_equal(drop->origin.line, 1);
    assert_target(step_of(book, "blow"), C4, 40, 46, 50);
    assert_int_equal(book->stale_share, 250000); /* a quarter, unless stated */
    assert_int_equal(book->n_files, 5);
    close_folder(&folder);
    hl_book_free(book);
}

static void test_adjusters_and_their_moves(void **state)
{
    (void)state;
    rule_folder folder;
    write_base(&folder);
    hl_book *book = open_or_fail(&folder, "base");
    const hl_adjuster *screw = hl_book_adjuster(book, hl_book_find_adjuster(book, "drop_screw"));
    assert_int_equal(screw->unit, HL_TURN);
    assert_int_equal(screw->finest, 125000);
    assert_int_equal(screw->n_moves, 3);
    const hl_dims mm_per_turn = {1, 0, -1, 0, 0};
    for (int i = 0; i < screw->n_moves; i++) {
        const hl_move *move = &screw->moves[i];
        const char *id = hl_book_step(book, move->step)->id;
        if (strcmp(id, "repetition") == 0) {
            assert_int_equal(move->kind, HL_MOVE_STRONG);
            continue;
        }
        assert_int_equal(move->kind, HL_MOVE_BY);
        assert_true(hl__dims_equal(move->formula->dims, mm_per_turn));
        assert_int_equal(move->assumed, strcmp(id, "blow") == 0);
        assert_int_equal(move->again, strcmp(id, "blow") == 0);
        const double pitch = 1.25;
        /* 2 * 1.25 mm a turn, and 2.5 as stated */
        assert_true(hl__formula_value(move->formula, &pitch) == 2.5);
    }
    const hl_word *slow = &step_of(book, "repetition")->words[0];
    assert_int_equal(slow->n_remedies, 2);
    assert_false(slow->remedies[0].more);
    assert_true(slow->remedies[1].more);
    assert_string_equal(step_of(book, "repetition")->words[1].todo, "Look for a loose flange.");
    close_folder(&folder);
    hl_book_free(book);
}

static void test_facts_formulas_and_the_rest(void **state)
{
    (void)state;
    rule_folder folder;
    write_base(&folder);
    hl_book *book = open_or_fail(&folder, "base");
    const hl_fact *pitch = hl_book_fact(book, hl__book_find_fact(book, "screw_pitch"));
    assert_true(pitch->value[0] == 1.0 && pitch->value[1] == 1.25);
    assert_true(hl_book_fact(book, hl__book_find_fact(book, "travel_ratio"))->assumed);
    const hl_step *touch = step_of(book, "aftertouch");
    assert_int_equal(touch->kind, HL_MEASURED);
    assert_non_null(touch->formula);
    assert_int_equal(book->floats.step, hl_book_find_step(book, "aftertouch"));
    assert_int_equal(book->floats.within, 254000); /* .01 in */
    assert_int_equal(book->n_acknowledged, 1);
    assert_int_equal(book->n_diagnoses, 1);
    assert_int_equal(book->diagnoses[0].n_causes, 2);
    assert_string_equal(book->diagnoses[0].causes[1].todo, "ease it");
    assert_true(book->diagnoses[0].when->condition);
    close_folder(&folder);
    hl_book_free(book);
}

static void test_a_shop_book_over_a_book(void **state)
{
    (void)state;
    rule_folder folder;
    write_base(&folder);
    write_rule(&folder, "shops/our_shop",
               "return book {\n"
               "  id = 'our_shop', api = 1, title = 'Our shop',\n"
               "  use 'base',\n"
               "  change { 'drop', target = range('1/16 in', '1/8 in'), even = 1, why = 'house habit' },\n"
               "  change { 'drop', unit = 'in' },\n"
               "  adjuster { 'drop_screw', moves = { drop = 3, blow = false }, why = 'measured' },\n"
               "  skip { 'repetition', why = 'by the player' },\n"
               "  fact { 'screw_pitch', value = 2 },\n"
               "  stage { 'finish', title = 'The end' },\n"
               "}\n");
    hl_book *book = open_or_fail(&folder, "our_shop");
    assert_string_equal(hl_book_title(book), "Our shop");
    const hl_step *drop = step_of(book, "drop");
    assert_target(drop, C4, 1.5875, 2.38125, 3.175); /* 1/16 in and 1/8 in */
    assert_int_equal(drop->unit, HL_IN);
    assert_int_equal(drop->even, 1000000); /* stated while the step was still in mm */
    assert_int_equal(drop->resolution, 100000);
    assert_int_equal(drop->n_changes, 3);
    assert_string_equal(drop->changes[0].field, "target");
    assert_string_equal(drop->changes[0].why, "house habit");
    assert_string_equal(drop->changes[0].origin.file, "shops/our_shop.lua");
    assert_int_equal(drop->changes[0].origin.line, 4);
    assert_int_equal(drop->changes[2].origin.line, 5);
    assert_string_equal(drop->origin.file, "drop.lua");
    const hl_adjuster *screw = hl_book_adjuster(book, hl_book_find_adjuster(book, "drop_screw"));
    assert_int_equal(screw->n_moves, 2); /* drop and repetition: moves merge, blow was taken out */
    assert_string_equal(screw->title, "drop screw");
    assert_string_equal(screw->why, "measured");
    assert_int_equal(screw->n_changes, 3); /* moves.blow, moves.drop, why */
    assert_string_equal(step_of(book, "repetition")->skipped, "by the player");
    assert_null(drop->skipped);
    const hl_fact *pitch = hl_book_fact(book, hl__book_find_fact(book, "screw_pitch"));
    assert_true(pitch->value[0] == 2.0 && pitch->value[1] == 2.0); /* one value stands for both colours */
    assert_string_equal(hl_book_stage(book, 1)->title, "The end");
    assert_string_equal(hl_book_stage(book, 1)->caution, "Softly.");
    close_folder(&folder);
    hl_book_free(book);
}

static void test_the_hash_names_the_very_files(void **state)
{
    (void)state;
    rule_folder folder;
    write_base(&folder);
    hl_book *first = open_or_fail(&folder, "base");
    hl_book *again = open_or_fail(&folder, "base");
    assert_string_equal(hl_book_hash(first), hl_book_hash(again));
    assert_int_equal(strlen(hl_book_hash(first)), 64);
    char longer[sizeof drop_step + 8];
    snprintf(longer, sizeof longer, "%s-- x\n", drop_step);
    write_rule(&folder, "drop", longer);
    hl_book *changed = open_or_fail(&folder, "base");
    assert_string_not_equal(hl_book_hash(first), hl_book_hash(changed));
    hl_book_free(first);
    hl_book_free(again);
    hl_book_free(changed);
    close_folder(&folder);
}

static void test_a_book_by_path(void **state)
{
    (void)state;
    rule_folder folder;
    write_base(&folder);
    char path[300];
    hl_book *book;
    hl_err err;
    snprintf(path, sizeof path, "%s/base.lua", folder.path);
    assert_int_equal(hl_book_open(&book, path, NULL, &err), HL_OK); /* no shelf: all beside the book */
    assert_string_equal(step_of(book, "blow")->origin.file, "grand/blow.lua");
    hl_book_free(book);
    close_folder(&folder);
}

static void test_rule_tests_as_data(void **state)
{
    (void)state;
    rule_folder folder;
    write_base(&folder);
    write_rule(
        &folder, "tests/base_test",
        "return tests 'base' {\n"
        "  { 'drop', 'A4', reads = 4.5, want = 'fail', why = 'high', fix = { 'drop_screw', 'less', 3/8 } },\n"
        "  -- { a comment }\n"
        "  { 'aftertouch', 'C#4', with = { blow = '1 3/4 in', drop = 2 }, facts = { travel_ratio = 5.5 },\n"
        "    want = 'pass' },\n"
        "  { 'repetition', 'A0', reads = 'slow', want = 'fail', why = 'slow', source = 'invented' },\n"
        "}\n");
    char path[300];
    hl_err err;
    hl_rule_tests *tests;
    const char *folders[] = {folder.path};
    const hl_shelf shelf = {.folders = folders, .n_folders = 1};
    snprintf(path, sizeof path, "%s/tests/base_test.lua", folder.path);
    assert_int_equal(hl_rule_tests_open(&tests, path, &shelf, &err), HL_OK);
    assert_int_equal(tests->n, 3);
    const hl_rule_test *high = &tests->cases[0], *model = &tests->cases[1], *slow = &tests->cases[2];
    assert_int_equal(high->note, 49); /* A4 of 88 */
    assert_string_equal(high->reads, "4.5");
    assert_string_equal(high->way, "less");
    assert_int_equal(high->amount, 375000);
    assert_int_equal(high->origin.line, 2);
    assert_null(model->reads);
    assert_string_equal(model->with, "blow=1 3/4 in drop=2");
    assert_string_equal(model->facts, "travel_ratio=5.5");
    assert_int_equal(model->adjuster, -1);
    assert_int_equal(model->origin.line, 4);
    assert_string_equal(slow->why, "slow");
    assert_int_equal(slow->origin.line, 6);
    hl_rule_tests_free(tests);
    close_folder(&folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_a_book_holds_what_its_files_say),
        cmocka_unit_test(test_adjusters_and_their_moves),
        cmocka_unit_test(test_facts_formulas_and_the_rest),
        cmocka_unit_test(test_a_shop_book_over_a_book),
        cmocka_unit_test(test_the_hash_names_the_very_files),
        cmocka_unit_test(test_a_book_by_path),
        cmocka_unit_test(test_rule_tests_as_data),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
