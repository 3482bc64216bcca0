/* plan_rest.c - what is carried along from the audit, and the parts that the plan uses up (layer:
 * advise/plan). */
#include "plan.h"

/* ---- work without a number, or not of one note ------------------------------------------- */

/* The audit's first way out that may be used today. */
static const hl_correction *find_correction(const hl_planner *planner, const hl_finding *finding,
                                            bool only_whole)
{
    for (int i = 0; i < finding->n_corrections; i++) {
        int a = finding->corrections[i].adjuster;
        if (!planner->plan->left_out[a] && (!only_whole || planner->book->adjusters[a].whole))
            return &finding->corrections[i];
    }
    return NULL;
}

static int find_feel(const hl_planner *planner, const hl_step *step)
{
    for (int i = 0; i < step->n_fixes; i++) {
        int a = step->fixes[i];
        if (!planner->moves[a].list && !planner->book->adjusters[a].whole && !planner->plan->left_out[a])
            return a;
    }
    return -1;
}

static bool is_unmet(const hl_plan_note *note, int step)
{
    for (int i = 0; i < note->n_unmet; i++)
        if (note->unmet[i].step == step)
            return true;
    return false;
}

static bool carry_word(const hl_planner *planner, const hl_finding *finding, hl_chore *out)
{
    out->correction = find_correction(planner, finding, false);
    out->adjuster = out->correction ? out->correction->adjuster : -1;
    return out->correction || finding->n_corrections == 0 ? out->correction || out->todo[0] : false;
}

/* A number is carried when the plan left it as it is: by feel, or by what moves the whole instrument. */
static bool carry_number(const hl_planner *planner, const hl_finding *finding, hl_chore *out)
{
    const hl_step *step = &planner->book->steps[finding->step];
    if (out->todo[0])
        return true;
    bool alone = finding->go || finding->note == 0;
    bool left = hl__table_at(&planner->table, finding->step, finding->note).verdict == HL_FAIL;
    if (finding->note > 0 && is_unmet(&planner->notes[finding->note], finding->step)) {
        out->correction = find_correction(planner, finding, true);
        out->adjuster = out->correction ? out->correction->adjuster : -1;
        return out->correction != NULL;
    }
    if (!left)
        return false;
    if (alone)
        out->correction = find_correction(planner, finding, false);
    int feel = find_feel(planner, step);
    for (int i = 0; i < finding->n_corrections && !out->correction; i++)
        if (finding->corrections[i].adjuster == feel)
            out->correction = &finding->corrections[i];
    out->adjuster = out->correction ? out->correction->adjuster : feel;
    return out->adjuster >= 0;
}

static bool carry(const hl_planner *planner, const hl_finding *finding, hl_chore *out)
{
    *out = (hl_chore){.step = finding->step, .note = finding->note, .word = -1, .adjuster = -1};
    out->todo = hl_finding_todo(planner->book, finding);
    if (finding->verdict != HL_FAIL || finding->step < 0 ||
        hl__judge_mask(&planner->audit->table, finding->step, finding->note) >= 0)
        return false;
    const hl_step *step = &planner->book->steps[finding->step];
    out->first = step->kind == HL_JUDGED && step->n_masks > 0;
    if (finding->word < 0)
        return carry_number(planner, finding, out);
    out->word = finding->word;
    return carry_word(planner, finding, out);
}

bool hl__plan_carry(hl_planner *planner)
{
    hl_plan *plan = planner->plan;
    plan->chores = hl__arena_array(&plan->arena, planner->audit->findings.n + 1, sizeof *plan->chores);
    if (!plan->chores)
        return false;
    for (size_t i = 0; i < planner->audit->findings.n; i++)
        if (carry(planner, &planner->audit->findings.items[i], &plan->chores[plan->n_chores]))
            plan->n_chores++;
    return true;
}

/* ---- parts ------------------------------------------------------------------------------- */

static void count_piece(hl_plan *plan, int adjuster, hl_amount size, bool sharps)
{
    int at = 0;
    for (; at < plan->n_parts; at++) {
        hl_part *part = &plan->parts[at];
        if (part->adjuster == adjuster && part->size == size && part->sharps == sharps) {
            part->count++;
            return;
        }
        bool later = part->adjuster != adjuster ? part->adjuster > adjuster
                     : part->sharps != sharps   ? part->sharps
                                                : part->size > size;
        if (later)
            break;
    }
    for (int i = plan->n_parts++; i > at; i--)
        plan->parts[i] = plan->parts[i - 1];
    plan->parts[at] = (hl_part){adjuster, size, sharps, 1};
}

/* Grams at the key front become leads of the box: as many and where is the leads' own reckoning. */
static void count_leads(const hl_planner *planner, int note, const hl_correction *adjustment, bool sharp)
{
    int lead = hl_book_find_adjuster(planner->book, "lead");
    hl_leads leads;
    hl_err ignored;
    if (lead < 0 || planner->book->adjusters[lead].n_sizes == 0 ||
        hl_leads_for_note(&leads, planner->audit, note, NULL, &ignored) != HL_OK || !leads.has_mean)
        return;
    const hl_leads_ask ask = {.has_target = true, .target = leads.mean - adjustment->amount};
    if (hl_leads_for_note(&leads, planner->audit, note, &ask, &ignored) != HL_OK || leads.remove)
        return;
    for (int i = 0; i < leads.n_leads; i++)
        count_piece(planner->plan, lead, leads.leads[i].mass, sharp);
}

static size_t count_sizes(const hl_book *book)
{
    size_t n = 1;
    for (int a = 0; a < book->n_adjusters; a++)
        n += 2 * (size_t)book->adjusters[a].n_sizes;
    return n;
}

/* Does one more of it weigh the key's front?  Then its grams are to be cast in lead. */
static bool is_weight(const hl_planner *planner, int adjuster)
{
    int front = hl_book_find_step(planner->book, "key_front_load");
    const hl_adjuster *a = &planner->book->adjusters[adjuster];
    for (int i = 0; a->unit == HL_G && i < a->n_moves; i++)
        if (a->moves[i].step == front && a->moves[i].kind == HL_MOVE_BY)
            return true;
    return false;
}

bool hl__plan_count_parts(hl_planner *planner)
{
    hl_plan *plan = planner->plan;
    plan->parts = hl__arena_array(&plan->arena, count_sizes(planner->book), sizeof *plan->parts);
    if (!plan->parts)
        return false;
    for (int note = 1; note <= planner->table.keys; note++) {
        const hl_plan_note *of = &planner->notes[note];
        bool sharp = hl_pitch_is_sharp(hl_note_pitch(planner->sheet->compass, note));
        for (int i = 0; i < of->n_adjustments; i++) {
            const hl_correction *one = &of->adjustments[i];
            for (int k = 0; one->more && k < HL_PIECES && one->pieces[k] != 0; k++)
                count_piece(plan, one->adjuster, one->pieces[k], sharp);
            if (one->more && one->pieces[0] == 0 && is_weight(planner, one->adjuster))
                count_leads(planner, note, one, sharp);
        }
    }
    return true;
}
