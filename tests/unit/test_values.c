/* test_values.c - the trade's published figures against the targets of the shipped books.
 *
 * Rows G1-G33 are those of a collection of grand figures, U1-U17 of upright figures, C are its best
 * check values; where a row does not say which of its sources gave a figure, all stand there.  Beside each
 * figure stands its source: M a maker's document, H a handbook, D a technicians' list, W a page, J a journal;
 * docs/numbers.md cites them in full.  A figure that the book does not follow carries the reason; so does a
 * row whose figure is no target at all. */
#include "shipped.h"

#include <stdio.h>

typedef struct published {
    const char *row, *book, *step, *note; /* note "": the instrument */
    const char *figure;
    char says; /* '+' the source accepts it, '-' it does not */
    const char *source;
    const char *differs; /* NULL: the book agrees.  Else why it does not */
} published;

#define OTHER_GRAND   RULES_FOLDER "/tests/grand_schools.lua"
#define OTHER_UPRIGHT RULES_FOLDER "/tests/upright_schools.lua"

static const published figures[] = {
    /* ---- grand ---- */
    {"G5", "grand", "key_height", "A4", "2.594 in", '+', "W10, one model, keybed to keytop", NULL},
    {"G5", "grand", "key_height", "A4", "2 1/2 in", '+', "W11, keyframe base to the keytop's underside",
     "another datum: the keytop's thickness lies between"},
    {"G6", "grand", "sharp_height", "C#4", "12 mm", '+', "D3, with a dip of .390 in", NULL},
    {"G6", "grand", "sharp_height", "C#4", "1/2 in", '+', "D3, with a dip of .420 in; the usual ceiling",
     NULL},
    {"G7", "grand", "key_level", "E4", "0 mm", '+', "D9, straight", NULL},
    {"G7", OTHER_GRAND, "key_level", "E4", "1/32 in", '+', "D8 D9, crowned", NULL},
    {"G7", "grand", "key_level", "E4", "1/32 in", '+', "D8 D9, crowned", "school: straight unless chosen"},
    {"G8", "grand", "key_level", "E4", ".003 in", '+', "W12, the smallest useful paper", NULL},
    {"G9", "grand", "key_dip", "A4", "10.0 mm", '+', "D10 W16", NULL},
    {"G9", "grand", "key_dip", "A4", ".390 in", '+', "D5 D12", NULL},
    {"G9", "grand", "key_dip", "A4", ".420 in", '+', "D5 D12", NULL},
    {"G9", "grand", "key_dip", "A4", "3/8 in", '+', "W11 W15, 3/8 to 7/16 in over all makes",
     "school: one maker's window, .390 to .420 in; a shop book widens it"},
    {"G9", "grand", "key_dip", "A4", "7/16 in", '+', "W11 W15, 3/8 to 7/16 in over all makes",
     "school: one maker's window, .390 to .420 in; a shop book widens it"},
    {"G9", "grand", "key_dip", "A4", ".380 in", '+', "D13 W12, sometimes better",
     "school: one maker's window; this is for a note that needs it, and the float gives it some"},
    {"G9", "grand", "key_dip", "A4", "10.6 mm", '-', "one of D10-W16, over 10.5 is too much",
     "school: .420 in of another model must pass, and the sheet does not know the model"},
    {"G10", "grand", "sharp_residue", "C#4", "2 mm", '+', "W11 W16 D14", NULL},
    {"G10", "grand", "sharp_residue", "C#4", ".08 in", '+', "W16, the same", NULL},
    {"G10", "grand", "sharp_residue", "C#4", "1.95 mm", '+', "D5, a nickel; its thickness is from memory",
     NULL},
    {"G13", "grand", "jack_height", "A4", "0.2 mm", '+', "W20, one paper", NULL},
    {"G14", "grand", "blow", "A4", "1 3/4 in", '+', "M1 D30, by model", NULL},
    {"G14", "grand", "blow", "A4", "1 7/8 in", '+', "M1 W11 W21, by model", NULL},
    {"G14", "grand", "blow", "A4", "47 mm", '+', "W21", NULL},
    {"G14", "grand", "blow", "A4", "44 mm", '+', "D10, seen with the dip held at 10 mm", NULL},
    {"G14", "grand", "blow", "A4", "49 mm", '+', "D10, seen with the dip held at 10 mm",
     "school: dip floats here, not blow"},
    {"G14", "grand", "blow", "A4", "42 mm", '+', "W54, 1 5/8 in", "an outlier of one page"},
    {"G14", "grand", "blow", "A4", "50 mm", '-', "D83, found on a worn action", NULL},
    {"G15", "grand", "rest_rail_gap", "A4", "3.3 mm", '+', "M2, one shank: a little over 1/8 in", NULL},
    {"G15", "grand", "rest_rail_gap", "A4", "2 mm", '+', "D5 W21 W22 D19", NULL},
    {"G15", "grand", "rest_rail_gap", "A4", "5/16 in", '+', "D5 W21 W22 D19, at most", NULL},
    {"G16", "grand", "let_off", "A0", "1/8 in", '+', "M2, bass", NULL},
    {"G16", "grand", "let_off", "C8", "1/16 in", '+', "M2, treble", NULL},
    {"G16", "grand", "let_off", "A0", "2.5 mm", '+', "D20, bass", NULL},
    {"G16", "grand", "let_off", "C4", "2.0 mm", '+', "D20, plain wire of the tenor", NULL},
    {"G16", "grand", "let_off", "C7", "1.5 mm", '+', "D20, treble", NULL},
    {"G16", "grand", "let_off", "A0", "2 mm", '+', "W24, 2 mm all over", NULL},
    {"G16", "grand", "let_off", "C8", "2 mm", '+', "W24, 2 mm all over", NULL},
    {"G16", "grand", "let_off", "C8", "1 mm", '+', "D16 D20-D22 W23, fine pianos", NULL},
    {"G16", "grand", "let_off", "C8", "0.9 mm", '-', "D16 D20-D22 W23, inside 1 mm is unreliable", NULL},
    {"G16", "grand", "let_off", "A0", "1/16 in", '+', "W25, 1/16 in everywhere",
     "school: wide in the bass, where strings swing far (M2, D20)"},
    {"G16", "grand", "let_off", "A4", "1 mm", '+', "D22, for one performance",
     "a setting that does not keep"},
    {"G16", "grand", "let_off", "A0", "2.5 mm", '-',
     "D16 D20-D22 W23, over 2 mm loses control of the softest", "school: the bass needs more (M2, D20)"},
    {"G16", "grand", "let_off", "C7", "3 mm", '-', "W53, found too far", NULL},
    {"G17", "grand", "drop", "A4", "1/16 in", '+', "M1 M2 W25, at most", NULL},
    {"G17", "grand", "drop", "A4", "1.5 mm", '+', "D23, as much as let-off", NULL},
    {"G17", "grand", "drop", "A4", "1 mm", '+', "W21", NULL},
    {"G17", "grand", "drop", "A4", "2 mm", '-', "M1, never over 1/16 in", NULL},
    {"G17", "grand", "drop", "A4", "0.2 mm", '+', "D20, nearly none on concert work",
     "school: a close drop moves with the weather (D24); a shop book takes it"},
    {"G18", "grand", "aftertouch", "A4", ".030 in", '+', "D25", NULL},
    {"G18", "grand", "aftertouch", "A4", ".040 in", '+', "D27, a teaching sample", NULL},
    {"G18", "grand", "aftertouch", "A4", ".050 in", '+', "D30", NULL},
    {"G18", "grand", "aftertouch", "A4", ".060 in", '+', "D26 D27", NULL},
    {"G18", "grand", "aftertouch", "A4", "1/8 in", '+', "W54, before the key's bottom",
     "school: counted from the escape here, there it seems from first contact"},
    {"G18", OTHER_GRAND, "aftertouch", "A4", "1/8 in", '+', "W54, from first contact", NULL},
    {"G19", "grand", "checking", "A4", "5/8 in", '+', "W27 W28", NULL},
    {"G19", "grand", "checking", "A4", "14 mm", '+', "D31", NULL},
    {"G19", "grand", "checking", "A4", "15 mm", '+', "D31 D32", NULL},
    {"G19", "grand", "checking", "A4", "16 mm", '+', "D31", NULL},
    {"G22", "grand", "damper_fraction", "A3", "0.5", '+', "W32 J1 D36, half way", NULL},
    {"G22", "grand", "damper_start", "A3", "23 mm", '+', "arithmetic: half of 46", NULL},
    {"G26", "grand", "sostenuto_gap", "", "1/16 in", '+', "D43, above and in front", NULL},
    {"G29", "grand", "downweight", "A0", "55 g", '+', "D52, mid fifties in the bass", NULL},
    {"G29", "grand", "downweight", "C8", "45 g", '+', "D52 W36, mid forties in the treble", NULL},
    {"G29", "grand", "downweight", "A0", "50 g", '+', "D51, the older standard", NULL},
    {"G29", "grand", "downweight", "C8", "46 g", '+', "D51, the older standard", NULL},
    {"G29", "grand", "downweight", "A4", "47 g", '+', "W36-W39, sample pianos, 47 to 52", NULL},
    {"G29", "grand", "downweight", "A4", "52 g", '+', "W36-W39, sample pianos, 47 to 52", NULL},
    {"G29", "grand", "downweight", "A4", "50 g", '+', "W37, concert, 50 to 55", NULL},
    {"G29", "grand", "downweight", "A4", "55 g", '+', "W37, concert, 50 to 55",
     "school: falls from bass to treble (D51, D52), where that page has one figure for all notes"},
    {"G29", "grand", "downweight", "A0", "61 g", '-', "W36-W39, over 60 is heavy", NULL},
    {"G29", "grand", "downweight", "A4", "45 g", '-', "W36-W39, about 45 is light", NULL},
    {"G30", "grand", "upweight", "A0", "20 g", '+', "D51", NULL},
    {"G30", "grand", "upweight", "C8", "24 g", '+', "D51", NULL},
    {"G30", "grand", "upweight", "C8", "25 g", '+', "D51", NULL},
    {"G30", "grand", "upweight", "A4", "21 g", '+', "D51 W36 W40, 21 to 26", NULL},
    {"G30", "grand", "upweight", "A4", "26 g", '+', "D51 W36 W40, 21 to 26", NULL},
    {"G30", "grand", "upweight", "A4", "19 g", '-', "W40, 20 at least for repetition", NULL},
    {"G31", "grand", "balance_weight", "A4", "35 g", '+', "D51, the old standard", NULL},
    {"G31", "grand", "balance_weight", "A4", "38 g", '+', "D54, concert", NULL},
    {"G31", "grand", "balance_weight", "A4", "40 g", '+', "D54, concert", NULL},
    {"G32", "grand", "friction", "A0", "15 g", '+', "D51", NULL},
    {"G32", "grand", "friction", "C8", "11 g", '+', "D51", NULL},
    {"G32", "grand", "friction", "A4", "12 g", '+', "D55, the average", NULL},
    {"G32", "grand", "friction", "A4", "10 g", '+', "W37, 10 to 15", NULL},
    {"G32", "grand", "friction", "A4", "15 g", '+', "W37, 10 to 15", NULL},
    {"G32", "grand", "friction", "C5", "13 g", '+', "D56, expected", NULL},
    {"G32", "grand", "friction", "C5", "21 g", '-', "D56, too high", NULL},
    {"G32", "grand", "friction", "A4", "17 g", '+', "W40, wanted",
     "school: 15 to 11 (D51), about 12 (D55); that page stands alone"},
    /* ---- upright ---- */
    {"U2", "upright", "sharp_height", "C#4", "12 mm", '+', "D64", NULL},
    {"U3", "upright", "key_dip", "A4", "10.0 mm", '+', "D64 W41", NULL},
    {"U3", "upright", "key_dip", "A4", ".390 in", '+', "D64", NULL},
    {"U3", "upright", "key_dip", "A4", "10.5 mm", '+', "W41", NULL},
    {"U3", "upright", "key_dip", "A4", ".410 in", '+', "D64, at most", NULL},
    {"U3", "upright", "key_dip", "A4", "11.5 mm", '+', "D64, at most",
     "printed as 11.5 mm or .410 in, which is 10.4 mm: both can't hold"},
    {"U3", "upright", "key_dip", "A4", "3/8 in", '+', "W15, 9.5 to 11",
     "school: 10.0 to 10.5 (W41, D64); that page gives outer limits over all makes"},
    {"U3", "upright", "key_dip", "A4", "11 mm", '+', "W15, 9.5 to 11",
     "school: 10.0 to 10.5 (W41, D64); that page gives outer limits over all makes"},
    {"U4", "upright", "blow", "A4", "1 3/4 in", '+', "W43 W44, old uprights", NULL},
    {"U4", "upright", "blow", "A4", "47 mm", '+', "one of W41-W45", NULL},
    {"U4", "upright", "blow", "A4", "1 7/8 in", '+', "W15 W45", NULL},
    {"U4", "upright", "blow", "A4", "45 mm", '+', "W41 D64", NULL},
    {"U4", "upright", "blow", "A4", "48 mm", '+', "W41 D64", NULL},
    {"U4", "upright", "blow", "A4", "38 mm", '+', "W15 W45, outer limit",
     "an outer limit; D64 and W41 agree on 45 to 48"},
    {"U4", "upright", "blow", "A4", "50 mm", '+', "W15 W45, outer limit",
     "an outer limit; D64 and W41 agree on 45 to 48"},
    {"U5", "upright", "lost_motion", "A4", "1/16 in", '+', "W43, more before a humid summer", NULL},
    {"U5", "upright", "lost_motion", "A4", "1/8 in", '-', "H2, at the key front a considerable fault", NULL},
    {"U5", "upright", "lost_motion", "A4", "0 mm", '-', "W44 D64, the jack must be able to return", NULL},
    {"U6", "upright", "let_off", "A0", "1/8 in", '+', "W41, bass", NULL},
    {"U6", "upright", "let_off", "A0", "3 mm", '+', "D64, bass", NULL},
    {"U6", "upright", "let_off", "C8", "2 mm", '+', "D64, top", NULL},
    {"U6", "upright", "let_off", "C8", "1/8 in", '+', "W41, one figure for all notes",
     "school: wide in the bass, close in the treble (D64)"},
    {"U6", "upright", "let_off", "C8", "1 mm", '+', "W15, outer limit",
     "an outer limit; D64 has 2 at the top"},
    {"U6", "upright", "let_off", "A4", "1/4 in", '+', "W46, a compromise",
     "for a worn action, not for a regulated one"},
    {"U7", "upright", "jack_clearance", "A4", "1 mm", '+', "W41", NULL},
    {"U7", "upright", "aftertouch", "A4", ".050 in", '+', "D64, at most", NULL},
    {"U7", "upright", "aftertouch", "A4", ".060 in", '-', "D64, at most .050", NULL},
    {"U8", "upright", "checking", "A4", "15 mm", '+', "W41", NULL},
    {"U8", "upright", "checking", "A4", "5/8 in", '+', "from memory", NULL},
    {"U10", "upright", "damper_fraction", "A3", "0.5", '+', "W42 D69, half way", NULL},
    {"U10", "upright", "damper_fraction", "A3", "0.67", '+', "D68 D69, for a heavier touch",
     "school: half way unless chosen"},
    {"U10", OTHER_UPRIGHT, "damper_fraction", "A3", "0.67", '+', "D68 D69, for a heavier touch", NULL},
    {"U12", "upright", "stop_rail", "", "3 mm", '+', "D70, beyond the pedal's lift", NULL},
    {"U12", "upright", "stop_rail", "", "5 mm", '+', "D70, beyond the pedal's lift", NULL},
    {"U13", "upright", "soft_pedal_play", "", "1/8 in", '+', "W43", NULL},
    {"U16", "upright", "balance_weight", "A4", "34 g", '+', "D72", NULL},
    {"U16", "upright", "balance_weight", "A4", "40 g", '+', "D72", NULL},
    {"U16", "upright", "balance_weight", "A4", "41 g", '-', "D72, look for a geometry fault", NULL},
    /* ---- best check values that are targets ---- */
    {"C17", "grand", "sharp_residue", "C#4", "2.03 mm", '+', "D3, 1/2 in less .420 in (arithmetic)", NULL},
    {"C17", "grand", "sharp_residue", "C#4", "2.09 mm", '+', "D3, 12 mm less .390 in (arithmetic)", NULL},
    {"C18", "grand", "blow", "A4", "44.5 mm", '+', "M1 D30 W11 W21", NULL},
    {"C18", "grand", "blow", "A4", "47.6 mm", '+', "M1 D30 W11 W21", NULL},
    {"C19", "grand", "key_dip", "A4", "9.9 mm", '+', "D12 D3 D10 W16", NULL},
    {"C19", "grand", "key_dip", "A4", "10.7 mm", '+', "D12 D3 D10 W16", NULL},
    {"C20", "grand", "let_off", "A0", "3.2 mm", '+', "M2", NULL},
    {"C20", "grand", "let_off", "C8", "1.6 mm", '+', "M2 W25", NULL},
    {"C20", "grand", "let_off", "C8", "3 mm", '-', "W53", NULL},
    {"C21", "grand", "drop", "A4", "1.6 mm", '+', "M1 M2 W25 W26", NULL},
    {"C25", "upright", "let_off", "A0", "3.2 mm", '+', "W41 D64 W15", NULL},
    {"C26", "upright", "key_dip", "A4", "10 mm", '+', "W41 D64", NULL},
};

