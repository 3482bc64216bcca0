/* book_page.c - a book for people: its steps in order, its adjusters, facts and diagnoses
 * (layer: render/text). */
#include "leaf.h"
#include "sentence.h"

#include <string.h>

#define COLUMN 24 /* where a line's text begins, behind its id */
#define INDENT 2

/* The file's name without folder and ".lua". */
static void add_stem(hl_text *out, const char *path)
{
    const char *slash = strrchr(path, '/');
    const char *base = slash ? slash + 1 : path;
    hl_text stem = {0};
    const size_t size = strlen(base);
    hl__text_add_n(&stem, base, size > 4 && strcmp(base + size - 4, ".lua") == 0 ? size - 4 : size);
    hl__text_safe(out, stem.data ? stem.data : "");
    out->failed |= stem.failed;
    hl__text_free(&stem);
}

static void add_blanks_to(hl_text *out, int column)
{
    const int here = out->data ? hl__text_width(out->data) : 0;
    hl__text_spaces(out, here < column ? column - here : 2);
}

hl_code hl_book_line(char **out, size_t *size, const char *path, const hl_book *book, const hl_err *broken,
                     hl_err *err)
{
    hl_text line = {0};
    char *text = NULL;
    size_t n = 0;
    *out = NULL;
    if (book) {
        hl__text_safe(&line, book->id);
        add_blanks_to(&line, 18);
        hl__text_safe(&line, book->title);
        add_blanks_to(&line, 50);
        hl__text_safe(&line, path);
        hl__text_char(&line, '\n');
        return hl__text_take(&line, out, size, err);
    }
    add_stem(&line, path);
    add_blanks_to(&line, 18);
    hl__text_add(&line, "BROKEN: ");
    if (hl_err_text(&text, &n, broken) != HL_OK)
        line.failed = true;
    else
        hl__text_add_n(&line, text, n);
    hl_free(text);
    return hl__text_take(&line, out, size, err);
}

/* ---- the lines of a book ----------------------------------------------------------------------- */

static void add_heading(hl_leaf *leaf, const char *title, const char *caution)
{
    hl_text line = {0};
    hl__text_char(leaf->out, '\n');
    hl__text_add(&line, "== ");
    hl__text_safe(&line, title);
    hl__text_add(&line, " ==");
    hl__leaf_add(leaf, &line, 0, 3);
    if (caution[0]) {
        hl__text_add(&line, "Careful: ");
        hl__text_safe(&line, caution);
        hl__leaf_add(leaf, &line, 0, INDENT);
    }
}

static void start_line(hl_text *line, const char *id)
{
    hl__text_safe(line, id);
    hl__leaf_column(line, COLUMN - INDENT);
}

static void add_words(hl_text *line, const hl_step *step)
{
    hl__text_add(line, "ok");
    for (int i = 0; i < step->n_words; i++) {
        hl__text_add(line, ", ");
        hl__text_safe(line, step->words[i].word);
    }
}

static void add_step_line(hl_leaf *leaf, const hl_step *step)
{
    hl_text line = {0};
    start_line(&line, step->id);
    hl__say_asked(&line, step);
    hl__text_add(&line, step->kind == HL_JUDGED && !step->skipped ? ", judged: " : ": ");
    if (step->skipped)
        hl__text_safe(&line, step->skipped);
    else if (step->kind == HL_JUDGED)
        add_words(&line, step);
    else
        hl__say_targets(&line, leaf->book, step);
    hl__leaf_add(leaf, &line, INDENT, COLUMN);
}

static void add_head(hl_leaf *leaf)
{
    const hl_book *book = leaf->book;
    hl_text line = {0};
    hl__text_safe(&line, book->title);
    hl__text_printf(&line, " (book %s): %d steps, ", book->id, book->n_steps);
    hl__text_add(&line, hl_pitch_name(book->compass.lowest));
    hl__text_printf(&line, " to %s.", hl_pitch_name(hl_note_pitch(book->compass, book->compass.keys)));
    hl__leaf_add(leaf, &line, 0, INDENT);
    if (book->about && book->about[0]) {
        hl__text_safe(&line, book->about);
        hl__leaf_add(leaf, &line, 0, INDENT);
    }
    hl__leaf_choices(leaf);
    if (book->floats.step < 0)
        return;
    const hl_step *gives = &book->steps[book->floats.step];
    hl__text_safe(&line, gives->title);
    hl__text_add(&line, " may give way, by ");
    hl__say_amount(&line, book->floats.within, gives->unit, 0);
    hl__text_char(&line, '.');
    hl__say_place(&line, book->floats.origin);
    hl__leaf_add(leaf, &line, 0, INDENT);
}

static void add_adjusters(hl_leaf *leaf)
{
    hl_text line = {0};
    if (leaf->book->n_adjusters > 0)
        add_heading(leaf, "Adjusters", "");
    for (int i = 0; i < leaf->book->n_adjusters; i++) {
        const hl_adjuster *adjuster = &leaf->book->adjusters[i];
        start_line(&line, adjuster->id);
        hl__text_safe(&line, adjuster->title);
        hl__text_add(&line, ": ");
        hl__text_safe(&line, adjuster->more);
        hl__text_add(&line, " or ");
        hl__text_safe(&line, adjuster->less);
        hl__leaf_add(leaf, &line, INDENT, COLUMN);
    }
}

static void add_facts(hl_leaf *leaf)
{
    hl_text line = {0};
    if (leaf->book->n_facts > 0)
        add_heading(leaf, "Facts", "");
    for (int i = 0; i < leaf->book->n_facts; i++) {
        const hl_fact *fact = &leaf->book->facts[i];
        hl__say_fact(&line, fact);
        hl__text_add(&line, fact->assumed && fact->has_value ? ", assumed: " : ": ");
        hl__text_safe(&line, fact->title);
        hl__say_place(&line, fact->origin);
        hl__leaf_add(leaf, &line, INDENT, 2 * INDENT);
    }
}

static void add_diagnoses(hl_leaf *leaf)
{
    hl_text line = {0};
    if (leaf->book->n_diagnoses > 0)
        add_heading(leaf, "Diagnoses", "");
    for (int i = 0; i < leaf->book->n_diagnoses; i++) {
        const hl_diagnosis *diagnosis = &leaf->book->diagnoses[i];
        hl__text_safe(&line, diagnosis->id);
        hl__text_add(&line, ": ");
        hl__text_safe(&line, diagnosis->title);
        hl__text_add(&line, ", when ");
        hl__text_safe(&line, diagnosis->when->text);
        hl__say_place(&line, diagnosis->origin);
        hl__leaf_add(leaf, &line, INDENT, 2 * INDENT);
    }
}

hl_code hl_book_text(char **out, size_t *size, const hl_book *book, const hl_print *print, hl_err *err)
{
    hl_text page = {0};
    hl_leaf leaf = hl__leaf_start(&page, book, print);
    *out = NULL;
    add_head(&leaf);
    for (int stage = 0; stage < book->n_stages; stage++) {
        add_heading(&leaf, book->stages[stage].title, book->stages[stage].caution);
        for (int i = 0; i < book->n_steps; i++)
            if (book->steps[i].stage == stage)
                add_step_line(&leaf, &book->steps[i]);
    }
    add_adjusters(&leaf);
    add_facts(&leaf);
    add_diagnoses(&leaf);
    return hl__text_take(&page, out, size, err);
}
