/* test_closure.c - the targets of a book close.
 *
 * A piano at all its aims passes, and what is derived comes out near its aim; neighbouring aims are as even
 * as the step asks; and each reading that is too low or too high, and each fault word, has an act that a hand
 * can do and that goes the right way.  Which way is right stands here, from the levers, and not in the rules.
 */
#include "effects.h"
#include "levers.h"
#include "shipped.h"

#include <stdio.h>

static const char *const books[] = {
    "grand",   RULES_FOLDER "/tests/grand_schools.lua",   "concert_hire", "historical_85",
    "upright", RULES_FOLDER "/tests/upright_schools.lua", "home_upright",
};
#define BOOKS (sizeof books / sizeof *books)

static bool is_upright(const char *book)
{
    return strstr(book, "upright") != NULL;
}

/* ---- a piano at all its aims ------------------------------------------------------------------- */

static void type_all(hl_text *text, const hl_book *book, int note)
{
    for (int i = 0; i < book->n_steps; i++) {
        const hl_step *step = &book->steps[i];
        const int pitch = note > 0 ? hl_note_pitch(book->compass, note) : -1;
        if (step->kind == HL_DERIVED || step->skipped || (step->scope == HL_ONCE) != (note == 0) ||
            (note > 0 && !hl__step_at_pitch(step, pitch)))
            continue;
        hl__text_printf(text, "%s,%s,", note > 0 ? hl_pitch_name(pitch) : "", step->id);
        if (step->kind == HL_JUDGED) {
            hl__text_add(text, "ok\n");
            continue;
        }
        hl__text_exact(text, hl__book_target(book, i, pitch)->aim);
        hl__text_printf(text, " %s\n", hl_unit_name(step->unit));
    }
}

static judged judge_aims(const char *name)
{
    hl_book *book = open_shipped(name);
    hl_text text = {0};
    hl__text_add(&text, HEADS);
    for (int note = 0; note <= book->compass.keys; note++)
        type_all(&text, book, note);
    assert_false(text.failed);
    judged j = judge_by(book, text.data);
    hl__text_free(&text);
    return j;
}

/* From the aim to the nearer limit; a step for information has none. */
static hl_amount room_of(const hl_target *t)
{
    const hl_amount low = t->has_low ? t->aim - t->low : INT64_MAX;
    const hl_amount high = t->has_high ? t->high - t->aim : INT64_MAX;
    return low < high ? low : high;
}

/* A third of the way to the nearer limit, and what rounding takes. */
static bool is_near(const hl_step *step, const hl_target *target, hl_amount value)
{
    const hl_amount off = value > target->aim ? value - target->aim : target->aim - value;
    const hl_amount room = room_of(target);
    return room == INT64_MAX || off <= room / 3 + step->resolution;
}

static void a_piano_at_its_aims_passes(void **state)
{
    (void)state;
    int bad = 0;
    for (size_t b = 0; b < BOOKS; b++) {
        judged j = judge_aims(books[b]);
        size_t n = 0, seen = 0;
        const hl_finding *findings = hl_audit_findings(j.audit, &n);
        for (size_t i = 0; i < n; i++) {
            const hl_finding *f = &findings[i];
            if (f->step < 0 || f->verdict == HL_NOT_APPLICABLE)
                continue;
            const hl_step *step = hl_book_step(j.book, f->step);
            seen++;
            const bool model = step->kind != HL_DERIVED && f->has_model;
            const bool near =
                (step->kind != HL_DERIVED || !f->has_value || is_near(step, &f->target, f->value)) &&
                (!model || is_near(step, &f->target, f->model));
            if (f->verdict == HL_PASS && near)
                continue;
            if (bad++ < 20)
                print_error("%s: %s at note %d: verdict %d, value %.2f, aim %.2f\n", books[b], step->id,
                            f->note, (int)f->verdict, (double)(model ? f->model : f->value) / 1e6,
                            (double)f->target.aim / 1e6);
        }
        assert_true(seen > 1500); /* every note was looked at */
        assert_true(hl_audit_ready(j.audit) || bad > 0);
        put_away(&j);
    }
    assert_int_equal(bad, 0);
}

