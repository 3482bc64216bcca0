/* page_people.c - two people's readings of the same notes (layer: render/text). */
#include "decision.h"

#include "sentence.h"

#include <string.h>

#define APART_MOST 12 /* notes shown with their readings */

static bool agree(const hl_page *page, const hl_people *people)
{
    const hl_amount grain = page->audit->book->steps[people->step].resolution;
    return people->n_apart == 0 && people->bias <= grain && people->bias >= -grain;
}

static void add_names(hl_text *line, const hl_people *people)
{
    hl__text_safe(line, people->second);
    hl__text_add(line, " beside ");
    hl__text_safe(line, people->first);
}

static bool same_names(const hl_people *a, const hl_people *b)
{
    return strcmp(a->first, b->first) == 0 && strcmp(a->second, b->second) == 0;
}

static void add_bias(hl_text *line, const hl_step *step, const hl_people *people)
{
    const hl_amount size = people->bias < 0 ? -people->bias : people->bias;
    hl__text_add(line, "; ");
    hl__text_safe(line, people->second);
    if (size == 0) {
        hl__text_add(line, " reads the same in the middle");
        return;
    }
    hl__text_add(line, " reads ");
    hl__say_amount(line, size, step->unit, 0);
    hl__text_add(line, people->bias < 0 ? " less (median)" : " more (median)");
}

static void add_reading(hl_text *line, const hl_step *step, hl_amount value, int word)
{
    if (step->kind != HL_JUDGED)
        hl__say_amount(line, value, step->unit, 0);
    else if (word < 0)
        hl__text_add(line, "ok");
    else
        hl__text_safe(line, step->words[word].word);
}

static void add_apart(hl_text *line, const hl_page *page, const hl_step *step, const hl_people *people)
{
    hl__text_add(line, ". Further apart");
    if (step->kind != HL_JUDGED) {
        hl__text_add(line, " than their gauges allow (");
        hl__say_amount(line, people->allowed, step->unit, 0);
        hl__text_char(line, ')');
    }
    for (int i = 0; i < people->n_apart && i < APART_MOST; i++) {
        const hl_apart *apart = &people->apart[i];
        const int pitch = apart->note > 0 ? hl_note_pitch(page->audit->sheet->compass, apart->note) : 0;
        hl__text_add(line, i == 0 ? ": " : ", ");
        hl__text_add(line, apart->note > 0 ? hl_pitch_name(pitch) : "the instrument");
        hl__text_char(line, ' ');
        add_reading(line, step, apart->first, apart->first_word);
        hl__text_add(line, " and ");
        add_reading(line, step, apart->second, apart->second_word);
    }
    if (people->n_apart > APART_MOST)
        hl__text_printf(line, ", and %d more", people->n_apart - APART_MOST);
}

static void print_people(hl_page *page, const hl_people *people)
{
    const hl_step *step = &page->audit->book->steps[people->step];
    hl_text line = {0};
    hl__text_safe(&line, step->title);
    hl__text_add(&line, ", ");
    add_names(&line, people);
    hl__text_printf(&line, ": %d %s read by both", people->notes, people->notes == 1 ? "note" : "notes");
    if (step->kind != HL_JUDGED)
        add_bias(&line, step, people);
    if (people->n_apart > 0)
        add_apart(&line, page, step, people);
    hl__text_char(&line, '.');
    hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
}

/* One line for all steps at which two people agree, said at the first of them. */
static void print_agreeing(hl_page *page, size_t first)
{
    const hl_audit *audit = page->audit;
    hl_text line = {0};
    for (size_t i = 0; i < audit->n_people; i++) {
        const hl_people *people = &audit->people[i];
        if (!agree(page, people) || !same_names(people, &audit->people[first]))
            continue;
        if (i < first)
            return; /* said already */
        if (i == first) {
            add_names(&line, people);
            hl__text_add(&line, ", no more apart than the gauges allow: ");
        } else {
            hl__text_add(&line, ", ");
        }
        hl__text_safe(&line, audit->book->steps[people->step].title);
        hl__text_printf(&line, " (%d)", people->notes);
    }
    hl__text_char(&line, '.');
    hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
}

void hl__page_people(hl_page *page)
{
    const hl_audit *audit = page->audit;
    hl_text line = {0};
    if (audit->n_people == 0)
        return;
    hl__text_char(page->out, '\n');
    hl__text_add(&line, "== Two people, the same notes ==");
    hl__page_add(page, &line, HL_INK_BOLD, 0, 3);
    for (size_t i = 0; i < audit->n_people; i++) {
        if (agree(page, &audit->people[i]))
            print_agreeing(page, i);
        else
            print_people(page, &audit->people[i]);
    }
}
