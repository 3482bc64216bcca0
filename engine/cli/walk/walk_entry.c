/* walk_entry.c - reads one typed line (layer: cli/walk).
 *
 * A line is: which notes (none: the one in hand), then a reading, or a command and its text.
 * Commands are typed in full, so that fault words may be shortened. */
#include "walk_entry.h"

#include "letters.h"
#include "walk_clean.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

const entry_word entry_words[] = {
    {"how", "how", "how to measure here, and why", COMMAND_HOW, true},
    {"next", "next", "leave this note for later", COMMAND_NEXT, true},
    {"go", "go STEP [NOTE]", "go anywhere; a note alone goes there too", COMMAND_GO, true},
    {"undo", "undo", "withdraw the last entry", COMMAND_UNDO, true},
    {"skip", "skip WHY", "leave it out; the job stays open", COMMAND_SKIP, true},
    {"done", "done [AMOUNT]", "the advised work is done; read it again", COMMAND_DONE, true},
    {"note", "note TEXT", "a remark on the last reading, or the note gone to", COMMAND_REMARK, true},
    {"list", "list", "what is open, step by step", COMMAND_LIST, true},
    {"again", "again", "only what is out, stale or missing, by tool", COMMAND_AGAIN, true},
    {"quit", "quit", "stop; everything is saved already", COMMAND_QUIT, true},
    {"near", "near", "what the neighbours read", COMMAND_NEAR, false},
    {"back", "back", "one note back", COMMAND_BACK, false},
    {"onward", "onward", "from the second pass back to the book's order", COMMAND_ONWARD, false},
    {"withdraw", "withdraw", "withdraw the reading of this note", COMMAND_WITHDRAW, false},
    {"query", "query TEXT", "keep the note open, whatever it reads", COMMAND_QUERY, false},
    {"closed", "closed [NOTE]", "the query of the note is settled", COMMAND_CLOSED, false},
    {"turned", "turned 1/8 up", "the same as done, with amount and way; done capstan 1/8 up names the tool",
     COMMAND_DONE, false},
    {"between", "between 1/8 up", "that was done between the last two readings", COMMAND_BETWEEN, false},
    {"with", "with GAUGE", "the gauge or method of this step from here on", COMMAND_WITH, false},
    {"pass", "pass NAME", "begin a new round of work", COMMAND_PASS, false},
    {"same", "same", "the same as last, like =", COMMAND_NONE, false},
    {"?", "", NULL, COMMAND_HELP, false},
    {"help", "", NULL, COMMAND_HELP, false},
    {"exit", "", NULL, COMMAND_QUIT, false},
    {.name = NULL},
};

#if defined(__GNUC__)
__attribute__((format(printf, 3, 4)))
#endif
static void
refuse(entry *out, const char *todo, const char *format, ...)
{
    va_list arguments;
    out->kind = ENTRY_BAD;
    va_start(arguments, format);
    vsnprintf(out->what, sizeof out->what, format, arguments);
    va_end(arguments);
    snprintf(out->todo, sizeof out->todo, "%s", todo);
}

/* Length of the text's first word. */
static size_t word_size(const char *text)
{
    return strcspn(text, " ");
}

static const char *pass_blanks(const char *text)
{
    return text + strspn(text, " ");
}

/* Does the text's first word begin `word`?  *whole: it is the word. */
static bool begins(const char *text, const char *word, bool *whole)
{
    const size_t size = word_size(text);
    size_t i = 0;
    for (; i < size && word[i]; i++)
        if (lower(text[i]) != lower(word[i]))
            return false;
    *whole = i == size && !word[i];
    return size > 0 && i == size;
}

static bool is_word(const char *text, const char *word)
{
    bool whole;
    return begins(text, word, &whole) && whole;
}

static command_id find_command(const char *text)
{
    for (const entry_word *row = entry_words; row->name; row++)
        if (is_word(text, row->name))
            return row->command;
    return COMMAND_NONE;
}

static bool is_fault_word(const char *text, const hl_step *step)
{
    for (int i = 0; step && i < step->n_words; i++)
        if (is_word(text, step->words[i].word) && !*pass_blanks(text + word_size(text)))
            return true;
    return false;
}

/* ---- which notes ------------------------------------------------------------------------------- */

static int read_note(const char *text, size_t size, hl_compass compass)
{
    char name[8];
    if (size == 0 || size >= sizeof name || !((text[0] | 32) >= 'a' && (text[0] | 32) <= 'g'))
        return 0;
    memcpy(name, text, size);
    name[size] = '\0';
    return hl_note_parse(compass, name);
}

/* "C4", "C3-B4", "C3 - B4", "C3..B4": bytes used, or 0. */
static size_t read_span(entry *out, const char *text, hl_compass compass)
{
    const size_t first = strcspn(text, " -.");
    const int from = read_note(text, first, compass);
    if (from == 0)
        return 0;
    size_t at = first + strspn(text + first, " ");
    /* "C2 -0.05" is a key that is low: a dash with a blank before it needs one behind it. */
    const bool apart = at > first;
    const size_t dash = text[at] == '-' && (!apart || text[at + 1] == ' ') ? 1
                        : !apart && strncmp(text + at, "..", 2) == 0       ? 2
                                                                           : 0;
    int to = from;
    if (dash > 0) {
        at += dash;
        at += strspn(text + at, " ");
        const size_t last = word_size(text + at);
        to = read_note(text + at, last, compass);
        at += last;
    } else if (text[first] && text[first] != ' ') {
        return 0;
    } else {
        at = first;
    }
    if (to == 0)
        return 0;
    out->select |= SELECT_SPAN;
    out->from = from < to ? from : to;
    out->to = from < to ? to : from;
    return at;
}

