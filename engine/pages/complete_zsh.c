/* complete_zsh.c - the completion for zsh (layer: pages). */
#include "pages.h"

#include <string.h>

static const char head[] =
    "#compdef hammerline\n"
    "# Made from hammerline's option table.\n"
    "\n"
    "_hammerline_books() {\n"
    "  local -a books\n"
    "  books=(${${(f)\"$(_call_program books hammerline rules list 2>/dev/null)\"}%% *})\n"
    "  _alternative 'books:book:compadd -a books' 'files:rule file:_files -g \"*.lua\"'\n"
    "}\n"
    "\n"
    "_hammerline() {\n"
    "  local curcontext=$curcontext state line ret=1\n"
    "  typeset -A opt_args\n"
    "  local -a common forms\n";

/* Inside '...', and where ':' and brackets mean something. */
static void put_text(FILE *out, const char *text)
{
    for (; *text; text++) {
        if (*text == '\'')
            fputs("'\\''", out);
        else {
            if (strchr(":[]\\", *text))
                fputc('\\', out);
            fputc(*text, out);
        }
    }
}

static void put_action(FILE *out, value_kind kind, const char *words)
{
    static const char *const says[] = {[VALUE_FREE] = "",
                                       [VALUE_FILE] = "_files",
                                       [VALUE_FOLDER] = "_files -/",
                                       [VALUE_BOOK] = "_hammerline_books"};
    if (kind == VALUE_WORDS)
        fprintf(out, "(%s)", words);
    else
        fprintf(out, "%s", says[kind]);
}

/* '*--book=[judge by this book]:BOOK:_hammerline_books', a line each. */
static void put_specs(FILE *out, const option_row *rows, const char *indent, const char *end)
{
    for (; rows && rows->id != OPTION_END; rows++) {
        const char *words = NULL;
        const value_kind kind = rows->value ? kind_of_value(rows->value, &words) : VALUE_FREE;
        for (int form = rows->letter ? 0 : 1; form < 2; form++) {
            fprintf(out, "%s'*", indent);
            if (form == 0)
                fprintf(out, "-%c%s", rows->letter, rows->value ? "+" : "");
            else
                fprintf(out, "--%s%s", rows->name, rows->value ? "=" : "");
            fputc('[', out);
            put_text(out, rows->about);
            fputc(']', out);
            if (rows->value) {
                fprintf(out, ":%s:", rows->value);
                put_action(out, kind, words);
            }
            fprintf(out, "'%s\n", end);
        }
    }
}

static void put_command(FILE *out, const command *of)
{
    char form[32];
    fprintf(out, "    %s)\n      _arguments -s -C $common \\\n", of->name);
    put_specs(out, of->options, "        ", " \\");
    if (!has_forms(of)) {
        fprintf(out, "        '*: :");
        put_action(out, kind_of_words(of, NULL), "");
        fprintf(out, "' && ret=0\n      ;;\n");
        return;
    }
    fprintf(out, "        '1: :(");
    for (int i = 0; nth_form(of, i, form, sizeof form); i++)
        fprintf(out, "%s%s", i ? " " : "", form);
    fprintf(out, ")' '*:: :->operand' && ret=0\n      if [[ $state == operand ]]; then\n"
                 "        case $line[1] in\n");
    for (int i = 0; nth_form(of, i, form, sizeof form); i++) {
        const value_kind kind = kind_of_words(of, form);
        fprintf(out, "        %s) ", form);
        put_action(out, kind, "");
        fprintf(out, "%s && ret=0 ;;\n", kind == VALUE_FREE ? "true" : "");
    }
    fprintf(out, "        esac\n      fi\n      ;;\n");
}

void write_zsh(const job *of)
{
    FILE *out = begin_file(of, "_hammerline");
    fprintf(out, "%s  common=(\n", head);
    put_specs(out, common_options, "    ", "");
    fprintf(out, "  )\n  _arguments -C $common '1: :->command' '*:: :->words' && ret=0\n"
                 "  case $state in\n  command)\n    local -a names\n    names=(\n");
    for (const command *row = commands; row->name; row++) {
        fprintf(out, "      '%s:", row->name);
        put_text(out, row->about);
        fprintf(out, "'\n");
    }
    fprintf(out, "    )\n    _describe -t commands command names && ret=0\n    ;;\n  words)\n"
                 "    curcontext=${curcontext%%:*:*}:hammerline-$words[1]:\n    case $words[1] in\n");
    for (const command *row = commands; row->name; row++)
        put_command(out, row);
    fprintf(out, "    esac\n    ;;\n  esac\n  return ret\n}\n\n_hammerline \"$@\"\n");
    end_file(out, "the completion for zsh");
}
