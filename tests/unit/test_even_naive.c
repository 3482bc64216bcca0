/* test_even_naive.c - evenness of whole keyboards, against the rule written out a second time, simply.
 *
 * The readings are drawn at random, the same each run; what is expected is arithmetic: of each note the
 * four nearest of its colour and section that are in range, below before above; their median; a note
 * further from it than the step allows is uneven. */
#include "judged.h"

#define KEYS 88

typedef struct keyboard {
    bool read[KEYS + 1];
    hl_amount value[KEYS + 1]; /* less the aim */
    int last_of_first;         /* section: notes up to this one, and the rest; 0: one section */
    bool breaks;
} keyboard;

static uint32_t seed;

static int draw(int n)
{
    seed = seed * 1664525u + 1013904223u;
    return (int)((seed >> 8) % (uint32_t)n);
}

/* Dip: 9.8 to 10.2, aim 10, 0.15 from the neighbours; in steps of 0.05, so that limits are often met. */
#define LIMIT 200000
#define EVEN  150000

static bool in_range(const keyboard *k, int note)
{
    return k->read[note] && k->value[note] >= -LIMIT && k->value[note] <= LIMIT;
}

static bool same_kind(const keyboard *k, int a, int b)
{
    const hl_compass compass = {HL_A0, KEYS};
    const bool colour =
        hl_pitch_is_sharp(hl_note_pitch(compass, a)) == hl_pitch_is_sharp(hl_note_pitch(compass, b));
    return colour && (!k->breaks || (a <= k->last_of_first) == (b <= k->last_of_first));
}

/* Twice the median of up to four neighbours; false when there are fewer than three. */
static bool find_median(const keyboard *k, int note, hl_amount *twice)
{
    hl_amount near[4];
    int n = 0;
    for (int away = 1; away <= KEYS && n < 4; away++)
        for (int side = -1; side <= 1 && n < 4; side += 2) {
            const int other = note + side * away;
            if (other >= 1 && other <= KEYS && same_kind(k, note, other) && in_range(k, other))
                near[n++] = k->value[other];
        }
    for (int i = 0; i < n; i++)
        for (int j = i + 1; j < n; j++)
            if (near[j] < near[i]) {
                const hl_amount swap = near[i];
                near[i] = near[j];
                near[j] = swap;
            }
    if (n < 3)
        return false;
    *twice = n == 3 ? 2 * near[1] : near[1] + near[2];
    return true;
}

static void draw_keyboard(keyboard *k, hl_text *text)
{
    const int gaps = draw(4), width = 1 + draw(5);
    *k = (keyboard){.last_of_first = 20 + draw(40), .breaks = draw(2) == 1};
    hl__text_printf(text, "# breaks: %d\n%s", k->last_of_first, HEADS);
    for (int note = 1; note <= KEYS; note++) {
        if (draw(4) < gaps && draw(3) > 0)
            continue;
        k->read[note] = true;
        k->value[note] = (draw(2 * width + 1) - width) * 50000;
        hl__text_printf(text, "%d,key_dip,", note);
        hl__text_exact(text, 10 * HL_ONE + k->value[note]);
        hl__text_char(text, '\n');
    }
}

static void check_note(const judged *j, const keyboard *k, int note, hl_amount *worst)
{
    const hl_finding *finding =
        see(j, "key_dip", hl_pitch_name(hl_note_pitch((hl_compass){HL_A0, KEYS}, note)));
    hl_amount twice = 0;
    if (!k->read[note]) {
        assert_int_equal(finding->verdict, HL_MISSING);
        return;
    }
    const bool told = find_median(k, note, &twice);
    const hl_amount out = 2 * k->value[note] - twice, size = ((out < 0 ? -out : out) + 1) / 2;
    const hl_why want = k->value[note] < -LIMIT                                  ? HL_WHY_LOW
                        : k->value[note] > LIMIT                                 ? HL_WHY_HIGH
                        : told && (out > 2 * EVEN || out < -2 * (hl_amount)EVEN) ? HL_WHY_UNEVEN
                                                                                 : HL_WHY_NONE;
    if (finding->why != want)
        fail_msg("note %d: why %d, not %d", note, (int)finding->why, (int)want);
    if (want == HL_WHY_UNEVEN)
        assert_int_equal(finding->shift, out < 0 ? -size : size);
    if (told && size > *worst)
        *worst = size;
}