/* Rows without a figure for a target, and why: the book judges, or has no such step. */
static const struct {
    const char *row, *book, *step, *reason;
} without[] = {
    {"G1", "grand", "bedding", "a knock, no figure (W1-W4, D1)"},
    {"G2", "grand", "key_spacing", "23.5 mm a key is a design reference, no tolerance (W5)"},
    {"G3", "grand", "key_easing", "no figure for side play; pins of .144 and .146 in are parts (W7, D2)"},
    {"G4", "grand", "key_easing", "lifted a couple of inches it falls back: a trial (W9)"},
    {"G11", "grand", "hammer_travel", "no tolerance in mm (W17, D15)"},
    {"G12", "grand", "jack_position", "in line by sight (W18, W19)"},
    {"G20", "grand", "check_height", "level to 1/16 in below: seen, not measured (D31-D33)"},
    {"G21", "grand", "repetition", "no seconds found (W27, W29, W31)"},
    {"G23", "grand", "pedal_stop",
     "1/5 in of lift is of 1906 (H1); today lift is compared, not measured (D37-D40)"},
    {"G24", "grand", "up_stop",
     "1/16 in beyond full dip is one way to set it; judged by a hop (D38, D39, W34)"},
    {"G25", "grand", "damper_tray_timing", "no mm; all as one (D38, D42, W35)"},
    {"G27", "grand", "lyre_and_pedals", "no free play in mm found (D46, D47)"},
    {"G28", "grand", "una_corda",
     "a fraction of the string spacing, seen; a choice of the book (D46, D48-D50)"},
    {"G33", "grand", "centres", "2-5 g uniform or graded by swings: schools differ, so judged (D59-D63)"},
    {"U1", "upright", "key_height", "no published figure found"},
    {"U9", "upright", "bridle_straps", "taut at half blow, seen (D67, W47)"},
    {"U11", "upright", "damper_lift_together", "all as one, seen (W48)"},
    {"U14", "upright", "soft_pedal", "half way, seen (H3, D67)"},
    {"U15", "upright", "hammer_spring_feel", "no force found (W49, D71)"},
    {"U17", "upright", "centres", ".050 and .053 in are pins of 1907, parts and no reading (H4)"},
};

