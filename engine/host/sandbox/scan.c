/* scan.c - looking a rule file's text over before Lua runs it (layer: host/sandbox).
 *
 * Lua 5.4 before 5.4.5 gives wrong values for bitwise operators in functions with more than about
 * 256 constants, and before 5.4.8 for `t[a < b]`.  Neither is of use here, so both are refused.
 * Lua forgets where a field was written: the outline keeps it.  And Lua explains a missing comma by what it
 * finds far behind it: the slips of the pen that everybody makes are named here, at their own line. */
#include "scan.h"

#include "arena.h"
#include "lua_text.h"
#include "text.h"

#include <stdlib.h>
#include <string.h>

#define DEEPEST 200 /* brackets and blocks inside each other; Lua itself stops there */

/* What closes an open bracket or block. */
typedef enum closer { BY_BRACE, BY_BRACKET, BY_PARENTHESIS, BY_END } closer;

/* Of a table: how far its current item is. */
typedef enum progress { ITEM_ENDED, KEY_READ, VALUE_COMES, VALUE_READ } progress;

typedef struct level {
    closer by;
    hl_lua_word called; /* the name before the bracket; HL_LUA_END: none */
    int line;
    int table; /* BY_BRACE: its place in the outline */
    int item;  /* BY_BRACE: the current item's place, or -1 */
    progress at;
} level;

typedef struct scanner {
    hl_lua_text text;
    hl_lua_word word, next;  /* the word at hand and the one behind it */
    hl_lua_word last, older; /* the two before */
    level levels[DEEPEST];
    int depth;
    int brackets;           /* open [ */
    bool plain_closed;      /* `last` is a '}' that closed a table which no word was called with */
    bool lost;              /* brackets don't match: Lua will say so */
    hl_lua_word open, held; /* an entry inside a table that can't hold one, and that table's word */
    hl_outline *outline;
    hl_err *err;
} scanner;

static hl_code refuse(const scanner *s, int line, const char *todo, const char *what)
{
    hl__fail(s->err, HL_E_RULE, "%s", what);
    hl__todo(s->err, "%s", todo);
    return hl__at(s->err, "", line, 0);
}

static bool is_one_of(hl_lua_word word, const char *const *names, size_t n)
{
    for (size_t i = 0; i < n; i++)
        if (hl__lua_is(word, names[i]))
            return true;
    return false;
}
#define IS_ONE_OF(word, names) is_one_of(word, names, sizeof(names) / sizeof *(names))

static int shown(hl_lua_word word)
{
    return word.size > 40 ? 40 : (int)word.size;
}

/* ---- what Lua may compile wrongly --------------------------------------------------------------- */

static hl_code check_operator(scanner *s)
{
    static const char *const bits[] = {"&", "|", "~", "<<", ">>"};
    static const char *const comparisons[] = {"<", ">", "<=", ">=", "==", "~="};
    if (IS_ONE_OF(s->word, bits)) {
        hl__fail(s->err, HL_E_RULE, "the operator %.*s is refused in rule files", shown(s->word), s->word.at);
        hl__todo(s->err, "some releases of Lua compute bitwise operators wrongly; use and, or, not, + and *");
        return hl__at(s->err, "", s->word.line, 0);
    }
    if (s->brackets > 0 && IS_ONE_OF(s->word, comparisons))
        return refuse(s, s->word.line,
                      "some releases of Lua compile it wrongly; put the comparison into a local first",
                      "a comparison inside [ ] is refused in rule files");
    return HL_OK;
}

/* ---- slips of the pen --------------------------------------------------------------------------- */

static hl_code refuse_character(scanner *s)
{
    uint32_t point = 0;
    int size = hl__utf8_next(s->word.at, (size_t)(s->text.end - s->word.at), &point);
    if ((point >= 0x2018 && point <= 0x201F) || point == 0xAB || point == 0xBB)
        return refuse(s, s->word.line, "write straight quotes: \"text\"",
                      "a curly quote begins no text in a rule file");
    hl_text shown_character = {0};
    if (point == 0xA0 || point == 0x202F || point == 0x2009)
        hl__text_printf(&shown_character, "a blank of another kind (U+%04X)", (unsigned)point);
    else
        hl__text_printf(&shown_character, "the character %.*s", size, s->word.at);
    hl__fail(s->err, HL_E_RULE, "%s can't be used outside of quotes",
             shown_character.failed ? "a character here" : shown_character.data);
    hl__text_free(&shown_character);
    hl__todo(s->err, "put it into a text, or take it out");
    return hl__at(s->err, "", s->word.line, 0);
}

