/* plan.c - the moves that put a whole sheet right: options, rounds over the compass (layer: advise/plan).
 *
 * Notes are solved one after another, each exactly, against its neighbours as those will stand.  A
 * note whose neighbours have moved since is solved again, until nothing changes. */
#include "plan.h"

#include "ascii.h"
#include "errors.h"
#include "nearest_name.h"

#include <stdlib.h>
#include <string.h>

#define ROUNDS 6 /* over the compass; what has not settled by then is told of */

/* ---- options ----------------------------------------------------------------------------- */

static hl_code leave_out(hl_planner *planner, const char *id, hl_err *err)
{
    int found = hl_book_find_adjuster(planner->book, id);
    hl_suggest suggest = {id, NULL, 0};
    if (found >= 0) {
        planner->plan->left_out[found] = true;
        return HL_OK;
    }
    for (int i = 0; i < planner->book->n_adjusters; i++)
        hl__suggest_offer(&suggest, planner->book->adjusters[i].id);
    hl__fail(err, HL_E_USAGE, "the book '%s' has no adjuster '%s'", planner->book->id, id);
    if (suggest.best)
        return hl__todo(err, "did you mean '%s'?", suggest.best);
    return hl__todo(err, "name an adjuster of the book, such as %s",
                    planner->book->n_adjusters > 0 ? planner->book->adjusters[0].id : "none");
}

static hl_code draw_line(hl_planner *planner, const char *id, hl_err *err)
{
    int found = hl_book_find_step(planner->book, id);
    hl_suggest suggest = {id, NULL, 0};
    if (found >= 0)
        return hl__plan_line(planner, found, err);
    for (int i = 0; i < planner->book->n_steps; i++)
        hl__suggest_offer(&suggest, planner->book->steps[i].id);
    hl__fail(err, HL_E_USAGE, "the book '%s' has no step '%s'", planner->book->id, id);
    if (suggest.best)
        return hl__todo(err, "did you mean '%s'?", suggest.best);
    return hl__todo(err, "\"hammerline rules show %s\" lists its steps", planner->book->id);
}

static hl_code take_options(hl_planner *planner, const hl_plan_options *options, hl_err *err)
{
    hl_plan *plan = planner->plan;
    size_t places = (size_t)planner->book->n_steps * ((size_t)planner->table.keys + 1);
    for (int i = 0; i < options->n_without; i++)
        if (leave_out(planner, options->without[i], err) != HL_OK)
            return err->code;
    plan->reversible = options->reversible;
    for (int a = 0; options->reversible && a < planner->book->n_adjusters; a++)
        if (planner->book->adjusters[a].irreversible)
            plan->left_out[a] = true;
    if (options->n_lines == 0)
        return HL_OK;
    planner->lines = hl__arena_array(&plan->arena, places + 1, sizeof *planner->lines);
    if (!planner->lines)
        return hl__no_memory(err);
    for (int i = 0; i < options->n_lines; i++)
        if (draw_line(planner, options->lines[i], err) != HL_OK)
            return err->code;
    return HL_OK;
}

static bool says(const char *text, const char *word)
{
    for (; *text && *word; text++, word++)
        if (hl__lower(*text) != *word && !(*word == ' ' && (*text == '_' || *text == '-')))
            return false;
    return *text == '\0' && *word == '\0';
}

/* ---- the moves of each adjuster ---------------------------------------------------------- */

static int count_pieces(const hl_solve_move *move)
{
    int n = 0;
    while (n < HL_PIECES && move->pieces[n] != 0)
        n++;
    return n;
}

/* Is there as good a move with fewer pieces?  Felt and punchings blur half of the thinnest. */
static bool is_fussy(const hl_solve_move *moves, int n, int i, hl_amount blur)
{
    for (int way = -1; way <= 1; way += 2)
        for (int k = i + way; k >= 0 && k < n; k += way) {
            hl_amount away = moves[k].amount - moves[i].amount;
            if (2 * (away < 0 ? -away : away) > blur)
                break;
            if (count_pieces(&moves[k]) < count_pieces(&moves[i]) && moves[k].amount != 0)
                return true;
        }
    return false;
}