/* ---- neighbours -------------------------------------------------------------------------------- */

static void neighbouring_aims_are_even(void **state)
{
    (void)state;
    for (size_t b = 0; b < BOOKS; b++) {
        hl_book *book = open_shipped(books[b]);
        for (int s = 0; s < book->n_steps; s++) {
            const hl_step *step = &book->steps[s];
            int last[2] = {0, 0}; /* the note before, of each colour */
            for (int note = 1; step->even > 0 && !step->skipped && note <= book->compass.keys; note++) {
                const int pitch = hl_note_pitch(book->compass, note);
                const int colour = !step->across_colours && hl_pitch_is_sharp(pitch);
                if (!hl__step_at_pitch(step, pitch))
                    continue;
                if (last[colour] > 0) {
                    const hl_amount a = hl__book_target(book, s, pitch)->aim;
                    const hl_amount z =
                        hl__book_target(book, s, hl_note_pitch(book->compass, last[colour]))->aim;
                    if ((a > z ? a - z : z - a) > step->even)
                        fail_msg("%s: %s: the aims of notes %d and %d are less even than it asks", books[b],
                                 step->id, last[colour], note);
                }
                last[colour] = note;
            }
        }
        hl_book_free(book);
    }
}

/* ---- which way is right ------------------------------------------------------------------------ */

/* What an adjuster's `more` does to a quantity: 1 it grows, -1 it falls. */
static const struct {
    const char *adjuster, *quantity;
    int sign;
    const char *levers;
} ways[] = {
    {"flange_screws", "hold", 1, "tightened, it holds more"},
    {"pin_bend", "key to the right", 1, "the key goes with its pin"},
    {"key_bushing", "grip at the front pin", 1, "new cloth is thicker"},
    {"balance_bushing", "grip at the balance pin", 1, "new cloth is thicker"},
    {"balance_hole", "grip at the hole", 1, "a tighter hole grips"},
    {"glide", "frame carried by the glide", 1, "lowered, it reaches the bed and then lifts the frame"},
    {"key_block", "strikes away from the player", 1, "in is away from the player"},
    {"back_rail_cloth", "key_height", -1, "the back up, the front down: a lever about the balance pin"},
    {"balance_punching", "key_height", 1, "the pivot up, the back end held by the rail: the front up"},
    {"balance_punching", "key_level", 1, "the same"},
    {"balance_punching", "settled_level", 1, "the same"},
    {"balance_punching", "sharp_height", 1, "the same"},
    {"front_punching", "key_dip", -1, "the key stops sooner"},
    {"front_punching", "aftertouch", -1, "the jack's escape stays, the stop comes sooner"},
    {"front_punching", "sharp_residue", 1, "it goes down less far, so more of it stands"},
    {"centre_pin", "friction", 1, "firmer centres rub more"},
    {"centre_pin", "downweight", 1, "friction is added going down"},
    {"centre_pin", "upweight", -1, "and taken away going up"},
    {"centre_pin", "side play", -1, "a larger pin leaves less"},
    {"travel_paper", "drift to the right", -1, "paper under the right side tips the path to the left"},
    {"shank_twist", "lean to the right", 1, "the head goes with its shank"},
    {"hammer_flange", "hammer to the right", 1, "the hammer goes with its flange"},
    {"whippen_flange", "whippen to the right", 1, "the same"},
    {"string_level", "gap from hammer to the open string", -1, "it comes toward the hammer"},
    {"jack_button", "jack under the knuckle", 1, "in is further under"},
    {"repetition_spring", "rise from the check", 1, "a stronger spring lifts faster"},
    {"lever_height_button", "jack_height", 1, "the lever's top up, the jack's lies deeper below it"},
    {"capstan", "blow", -1, "levers.h"},
    {"capstan", "aftertouch", 1, "levers.h"},
    {"capstan", "rest_rail_gap", 1, "the shank rises from its cushion"},
    {"rest_rail", "rest_rail_gap", -1, "the cushion rises to the shank"},
    {"let_off_rail", "buttons above where they are wanted", 1, "they hang on it"},
    {"let_off_button", "let_off", 1, "levers.h"},
    {"drop_screw", "drop", 1, "levers.h"},
    {"drop_screw", "let_off_and_drop", 1, "the hammer falls further from the same let-off"},
    {"backcheck", "checking", -1, "the tail is met higher"},
    {"backcheck", "reach of the check to the tail", 1, "it stands nearer"},
    {"check_wire", "check above the tail", 1, "raised"},
    {"check_head", "face over the tail", 1, "it leans"},
    {"key_stop", "room above the keys", 1, "raised"},
    {"key_end_felt", "key_end_gap", -1, "the felt takes from the gap"},
    {"key_end_felt", "damper_start", -1, "a smaller gap is risen through sooner"},
    {"key_end_felt", "damper_fraction", -1, "the same"},
    {"damper_wire", "key_end_gap", 1, "the lever goes away from the key's end"},
    {"damper_wire", "damper_start", 1, "so it is met later"},
    {"damper_wire", "damper_fraction", 1, "the same"},
    {"damper_wire", "lever above the line", 1, "raised"},
    {"underlever_capstan", "start by the tray", -1, "the tray meets it sooner"},
    {"pedal_rod", "pedal_free_play", -1, "a longer rod is nearer to the tray"},
    {"pedal_stop_screw", "lift by the pedal", 1, "the stop lets it go further"},
    {"pedal_stop_screw", "damper_lift", 1, "the same"},
    {"up_stop_rail", "room above the levers", 1, "raised"},
    {"sostenuto_rod", "sostenuto_gap", 1, "further from the tabs"},
    {"shift_stop", "shift_travel", 1, "it lets the action go further"},
    {"key_lead", "mean_weight", -1, "a heavier front presses the key down itself"},
};

