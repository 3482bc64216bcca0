/* number.h - decimals and fractions without a locale and without rounding (layer: base). */
#ifndef HL_NUMBER_H
#define HL_NUMBER_H

#include "hammerline/base.h"
#include "text.h"

/* A number as written, exactly: value = sign * (whole + up / down), all non-negative.
 * "10.25" = 10 + 25/100; "1-3/4" = 1 + 3/4. */
typedef struct hl_number {
    int sign;
    int64_t whole, up, down;
    bool fraction; /* was written as a fraction */
    char mark;     /* '.' or ',' when it had a decimal mark, else 0 */
    int decimals;  /* digits after the mark */
} hl_number;

/* Read a number from the start of text; *used tells how many bytes it took (a unit may follow).
 * Takes: sign, digits with one '.' or ',' (".390", "10,2"), "3/8", "1 3/4", "1-3/4", leading
 * zeros, leading blanks.  Refuses, with `what` and `todo` in err (HL_E_SHEET, no place): no
 * digits, 1e3, 0x10, nan, inf, 1.234,5 or 1,234.5, 3/0, 1/2/3, more than 12 digits before or 9
 * after the mark. */
hl_code hl__number_read(hl_number *out, const char *text, size_t size, size_t *used, hl_err *err);

/* number * per_unit (amounts per one of the written unit), rounded half away from zero once.
 * False when it does not fit or exceeds 10^6 base units. */
bool hl__number_scale(const hl_number *number, int64_t per_unit, hl_amount *out);

/* value / 10^6 with exactly `decimals` digits (0..6), rounded half away from zero: "10.25",
 * "-0.05".  Never prints "-0". */
void hl__text_decimal(hl_text *text, hl_amount value, int decimals);
/* value / 10^6 in the shortest exact form: "10.25", "3", "0.000001". */
void hl__text_exact(hl_text *text, hl_amount value);
/* value / 10^6 as eighths, quarters, halves where exact ("3/8", "1 1/4"), else shortest exact. */
void hl__text_fraction(hl_text *text, hl_amount value);
/* A double as the shortest decimal that is within 1e-9 relative, at most 9 significant digits,
 * point, no exponent.  For facts and JSON. */
void hl__text_double(hl_text *text, double value);

/* Nearest multiple of `grain` (> 0), half away from zero. */
hl_amount hl__round_to(hl_amount value, hl_amount grain);
/* A double in base units to an amount; false when not finite or beyond 10^6 units. */
bool hl__amount_from(double units, hl_amount *out);

#endif
