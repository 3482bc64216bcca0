/* correct.c - what to adjust, which way and how far, for one failing reading (layer: advise).
 *
 * Once for all steps: amount = (goal - reading) / what one unit of the adjuster moves.  Nothing
 * here knows a step or an adjuster by name. */
#include "correct.h"

#include "choose.h"
#include "predict.h"
#include "verdict.h"

#include <math.h>

/* One failing reading and one adjuster that might put it right. */
typedef struct trial {
    const hl_prediction *touch;
    const hl_target *target;
    hl_amount lean;
    double exact;
    int step;
    bool uneven, more;
    hl_amount even;
} trial;

/* Where the reading should go: the aim, or with its neighbours as far as the target allows. */
static double find_goal(const trial *t)
{
    const hl_target *target = t->target;
    double goal = (double)target->aim;
    if (t->uneven) {
        goal += (double)t->lean / 2;
        if (target->has_low && goal < (double)target->low)
            goal = (double)target->low;
        if (target->has_high && goal > (double)target->high)
            goal = (double)target->high;
    }
    return goal / (double)HL_ONE;
}

static bool try_amount(void *context, hl_amount amount)
{
    const trial *t = context;
    hl_amount reading = 0;
    if (!hl__predict_reading(t->touch, t->step, t->more ? amount : -amount, &reading) ||
        hl__verdict_value(t->target, reading).verdict != HL_PASS)
        return false;
    if (!t->uneven)
        return true;
    hl_amount out_double = 2 * (reading - t->target->aim) - t->lean;
    return (out_double < 0 ? -out_double : out_double) <= 2 * t->even;
}

/* A small step of a spring has a way and no size: one, then read again. */
static hl_amount find_one_step(const hl_adjuster *adjuster)
{
    return adjuster->finest > 0 ? adjuster->finest : HL_ONE;
}

static bool compute_amount(trial *t, const hl_adjuster *adjuster, hl_amount wanted, hl_correction *out)
{
    hl_choice choice;
    hl__choose_amount(adjuster, wanted, try_amount, t, &choice);
    out->has_amount = true;
    out->amount = choice.amount;
    for (int i = 0; i < HL_PIECES; i++)
        out->pieces[i] = choice.pieces[i];
    out->lands = choice.lands;
    out->beyond_reach = adjuster->reach > 0 && choice.amount > adjuster->reach;
    hl_amount signed_amount = out->more ? choice.amount : -choice.amount;
    out->has_predicted = hl__predict_reading(t->touch, t->step, signed_amount, &out->predicted);
    return hl__predict_consequences(t->touch, t->step, true, signed_amount, out);
}

/* *skip: this adjuster has nothing to say about the reading.  The table's values are those of the note. */
static bool correct_by(const hl_table *table, const hl_finding *finding, int index, hl_correction *out,
                       bool *skip)
{
    const hl_adjuster *adjuster = &table->book->adjusters[index];
    const hl_prediction touch = hl__predict_also(table, index, finding->note);
    const hl_effect *effect = &touch.effects[finding->step];
    trial t = {.touch = &touch,
               .target = hl__table_target(table, finding->step, finding->note),
               .lean = table->lean[hl__table_place(table, finding->step, finding->note)],
               .exact = hl__table_exact(table, finding->step, finding->note),
               .step = finding->step,
               .uneven = finding->why == HL_WHY_UNEVEN,
               .even = table->book->steps[finding->step].even};
    /* The way alone may be known: then the hand finds how far. */
    const bool known = effect->kind == HL_EFFECT_BY;
    const double slope = known ? effect->by : effect->kind == HL_EFFECT_STRONG ? effect->sign : 0;
    *skip = slope == 0;
    if (*skip)
        return true;
    bool has_number = finding->has_value && !finding->go;
    double raw =
        has_number ? (find_goal(&t) - t.exact) / slope : (finding->why == HL_WHY_LOW ? 1 : -1) / slope;
    hl_amount wanted = 0;
    *skip = raw == 0;
    if (*skip)
        return true;
    *out = (hl_correction){
        .adjuster = index, .more = raw > 0, .assumed = effect->assumed, .learned = effect->learned};
    t.more = out->more;
    bool sized = adjuster->unit != HL_NO_UNIT && adjuster->unit != HL_NOTCH;
    if (has_number && known && sized && hl__amount_from(fabs(raw), &wanted))
        return compute_amount(&t, adjuster, wanted > 0 ? wanted : 1, out);
    if (adjuster->unit == HL_NOTCH) {
        out->has_amount = true;
        out->amount = find_one_step(adjuster);
    }
    return hl__predict_consequences(&touch, finding->step, false, 0, out);
}

