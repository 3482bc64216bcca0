/* report_owner.c - one page for the owner or the hall, in plain words (layer: render/html).
 *
 * No jargon, no figures of the trade and no marks for anybody: what was done, what was not and why,
 * which notes, how to keep the room, when to come back.  An owner does not ask about let-off and drop;
 * both are "how a hammer lets go of its key".  So steps of the same plain words share one line. */
#include "report.h"

#include "notes.h"
#include "page.h"
#include "sentence.h"

#include <stdlib.h>
#include <string.h>

#define REASONS_MOST 4   /* why something was not done; the record has the rest */
#define NOTES_MOST   160 /* bytes of a list of notes on one page */

/* How one area is. */
typedef struct area {
    bool *out, *missing; /* [keys + 1]; place 0: the piano as a whole */
    int n_out, n_missing, n_pass;
} area;

static void count_step(area *in, const hl_audit *audit, int step)
{
    for (size_t i = audit->findings.first[step]; i < audit->findings.first[step + 1]; i++) {
        const hl_finding *finding = &audit->findings.items[i];
        const int note = finding->note;
        if (finding->verdict == HL_PASS) {
            in->n_pass++;
        } else if (finding->verdict == HL_MISSING) {
            in->n_missing += !in->missing[note];
            in->missing[note] = true;
        } else if (finding->verdict != HL_NOT_APPLICABLE) {
            in->n_out += !in->out[note];
            in->out[note] = true;
        }
    }
}

/* What an owner knows a step by.  A shop's own step may have nothing but its title. */
static const char *find_name(const hl_step *step)
{
    return step->plain[0] ? step->plain : step->title;
}

/* The first step of this step's name. */
static int find_first(const hl_book *book, int step)
{
    int first = 0;
    while (strcmp(find_name(&book->steps[first]), find_name(&book->steps[step])) != 0)
        first++;
    return first;
}

/* The area of all steps that are named like `step`, the first of them. */
static bool start_area(area *in, const hl_audit *audit, int step)
{
    const size_t room = (size_t)audit->sheet->compass.keys + 1;
    *in = (area){.out = calloc(room, sizeof *in->out), .missing = calloc(room, sizeof *in->missing)};
    if (!in->out || !in->missing)
        return false;
    for (int i = step; i < audit->book->n_steps; i++)
        if (find_first(audit->book, i) == step)
            count_step(in, audit, i);
    return true;
}

static void free_area(area *in)
{
    free(in->out);
    free(in->missing);
}

/* Owners see white and black keys, not naturals and sharps. */
static void say_colours(hl_text *out, const char *list)
{
    static const char *const trade[] = {"naturals ", "sharps "}, *const plain[] = {"white keys ",
                                                                                   "black keys "};
    while (*list) {
        int word = 0;
        while (word < 2 && strncmp(list, trade[word], strlen(trade[word])) != 0)
            word++;
        if (word < 2) {
            hl__text_add(out, plain[word]);
            list += strlen(trade[word]);
        } else {
            hl__text_char(out, *list++);
        }
    }
}

/* "D2 E2 C5-G#5", or how many when a page has no room for them; the piano as a whole goes unnamed. */
static void say_marked(hl_text *out, const hl_audit *audit, const bool *marked)
{
    const int keys = audit->sheet->compass.keys;
    int *notes = calloc((size_t)keys + 1, sizeof *notes), n = 0;
    hl_text list = {0};
    if (!notes) {
        out->failed = true;
        return;
    }
    for (int note = 1; note <= keys; note++)
        if (marked[note])
            notes[n++] = note;
    hl__notes_fold(&list, audit->sheet->compass, HL_EVERY_NOTE, notes, n);
    free(notes);
    if (n == keys)
        hl__text_add(out, ": all notes");
    else if (n > 0 && list.size > NOTES_MOST)
        hl__text_printf(out, ": %d notes", n);
    else if (n > 0 && !list.failed) {
        hl__text_add(out, ": ");
        say_colours(out, list.data);
    }
    out->failed |= list.failed;
    hl__text_free(&list);
}

/* ---- the three lists ------------------------------------------------------------------------------ */

typedef enum list { LIST_DONE, LIST_OPEN, LIST_UNREAD } list;

static bool belongs(const area *of, list to)
{
    switch (to) {
    case LIST_DONE:
        return of->n_pass > 0 && of->n_out == 0 && of->n_missing == 0;
    case LIST_OPEN:
        return of->n_out > 0;
    default:
        return of->n_missing > 0;
    }
}

static void add_area(hl_record *record, const area *of, const char *name, list to)
{
    hl_text line = {0};
    hl__text_safe(&line, name);
    if (to != LIST_DONE)
        say_marked(&line, record->audit, to == LIST_OPEN ? of->out : of->missing);
    hl__text_char(&line, '.');
    hl__html_leaf_take(&record->html, "li", NULL, &line);
    hl__html_line(&record->html);
}

static void add_list(hl_record *record, list to, const char *title, const char *intro)
{
    hl_html *html = &record->html;
    const hl_book *book = record->audit->book;
    bool any = false;
    for (int step = 0; step < book->n_steps; step++) {
        area of;
        if (find_first(book, step) != step)
            continue;
        if (!start_area(&of, record->audit, step)) {
            html->out->failed = true;
        } else if (belongs(&of, to)) {
            if (!any) {
                hl__html_leaf(html, "h2", NULL, title);
                hl__html_leaf(html, "p", NULL, intro);
                hl__html_open(html, "ul", NULL);
            }
            any = true;
            add_area(record, &of, find_name(&book->steps[step]), to);
        }
        free_area(&of);
    }
    if (any)
        hl__html_close(html);
}

