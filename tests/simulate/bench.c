/* bench.c - readings with their gauge, sheets of them, and hands that do what they are told. */
#include "bench.h"

#include "effects_cache.h"

#include "text.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const QUANTITY_IDS[QUANTITIES] = {
    [KEY_LEVEL] = "key_level",   [SHARP_HEIGHT] = "sharp_height",
    [KEY_DIP] = "key_dip",       [BLOW] = "blow",
    [LET_OFF] = "let_off",       [DROP] = "drop",
    [AFTERTOUCH] = "aftertouch", [CHECKING] = "checking",
};
static const char *const TOOL_IDS[TOOLS] = {
    [BALANCE] = "balance_punching", [FRONT] = "front_punching",  [CAPSTAN] = "capstan",
    [BUTTON] = "let_off_button",    [DROP_SCREW] = "drop_screw", [CHECK] = "backcheck",
};

void need(bool good, const char *what)
{
    if (good)
        return;
    fprintf(stderr, "simulate: %s\n", what);
    exit(2);
}

/* ---- setting up -------------------------------------------------------------------------- */

static double find_aim(const bench *at, int what, int note)
{
    int pitch = hl_note_pitch(at->book->compass, note);
    return (double)hl__book_target(at->book, at->steps[what], pitch)->aim / 1e6;
}

static void find_aims(bench *at)
{
    at->aim.blow = find_aim(at, BLOW, 44);
    at->aim.drop = find_aim(at, DROP, 44);
    at->aim.checking = find_aim(at, CHECKING, 44);
    at->aim.sharp_height = find_aim(at, SHARP_HEIGHT, 44);
    at->aim.dip[0] = find_aim(at, KEY_DIP, 44); /* E4 */
    at->aim.dip[1] = find_aim(at, KEY_DIP, 46); /* F#4 */
    for (int note = 1; note <= KEYS; note++)
        at->aim.let_off[note] = find_aim(at, LET_OFF, note);
}

void open_bench(bench *out, const hl_book *book, const conditions *under, uint64_t piano)
{
    memset(out, 0, sizeof *out);
    out->book = book;
    for (int i = 0; i < QUANTITIES; i++)
        need((out->steps[i] = hl_book_find_step(book, QUANTITY_IDS[i])) >= 0, QUANTITY_IDS[i]);
    for (int i = 0; i < TOOLS; i++)
        need((out->tools[i] = hl_book_find_adjuster(book, TOOL_IDS[i])) >= 0, TOOL_IDS[i]);
    find_aims(out);
    make_action(&out->piano, &out->aim, under->seed + piano, under->off);
    out->noise.state = (under->seed + piano) ^ UINT64_C(0x5DEECE66D);
    out->noise_share = under->noise;
    for (int what = 0; what < QUANTITIES; what++)
        for (int note = 1; note <= KEYS; note++)
            read_cell(out, what, note);
    out->readings = 0;
}

void close_bench(bench *from)
{
    hl_audit_free(from->audit);
    hl_sheet_free(from->sheet);
    from->audit = NULL;
    from->sheet = NULL;
}

/* ---- reading ----------------------------------------------------------------------------- */

/* The gauge's uncertainty holds nearly always: three deviations of its noise. */
void read_cell(bench *at, int what, int note)
{
    const hl_step *step = &at->book->steps[at->steps[what]];
    double value = measure(&at->piano, &at->aim, note, (quantity)what);
    if (isnan(value))
        return;
    value += roll_normal(&at->noise) * at->noise_share * (double)step->gauge / 1e6 / 3;
    hl_amount amount = 0;
    need(hl__amount_from(value, &amount), "a reading out of this world");
    at->read[what][note] = step->resolution > 0 ? hl__round_to(amount, step->resolution) : amount;
    at->dirty[what][note] = false;
    at->readings++;
}

void read_dirty(bench *at)
{
    for (int what = 0; what < QUANTITIES; what++)
        for (int note = 1; note <= KEYS; note++)
            if (at->dirty[what][note])
                read_cell(at, what, note);
}

