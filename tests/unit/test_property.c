/* test_property.c - one property for every step, note and reading: a correction, applied by all of
 * its adjuster's moves to all readings of the note, lands in the target or says that it will not,
 * and names what it spoils (design, section 5).
 *
 * The moves are applied here by hand: readings plus effect times amount, derived steps from their
 * formula anew.  Only the effects table is shared with the engine. */
#include "judged.h"

#include "effects.h"
#include "step_formula.h"

#include <math.h>

#define STEPS_MOST 64

typedef struct note_sheet {
    judged j;
    int note;
    double values[STEPS_MOST]; /* before; NaN = nothing known */
    double after[STEPS_MOST];
    hl_effect effects[STEPS_MOST];
} note_sheet;

static void type_case(hl_text *text, const hl_book *book, const char *note, int step, hl_amount reading)
{
    hl__text_add(text, HEADS);
    type_note(text, book, hl_note_parse(book->compass, note));
    hl__text_add(text, ",pass,later\n"); /* a fault found, not a note that somebody has adjusted */
    hl__text_printf(text, "%s,%s,", note, book->steps[step].id);
    hl__text_exact(text, reading);
    hl__text_printf(text, " %s\n", hl_unit_name(book->steps[step].unit)); /* so odd that the reader asks */
}

static const hl_finding *find(const note_sheet *s, int step)
{
    size_t n = 0;
    const hl_finding *f = hl_audit_findings(s->j.audit, &n);
    for (size_t i = 0; i < n; i++)
        if (f[i].step == step && f[i].note == s->note)
            return &f[i];
    return NULL;
}

static void derive(const note_sheet *s, double *values)
{
    bool assumed = false;
    for (int i = 0; i < s->j.book->n_steps; i++)
        if (s->j.book->steps[i].kind == HL_DERIVED)
            values[i] = hl__step_formula_value(s->j.book, s->j.sheet, i, s->note, values, &assumed);
}

static void fill_values(note_sheet *s)
{
    for (int i = 0; i < s->j.book->n_steps; i++) {
        const hl_finding *f = find(s, i);
        bool read = f && f->has_value && !f->computed;
        s->values[i] = read ? (double)f->value / 1e6 : (double)NAN;
    }
    derive(s, s->values);
}

static bool is_inside(const note_sheet *s, int step, double value)
{
    const hl_book *book = s->j.book;
    const hl_target *target = hl__book_target(book, step, hl_note_pitch(book->compass, s->note));
    hl_amount amount = (hl_amount)llround(value * 1e6);
    amount = hl__round_to(amount, book->steps[step].resolution);
    return (!target->has_low || amount >= target->low) && (!target->has_high || amount <= target->high);
}

static bool names(const int *list, int n, int step)
{
    for (int i = 0; i < n; i++)
        if (list[i] == step)
            return true;
    return false;
}

static void check_spoils(const note_sheet *s, const hl_finding *failing, const hl_correction *c)
{
    for (int i = 0; i < s->j.book->n_steps; i++) {
        const hl_finding *f = find(s, i);
        bool moved = s->effects[i].kind == HL_EFFECT_BY;
        bool spoilt = f && i != failing->step && f->verdict == HL_PASS && f->has_value && moved &&
                      !is_inside(s, i, s->after[i]);
        if (names(c->spoils, c->n_spoils, i) != spoilt)
            fail_msg("%s: spoiling %s is %s", s->j.book->steps[failing->step].id, s->j.book->steps[i].id,
                     spoilt ? "kept quiet" : "invented");
    }
}

/* Not landing is said only when no move near it would. */
static void check_neighbours(const note_sheet *s, const hl_finding *failing, const hl_correction *c)
{
    hl_amount finest = s->j.book->adjusters[c->adjuster].finest;
    const hl_effect *effect = &s->effects[failing->step];
    if (c->lands || finest <= 0)
        return;
    for (int k = -3; k <= 3; k++) {
        hl_amount amount = c->amount + k * finest;
        double moved = effect->by * (double)(c->more ? amount : -amount) / 1e6;
        if (amount > 0 && is_inside(s, failing->step, s->values[failing->step] + moved))
            fail_msg("%s: a move that lands was passed over", s->j.book->steps[failing->step].id);
    }
}

