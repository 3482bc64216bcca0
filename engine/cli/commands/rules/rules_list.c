/* rules_list.c - "hammerline rules list": the books that are found, and where (layer: cli/commands). */
#include "folder.h"
#include "output.h"
#include "rules.h"

#include <string.h>

/* A book of the same name in an earlier folder is the one that is opened. */
static bool is_hidden(const path_list *found, size_t i)
{
    for (size_t k = 0; k < i; k++)
        if (strcmp(base_name(found->paths[k]), base_name(found->paths[i])) == 0)
            return true;
    return false;
}

static int print_line(const char *path, const hl_book *book, const hl_err *broken)
{
    char *text = NULL;
    size_t size = 0;
    hl_err err;
    if (hl_book_line(&text, &size, path, book, broken, &err) != HL_OK)
        return report(&err);
    say_text(text, size);
    hl_free(text);
    return book ? EXIT_READY : EXIT_BAD_RULE;
}

/* Steps and parts of books are in the same folders; they are no books of their own. */
static int list_one(const char *path, const bookshelf *shelf)
{
    hl_book *book = NULL;
    hl_err err;
    int code = EXIT_READY;
    if (hl_book_open(&book, path, &shelf->shelf, &err) != HL_OK) {
        if (err.code == HL_E_MEMORY)
            return report(&err);
        hl_rule_look look;
        return hl_rule_file_look(&look, path) && look.book ? print_line(path, NULL, &err) : EXIT_READY;
    }
    if (hl_book_n_steps(book) > 0)
        code = print_line(path, book, NULL);
    hl_book_free(book);
    return code;
}

int rules_list(const request *asked, const bookshelf *shelf)
{
    (void)asked; /* its options say which folders, and the shelf has them */
    path_list found = {0};
    int worst = EXIT_READY;
    bool good = true;
    for (int i = 0; good && i < shelf->shelf.n_folders; i++)
        good = list_folder(&found, shelf->folders[i], "", ".lua") &&
               list_folder(&found, shelf->folders[i], "shops", ".lua");
    for (size_t i = 0; good && i < found.n; i++) {
        const int code = is_hidden(&found, i) ? EXIT_READY : list_one(found.paths[i], shelf);
        worst = code > worst ? code : worst;
    }
    if (good && found.n == 0)
        complain("no rule folder holds a file; name one with --rules DIR");
    free_paths(&found);
    if (good)
        return worst;
    complain("the machine has no memory left; close other programs and run it again");
    return EXIT_NOT_SAVED;
}
