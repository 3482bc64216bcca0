/* page_implied.c - an assumed figure that this piano's readings contradict (layer: render/text).
 *
 * Said once of the instrument, in place of a remark at every note. */
#include "groups.h"

#include "number.h"
#include "sentence.h"
#include "wrap.h"

#include <string.h>

#define INDENT 4

static const char *const colours[] = {"", " naturals", " sharps"};

static void add_value(hl_text *out, const hl_fact *fact, double value)
{
    hl__text_double(out, value);
    if (fact->unit[0] && strcmp(fact->unit, "ratio") != 0) {
        hl__text_char(out, HL_GLUE);
        hl__text_safe(out, fact->unit);
    }
}

/* "# travel_ratio naturals: 5.4", as a sheet takes it. */
static void print_line(hl_page *page, const hl_implied *implied)
{
    const hl_fact *fact = &page->audit->book->facts[implied->fact];
    hl_text line = {0};
    hl__text_add(&line, "# ");
    hl__text_safe(&line, fact->id);
    hl__text_add(&line, colours[implied->colour]);
    hl__text_add(&line, ": ");
    add_value(&line, fact, implied->implied);
    for (size_t i = 0; i < line.size; i++)
        line.data[i] = line.data[i] == ' ' ? HL_GLUE : line.data[i];
    hl__page_add(page, &line, HL_INK_PLAIN, INDENT, INDENT);
}

/* Those of one fact and step stand together: all notes, or naturals and then sharps. */
static size_t find_end(const hl_audit *audit, size_t from)
{
    size_t end = from + 1;
    while (end < audit->n_implied && audit->implied[end].fact == audit->implied[from].fact &&
           audit->implied[end].step == audit->implied[from].step)
        end++;
    return end;
}

static void add_values(const hl_page *page, hl_text *out, size_t from, size_t to, bool implied)
{
    const hl_audit *audit = page->audit;
    for (size_t i = from; i < to; i++) {
        const hl_implied *one = &audit->implied[i];
        hl__text_add(out, i > from ? " and " : "");
        add_value(out, &audit->book->facts[one->fact], implied ? one->implied : one->assumed);
        if (one->colour > 0)
            hl__text_printf(out, " (%s)", colours[one->colour] + 1);
    }
}

/* "agrees at 86 of 88 notes, with the assumed value at 8" */
static void add_counts(const hl_page *page, hl_text *out, size_t from, size_t to)
{
    int compared = 0, differ = 0, agree = 0;
    for (size_t i = from; i < to; i++) {
        compared += page->audit->implied[i].compared;
        differ += page->audit->implied[i].differ;
        agree += page->audit->implied[i].agree;
    }
    hl__text_printf(out, " at %d of %d notes; as assumed, at %d.", agree, compared, compared - differ);
}

static void print_fact(hl_page *page, size_t from, size_t to)
{
    const hl_audit *audit = page->audit;
    const hl_implied *first = &audit->implied[from];
    const hl_step *step = &audit->book->steps[first->step];
    const hl_fact *fact = &audit->book->facts[first->fact];
    hl_text line = {0};
    hl__text_add(&line, first->instead ? "Or measure this: " : "Measure this on a few notes: ");
    hl__text_safe(&line, fact->title);
    hl__text_add(&line, ". The book assumes ");
    add_values(page, &line, from, to, false);
    hl__text_add(&line, "; these readings imply ");
    add_values(page, &line, from, to, true);
    hl__text_add(&line, ". Then ");
    hl__text_safe(&line, step->title);
    hl__text_add(&line, " agrees with ");
    hl__say_inputs(&line, audit->book, step);
    add_counts(page, &line, from, to);
    hl__text_add(&line, " If yours is about that, write it above the column heads of the sheet:");
    hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    for (size_t i = from; i < to; i++)
        print_line(page, &audit->implied[i]);
}

/* Another fact does not help when the readings themselves are shifted. */
static void print_else(hl_page *page, const hl_implied *implied)
{
    hl_text line = {0};
    hl__text_add(&line, implied->instead ? "If none of these is" : "If it is not");
    hl__text_add(&line, ", look at how ");
    hl__text_safe(&line, page->audit->book->steps[implied->step].title);
    hl__text_printf(&line, " was read: most lie %s what the others give. No verdict goes by this.",
                    implied->above ? "above" : "below");
    hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
}

void hl__page_implied(hl_page *page)
{
    const hl_audit *audit = page->audit;
    hl_text line = {0};
    if (audit->n_implied == 0)
        return;
    hl__text_char(page->out, '\n');
    hl__text_add(&line, "== A figure of the book that does not fit this piano ==");
    hl__page_add(page, &line, HL_INK_BOLD, 0, 3);
    for (size_t i = 0; i < audit->n_implied;) {
        const size_t end = find_end(audit, i);
        print_fact(page, i, end);
        if (end == audit->n_implied || !audit->implied[end].instead)
            print_else(page, &audit->implied[i]);
        i = end;
    }
}