static bool accepts(const hl_book *book, const published *p)
{
    const int at = hl_book_find_step(book, p->step);
    hl_err err = {0};
    hl_amount value = 0;
    if (at < 0)
        fail_msg("%s: %s has no step %s", p->row, p->book, p->step);
    const hl_step *step = hl_book_step(book, at);
    if (hl__quantity_read(&value, p->figure, step->unit, HL_E_RULE, NULL, &err) != HL_OK)
        fail_msg("%s: %s: %s", p->row, p->figure, err.what);
    const int note = hl_note_parse(hl_book_compass(book), p->note);
    const int pitch = p->note[0] == '\0' ? -1 : hl_note_pitch(hl_book_compass(book), note);
    const hl_target *target = hl__book_target(book, at, pitch);
    assert_true(target->has_low || target->has_high);
    return (!target->has_low || value >= target->low) && (!target->has_high || value <= target->high);
}

static void figures_are_met_or_explained(void **state)
{
    (void)state;
    int bad = 0;
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++) {
        const published *p = &figures[i];
        hl_book *book = open_shipped(p->book);
        const bool agrees = accepts(book, p) == (p->says == '+');
        if (agrees != (p->differs == NULL)) {
            print_error("%s: %s %s at %s, %s: %s\n", p->row, p->step, p->figure, p->note, p->source,
                        agrees ? "is met now; take its reason out" : "is not met");
            bad++;
        }
        hl_book_free(book);
    }
    assert_int_equal(bad, 0);
}

