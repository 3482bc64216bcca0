/* page.c - puts paragraphs on a page of text (layer: render/text). */
#include "page.h"

#include "wrap.h"

void hl__page_add(hl_page *page, hl_text *paragraph, hl_ink ink, int first, int hang)
{
    static const char *const inks[] = {"", "\033[1m", "\033[1;32m", "\033[1;31m"};
    const bool inked = page->color && ink != HL_INK_PLAIN;
    if (inked)
        hl__text_add(page->out, inks[ink]);
    hl__wrap(page->out, paragraph->data ? paragraph->data : "", page->width, first, hang);
    if (inked)
        hl__text_add(page->out, "\033[0m");
    page->out->failed |= paragraph->failed;
    hl__text_free(paragraph);
    *paragraph = (hl_text){0};
}
