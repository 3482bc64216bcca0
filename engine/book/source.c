/* source.c - the citations in a `source` (layer: book). */
#include "source.h"

#include <string.h>

bool hl__next_cited(const char **at, hl_cited *out)
{
    const char *item = *at + strspn(*at, " ;");
    const char *end = strstr(item, "; ");
    const size_t size = end != NULL ? (size_t)(end - item) : strlen(item);
    *at = item + size;
    if (size == 0)
        return false;
    *out = (hl_cited){.key = item, .key_size = size, .remark = item + size};
    for (size_t i = 0; i + 2 < size; i++) {
        if (item[i] != ':' || item[i + 1] != ' ')
            continue;
        *out = (hl_cited){item, i, item + i + 2, size - i - 2};
        break;
    }
    return true;
}

bool hl__is_source_key(const char *text, size_t size)
{
    if (size == 0 || text[0] < 'a' || text[0] > 'z' || text[size - 1] == '-')
        return false;
    for (size_t i = 0; i < size; i++) {
        const char c = text[i];
        const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (!letter && (c != '-' || text[i - 1] == '-'))
            return false;
    }
    return true;
}

bool hl__looks_like_source_key(const char *text, size_t size)
{
    return hl__is_source_key(text, size) && memchr(text, '-', size) != NULL;
}

int hl__book_find_source(const hl_book *book, const char *key, size_t size)
{
    for (int i = 0; i < book->n_sources; i++)
        if (strlen(book->sources[i].key) == size && memcmp(book->sources[i].key, key, size) == 0)
            return i;
    return -1;
}
