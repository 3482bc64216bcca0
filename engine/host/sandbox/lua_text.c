/* lua_text.c - a rule file's text, word by word (layer: host/sandbox).  Owns nothing.
 *
 * Each piece goes as in Lua 5.4's own reader (llex.c): a difference would let a rule file show this reader
 * other words than Lua runs. */
#include "lua_text.h"

#include "ascii.h"

#include <string.h>

static char look(const hl_lua_text *r, int ahead)
{
    return r->end - r->at > ahead ? r->at[ahead] : '\0';
}

static bool is_line_end(char c)
{
    return c == '\n' || c == '\r';
}

/* CR, LF, CRLF and LFCR each end one line. */
static void pass_line_end(hl_lua_text *r)
{
    char first = *r->at++;
    if (r->at < r->end && is_line_end(*r->at) && *r->at != first)
        r->at++;
    r->line++;
}

/* Any one character, or the end of a line. */
static void pass(hl_lua_text *r)
{
    if (r->at < r->end && is_line_end(*r->at))
        pass_line_end(r);
    else if (r->at < r->end)
        r->at++;
}

/* Is this [[ or [==[ ?  The number of = signs, or -1. */
static int long_level(const hl_lua_text *r)
{
    int level = 0;
    if (look(r, 0) != '[')
        return -1;
    while (look(r, level + 1) == '=')
        level++;
    return look(r, level + 1) == '[' ? level : -1;
}

static void pass_long(hl_lua_text *r, int level)
{
    r->at += level + 2;
    while (r->at < r->end) {
        int n = 0;
        while (look(r, 0) == ']' && look(r, n + 1) == '=')
            n++;
        if (look(r, 0) == ']' && n == level && look(r, n + 1) == ']') {
            r->at += level + 2;
            return;
        }
        pass(r);
    }
}

static void pass_comment(hl_lua_text *r)
{
    r->at += 2;
    int level = long_level(r);
    if (level >= 0) {
        pass_long(r, level);
        return;
    }
    while (r->at < r->end && !is_line_end(*r->at))
        r->at++;
}

static void pass_string(hl_lua_text *r)
{
    char quote = *r->at++;
    while (r->at < r->end && *r->at != quote && !is_line_end(*r->at)) {
        if (*r->at++ != '\\')
            continue;
        bool blanks = look(r, 0) == 'z';
        pass(r); /* an escaped quote, backslash or end of line is part of the text */
        while (blanks && r->at < r->end && strchr(" \t\r\n\v\f", *r->at) != NULL)
            pass(r);
    }
    if (r->at < r->end && *r->at == quote)
        r->at++;
}

static bool is_name_part(char c)
{
    return hl__is_letter(c) || hl__is_digit(c) || c == '_';
}

static void pass_number(hl_lua_text *r)
{
    bool hex = look(r, 0) == '0' && hl__lower(look(r, 1)) == 'x';
    r->at += hex ? 2 : 1;
    for (char c = look(r, 0); is_name_part(c) || c == '.'; c = look(r, 0)) {
        r->at++;
        bool power = hl__lower(c) == (hex ? 'p' : 'e');
        if (power && (look(r, 0) == '-' || look(r, 0) == '+'))
            r->at++;
    }
}

static size_t sign_size(const hl_lua_text *r)
{
    static const char *const longer[] = {"...", "..", "==", "~=", "<=", ">=", "<<", ">>", "//", "::"};
    const size_t left = (size_t)(r->end - r->at);
    for (size_t i = 0; i < sizeof longer / sizeof *longer; i++) {
        const size_t size = strlen(longer[i]);
        if (*r->at == longer[i][0] && left >= size && memcmp(r->at, longer[i], size) == 0)
            return size;
    }
    return 1;
}

static void pass_blanks(hl_lua_text *r)
{
    while (r->at < r->end) {
        char c = *r->at;
        if (c == ' ' || c == '\t' || c == '\v' || c == '\f')
            r->at++;
        else if (is_line_end(c))
            pass_line_end(r);
        else if (c == '-' && look(r, 1) == '-')
            pass_comment(r);
        else
            return;
    }
}

hl_lua_word hl__lua_next(hl_lua_text *r)
{
    pass_blanks(r);
    hl_lua_word word = {HL_LUA_END, r->at, 0, r->line};
    if (r->at >= r->end)
        return word;
    char c = *r->at;
    int level = c == '[' ? long_level(r) : -1;
    if (hl__is_letter(c) || c == '_') {
        word.kind = HL_LUA_NAME;
        while (is_name_part(look(r, 0)))
            r->at++;
    } else if (hl__is_digit(c) || (c == '.' && hl__is_digit(look(r, 1)))) {
        word.kind = HL_LUA_NUMBER;
        pass_number(r);
    } else if (level >= 0 || c == '"' || c == '\'') {
        word.kind = HL_LUA_STRING;
        if (level >= 0)
            pass_long(r, level);
        else
            pass_string(r);
    } else {
        word.kind = HL_LUA_SIGN;
        r->at += sign_size(r);
    }
    word.size = (size_t)(r->at - word.at);
    return word;
}

int hl__lua_line(const char *text, const char *place)
{
    hl_lua_text r = {text, place, 1};
    while (r.at < r.end)
        pass(&r);
    return r.line;
}

bool hl__lua_is_reserved(hl_lua_word word)
{
    static const char *const names[] = {
        "and", "break", "do",  "else", "elseif", "end",    "false",  "for",  "function", "goto",  "if",
        "in",  "local", "nil", "not",  "or",     "repeat", "return", "then", "true",     "until", "while"};
    for (size_t i = 0; word.kind == HL_LUA_NAME && i < sizeof names / sizeof *names; i++)
        if (word.at[0] == names[i][0] && hl__lua_is(word, names[i]))
            return true;
    return false;
}

bool hl__lua_is(hl_lua_word word, const char *text)
{
    return (word.kind == HL_LUA_NAME || word.kind == HL_LUA_SIGN) && strlen(text) == word.size &&
           memcmp(text, word.at, word.size) == 0;
}

bool hl__lua_plain_string(hl_lua_word word, const char **at, size_t *size)
{
    if (word.kind != HL_LUA_STRING || word.size < 2 || word.at[0] == '[' ||
        memchr(word.at, '\\', word.size) != NULL)
        return false;
    *at = word.at + 1;
    *size = word.size - 2;
    return true;
}
