/* sheet_blank.c - an empty wide sheet for a book (layer: render/data).
 *
 * A column for each required step that a person reads, a row for each note, and the row without a
 * note for what is read once.  Lines with '##' are remarks to the reader of sheets. */
#include "book.h"
#include "number.h"
#include "sheet_out.h"
#include "text.h"

#include <math.h>
#include <string.h>

/* Where the lines go.  hl_journal_create() takes them bare and puts them in quotes itself. */
typedef struct top {
    hl_text *out;
    bool bare;
} top;

static void add_line(const top *to, hl_text *line)
{
    if (!to->bare) {
        hl__out_take_line(to->out, ',', line);
        return;
    }
    hl__text_add(to->out, line->data ? line->data : "");
    hl__text_char(to->out, '\n');
    to->out->failed |= line->failed;
    hl__text_free(line);
}

static void add_remark(const top *to, const char *text)
{
    hl_text line = {0};
    hl__text_add(&line, "## ");
    hl__text_safe(&line, text);
    add_line(to, &line);
}

/* ---- the facts ----------------------------------------------------------------------------- */

static bool has_unit(const hl_fact *fact)
{
    return fact->unit[0] && strcmp(fact->unit, "ratio") != 0;
}

/* What it is; and its unit, where no figure shows it. */
static void add_meaning(const top *to, const hl_fact *fact)
{
    hl_text line = {0};
    hl__text_add(&line, "## ");
    hl__text_safe(&line, fact->title[0] ? fact->title : fact->id);
    if (!fact->has_value && has_unit(fact)) {
        hl__text_add(&line, " in ");
        hl__text_safe(&line, fact->unit);
    }
    add_line(to, &line);
}

static void add_figure(const top *to, const hl_fact *fact, const char *colour, double value)
{
    hl_text line = {0};
    hl__text_add(&line, "## ");
    hl__text_safe(&line, fact->id);
    hl__text_add(&line, colour);
    hl__text_add(&line, fact->has_value ? ": " : ":");
    if (fact->has_value && isfinite(value)) {
        hl__text_double(&line, value);
        if (has_unit(fact)) {
            hl__text_char(&line, ' ');
            hl__text_safe(&line, fact->unit);
        }
    }
    add_line(to, &line);
}

static void add_figures(const top *to, const hl_book *book)
{
    if (book->n_facts == 0)
        return;
    add_remark(to, "Corrections are computed from these figures of the book. When you have measured one on");
    add_remark(to, "this piano write yours with one # instead of two:");
    for (int i = 0; i < book->n_facts; i++) {
        const hl_fact *fact = &book->facts[i];
        add_meaning(to, fact);
        if (fact->has_value && fact->value[0] != fact->value[1]) {
            add_figure(to, fact, "_naturals", fact->value[0]);
            add_figure(to, fact, "_sharps", fact->value[1]);
        } else {
            add_figure(to, fact, "", fact->value[0]);
        }
    }
}

static void add_compass(hl_text *out, hl_compass compass)
{
    if (compass.lowest == HL_A0 && compass.keys == 88)
        return;
    hl__text_add(out, "# compass: ");
    hl__text_add(out, hl_pitch_name(hl_note_pitch(compass, 1)));
    hl__text_char(out, '-');
    hl__text_add(out, hl_pitch_name(hl_note_pitch(compass, compass.keys)));
    hl__text_char(out, '\n');
}

static void add_piano(hl_text *out, const hl_book *book)
{
    hl__text_add(out, "# piano:\n# place:\n# date:\n");
    add_compass(out, book->compass);
}

static void add_sections(const top *to)
{
    add_remark(to, "the last note of each section and the notes with dampers:");
    add_remark(to, "breaks: 20 34 52");
    add_remark(to, "dampers: 1-66");
}

static void add_top(hl_text *out, const hl_book *book)
{
    const top to = {.out = out};
    hl__text_add(out, "# book: ");
    hl__text_add(out, book->id);
    hl__text_char(out, '\n');
    add_piano(out, book);
    add_remark(&to,
               "Fill in a row for each note: numbers as read (10.2 or 3/8 in). Where you judge: ok or a");
    add_remark(&to, "fault word. Leave blank what is not measured or does not apply. The row without a note");
    add_remark(&to, "takes what is read once for the whole piano. With one # instead of two you may state");
    add_sections(&to);
    add_figures(&to, book);
}

hl_code hl_sheet_blank_facts(char **out, size_t *size, const hl_book *book, hl_err *err)
{
    hl_text text = {0};
    const top to = {.out = &text, .bare = true};
    *out = NULL;
    add_piano(&text, book);
    add_remark(&to, "A row a reading in the order of time: the latest one counts. The row of what is read");
    add_remark(&to, "once for the whole piano has no note. With one # instead of two you may state");
    add_sections(&to);
    add_figures(&to, book);
    return hl__text_take(&text, out, size, err);
}

/* ---- the columns --------------------------------------------------------------------------- */

static void add_words(hl_text *out, const hl_book *book)
{
    const top to = {.out = out};
    for (int i = 0; i < book->n_steps; i++) {
        const hl_step *step = &book->steps[i];
        if (!hl__out_column(step) || step->kind != HL_JUDGED)
            continue;
        hl_text line = {0};
        hl__text_printf(&line, "## %s is judged: ok", step->id);
        for (int j = 0; j < step->n_words; j++)
            hl__text_printf(&line, "%s %s", j == step->n_words - 1 ? " or" : ",", step->words[j].word);
        add_line(&to, &line);
    }
}

static int add_head(hl_text *out, const hl_book *book)
{
    int columns = 0;
    hl__text_add(out, "note");
    for (int i = 0; i < book->n_steps; i++) {
        const hl_step *step = &book->steps[i];
        if (!hl__out_column(step))
            continue;
        hl__text_char(out, ',');
        hl__text_add(out, step->id);
        if (step->kind == HL_MEASURED && step->unit != HL_NO_UNIT)
            hl__text_printf(out, " [%s]", hl_unit_name(step->unit));
        columns++;
    }
    hl__text_char(out, '\n');
    return columns;
}

hl_code hl_sheet_blank(char **out, size_t *size, const hl_book *book, hl_err *err)
{
    hl_text text = {0};
    *out = NULL;
    add_top(&text, book);
    add_words(&text, book);
    const int columns = add_head(&text, book);
    for (int note = 0; note <= book->compass.keys; note++) {
        if (note > 0)
            hl__text_add(&text, hl_pitch_name(hl_note_pitch(book->compass, note)));
        for (int i = 0; i < columns; i++)
            hl__text_char(&text, ',');
        hl__text_char(&text, '\n');
    }
    return hl__text_take(&text, out, size, err);
}
