/* choices.c - which schools a book follows, in words and for programs (layer: render/text).  An audit
 * tells of those that some step of the book goes by: the others judge nothing. */
#include "ascii.h"
#include "leaf.h"
#include "page.h"

#include <string.h>

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
        if (!line.failed && line.size > at)
            line.data[at] = hl__lower(line.data[at]); /* inside a sentence */
        hl__text_char(&line, ' ');
        hl__text_safe(&line, choice->options[choice->option].text);
    }
    if (hl__text_any(&line)) {
        hl__text_char(&line, '.');
        hl__page_add(page, &line, HL_INK_PLAIN, 0, 2);
    }
    page->out->failed |= line.failed;
    hl__text_free(&line);
}

/* Where it was chosen last, or else declared. */
static hl_origin find_place(const hl_chosen *choice)
{
    return choice->n_changes > 0 ? choice->changes[choice->n_changes - 1].origin : choice->origin;
}

void hl__leaf_choices(hl_leaf *leaf)
{
    for (int i = 0; i < leaf->book->n_choices; i++) {
        const hl_chosen *choice = &leaf->book->choices[i];
        hl_text line = {0};
        hl__text_safe(&line, choice->title);
        hl__text_char(&line, ' ');
        hl__text_safe(&line, choice->options[choice->option].text);
        hl__text_printf(&line, " (%s: %s;", choice->id, choice->options[choice->option].name);
        for (int k = 0, n = 0; k < choice->n_options; k++)
            if (k != choice->option)
                hl__text_printf(&line, "%s%s", n++ == 0 ? " or " : ", ", choice->options[k].name);
        hl__text_add(&line, ")");
        hl__text_add(&line, choice->uses == 0 ? ", though no step goes by it." : ".");
        hl__say_place(&line, find_place(choice));
        hl__leaf_add(leaf, &line, 0, 4);
    }
}

void hl__leaf_choices_differ(hl_leaf *leaf, const hl_book *a, const hl_book *b)
{
    for (int i = 0; i < a->n_choices; i++) {
        for (int k = 0; k < b->n_choices; k++) {
            const hl_chosen *old = &a->choices[i], *new = &b->choices[k];
            const char *before = old->options[old->option].name, *after = new->options[new->option].name;
            if (strcmp(old->id, new->id) != 0 || strcmp(before, after) == 0)
                continue;
            hl_text line = {0};
            hl__text_printf(&line, "choice %s: %s becomes %s", new->id, before, after);
            if (new->n_changes > 0 && new->changes[new->n_changes - 1].why[0] != '\0') {
                hl__text_add(&line, ": ");
                hl__text_safe(&line, new->changes[new->n_changes - 1].why);
            }
            hl__say_place(&line, find_place(new));
            hl__leaf_add(leaf, &line, 0, 4);
        }
    }
}
