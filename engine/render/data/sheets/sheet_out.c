/* sheet_out.c - cells and '#' lines of the sheets that we write (layer: render/data). */
#include "sheet_out.h"

#include "ascii.h"

#include <string.h>

static void add_quoted(hl_text *out, const char *text)
{
    hl__text_char(out, '"');
    for (; *text; text++) {
        if (*text == '"')
            hl__text_char(out, '"');
        hl__text_char(out, *text);
    }
    hl__text_char(out, '"');
}

/* A character that quotes must keep from ending the cell, or from looking like one that does. */
static bool holds(const char *text, char separator)
{
    return strchr(text, separator) || strchr(text, '"');
}

static bool is_edge(char c)
{
    return c == ' ' || c == '#';
}

void hl__out_cell(hl_text *out, char separator, const char *text)
{
    const size_t size = strlen(text);
    if (holds(text, separator) || (size > 0 && (is_edge(text[0]) || text[size - 1] == ' ')))
        add_quoted(out, text);
    else
        hl__text_add(out, text);
}

void hl__out_line(hl_text *out, char separator, const char *text)
{
    if (holds(text, separator))
        add_quoted(out, text);
    else
        hl__text_add(out, text);
    hl__text_char(out, '\n');
}

void hl__out_take_line(hl_text *out, char separator, hl_text *line)
{
    hl__out_line(out, separator, line->data ? line->data : "");
    out->failed |= line->failed;
    hl__text_free(line);
}

bool hl__same_method(const char *a, const char *b)
{
    return hl__same_word(a, b);
}

bool hl__out_column(const hl_step *step)
{
    return !step->skipped && step->kind != HL_DERIVED && step->need != HL_NEED_OPTIONAL;
}

/* ---- facts and remarks above the header --------------------------------------------------------- */

hl_code hl__out_check(const hl_sheet *sheet, hl_err *err)
{
    if (!sheet->read)
        return hl__fail(err, HL_E_USAGE, "the sheet has not been read");
    if (sheet->n_errors == 0)
        return HL_OK;
    *err = sheet->errors[0];
    return err->code;
}

bool hl__out_outdated(const hl_sheet *sheet, size_t fact)
{
    const hl_stated_fact *old = &sheet->facts[fact];
    for (size_t i = fact + 1; i < sheet->n_facts; i++) {
        const hl_stated_fact *now = &sheet->facts[i];
        const bool covers = now->colour == 0 || now->colour == old->colour;
        if (now->line > sheet->header_end && covers && strcmp(now->id, old->id) == 0)
            return true;
    }
    return false;
}

static void add_fact(hl_text *out, char separator, const char *name, const char *ending, const char *value)
{
    hl_text line = {0};
    hl__text_printf(&line, "# %s%s:%s%s", name, ending, value[0] ? " " : "", value);
    hl__out_take_line(out, separator, &line);
}

const char *const hl__out_colours[] = {"", "_naturals", "_sharps"};

static bool is_id(const hl_stated_fact *fact, const char *id)
{
    return strcmp(fact->id, id) == 0;
}

static void add_tops(hl_text *out, const hl_sheet *sheet, const hl_written *written, bool tidy)
{
    for (size_t i = 0; i < written->n_tops; i++) {
        const hl_written_top *top = &written->tops[i];
        if (top->fact < 0) {
            hl__out_line(out, sheet->separator, top->line);
            continue;
        }
        const hl_stated_fact *fact = &sheet->facts[top->fact];
        if (is_id(fact, "book"))
            add_fact(out, sheet->separator, top->name, "", sheet->book->id);
        else if (!is_id(fact, "hammerline") && (tidy || !hl__out_outdated(sheet, (size_t)top->fact)))
            add_fact(out, sheet->separator, fact->renamed ? fact->id : top->name,
                     fact->renamed ? hl__out_colours[fact->colour] : "", fact->value);
    }
}

static bool names_book(const hl_sheet *sheet)
{
    for (size_t i = 0; i < sheet->n_facts; i++)
        if (is_id(&sheet->facts[i], "book"))
            return true;
    return false;
}

void hl__out_top(hl_text *out, const hl_sheet *sheet, const hl_written *written, bool tidy)
{
    if (tidy)
        hl__text_add(out, "# hammerline: tidy 2\n");
    if (!names_book(sheet))
        add_fact(out, sheet->separator, "book", "", sheet->book->id);
    add_tops(out, sheet, written, tidy);
    for (size_t i = 0; !tidy && i < sheet->n_facts; i++) {
        const hl_stated_fact *fact = &sheet->facts[i];
        if (fact->line > sheet->header_end && !hl__out_outdated(sheet, i))
            add_fact(out, sheet->separator, fact->id, hl__out_colours[fact->colour], fact->value);
    }
}
