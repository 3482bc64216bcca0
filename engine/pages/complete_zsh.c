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
    "  local -a common\n";

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

static void put_action(FILE *out, value_kind kind, const option_row *row)
{
    static const char *const says[] = {[VALUE_FREE] = "",
                                       [VALUE_WORDS] = "",
                                       [VALUE_FILE] = "_files",
                                       [VALUE_FOLDER] = "_files -/",
                                       [VALUE_BOOK] = "_hammerline_books"};
    fputs(says[kind], out);
    if (kind == VALUE_WORDS) {
        fputc('(', out);
        put_value_words(out, row);
        fputc(')', out);
    }
}

/* '*--book=[judge by this book]:BOOK:_hammerline_books', a line each. */
static void put_specs(FILE *out, const option_row *rows, const char *indent, const char *end)
{
    for (; rows->id != OPTION_END; rows++) {
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
                put_action(out, kind_of_value(rows), rows);
            }
            fprintf(out, "'%s\n", end);
        }
    }
}

static void put_form(FILE *out, const command_form *of, const char *indent)
{
    fprintf(out, "%s_arguments -s $common \\\n", indent);
    put_specs(out, of->options, "          ", " \\");
    fprintf(out, "          '*: :");
    put_action(out, kind_of_operands(of), NULL);
    fprintf(out, "' && ret=0\n");
}

static void put_command(FILE *out, const command *row)
{
    fprintf(out, "    %s)\n", row->name);
    if (!row->forms->name) {
        put_form(out, row->forms, "      ");
        fprintf(out, "      ;;\n");
        return;
    }
    fprintf(out, "      _arguments -C $common '1: :(");
    for (const command_form *of = row->forms; of->run; of++)
        fprintf(out, "%s%s", of == row->forms ? "" : " ", of->name);
    fprintf(out, ")' '*:: :->operand' && ret=0\n      if [[ $state == operand ]]; then\n"
                 "        case $words[1] in\n");
    for (const command_form *of = row->forms; of->run; of++) {
        fprintf(out, "        %s)\n", of->name);
        put_form(out, of, "          ");
        fprintf(out, "          ;;\n");
    }
    fprintf(out, "        esac\n      fi\n      ;;\n");
}

void write_zsh(const job *of)
{
    FILE *out = begin_file(of, "_hammerline");
    fprintf(out, "%s  common=(\n", head);
    put_specs(out, common_options, "    ", "");
    fprintf(out, "  )\n  _arguments -C \\\n");
    put_specs(out, program_options, "    ", " \\");
    fprintf(out, "    '1: :->command' '*:: :->words' && ret=0\n"
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