static void keyboards_drawn_at_random(void **state)
{
    (void)state;
    int n_uneven = 0, n_told = 0;
    for (seed = 1; seed <= 4000; seed += 37) {
        const uint32_t kept = seed;
        keyboard k;
        hl_text text = {0};
        hl_book *book = small_book();
        draw_keyboard(&k, &text);
        book->steps[small_step(book, "key_dip")].breaks = k.breaks;
        judged j = judge_by(book, text.data);
        hl_amount worst = -1;
        for (int note = 1; note <= KEYS; note++)
            check_note(&j, &k, note, &worst);
        const hl_tally *tally = hl_audit_tally(j.audit, small_step(j.book, "key_dip"));
        assert_int_equal(tally->has_unevenness, worst >= 0);
        if (worst >= 0)
            assert_int_equal(tally->unevenness, worst);
        n_told += worst >= 0;
        n_uneven += worst > EVEN;
        put_away(&j);
        hl__text_free(&text);
        seed = kept;
    }
    assert_true(n_told > 90 && n_uneven > 30); /* else they showed nothing */
}

/* The ends of the keyboard have neighbours on one side only: A0 is note 1, C8 note 88. */
static void the_first_and_the_last_note(void **state)
{
    (void)state;
    judged j = judge(HEADS "A0,key_dip,9.8\nB0,key_dip,10\nC1,key_dip,10\nD1,key_dip,10\n"
                           "G7,key_dip,10\nA7,key_dip,10\nB7,key_dip,10\nC8,key_dip,10.2\n");
    assert_int_equal(see(&j, "key_dip", "A0")->why, HL_WHY_UNEVEN);
    assert_int_equal(see(&j, "key_dip", "A0")->shift, MM(-.2));
    assert_int_equal(see(&j, "key_dip", "C8")->why, HL_WHY_UNEVEN);
    assert_int_equal(see(&j, "key_dip", "C8")->shift, MM(.2));
    put_away(&j);
}

/* The spread tells for three readings and more, steps without an evenness have none; of 9.9, 10, 10.2
 * the middle is 10, and the middle distance from it 0.1. */
static void the_spread_is_told_from_three_readings_on(void **state)
{
    (void)state;
    static const struct {
        const char *rows;
        bool told;
        hl_amount mad;
    } cases[] = {
        {"A0,key_dip,9.9\nC4,key_dip,10\n", false, 0},
        {"A0,key_dip,9.9\nC4,key_dip,10\nC8,key_dip,10.2\n", true, MM(.1)},
        {"A0,key_dip,9.9\nC4,key_dip,10\nC8,key_dip,10.2\nD4,key_dip,within\n", true, MM(.1)},
        {"A0,let_off,1.5\nC4,let_off,1.6\nC8,let_off,1.7\n", false, 0},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        char text[200] = HEADS;
        strcat(text, cases[i].rows);
        judged j = judge(text);
        const char *step = strstr(text, "let_off") ? "let_off" : "key_dip";
        const hl_tally *tally = hl_audit_tally(j.audit, small_step(j.book, step));
        assert_int_equal(tally->has_mad, cases[i].told);
        assert_int_equal(tally->mad, cases[i].mad);
        assert_false(tally->has_unevenness);
        put_away(&j);
    }
}

/* Readings are held to a nanometre, and a median between two of them to half of one: C4 to G4 lie at 0
 * and 1 nm, their middle at half a nanometre, and E4 is out by 0.2 mm and that half, rounded up. */
static void half_a_nanometre(void **state)
{
    (void)state;
    judged j = judge(HEADS "C4,key_dip,10\nD4,key_dip,10\nE4,key_dip,9.8\nF4,key_dip,10.000001\n"
                           "G4,key_dip,10.000001\n");
    assert_int_equal(see(&j, "key_dip", "E4")->why, HL_WHY_UNEVEN);
    assert_int_equal(see(&j, "key_dip", "E4")->shift, -200001);
    put_away(&j);
}

static void the_smallest_evenness_that_can_be_asked(void **state)
{
    (void)state;
    hl_book *book = small_book();
    book->steps[small_step(book, "key_dip")].even = 1;
    judged j = judge_by(book, HEADS "C4,key_dip,10\nD4,key_dip,10\nE4,key_dip,10.000002\nF4,key_dip,10\n");
    assert_int_equal(see(&j, "key_dip", "E4")->why, HL_WHY_UNEVEN);
    assert_int_equal(see(&j, "key_dip", "D4")->verdict, HL_PASS);
    put_away(&j);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keyboards_drawn_at_random), cmocka_unit_test(the_first_and_the_last_note),
        cmocka_unit_test(the_spread_is_told_from_three_readings_on), cmocka_unit_test(half_a_nanometre),
        cmocka_unit_test(the_smallest_evenness_that_can_be_asked)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
