/* cmd_rules.c - "hammerline rules": the books, for who writes or trusts them (layer: cli/commands). */
#include "commands.h"
#include "confine.h"
#include "output_file.h"
#include "rules.h"

static int run_form(int (*form)(const request *, const bookshelf *), const request *asked)
{
    bookshelf shelf;
    if (!check_output(asked))
        return EXIT_WRONG_USE;
    int code = open_bookshelf(&shelf, asked);
    if (code == EXIT_READY) {
        confine(asked, &shelf);
        code = form(asked, &shelf);
    }
    close_bookshelf(&shelf);
    return code;
}

int run_rules_list(const request *asked)
{
    return run_form(rules_list, asked);
}

int run_rules_show(const request *asked)
{
    return run_form(rules_show, asked);
}

int run_rules_check(const request *asked)
{
    return run_form(rules_check, asked);
}

int run_rules_diff(const request *asked)
{
    return run_form(rules_diff, asked);
}