static bool ends_value(hl_lua_word word)
{
    static const char *const ends[] = {"}", ")", "]", "...", "true", "false", "nil", "end"};
    return word.kind == HL_LUA_NUMBER || word.kind == HL_LUA_STRING || IS_ONE_OF(word, ends) ||
           (word.kind == HL_LUA_NAME && !hl__lua_is_reserved(word));
}

/* # and // are operators in Lua, where no value is beside them they were meant as comments. */
static hl_code check_comment(scanner *s)
{
    static const char *const openers[] = {",", ";", "{", "("};
    bool hash = hl__lua_is(s->word, "#"), slashes = hl__lua_is(s->word, "//");
    bool star = hl__lua_is(s->word, "/") && hl__lua_is(s->next, "*") && s->next.at == s->word.at + 1;
    bool first = s->last.kind == HL_LUA_END, new_line = s->last.line != s->word.line;
    bool opens = first || IS_ONE_OF(s->last, openers);
    bool blank = s->word.at + 1 < s->text.end && (s->word.at[1] == ' ' || s->word.at[1] == '#');
    bool meant = star || (hash && (first || ends_value(s->last) || (opens && blank))) ||
                 (slashes && (opens || s->last.kind == HL_LUA_STRING || hl__lua_is(s->last, "}") ||
                              (new_line && ends_value(s->last))));
    if (!meant)
        return HL_OK;
    hl__fail(s->err, HL_E_RULE, "'%.*s' begins no comment in a rule file", star ? 2 : shown(s->word),
             s->word.at);
    hl__todo(s->err, "begin a comment with two hyphens: -- like this");
    return hl__at(s->err, "", s->word.line, 0);
}

static hl_code check_slip(scanner *s)
{
    const hl_lua_word word = s->word;
    if (word.kind == HL_LUA_SIGN && (unsigned char)*word.at >= 0x80)
        return refuse_character(s);
    if (hl__lua_is(word, "_ENV"))
        return refuse(s, word.line, "rule files compute; they do not reach outside",
                      "_ENV is not offered to rule files");
    if (hl__lua_is(word, "!"))
        return refuse(s, word.line, "write ~= for unequal, and not for the opposite",
                      "'!' means nothing in a rule file");
    if (word.kind == HL_LUA_STRING && s->last.kind == HL_LUA_STRING && s->last.at + s->last.size == word.at) {
        hl__fail(s->err, HL_E_RULE, "the text %.*s is followed by another quote", shown(s->last), s->last.at);
        hl__todo(s->err, "write an inch as \"1/16 in\", or the text between single quotes: '1/16\"'");
        return hl__at(s->err, "", word.line, 0);
    }
    if (word.kind == HL_LUA_NAME && s->last.kind == HL_LUA_STRING && s->last.at + s->last.size == word.at) {
        hl__fail(s->err, HL_E_RULE, "the text %.*s ends before %.*s", shown(s->last), s->last.at, shown(word),
                 word.at);
        hl__todo(s->err, "put a text that has a quote in it between the other quotes: \"it's\", '1/16\"'");
        return hl__at(s->err, "", word.line, 0);
    }
    if (word.kind == HL_LUA_STRING && *word.at != '[' &&
        (word.size < 2 || word.at[word.size - 1] != *word.at)) {
        hl__fail(s->err, HL_E_RULE, "the text that begins with %.*s has no quote at its end",
                 (int)(word.size > 30 ? 30 : word.size), word.at);
        hl__todo(s->err, "close it on the same line with %c", *word.at);
        return hl__at(s->err, "", word.line, 0);
    }
    return check_comment(s);
}

/* Does the word at hand begin something new behind a value that has ended? */
static bool lacks_comma(const scanner *s)
{
    bool called = s->last.kind == HL_LUA_NAME && !hl__lua_is_reserved(s->last);
    bool chain = called || hl__lua_is(s->last, ")") || hl__lua_is(s->last, "]") ||
                 (hl__lua_is(s->last, "}") && !s->plain_closed) ||
                 (s->last.kind == HL_LUA_STRING && s->older.kind == HL_LUA_NAME);
    if (!ends_value(s->last))
        return false;
    if (s->word.kind == HL_LUA_STRING || hl__lua_is(s->word, "{"))
        return !chain;
    return s->word.kind == HL_LUA_NUMBER ||
           (s->word.kind == HL_LUA_NAME && !hl__lua_is(s->word, "and") && !hl__lua_is(s->word, "or"));
}