/* What a fault word says is wrong: its quantity is too large (1) or too small (-1). */
static const struct {
    const char *step, *word, *quantity;
    int side;
} words[] = {
    {"screws", "loose", "hold", -1},
    {"centres", "tight", "friction", 1},
    {"centres", "loose", "side play", 1},
    {"centres", "click", "side play", 1},
    {"key_spacing", "left", "key to the right", -1},
    {"key_spacing", "right", "key to the right", 1},
    {"key_spacing", "leans_left", "key to the right", -1},
    {"key_spacing", "leans_right", "key to the right", 1},
    {"key_easing", "tight", "grip at the front pin", 1},
    {"key_easing", "tight_button", "grip at the balance pin", 1},
    {"key_easing", "tight_hole", "grip at the hole", 1},
    {"key_easing", "slack", "grip at the front pin", -1},
    {"key_easing", "slack_button", "grip at the balance pin", -1},
    {"key_easing", "slack_hole", "grip at the hole", -1},
    {"bedding", "knock_balance", "frame carried by the glide", -1},
    {"bedding", "glide_high", "frame carried by the glide", 1},
    {"strike_line", "inward", "strikes away from the player", 1},
    {"strike_line", "outward", "strikes away from the player", -1},
    {"hammer_travel", "left", "drift to the right", -1},
    {"hammer_travel", "right", "drift to the right", 1},
    {"hammer_squaring", "left", "lean to the right", -1},
    {"hammer_squaring", "right", "lean to the right", 1},
    {"hammer_spacing", "left", "hammer to the right", -1},
    {"hammer_spacing", "right", "hammer to the right", 1},
    {"whippen_alignment", "left", "whippen to the right", -1},
    {"whippen_alignment", "right", "whippen to the right", 1},
    {"string_mating", "open", "gap from hammer to the open string", 1},
    {"jack_position", "deep", "jack under the knuckle", 1},
    {"jack_position", "shallow", "jack under the knuckle", -1},
    {"spring_rough", "weak", "rise from the check", -1},
    {"let_off_rail_height", "low", "buttons above where they are wanted", -1},
    {"let_off_rail_height", "high", "buttons above where they are wanted", 1},
    {"check_height", "high", "check above the tail", 1},
    {"check_height", "low", "check above the tail", -1},
    {"check_angle", "upright", "face over the tail", -1},
    {"check_angle", "leaning", "face over the tail", 1},
    {"tail_rub", "rubs", "reach of the check to the tail", 1},
    {"check_forte", "slips", "reach of the check to the tail", -1},
    {"check_forte", "jams", "reach of the check to the tail", 1},
    {"repetition", "no_rise", "rise from the check", -1},
    {"repetition", "jumps", "rise from the check", 1},
    {"springs_alike", "slower", "rise from the check", -1},
    {"springs_alike", "faster", "rise from the check", 1},
    {"key_stop_rail", "low", "room above the keys", -1},
    {"key_stop_rail", "high", "room above the keys", 1},
    {"underlevers_level", "low", "lever above the line", -1},
    {"underlevers_level", "high", "lever above the line", 1},
    {"sostenuto_tabs", "low", "lever above the line", -1},
    {"sostenuto_tabs", "high", "lever above the line", 1},
    {"damper_key_timing", "early", "damper_start", -1},
    {"damper_key_timing", "late", "damper_start", 1},
    {"damper_tray_timing", "early", "start by the tray", -1},
    {"damper_tray_timing", "late", "start by the tray", 1},
    {"pedal_stop", "far", "lift by the pedal", 1},
    {"pedal_stop", "short", "lift by the pedal", -1},
    {"up_stop", "high", "room above the levers", 1},
    {"up_stop", "low", "room above the levers", -1},
    {"sostenuto", "drops", "sostenuto_gap", 1},
    {"sostenuto", "catches", "sostenuto_gap", -1},
    {"sostenuto", "rubs", "sostenuto_gap", -1},
    {"una_corda", "short", "shift_travel", -1},
    {"una_corda", "far", "shift_travel", 1},
    {"una_corda_pairs", "neighbour", "shift_travel", 1},
};

