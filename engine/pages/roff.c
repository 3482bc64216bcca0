/* roff.c - writes a manual page in the man(7) language (layer: pages).
 *
 * `held` is ours and lives from begin_page() to end_page(). */
#include "pages.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define LINE_MOST 78

static void hold(roff *page, const char *text, size_t size)
{
    if (page->size + size + 1 > page->room) {
        page->room = 2 * (page->size + size + 64);
        char *more = realloc(page->held, page->room);
        if (!more)
            give_up("no memory for", "a page");
        page->held = more;
    }
    memcpy(page->held + page->size, text, size);
    page->size += size;
    page->held[page->size] = '\0';
}

static void hold_text(roff *page, const char *text)
{
    hold(page, text, strlen(text));
}

/* One character of UTF-8 beyond ASCII as \[uXXXX]; returns its bytes. */
static size_t hold_wide(roff *page, const char *at, size_t left)
{
    const unsigned char first = (unsigned char)*at;
    const size_t n = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : 2;
    uint32_t code = n == 4 ? first & 0x07u : n == 3 ? first & 0x0fu : first & 0x1fu;
    char name[24];
    if (first < 0xc0 || n > left)
        give_up("text that is not UTF-8:", at);
    for (size_t i = 1; i < n; i++)
        code = code << 6 | ((unsigned char)at[i] & 0x3fu);
    snprintf(name, sizeof name, "\\[u%04X]", (unsigned)code);
    hold_text(page, name);
    return n;
}

/* What the formatter would take for a command, or print as another sign, is written by its name. */
static void hold_char(roff *page, const char *text, size_t i, bool exactly)
{
    const char c = text[i];
    const bool starts_word = i == 0 || strchr(" (-[\"", text[i - 1]) != NULL;
    if (c == '\\')
        hold_text(page, "\\e");
    else if (c == '-' && (exactly || starts_word))
        hold_text(page, "\\-");
    else if (c == '"' && exactly)
        hold_text(page, "\\(dq");
    else if (c == '\'' && exactly)
        hold_text(page, "\\(aq");
    else if (c == '`')
        hold_text(page, "\\(ga");
    else if (c == '~')
        hold_text(page, "\\(ti");
    else if (c == '^')
        hold_text(page, "\\(ha");
    else
        hold(page, &c, 1);
}

static void hold_escaped(roff *page, const char *text, size_t size, bool exactly)
{
    for (size_t i = 0; i < size;) {
        if ((unsigned char)text[i] >= 0x80) {
            i += hold_wide(page, text + i, size - i);
        } else {
            hold_char(page, text, i, exactly);
            i++;
        }
    }
}

static void hold_font(roff *page, char font)
{
    const char text[4] = {'\\', 'f', font, '\0'};
    hold_text(page, text);
}

void add_literal(roff *page, char font, const char *text, size_t size)
{
    if (font != 'R')
        hold_font(page, font);
    hold_escaped(page, text, size, true);
    if (font != 'R')
        hold_font(page, 'R');
}

void add_plain(roff *page, const char *text, size_t size)
{
    hold_escaped(page, text, size, false);
}

void add_reference(roff *page, const char *name, int section, const char *then)
{
    char number[16];
    if (page->size > 0)
        add_words(page, " ", 1);
    add_literal(page, 'B', name, strlen(name));
    add_words(page, number, (size_t)snprintf(number, sizeof number, "(%d)%s", section, then));
}

/* [text](where): only the text.  Returns how much of `text` it took, 0 when it is none. */
static size_t add_link(roff *page, const char *text, size_t size)
{
    const char *end = memchr(text, ']', size);
    if (!end || end + 1 >= text + size || end[1] != '(')
        return 0;
    const char *close = memchr(end, ')', (size_t)(text + size - end));
    if (!close)
        return 0;
    add_words(page, text + 1, (size_t)(end - text - 1));
    return (size_t)(close - text) + 1;
}

/* `code`.  Returns how much of `text` it took, 0 when it is none. */
static size_t add_code(roff *page, const char *text, size_t size)
{
    const char *end = memchr(text + 1, '`', size - 1);
    if (!end)
        return 0;
    add_literal(page, 'B', text + 1, (size_t)(end - text - 1));
    return (size_t)(end - text) + 1;
}

/* *stress*, or **more of it**; `code` inside is stressed like the rest.  Returns how much of `text` it
 * took, 0 when it is none. */
