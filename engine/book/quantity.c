/* quantity.c - amounts with units, as people write them (layer: book). */
#include "quantity.h"

#include "errors.h"

#include <stdint.h>
#include <string.h>

hl_amount hl__amount_in_other(hl_amount value, hl_unit unit)
{
    /* amounts stay below 10^12, so 254 times one fits */
    return unit == HL_MM ? value * 254 / 10 : value * 10 / 254;
}

static const char *say_kind(hl_unit unit)
{
    switch (unit) {
    case HL_MM:
    case HL_IN:
        return "a length";
    case HL_G:
        return "a weight";
    case HL_TURN:
        return "a number of turns";
    case HL_DEGREE:
        return "an angle";
    case HL_NOTCH:
        return "a number of small steps";
    case HL_RATIO:
    case HL_NO_UNIT:
        break;
    }
    return "a plain number";
}

static hl_code refuse_kind(const char *text, size_t size, hl_unit given, hl_unit unit, hl_code code,
                           hl_err *err)
{
    const char *place = code == HL_E_SHEET ? "this column is" : "what is asked for is";
    int shown = size > 40 ? 40 : (int)size;
    if (unit == HL_RATIO || unit == HL_NO_UNIT) {
        hl__fail(err, code, "'%.*s' is %s, %s a plain number", shown, text, say_kind(given), place);
        return hl__todo(err, "write the number without a unit");
    }
    hl__fail(err, code, "'%.*s' is %s, %s %s (%s)", shown, text, say_kind(given), place, say_kind(unit),
             hl_unit_name(unit));
    bool length = unit == HL_MM || unit == HL_IN;
    return hl__todo(err, "write it in %s, or move it to where it belongs",
                    length ? "mm or in" : hl_unit_name(unit));
}

static hl_code refuse_unit(const char *text, size_t size, const char *rest, size_t rest_size, hl_code code,
                           hl_err *err)
{
    int shown = size > 40 ? 40 : (int)size;
    if (rest_size > 0 && rest[0] == '%') {
        hl__fail(err, code, "'%.*s' is a percentage, which no reading or limit is", shown, text);
        return hl__todo(err, "write the amount itself, with its unit");
    }
    hl__fail(err, code, "'%.*s' ends in '%.*s', which is not a unit here", shown, text,
             rest_size > 20 ? 20 : (int)rest_size, rest);
    return hl__todo(err, "use mm, in, g, turn, deg or step, or leave the unit out");
}

static hl_code refuse_size(const char *text, size_t size, hl_unit unit, hl_code code, hl_err *err)
{
    int shown = size > 40 ? 40 : (int)size;
    const char *name = unit == HL_IN ? "mm" : unit == HL_RATIO ? "" : hl_unit_name(unit);
    hl__fail(err, code, "'%.*s' is more than 1000000%s%s", shown, text, *name != '\0' ? " " : "", name);
    return hl__todo(err, "check the decimal mark and the unit");
}

hl_code hl__quantity_read(hl_amount *out, const char *text, hl_unit unit, hl_code code, hl_number *number,
                          hl_err *err)
{
    *out = 0;
    size_t size = strlen(text);
    const char *all = hl__text_trim(text, &size);
    hl_number written;
    size_t used = 0;
    if (hl__number_read(&written, all, size, &used, err) != HL_OK) {
        err->code = code;
        return code;
    }
    size_t rest_size = size - used;
    const char *rest = hl__text_trim(all + used, &rest_size);
    hl_unit given = unit;
    if (rest_size > 0 && !hl__unit_parse(&given, rest, rest_size)) {
        return refuse_unit(all, size, rest, rest_size, code, err);
    }
    if (!hl__dims_equal(hl__unit_dims(given), hl__unit_dims(unit))) {
        return refuse_kind(all, size, given, unit, code, err);
    }
    if (!hl__number_scale(&written, hl__unit_scale(given), out)) {
        *out = 0;
        return refuse_size(all, size, given, code, err);
    }
    if (number != NULL) {
        *number = written;
    }
    return HL_OK;
}

/* Nanometres to millionths of an inch. */
static hl_amount to_inches(hl_amount value)
{
    /* value * 10 / 254, without leaving 64 bits; the remainder is rounded once. */
    hl_amount rest = value % 254 * 10;
    hl_amount up = rest < 0 ? (rest - 127) / 254 : (rest + 127) / 254;
    return value / 254 * 10 + up;
}

/* Decimals that a resolution, in millionths, calls for: all of its own where it has few (0.25: 2),
 * else as many as make the last digit no coarser than it. */
static int count_decimals(hl_amount resolution)
{
    hl_amount grain = HL_ONE;
    int fine = 0;
    for (; fine < 6 && grain > resolution; fine++) {
        grain /= 10;
    }
    hl_amount exact_grain = grain;
    int exact = fine;
    for (; exact < 6 && resolution % exact_grain != 0; exact++) {
        exact_grain /= 10;
    }
    return exact <= 4 ? exact : fine;
}

void hl__text_amount(hl_text *text, hl_amount value, hl_unit unit, hl_amount resolution, bool with_unit)
{
    bool inches = unit == HL_IN;
    hl_amount shown = inches ? to_inches(value) : value;
    hl_amount grain = inches ? to_inches(resolution) : resolution;
    if (unit == HL_TURN) {
        hl__text_fraction(text, resolution > 0 ? hl__round_to(value, resolution) : value);
    } else if (resolution <= 0) {
        hl__text_exact(text, shown);
    } else {
        hl__text_decimal(text, shown, count_decimals(grain));
    }
    if (with_unit && unit != HL_NO_UNIT) {
        hl__text_printf(text, " %s", hl_unit_name(unit));
    }
}
