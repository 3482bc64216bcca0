/* sampling.c - draws the notes, and counts what they show (layer: measure). */
#include "sampling.h"

#include "errors.h"

#include <string.h>

uint64_t hl__random_next(uint64_t *state)
{
    uint64_t z = *state += UINT64_C(0x9e3779b97f4a7c15);
    z = (z ^ (z >> 30)) * UINT64_C(0xbf58476d1ce4e5b9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94d049bb133111eb);
    return z ^ (z >> 31);
}

uint64_t hl__random_below(uint64_t *state, uint64_t n)
{
    const uint64_t uneven = (UINT64_MAX % n + 1) % n; /* 2^64 mod n */
    uint64_t drawn = hl__random_next(state);
    while (drawn < uneven)
        drawn = hl__random_next(state);
    return drawn % n;
}

static hl_code check_ask(const hl_sample_ask *ask, int keys, hl_err *err)
{
    if (ask->notes < 0 || ask->notes > keys) {
        hl__fail(err, HL_E_USAGE, "a sample of %d notes can't be drawn from the %d of this piano", ask->notes,
                 keys);
        return hl__todo(err, "ask for 1 to %d notes", keys);
    }
    if (ask->confidence < 0 || ask->confidence >= HL_ONE) {
        hl__fail(err, HL_E_USAGE, "no sample gives such a confidence");
        return hl__todo(err, "ask for more than 0 and less than 100 percent; 95 is usual");
    }
    if (ask->has_at_most && (ask->at_most < 0 || ask->notes == 0)) {
        hl__fail(err, HL_E_USAGE,
                 ask->notes == 0 ? "a limit for a sample, but no sample is asked for"
                                 : "fewer than 0 notes can't be out");
        return hl__todo(err, "say how many notes to measure, and how many of all may be out at most");
    }
    return HL_OK;
}

hl_code hl__sample_check(const hl_sample_ask *ask, const hl_sheet *sheet, hl_err *err)
{
    const hl_code code = check_ask(ask, sheet->compass.keys, err);
    return code == HL_OK ? code : hl__at(err, sheet->name, 0, 0);
}

/* ---- strata -------------------------------------------------------------------------------- */

typedef enum joined { BY_SECTION_AND_COLOUR, BY_COLOUR, ALL_TOGETHER } joined;

static int find_stratum(const hl_sheet *sheet, joined how, int note)
{
    int sharp = hl_pitch_is_sharp(hl_note_pitch(sheet->compass, note)) ? 1 : 0;
    if (how == ALL_TOGETHER)
        return 0;
    return how == BY_COLOUR ? sharp : 2 * hl__sheet_section(sheet, note) + sharp;
}

/* In proportion, the largest remainders rounded up.  False when one gets none. */
static bool share_out(hl_stratum *strata, int keys, int notes)
{
    int left = notes;
    bool all = true;
    for (int i = 0; i < HL_STRATA_MOST; i++) {
        strata[i].drawn = strata[i].size * notes / keys;
        left -= strata[i].drawn;
    }
    for (; left > 0; left--) {
        int chosen = -1, most = 0;
        for (int i = 0; i < HL_STRATA_MOST; i++) {
            int rest = strata[i].size * notes - strata[i].drawn * keys; /* negative once rounded up */
            if (rest > most) {
                most = rest;
                chosen = i;
            }
        }
        strata[chosen].drawn++;
    }
    for (int i = 0; i < HL_STRATA_MOST; i++)
        all = all && (strata[i].size == 0 || strata[i].drawn > 0);
    return all;
}

static joined make_strata(const hl_sheet *sheet, int notes, hl_stratum *strata)
{
    joined how = BY_SECTION_AND_COLOUR;
    for (;; how++) {
        memset(strata, 0, HL_STRATA_MOST * sizeof *strata);
        for (int note = 1; note <= sheet->compass.keys; note++)
            strata[find_stratum(sheet, how, note)].size++;
        if (share_out(strata, sheet->compass.keys, notes) || how == ALL_TOGETHER)
            return how;
    }
}

/* The notes of one stratum, the drawn ones in front. */
static void draw_stratum(const hl_sheet *sheet, joined how, int index, int drawn, uint64_t *state,
                         unsigned char *sampled)
{
    int notes[HL_PITCHES], n = 0;
    for (int note = 1; note <= sheet->compass.keys; note++)
        if (find_stratum(sheet, how, note) == index)
            notes[n++] = note;
    for (int i = 0; i < drawn; i++) {
        int other = i + (int)hl__random_below(state, (uint64_t)(n - i));
        sampled[notes[other]] = 1;
        notes[other] = notes[i];
    }
}