/* 0: nothing is said of the two here. */
static int way_of(const char *adjuster, const char *quantity)
{
    for (size_t i = 0; i < sizeof ways / sizeof *ways; i++)
        if (strcmp(ways[i].adjuster, adjuster) == 0 && strcmp(ways[i].quantity, quantity) == 0)
            return ways[i].sign;
    return 0;
}

static int check_word(const char *book_name, const hl_book *book, const hl_step *step, const hl_word *word)
{
    if (word->n_remedies == 0) {
        if (word->todo[0])
            return 0;
        print_error("%s: %s %s: no act\n", book_name, step->id, word->word);
        return 1;
    }
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        if (strcmp(words[i].step, step->id) != 0 || strcmp(words[i].word, word->word) != 0)
            continue;
        for (int k = 0; k < word->n_remedies; k++) {
            const hl_adjuster *adjuster = &book->adjusters[word->remedies[k].adjuster];
            const int way = way_of(adjuster->id, words[i].quantity);
            if (way * (word->remedies[k].more ? 1 : -1) != -words[i].side) {
                print_error("%s: %s %s: the %s %s\n", book_name, step->id, word->word, adjuster->title,
                            way ? "goes the wrong way" : "has no row here");
                return 1;
            }
        }
        return 0;
    }
    print_error("%s: %s %s: no row here\n", book_name, step->id, word->word);
    return 1;
}

