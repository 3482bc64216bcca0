/* sentence.c - makes phrases of amounts, targets and corrections (layer: render). */
#include "sentence.h"

#include "quantity.h"
#include "wrap.h"

static void add_number(hl_text *out, hl_amount value, hl_unit unit, hl_amount resolution)
{
    /* What is printed is what was judged: a reading finer than the step's resolution keeps its digits. */
    const bool exact = resolution <= 0 || value % resolution != 0;
    if (unit == HL_NOTCH || unit == HL_NO_UNIT)
        hl__text_exact(out, value);
    else
        hl__text_amount(out, value, unit, exact ? 0 : resolution, false);
}

static void add_unit(hl_text *out, hl_amount value, hl_unit unit)
{
    if (unit == HL_NO_UNIT || unit == HL_RATIO)
        return;
    hl__text_char(out, HL_GLUE);
    hl__text_add(out, hl_unit_name(unit));
    if ((unit == HL_TURN || unit == HL_NOTCH) && (value > HL_ONE || value < -HL_ONE))
        hl__text_char(out, 's');
}

void hl__say_amount(hl_text *out, hl_amount value, hl_unit unit, hl_amount resolution)
{
    add_number(out, value, unit, resolution);
    add_unit(out, value, unit);
}

void hl__say_span(hl_text *out, hl_amount low, hl_amount high, hl_unit unit, hl_amount resolution)
{
    add_number(out, low, unit, resolution);
    if (low != high) {
        /* "-0.2--0.1" is no range that anybody reads; nor is "1 1/4-1 1/2". */
        hl__text_add(out, low < 0 || unit == HL_TURN ? " to " : "-");
        add_number(out, high, unit, resolution);
    }
    add_unit(out, high, unit);
}

void hl__say_target(hl_text *out, const hl_target *target, hl_unit unit, hl_amount resolution)
{
    if (target->has_low && target->has_high) {
        hl__say_span(out, target->low, target->high, unit, resolution);
    } else if (target->has_low) {
        hl__text_add(out, "at least ");
        hl__say_amount(out, target->low, unit, resolution);
    } else if (target->has_high) {
        hl__text_add(out, "at most ");
        hl__say_amount(out, target->high, unit, resolution);
    } else {
        hl__text_add(out, "any value");
    }
}

void hl__say_capital(hl_text *out, const char *sentence)
{
    if (*sentence >= 'a' && *sentence <= 'z') {
        hl__text_char(out, (char)(*sentence - 'a' + 'A'));
        sentence++;
    }
    hl__text_add(out, sentence);
}

static void add_word(hl_text *out, const char *word)
{
    if (out->size > 0)
        hl__text_char(out, ' ');
    hl__text_safe(out, word);
}

static void add_how_much(hl_text *out, const hl_adjuster *adjuster, hl_amount amount)
{
    hl__text_char(out, ' ');
    if (adjuster->unit == HL_NOTCH && amount == HL_ONE)
        hl__text_add(out, "a step");
    else
        hl__say_amount(out, amount, adjuster->unit, 0);
}

/* Pieces add up by hand only when there is more than one. */
static void add_pieces(hl_text *out, const hl_adjuster *adjuster, const hl_correction *correction)
{
    if (correction->pieces[0] == 0 || correction->pieces[1] == 0)
        return;
    hl__text_add(out, " (");
    for (int i = 0; i < HL_PIECES && correction->pieces[i] != 0; i++) {
        if (i > 0)
            hl__text_add(out, " + ");
        add_number(out, correction->pieces[i], adjuster->unit, 0);
    }
    hl__text_char(out, ')');
}

static void say_act(hl_text *out, const hl_adjuster *adjuster, bool more, const hl_correction *correction)
{
    const char *way = more ? adjuster->more : adjuster->less;
    const bool verb = adjuster->verb[0] != '\0';
    const bool amount = correction && correction->has_amount;
    hl_text phrase = {0};
    add_word(&phrase, verb ? adjuster->verb : way);
    if (!verb && (adjuster->n_sizes > 0 || adjuster->unit == HL_G)) { /* a thing laid on, not a screw */
        if (amount) {
            add_how_much(&phrase, adjuster, correction->amount);
            hl__text_add(&phrase, " of");
        }
        add_word(&phrase, adjuster->title);
    } else {
        hl__text_add(&phrase, " the");
        add_word(&phrase, adjuster->title);
        if (amount)
            add_how_much(&phrase, adjuster, correction->amount);
        if (verb)
            add_word(&phrase, way);
    }
    if (amount)
        add_pieces(&phrase, adjuster, correction);
    if (phrase.failed)
        out->failed = true;
    else if (phrase.data)
        hl__text_add_n(out, phrase.data, phrase.size);
    hl__text_free(&phrase);
}

void hl__say_act(hl_text *out, const hl_adjuster *adjuster, const hl_correction *correction)
{
    say_act(out, adjuster, correction->more, correction);
}

void hl__say_way(hl_text *out, const hl_adjuster *adjuster, bool more)
{
    say_act(out, adjuster, more, NULL);
}

void hl__say_count(hl_text *out, int n, const char *one, const char *many)
{
    hl__text_printf(out, "%d %s", n, n == 1 ? one : many);
}