bool hl__sample_draw(hl_drawn *out, hl_arena *arena, const hl_sheet *sheet, const hl_sample_ask *ask)
{
    const size_t keys = (size_t)sheet->compass.keys;
    *out = (hl_drawn){0};
    if (ask->notes == 0)
        return true;
    int *notes = hl__arena_array(arena, keys + 1, sizeof *notes);
    out->sampled = hl__arena_take(arena, keys + 1);
    out->sample = hl__arena_take(arena, sizeof *out->sample);
    out->strata = hl__arena_array(arena, HL_STRATA_MOST, sizeof *out->strata);
    if (!out->sampled || !notes || !out->sample || !out->strata)
        return false;
    uint64_t state = ask->seed;
    joined how = make_strata(sheet, ask->notes, out->strata);
    for (int i = 0; i < HL_STRATA_MOST; i++)
        draw_stratum(sheet, how, i, out->strata[i].drawn, &state, out->sampled);
    *out->sample = (hl_sample){.population = (int)keys,
                               .notes = notes,
                               .seed = ask->seed,
                               .confidence = ask->confidence > 0 ? ask->confidence : HL_ONE / 100 * 95,
                               .has_asked = ask->has_at_most,
                               .asked = ask->at_most};
    for (int note = 1; note <= sheet->compass.keys; note++)
        if (out->sampled[note])
            notes[out->sample->n++] = note;
    return true;
}

/* ---- what it shows ------------------------------------------------------------------------- */

typedef enum note_state { NOTE_FINE, NOTE_OPEN, NOTE_OUT } note_state;

/* What is out is out, whatever else of the note is still to be measured. */
static void look_at(const hl_finding *findings, size_t n, note_state *states)
{
    for (size_t i = 0; i < n; i++) {
        const hl_finding *finding = &findings[i];
        note_state *state = &states[finding->note];
        if (finding->verdict == HL_FAIL || finding->verdict == HL_DOUBTFUL)
            *state = NOTE_OUT;
        else if ((finding->verdict == HL_STALE || finding->verdict == HL_MISSING) && *state == NOTE_FINE)
            *state = NOTE_OPEN;
    }
}

/* Strata that hold nothing stay out of the search. */
static int pack_strata(const hl_stratum *from, hl_stratum *to)
{
    int n = 0;
    for (int i = 0; i < HL_STRATA_MOST; i++)
        if (from[i].size > 0)
            to[n++] = from[i];
    return n;
}

void hl__sample_conclude(const hl_drawn *drawn, const hl_finding *findings, size_t n)
{
    hl_sample *sample = drawn->sample;
    note_state states[HL_PITCHES + 1] = {NOTE_FINE};
    hl_stratum strata[HL_STRATA_MOST];
    if (!sample)
        return;
    look_at(findings, n, states);
    for (int note = 1; note <= sample->population; note++)
        sample->known_out += states[note] == NOTE_OUT;
    for (int i = 0; i < sample->n; i++) {
        sample->out += states[sample->notes[i]] == NOTE_OUT;
        sample->open += states[sample->notes[i]] == NOTE_OPEN;
    }
    sample->concluded = sample->open == 0;
    if (!sample->concluded)
        return;
    double risk = (double)(HL_ONE - sample->confidence) / (double)HL_ONE;
    sample->at_most = hl__strata_bound(strata, pack_strata(drawn->strata, strata), sample->out, risk);
    if (sample->at_most < sample->known_out) /* what was seen outside the sample is no estimate */
        sample->at_most = sample->known_out;
}

/* Whole-instrument steps and those of sections are asked for in any case. */
static bool lacks_something(const hl_table *table, const hl_finding *findings, size_t n)
{
    for (size_t i = 0; i < n; i++) {
        const hl_finding *finding = &findings[i];
        bool open = finding->verdict == HL_STALE || finding->verdict == HL_MISSING;
        bool bad = finding->verdict == HL_FAIL || finding->verdict == HL_DOUBTFUL;
        if (finding->note == 0 && (open || bad))
            return true;
        if (finding->verdict == HL_MISSING && finding->step >= 0 &&
            hl__table_at(table, finding->step, finding->note).asked)
            return true;
    }
    return false;
}

bool hl__sample_ready(const hl_drawn *drawn, const hl_table *table, const hl_finding *findings, size_t n)
{
    const hl_sample *sample = drawn->sample;
    bool passed = false;
    for (size_t i = 0; i < n; i++)
        passed = passed || findings[i].verdict == HL_PASS;
    if (table->sheet->n_errors > 0 || !passed || !sample->concluded || lacks_something(table, findings, n))
        return false;
    /* What is known to be out is put right, however many unknown ones would do; and when nobody said how
     * many would, it is not the sample that says it. */
    return sample->known_out == 0 && sample->has_asked && sample->at_most <= sample->asked;
}
