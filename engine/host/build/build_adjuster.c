/* build_adjuster.c - adjusters, their moves, and the ways out that steps name (layer: host/build). */
#include "build.h"

#include "errors.h"

#include <stdlib.h>
#include <string.h>

static int by_amount(const void *a, const void *b)
{
    hl_amount x = *(const hl_amount *)a, y = *(const hl_amount *)b;
    return (x > y) - (x < y);
}

static hl_code build_box(hl_builder *b, const hl_value *list, hl_adjuster *adjuster)
{
    if (list->kind == HL_IS_NOTHING || list->n_list == 0)
        return HL_OK;
    hl_amount *sizes = hl__arena_array(&b->book->arena, (size_t)list->n_list, sizeof *sizes);
    if (sizes == NULL)
        return hl__no_memory(b->err);
    for (int i = 0; i < list->n_list; i++) {
        hl_code code = hl__build_size(b, &list->items[i], adjuster->unit, "sizes", &sizes[i]);
        if (code != HL_OK)
            return code;
    }
    qsort(sizes, (size_t)list->n_list, sizeof *sizes, by_amount);
    adjuster->sizes = sizes;
    adjuster->n_sizes = list->n_list;
    return HL_OK;
}

static hl_code build_amounts(hl_builder *b, const hl_value *v, hl_adjuster *adjuster)
{
    static const int fields[] = {ADJ_FINEST, ADJ_SIZES, ADJ_REACH};
    for (size_t i = 0; adjuster->unit == HL_NO_UNIT && i < sizeof fields / sizeof *fields; i++) {
        if (v[fields[i]].kind != HL_IS_NOTHING)
            return hl__build_fail(b, v[fields[i]].origin, "give it a unit, or leave the amount out",
                                  "adjuster '%s' goes by judgement and has no '%s'", adjuster->id,
                                  hl__word_field(HL_W_ADJUSTER, fields[i])->name);
    }
    hl_code code = hl__build_size(b, &v[ADJ_FINEST], adjuster->unit, "finest", &adjuster->finest);
    if (code == HL_OK)
        code = hl__build_size(b, &v[ADJ_REACH], adjuster->unit, "reach", &adjuster->reach);
    if (code == HL_OK)
        code = build_box(b, &v[ADJ_SIZES], adjuster);
    bool stepless = adjuster->finest == 0 && adjuster->n_sizes == 0;
    if (code == HL_OK && stepless && adjuster->unit == HL_NOTCH)
        adjuster->finest = HL_ONE;
    else if (code == HL_OK && stepless && adjuster->unit != HL_NO_UNIT)
        return hl__build_fail(b, adjuster->origin, "add finest = 1/8, or sizes = { ... }",
                              "adjuster '%s' has an amount but neither 'finest' nor 'sizes'", adjuster->id);
    return code;
}

static hl_code build_adjuster(hl_builder *b, const hl_draft_item *item, hl_adjuster *adjuster)
{
    const hl_value *v = item->values;
    *adjuster = (hl_adjuster){.id = item->id,
                              .title = hl__build_text(&v[ADJ_TITLE]),
                              .verb = hl__build_text(&v[ADJ_VERB]),
                              .more = hl__build_text(&v[ADJ_MORE]),
                              .less = hl__build_text(&v[ADJ_LESS]),
                              .unit = hl__value_unit(&v[ADJ_UNIT]),
                              .whole = v[ADJ_WHOLE].flag,
                              .irreversible = v[ADJ_IRREVERSIBLE].flag,
                              .visit = hl__build_text(&v[ADJ_VISIT]),
                              .assumed = v[ADJ_ASSUMED].flag,
                              .source = hl__build_text(&v[ADJ_SOURCE]),
                              .why = hl__build_text(&v[ADJ_WHY]),
                              .origin = item->origin};
    if (strcmp(adjuster->more, adjuster->less) == 0)
        return hl__build_fail(b, item->latest, "name the two ways apart: \"raise\" and \"lower\"",
                              "adjuster '%s' has the same word for more and less", item->id);
    hl_code code = build_amounts(b, v, adjuster);
    if (code == HL_OK)
        code = hl__build_changes(b, item, &adjuster->changes, &adjuster->n_changes);
    return code;
}