/* Directly inside the table of `top`. */
static hl_code check_table_slip(scanner *s, const level *top)
{
    if (top->at == VALUE_READ && lacks_comma(s)) {
        hl__fail(s->err, HL_E_RULE, "there is no comma between %.*s and %.*s", shown(s->last), s->last.at,
                 shown(s->word), s->word.at);
        hl__todo(s->err, "end each field and each entry of a list with a comma");
        return hl__at(s->err, "", s->last.line, 0);
    }
    if (top->at != ITEM_ENDED)
        return HL_OK;
    if (s->word.kind == HL_LUA_NAME && hl__lua_is(s->next, ":")) {
        hl__fail(s->err, HL_E_RULE, "the field %.*s is given with ':'", shown(s->word), s->word.at);
        hl__todo(s->err, "write %.*s = ...", shown(s->word), s->word.at);
        return hl__at(s->err, "", s->word.line, 0);
    }
    const char *at;
    size_t size;
    if (hl__lua_is(s->next, "=") && hl__lua_plain_string(s->word, &at, &size)) {
        int most = size > 40 ? 40 : (int)size;
        hl__fail(s->err, HL_E_RULE, "the name of a field is in quotes: \"%.*s\"", most, at);
        hl__todo(s->err, "write %.*s = ...", most, at);
        return hl__at(s->err, "", s->word.line, 0);
    }
    return HL_OK;
}

/* Inside of ( ): a field here means that the ) is missing. */
static hl_code check_argument_slip(scanner *s, const level *top)
{
    if (s->word.kind != HL_LUA_NAME || !hl__lua_is(s->next, "="))
        return HL_OK;
    const hl_lua_word called = top->called;
    bool word = called.kind == HL_LUA_NAME;
    hl__fail(s->err, HL_E_RULE, "the bracket of %.*s( is not closed before %.*s", word ? shown(called) : 0,
             called.at, shown(s->word), s->word.at);
    hl__todo(s->err, "add ) behind its last number");
    return hl__at(s->err, "", top->line, 0);
}

/* ---- the outline -------------------------------------------------------------------------------- */

void hl__outline_free(hl_outline *outline)
{
    free(outline->tables);
    free(outline->items);
    *outline = (hl_outline){0};
}

/* step { }, step ({ }), tests "grand" { } */
static hl_lua_word find_called(const scanner *s)
{
    const hl_lua_word none = {.kind = HL_LUA_END, .at = ""};
    hl_lua_word called = s->last;
    bool behind = hl__lua_is(s->last, "(") || s->last.kind == HL_LUA_STRING;
    if (behind && hl__lua_is(s->word, "{"))
        called = s->older;
    return called.kind == HL_LUA_NAME && !hl__lua_is_reserved(called) ? called : none;
}

static bool open_level(scanner *s, closer by)
{
    hl_outline *o = s->outline;
    if (s->depth == DEEPEST) {
        s->lost = true;
        return true;
    }
    const hl_lua_word called = find_called(s);
    level *top = s->depth > 0 ? &s->levels[s->depth - 1] : NULL;
    s->levels[s->depth++] = (level){by, called, s->word.line, -1, -1, ITEM_ENDED};
    if (by != BY_BRACE)
        return true;
    if (!hl__grow((void **)&o->tables, o->n_tables, &o->room_tables, sizeof *o->tables))
        return false;
    if (top != NULL && top->by == BY_BRACE && top->at == VALUE_COMES)
        o->items[top->item].table = (int)o->n_tables;
    s->levels[s->depth - 1].table = (int)o->n_tables;
    bool word = called.kind == HL_LUA_NAME;
    o->tables[o->n_tables++] = (hl_outline_table){.word = word ? called.at : NULL,
                                                  .size = called.size,
                                                  .line = word ? called.line : s->word.line,
                                                  .first = -1,
                                                  .last = -1};
    return true;
}

static void close_level(scanner *s, closer by)
{
    if (s->lost || s->depth == 0 || s->levels[s->depth - 1].by != by) {
        s->lost = true;
        return;
    }
    s->depth--;
    s->plain_closed = s->levels[s->depth].called.kind == HL_LUA_END;
}

