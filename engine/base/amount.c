/* amount.c - amounts: scaling without rounding twice, and printing without printf's locale
 * (layer: base). */
#include "number.h"

#include <inttypes.h>
#include <math.h>
#include <string.h>

#define MOST          (INT64_C(1000000) * HL_ONE) /* 10^6 base units */
#define MOST_PER_UNIT INT64_C(9000000000)         /* keeps up * per_unit inside 64 bits */
#define DIGITS        9                           /* of hl__text_double */

bool hl__number_scale(const hl_number *number, int64_t per_unit, hl_amount *out)
{
    if (per_unit <= 0 || per_unit > MOST_PER_UNIT || number->down <= 0) {
        return false;
    }
    int64_t whole = number->whole + number->up / number->down;
    int64_t up = number->up % number->down;
    if (up >= INT64_C(1000000000) || whole > MOST / per_unit) {
        return false;
    }
    int64_t part = up * per_unit;
    int64_t rest = part % number->down;
    int64_t value = whole * per_unit + part / number->down;
    if (rest >= number->down - rest && rest > 0) {
        value++;
    }
    if (value > MOST) {
        return false;
    }
    *out = number->sign < 0 ? -value : value;
    return true;
}

static uint64_t size_of(hl_amount value)
{
    return value < 0 ? (uint64_t)0 - (uint64_t)value : (uint64_t)value;
}

void hl__text_decimal(hl_text *text, hl_amount value, int decimals)
{
    int places = decimals < 0 ? 0 : decimals > 6 ? 6 : decimals;
    uint64_t grain = 1, scale = 1;
    for (int i = places; i < 6; i++) {
        grain *= 10;
    }
    for (int i = 0; i < places; i++) {
        scale *= 10;
    }
    uint64_t rounded = (size_of(value) + grain / 2) / grain;
    if (value < 0 && rounded > 0) {
        hl__text_char(text, '-');
    }
    hl__text_printf(text, "%" PRIu64, rounded / scale);
    if (places > 0) {
        hl__text_printf(text, ".%0*" PRIu64, places, rounded % scale);
    }
}

void hl__text_exact(hl_text *text, hl_amount value)
{
    uint64_t part = size_of(value) % (uint64_t)HL_ONE;
    int places = 6;
    while (places > 0 && part % 10 == 0) {
        part /= 10;
        places--;
    }
    hl__text_decimal(text, value, places);
}

void hl__text_fraction(hl_text *text, hl_amount value)
{
    const uint64_t eighth = (uint64_t)HL_ONE / 8;
    uint64_t size = size_of(value);
    uint64_t whole = size / (uint64_t)HL_ONE;
    uint64_t up = size % (uint64_t)HL_ONE / eighth;
    if (size % eighth != 0 || up == 0) {
        hl__text_exact(text, value);
        return;
    }
    unsigned down = 8;
    while (up % 2 == 0) {
        up /= 2;
        down /= 2;
    }
    if (value < 0) {
        hl__text_char(text, '-');
    }
    if (whole > 0) {
        hl__text_printf(text, "%" PRIu64 " ", whole);
    }
    hl__text_printf(text, "%" PRIu64 "/%u", up, down);
}

static long double power_of_ten(int n)
{
    long double power = 1;
    for (int i = 0; i < n; i++) {
        power *= 10;
    }
    return power;
}

/* value * 10^n, in steps that do not overflow for any double. */
static long double shift_point(long double value, int n)
{
    while (n > 300) {
        value *= power_of_ten(300);
        n -= 300;
    }
    return n >= 0 ? value * power_of_ten(n) : value / power_of_ten(-n);
}

/* `n` digits with the point after the digit worth 10^top. */
static void put_digits(hl_text *text, uint64_t digits, int n, int top)
{
    char s[DIGITS + 1];
    for (int i = n - 1; i >= 0; i--) {
        s[i] = (char)('0' + (int)(digits % 10));
        digits /= 10;
    }
    if (top < 0) {
        hl__text_add(text, "0.");
        for (int i = -1; i > top; i--) {
            hl__text_char(text, '0');
        }
    }
    for (int i = 0; i < n || i <= top; i++) {
        if (top >= 0 && i == top + 1) {
            hl__text_char(text, '.');
        }
        hl__text_char(text, i < n ? s[i] : '0');
    }
}

void hl__text_double(hl_text *text, double value)
{
    if (!isfinite(value)) {
        hl__text_add(text, "null"); /* what JSON has for no number */
        return;
    }
    if (value == 0) {
        hl__text_char(text, '0');
        return;
    }
    long double size = fabsl((long double)value);
    int top = (int)floor(log10(fabs(value)));
    long double lead = shift_point(size, -top); /* log10 may be off by one */
    top += lead >= 10 ? 1 : lead < 1 ? -1 : 0;
    uint64_t digits = 0;
    int n = 0;
    while (n < DIGITS) {
        n++;
        digits = (uint64_t)roundl(shift_point(size, n - 1 - top));
        long double back = shift_point((long double)digits, top - n + 1);
        if (fabsl(back - size) <= 1e-9L * size) {
            break;
        }
    }
    if (digits >= (uint64_t)power_of_ten(n)) { /* 9.9999999999 rounds up to 10 */
        top++;
        digits /= 10;
    }
    while (n > 1 && digits % 10 == 0) {
        digits /= 10;
        n--;
    }
    if (value < 0) {
        hl__text_char(text, '-');
    }
    put_digits(text, digits, n, top);
}

hl_amount hl__round_to(hl_amount value, hl_amount grain)
{
    if (grain <= 1) {
        return value;
    }
    uint64_t size = size_of(value);
    uint64_t step = (uint64_t)grain;
    uint64_t rest = size % step;
    uint64_t rounded = rest >= step - rest ? size - rest + step : size - rest;
    if (rounded > (uint64_t)INT64_MAX) {
        rounded = size - rest;
    }
    return value < 0 ? -(hl_amount)rounded : (hl_amount)rounded;
}

bool hl__amount_from(double units, hl_amount *out)
{
    if (!isfinite(units) || fabs(units) > 1e6) {
        return false;
    }
    *out = (hl_amount)llround(units * 1e6);
    return true;
}