int find_quantity(const bench *at, int step)
{
    for (int i = 0; i < QUANTITIES; i++)
        if (at->steps[i] == step)
            return i;
    return -1;
}

/* ---- judging ----------------------------------------------------------------------------- */

/* What is not simulated reads as it should. */
static void type_cell(hl_text *text, const bench *at, int step, int note)
{
    const hl_step *s = &at->book->steps[step];
    int pitch = note > 0 ? hl_note_pitch(at->book->compass, note) : -1;
    int what = find_quantity(at, step);
    if (s->kind == HL_DERIVED || (s->scope == HL_ONCE) != (note == 0) ||
        (note > 0 && !hl__step_at_pitch(s, pitch)))
        return;
    hl__text_printf(text, "%s,%s,", note > 0 ? hl_pitch_name(pitch) : "", s->id);
    if (s->kind == HL_JUDGED) {
        hl__text_add(text, "ok\n");
        return;
    }
    hl__text_exact(text, what >= 0 ? at->read[what][note] : hl__book_target(at->book, step, pitch)->aim);
    /* with its unit, so that an odd reading is not asked about */
    hl__text_printf(text, " %s\n", hl_unit_name(s->unit));
}

void judge_bench(bench *at)
{
    hl_text text = {0};
    hl_err err = {0};
    close_bench(at);
    hl__text_add(&text, "# check_bend: 1\nnote,step,reading\n"); /* measured on this piano */
    for (int note = 0; note <= KEYS; note++)
        for (int step = 0; step < at->book->n_steps; step++)
            type_cell(&text, at, step, note);
    need(!text.failed, "no memory");
    need(hl_sheet_open_text(&at->sheet, "simulated", text.data, text.size, &err) == HL_OK, err.what);
    need(hl_sheet_read(at->sheet, at->book, &err) == HL_OK, err.what);
    need(hl_audit_run(&at->audit, at->sheet, at->book, NULL, &err) == HL_OK, err.what);
    hl__text_free(&text);
}

/* ---- doing ------------------------------------------------------------------------------- */

static void mark_dirty(bench *at, int adjuster, int note)
{
    hl_table *table = &at->audit->table;
    hl__table_values(table, note, table->note_values);
    hl__effects_now(table, adjuster, note, table->note_values, table->effects);
    for (int what = 0; what < QUANTITIES; what++) {
        hl_effect_kind kind = table->effects[at->steps[what]].kind;
        bool moves = kind == HL_EFFECT_BY || kind == HL_EFFECT_STRONG;
        if (moves && !isnan(measure(&at->piano, &at->aim, note, (quantity)what)))
            at->dirty[what][note] = true;
    }
}

void do_correction(bench *at, int note, const hl_correction *correction)
{
    int which = 0;
    while (which < TOOLS && at->tools[which] != correction->adjuster)
        which++;
    if (which == TOOLS || !correction->has_amount)
        return; /* the whole instrument, or by feel: not in this simulation */
    double amount = (double)correction->amount / 1e6;
    adjust(&at->piano, note, (tool)which, correction->more ? amount : -amount);
    at->adjustments++;
    mark_dirty(at, correction->adjuster, note);
}

static void distrust_inputs(bench *at, const hl_formula *formula, int note)
{
    for (int i = 0; i < formula->n_vars; i++) {
        int what = formula->vars[i].kind == HL_VAR_STEP ? find_quantity(at, formula->vars[i].index) : -1;
        if (what >= 0)
            at->dirty[what][note] = true;
    }
}

void distrust(bench *at)
{
    size_t n = 0;
    const hl_finding *findings = hl_audit_findings(at->audit, &n);
    for (size_t i = 0; i < n; i++) {
        const hl_finding *f = &findings[i];
        if (f->verdict != HL_FAIL || f->step < 0 || f->note == 0)
            continue;
        const hl_step *step = &at->book->steps[f->step];
        if (step->kind == HL_DERIVED && step->n_fixes == 0 && step->formula)
            distrust_inputs(at, step->formula, f->note);
    }
}