static size_t read_group(entry *out, const char *text)
{
    static const struct {
        const char *word;
        unsigned select;
    } GROUPS[] = {{"all", SELECT_ALL},          {"rest", SELECT_REST},       {"naturals", SELECT_NATURALS},
                  {"sharps", SELECT_SHARPS},    {"samples", SELECT_SAMPLES}, {"section", SELECT_SECTION},
                  {"natural", SELECT_NATURALS}, {"sharp", SELECT_SHARPS}};
    for (size_t i = 0; i < sizeof GROUPS / sizeof *GROUPS; i++) {
        if (is_word(text, GROUPS[i].word)) {
            out->select |= GROUPS[i].select;
            return word_size(text);
        }
    }
    return 0;
}

static const char *read_notes(entry *out, const char *text, hl_compass compass)
{
    for (;;) {
        size_t used = (out->select & SELECT_SPAN) ? 0 : read_span(out, text, compass);
        if (used == 0)
            used = read_group(out, text);
        if (used == 0)
            return text;
        text = pass_blanks(text + used);
    }
}

/* ---- a reading --------------------------------------------------------------------------------- */

/* "wi", "within the gauge": the word in full, or NULL. */
static const char *find_gauge_word(const char *text)
{
    static const char *const WORDS[] = {"within", "over", "under"};
    bool whole;
    const char *rest = pass_blanks(text + word_size(text));
    if (*rest && strcmp(rest, "the gauge") != 0 && strcmp(rest, "gauge") != 0)
        return NULL;
    for (size_t i = 0; i < sizeof WORDS / sizeof *WORDS; i++)
        if (begins(text, WORDS[i], &whole))
            return WORDS[i];
    return NULL;
}

/* "... replace" at the end is ours, not the reading's. */
static void take_replace(entry *out, char *text)
{
    static const char ENDING[] = " replace";
    const size_t size = strlen(text), end = sizeof ENDING - 1;
    if (size > end && strcmp(text + size - end, ENDING) == 0) {
        out->replaces = true;
        text[size - end] = '\0';
    }
}

static void read_value(entry *out, const char *text, const hl_step *step)
{
    char reading[ENTRY_MOST + 1];
    out->kind = ENTRY_READING;
    snprintf(reading, sizeof reading, "%s", text);
    take_replace(out, reading);
    if (strcmp(reading, "=") == 0 || is_word(reading, "same")) {
        out->same = true;
        return;
    }
    const char *gauge = step && step->kind != HL_JUDGED ? find_gauge_word(reading) : NULL;
    if (gauge)
        snprintf(out->text, sizeof out->text, "%s", gauge);
    else if (step && step->kind != HL_JUDGED)
        clean_number(out->text, sizeof out->text, reading, step->unit);
    else
        snprintf(out->text, sizeof out->text, "%s", reading);
    if (strcmp(out->text, "void") == 0)
        refuse(out, "type withdraw, or undo", "a reading is not withdrawn like that");
    else if (step && step->kind != HL_JUDGED && is_word(out->text, "ok"))
        refuse(out, "type the number; or within, over or under, when a gauge said so",
               "this step is measured, so ok says nothing");
}

/* ---- the line ---------------------------------------------------------------------------------- */

static bool is_one_note(const entry *out)
{
    return out->select == SELECT_SPAN && out->from == out->to;
}

static void read_command(entry *out, command_id command, const char *text)
{
    out->kind = ENTRY_COMMAND;
    out->command = command;
    snprintf(out->text, sizeof out->text, "%s", pass_blanks(text + word_size(text)));
}

static void read_rest(entry *out, const char *text, const hl_step *step)
{
    const bool forced = text[0] == ':';
    if (forced)
        text = pass_blanks(text + 1);
    const command_id command = is_fault_word(text, step) && !forced ? COMMAND_NONE : find_command(text);
    if (command != COMMAND_NONE)
        read_command(out, command, text);
    else if (forced)
        refuse(out, "? lists the commands", "\"%.40s\" is not a command", text);
    else
        read_value(out, text, step);
}

/* A reading alone would go to the note in hand: who named notes is to name them again. */
static void keep_notes(entry *out, const char *text, const char *rest)
{
    size_t size = (size_t)(rest - text);
    while (size > 0 && text[size - 1] == ' ')
        size--;
    if (size > 0 && size < sizeof out->notes)
        snprintf(out->notes, sizeof out->notes, "%.*s", (int)size, text);
    const size_t used = strlen(out->todo);
    if (out->kind == ENTRY_BAD && out->notes[0])
        snprintf(out->todo + used, sizeof out->todo - used, ". Name %s again", out->notes);
}

void entry_read(entry *out, const char *line, hl_compass compass, const hl_step *step)
{
    char text[ENTRY_MOST + 1];
    memset(out, 0, sizeof *out);
    const char *bad = clean_line(text, sizeof text, line);
    if (bad) {
        refuse(out, "nothing was recorded; type it again", "%s", bad);
        return;
    }
    if (!text[0])
        return;
    const char *rest = is_fault_word(text, step) ? text : read_notes(out, text, compass);
    if (*rest) {
        read_rest(out, rest, step);
        keep_notes(out, text, rest);
    } else if (is_one_note(out)) {
        out->kind = ENTRY_NOTE;
    } else {
        refuse(out, "say what they read, as in: C3-B4 within, or: naturals ok",
               "these notes, but no reading");
    }
}
