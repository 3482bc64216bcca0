/* number.c - reading numbers exactly as people write them (layer: base).
 *
 * No strtod: it would follow the locale, take 1e3 and nan, and round in binary.  Nothing is
 * guessed; what is refused says how to write it. */
#include "number.h"

#include "ascii.h"
#include "errors.h"

#include <string.h>

#define MOST_BEFORE 12
#define MOST_AFTER  9

typedef struct reader {
    const char *s;
    size_t size, start, at;
    hl_err *err;
} reader;

typedef struct digits {
    int64_t value; /* meaningless when there are more than MOST_BEFORE */
    int count;     /* as written */
    int needed;    /* without leading zeros */
} digits;

static char peek(const reader *r, size_t ahead)
{
    return r->at + ahead < r->size ? r->s[r->at + ahead] : '\0';
}

/* The word that is wrong: from the number's start to the next blank, shown short. */
static hl_code refuse(const reader *r, const char *what, const char *todo)
{
    size_t end = r->at;
    while (end < r->size && r->s[end] != ' ' && r->s[end] != '\t' && end - r->start < 40) {
        end++;
    }
    while (end < r->size && end > r->start && ((unsigned char)r->s[end] & 0xC0u) == 0x80u) {
        end--;
    }
    if (end == r->start) {
        hl__fail(r->err, HL_E_SHEET, "there is no number here");
    } else {
        hl__fail(r->err, HL_E_SHEET, "'%.*s' %s", (int)(end - r->start), r->s + r->start, what);
    }
    return hl__todo(r->err, "%s", todo);
}

static digits take_digits(reader *r)
{
    digits d = {0, 0, 0};
    while (hl__is_digit(peek(r, 0))) {
        int digit = r->s[r->at] - '0';
        d.count++;
        if (d.needed > 0 || digit > 0) {
            d.needed++;
        }
        if (d.needed <= MOST_BEFORE) {
            d.value = d.value * 10 + digit;
        }
        r->at++;
    }
    return d;
}

/* A word processor's minus sign is a minus sign. */
static int take_sign(reader *r)
{
    if (peek(r, 0) == '+') {
        r->at++;
    } else if (peek(r, 0) == '-') {
        r->at++;
        return -1;
    } else if (r->size - r->at >= 3 && memcmp(r->s + r->at, "\xE2\x88\x92", 3) == 0) {
        r->at += 3;
        return -1;
    }
    return 1;
}

static bool is_mark(char c)
{
    return c == '.' || c == ',';
}

static hl_code refuse_fraction_end(reader *r)
{
    if (is_mark(peek(r, 0))) {
        return refuse(r, "mixes a fraction and a decimal mark", "write one of them: 3/8 or .375");
    }
    if (peek(r, 0) == '/') {
        return refuse(r, "has two fraction strokes", "write it as 3/8 or 1 3/4");
    }
    return HL_OK;
}

/* The reader is at the stroke; `up` is read. */
static hl_code take_fraction(reader *r, hl_number *out, digits up, bool mixed)
{
    r->at++;
    digits down = take_digits(r);
    if (down.count == 0) {
        return refuse(r, "has no number below the stroke", "write it as 3/8 or 1 3/4");
    }
    if (refuse_fraction_end(r) != HL_OK) {
        return HL_E_SHEET;
    }
    if (up.needed > MOST_AFTER || down.needed > MOST_AFTER) {
        return refuse(r, "has more than 9 digits in its fraction", "check the digits");
    }
    if (down.value == 0) {
        return refuse(r, "divides by zero", "check the number below the stroke");
    }
    if (mixed && up.value >= down.value) {
        return refuse(r, "has a fraction that is not less than one", "write it as 3/8 or 1 3/4");
    }
    out->fraction = true;
    out->up = up.value;
    out->down = down.value;
    return HL_OK;
}

/* "1 3/4" and "1-3/4": is there a fraction behind the whole number?  Goes to its first digit
 * when so, else stays. */
