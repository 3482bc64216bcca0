/* press_book.c - an opened book as C constants (layer: press).
 *
 * Each list is written in place, as a compound literal of its type, so no name need be made up.  The
 * sizes asserted below change when a type gets a member: then it must be written here, too. */
#include "press.h"

#include <inttypes.h>

#if UINTPTR_MAX == UINT64_MAX
_Static_assert(sizeof(hl_step) == 240 && sizeof(hl_target) == 32 && sizeof(hl_word) == 40 &&
                   sizeof(hl_adjuster) == 160 && sizeof(hl_move) == 48 && sizeof(hl_fact) == 88 &&
                   sizeof(hl_diagnosis) == 72 && sizeof(hl_chosen) == 80 && sizeof(hl_formula) == 48 &&
                   sizeof(hl_book) == 288,
               "a type of hammerline.h has changed: write its new member here");
#endif

static void put_amount(FILE *out, const char *name, hl_amount amount)
{
    fprintf(out, ".%s = INT64_C(%" PRId64 "), ", name, amount);
}

static void put_text(FILE *out, const char *name, const char *text)
{
    fprintf(out, ".%s = ", name);
    press_text(out, text);
    fputs(", ", out);
}

static void put_origin(FILE *out, hl_origin origin)
{
    fputs(".origin = {", out);
    press_text(out, origin.file);
    fprintf(out, ", %d}, ", origin.line);
}

void press_text(FILE *out, const char *text)
{
    if (text == NULL) {
        fputs("NULL", out);
        return;
    }
    fputc('"', out);
    for (const unsigned char *c = (const unsigned char *)text; *c != '\0'; c++) {
        const bool plain = *c >= ' ' && *c <= '~' && *c != '"' && *c != '\\' && *c != '?';
        if (plain)
            fputc(*c, out);
        else
            fprintf(out, "\\%03o", *c);
    }
    fputc('"', out);
}

static void put_ints(FILE *out, const char *name, const int *list, int n)
{
    fprintf(out, ".n_%s = %d, ", name, n);
    if (n == 0)
        return;
    fprintf(out, ".%s = (const int[]){", name);
    for (int i = 0; i < n; i++)
        fprintf(out, "%d, ", list[i]);
    fputs("}, ", out);
}

static void put_changes(FILE *out, const hl_change *changes, int n)
{
    fprintf(out, ".n_changes = %d, ", n);
    if (n == 0)
        return;
    fputs(".changes = (const hl_change[]){", out);
    for (int i = 0; i < n; i++) {
        fputc('{', out);
        put_text(out, "field", changes[i].field);
        put_text(out, "why", changes[i].why);
        put_origin(out, changes[i].origin);
        fputs("}, ", out);
    }
    fputs("}, ", out);
}

static void put_dims(FILE *out, hl_dims dims)
{
    fprintf(out, ".dims = {%d, %d, %d, %d, %d}, ", dims.length, dims.mass, dims.turn, dims.angle, dims.notch);
}

static void put_formula(FILE *out, const char *name, const hl_formula *formula)
{
    if (formula == NULL)
        return;
    fprintf(out, ".%s = &(const hl_formula){", name);
    put_text(out, "text", formula->text);
    fprintf(out, ".n_ops = %d, .ops = (const hl_formula_op[]){", formula->n_ops);
    for (int i = 0; i < formula->n_ops; i++)
        fprintf(out, "{%d, %a, %d}, ", formula->ops[i].op, formula->ops[i].number, formula->ops[i].var);
    fputs("}, ", out);
    if (formula->n_vars > 0)
        fprintf(out, ".n_vars = %d, .vars = (const hl_var[]){", formula->n_vars);
    for (int i = 0; i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        fprintf(out, "{.kind = %d, .index = %d, .aspect = %d, ", (int)var->kind, var->index,
                (int)var->aspect);
        put_dims(out, var->dims);
        fputs("}, ", out);
    }
    fputs(formula->n_vars > 0 ? "}, " : "", out);
    put_dims(out, formula->dims);
    fprintf(out, ".literal = %d, .condition = %d}, ", formula->literal, formula->condition);
}

/* ---- steps ----------------------------------------------------------------------------------- */

static void put_words(FILE *out, const hl_step *step)
{
    fprintf(out, ".n_words = %d, ", step->n_words);
    if (step->n_words == 0)
        return;
    fputs(".words = (const hl_word[]){", out);
    for (int i = 0; i < step->n_words; i++) {
        const hl_word *word = &step->words[i];
        fputc('{', out);
        put_text(out, "word", word->word);
        put_text(out, "means", word->means);
        put_text(out, "todo", word->todo);
        fprintf(out, ".n_remedies = %d, ", word->n_remedies);
        if (word->n_remedies > 0)
            fputs(".remedies = (const hl_remedy[]){", out);
        for (int k = 0; k < word->n_remedies; k++)
            fprintf(out, "{%d, %d}, ", word->remedies[k].adjuster, word->remedies[k].more);
        fputs(word->n_remedies > 0 ? "}}, " : "}, ", out);
    }
    fputs("}, ", out);
}

