/* report_basis.c - how it was judged: book, engine, decision rule, gauges (layer: render/html). */
#include "report.h"

#include "decision.h"
#include "hash.h"
#include "number.h"
#include "page.h"
#include "sentence.h"

#include <math.h>
#include <string.h>

void hl__sheet_hash(const hl_sheet *sheet, char hex[65])
{
    hl_hash hash;
    hl__hash_start(&hash);
    hl__hash_add(&hash, sheet->bytes, sheet->size);
    hl__hash_end(&hash, hex);
}

static void add_sheet(hl_record *record)
{
    const hl_sheet *sheet = record->audit->sheet;
    hl_text line = {0};
    char hex[65];
    hl__sheet_hash(sheet, hex);
    hl__text_safe(&line, hl__base_name(sheet->name));
    hl__pair_take(&record->html, "Sheet", &line);
    hl__pair(&record->html, "Its SHA-256", hex);
}

/* A sentence that the printed audit has too, as one line. */
static void add_sentence(hl_record *record, const char *label, void (*print)(hl_page *))
{
    hl_text line = {0};
    hl_page page = {.out = &line, .audit = record->audit, .width = 4000};
    print(&page);
    while (line.size > 0 && line.data[line.size - 1] == '\n')
        line.data[--line.size] = '\0';
    if (hl__text_any(&line))
        hl__pair_take(&record->html, label, &line);
    hl__text_free(&line);
}

void hl__record_basis(hl_record *record)
{
    hl_html *html = &record->html;
    const hl_book *book = record->audit->book;
    const char *gauges = hl_sheet_fact(record->audit->sheet, "gauges");
    hl_text line = {0};
    hl__section_open(html, "basis", "How it was judged");
    hl__html_open(html, "dl", "class", "basis", NULL);
    hl__say_capital(&line, hl__rule_sentence(record->audit->options.rule));
    hl__text_char(&line, '.');
    hl__pair_take(html, "Decision rule", &line);
    add_sentence(record, "Schools", hl__page_choices);
    add_sentence(record, "What gives way", hl__page_float);
    hl__text_safe(&line, book->id);
    hl__text_add(&line, ": ");
    hl__text_safe(&line, book->title);
    hl__pair_take(html, "Book of targets", &line);
    hl__pair(html, "Its SHA-256", book->hash);
    add_sheet(record);
    hl__pair(html, "Engine", "Hammerline " HL_VERSION);
    if (record->asked->made && record->asked->made[0])
        hl__pair(html, "Record made", record->asked->made);
    if (gauges[0])
        hl__pair(html, "Gauges used", gauges);
    hl__html_close(html);
    hl__record_gauges(record);
    hl__html_close(html);
}

/* ---- the figures ------------------------------------------------------------------------------ */

static void add_figure(hl_record *record, int index)
{
    const hl_sheet *sheet = record->audit->sheet;
    const hl_fact *fact = &record->audit->book->facts[index];
    const double *values = sheet->values[index];
    const bool *assumed = sheet->assumed[index];
    hl_html *html = &record->html;
    hl__row_start(html, fact->title[0] ? fact->title : fact->id);
    for (int colour = 0; colour < 2; colour++) {
        hl_text cell = {0};
        if (isfinite(values[colour])) {
            hl__text_double(&cell, values[colour]);
            if (fact->unit[0] && strcmp(fact->unit, "ratio") != 0) {
                hl__text_char(&cell, ' ');
                hl__text_safe(&cell, fact->unit);
            }
        }
        hl__html_leaf_take(html, "td", "number", &cell);
    }
    hl__html_leaf(html, "td", NULL,
                  assumed[0] && assumed[1]     ? "assumed"
                  : !assumed[0] && !assumed[1] ? "stated"
                  : assumed[0]                 ? "naturals assumed, sharps stated"
                                               : "naturals stated, sharps assumed");
    hl__row_end(html);
}

void hl__record_figures(hl_record *record)
{
    static const char *const heads[] = {"Figure", ">Naturals", ">Sharps", "From", NULL};
    const hl_audit *audit = record->audit;
    bool started = false;
    for (int i = 0; i < audit->book->n_facts; i++) {
        if (!isfinite(audit->sheet->values[i][0]) && !isfinite(audit->sheet->values[i][1]))
            continue;
        if (!started) {
            hl__section_open(&record->html, "figures", "Figures behind the arithmetic");
            hl__html_leaf(
                &record->html, "p", NULL,
                "Corrections are worked out from these. An assumed one is the book's: nobody has stated "
                "it for this piano, and amounts that rest on it say \"about\".");
            hl__grid_start(&record->html, NULL, "Figures of this piano", heads);
        }
        started = true;
        add_figure(record, i);
    }
    if (started) {
        hl__grid_end(&record->html);
        hl__html_close(&record->html);
    }
}
