/* quantity.h - amounts with units, as people write them (layer: book). */
#ifndef HL_QUANTITY_H
#define HL_QUANTITY_H

#include "hammerline/book.h"
#include "number.h"

/* Powers of the base dimensions; what formulas are checked with.  "mm/turn" = {1,0,-1,0,0}. */
typedef struct hl_dims {
    signed char length, mass, turn, angle, notch;
} hl_dims;

hl_dims hl__unit_dims(hl_unit unit);
bool hl__dims_equal(hl_dims a, hl_dims b);
/* Multiplied by a unit (sign 1), or divided (-1). */
void hl__dims_by(hl_dims *dims, hl_unit unit, int sign);
/* "mm", "mm/turn", "g", "ratio", "g/mm", "mm*mm"; at most two factors and one division.
 * Inches are refused: what formulas work with is held in mm. */
bool hl__dims_parse(hl_dims *out, const char *text);
/* Writes "mm/turn" into a buffer of at least 48 bytes and returns it. */
const char *hl__dims_name(hl_dims dims, char *buffer);

/* "mm", "in", `"`, "inch", "g", "gram", "turn(s)", "deg", "°", "ratio", "step(s)"; percent is
 * refused.  Case does not matter.  False when unknown. */
bool hl__unit_parse(hl_unit *out, const char *text, size_t size);
/* The amount that the same digits mean in the other unit of length: inches for HL_MM, else mm. */
hl_amount hl__amount_in_other(hl_amount value, hl_unit unit);
/* Amounts per one written unit: HL_ONE, or 25,400,000 for inches. */
int64_t hl__unit_scale(hl_unit unit);

/* Read "10.2", "10,2", "10.2 mm", ".390 in", "3/8 in", `1 3/4"`, "52 g".  Without a unit it is in
 * `unit` (the column's or the step's).  A unit of another dimension is an error that names both.
 * `code` is what a failure is called.  `number`, when not NULL, receives what was written. */
hl_code hl__quantity_read(hl_amount *out, const char *text, hl_unit unit, hl_code code, hl_number *number,
                          hl_err *err);

/* The amount in its unit with the digits that `resolution` (an amount; 0 = exact) calls for, and
 * the unit's name after a blank when with_unit.  Turns print as fractions. */
void hl__text_amount(hl_text *text, hl_amount value, hl_unit unit, hl_amount resolution, bool with_unit);

#endif