static void put_targets(FILE *out, const hl_target *targets)
{
    fputs("\n    .targets = (const hl_target[]){", out);
    for (int i = 0; i <= HL_PITCHES; i++) {
        const hl_target *t = &targets[i];
        fprintf(out, "{%" PRId64 ", %" PRId64 ", %" PRId64 ", %d, %d}, ", t->low, t->aim, t->high, t->has_low,
                t->has_high);
    }
    fputs("},\n    ", out);
}

static void put_step(FILE *out, const hl_step *step)
{
    fputs("  {", out);
    put_text(out, "id", step->id);
    put_text(out, "title", step->title);
    put_text(out, "plain", step->plain);
    fprintf(out, ".stage = %d, .unit = %d, .kind = %d, .need = %d, .scope = %d, ", step->stage,
            (int)step->unit, (int)step->kind, (int)step->need, (int)step->scope);
    put_amount(out, "resolution", step->resolution);
    put_amount(out, "gauge", step->gauge);
    put_amount(out, "even", step->even);
    fprintf(out, ".breaks = %d, .unsourced = %d, ", step->breaks, step->unsourced);
    put_text(out, "ask", step->ask);
    put_text(out, "why", step->why);
    put_text(out, "source", step->source);
    put_text(out, "caution", step->caution);
    put_text(out, "method", step->method);
    put_text(out, "gauge_name", step->gauge_name);
    put_words(out, step);
    put_formula(out, "formula", step->formula);
    put_ints(out, "fixes", step->fixes, step->n_fixes);
    put_ints(out, "masks", step->masks, step->n_masks);
    put_text(out, "skipped", step->skipped);
    put_targets(out, step->targets);
    put_changes(out, step->changes, step->n_changes);
    put_origin(out, step->origin);
    fputs("},\n", out);
}

/* ---- adjusters, facts ------------------------------------------------------------------------- */

static void put_moves(FILE *out, const hl_adjuster *adjuster)
{
    fprintf(out, ".n_moves = %d, ", adjuster->n_moves);
    if (adjuster->n_moves == 0)
        return;
    fputs(".moves = (const hl_move[]){", out);
    for (int i = 0; i < adjuster->n_moves; i++) {
        const hl_move *move = &adjuster->moves[i];
        fprintf(out, "{.step = %d, .kind = %d, .sign = %d, .assumed = %d, ", move->step, (int)move->kind,
                move->sign, move->assumed);
        put_formula(out, "formula", move->formula);
        put_origin(out, move->origin);
        fputs("}, ", out);
    }
    fputs("}, ", out);
}

static void put_sizes(FILE *out, const hl_adjuster *adjuster)
{
    if (adjuster->sizes == NULL)
        return;
    fprintf(out, ".n_sizes = %d, .sizes = (const hl_amount[]){", adjuster->n_sizes);
    for (int i = 0; i < adjuster->n_sizes; i++)
        fprintf(out, "INT64_C(%" PRId64 "), ", adjuster->sizes[i]);
    fputs("}, ", out);
}

static void put_adjuster(FILE *out, const hl_adjuster *adjuster)
{
    fputs("  {", out);
    put_text(out, "id", adjuster->id);
    put_text(out, "title", adjuster->title);
    put_text(out, "verb", adjuster->verb);
    put_text(out, "more", adjuster->more);
    put_text(out, "less", adjuster->less);
    fprintf(out, ".unit = %d, ", (int)adjuster->unit);
    put_amount(out, "finest", adjuster->finest);
    put_sizes(out, adjuster);
    put_amount(out, "reach", adjuster->reach);
    fprintf(out, ".whole = %d, .irreversible = %d, .assumed = %d, ", adjuster->whole, adjuster->irreversible,
            adjuster->assumed);
    put_text(out, "visit", adjuster->visit);
    put_moves(out, adjuster);
    put_text(out, "source", adjuster->source);
    put_text(out, "why", adjuster->why);
    put_changes(out, adjuster->changes, adjuster->n_changes);
    put_origin(out, adjuster->origin);
    fputs("},\n", out);
}

static void put_fact(FILE *out, const hl_fact *fact)
{
    fputs("  {", out);
    put_text(out, "id", fact->id);
    put_text(out, "title", fact->title);
    put_text(out, "unit", fact->unit);
    fprintf(out, ".has_value = %d, .value = {%a, %a}, .assumed = %d, ", fact->has_value, fact->value[0],
            fact->value[1], fact->assumed);
    put_text(out, "source", fact->source);
    put_text(out, "why", fact->why);
    put_origin(out, fact->origin);
    fputs("},\n", out);
}