/* A name twice in one table: Lua keeps the last and says nothing. */
static hl_code check_twice(scanner *s, const hl_outline_table *table)
{
    const hl_outline_item *items = s->outline->items;
    for (int i = table->first; i >= 0; i = items[i].next) {
        bool same = items[i].key != NULL && items[i].size == s->word.size &&
                    memcmp(items[i].key, s->word.at, s->word.size) == 0;
        if (!same)
            continue;
        hl__fail(s->err, HL_E_RULE, "'%.*s' is given twice in one table, first in line %d", shown(s->word),
                 s->word.at, items[i].line);
        hl__todo(s->err, "only the last would count; take one of the two out");
        return hl__at(s->err, "", s->word.line, 0);
    }
    return HL_OK;
}

static hl_code begin_item(scanner *s, level *top)
{
    hl_outline *o = s->outline;
    bool named = s->word.kind == HL_LUA_NAME && hl__lua_is(s->next, "=");
    hl_outline_table *table = &o->tables[top->table];
    hl_code code = named ? check_twice(s, table) : HL_OK;
    if (code != HL_OK)
        return code;
    if (!hl__grow((void **)&o->items, o->n_items, &o->room_items, sizeof *o->items))
        return hl__no_memory(s->err);
    o->items[o->n_items] = (hl_outline_item){named ? s->word.at : NULL, s->word.size, s->word.line, -1, -1};
    if (table->last >= 0)
        o->items[table->last].next = (int)o->n_items;
    else
        table->first = (int)o->n_items;
    table->last = top->item = (int)o->n_items++;
    top->at = named ? KEY_READ : VALUE_COMES;
    return HL_OK;
}

/* An entry inside the table of another: its '}' is missing, if the file's end is reached with one open. */
static void note_held(scanner *s, const level *top)
{
    static const char *const entries[] = {"use",       "stage",  "change",      "adjuster", "skip",
                                          "fact",      "float",  "acknowledge", "choice",   "choose",
                                          "diagnosis", "source", "renamed"};
    bool called = s->next.kind == HL_LUA_STRING || hl__lua_is(s->next, "{") || hl__lua_is(s->next, "(");
    if (s->open.at == NULL && called && IS_ONE_OF(s->word, entries) && IS_ONE_OF(top->called, entries)) {
        s->open = top->called;
        s->held = s->word;
    }
}

static hl_code inside_table(scanner *s, level *top)
{
    hl_code code = check_table_slip(s, top);
    if (code != HL_OK || hl__lua_is(s->word, "}"))
        return code;
    if (hl__lua_is(s->word, ",") || hl__lua_is(s->word, ";"))
        top->at = ITEM_ENDED;
    else if (top->at == ITEM_ENDED) {
        note_held(s, top);
        code = begin_item(s, top);
    } else if (top->at == KEY_READ)
        top->at = VALUE_COMES; /* the word at hand is the = */
    return code;
}

/* The brackets and blocks of Lua; `while` and `for` open by their `do`. */
static hl_code nest(scanner *s)
{
    static const char *const openers[] = {"function", "if", "do", "repeat"};
    bool good = true;
    if (s->word.kind == HL_LUA_NAME) {
        if (IS_ONE_OF(s->word, openers))
            good = open_level(s, BY_END);
        else if (hl__lua_is(s->word, "end") || hl__lua_is(s->word, "until"))
            close_level(s, BY_END);
    } else if (s->word.kind == HL_LUA_SIGN && s->word.size == 1) {
        char c = *s->word.at;
        if (c == '{')
            good = open_level(s, BY_BRACE);
        else if (c == '(')
            good = open_level(s, BY_PARENTHESIS);
        else if (c == '[')
            good = open_level(s, BY_BRACKET);
        else if (c == '}')
            close_level(s, BY_BRACE);
        else if (c == ')')
            close_level(s, BY_PARENTHESIS);
        else if (c == ']')
            close_level(s, BY_BRACKET);
        s->brackets += c == '[' ? 1 : c == ']' && s->brackets > 0 ? -1 : 0;
    }
    return good ? HL_OK : hl__no_memory(s->err);
}

