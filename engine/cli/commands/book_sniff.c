/* book_sniff.c - what a rule file is, as far as its text tells without running it (layer: cli/commands).
 *
 * Only for choosing which files to open; what a file says is settled by opening it. */
#include "book_sniff.h"

#include <stdio.h>
#include <string.h>

#define LINE_ROOM 512

typedef bool line_asker(const char *line, void *context);

/* Asks about each line, blanks before it skipped, until the answer is yes. */
static bool ask_lines(const char *path, line_asker *ask, void *context)
{
    char line[LINE_ROOM];
    bool found = false;
    FILE *file = fopen(path, "r");
    if (!file)
        return false;
    while (!found && fgets(line, sizeof line, file))
        found = ask(line + strspn(line, " \t"), context);
    fclose(file);
    return found;
}

/* Does the line start with the word, and not with a longer one? */
static bool starts_with(const char *line, const char *word)
{
    const size_t size = strlen(word);
    if (strncmp(line, word, size) != 0)
        return false;
    const char next = line[size];
    const bool goes_on = next == '_' || (next >= 'a' && next <= 'z') || (next >= 'A' && next <= 'Z') ||
                         (next >= '0' && next <= '9') || next == '.';
    return !goes_on;
}

static bool is_book(const char *line, void *context)
{
    (void)context;
    return starts_with(line, "return book");
}

static bool is_use_or_stage(const char *line, void *context)
{
    static const char *const words[] = {"use \"", "use(\"", "use '", "stage {", "stage{"};
    (void)context;
    bool found = false;
    for (size_t i = 0; i < sizeof words / sizeof *words && strncmp(line, "--", 2) != 0; i++)
        found = found || strstr(line, words[i]) != NULL;
    return found;
}

bool looks_like_book(const char *path)
{
    return ask_lines(path, is_book, NULL) && ask_lines(path, is_use_or_stage, NULL);
}

typedef struct asked_id {
    char *id;
    size_t room;
} asked_id;

static bool take_id(const char *line, void *context)
{
    const asked_id *to = context;
    if (!starts_with(line, "return tests"))
        return false;
    const char *start = line + strcspn(line, "\"'");
    if (*start == '\0')
        return false;
    start++;
    const size_t size = strcspn(start, "\"'\n");
    if (size == 0 || size >= to->room)
        return false;
    memcpy(to->id, start, size);
    to->id[size] = '\0';
    return true;
}

bool peek_tested_book(const char *path, char *id, size_t room)
{
    asked_id to = {id, room};
    return ask_lines(path, take_id, &to);
}
