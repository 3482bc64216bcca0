/* man_command.c - the pages of the commands, from the option table and docs/man (layer: pages). */
#include "pages.h"

#include <stdlib.h>
#include <string.h>

#define NAME_ROOM 64

static bool is_capital(char c)
{
    return c >= 'A' && c <= 'Z';
}

/* "rules show BOOK STEP [--note NOTE]": what is typed is bold, what it stands for is italic. */
static void add_usage(roff *page, const char *usage, size_t size)
{
    for (size_t i = 0; i < size;) {
        size_t n = 1;
        const bool name = is_capital(usage[i]);
        const bool word = name || (usage[i] >= 'a' && usage[i] <= 'z') || usage[i] == '-';
        while (word && i + n < size && !strchr(" []|.", usage[i + n]))
            n++;
        if (word)
            add_literal(page, name ? 'I' : 'B', usage + i, n);
        else
            add_literal(page, 'R', usage + i, n);
        i += n;
    }
}

static void put_usage(roff *page, const char *usage, size_t size)
{
    put_paragraph(page);
    add_literal(page, 'B', "hammerline", 10);
    add_words(page, " ", 1);
    add_usage(page, usage, size);
    end_words(page);
}

static void put_synopsis(roff *page, const command *of)
{
    char form[32];
    put_heading(page, ".SH", "SYNOPSIS");
    if (!has_forms(of))
        put_usage(page, of->usage, strlen(of->usage));
    for (int i = 0; nth_form(of, i, form, sizeof form); i++) {
        size_t size;
        for (const char *line = of->more; (line = next_form_line(line, form, &size)) != NULL; line += size) {
            char usage[160];
            const int n = snprintf(usage, sizeof usage, "%s %.*s", of->name, (int)size, line);
            if (n < 0 || (size_t)n >= sizeof usage)
                give_up("a usage line is too long:", usage);
            put_usage(page, usage, (size_t)n);
        }
    }
}

void put_options(roff *page, const option_row *rows)
{
    for (; rows && rows->id != OPTION_END; rows++) {
        put_request(page, ".TP");
        if (rows->letter) {
            const char letter[3] = {'-', (char)rows->letter, '\0'};
            add_literal(page, 'B', letter, 2);
            add_words(page, ", ", 2);
        }
        add_literal(page, 'B', "--", 2);
        add_literal(page, 'B', rows->name, strlen(rows->name));
        if (rows->value) {
            add_words(page, " ", 1);
            add_literal(page, 'I', rows->value, strlen(rows->value));
        }
        end_words(page);
        add_plain(page, rows->about, strlen(rows->about));
        add_words(page, ".", 1);
        end_words(page);
    }
}

void put_exit_codes(roff *page)
{
    put_heading(page, ".SH", "EXIT STATUS");
    add_words(page, "The worst of a run wins.", 24);
    for (int i = 0; i <= EXIT_NOT_SAVED; i++) {
        char code[8];
        put_request(page, ".TP");
        add_literal(page, 'B', code, (size_t)snprintf(code, sizeof code, "%d", i));
        end_words(page);
        add_plain(page, exit_meanings[i], strlen(exit_meanings[i]));
        end_words(page);
    }
}

/* "  show BOOK    what it does": a term and what it says, which may go on in deeper lines. */
static void put_term(roff *page, const char *line, size_t size)
{
    const size_t spaces = strspn(line, " ");
    const char *gap = strstr(line + spaces, "  ");
    if (spaces == 2 && gap && gap < line + size) {
        put_request(page, ".TP");
        add_usage(page, line + spaces, (size_t)(gap - line) - spaces);
        end_words(page);
        gap += strspn(gap, " ");
        add_plain(page, gap, (size_t)(line + size - gap));
    } else {
        add_words(page, " ", 1);
        add_plain(page, line + spaces, size - spaces);
    }
}

/* Does a new paragraph begin here, though no blank line says so? */
static bool begins_anew(const char *before, size_t size, const char *line)
{
    return size > 0 && !strchr(".,;:", before[size - 1]) && is_capital(*line);
}

/* The help's own text without its examples: terms are set in by two spaces. */
static void put_more(roff *page, const char *more)
{
    bool in_examples = false;
    size_t size, before_size = 0;
    const char *before = more;
    for (const char *line = more; *line; line += size + (line[size] == '\n')) {
        size = strcspn(line, "\n");
        if (strncmp(line, "Example", 7) == 0)
            in_examples = true;
        else if (size == 0)
            in_examples = false;
        if (!in_examples && strncmp(line, "  ", 2) == 0) {
            put_term(page, line, size);
        } else if (!in_examples && size > 0) {
            if (before_size == 0 || begins_anew(before, before_size, line))
                put_paragraph(page);
            else
                add_words(page, " ", 1);
            add_plain(page, line, size);
        }
        before = line;
        before_size = in_examples ? 0 : size;
    }
    end_words(page);
}

static void put_examples(roff *page, const char *more)
{
    const char *line = strstr(more, "Example");
    put_heading(page, ".SH", "EXAMPLES");
    if (!line)
        give_up("the help has no examples:", more);
    begin_example(page);
    for (line += strcspn(line, "\n") + 1; strncmp(line, "  ", 2) == 0;) {
        const size_t size = strcspn(line, "\n");
        put_example_line(page, line + 2, size - 2);
        line += size + (line[size] == '\n');
    }
    end_example(page);
}

void put_name(roff *page, const char *name, const char *about)
{
    char first[2] = {about[0], '\0'};
    if (is_capital(first[0]))
        first[0] = (char)(first[0] - 'A' + 'a');
    put_heading(page, ".SH", "NAME");
    add_literal(page, 'R', name, strlen(name));
    add_words(page, " - ", 3);
    add_words(page, first, 1);
    add_plain(page, about + 1, strlen(about + 1));
    end_words(page);
}

void put_see_also(roff *page, const char *but)
{
    char name[NAME_ROOM];
    put_heading(page, ".SH", "SEE ALSO");
    if (strcmp(but, "hammerline") != 0)
        add_reference(page, "hammerline", 1, ",");
    for (const command *row = commands; row->name; row++) {
        snprintf(name, sizeof name, "hammerline-%s", row->name);
        if (strcmp(but, name) != 0)
            add_reference(page, name, 1, ",");
    }
    if (strcmp(but, "hammerline-rules(5)") != 0)
        add_reference(page, "hammerline-rules", 5, strcmp(but, "hammerline-sheet(5)") == 0 ? "" : ",");
    if (strcmp(but, "hammerline-sheet(5)") != 0)
        add_reference(page, "hammerline-sheet", 5, "");
    end_words(page);
}

void write_command_page(const job *of, const command *row)
{
    roff page;
    char name[NAME_ROOM], document[NAME_ROOM];
    snprintf(name, sizeof name, "hammerline-%s", row->name);
    snprintf(document, sizeof document, "man/%s.md", row->name);
    char *text = read_document(of, document);
    begin_page(&page, of, name, 1);
    put_name(&page, name, row->about);
    put_synopsis(&page, row);
    put_heading(&page, ".SH", "DESCRIPTION");
    const char *rest = put_document(&page, text, "## ");
    put_more(&page, row->more);
    put_heading(&page, ".SH", "OPTIONS");
    put_options(&page, row->options);
    put_options(&page, common_options);
    put_exit_codes(&page);
    put_document(&page, rest, NULL);
    put_examples(&page, row->more);
    put_see_also(&page, name);
    end_page(&page);
    free(text);
}
