/* help.c - the help of the program, of a command and of a form, from the table (layer: cli). */
#include "options.h"
#include "output.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#define WIDTH  80
#define COLUMN 26 /* where the words about an option or a form begin */
#define GAP    2

/* A paragraph between two margins. */
static void say_paragraph(const char *text, int first, int hang)
{
    const hl_print print = {.width = WIDTH};
    char *made = NULL;
    size_t size = 0;
    hl_err err;
    if (hl_paragraph_text(&made, &size, text, first, hang, &print, &err) == HL_OK)
        say_text(made, size);
    else
        report(&err);
    hl_free(made);
}

/* "  -o, --output FILE       write it here": the words begin on the next line when the term is long. */
static void say_term(const char *term, const char *about)
{
    char *made = NULL;
    size_t size = 0;
    hl_err err;
    const hl_print print = {.width = WIDTH};
    if ((int)strlen(term) > COLUMN - GAP) {
        say("%s\n", term);
        say_paragraph(about, COLUMN, COLUMN);
        return;
    }
    if (hl_paragraph_text(&made, &size, about, COLUMN, COLUMN, &print, &err) == HL_OK) {
        say("%-*s", COLUMN, term);
        say_text(made + COLUMN, size - COLUMN);
    } else {
        report(&err);
    }
    hl_free(made);
}

static void say_options(const option_row *rows)
{
    for (; rows && rows->id != OPTION_END; rows++) {
        char term[80], letter[8] = "    ";
        if (rows->letter)
            snprintf(letter, sizeof letter, "-%c, ", rows->letter);
        snprintf(term, sizeof term, "  %s--%s%s%s", letter, rows->name, rows->value ? " " : "",
                 rows->value ? rows->value : "");
        say_term(term, rows->about);
    }
}

static void say_exits(void)
{
    say("\nExit codes, the worst one wins:\n");
    for (const exit_meaning *row = exit_meanings; row->meaning; row++)
        say("  %-5d%s\n", row->code, row->meaning);
}

/* Paragraphs with a blank line between. */
static void say_more(const char *more)
{
    for (const char *at = more; at && *at;) {
        const char *end = strstr(at, "\n\n");
        const size_t size = end ? (size_t)(end - at) : strlen(at);
        char text[1024];
        assert(size < sizeof text);
        snprintf(text, sizeof text, "%.*s", (int)size, at);
        say("\n");
        say_paragraph(text, 0, 0);
        at = end ? end + 2 : NULL;
    }
}

static void say_examples(const char *examples)
{
    say("\nExamples:\n");
    for (const char *at = examples; *at;) {
        const size_t size = strcspn(at, "\n");
        say("  hammerline %.*s\n", (int)size, at);
        at += size + (at[size] == '\n');
    }
}

static void say_usage(const command_form *of)
{
    char name[64];
    name_form(name, sizeof name, of);
    say("Usage: hammerline %s [OPTION...]%s%s\n\n", name, of->operands[0] ? " " : "", of->operands);
}

static void help_form(const command *about, const command_form *of)
{
    char text[256];
    say_usage(of);
    snprintf(text, sizeof text, "%s.", of->about);
    say_paragraph(text, 0, 0);
    say_more(of->more);
    say_more(about->more);
    say_examples(of->examples);
    say("\nOptions:\n");
    say_options(of->options);
    say_options(common_options);
    say_exits();
}

static void help_command(const command *about)
{
    char text[256];
    say("Usage: hammerline %s FORM ...\n\n", about->name);
    snprintf(text, sizeof text, "%s.", about->about);
    say_paragraph(text, 0, 0);
    say("\nForms:\n");
    for (const command_form *of = about->forms; of->run; of++) {
        char term[80];
        snprintf(term, sizeof term, "  %s%s%s", of->name, of->operands[0] ? " " : "", of->operands);
        say_term(term, of->about);
    }
    say_more(about->more);
    say("\n\"hammerline %s FORM --help\" lists the options of one.\n", about->name);
}

static void help_program(void)
{
    say("Usage: hammerline COMMAND [OPTION...]\n\n");
    say("Checks the regulation of a piano action, and says what to turn, and how far.\n\nCommands:\n");
    for (const command *row = commands; row->name; row++) {
        char term[160];
        snprintf(term, sizeof term, "  %s", row->name);
        for (const command_form *of = row->forms; of->run && of->name; of++) {
            const size_t end = strlen(term);
            snprintf(term + end, sizeof term - end, "%s%s", of == row->forms ? " " : "|", of->name);
        }
        say_term(term, row->about);
    }
    say("\nExample:\n  hammerline audit sheets/demo-grand.csv\n\n");
    say("\"hammerline COMMAND --help\" says more about one.\n\nOptions:\n");
    say_options(program_options);
    say_exits();
}

void print_help(const command *about, const command_form *of)
{
    if (of)
        help_form(about, of);
    else if (about)
        help_command(about);
    else
        help_program();
}
