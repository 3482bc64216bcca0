/* sound_book.h - a small sound book that tests put one mistake into.  Targets and moves are
 * invented. */
#ifndef SOUND_BOOK_H
#define SOUND_BOOK_H

#include "rule_folder.h"

/* All wrong messages are shown, not only the first: main() adds them to what it returns. */
static int wrong_messages = 0;

static inline void assert_message(const hl_err *err, const char *snippet, const char *expected)
{
    char got[1000];
    snprintf(got, sizeof got, "%s:%d: %s%s%s", err->file, err->line, err->what,
             err->todo[0] != '\0' ? "; " : "", err->todo);
    if (strcmp(got, expected) != 0)
        print_error("%s\n  got      %s\n  expected %s\n", snippet, got, expected);
    if (strcmp(got, expected) != 0 || err->code != HL_E_RULE)
        wrong_messages++;
}

static inline void assert_refused(rule_folder *folder, const char *book_name, const char *snippet,
                                  const char *expected)
{
    hl_book *book;
    hl_err err;
    if (open_book(folder, book_name, &book, &err) == HL_OK)
        print_error("was taken: %s\n", snippet);
    hl_book_free(book);
    assert_message(&err, snippet, expected);
}

typedef struct mistake {
    const char *snippet, *expected;
} mistake;

/* A sound book: a measured, a derived and a judged step, an adjuster, a fact. */
static inline void write_sound(rule_folder *folder, const char *entries)
{
    char text[1200];
    open_folder(folder);
    write_rule(
        folder, "drop",
        "return step { id = 'drop', title = 'Drop', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n"
        "  resolution = 0.1, target = range(1, 3), fix = { 'screw' } }\n");
    write_rule(
        folder, "grand/blow",
        "return step { id = 'blow', title = 'Blow', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n"
        "  resolution = 0.1, target = range(40, 50) }\n");
    write_rule(
        folder, "third",
        "return step { id = 'third', title = 'Third', stage = 'set', unit = 'mm', ask = 'a', why = 'w',\n"
        "  resolution = 0.1, target = range(1, 3) }\n");
    write_rule(folder, "derived",
               "return step { id = 'derived', title = 'Derived', stage = 'set', kind = 'derived', unit = "
               "'mm', ask = 'a',\n"
               "  why = 'w', resolution = 0.1, formula = 'blow - drop' }\n");
    write_rule(
        folder, "touch",
        "return step { id = 'touch', title = 'Touch', stage = 'set', kind = 'judged', ask = 'a', why = 'w',\n"
        "  faults = { { 'heavy', todo = 'Ease it.' } } }\n");
    snprintf(
        text, sizeof text,
        "return book { id = 'main', api = 1, title = 'Main', stage { 'set', title = 'Set' }, use 'drop', use "
        "'grand/blow',\n"
        "  use 'derived', use 'touch', fact { 'arm', title = 'arm', unit = 'mm', value = 1 },\n"
        "  adjuster { 'screw', title = 'screw', unit = 'turn', more = 'in', less = 'out', finest = 1/8,\n"
        "    moves = { drop = 1, touch = 'slight' } },\n"
        "  %s\n"
        "}\n",
        entries);
    write_rule(folder, "main", text);
}

#endif
