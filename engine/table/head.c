/* head.c - what all sheets with the same facts have in common (layer: table). */
#include "head.h"

#include "form.h"
#include "formula.h"
#include "table.h"
#include "tolerance_float.h"

#include <math.h>
#include <string.h>

/* ---- what is asked for ------------------------------------------------------------------------------ */

/* Must there be a reading at this very note?  (One for each section is asked for elsewhere.) */
static bool is_required(const hl_head *head, const hl_step *step, int note)
{
    if (step->kind == HL_DERIVED || step->need == HL_NEED_OPTIONAL || step->scope == HL_SECTIONS)
        return false;
    return step->scope == HL_ONCE || step->need == HL_NEED_EVERY || hl__sheet_is_sample(head->sheet, note);
}

/* Samples are naturals unless the sheet says otherwise, so a step of the sharps may have no sample note at
 * all.  It is then asked once a section: no reading, no pass. */
static bool asks_sections(const hl_head *head, const hl_step *step)
{
    if (step->kind == HL_DERIVED || step->need == HL_NEED_OPTIONAL || step->scope == HL_ONCE)
        return false;
    if (step->scope == HL_SECTIONS)
        return true;
    for (int note = 1; note <= head->keys; note++)
        if (hl__sheet_applies(head->sheet, step, note) && is_required(head, step, note))
            return false;
    return true;
}

/* Of a sample, only the notes that were drawn are asked for; the instrument always is. */
static hl_state lay_place(hl_head *head, const hl_step *step, int place, int note,
                          const unsigned char *sampled)
{
    if ((step->scope == HL_ONCE) != (note == 0))
        return HL_STATE_SILENT;
    if (!hl__sheet_applies(head->sheet, step, note))
        return HL_STATE_OUT_OF_SCOPE;
    const bool asked = is_required(head, step, note) && (note == 0 || !sampled || sampled[note]);
    head->asked[place] = asked;
    if (step->skipped)
        return asked ? HL_STATE_LEFT_OUT : HL_STATE_SILENT_LEFT_OUT;
    return asked ? HL_STATE_MISSING : HL_STATE_SILENT;
}

static void lay_step(hl_head *head, int index, const unsigned char *sampled)
{
    const hl_step *step = &head->book->steps[index];
    const unsigned char *closed = head->sheet->form->closed;
    int open = 0, asked = 0;
    head->by_section[index] = asks_sections(head, step);
    head->simple[index] = !step->skipped && !head->by_section[index];
    for (int note = 0; note < HL_NOTES; note++) {
        const int place = hl__place(index, note);
        const hl_state state =
            note > head->keys ? HL_STATE_SILENT : lay_place(head, step, place, note, sampled);
        head->states[place] = (unsigned char)state;
        head->counts[index][hl__meanings[state].verdict] += hl__meanings[state].listed;
        if (closed[place] == HL_STATE_CLOSED)
            continue;
        open++;
        asked += head->asked[place];
        head->simple[index] = head->simple[index] && state != HL_STATE_OUT_OF_SCOPE;
    }
    head->simple[index] = head->simple[index] && (asked == 0 || asked == open);
    head->all_asked[index] = asked > 0;
}

static void lay_sections(hl_head *head)
{
    const hl_sheet *sheet = head->sheet;
    for (int note = 1; note <= head->keys; note++)
        if (note == head->keys || hl__sheet_section(sheet, note + 1) != hl__sheet_section(sheet, note))
            head->section_ends[head->n_sections++] = note;
}

/* ---- formulas --------------------------------------------------------------------------------------- */

/* Steps asked once are in another place than their users, and aspects are for conditions. */
static bool is_by_column(const hl_book *book, int step)
{
    const hl_formula *formula = book->steps[step].formula;
    if (!hl__formula_is_plain(formula) || book->steps[step].scope == HL_ONCE)
        return false;
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind == HL_VAR_STEP &&
            (var->aspect != HL_ASPECT_VALUE || book->steps[var->index].scope == HL_ONCE))
            return false;
    }
    return true;
}

static bool is_assumed(const hl_head *head, const hl_formula *formula, int note)
{
    bool assumed = false;
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind == HL_VAR_FACT)
            hl__sheet_value(head->sheet, var->index, note, &assumed);
        else if (head->book->steps[var->index].kind == HL_DERIVED)
            assumed |= head->assumed[hl__place(var->index,
                                               head->book->steps[var->index].scope == HL_ONCE ? 0 : note)];
    }
    return assumed;
}

