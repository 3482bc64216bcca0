/* scan.c - reading a rule file's text before Lua does (layer: host/sandbox).  Owns nothing.
 *
 * Lua 5.4 before 5.4.5 gives wrong values for bitwise operators in functions with more than about
 * 256 constants, and before 5.4.8 for `t[a < b]`.  Neither is of use here, so both are refused. */
#include "scan.h"

#include "text.h"

#include <string.h>

typedef struct reader {
    const char *at, *end;
    int line;
    int brackets; /* open [ */
} reader;

static char look(const reader *r, int ahead)
{
    return r->end - r->at > ahead ? r->at[ahead] : '\0';
}

static void step_over(reader *r, int n)
{
    for (int i = 0; i < n && r->at < r->end; i++) {
        if (*r->at++ == '\n')
            r->line++;
    }
}

/* Is this [[ or [==[ ?  The number of = signs, or -1. */
static int long_level(const reader *r)
{
    if (look(r, 0) != '[')
        return -1;
    int level = 0;
    while (look(r, level + 1) == '=')
        level++;
    return look(r, level + 1) == '[' ? level : -1;
}

static void skip_long(reader *r, int level)
{
    step_over(r, level + 2);
    while (r->at < r->end) {
        int n = 0;
        if (look(r, 0) == ']') {
            while (look(r, n + 1) == '=')
                n++;
            if (n == level && look(r, n + 1) == ']') {
                step_over(r, level + 2);
                return;
            }
        }
        step_over(r, 1);
    }
}

static void skip_comment(reader *r)
{
    step_over(r, 2);
    int level = long_level(r);
    if (level >= 0) {
        skip_long(r, level);
        return;
    }
    while (r->at < r->end && *r->at != '\n')
        r->at++;
}

/* Most of a file: what is no operator, and begins no comment, text or line. */
static bool is_plain(char c)
{
    return (c >= 'a' && c <= 'z') || c == ' ' || c == ',' || c == '.' || (c >= '0' && c <= '9');
}

static void skip_quoted(reader *r)
{
    char quote = *r->at;
    step_over(r, 1);
    /* An unfinished text ends at its line's end; Lua says so afterwards.  \z and a backslash
     * before the line's end carry on. */
    while (r->at < r->end && *r->at != quote && *r->at != '\n') {
        if (is_plain(*r->at)) {
            r->at++;
            continue;
        }
        bool blanks = look(r, 0) == '\\' && look(r, 1) == 'z';
        step_over(r, look(r, 0) == '\\' ? 2 : 1);
        while (blanks && r->at < r->end && strchr(" \t\r\n\v\f", *r->at) != NULL)
            step_over(r, 1);
    }
    step_over(r, 1);
}

static hl_code fail_bits(const reader *r, const char *what, hl_err *err)
{
    hl__fail(err, HL_E_RULE, "%s is refused in rule files", what);
    hl__todo(err, "some releases of Lua compute bitwise operators wrongly; use and, or, not, + and *");
    return hl__at(err, "", r->line, 0);
}

static hl_code fail_index(const reader *r, hl_err *err)
{
    hl__fail(err, HL_E_RULE, "a comparison inside [ ] is refused in rule files");
    hl__todo(err, "some releases of Lua compile it wrongly; put the comparison into a local first");
    return hl__at(err, "", r->line, 0);
}

static hl_code check_operator(reader *r, hl_err *err)
{
    char c = look(r, 0), next = look(r, 1);
    bool compares = (c == '<' || c == '>' || (c == '=' && next == '=') || (c == '~' && next == '='));
    if (c == '&' || c == '|')
        return fail_bits(r, c == '&' ? "the operator &" : "the operator |", err);
    if (c == '~' && next != '=')
        return fail_bits(r, "the operator ~", err);
    if ((c == '<' || c == '>') && next == c)
        return fail_bits(r, c == '<' ? "the operator <<" : "the operator >>", err);
    if (compares && r->brackets > 0)
        return fail_index(r, err);
    r->brackets += c == '[' ? 1 : c == ']' && r->brackets > 0 ? -1 : 0;
    step_over(r, compares && next == '=' ? 2 : 1);
    return HL_OK;
}

static hl_code check_utf8(const char *text, size_t size, hl_err *err)
{
    int line = 1;
    for (size_t i = 0; i < size;) {
        uint32_t point;
        if (text[i] > '\n') { /* plain: no end of a line, no part of a longer character */
            i++;
            continue;
        }
        int n = text[i] == '\0' ? 0 : hl__utf8_next(text + i, size - i, &point);
        if (n == 0) {
            hl__fail(err, HL_E_RULE,
                     text[i] == '\0' ? "the file has a zero byte" : "the file is not UTF-8 text");
            hl__todo(err, "save it as plain text, UTF-8");
            return hl__at(err, "", line, 0);
        }
        if (text[i] == '\n')
            line++;
        i += (size_t)n;
    }
    return HL_OK;
}

/* Steps over a comment or a text; false when there is none here. */
static bool skip_words(reader *r)
{
    int level = long_level(r);
    if (look(r, 0) == '-' && look(r, 1) == '-')
        skip_comment(r);
    else if (level >= 0)
        skip_long(r, level);
    else if (look(r, 0) == '"' || look(r, 0) == '\'')
        skip_quoted(r);
    else
        return false;
    return true;
}

hl_code hl__scan(const char *text, size_t size, hl_err *err)
{
    if (size > 0 && text[0] == '\x1b') {
        hl__fail(err, HL_E_RULE, "the file is compiled Lua");
        hl__todo(err, "rule files are text; use the source it was compiled from");
        return hl__at(err, "", 1, 0);
    }
    hl_code code = check_utf8(text, size, err);
    reader r = {text, text + size, 1, 0};
    while (code == HL_OK && r.at < r.end) {
        if (is_plain(*r.at))
            r.at++;
        else if (!skip_words(&r))
            code = check_operator(&r, err);
    }
    return code;
}

int hl__scan_cases(const char *text, size_t size, int *lines, int most)
{
    static const char word[] = "tests";
    reader r = {text, text + size, 1, 0};
    int depth = 0, n = 0;
    bool inside = false;
    while (r.at < r.end) {
        if (skip_words(&r))
            continue;
        char c = look(&r, 0);
        if (!inside && (size_t)(r.end - r.at) > sizeof word && memcmp(r.at, word, sizeof word - 1) == 0)
            inside = true;
        if (inside && c == '{' && ++depth == 2) {
            if (n < most)
                lines[n] = r.line;
            n++;
        }
        if (inside && c == '}')
            depth--;
        step_over(&r, 1);
    }
    return n;
}
