/* man_pages.c - the manual pages, from the option table and docs/ (layer: pages). */
#include "pages.h"

#include <stdlib.h>
#include <string.h>

#define NAME_ROOM 64

static bool is_capital(char c)
{
    return c >= 'A' && c <= 'Z';
}

/* "SHEET NOTE [STEP]": what is to be replaced is in italics. */
static void put_operands(FILE *out, const char *operands)
{
    for (size_t i = 0; operands[i];) {
        const size_t size = strspn(operands + i, "ABCDEFGHIJKLMNOPQRSTUVWXYZ");
        if (size > 0) {
            fprintf(out, "*%.*s*", (int)size, operands + i);
            i += size;
            continue;
        }
        if (operands[i] == '[' || operands[i] == ']')
            fputc('\\', out);
        fputc(operands[i++], out);
    }
}

/* "**hammerline sheet new** [*OPTION*...] *BOOK*" */
static void put_usage(FILE *out, const command_form *of)
{
    char name[NAME_ROOM];
    name_form(name, sizeof name, of);
    fprintf(out, "**hammerline %s** \\[*OPTION*...\\]%s", name, of->operands[0] ? " " : "");
    put_operands(out, of->operands);
    fputs("\n\n", out);
}

static void put_options(FILE *out, const option_row *rows)
{
    for (; rows->id != OPTION_END; rows++) {
        fputs("- ", out);
        if (rows->letter)
            fprintf(out, "**-%c**, ", rows->letter);
        fprintf(out, "**--%s**", rows->name);
        if (rows->value)
            fprintf(out, " *%s*", rows->value);
        fputs(": ", out);
        put_plain(out, rows->about);
        fputs(".\n\n", out);
    }
}

static void put_exit_codes(FILE *out)
{
    fputs("# EXIT STATUS\n\nThe worst of a run wins.\n\n", out);
    for (const exit_meaning *row = exit_meanings; row->meaning; row++) {
        fprintf(out, "- **%d**: ", row->code);
        put_plain(out, row->meaning);
        fputs(".\n\n", out);
    }
}

static void put_more(FILE *out, const char *more)
{
    if (!more)
        return;
    put_plain(out, more);
    fputs("\n\n", out);
}

static void put_examples(FILE *out, const char *examples)
{
    for (const char *at = examples; *at;) {
        const size_t size = strcspn(at, "\n");
        fprintf(out, "hammerline %.*s\n", (int)size, at);
        at += size + (at[size] == '\n');
    }
}

/* The first letter is small: what follows a page's name is no sentence. */
static void put_name(FILE *out, const char *name, const char *about)
{
    char first[2] = {about[0], '\0'};
    if (is_capital(first[0]))
        first[0] = (char)(first[0] - 'A' + 'a');
    fprintf(out, "# NAME\n\n%s - %s", name, first);
    put_plain(out, about + 1);
    fputs("\n\n", out);
}

/* All pages but the one it is on. */
static void put_see_also(FILE *out, const char *but, int section)
{
    const char *between = "";
    fputs("# SEE ALSO\n\n", out);
    if (strcmp(but, "hammerline") != 0) {
        fputs("**hammerline**(1)", out);
        between = ", ";
    }
    for (const command *row = commands; row->name; row++) {
        char name[NAME_ROOM];
        snprintf(name, sizeof name, "hammerline-%s", row->name);
        if (section == 1 && strcmp(but, name) == 0)
            continue;
        fprintf(out, "%s**%s**(1)", between, name);
        between = ", ";
    }
    if (section != 5 || strcmp(but, "hammerline-rules") != 0)
        fputs(", **hammerline-rules**(5)", out);
    if (section != 5 || strcmp(but, "hammerline-sheet") != 0)
        fputs(", **hammerline-sheet**(5)", out);
    fputs("\n", out);
}

/* ---- the pages ----------------------------------------------------------------------------- */

static void write_command(const job *of, const command *row)
{
    char name[NAME_ROOM], file[NAME_ROOM + 8], document[NAME_ROOM];
    snprintf(name, sizeof name, "hammerline-%s", row->name);
    snprintf(file, sizeof file, "%s.1.md", name);
    snprintf(document, sizeof document, "man/%s.md", row->name);
    char *text = read_document(of, document);
    FILE *out = begin_file(of, file);
    put_name(out, name, row->about);
    fputs("# SYNOPSIS\n\n", out);
    for (const command_form *form = row->forms; form->run; form++)
        put_usage(out, form);
    fputs("# DESCRIPTION\n\n", out);
    const char *rest = put_document(out, text, "## ");
    fputc('\n', out);
    put_more(out, row->more);
    if (!row->forms->name) {
        put_more(out, row->forms->more);
        fputs("# OPTIONS\n\n", out);
        put_options(out, row->forms->options);
    } else {
        fputs("# FORMS\n\n", out);
        for (const command_form *form = row->forms; form->run; form++) {
            fprintf(out, "## %s %s\n\n", row->name, form->name);
            put_usage(out, form);
            put_plain(out, form->about);
            fputs(".\n\n", out);
            put_more(out, form->more);
            put_options(out, form->options);
        }
        fputs("# OPTIONS\n\nEvery form takes these.\n\n", out);
    }
    put_options(out, common_options);
    put_exit_codes(out);
    put_document(out, rest, NULL);
    fputc('\n', out);
    fputs("# EXAMPLES\n\n```\n", out);
    for (const command_form *form = row->forms; form->run; form++)
        put_examples(out, form->examples);
    fputs("```\n\n", out);
    put_see_also(out, name, 1);
    end_file(out, file);
    free(text);
}

static void write_program(const job *of)
{
    char *text = read_document(of, "man/hammerline.md");
    FILE *out = begin_file(of, "hammerline.1.md");
    put_name(out, "hammerline", "check the regulation of a piano action, and say what to turn, and how far");
    fputs("# SYNOPSIS\n\n**hammerline** *COMMAND* \\[*OPTION*...\\]\n\n"
          "**hammerline** *COMMAND* **--help**\n\n# DESCRIPTION\n\n",
          out);
    const char *rest = put_document(out, text, "## ");
    fputc('\n', out);
    fputs("# COMMANDS\n\n", out);
    for (const command *row = commands; row->name; row++) {
        fprintf(out, "- **hammerline-%s**(1): ", row->name);
        put_plain(out, row->about);
        fputs(".\n\n", out);
    }
    fputs("# OPTIONS\n\n", out);
    put_options(out, program_options);
    put_exit_codes(out);
    put_document(out, rest, NULL);
    fputc('\n', out);
    put_see_also(out, "hammerline", 1);
    end_file(out, "hammerline.1.md");
    free(text);
}

static void write_document(const job *of, const char *name, const char *document, const char *about)
{
    char file[NAME_ROOM + 8];
    snprintf(file, sizeof file, "%s.5.md", name);
    char *text = read_document(of, document);
    FILE *out = begin_file(of, file);
    put_name(out, name, about);
    fputs("# DESCRIPTION\n\n", out);
    put_document(out, text, NULL);
    fputs("\n", out);
    put_see_also(out, name, 5);
    end_file(out, file);
    free(text);
}

void write_man_pages(const job *of)
{
    write_program(of);
    for (const command *row = commands; row->name; row++)
        write_command(of, row);
    write_document(of, "hammerline-sheet", "sheets.md", "how a sheet of readings is written");
    write_document(of, "hammerline-rules", "rules.md", "how a shop's targets, steps and tools are written");
}