/* Nobody moves a rail for one hammer: what moves all notes is a way out only when most of the notes that
 * were read are out to the same side. */
static bool is_shared(const hl_table *table, const hl_finding *finding)
{
    int read = 0, alike = 0;
    if (finding->note == 0)
        return true;
    /* where at most half of them fail, no side can have most of them */
    if (table->counts[finding->step][HL_FAIL] <= table->counts[finding->step][HL_PASS])
        return false;
    for (int note = 1; note <= table->keys; note++) {
        const hl_meaning *meaning = &hl__meanings[table->states[hl__place(finding->step, note)]];
        if (!meaning->listed || !hl__table_holds(table, finding->step, note))
            continue;
        read += meaning->verdict == HL_PASS || meaning->verdict == HL_FAIL;
        alike += meaning->verdict == HL_FAIL && meaning->why == finding->why;
    }
    return finding->why != HL_WHY_UNEVEN && 2 * alike > read;
}

static bool correct_number(const hl_table *table, hl_finding *finding, hl_correction *room)
{
    const hl_step *step = &table->book->steps[finding->step];
    for (int i = 0; i < step->n_fixes; i++) {
        bool skip = false;
        if (table->book->adjusters[step->fixes[i]].whole && !is_shared(table, finding))
            continue;
        if (!correct_by(table, finding, step->fixes[i], &room[finding->n_corrections], &skip))
            return false;
        finding->n_corrections += skip ? 0 : 1;
    }
    return true;
}

/* A fault word knows its own ways out; how far is for the hand to feel. */
static bool correct_word(const hl_table *table, hl_finding *finding, hl_correction *room)
{
    const hl_word *word = &table->book->steps[finding->step].words[finding->word];
    for (int i = 0; i < word->n_remedies; i++) {
        int index = word->remedies[i].adjuster;
        const hl_adjuster *adjuster = &table->book->adjusters[index];
        const hl_prediction touch = hl__predict_also(table, index, finding->note);
        hl_correction *out = &room[finding->n_corrections++];
        *out = (hl_correction){.adjuster = index, .more = word->remedies[i].more};
        if (adjuster->unit == HL_NOTCH) {
            out->has_amount = true;
            out->amount = find_one_step(adjuster);
        }
        if (!hl__predict_consequences(&touch, finding->step, false, 0, out))
            return false;
    }
    return true;
}

static bool is_clean(const hl_correction *correction)
{
    return correction->lands && correction->n_spoils == 0 && !correction->beyond_reach;
}

/* Those that can be done, land and spoil nothing come first; otherwise the step's own order stays. */
static void order_corrections(const hl_correction *from, int n, hl_correction *out)
{
    int at = 0;
    for (int clean = 1; clean >= 0; clean--)
        for (int i = 0; i < n; i++)
            if (is_clean(&from[i]) == (clean == 1))
                out[at++] = from[i];
}

const char *hl_finding_todo(const hl_book *book, const hl_finding *finding)
{
    if (finding->step < 0)
        return "";
    const hl_step *step = &book->steps[finding->step];
    if (finding->word >= 0)
        return step->words[finding->word].todo;
    return finding->why == HL_WHY_LOW ? step->low_todo : finding->why == HL_WHY_HIGH ? step->high_todo : "";
}

bool hl__correct(const hl_table *table, hl_finding *finding)
{
    if (finding->verdict != HL_FAIL || finding->step < 0)
        return true;
    const hl_step *step = &table->book->steps[finding->step];
    bool word = finding->why == HL_WHY_WORD;
    if (!word && hl_finding_todo(table->book, finding)[0])
        return true; /* the book says that side in words, instead of an adjuster */
    int most = word ? step->words[finding->word].n_remedies : step->n_fixes;
    if (most == 0)
        return true;
    hl_correction *room = hl__arena_array(table->arena, (size_t)most, sizeof *room);
    if (!room)
        return false;
    hl__table_values(table, finding->note, table->note_values);
    if (!(word ? correct_word(table, finding, room) : correct_number(table, finding, room)))
        return false;
    finding->corrections = room;
    if (finding->n_corrections < 2)
        return true;
    hl_correction *ordered = hl__arena_array(table->arena, (size_t)finding->n_corrections, sizeof *ordered);
    if (!ordered)
        return false;
    order_corrections(room, finding->n_corrections, ordered);
    finding->corrections = ordered;
    return true;
}