/* Is there a note that the step has, at which an adjuster of its own moves it the way that the levers do? */
static int check_side(const char *book_name, const judged *j, int s, bool low)
{
    const hl_step *step = &j->book->steps[s];
    const char *todo = low ? step->low_todo : step->high_todo;
    int acts = 0;
    if (todo[0])
        return 0;
    for (int k = 0; k < step->n_fixes; k++) {
        const hl_adjuster *adjuster = &j->book->adjusters[step->fixes[k]];
        const int way = way_of(adjuster->id, step->id);
        if (way == 0) {
            print_error("%s: %s by the %s: no row here\n", book_name, step->id, adjuster->title);
            return 1;
        }
        for (int note = 1; note <= j->book->compass.keys; note++) {
            hl_effect effects[200];
            assert_true(j->book->n_steps <= 200);
            if (step->scope != HL_ONCE && !hl__step_at_pitch(step, hl_note_pitch(j->book->compass, note)))
                continue;
            hl__effects_at(j->book, j->sheet, step->fixes[k], note, NULL, effects);
            const hl_effect *effect = &effects[s];
            const double by = effect->kind == HL_EFFECT_BY ? effect->by : effect->sign;
            if (by * way <= 0) {
                print_error("%s: %s by the %s at note %d: %s\n", book_name, step->id, adjuster->title, note,
                            by == 0 ? "it has no way there" : "the wrong way");
                return 1;
            }
        }
        acts++;
    }
    if (acts == 0)
        print_error("%s: %s %s: no act\n", book_name, step->id, low ? "low" : "high");
    return acts == 0;
}

static int check_acts(const char *name)
{
    judged j = judge_by(open_shipped(name), HEADS "C4,blow,46 mm\n");
    int bad = 0;
    for (int s = 0; s < j.book->n_steps; s++) {
        const hl_step *step = &j.book->steps[s];
        const hl_target *target = hl__book_target(j.book, s, step->scope == HL_ONCE ? -1 : 51); /* D#4 */
        if (step->skipped)
            continue;
        for (int w = 0; w < step->n_words; w++)
            bad += check_word(name, j.book, step, &step->words[w]);
        if (step->kind == HL_JUDGED)
            continue;
        bad += target->has_low && check_side(name, &j, s, true);
        bad += target->has_high && check_side(name, &j, s, false);
    }
    put_away(&j);
    return bad;
}

static void every_fault_has_an_act_of_the_right_way(void **state)
{
    (void)state;
    int bad = 0, uprights = 0;
    for (size_t b = 0; b < BOOKS; b++) {
        const int here = check_acts(books[b]);
        bad += is_upright(books[b]) ? 0 : here;
        uprights += is_upright(books[b]) ? here : 0;
    }
    if (uprights > 0)
        print_message("upright: %d acts are not looked at yet\n", uprights);
    assert_int_equal(bad, 0);
}

/* The rows that can be had from levers.h are. */
static void the_rows_are_those_of_the_levers(void **state)
{
    (void)state;
    const levers at = example_levers();
    const regulation before = regulate(&at);
    levers moved = at;
    moved.capstan_height += .1;
    assert_true((regulate(&moved).blow - before.blow) * way_of("capstan", "blow") > 0);
    assert_true((regulate(&moved).aftertouch - before.aftertouch) * way_of("capstan", "aftertouch") > 0);
    moved = at;
    moved.button -= .1; /* `more` is lower */
    assert_true((regulate(&moved).let_off - before.let_off) * way_of("let_off_button", "let_off") > 0);
    moved = at;
    moved.drop_screw -= .1; /* `more` is lower */
    assert_true((regulate(&moved).drop - before.drop) * way_of("drop_screw", "drop") > 0);
    moved = at;
    moved.dip -= .1; /* a front paper */
    assert_true((regulate(&moved).aftertouch - before.aftertouch) * way_of("front_punching", "aftertouch") >
                0);
}

int main(void)
{
    gsl_set_error_handler_off();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_piano_at_its_aims_passes),
        cmocka_unit_test(neighbouring_aims_are_even),
        cmocka_unit_test(every_fault_has_an_act_of_the_right_way),
        cmocka_unit_test(the_rows_are_those_of_the_levers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