static void rows_without_a_figure_are_judged(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof without / sizeof *without; i++) {
        hl_book *book = open_shipped(without[i].book);
        const int at = hl_book_find_step(book, without[i].step);
        if (at < 0 || hl_book_step(book, at)->kind != HL_JUDGED)
            fail_msg("%s: %s: %s", without[i].row, without[i].step, without[i].reason);
        hl_book_free(book);
    }
}

static bool stands(const char *row)
{
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        if (strcmp(figures[i].row, row) == 0)
            return true;
    for (size_t i = 0; i < sizeof without / sizeof *without; i++)
        if (strcmp(without[i].row, row) == 0)
            return true;
    return false;
}

static void no_row_was_forgotten(void **state)
{
    (void)state;
    char row[8];
    for (int i = 1; i <= 33 + 17; i++) {
        snprintf(row, sizeof row, "%c%d", i <= 33 ? 'G' : 'U', i <= 33 ? i : i - 33);
        if (!stands(row))
            fail_msg("row %s is neither met nor explained", row);
    }
}

/* The window of check value 19 is the book's own: 9.9 to 10.7 mm, 10.0 inside it. */
static void the_dip_window(void **state)
{
    (void)state;
    hl_book *book = open_shipped("grand");
    const hl_target *dip = hl__book_target(book, hl_book_find_step(book, "key_dip"), 57); /* A4 */
    assert_int_equal(dip->low, MM(9.9));
    assert_int_equal(dip->aim, MM(10));
    assert_int_equal(dip->high, MM(10.7));
    hl_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(figures_are_met_or_explained),
        cmocka_unit_test(rows_without_a_figure_are_judged),
        cmocka_unit_test(no_row_was_forgotten),
        cmocka_unit_test(the_dip_window),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
