/* cmd_rules.c - "hammerline rules": the books, for who writes or trusts them (layer: cli/commands). */
#include "commands.h"
#include "confine.h"
#include "output.h"
#include "rules.h"

#include <string.h>

enum { LIST, SHOW, CHECK, DIFF, DEEDS };

static int run_deed(int deed, const request *asked, const bookshelf *shelf)
{
    switch (deed) {
    case LIST:
        return rules_list(shelf);
    case SHOW:
        return rules_show(asked, shelf);
    case CHECK:
        return rules_check(asked, shelf);
    default:
        return rules_diff(asked, shelf);
    }
}

static int refuse(const request *asked, const char *const *deeds)
{
    const char *nearest = asked->n_words > 0 ? hl_nearest_name(asked->words[0], deeds, DEEDS) : NULL;
    if (nearest)
        complain("rules has no \"%s\"; did you mean %s?", asked->words[0], nearest);
    else
        complain("rules is used so: hammerline rules list, show BOOK, check BOOK, or diff BOOK BOOK");
    return EXIT_WRONG_USE;
}

int run_rules(const request *asked)
{
    static const char *const deeds[DEEDS] = {"list", "show", "check", "diff"};
    int deed = 0;
    while (deed < DEEDS && (asked->n_words == 0 || strcmp(asked->words[0], deeds[deed]) != 0))
        deed++;
    if (deed == DEEDS)
        return refuse(asked, deeds);
    if (deed == LIST && asked->n_words > 1) {
        complain("rules list takes no book; \"hammerline rules show %s\" shows one", asked->words[1]);
        return EXIT_WRONG_USE;
    }
    if (deed != SHOW && asked->note) {
        complain("--note goes with rules show: hammerline rules show grand let_off --note %s", asked->note);
        return EXIT_WRONG_USE;
    }
    bookshelf shelf;
    int code = open_bookshelf(&shelf, asked);
    if (code == EXIT_READY) {
        confine(asked, &shelf);
        code = run_deed(deed, asked, &shelf);
    }
    close_bookshelf(&shelf);
    return code;
}
