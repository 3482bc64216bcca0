/* text_choices.c - which schools the book follows, in words and for programs (layer: render).  Only
 * those that some step of the book goes by: the others judge nothing. */
#include "json.h"
#include "page.h"

void hl__page_choices(hl_page *page)
{
    const hl_book *book = page->audit->book;
    hl_text line = {0};
    for (int i = 0; i < book->n_choices; i++) {
        const hl_chosen *choice = &book->choices[i];
        if (choice->uses == 0)
            continue;
        hl__text_add(&line, line.size == 0 ? "By this book: " : "; ");
        const size_t at = line.size;
        hl__text_safe(&line, choice->title);
        if (!line.failed && line.size > at && line.data[at] >= 'A' && line.data[at] <= 'Z')
            line.data[at] = (char)(line.data[at] - 'A' + 'a'); /* inside a sentence */
        hl__text_char(&line, ' ');
        hl__text_safe(&line, choice->options[choice->option].text);
    }
    if (line.size > 0) {
        hl__text_char(&line, '.');
        hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    }
    page->out->failed |= line.failed;
    hl__text_free(&line);
}

void hl__json_choices(hl_json *json, const hl_book *book)
{
    hl__json_open(json, "choices", '{', true);
    for (int i = 0; i < book->n_choices; i++) {
        const hl_chosen *choice = &book->choices[i];
        if (choice->uses > 0)
            hl__json_string(json, choice->id, choice->options[choice->option].name);
    }
    hl__json_close(json, '}');
}
