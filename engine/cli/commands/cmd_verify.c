/* cmd_verify.c - "hammerline verify": is a sheet as it was when its rows were saved (layer: cli/commands). */
#include "commands.h"
#include "confine.h"
#include "conflict_copies.h"
#include "hammerline.h"
#include "output.h"
#include "rule_paths.h"
#include "sheet_book.h"

static void say_change(const hl_err *change)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    if (hl_err_text(&text, &size, change) == HL_OK)
        say_text(text, size);
    else
        report(&err);
    hl_free(text);
}

static void say_copies(const char *path)
{
    conflict_copies copies;
    find_conflict_copies(&copies, path);
    for (int i = 0; i < copies.n; i++)
        say("Beside it lies \"%s\", which looks like a second copy from a shared folder.\n", copies.names[i]);
}

static void say_counts(const hl_verified *found)
{
    say("%zu %s, %zu %s with a mark.\n", found->entries, found->entries == 1 ? "entry" : "entries",
        found->marked, found->marked == 1 ? "row" : "rows");
    if (found->unmarked > 0)
        say("%zu %s without a mark: nothing shows whether %s changed.\n", found->unmarked,
            found->unmarked == 1 ? "row" : "rows", found->unmarked == 1 ? "it was" : "they were");
}

static int verify_sheet(const char *path)
{
    hl_sheet *sheet = NULL;
    hl_verified found = {.n_changes = 0};
    hl_err err;
    if (open_named_sheet(&sheet, path, &err) != HL_OK)
        return report(&err);
    const hl_code code = hl_sheet_verify(&found, sheet, &err);
    int result = EXIT_READY;
    if (code != HL_OK) {
        result = report(&err);
    } else {
        for (size_t i = 0; i < found.n_changes; i++)
            say_change(&found.changes[i]);
        say_counts(&found);
        say_copies(path);
        if (found.marked == 0)
            say("Nothing can be verified. A sheet that \"hammerline walk\" makes has marks.\n");
        else if (found.n_changes == 0)
            say("As it was saved. That nothing was cut off at the end only a copy kept elsewhere can "
                "show.\n");
        else
            say("%zu %s since it was saved.\n", found.n_changes, found.n_changes == 1 ? "change" : "changes");
        result = found.n_changes == 0 && found.marked > 0 ? EXIT_READY : EXIT_NOT_READY;
    }
    hl_verified_free(&found);
    hl_sheet_free(sheet);
    return result;
}

int run_verify(const request *asked)
{
    const bookshelf none = {.n_own = 0};
    confine(asked, &none);
    int worst = EXIT_READY;
    for (int i = 0; i < asked->n_words; i++) {
        const int code = verify_sheet(asked->words[i]);
        worst = code > worst ? code : worst;
    }
    return worst;
}