/* A handful of papers is no finer than two of them: more only where two don't reach. */
static int drop_handfuls(const hl_solve_move *from, int n, const hl_adjuster *adjuster, hl_amount largest,
                         hl_solve_move *out)
{
    int kept = 0;
    for (int i = 0; i < n; i++) {
        hl_amount size = from[i].amount < 0 ? -from[i].amount : from[i].amount;
        if ((count_pieces(&from[i]) <= 2 || size > 2 * largest) && !is_fussy(from, n, i, adjuster->sizes[0]))
            out[kept++] = from[i];
    }
    return kept;
}

static bool list_pieces(hl_planner *planner, const hl_adjuster *adjuster, hl_plan_moves *out)
{
    int most = adjuster->n_sizes < HL_PIECE_SIZES ? adjuster->n_sizes : HL_PIECE_SIZES;
    const hl_solve_move *all = hl__moves_by_sizes(&planner->plan->arena, adjuster->sizes, most, HL_PIECES,
                                                  adjuster->reach, HL_WAYS_BOTH, &out->n);
    if (!all)
        return false;
    hl_solve_move *own = hl__arena_array(&planner->plan->arena, (size_t)out->n, sizeof *own);
    if (!own)
        return false;
    out->n = drop_handfuls(all, out->n, adjuster, adjuster->sizes[most - 1], own);
    out->list = own;
    return true;
}

/* Not of what moves the whole instrument, nor of what is done by feel. */
static bool list_moves(hl_planner *planner)
{
    const hl_book *book = planner->book;
    hl_arena *arena = &planner->plan->arena;
    planner->moves = hl__arena_array(arena, (size_t)book->n_adjusters + 1, sizeof *planner->moves);
    for (int a = 0; planner->moves && a < book->n_adjusters; a++) {
        const hl_adjuster *adjuster = &book->adjusters[a];
        hl_plan_moves *out = &planner->moves[a];
        if (adjuster->whole || adjuster->unit == HL_NO_UNIT || adjuster->unit == HL_NOTCH)
            continue;
        if (adjuster->n_sizes > 0) {
            if (!list_pieces(planner, adjuster, out))
                return false;
        } else if (adjuster->finest > 0 && adjuster->finest <= HL_SOLVE_MOST_READ) {
            out->list = hl__moves_by_finest(arena, adjuster->finest, adjuster->reach, HL_WAYS_BOTH, &out->n);
            if (!out->list)
                return false;
        }
    }
    return planner->moves != NULL;
}

/* ---- rounds ------------------------------------------------------------------------------ */

static bool fails_now(const hl_planner *planner, int note)
{
    for (int step = 0; step < planner->book->n_steps; step++) {
        const hl_standing s = hl__table_at(&planner->table, step, note);
        if (hl__table_holds(&planner->table, step, note) && s.has_value && !s.go && s.verdict == HL_FAIL)
            return true;
    }
    return false;
}

static bool plan_notes(hl_planner *planner)
{
    bool changed = true;
    for (int round = 0; changed && round < ROUNDS; round++) {
        planner->alone = round == 0;
        changed = planner->alone;
        hl__plan_rejudge(planner);
        for (int note = 1; note <= planner->table.keys; note++) {
            bool moved = false;
            if (round > 0 && !fails_now(planner, note))
                continue;
            if (!hl__plan_note(planner, note, &moved))
                return false;
            changed = changed || moved;
        }
    }
    hl__plan_rejudge(planner);
    return true;
}

/* ---- what is handed out ------------------------------------------------------------------ */

static bool is_assumed(const hl_plan_note *note)
{
    for (int i = 0; i < note->n_adjustments; i++)
        if (note->adjustments[i].assumed)
            return true;
    return false;
}

/* What means nothing before the plan is not foretold. */
static bool waits(const hl_plan_note *note, int step)
{
    for (int i = 0; i < note->n_waiting; i++)
        if (note->waiting[i].step == step)
            return true;
    return false;
}