/* Returns how many corrections with an amount there were. */
static int check_finding(note_sheet *s, const hl_finding *failing)
{
    int checked = 0;
    for (int i = 0; i < failing->n_corrections; i++) {
        const hl_correction *c = &failing->corrections[i];
        if (!c->has_predicted)
            continue;
        assert_true(c->has_amount && c->amount > 0);
        hl__effects_at(s->j.book, s->j.sheet, c->adjuster, s->note, s->values, s->effects);
        double amount = (double)(c->more ? c->amount : -c->amount) / 1e6;
        for (int k = 0; k < s->j.book->n_steps; k++)
            s->after[k] = s->values[k] + (s->effects[k].kind == HL_EFFECT_BY ? s->effects[k].by * amount : 0);
        derive(s, s->after);
        if (is_inside(s, failing->step, s->after[failing->step]) != c->lands)
            fail_msg("%s: it %s", s->j.book->steps[failing->step].id, c->lands ? "does not land" : "lands");
        check_spoils(s, failing, c);
        check_neighbours(s, failing, c);
        assert_true(c->n_again >= 1);
        checked++;
    }
    return checked;
}

static int check_reading(hl_book *book, const char *note, int step, hl_amount reading)
{
    note_sheet s = {.note = hl_note_parse(book->compass, note)};
    hl_text text = {0};
    type_case(&text, book, note, step, reading);
    assert_false(text.failed);
    s.j = judge_by(book, text.data);
    hl__text_free(&text);
    fill_values(&s);
    int checked = 0;
    size_t n = 0;
    const hl_finding *findings = hl_audit_findings(s.j.audit, &n);
    for (size_t i = 0; i < n; i++)
        if (findings[i].note == s.note && findings[i].verdict == HL_FAIL)
            checked += check_finding(&s, &findings[i]);
    hl_audit_free(s.j.audit);
    hl_sheet_free(s.j.sheet);
    return checked;
}

/* From far below to far above: single grains near the target, great strides beyond. */
static int check_step(hl_book *book, const char *note, int step)
{
    const hl_step *s = &book->steps[step];
    const hl_target *target =
        hl__book_target(book, step, hl_note_pitch(book->compass, hl_note_parse(book->compass, note)));
    hl_amount width = target->high - target->low;
    int checked = 0;
    for (int stride = -40; stride <= 40; stride++) {
        hl_amount far = stride * width / 4 + stride * stride * stride * s->resolution / 50;
        hl_amount reading = target->aim + far;
        if (reading > 900 * HL_ONE)
            continue;
        checked += check_reading(book, note, step, reading);
    }
    return checked;
}

static void every_correction_keeps_its_word(void **state)
{
    (void)state;
    hl_book *book = small_book();
    static const char *const notes[] = {"A0", "C4", "F#4", "C8"};
    int checked = 0;
    for (int step = 0; step < book->n_steps; step++) {
        const hl_step *s = &book->steps[step];
        for (size_t i = 0; i < 4; i++) {
            int pitch = hl_note_pitch(book->compass, hl_note_parse(book->compass, notes[i]));
            if (s->kind != HL_MEASURED || !hl__step_at_pitch(s, pitch))
                continue;
            int here = check_step(book, notes[i], step);
            if (s->n_fixes > 0)
                assert_true(here > 40);
            checked += here;
        }
    }
    assert_true(checked > 2000);
    small_book_free(book);
}

/* The same with coarse moves that often can't land: it must be said. */
static void coarse_hands_say_so(void **state)
{
    (void)state;
    hl_book *book = small_book();
    for (int i = 0; i < book->n_adjusters; i++) {
        book->adjusters[i].n_sizes = 0;
        book->adjusters[i].finest = HL_ONE * 3 / 4;
    }
    int checked = 0;
    for (int step = 0; step < book->n_steps; step++)
        if (book->steps[step].kind == HL_MEASURED && book->steps[step].scope == HL_EVERY_NOTE)
            checked += check_step(book, "C4", step);
    assert_true(checked > 500);
    small_book_free(book);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_correction_keeps_its_word),
        cmocka_unit_test(coarse_hands_say_so),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