static bool find_mixed(reader *r)
{
    size_t back = r->at;
    size_t blanks = hl__text_blanks(r->s + r->at, r->size - r->at);
    if (blanks > 0) {
        r->at += blanks;
    } else if (peek(r, 0) == '-') {
        r->at++;
    } else {
        return false;
    }
    size_t first = r->at;
    digits up = take_digits(r);
    bool found = up.count > 0 && peek(r, 0) == '/';
    r->at = found ? first : back;
    return found;
}

static hl_code take_decimals(reader *r, hl_number *out, digits whole)
{
    out->mark = r->s[r->at];
    r->at++;
    digits after = take_digits(r);
    if (is_mark(peek(r, 0))) {
        return refuse(r, "has two decimal marks", "write it without marks between the thousands");
    }
    if (after.count == 0 && whole.count == 0) {
        return refuse(r, "is not a number", "write it in digits, such as 10.2 or 3/8");
    }
    if (after.count == 0) {
        return refuse(r, "ends in its decimal mark", "add the missing digits, or leave out the mark");
    }
    if (peek(r, 0) == '/') {
        return refuse(r, "mixes a fraction and a decimal mark", "write one of them: 3/8 or .375");
    }
    if (after.count > MOST_AFTER) {
        return refuse(r, "has more than 9 digits after its decimal mark", "leave out the last digits");
    }
    out->decimals = after.count;
    out->up = after.value;
    for (int i = 0; i < after.count; i++) {
        out->down *= 10;
    }
    return HL_OK;
}

/* 1e3 and its like; the plain form is shown where it is short. */
static hl_code refuse_exponent(reader *r, const hl_number *number)
{
    size_t place = peek(r, 1) == '-' || peek(r, 1) == '+' ? 2 : 1;
    if ((peek(r, 0) != 'e' && peek(r, 0) != 'E') || !hl__is_digit(peek(r, place))) {
        return HL_OK;
    }
    bool negative = peek(r, 1) == '-';
    r->at += place;
    digits power = take_digits(r);
    bool plain =
        !negative && !number->fraction && number->mark == 0 && number->whole < 1000 && power.value <= 6;
    if (!plain || power.needed > MOST_BEFORE) {
        return refuse(r, "is not a number here", "write it out in plain digits");
    }
    int64_t value = number->whole;
    for (int i = 0; i < (int)power.value; i++) {
        value *= 10;
    }
    refuse(r, "is not a number here", "");
    return hl__todo(r->err, "write it out: %s%lld", number->sign < 0 ? "-" : "", (long long)value);
}

static hl_code take_number(reader *r, hl_number *out)
{
    out->sign = take_sign(r);
    if (peek(r, 0) == '0' && (peek(r, 1) == 'x' || peek(r, 1) == 'X')) {
        return refuse(r, "is not a number here", "write it out in plain decimal digits");
    }
    digits whole = take_digits(r);
    hl_code code = HL_OK;
    if (is_mark(peek(r, 0))) {
        code = take_decimals(r, out, whole);
    } else if (whole.count == 0) {
        return refuse(r, "is not a number", "write it in digits, such as 10.2 or 3/8");
    } else if (peek(r, 0) == '/') {
        code = take_fraction(r, out, whole, false);
        whole = (digits){0, 1, 0};
    } else if (find_mixed(r)) {
        digits up = take_digits(r);
        code = take_fraction(r, out, up, true);
    }
    if (code == HL_OK && whole.needed > MOST_BEFORE) {
        return refuse(r, "has more than 12 digits before its decimal mark", "check the digits");
    }
    out->whole = whole.value;
    return code == HL_OK ? refuse_exponent(r, out) : code;
}

hl_code hl__number_read(hl_number *out, const char *text, size_t size, size_t *used, hl_err *err)
{
    reader r = {text, size, 0, 0, err};
    hl_number number = {.sign = 1, .down = 1};
    *out = number;
    *used = 0;
    r.start = r.at = hl__text_blanks(text, size);
    hl_code code = take_number(&r, &number);
    if (code != HL_OK) {
        return code;
    }
    *out = number;
    *used = r.at;
    return HL_OK;
}