hl_code hl__build_adjusters(hl_builder *b)
{
    const hl_draft_list *list = &b->draft->parts[HL_P_ADJUSTER];
    b->book->adjusters = hl__arena_array(&b->book->arena, list->n + 1, sizeof *b->book->adjusters);
    if (b->book->adjusters == NULL)
        return hl__no_memory(b->err);
    for (size_t i = 0; i < list->n; i++) {
        hl_code code = hl__build_keep(b, build_adjuster(b, list->items[i], &b->book->adjusters[i]));
        if (code != HL_OK)
            return code;
        b->book->n_adjusters++;
    }
    return HL_OK;
}

/* ---- moves ------------------------------------------------------------------------------------- */

/* A number of step units for one adjuster unit, as a formula. */
static hl_code build_number(hl_builder *b, const hl_adjuster *adjuster, const hl_value *by,
                            const hl_step *step, hl_formula **out)
{
    if (by->number == 0)
        return hl__build_fail(b, by->origin, "leave it out, or write false to take an earlier one out",
                              "adjuster '%s' moves '%s' by nothing", adjuster->id, step->id);
    /* Formulas run in mm, g and turns; the number is in the step's unit. */
    double base = by->number * ((double)hl__unit_scale(step->unit) / (double)HL_ONE);
    hl_text text = {0};
    hl__text_double(&text, base);
    char *copy = text.failed || text.data == NULL ? NULL : hl__arena_copy(&b->book->arena, text.data);
    hl__text_free(&text);
    if (copy == NULL)
        return hl__no_memory(b->err);
    return hl__build_formula(b, copy, by->origin, true, out);
}

static hl_code check_move_dims(hl_builder *b, const hl_adjuster *adjuster, const hl_step *step, hl_origin at,
                               hl_formula *formula)
{
    hl_dims s = hl__unit_dims(step->unit), a = hl__unit_dims(adjuster->unit);
    hl_dims must = {(signed char)(s.length - a.length), (signed char)(s.mass - a.mass),
                    (signed char)(s.turn - a.turn), (signed char)(s.angle - a.angle),
                    (signed char)(s.notch - a.notch)};
    if (formula->condition)
        return hl__build_fail(b, at, "a move is a number", "adjuster '%s' moves '%s' by yes or no",
                              adjuster->id, step->id);
    if (formula->n_vars == 0) {
        formula->dims = must; /* a bare number is meant in the step's unit for one of the adjuster's */
        return HL_OK;
    }
    if (hl__dims_equal(formula->dims, must))
        return HL_OK;
    char has[48], name[48];
    return hl__build_fail(b, at, "check the formula for a missing factor",
                          "adjuster '%s' moves '%s' by \"%.80s\", which comes out in %s and must be in %s",
                          adjuster->id, step->id, formula->text, hl__dims_name(formula->dims, has),
                          hl__dims_name(must, name));
}

static hl_code check_movable(hl_builder *b, const hl_adjuster *adjuster, const hl_value *move,
                             const hl_step *step, hl_move_kind kind, bool way)
{
    if (step->formula != NULL || step->kind == HL_DERIVED)
        return hl__build_fail(b, move->origin, "its moves follow from its formula; take this one out",
                              "adjuster '%s' cannot say how it moves '%s'", adjuster->id, step->id);
    if (way && step->kind == HL_JUDGED)
        return hl__build_fail(b, move->origin, "write \"strong\" or \"slight\"",
                              "adjuster '%s' moves '%s' up or down, but that step is judged", adjuster->id,
                              step->id);
    if (kind == HL_MOVE_BY && step->kind == HL_JUDGED)
        return hl__build_fail(b, move->origin, "write \"strong\" or \"slight\"",
                              "adjuster '%s' moves '%s' by an amount, but that step is judged", adjuster->id,
                              step->id);
    if (kind == HL_MOVE_BY && adjuster->unit == HL_NO_UNIT)
        return hl__build_fail(
            b, move->origin, "write \"up\", \"down\", \"strong\" or \"slight\", or give it a unit",
            "adjuster '%s' goes by judgement and cannot move '%s' by an amount", adjuster->id, step->id);
    return HL_OK;
}