static hl_code take_word(scanner *s)
{
    level *top = s->depth > 0 && !s->lost ? &s->levels[s->depth - 1] : NULL;
    progress before = top != NULL ? top->at : ITEM_ENDED;
    hl_code code = s->word.kind == HL_LUA_SIGN ? check_operator(s) : HL_OK;
    if (code == HL_OK)
        code = check_slip(s);
    if (code == HL_OK && top != NULL && top->by == BY_BRACE)
        code = inside_table(s, top);
    else if (code == HL_OK && top != NULL && top->by == BY_PARENTHESIS)
        code = check_argument_slip(s, top);
    if (code == HL_OK)
        code = nest(s);
    /* The value's first word is read; open_level() has asked whether it is a table. */
    if (top != NULL && top->by == BY_BRACE && top->at == VALUE_COMES && before != KEY_READ)
        top->at = VALUE_READ;
    return code;
}

/* The file is over and a table is open: name the one that lacks its brace. */
static hl_code check_end(scanner *s)
{
    const level *top = s->depth > 0 ? &s->levels[s->depth - 1] : NULL;
    if (s->lost || top == NULL || top->by != BY_BRACE)
        return HL_OK;
    hl_lua_word open = s->open.at != NULL ? s->open : top->called;
    bool named = open.kind == HL_LUA_NAME;
    if (s->open.at != NULL)
        hl__fail(s->err, HL_E_RULE, "%.*s is not closed before %.*s in line %d", shown(open), open.at,
                 shown(s->held), s->held.at, s->held.line);
    else
        hl__fail(s->err, HL_E_RULE, "%s%.*s is not closed at the end of the file", named ? "" : "a table",
                 shown(open), open.at);
    hl__todo(s->err, "add } behind its last field");
    return hl__at(s->err, "", named ? open.line : top->line, 0);
}

static hl_code check_utf8(const char *text, size_t size, hl_err *err)
{
    size_t i = 0;
    while (i < size) {
        uint32_t point;
        if ((unsigned char)text[i] - 1u < 0x7Fu) { /* ASCII, and no zero byte */
            i++;
            continue;
        }
        int n = text[i] == '\0' ? 0 : hl__utf8_next(text + i, size - i, &point);
        if (n == 0)
            break;
        i += (size_t)n;
    }
    if (i >= size)
        return HL_OK;
    hl__fail(err, HL_E_RULE, text[i] == '\0' ? "the file has a zero byte" : "the file is not UTF-8 text");
    hl__todo(err, "save it as plain text, UTF-8");
    return hl__at(err, "", hl__lua_line(text, text + i), 0);
}

hl_code hl__scan(const char *text, size_t size, hl_outline *outline, hl_err *err)
{
    outline->n_tables = outline->n_items = 0;
    if (size > 0 && text[0] == '\x1b') {
        hl__fail(err, HL_E_RULE, "the file is compiled Lua");
        hl__todo(err, "rule files are text; use the source it was compiled from");
        return hl__at(err, "", 1, 0);
    }
    hl_code code = check_utf8(text, size, err);
    scanner s = {.text = {text, text + size, 1}, .outline = outline, .err = err};
    s.last = s.older = (hl_lua_word){.kind = HL_LUA_END, .at = text};
    s.word = hl__lua_next(&s.text);
    while (code == HL_OK && s.word.kind != HL_LUA_END) {
        s.next = hl__lua_next(&s.text);
        code = take_word(&s);
        s.older = s.last;
        s.last = s.word;
        s.word = s.next;
    }
    return code == HL_OK ? check_end(&s) : code;
}

int hl__outline_find(hl_outline *outline, const char *word, int line)
{
    const size_t size = strlen(word);
    int taken = -1;
    for (size_t i = 0; i < outline->n_tables; i++) {
        hl_outline_table *table = &outline->tables[i];
        if (table->line != line || table->word == NULL || table->size != size ||
            memcmp(table->word, word, size) != 0)
            continue;
        if (!table->taken) {
            table->taken = true;
            return (int)i;
        }
        taken = (int)i; /* in a loop the same place makes one entry after the other */
    }
    return taken;
}

const hl_outline_item *hl__outline_item(const hl_outline *outline, int table, const char *key)
{
    const size_t size = strlen(key);
    for (int i = outline->tables[table].first; i >= 0; i = outline->items[i].next) {
        const hl_outline_item *item = &outline->items[i];
        if (item->key != NULL && item->size == size && memcmp(item->key, key, size) == 0)
            return item;
    }
    return NULL;
}