/* ---- diagnoses, schools, the rest --------------------------------------------------------------- */

static void put_diagnosis(FILE *out, const hl_diagnosis *diagnosis)
{
    fputs("  {", out);
    put_text(out, "id", diagnosis->id);
    put_text(out, "title", diagnosis->title);
    put_formula(out, "when", diagnosis->when);
    fprintf(out, ".n_causes = %d, .causes = (const hl_cause[]){", diagnosis->n_causes);
    for (int i = 0; i < diagnosis->n_causes; i++) {
        fputc('{', out);
        put_text(out, "cause", diagnosis->causes[i].cause);
        put_text(out, "test", diagnosis->causes[i].test);
        put_text(out, "todo", diagnosis->causes[i].todo);
        fputs("}, ", out);
    }
    fprintf(out, "}, .spread = %d, .quiet_by = %d, ", (int)diagnosis->spread, diagnosis->quiet_by);
    put_text(out, "source", diagnosis->source);
    put_origin(out, diagnosis->origin);
    fputs("},\n", out);
}

static void put_choice(FILE *out, const hl_chosen *choice)
{
    fputs("  {", out);
    put_text(out, "id", choice->id);
    put_text(out, "title", choice->title);
    fprintf(out, ".n_options = %d, .option = %d, .uses = %d, .options = (const hl_option[]){",
            choice->n_options, choice->option, choice->uses);
    for (int i = 0; i < choice->n_options; i++) {
        fputc('{', out);
        put_text(out, "name", choice->options[i].name);
        put_text(out, "text", choice->options[i].text);
        fputs("}, ", out);
    }
    fputs("}, ", out);
    put_text(out, "source", choice->source);
    put_changes(out, choice->changes, choice->n_changes);
    put_origin(out, choice->origin);
    fputs("},\n", out);
}

static void put_stage(FILE *out, const hl_stage *stage)
{
    fputs("  {", out);
    put_text(out, "id", stage->id);
    put_text(out, "title", stage->title);
    put_text(out, "caution", stage->caution);
    put_origin(out, stage->origin);
    fputs("},\n", out);
}

static void put_acknowledged(FILE *out, const hl_acknowledged *acknowledged)
{
    fprintf(out, "  {.adjuster = %d, .step = %d, ", acknowledged->adjuster, acknowledged->step);
    put_text(out, "why", acknowledged->why);
    put_origin(out, acknowledged->origin);
    fputs("},\n", out);
}

static void put_head(FILE *out, const hl_book *book)
{
    put_text(out, "id", book->id);
    put_text(out, "title", book->title);
    put_text(out, "about", book->about);
    fprintf(out, ".compass = {%d, %d}, .hash = \"%s\", ", book->compass.lowest, book->compass.keys,
            book->hash);
    put_amount(out, "stale_share", book->stale_share);
    fprintf(out, ".floats = {.step = %d, ", book->floats.step);
    put_amount(out, "within", book->floats.within);
    put_origin(out, book->floats.origin);
    fputs("},\n", out);
}

/* A list of the book: hl_stage *stages, n_stages ...  The book is const, its lists are not typed so. */
#define PUT_LIST(out, book, type, list, put)                                                                 \
    do {                                                                                                     \
        fprintf(out, " .n_" #list " = %d,\n", (book)->n_##list);                                             \
        if ((book)->n_##list > 0)                                                                            \
            fputs(" ." #list " = (" #type " *)(const " #type "[]){\n", out);                                 \
        for (int i = 0; i < (book)->n_##list; i++)                                                           \
            put(out, &(book)->list[i]);                                                                      \
        fputs((book)->n_##list > 0 ? " },\n" : "", out);                                                     \
    } while (0)

static void put_file(FILE *out, const hl_origin *file)
{
    fputs("  {", out);
    press_text(out, file->file);
    fprintf(out, ", %d},\n", file->line);
}

void press_book(FILE *out, const hl_book *book)
{
    fputs("{\n ", out);
    put_head(out, book);
    PUT_LIST(out, book, hl_stage, stages, put_stage);
    PUT_LIST(out, book, hl_step, steps, put_step);
    PUT_LIST(out, book, hl_adjuster, adjusters, put_adjuster);
    PUT_LIST(out, book, hl_fact, facts, put_fact);
    PUT_LIST(out, book, hl_acknowledged, acknowledged, put_acknowledged);
    PUT_LIST(out, book, hl_diagnosis, diagnoses, put_diagnosis);
    PUT_LIST(out, book, hl_chosen, choices, put_choice);
    PUT_LIST(out, book, hl_origin, files, put_file);
    fputs("}", out);
}