static hl_code build_move(hl_builder *b, const hl_adjuster *adjuster, const hl_value *value, int step,
                          hl_move *move)
{
    const hl_value *by = value->kind == HL_IS_TABLE ? &value->entry->values[MOVE_BY] : value;
    const hl_step *moved = &b->book->steps[step];
    *move = (hl_move){.step = step, .assumed = adjuster->assumed, .origin = value->origin};
    if (value->kind == HL_IS_TABLE && value->entry->values[MOVE_ASSUMED].kind == HL_IS_BOOLEAN)
        move->assumed = value->entry->values[MOVE_ASSUMED].flag;
    const bool named =
        by->kind == HL_IS_TEXT && (strcmp(by->text, "up") == 0 || strcmp(by->text, "down") == 0);
    const hl_value *way = named ? by : value->kind == HL_IS_TABLE ? &value->entry->values[MOVE_WAY] : NULL;
    if (way != NULL && way->kind == HL_IS_TEXT)
        move->sign = way->text[0] == 'u' ? 1 : -1;
    if (value->kind == HL_IS_TABLE)
        move->again = value->entry->values[MOVE_AGAIN].flag;
    if (by->kind == HL_IS_TEXT && (named || strcmp(by->text, "strong") == 0))
        move->kind = HL_MOVE_STRONG;
    else if (by->kind == HL_IS_TEXT && strcmp(by->text, "slight") == 0)
        move->kind = HL_MOVE_SLIGHT;
    hl_code code = check_movable(b, adjuster, value, moved, move->kind, move->sign != 0);
    if (code != HL_OK || move->kind != HL_MOVE_BY)
        return code;
    hl_formula *formula;
    code = by->kind == HL_IS_TEXT ? hl__build_formula(b, by->text, by->origin, true, &formula)
                                  : build_number(b, adjuster, by, moved, &formula);
    if (code == HL_OK)
        code = check_move_dims(b, adjuster, moved, by->origin, formula);
    move->formula = formula;
    return code;
}

/* What the last entry was laid over, for rules check.  A move that was wrong and is replaced is nobody's
 * fault, so that is no error. */
static hl_code keep_under(hl_builder *b, const hl_adjuster *adjuster, const hl_value *under, int step)
{
    hl_err unused;
    hl_builder quiet = {b->book, b->draft, &unused};
    hl_overlaid *kept = &b->book->overlaid[b->book->n_overlaid];
    hl_code code = build_move(&quiet, adjuster, under, step, &kept->was);
    if (code == HL_E_MEMORY)
        return hl__no_memory(b->err);
    kept->adjuster = (int)(adjuster - b->book->adjusters);
    b->book->n_overlaid += code == HL_OK;
    return HL_OK;
}

static hl_code make_room(hl_builder *b)
{
    const hl_draft_list *list = &b->draft->parts[HL_P_ADJUSTER];
    size_t n = 0;
    for (size_t i = 0; i < list->n; i++) {
        const hl_value *moves = &list->items[i]->values[ADJ_MOVES];
        for (int k = 0; k < moves->n_items; k++)
            n += moves->items[k].under != NULL;
    }
    b->book->overlaid = hl__arena_array(&b->book->arena, n + 1, sizeof *b->book->overlaid);
    return b->book->overlaid == NULL ? hl__no_memory(b->err) : HL_OK;
}

static bool is_elsewhere(const hl_value *list, const char *id)
{
    for (int i = 0; list->kind == HL_IS_TABLE && i < list->n_list; i++) {
        if (strcmp(list->items[i].text, id) == 0)
            return true;
    }
    return false;
}

static hl_code build_moves_of(hl_builder *b, const hl_value *v, hl_adjuster *adjuster)
{
    const hl_value *list = &v[ADJ_MOVES];
    hl_move *moves = hl__arena_array(&b->book->arena, (size_t)list->n_items + 1, sizeof *moves);
    if (moves == NULL)
        return hl__no_memory(b->err);
    for (int i = 0; i < list->n_items; i++) {
        const hl_value *value = &list->items[i];
        int step = hl_book_find_step(b->book, value->key);
        if (step < 0 && is_elsewhere(&v[ADJ_ELSEWHERE], value->key))
            continue;
        if (step < 0) {
            hl_code unknown =
                hl__build_keep(b, hl__build_unknown(b, value->origin, HL_P_STEP, adjuster->id, value->key));
            if (unknown != HL_OK)
                return unknown;
            continue;
        }
        hl_code code = build_move(b, adjuster, value, step, &moves[adjuster->n_moves]);
        if (code == HL_OK && value->under != NULL)
            code = keep_under(b, adjuster, value->under, step);
        code = hl__build_keep(b, code);
        if (code != HL_OK)
            return code;
        adjuster->n_moves++;
    }
    adjuster->moves = moves;
    return HL_OK;
}

hl_code hl__build_moves(hl_builder *b)
{
    hl_code code = make_room(b);
    for (int i = 0; code == HL_OK && i < b->book->n_adjusters; i++)
        code = build_moves_of(b, b->draft->parts[HL_P_ADJUSTER].items[i]->values, &b->book->adjusters[i]);
    return code;
}