static void lay_formulas(hl_head *head)
{
    const hl_book *book = head->book;
    for (int k = 0; k < book->n_order; k++) {
        const int step = book->order[k];
        const hl_formula *formula = book->steps[step].formula;
        if (book->steps[step].kind != HL_DERIVED)
            continue;
        head->by_column[step] = is_by_column(book, step);
        for (int i = 0; i < formula->n_vars; i++)
            if (formula->vars[i].kind == HL_VAR_STEP)
                head->in_formula[formula->vars[i].index] = true;
        for (int note = 0; note <= head->keys; note++)
            head->assumed[hl__place(step, note)] = is_assumed(head, formula, note);
    }
    for (int fact = 0; fact < book->n_facts; fact++)
        for (int note = 0; note <= head->keys; note++) {
            bool assumed = false;
            head->facts[hl__place(fact, note)] = hl__sheet_value(head->sheet, fact, note, &assumed);
        }
}

static void lay_sources(hl_head *head)
{
    for (int i = 0; i < head->book->n_steps; i++) {
        const hl_step *step = &head->book->steps[i];
        head->note_masks[i] = step->scope == HL_ONCE ? 0 : -1;
        head->sources[i] = step->kind == HL_JUDGED                           ? HL_FROM_NOTHING
                           : step->kind == HL_DERIVED || head->in_formula[i] ? HL_FROM_EXACT
                                                                             : HL_FROM_READING;
    }
}

/* ---- limits of what is computed --------------------------------------------------------------------- */

#define SIGN (UINT64_C(1) << 63)

/* Doubles in their order as whole numbers. */
static uint64_t rank_of(double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    return bits & SIGN ? ~bits : bits | SIGN;
}

