/* page_assumed.c - explains "about" once, with the facts behind it (layer: render/text). */
#include "page.h"

#include "number.h"
#include "sentence.h"
#include "wrap.h"

#include <stdlib.h>
#include <string.h>

/* What the marks on this page rest on. */
typedef struct grounds {
    bool *facts;     /* [n_facts] assumed facts that took part */
    bool *adjusters; /* [n_adjusters] whose moves are themselves assumed */
    bool any;
} grounds;

#define DEEPEST     8 /* derived steps of derived steps */
#define INDENT      4
#define LEAST_TITLE 20 /* columns that a title needs to stand beside its line */

static void add_formula(const hl_page *page, grounds *on, const hl_formula *formula)
{
    for (int i = 0; formula && i < formula->n_vars; i++) {
        const hl_var *var = &formula->vars[i];
        if (var->kind != HL_VAR_FACT)
            continue;
        const bool *assumed = page->audit->sheet->assumed[var->index];
        if (assumed[0] || assumed[1]) {
            on->facts[var->index] = true;
            on->any = true;
        }
    }
}

/* Grounds of what an adjuster does to a step: its own move, or those onto the steps of its formula. */
static void add_move(const hl_page *page, grounds *on, int adjuster, int step, int depth)
{
    const hl_book *book = page->audit->book;
    const hl_adjuster *mover = &book->adjusters[adjuster];
    for (int i = 0; i < mover->n_moves; i++) {
        const hl_move *move = &mover->moves[i];
        if (move->step != step || move->kind != HL_MOVE_BY)
            continue;
        add_formula(page, on, move->formula);
        if (move->assumed || mover->assumed) {
            on->adjusters[adjuster] = true;
            on->any = true;
        }
    }
    const hl_formula *formula = book->steps[step].formula;
    if (!formula || depth >= DEEPEST)
        return;
    add_formula(page, on, formula);
    for (int i = 0; i < formula->n_vars; i++)
        if (formula->vars[i].kind == HL_VAR_STEP)
            add_move(page, on, adjuster, formula->vars[i].index, depth + 1);
}

static void find_grounds(const hl_page *page, grounds *on)
{
    const hl_audit *audit = page->audit;
    for (size_t i = 0; i < audit->findings.n; i++) {
        const hl_finding *finding = &audit->findings.items[i];
        if (finding->step < 0 || finding->verdict == HL_PASS || finding->verdict == HL_NOT_APPLICABLE)
            continue;
        if (finding->computed && finding->assumed)
            add_formula(page, on, audit->book->steps[finding->step].formula);
        if (finding->n_corrections > 0 && finding->corrections[0].assumed &&
            finding->corrections[0].has_amount)
            add_move(page, on, finding->corrections[0].adjuster, finding->step, 0);
    }
}

/* "# key_back sharps: 204 mm", as a sheet takes it. */
static void add_fact(hl_text *out, const hl_fact *fact, const char *colour, double value)
{
    hl__text_add(out, "# ");
    hl__text_safe(out, fact->id);
    hl__text_add(out, colour);
    hl__text_add(out, ": ");
    hl__text_double(out, value);
    if (fact->unit[0] && strcmp(fact->unit, "ratio") != 0) {
        hl__text_char(out, ' ');
        hl__text_safe(out, fact->unit);
    }
}

/* The assumed values of a fact, one or one a colour; calls `use` for each. */
typedef void fact_user(void *context, const char *line, const char *title);

static void use_fact(const hl_page *page, int index, fact_user *use, void *context)
{
    static const char *const colours[] = {" naturals", " sharps"};
    const hl_fact *fact = &page->audit->book->facts[index];
    const double *values = page->audit->sheet->values[index];
    const bool *assumed = page->audit->sheet->assumed[index];
    const bool split = values[0] != values[1] || assumed[0] != assumed[1];
    const char *title = strcmp(fact->title, fact->id) == 0 ? "" : fact->title;
    for (int colour = 0; colour < (split ? 2 : 1); colour++) {
        hl_text line = {0};
        if (!assumed[colour])
            continue;
        add_fact(&line, fact, split ? colours[colour] : "", values[colour]);
        use(context, line.data ? line.data : "", title);
        title = ""; /* once is enough */
        page->out->failed |= line.failed;
        hl__text_free(&line);
    }
}

static void measure_line(void *context, const char *line, const char *title)
{
    int *width = context;
    const int here = hl__text_width(line);
    (void)title;
    *width = here > *width ? here : *width;
}

typedef struct fact_table {
    hl_page *page;
    int width; /* of the widest line */
} fact_table;

/* The line, then what it is, in a column of its own where there is room. */
static void print_line(void *context, const char *line, const char *title)
{
    const fact_table *table = context;
    const int column = INDENT + table->width + 2;
    const bool wide = column + LEAST_TITLE <= table->page->width;
    hl_text paragraph = {0};
    for (const char *c = line; *c; c++)
        hl__text_char(&paragraph, *c == ' ' ? HL_GLUE : *c);
    if (title[0]) {
        for (int i = hl__text_width(line); wide && i <= table->width; i++)
            hl__text_char(&paragraph, HL_GLUE); /* and the blank before the title */
        hl__text_char(&paragraph, ' ');
        hl__text_safe(&paragraph, title);
    }
    hl__page_add(table->page, &paragraph, HL_INK_PLAIN, INDENT, wide ? column : INDENT + 4);
    hl__text_free(&paragraph);
}

static void print_facts(hl_page *page, const grounds *on)
{
    const hl_book *book = page->audit->book;
    fact_table table = {page, 0};
    hl_text line = {0};
    for (int i = 0; i < book->n_facts; i++)
        if (on->facts[i])
            use_fact(page, i, measure_line, &table.width);
    if (table.width == 0)
        return;
    hl__text_add(&line, "\"About\": the amount rests on the book's figures, which nobody has stated for this "
                        "piano. Measure yours, and write such lines above the column heads of the sheet "
                        "(only what is on the left):");
    hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    for (int i = 0; i < book->n_facts; i++)
        if (on->facts[i])
            use_fact(page, i, print_line, &table);
}

static void print_adjusters(hl_page *page, const grounds *on)
{
    const hl_book *book = page->audit->book;
    hl_text line = {0};
    for (int i = 0; i < book->n_adjusters; i++) {
        if (!on->adjusters[i])
            continue;
        hl__text_add(&line, line.size == 0 ? "How far one move goes is assumed too: " : ", ");
        hl__text_safe(&line, book->adjusters[i].title);
    }
    if (hl__text_any(&line)) {
        hl__text_add(&line, ". Try one note, read it again, and go by what it did.");
        hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    }
    hl__text_free(&line);
}

void hl__page_assumed(hl_page *page)
{
    const hl_book *book = page->audit->book;
    grounds on = {calloc((size_t)book->n_facts + 1, sizeof *on.facts),
                  calloc((size_t)book->n_adjusters + 1, sizeof *on.adjusters), false};
    if (on.facts && on.adjusters) {
        find_grounds(page, &on);
        if (on.any)
            hl__text_char(page->out, '\n');
        print_facts(page, &on);
        print_adjusters(page, &on);
    } else {
        page->out->failed = true;
    }
    free(on.facts);
    free(on.adjusters);
}
