/* fuzz_number.c - the reader of numbers and quantities.
 *
 * What it takes lies inside the promised range, and comes back the same when it is printed and read
 * again; what it refuses it explains. */
#include "fuzz.h"

#include "number.h"
#include "quantity.h"

#include <string.h>

static void check_number(const char *text, size_t size)
{
    hl_number number;
    hl_err err = {0};
    size_t used = 0;
    if (hl__number_read(&number, text, size, &used, &err) != HL_OK) {
        PROMISE(err.what[0] != '\0' && err.todo[0] != '\0');
        return;
    }
    PROMISE(used > 0 && used <= size);
    PROMISE(number.sign == 1 || number.sign == -1);
    PROMISE(number.whole >= 0 && number.up >= 0 && number.down > 0);
    PROMISE(number.mark == 0 || number.mark == '.' || number.mark == ',');
}

static void check_again(hl_amount value, hl_unit unit)
{
    hl_text text = {0};
    hl_amount again = 0;
    hl_err err = {0};
    hl__text_exact(&text, value);
    PROMISE(!text.failed);
    if (unit != HL_IN) /* printed in the base unit: an inch column would take it for inches */
        PROMISE(hl__quantity_read(&again, text.data, unit, HL_E_SHEET, NULL, &err) == HL_OK &&
                again == value);
    hl__text_free(&text);
    hl__text_fraction(&text, value);
    if (unit == HL_TURN)
        PROMISE(hl__quantity_read(&again, text.data, unit, HL_E_SHEET, NULL, &err) == HL_OK &&
                again == value);
    hl__text_free(&text);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static const hl_unit units[] = {HL_MM, HL_IN, HL_G, HL_TURN, HL_DEGREE, HL_RATIO, HL_NOTCH};
    if (size > 200)
        return 0;
    char *text = malloc(size + 1);
    if (text == NULL)
        return 0;
    memcpy(text, data, size);
    text[size] = '\0';
    check_number(text, size);
    for (size_t i = 0; i < sizeof units / sizeof *units; i++) {
        hl_amount value = 0;
        hl_err err = {0};
        hl_number number;
        if (hl__quantity_read(&value, text, units[i], HL_E_SHEET, &number, &err) == HL_OK) {
            PROMISE(value <= HL_ONE * HL_ONE && value >= -HL_ONE * HL_ONE);
            check_again(value, units[i]);
        } else {
            PROMISE(err.code == HL_E_SHEET && err.what[0] != '\0');
        }
    }
    hl_dims dims;
    char name[48];
    if (hl__dims_parse(&dims, text)) {
        hl_dims again;
        PROMISE(hl__dims_parse(&again, hl__dims_name(dims, name)) && hl__dims_equal(again, dims));
    }
    free(text);
    return 0;
}
