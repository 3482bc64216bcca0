/* complete_bash.c - the completion for bash (layer: pages). */
#include "pages.h"

#include <string.h>

static const char head[] =
    "# bash completion for hammerline; made from its option table.\n"
    "\n"
    "_hammerline_words()\n"
    "{\n"
    "    mapfile -t COMPREPLY < <(compgen -W \"$1\" -- \"$cur\")\n"
    "}\n"
    "\n"
    "_hammerline_files()\n"
    "{\n"
    "    compopt -o filenames 2>/dev/null\n"
    "    mapfile -t -O \"${#COMPREPLY[@]}\" COMPREPLY < <(compgen \"${1:--f}\" -- \"$cur\")\n"
    "}\n"
    "\n"
    "_hammerline_books()\n"
    "{\n"
    "    [[ $cur == */* ]] ||\n"
    "        _hammerline_words \"$(\"$program\" rules list 2>/dev/null | sed 's/ .*//')\"\n"
    "    _hammerline_files\n"
    "}\n"
    "\n";

/* The program's words so far: $command, $form, and whether "--" has been. */
static const char find_words[] =
    "_hammerline()\n"
    "{\n"
    "    local program=$1 cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD - 1]}\n"
    "    local command= form= ended= i\n"
    "    if [ \"$cur\" = \"=\" ]; then\n"
    "        cur=\n"
    "    elif [ \"$prev\" = \"=\" ]; then\n"
    "        prev=${COMP_WORDS[COMP_CWORD - 2]}\n"
    "    fi\n"
    "    COMPREPLY=()\n"
    "    for ((i = 1; i < COMP_CWORD; i++)); do\n"
    "        case $ended${COMP_WORDS[i]} in\n"
    "        --) ended=/ ;;\n";

static void put_kind(FILE *out, value_kind kind, const char *words)
{
    static const char *const says[] = {[VALUE_FREE] = ":",
                                       [VALUE_FILE] = "_hammerline_files",
                                       [VALUE_FOLDER] = "_hammerline_files -d",
                                       [VALUE_BOOK] = "_hammerline_books"};
    if (kind == VALUE_WORDS)
        fprintf(out, "_hammerline_words \"%s\"", words);
    else
        fprintf(out, "%s", says[kind]);
}

/* Options that take a value, of a command ("" is none): a pattern for "command:option". */
static void put_values(FILE *out, const char *name, const option_row *rows)
{
    for (; rows && rows->id != OPTION_END; rows++) {
        const char *words;
        if (!rows->value)
            continue;
        fprintf(out, "    %s:--%s", name, rows->name);
        if (rows->letter)
            fprintf(out, " | %s:-%c", name, rows->letter);
        fprintf(out, ")\n        ");
        const value_kind kind = kind_of_value(rows->value, &words);
        put_kind(out, kind, words);
        fprintf(out, "\n        return\n        ;;\n");
    }
}

/* "--rules | --book | -o": what is followed by a value, whatever the command. */
static void put_skips(FILE *out)
{
    const char *between = "        ";
    for (const command *row = NULL; !row || row->name; row = row ? row + 1 : commands) {
        for (const option_row *of = row ? row->options : common_options; of && of->id != OPTION_END; of++) {
            if (!of->value)
                continue;
            fprintf(out, "%s--%s", between, of->name);
            between = " | ";
            if (of->letter)
                fprintf(out, " | -%c", of->letter);
        }
    }
    fprintf(out, ")\n            [ \"${COMP_WORDS[i + 1]}\" = \"=\" ] && ((i++))\n            ((i++))\n"
                 "            ;;\n");
}

static void put_option_names(FILE *out, const option_row *rows)
{
    for (; rows && rows->id != OPTION_END; rows++) {
        fprintf(out, " --%s", rows->name);
        if (rows->letter)
            fprintf(out, " -%c", rows->letter);
    }
}

static void put_names(FILE *out, const command *of)
{
    fprintf(out, "        %s:*) _hammerline_words \"", of ? of->name : "");
    put_option_names(out, of ? of->options : NULL);
    put_option_names(out, common_options);
    fprintf(out, "\" ;;\n");
}

/* What stands after the command: its forms, then files or books. */
static void put_operands(FILE *out, const command *of)
{
    char form[32];
    if (has_forms(of)) {
        fprintf(out, "    %s:) _hammerline_words \"", of->name);
        for (int i = 0; nth_form(of, i, form, sizeof form); i++)
            fprintf(out, "%s%s", i ? " " : "", form);
        fprintf(out, "\" ;;\n");
        for (int i = 0; nth_form(of, i, form, sizeof form); i++) {
            fprintf(out, "    %s:%s) ", of->name, form);
            put_kind(out, kind_of_words(of, form), "");
            fprintf(out, " ;;\n");
        }
    } else {
        fprintf(out, "    %s:*) ", of->name);
        put_kind(out, kind_of_words(of, NULL), "");
        fprintf(out, " ;;\n");
    }
}

void write_bash(const job *of)
{
    FILE *out = begin_file(of, "hammerline.bash");
    fprintf(out, "%s%s", head, find_words);
    put_skips(out);
    fprintf(out, "        -*) ;;\n"
                 "        *) if [ -z \"$command\" ]; then command=${COMP_WORDS[i]}; else "
                 "form=${form:-${COMP_WORDS[i]}}; fi ;;\n"
                 "        esac\n    done\n    case $ended$command:$prev in\n");
    put_values(out, "*", common_options);
    for (const command *row = commands; row->name; row++)
        put_values(out, row->name, row->options);
    fprintf(out, "    esac\n    if [ -z \"$ended\" ] && [[ $cur == -* ]]; then\n        case $command: in\n");
    put_names(out, NULL);
    for (const command *row = commands; row->name; row++)
        put_names(out, row);
    fprintf(out,
            "        esac\n        return\n    fi\n    case $command:$form in\n    :) _hammerline_words \"");
    for (const command *row = commands; row->name; row++)
        fprintf(out, "%s%s", row == commands ? "" : " ", row->name);
    fprintf(out, "\" ;;\n");
    for (const command *row = commands; row->name; row++)
        put_operands(out, row);
    fprintf(out, "    esac\n}\ncomplete -F _hammerline hammerline\n");
    end_file(out, "the completion for bash");
}
