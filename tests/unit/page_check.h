/* page_check.h - reads a page back strictly, and fails the test at the first thing it must not hold.
 *
 * The pages are HTML and XML at once, so a small reader is enough: every tag closed, every value in
 * double quotes, known entities only.  Then what the report promises: no script, nothing fetched, no
 * style but the one sheet, drawings that tell what they show, links that lead somewhere. */
#ifndef PAGE_CHECK_H
#define PAGE_CHECK_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { PAGE_DEPTH = 40, PAGE_NAMES = 400, PAGE_NAME = 96 };

typedef struct page_check {
    const char *at;
    char open[PAGE_DEPTH][PAGE_NAME];
    int depth;
    char ids[PAGE_NAMES][PAGE_NAME], wanted[PAGE_NAMES][PAGE_NAME];
    int n_ids, n_wanted, drawings, tables;
    bool needs_title; /* the svg just opened must begin with its title */
} page_check;

static inline void page_fail(const page_check *page, const char *what)
{
    char near[60];
    snprintf(near, sizeof near, "%s", page->at);
    fail_msg("%s, near: %s", what, near);
}

static inline size_t page_name(const page_check *page)
{
    const size_t size = strspn(page->at, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-");
    if (size == 0 || size >= PAGE_NAME)
        page_fail(page, "no name of a tag or attribute");
    return size;
}

static inline void page_entity(const page_check *page)
{
    static const char *const known[] = {"&amp;", "&lt;", "&gt;", "&quot;", "&#39;", "&#96;"};
    for (size_t i = 0; i < sizeof known / sizeof *known; i++)
        if (strncmp(page->at, known[i], strlen(known[i])) == 0)
            return;
    page_fail(page, "an ampersand that begins no entity");
}

static inline void page_keep(page_check *page, char list[][PAGE_NAME], int *n, const char *text, size_t size)
{
    if (*n == PAGE_NAMES || size >= PAGE_NAME)
        page_fail(page, "more ids than the test has room for");
    memcpy(list[*n], text, size);
    list[(*n)++][size] = '\0';
}

/* One attribute's value, between its quotes. */
static inline void page_value(page_check *page, const char *name, const char *value, size_t size)
{
    if (strncmp(name, "on", 2) == 0 || strcmp(name, "style") == 0 || strcmp(name, "src") == 0)
        page_fail(page, "an attribute that acts");
    /* A place in the page, a table kept inside it, or a record in the same folder. */
    const bool record =
        size > 5 && strncmp(value + size - 5, ".html", 5) == 0 && strcspn(value, ":/") >= size;
    if (strcmp(name, "href") == 0 && value[0] != '#' && strncmp(value, "data:text/csv;base64,", 21) != 0 &&
        !record)
        page_fail(page, "a link that leaves the page");
    if (strcmp(name, "id") == 0) {
        page_keep(page, page->ids, &page->n_ids, value, size);
        for (int i = 0; i < page->n_ids - 1; i++)
            if (strcmp(page->ids[i], page->ids[page->n_ids - 1]) == 0)
                page_fail(page, "an id that stands twice");
    }
    if (strcmp(name, "href") == 0 && value[0] == '#')
        page_keep(page, page->wanted, &page->n_wanted, value + 1, size - 1);
    for (size_t i = 0; strcmp(name, "aria-labelledby") == 0 && i < size;) {
        size_t end = i;
        while (end < size && value[end] != ' ')
            end++;
        page_keep(page, page->wanted, &page->n_wanted, value + i, end - i);
        i = end + 1;
    }
}

static inline void page_attribute(page_check *page, bool *hidden, bool *image)
{
    char name[PAGE_NAME];
    const size_t size = page_name(page);
    memcpy(name, page->at, size);
    name[size] = '\0';
    page->at += size;
    if (strncmp(page->at, "=\"", 2) != 0)
        page_fail(page, "a value without quotes");
    const char *value = page->at += 2;
    for (; *page->at != '"'; page->at++) {
        if (*page->at == '\0' || *page->at == '<' || *page->at == '\n')
            page_fail(page, "a value that does not end");
        if (*page->at == '&')
            page_entity(page);
    }
    const size_t length = (size_t)(page->at - value);
    page_value(page, name, value, length);
    *hidden = *hidden || strcmp(name, "aria-hidden") == 0;
    *image = *image || (strcmp(name, "role") == 0 && length == 3 && strncmp(value, "img", 3) == 0);
    page->at++;
}

static inline void page_element(page_check *page, const char *tag, bool hidden, bool image)
{
    static const char *const banned[] = {"script", "iframe", "object", "embed", "img",   "link",
                                         "base",   "form",   "input",  "use",   "image", "foreignObject"};
    for (size_t i = 0; i < sizeof banned / sizeof *banned; i++)
        if (strcmp(tag, banned[i]) == 0)
            page_fail(page, "an element that acts or fetches");
    if (page->needs_title && strcmp(tag, "title") != 0)
        page_fail(page, "a drawing that does not begin with its title");
    page->needs_title = strcmp(tag, "svg") == 0 && !hidden;
    if (page->needs_title && !image)
        page_fail(page, "a drawing without role=img");
    page->drawings += page->needs_title;
    page->tables += strcmp(tag, "table") == 0;
}

static inline void page_close(page_check *page)
{
    page->at += 2;
    const size_t size = page_name(page);
    if (page->depth == 0 || strlen(page->open[page->depth - 1]) != size ||
        strncmp(page->at, page->open[page->depth - 1], size) != 0 || page->at[size] != '>')
        page_fail(page, "a tag closed that is not the open one");
    page->depth--;
    page->at += size + 1;
}

static inline void page_tag(page_check *page)
{
    bool hidden = false, image = false;
    if (page->depth == PAGE_DEPTH)
        page_fail(page, "too deep");
    page->at++;
    const size_t size = page_name(page);
    char *tag = page->open[page->depth];
    memcpy(tag, page->at, size);
    tag[size] = '\0';
    page->at += size;
    while (*page->at == ' ') {
        page->at++;
        page_attribute(page, &hidden, &image);
    }
    const bool empty = strncmp(page->at, "/>", 2) == 0;
    if (!empty && *page->at != '>')
        page_fail(page, "a tag that does not end");
    page->at += empty ? 2 : 1;
    page_element(page, tag, hidden, image);
    page->depth += !empty;
}

/* Reads the whole page; returns how many drawings it has. */
static inline page_check check_page(const char *text)
{
    static const char doctype[] = "<!DOCTYPE html>\n";
    static page_check page; /* large */
    page = (page_check){.at = text};
    assert_int_equal(strncmp(text, doctype, strlen(doctype)), 0);
    page.at += strlen(doctype);
    while (*page.at) {
        if (strncmp(page.at, "</", 2) == 0) {
            page_close(&page);
        } else if (*page.at == '<') {
            page_tag(&page);
        } else {
            if (*page.at == '&')
                page_entity(&page);
            if ((unsigned char)*page.at < ' ' && *page.at != '\n')
                page_fail(&page, "a control character");
            page.at++;
        }
    }
    assert_int_equal(page.depth, 0);
    for (int i = 0; i < page.n_wanted; i++) {
        bool found = false;
        for (int k = 0; k < page.n_ids; k++)
            found = found || strcmp(page.wanted[i], page.ids[k]) == 0;
        if (!found)
            fail_msg("nothing has the id \"%s\"", page.wanted[i]);
    }
    return page;
}

#endif
