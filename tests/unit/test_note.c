/* test_note.c - key numbers, pitches and names, against published lists. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "hammerline.h"

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static const hl_compass MODERN = {HL_A0, 88};

/* Whole hertz of the 88 keys: OEIS A214832 (Perry, 2013).  f = 440 * 2^((n - 49) / 12), A4 = 440 Hz
 * (ISO 16). */
static const int HERTZ[88] = {
    27,   29,   30,   32,   34,   36,   38,   41,   43,   46,   48,   51,   55,   58,   61,
    65,   69,   73,   77,   82,   87,   92,   97,   103,  110,  116,  123,  130,  138,  146,
    155,  164,  174,  184,  195,  207,  220,  233,  246,  261,  277,  293,  311,  329,  349,
    369,  391,  415,  440,  466,  493,  523,  554,  587,  622,  659,  698,  739,  783,  830,
    880,  932,  987,  1046, 1108, 1174, 1244, 1318, 1396, 1479, 1567, 1661, 1760, 1864, 1975,
    2093, 2217, 2349, 2489, 2637, 2793, 2959, 3135, 3322, 3520, 3729, 3951, 4186,
};

/* The pitch's own frequency, from C0 (pitch 0) upwards; the note number is not used. */
static double frequency(int pitch)
{
    return 440.0 * pow(2.0, (pitch - (4 * 12 + 9)) / 12.0);
}

static void the_88_keys_sound_as_published(void **state)
{
    (void)state;
    for (int note = 1; note <= 88; note++) {
        /* A hair of tolerance keeps 440 itself from being floored to 439. */
        assert_int_equal((int)floor(frequency(hl_note_pitch(MODERN, note)) + 1e-9), HERTZ[note - 1]);
    }
}

/* Key numbers of the names: "Piano key frequencies", with C4 = middle C, the octave number rising
 * from B to C ("Scientific pitch notation"); both encyclopedia articles. */
static void the_names_of_the_keys(void **state)
{
    (void)state;
    static const struct {
        int note;
        const char *name;
    } keys[] = {
        {1, "A0"},  {2, "A#0"}, {3, "B0"},  {4, "C1"},  {16, "C2"}, {28, "C3"}, {40, "C4"},
        {49, "A4"}, {52, "C5"}, {64, "C6"}, {76, "C7"}, {87, "B7"}, {88, "C8"},
    };
    for (size_t i = 0; i < COUNT(keys); i++) {
        assert_string_equal(hl_pitch_name(hl_note_pitch(MODERN, keys[i].note)), keys[i].name);
        assert_int_equal(hl_note_parse(MODERN, keys[i].name), keys[i].note);
    }
    assert_string_equal(hl_pitch_name(0), "C0");
    assert_string_equal(hl_pitch_name(HL_PITCHES - 1), "B8");
    assert_string_equal(hl_pitch_name(-1), "?");
    assert_string_equal(hl_pitch_name(HL_PITCHES), "?");
}

/* OEIS A081032 (Wilson, 2003): the black keys of a piano. */
static void the_36_sharps(void **state)
{
    (void)state;
    static const int sharps[] = {2,  5,  7,  10, 12, 14, 17, 19, 22, 24, 26, 29, 31, 34, 36, 38, 41, 43,
                                 46, 48, 50, 53, 55, 58, 60, 62, 65, 67, 70, 72, 74, 77, 79, 82, 84, 86};
    size_t next = 0;
    for (int note = 1; note <= 88; note++) {
        bool sharp = next < COUNT(sharps) && sharps[next] == note;
        assert_int_equal(hl_pitch_is_sharp(hl_note_pitch(MODERN, note)), sharp);
        next += sharp ? 1 : 0;
    }
    assert_int_equal(next, 36);
    assert_false(hl_pitch_is_sharp(-3));
    assert_false(hl_pitch_is_sharp(HL_PITCHES + 1));
}

static void every_name_and_number_is_read_back(void **state)
{
    (void)state;
    for (int note = 1; note <= 88; note++) {
        char number[12];
        snprintf(number, sizeof number, "%d", note);
        assert_int_equal(hl_note_parse(MODERN, number), note);
        assert_int_equal(hl_note_parse(MODERN, hl_pitch_name(hl_note_pitch(MODERN, note))), note);
    }
}

static void ways_of_writing_a_note(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int note;
    } notes[] = {
        {"c4", 40},
        {"C#4", 41},
        {"c#4", 41},
        {"Db4", 41},
        {"dB4", 41},
        {"C\xE2\x99\xAF"
         "4",
         41},
        {"D\xE2\x99\xAD"
         "4",
         41},
        {"bb0", 2},
        {"Bb0", 2},
        {"b0", 3},
        {"Cb4", 39}, /* B3: the octave is the letter's */
        {"B#3", 40},
        {"E#4", 45},
        {"Fb4", 44},
        {" A4 ", 49},
        {"49 ", 49},
        {"049", 49},
        {"A4\xC2\xA0", 49},
    };
    for (size_t i = 0; i < COUNT(notes); i++) {
        assert_int_equal(hl_note_parse(MODERN, notes[i].text), notes[i].note);
    }
}

static void what_is_no_note_of_this_piano(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "",
        " ",
        "0",
        "89",
        "-1",
        "+4",
        "4.0",
        "1e1",
        "99999999999999999999",
        "H4",
        "h4",
        "G#0",
        "C#8",
        "B8",
        "C9",
        "C-1",
        "C",
        "C#",
        "#4",
        "C##4",
        "Cx4",
        "C 4",
        "C44",
        "A4 x",
        "4 4",
        "Cb0",
        "B#8",
        "C\xE2\x99Z4",
        "\xE2\x99\xAF",
        "note 4",
        "A04",
    };
    for (size_t i = 0; i < COUNT(texts); i++) {
        assert_int_equal(hl_note_parse(MODERN, texts[i]), 0);
    }
}

/* Another compass counts from its own lowest key: 85 keys A0-A7; 61 keys from C2. */
static void other_compasses(void **state)
{
    (void)state;
    const hl_compass old = {HL_A0, 85};
    assert_int_equal(hl_note_parse(old, "A7"), 85);
    assert_int_equal(hl_note_parse(old, "C8"), 0);
    assert_int_equal(hl_note_parse(old, "86"), 0);
    const hl_compass small = {24, 61};
    assert_int_equal(hl_note_parse(small, "C2"), 1);
    assert_int_equal(hl_note_parse(small, "C7"), 61);
    assert_int_equal(hl_note_parse(small, "A0"), 0);
    assert_string_equal(hl_pitch_name(hl_note_pitch(small, 1)), "C2");
}

static void verdicts_have_their_words(void **state)
{
    (void)state;
    static const char *const names[HL_VERDICTS] = {"pass",    "fail",           "doubtful", "stale",
                                                   "missing", "not applicable", "accepted"};
    for (int i = 0; i < HL_VERDICTS; i++) {
        assert_string_equal(hl_verdict_name((hl_verdict)i), names[i]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_88_keys_sound_as_published),
        cmocka_unit_test(the_names_of_the_keys),
        cmocka_unit_test(the_36_sharps),
        cmocka_unit_test(every_name_and_number_is_read_back),
        cmocka_unit_test(ways_of_writing_a_note),
        cmocka_unit_test(what_is_no_note_of_this_piano),
        cmocka_unit_test(other_compasses),
        cmocka_unit_test(verdicts_have_their_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
