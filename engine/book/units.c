/* units.c - the units that people write, and what formulas multiply and divide (layer: book). */
#include "quantity.h"

#include "ascii.h"

#include <stdio.h>
#include <string.h>

const char *hl_unit_name(hl_unit unit)
{
    switch (unit) {
    case HL_MM:
        return "mm";
    case HL_IN:
        return "in";
    case HL_G:
        return "g";
    case HL_TURN:
        return "turn";
    case HL_DEGREE:
        return "deg";
    case HL_RATIO:
        return "ratio";
    case HL_NOTCH:
        return "step";
    case HL_NO_UNIT:
        break;
    }
    return "";
}

#define INCH INT64_C(25400000) /* nanometres; NIST SP 811, appendix B.8: exact */

typedef struct unit_word {
    const char *word;
    hl_unit unit;
} unit_word;

static const unit_word WORDS[] = {
    {"mm", HL_MM},
    {"millimetre", HL_MM},
    {"millimetres", HL_MM},
    {"millimeter", HL_MM},
    {"millimeters", HL_MM},
    {"in", HL_IN},
    {"in.", HL_IN},
    {"inch", HL_IN},
    {"inches", HL_IN},
    {"\"", HL_IN},
    {"\xE2\x80\xB3", HL_IN}, /* double prime */
    {"\xE2\x80\x9D", HL_IN}, /* what a word processor makes of a straight quote */
    {"g", HL_G},
    {"gram", HL_G},
    {"grams", HL_G},
    {"turn", HL_TURN},
    {"turns", HL_TURN},
    {"deg", HL_DEGREE},
    {"degree", HL_DEGREE},
    {"degrees", HL_DEGREE},
    {"\xC2\xB0", HL_DEGREE},
    {"ratio", HL_RATIO},
    {"step", HL_NOTCH},
    {"steps", HL_NOTCH},
};

bool hl__unit_parse(hl_unit *out, const char *text, size_t size)
{
    const char *word = hl__text_trim(text, &size);
    for (size_t i = 0; i < sizeof WORDS / sizeof WORDS[0]; i++) {
        if (hl__same_word_n(word, size, WORDS[i].word)) {
            *out = WORDS[i].unit;
            return true;
        }
    }
    return false;
}

int64_t hl__unit_scale(hl_unit unit)
{
    return unit == HL_IN ? INCH : HL_ONE;
}

/* ---- powers of the base units -------------------------------------------------------------------- */

#define DIMS      5
#define NAME_ROOM 48

hl_dims hl__unit_dims(hl_unit unit)
{
    switch (unit) {
    case HL_MM:
    case HL_IN:
        return (hl_dims){.length = 1};
    case HL_G:
        return (hl_dims){.mass = 1};
    case HL_TURN:
        return (hl_dims){.turn = 1};
    case HL_DEGREE:
        return (hl_dims){.angle = 1};
    case HL_NOTCH:
        return (hl_dims){.notch = 1};
    case HL_RATIO:
    case HL_NO_UNIT:
        break;
    }
    return (hl_dims){0};
}

bool hl__dims_equal(hl_dims a, hl_dims b)
{
    return a.length == b.length && a.mass == b.mass && a.turn == b.turn && a.angle == b.angle &&
           a.notch == b.notch;
}

void hl__dims_by(hl_dims *dims, hl_unit unit, int sign)
{
    hl_dims one = hl__unit_dims(unit);
    dims->length = (signed char)(dims->length + sign * one.length);
    dims->mass = (signed char)(dims->mass + sign * one.mass);
    dims->turn = (signed char)(dims->turn + sign * one.turn);
    dims->angle = (signed char)(dims->angle + sign * one.angle);
    dims->notch = (signed char)(dims->notch + sign * one.notch);
}

/* One factor, "mm" or "1", added to the powers. */
static bool add_factor(hl_dims *dims, const char *text, size_t size, int sign)
{
    size_t blanks = hl__text_blanks(text, size);
    if (size - blanks >= 1 && text[blanks] == '1' &&
        hl__text_blanks(text + blanks + 1, size - blanks - 1) == size - blanks - 1) {
        return true;
    }
    hl_unit unit = HL_NO_UNIT;
    if (!hl__unit_parse(&unit, text, size) || unit == HL_IN) {
        return false;
    }
    hl__dims_by(dims, unit, sign);
    return true;
}

bool hl__dims_parse(hl_dims *out, const char *text)
{
    hl_dims dims = {0};
    const char *slash = strchr(text, '/');
    const char *end = slash != NULL ? slash : text + strlen(text);
    const char *star = memchr(text, '*', (size_t)(end - text));
    const char *first_end = star != NULL ? star : end;
    if (!add_factor(&dims, text, (size_t)(first_end - text), 1)) {
        return false;
    }
    if (star != NULL && !add_factor(&dims, star + 1, (size_t)(end - star - 1), 1)) {
        return false;
    }
    if (slash != NULL && !add_factor(&dims, slash + 1, strlen(slash + 1), -1)) {
        return false;
    }
    *out = dims;
    return true;
}

static void add_name(char *buffer, size_t *at, const char *joint, const char *name, int power)
{
    const char *before = *at > 0 || joint[0] == '/' ? joint : "";
    int n = power == 1   ? snprintf(buffer + *at, NAME_ROOM - *at, "%s%s", before, name)
            : power == 2 ? snprintf(buffer + *at, NAME_ROOM - *at, "%s%s*%s", before, name, name)
                         : snprintf(buffer + *at, NAME_ROOM - *at, "%s%s^%d", before, name, power);
    *at = n < 0 || (size_t)n >= NAME_ROOM - *at ? NAME_ROOM - 1 : *at + (size_t)n;
}

const char *hl__dims_name(hl_dims dims, char *buffer)
{
    static const char *const names[DIMS] = {"mm", "g", "turn", "deg", "step"};
    const int powers[DIMS] = {dims.length, dims.mass, dims.turn, dims.angle, dims.notch};
    size_t at = 0;
    bool any = false;
    buffer[0] = '\0';
    for (int i = 0; i < DIMS; i++) {
        if (powers[i] > 0) {
            add_name(buffer, &at, "*", names[i], powers[i]);
        }
        any = any || powers[i] != 0;
    }
    if (at == 0) {
        at = (size_t)snprintf(buffer, NAME_ROOM, "%s", any ? "1" : "ratio");
    }
    for (int i = 0; i < DIMS; i++) {
        if (powers[i] == -2) { /* g/mm/mm: g/mm*mm would read as a product */
            add_name(buffer, &at, "/", names[i], 1);
            add_name(buffer, &at, "/", names[i], 1);
        } else if (powers[i] < 0) {
            add_name(buffer, &at, "/", names[i], -powers[i]);
        }
    }
    return buffer;
}
