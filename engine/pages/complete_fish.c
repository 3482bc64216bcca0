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

static void put_kind(FILE *out, value_kind kind, const char *words)
{
    switch (kind) {
    case VALUE_FREE:
        fprintf(out, " -x");
        break;
    case VALUE_WORDS:
        fprintf(out, " -x -a '%s'", words);
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

static void put_options_of(FILE *out, const char *name, const option_row *rows)
{
    for (; rows && rows->id != OPTION_END; rows++) {
        fprintf(out, "complete -c hammerline");
        if (name)
            fprintf(out, " -n '__fish_seen_subcommand_from %s'", name);
        if (rows->letter)
            fprintf(out, " -s %c", rows->letter);
        fprintf(out, " -l %s", rows->name);
        if (rows->value) {
            const char *words;
            const value_kind kind = kind_of_value(rows->value, &words);
            put_kind(out, kind, words);
        }
        fprintf(out, " -d ");
        put_text(out, rows->about);
        fputc('\n', out);
    }
}

/* Words after a command, when `when` holds. */
static void put_words(FILE *out, const char *when, value_kind kind)
{
    if (kind == VALUE_FILE)
        fprintf(out, "complete -c hammerline -n '%s' -F\n", when);
    else if (kind == VALUE_BOOK)
        fprintf(out, "complete -c hammerline -n '%s' -a '(__hammerline_books)'\n", when);
}

static void put_operands(FILE *out, const command *of)
{
    char form[32], when[160];
    snprintf(when, sizeof when, "__fish_seen_subcommand_from %s", of->name);
    if (!has_forms(of)) {
        put_words(out, when, kind_of_words(of, NULL));
        return;
    }
    fprintf(out, "complete -c hammerline -n '%s; and not __fish_seen_subcommand_from", when);
    for (int i = 0; nth_form(of, i, form, sizeof form); i++)
        fprintf(out, " %s", form);
    fprintf(out, "' -a '");
    for (int i = 0; nth_form(of, i, form, sizeof form); i++)
        fprintf(out, "%s%s", i ? " " : "", form);
    fprintf(out, "'\n");
    for (int i = 0; nth_form(of, i, form, sizeof form); i++) {
        snprintf(when, sizeof when, "__fish_seen_subcommand_from %s; and __fish_seen_subcommand_from %s",
                 of->name, form);
        put_words(out, when, kind_of_words(of, form));
    }
}

void write_fish(const job *of)
{
    FILE *out = begin_file(of, "hammerline.fish");
    fprintf(out, "%s", head);
    put_options_of(out, NULL, common_options);
    for (const command *row = commands; row->name; row++) {
        fprintf(out, "complete -c hammerline -n __fish_use_subcommand -a %s -d ", row->name);
        put_text(out, row->about);
        fputc('\n', out);
    }
    for (const command *row = commands; row->name; row++) {
        put_options_of(out, row->name, row->options);
        put_operands(out, row);
    }
    end_file(out, "the completion for fish");
}