static bool foresee(hl_planner *planner, hl_plan_note *note)
{
    int n_steps = planner->book->n_steps;
    hl_foreseen *list = hl__arena_array(&planner->plan->arena, (size_t)n_steps + 1, sizeof *list);
    for (int step = 0; list && step < n_steps; step++) {
        const hl_standing before = hl__table_at(&planner->settled, step, note->note);
        const hl_standing after = hl__table_at(&planner->table, step, note->note);
        if (!hl__table_holds(&planner->table, step, note->note) || before.go || !before.has_value ||
            !after.has_value || before.verdict == HL_NOT_APPLICABLE || before.verdict == HL_MISSING)
            continue;
        if (waits(note, step) || hl__judge_mask(&planner->audit->table, step, note->note) >= 0)
            continue;
        bool moved = before.value != after.value;
        list[note->n_foreseen++] = (hl_foreseen){.step = step,
                                                 .before = before.value,
                                                 .after = after.value,
                                                 .moved = moved,
                                                 .floated = after.floated,
                                                 .assumed = moved && is_assumed(note)};
    }
    note->foreseen = list;
    return list != NULL;
}

static bool has_news(const hl_plan_note *note)
{
    return note->n_adjustments > 0 || note->n_unmet > 0 || note->n_waiting > 0;
}

static bool hand_out(hl_planner *planner)
{
    hl_plan *plan = planner->plan;
    plan->notes = hl__arena_array(&plan->arena, (size_t)planner->table.keys + 1, sizeof *plan->notes);
    if (!plan->notes)
        return false;
    for (int note = 1; note <= planner->table.keys; note++) {
        hl_plan_note *one = &planner->notes[note];
        if (!hl__plan_explain_rest(planner, one))
            return false;
        if (!has_news(one))
            continue;
        if (!foresee(planner, one))
            return false;
        plan->notes[plan->n_notes++] = *one;
    }
    return hl__plan_carry(planner) && hl__plan_count_parts(planner) && hl__plan_list_lines(planner);
}

/* ---- the run ----------------------------------------------------------------------------- */

static bool start(hl_planner *planner)
{
    hl_arena *arena = &planner->plan->arena;
    size_t keys = (size_t)planner->sheet->compass.keys;
    planner->plan->left_out =
        hl__arena_array(arena, (size_t)planner->book->n_adjusters + 1, sizeof *planner->plan->left_out);
    planner->notes = hl__arena_array(arena, keys + 1, sizeof *planner->notes);
    for (size_t note = 0; planner->notes && note <= keys; note++)
        planner->notes[note] = (hl_plan_note){.note = (int)note, .proven = true};
    return planner->plan->left_out && planner->notes && hl__plan_settle(planner) && list_moves(planner);
}

static hl_code run(hl_planner *planner, const hl_plan_options *options, hl_err *err)
{
    hl_plan *plan = planner->plan;
    if (!start(planner))
        return hl__no_memory(err);
    if (options && take_options(planner, options, err) != HL_OK)
        return err->code;
    plan->inspect_only = says(hl_sheet_fact(planner->sheet, "scope"), "inspect only");
    if (!plan->inspect_only && (!plan_notes(planner) || !hand_out(planner)))
        return hl__no_memory(err);
    bool off = false;
    for (int i = 0; i < plan->n_lines; i++)
        off = off || !plan->lines[i].read;
    plan->idle = planner->audit->ready && plan->n_notes == 0 && plan->n_chores == 0 && !off;
    return HL_OK;
}

hl_code hl_plan_run(hl_plan **out, const hl_audit *audit, const hl_plan_options *options, hl_err *err)
{
    *out = NULL;
    hl_plan *plan = calloc(1, sizeof *plan);
    if (!plan)
        return hl__no_memory(err);
    plan->audit = audit;
    hl_planner planner = {.plan = plan, .audit = audit, .book = audit->book, .sheet = audit->sheet};
    hl_code code = run(&planner, options, err);
    hl__arena_free(&planner.scratch);
    if (code != HL_OK) {
        hl_plan_free(plan);
        return code;
    }
    *out = plan;
    return HL_OK;
}

void hl_plan_free(hl_plan *plan)
{
    if (!plan)
        return;
    hl__arena_free(&plan->arena);
    free(plan);
}
