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

/* The program's words so far: $command, $form, and whether "--" was there. */
static const char find_words[] =
    "_hammerline()\n"
    "{\n"
    "    local program=$1 cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD - 1]}\n"
    "    local command= form= ended= at i\n"
    "    if [ \"$cur\" = \"=\" ]; then\n"
    "        cur=\n"
    "    elif [ \"$prev\" = \"=\" ]; then\n"
    "        prev=${COMP_WORDS[COMP_CWORD - 2]}\n"
    "    fi\n"
    "    COMPREPLY=()\n"
    "    for ((i = 1; i < COMP_CWORD; i++)); do\n"
    "        case $ended${COMP_WORDS[i]} in\n"
    "        --) ended=/ ;;\n";

static void put_kind(FILE *out, value_kind kind)
{
    static const char *const says[] = {[VALUE_FREE] = ":",
                                       [VALUE_WORDS] = ":",
                                       [VALUE_FILE] = "_hammerline_files",
                                       [VALUE_FOLDER] = "_hammerline_files -d",
                                       [VALUE_BOOK] = "_hammerline_books"};
    fputs(says[kind], out);
}

/* "--book | -b": an option as it is typed. */
static void put_typed(FILE *out, const option_row *row)
{
    fprintf(out, "--%s", row->name);
    if (row->letter)
        fprintf(out, " | -%c", row->letter);
}

/* What the value of an option can be; it means the same in every form. */
static void put_values(FILE *out)
{
    const option_row *rows[OPTIONS_ROOM];
    const int n = list_options(rows);
    for (int i = 0; i < n; i++) {
        if (!rows[i]->value)
            continue;
        fputs("    ", out);
        put_typed(out, rows[i]);
        fputs(")\n        ", out);
        if (kind_of_value(rows[i]) == VALUE_WORDS) {
            fputs("_hammerline_words \"", out);
            put_value_words(out, rows[i]);
            fputs("\"", out);
        } else {
            put_kind(out, kind_of_value(rows[i]));
        }
        fputs("\n        return\n        ;;\n", out);
    }
}

/* "--rules | --book | -o": what is followed by a value. */
static void put_skips(FILE *out)
{
    const option_row *rows[OPTIONS_ROOM];
    const int n = list_options(rows);
    const char *between = "        ";
    for (int i = 0; i < n; i++) {
        if (!rows[i]->value)
            continue;
        fputs(between, out);
        put_typed(out, rows[i]);
        between = " | ";
    }
    fprintf(out, ")\n            [ \"${COMP_WORDS[i + 1]}\" = \"=\" ] && ((i++))\n            ((i++))\n"
                 "            ;;\n");
}

static void put_option_names(FILE *out, const option_row *rows)
{
    for (; rows->id != OPTION_END; rows++) {
        fprintf(out, " --%s", rows->name);
        if (rows->letter)
            fprintf(out, " -%c", rows->letter);
    }
}

/* The options of a form, the common ones with them. */
static void put_names(FILE *out, const char *name, const option_row *own, const option_row *common)
{
    fprintf(out, "        '%s') _hammerline_words \"", name);
    if (own)
        put_option_names(out, own);
    put_option_names(out, common);
    fprintf(out, "\" ;;\n");
}

static void put_all_names(FILE *out)
{
    put_names(out, "", NULL, program_options);
    for (const command *row = commands; row->name; row++) {
        if (row->forms->name) {
            char name[64];
            snprintf(name, sizeof name, "%s ", row->name);
            put_names(out, name, NULL, common_options); /* the form is not typed yet */
        }
        for (const command_form *of = row->forms; of->run; of++) {
            char name[64];
            name_form(name, sizeof name, of);
            put_names(out, name, of->options, common_options);
        }
    }
}

/* What follows the command: its forms, then files or books. */
static void put_operands(FILE *out, const command *row)
{
    if (row->forms->name) {
        fprintf(out, "    '%s ') _hammerline_words \"", row->name);
        for (const command_form *of = row->forms; of->run; of++)
            fprintf(out, "%s%s", of == row->forms ? "" : " ", of->name);
        fprintf(out, "\" ;;\n");
    }
    for (const command_form *of = row->forms; of->run; of++) {
        char name[64];
        name_form(name, sizeof name, of);
        fprintf(out, "    '%s') ", name);
        put_kind(out, kind_of_operands(of));
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
                 "        esac\n    done\n    case $command in\n    ");
    const char *between = "";
    for (const command *row = commands; row->name; row++) {
        if (!row->forms->name)
            continue;
        fprintf(out, "%s%s", between, row->name);
        between = " | ";
    }
    fprintf(out, ") at=\"$command $form\" ;;\n    *) at=$command ;;\n    esac\n    case $ended$prev in\n");
    put_values(out);
    fprintf(out, "    esac\n    if [ -z \"$ended\" ] && [[ $cur == -* ]]; then\n        case $at in\n");
    put_all_names(out);
    fprintf(out, "        esac\n        return\n    fi\n    case $at in\n    '') _hammerline_words \"");
    for (const command *row = commands; row->name; row++)
        fprintf(out, "%s%s", row == commands ? "" : " ", row->name);
    fprintf(out, "\" ;;\n");
    for (const command *row = commands; row->name; row++)
        put_operands(out, row);
    fprintf(out, "    esac\n}\ncomplete -F _hammerline hammerline\n");
    end_file(out, "the completion for bash");
}