/* What the technician wrote about work that was left, each reason once. */
static void add_reasons(hl_record *record)
{
    const hl_audit *audit = record->audit;
    const char *said[REASONS_MOST];
    int n = 0;
    for (size_t i = 0; i < audit->findings.n && n < REASONS_MOST; i++) {
        const hl_finding *finding = &audit->findings.items[i];
        const bool query = finding->step < 0;
        bool again = !finding->remark[0] || (!query && finding->why != HL_WHY_SKIPPED);
        for (int k = 0; k < n && !again; k++)
            again = strcmp(said[k], finding->remark) == 0;
        if (again)
            continue;
        hl_text line = {0};
        said[n++] = finding->remark;
        hl__text_add(&line, query ? "Still open, " : "Left out, ");
        hl__say_note(&line, audit->sheet, finding->note);
        hl__text_add(&line, query ? ": \"" : "; the technician's reason: \"");
        hl__text_safe(&line, finding->remark);
        hl__text_add(&line, "\"");
        hl__paragraph(&record->html, NULL, &line);
    }
    if (n == 0 && !audit->ready)
        hl__html_leaf(&record->html, "p", NULL,
                      "Why these are open is not written in the technician's sheet; please ask.");
}

/* ---- the page ------------------------------------------------------------------------------------- */

static void add_head(hl_record *record)
{
    hl_html *html = &record->html;
    const hl_sheet *sheet = record->audit->sheet;
    static const char *const facts[] = {"date", "place", "workshop"};
    const char *piano = hl_sheet_fact(sheet, "piano"), *work = hl_sheet_fact(sheet, "work");
    hl_text line = {0};
    hl__html_leaf(html, "p", "kind", "For the owner");
    hl__html_leaf(html, "h1", NULL, piano[0] ? piano : "Your piano");
    for (size_t i = 0; i < sizeof facts / sizeof *facts; i++)
        hl__say_once(&line, hl_sheet_fact(sheet, facts[i]));
    if (hl__text_any(&line))
        hl__paragraph(html, "state", &line);
    hl__text_free(&line);
    hl__html_open(html, "div", "class", record->audit->ready ? "answer ready" : "answer", NULL);
    hl__html_leaf(html, "p", "word",
                  record->audit->ready ? "The work is finished." : "The work is not finished yet.");
    hl__html_leaf(html, "p", NULL,
                  record->audit->ready
                      ? "Every check that was planned has been made, and shows what it should."
                      : "Below is what is in order, and what is still open.");
    if (work[0]) {
        hl__text_add(&line, "Agreed work: ");
        hl__text_safe(&line, work);
        hl__paragraph(html, NULL, &line);
    }
    hl__html_close(html);
}

static void add_climate(hl_record *record)
{
    const hl_sheet *sheet = record->audit->sheet;
    const char *warmth = hl_sheet_fact(sheet, "temperature"), *damp = hl_sheet_fact(sheet, "humidity");
    hl_text line = {0};
    hl__html_leaf(&record->html, "h2", NULL, "The room");
    if (warmth[0] || damp[0]) {
        hl__text_add(&line, "On the day of the work:");
        if (warmth[0]) {
            hl__text_add(&line, " temperature ");
            hl__text_safe(&line, warmth);
        }
        if (damp[0]) {
            hl__text_add(&line, warmth[0] ? ", air humidity " : " air humidity ");
            hl__text_safe(&line, damp);
        }
        hl__text_char(&line, '.');
        hl__paragraph(&record->html, NULL, &line);
    }
    hl__html_leaf(
        &record->html, "p", NULL,
        "Wood and felt move with the air, and the touch moves with them. Steady air is what helps most. "
        "One piano maker asks for 40 to 60 % relative humidity and 68 to 78 \xC2\xB0"
        "F (20 to 26 \xC2\xB0"
        "C) (a maker's published technical reference guide, chapter 1). The handbook of your own piano, "
        "and people who know the climate where you live, come before this. Ask your technician before "
        "you add a heater or a humidifier.");
}

static void add_coming_back(hl_record *record)
{
    hl__html_leaf(&record->html, "h2", NULL, "When to come back");
    hl__record_return(record);
    hl__html_leaf(&record->html, "p", NULL,
                  "Call sooner when a key sticks, when a note fails to repeat or goes on sounding, or when "
                  "something feels wrong to you: small things are worth saying.");
}

void hl__owner_page(hl_record *record)
{
    add_head(record);
    add_list(record, LIST_DONE, "What was done",
             record->audit->drawn.sample ? "Checked on a sample of the notes, and in order there:"
                                         : "Checked on every note that it concerns, and in order:");
    add_list(record, LIST_OPEN, "What is still to do", "Not yet as it should be, at these notes:");
    add_list(record, LIST_UNREAD, "What was not checked", "Nothing can be said yet about:");
    add_reasons(record);
    hl__html_leaf(
        &record->html, "p", "small",
        "Notes are named from low to high: C4 is the C in the middle of the keyboard, C5 the next C above "
        "it. # is the black key to the right.");
    add_climate(record);
    add_coming_back(record);
}