static size_t add_stress(roff *page, const char *text, size_t size)
{
    const size_t marks = size > 1 && text[1] == '*' ? 2 : 1;
    if (marks >= size || text[marks] == ' ')
        return 0;
    const char *end = text + marks;
    while (end < text + size && *end != '*')
        end++;
    if (end + marks > text + size)
        return 0;
    hold_font(page, marks == 2 ? 'B' : 'I');
    for (const char *at = text + marks; at < end; at++) {
        const char *tick = memchr(at, '`', (size_t)(end - at));
        hold_escaped(page, at, (size_t)((tick ? tick : end) - at), false);
        at = tick ? tick : end;
    }
    hold_font(page, 'R');
    return (size_t)(end - text) + marks;
}

void add_words(roff *page, const char *text, size_t size)
{
    for (size_t i = 0; i < size;) {
        size_t taken = 0;
        const char c = text[i];
        if (c == '`')
            taken = add_code(page, text + i, size - i);
        else if (c == '*')
            taken = add_stress(page, text + i, size - i);
        else if (c == '[')
            taken = add_link(page, text + i, size - i);
        else if (c == '\\' && i + 1 < size && strchr("|*`[]_\\", text[i + 1])) {
            hold_escaped(page, text + i + 1, 1, false);
            taken = 2;
        }
        if (taken == 0) {
            taken = (unsigned char)c < 0x80 ? 1 : hold_wide(page, text + i, size - i);
            if ((unsigned char)c < 0x80)
                hold_char(page, text, i, false);
        }
        i += taken;
    }
}

/* Does a sentence end with this word?  The formatter then sets its own space. */
static bool ends_sentence(const char *word, size_t size)
{
    while (size > 0 && strchr(")\"", word[size - 1]))
        size--;
    return size > 1 && strchr(".?!", word[size - 1]) != NULL && word[size - 2] != '.';
}

void end_words(roff *page)
{
    size_t column = 0;
    bool fresh = true;
    if (page->size == 0)
        return;
    page->fresh = false;
    for (const char *at = page->held + strspn(page->held, " "); *at; at += strspn(at, " ")) {
        const size_t size = strcspn(at, " ");
        if (!fresh && column + 1 + size > LINE_MOST)
            fresh = true;
        if (column > 0)
            fputc(fresh ? '\n' : ' ', page->out);
        column = fresh ? 0 : column + 1;
        if (fresh && (*at == '.' || *at == '\''))
            column += (size_t)fprintf(page->out, "\\&");
        fwrite(at, 1, size, page->out);
        column += size;
        fresh = ends_sentence(at, size);
        at += size;
    }
    if (column > 0)
        fputc('\n', page->out);
    page->size = 0;
    page->held[0] = '\0';
}

void put_request(roff *page, const char *what)
{
    end_words(page);
    page->fresh = false;
    fprintf(page->out, "%s\n", what);
}

void put_paragraph(roff *page)
{
    end_words(page);
    if (!page->fresh)
        put_request(page, ".PP");
}

void put_heading(roff *page, const char *what, const char *text)
{
    end_words(page);
    fprintf(page->out, "%s ", what);
    add_words(page, text, strlen(text));
    for (const char *at = page->held; *at; at++) {
        if (*at == '"')
            fputs("\\(dq", page->out); /* a bare one would begin a quoted argument */
        else
            fputc(*at, page->out);
    }
    fputc('\n', page->out);
    page->size = 0;
    page->held[0] = '\0';
    page->fresh = true;
}

void begin_example(roff *page)
{
    end_words(page);
    if (!page->fresh)
        put_request(page, ".sp");
    put_request(page, ".RS 4\n.EX");
}

void end_example(roff *page)
{
    put_request(page, ".EE\n.RE");
}

void put_example_line(roff *page, const char *line, size_t size)
{
    if (size > 0 && (*line == '.' || *line == '\''))
        hold_text(page, "\\&");
    hold_escaped(page, line, size, true);
    fprintf(page->out, "%s\n", page->size ? page->held : "");
    page->size = 0;
    if (page->held)
        page->held[0] = '\0';
}

void begin_page(roff *page, const job *of, const char *name, int section)
{
    char path[80], title[64];
    snprintf(path, sizeof path, "%s.%d", name, section);
    *page = (roff){.out = begin_file(of, path)};
    hold(page, "", 0);
    snprintf(title, sizeof title, "%s", name);
    for (char *at = title; *at; at++)
        if (*at >= 'a' && *at <= 'z')
            *at = (char)(*at - 'a' + 'A');
    fprintf(page->out, ".TH ");
    hold_escaped(page, title, strlen(title), true);
    fprintf(page->out, "%s %d %s \"Hammerline %s\" \"Hammerline manual\"\n", page->held, section, of->date,
            HL_VERSION);
    page->size = 0;
    page->held[0] = '\0';
}

void end_page(roff *page)
{
    end_words(page);
    end_file(page->out, "a manual page");
    free(page->held);
    *page = (roff){.out = NULL};
}
