/* complete_fish.c - the completion for fish (layer: pages). */
#include "pages.h"

#include <string.h>

static const char head[] = "# fish completion for hammerline; made from its option table.\n"
                           "\n"
                           "function __hammerline_books\n"
                           "    hammerline rules list 2>/dev/null | string replace -r ' .*' ''\n"
                           "    __fish_complete_suffix .lua\n"
                           "end\n"
                           "\n"
                           "complete -c hammerline -f\n";

static void put_text(FILE *out, const char *text)
{
    fputc('\'', out);
    for (; *text; text++) {
        if (*text == '\'' || *text == '\\')
            fputc('\\', out);
        fputc(*text, out);
    }
    fputc('\'', out);
}

static void put_kind(FILE *out, const option_row *row)
{
    switch (kind_of_value(row)) {
    case VALUE_FREE:
        fprintf(out, " -x");
        break;
    case VALUE_WORDS:
        fprintf(out, " -x -a '");
        put_value_words(out, row);
        fprintf(out, "'");
        break;
    case VALUE_FILE:
        fprintf(out, " -r -F");
        break;
    case VALUE_FOLDER:
        fprintf(out, " -x -a '(__fish_complete_directories)'");
        break;
    case VALUE_BOOK:
        fprintf(out, " -x -a '(__hammerline_books)'");
        break;
    }
}

/* Options that are offered when `when` holds; "" is always. */
static void put_options(FILE *out, const char *when, const option_row *rows)
{
    for (; rows->id != OPTION_END; rows++) {
        fprintf(out, "complete -c hammerline");
        if (when[0])
            fprintf(out, " -n '%s'", when);
        if (rows->letter)
            fprintf(out, " -s %c", rows->letter);
        fprintf(out, " -l %s", rows->name);
        if (rows->value)
            put_kind(out, rows);
        fprintf(out, " -d ");
        put_text(out, rows->about);
        fputc('\n', out);
    }
}

/* The program's own options that no command takes. */
static void put_program_options(FILE *out)
{
    for (const option_row *row = program_options; row->id != OPTION_END; row++) {
        const option_row one[] = {*row, {.id = OPTION_END}};
        bool common = false;
        for (const option_row *other = common_options; other->id != OPTION_END; other++)
            common = common || other->id == row->id;
        if (!common)
            put_options(out, "__fish_use_subcommand", one);
    }
}

/* A form's operands, when `when` holds. */
static void put_operands(FILE *out, const char *when, const command_form *of)
{
    const value_kind kind = kind_of_operands(of);
    if (kind == VALUE_FILE)
        fprintf(out, "complete -c hammerline -n '%s' -F\n", when);
    else if (kind == VALUE_BOOK)
        fprintf(out, "complete -c hammerline -n '%s' -a '(__hammerline_books)'\n", when);
}

static void put_command(FILE *out, const command *row)
{
    char when[160];
    if (row->forms->name) {
        fprintf(out,
                "complete -c hammerline -n '__fish_seen_subcommand_from %s; and not "
                "__fish_seen_subcommand_from",
                row->name);
        for (const command_form *of = row->forms; of->run; of++)
            fprintf(out, " %s", of->name);
        fprintf(out, "' -a '");
        for (const command_form *of = row->forms; of->run; of++)
            fprintf(out, "%s%s", of == row->forms ? "" : " ", of->name);
        fprintf(out, "'\n");
    }
    for (const command_form *of = row->forms; of->run; of++) {
        snprintf(when, sizeof when, "__fish_seen_subcommand_from %s%s%s", row->name,
                 of->name ? "; and __fish_seen_subcommand_from " : "", of->name ? of->name : "");
        put_options(out, when, of->options);
        put_operands(out, when, of);
    }
}

void write_fish(const job *of)
{
    FILE *out = begin_file(of, "hammerline.fish");
    fprintf(out, "%s", head);
    put_options(out, "", common_options);
    put_program_options(out);
    for (const command *row = commands; row->name; row++) {
        fprintf(out, "complete -c hammerline -n __fish_use_subcommand -a %s -d ", row->name);
        put_text(out, row->about);
        fputc('\n', out);
    }
    for (const command *row = commands; row->name; row++)
        put_command(out, row);
    end_file(out, "the completion for fish");
}