static double double_of(uint64_t rank)
{
    const uint64_t bits = rank & SIGN ? rank & ~SIGN : ~rank;
    double x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

/* Rounding keeps the order, so a limit on what is rounded is one on the double itself: the first one that
 * is rounded to `limit` or more.  Then nothing need be rounded to be judged. */
static double find_first_at(const hl_table *table, int step, hl_amount limit)
{
    uint64_t low = rank_of(-HL_EXACT_FAR), high = rank_of(HL_EXACT_FAR);
    hl_amount rounded = 0;
    if (hl__table_round(table, step, HL_EXACT_FAR, &rounded) && rounded < limit)
        return INFINITY;
    while (low < high) {
        const uint64_t middle = low + (high - low) / 2;
        if (hl__table_round(table, step, double_of(middle), &rounded) && rounded < limit)
            low = middle + 1;
        else
            high = middle;
    }
    return double_of(low);
}

static void lay_limits(hl_head *head, int step)
{
    const hl_table table = {.book = head->book};
    const hl_amount *low = head->sheet->form->low, *high = head->sheet->form->high;
    for (int note = 0; note <= head->keys; note++) {
        const int at = hl__place(step, note);
        if (note > 0 && low[at] == low[at - 1] && high[at] == high[at - 1]) {
            head->least[at] = head->least[at - 1];
            head->most[at] = head->most[at - 1];
            continue;
        }
        head->least[at] = low[at] == INT64_MIN ? -HL_EXACT_FAR : find_first_at(&table, step, low[at]);
        head->most[at] = high[at] == INT64_MAX
                             ? HL_EXACT_FAR
                             : double_of(rank_of(find_first_at(&table, step, high[at] + 1)) - 1);
    }
}

/* ---- neighbours ------------------------------------------------------------------------------------- */

#define BY_SECTION     1
#define ACROSS_COLOURS 2

static int near_index(const hl_step *step)
{
    return (step->breaks ? BY_SECTION : 0) + (step->across_colours ? ACROSS_COLOURS : 0);
}

static bool is_near(const hl_head *head, int note, int other, int index)
{
    const hl_compass compass = head->sheet->compass;
    const bool same_colour =
        hl_pitch_is_sharp(hl_note_pitch(compass, note)) == hl_pitch_is_sharp(hl_note_pitch(compass, other));
    return (same_colour || (index & ACROSS_COLOURS)) &&
           (!(index & BY_SECTION) ||
            hl__sheet_section(head->sheet, note) == hl__sheet_section(head->sheet, other));
}

static bool lay_neighbours(hl_head *head, hl_arena *arena, int index)
{
    head->near[index] = hl__arena_array(arena, HL_NOTES, HL_NOTES);
    for (int note = 1; head->near[index] && note <= head->keys; note++) {
        unsigned char *list = &head->near[index][hl__place(note, 0)];
        for (int away = 1; away < head->keys; away++) {
            if (note - away >= 1 && is_near(head, note, note - away, index))
                *list++ = (unsigned char)(note - away);
            if (note + away <= head->keys && is_near(head, note, note + away, index))
                *list++ = (unsigned char)(note + away);
        }
    }
    return head->near[index] != NULL;
}

const unsigned char *hl__head_near(const hl_head *head, const hl_step *step, int note)
{
    return head->near[near_index(step)] + hl__place(note, 0);
}

/* ---- all of it -------------------------------------------------------------------------------------- */

static bool take_memory(hl_head *head, hl_arena *arena)
{
    const size_t steps = (size_t)head->book->n_steps + 1, places = steps * HL_NOTES;
    head->states = hl__arena_array(arena, places, 1);
    head->asked = hl__arena_array(arena, places, 1);
    head->counts = hl__arena_array(arena, steps, sizeof *head->counts);
    head->by_section = hl__arena_array(arena, steps, sizeof *head->by_section);
    head->simple = hl__arena_array(arena, steps, sizeof *head->simple);
    head->all_asked = hl__arena_array(arena, steps, sizeof *head->all_asked);
    head->small = hl__arena_array(arena, steps, sizeof *head->small);
    head->in_formula = hl__arena_array(arena, steps, sizeof *head->in_formula);
    head->sources = hl__arena_array(arena, steps, 1);
    head->note_masks = hl__arena_array(arena, steps, sizeof *head->note_masks);
    head->by_column = hl__arena_array(arena, steps, sizeof *head->by_column);
    head->least = hl__arena_array(arena, places, sizeof *head->least);
    head->most = hl__arena_array(arena, places, sizeof *head->most);
    head->assumed = hl__arena_array(arena, places, sizeof *head->assumed);
    head->facts = hl__arena_array(arena, ((size_t)head->book->n_facts + 1) * HL_NOTES, sizeof *head->facts);
    head->once = hl__arena_array(arena, steps, sizeof *head->once);
    head->maskers = hl__arena_array(arena, steps, sizeof *head->maskers);
    head->masked = hl__arena_array(arena, steps, sizeof *head->masked);
    return head->states && head->asked && head->counts && head->by_section && head->simple &&
           head->all_asked && head->small && head->in_formula && head->sources && head->note_masks &&
           head->by_column && head->least && head->most && head->assumed && head->facts && head->once &&
           head->maskers && head->masked;
}

/* Three decimals below a tenth, on a rule that reads coarser than hundredths, are an inch's; such a number
 * can pass only where the limits lie about zero. */
static void lay_small(hl_head *head)
{
    const hl_form *form = head->sheet->form;
    for (int step = 0; step < head->book->n_steps; step++) {
        const hl_step *s = &head->book->steps[step];
        for (int note = 1;
             note <= head->keys && s->kind == HL_MEASURED && s->unit == HL_MM && s->resolution > HL_ONE / 100;
             note++)
            head->small[step] = head->small[step] || (form->low[hl__place(step, note)] < HL_ONE / 10 &&
                                                      form->high[hl__place(step, note)] > -HL_ONE / 10);
    }
}

hl_head *hl__head_new(hl_arena *arena, const hl_sheet *sheet, const unsigned char *sampled)
{
    const hl_book *book = sheet->book;
    hl_head *head = hl__arena_take(arena, sizeof *head);
    if (!head)
        return NULL;
    *head = (hl_head){.book = book, .sheet = sheet, .keys = sheet->compass.keys};
    head->model = book->floats.within > 0 ? hl__float_model(book) : -1;
    if (!take_memory(head, arena))
        return NULL;
    lay_small(head);
    lay_sections(head);
    for (int i = 0; i < book->n_steps; i++) {
        const hl_step *step = &book->steps[i];
        lay_step(head, i, sampled);
        if (step->scope == HL_ONCE)
            head->once[head->n_once++] = i;
        if (step->n_masks > 0)
            head->maskers[head->n_maskers++] = i;
        for (int k = 0; k < step->n_masks; k++)
            head->masked[step->masks[k]] = true;
        if (!head->near[near_index(step)] && !lay_neighbours(head, arena, near_index(step)))
            return NULL;
        if (step->kind == HL_DERIVED)
            lay_limits(head, i);
    }
    lay_formulas(head);
    lay_sources(head);
    return head;
}
