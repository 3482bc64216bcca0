/* sheet_facts.c - the facts a sheet states, held against the book's (layer: sheet/head).
 *
 * Three sorts: what shapes the sheet (compass, breaks ...), numbers that the book's mathematics
 * needs, and free text for the record.  A key near to one of the first two is a slip. */
#include "errors.h"
#include "nearest_name.h"
#include "sheet_parts.h"

#include <math.h>
#include <string.h>

static const char *const SHAPING[] = {"book", "compass", "breaks", "dampers", "samples", "hammerline"};

/* Kept for the record, and offered to who misspells one. */
static const char *const RECORD[] = {
    "piano",      "owner", "workshop", "date", "place",  "temperature", "humidity",     "by",
    "checked_by", "work",  "gauges",   "note", "remark", "scope",       "return_weeks", "return_hours",
};

/* Kept too; listed because they are near to one of the others. */
static const char *const ALSO[] = {"notes", "remarks", "gauge", "dates", "works",
                                   "year",  "key",     "keys",  "make"};

#define COUNT(list) (sizeof(list) / sizeof *(list))

const char *const *hl__sheet_records(size_t *n)
{
    *n = COUNT(RECORD);
    return RECORD;
}

static bool is_listed(const char *const *list, size_t n, const char *id)
{
    for (size_t i = 0; i < n; i++) {
        if (strcmp(list[i], id) == 0) {
            return true;
        }
    }
    return false;
}

/* One factor of a unit, "mm" or "turn", laid onto dims with its size in base units. */
static bool add_factor(hl_dims *dims, double *scale, const char *text, size_t size, int sign)
{
    hl_unit unit = HL_NO_UNIT;
    while (size > 0 && text[size - 1] == ' ') {
        size--;
    }
    while (size > 0 && *text == ' ') {
        text++;
        size--;
    }
    if (!hl__unit_parse(&unit, text, size)) {
        return false;
    }
    double by = (double)hl__unit_scale(unit) / (double)HL_ONE;
    hl__dims_by(dims, unit, sign);
    *scale = sign > 0 ? *scale * by : *scale / by;
    return true;
}

/* "in/turn", "mm*mm": at most three factors. */
static bool read_unit(hl_dims *dims, double *scale, const char *text)
{
    int sign = 1;
    *dims = (hl_dims){0, 0, 0, 0, 0};
    *scale = 1;
    for (int i = 0; i < 3; i++) {
        size_t size = strcspn(text, "/*");
        if (!add_factor(dims, scale, text, size, sign)) {
            return false;
        }
        if (text[size] == '\0') {
            return true;
        }
        sign = text[size] == '/' ? -1 : 1;
        text += size + 1;
    }
    return false;
}

static hl_code refuse_unit(const hl_fact *fact, const char *unit, hl_err *bad)
{
    const char *own = fact->unit[0] == '\0' || strcmp(fact->unit, "ratio") == 0 ? "no unit" : fact->unit;
    hl__fail(bad, HL_E_SHEET, "%s is a number with %s, not '%s'", fact->id, own, hl__sheet_show(unit).text);
    return hl__todo(bad, "write the number%s%s alone", own == fact->unit ? " and " : "",
                    own == fact->unit ? own : "");
}

static hl_code read_fact_value(hl_sheet *sheet, const hl_fact *fact, const char *text, double *out,
                               hl_err *bad)
{
    hl_number number;
    size_t used = 0, size = strlen(text);
    if (hl__number_read(&number, text, size, &used, bad) != HL_OK) {
        return bad->code;
    }
    if (hl__cell_mark(sheet, &sheet->fact_mark, &number, bad) != HL_OK) {
        return bad->code;
    }
    used += hl__text_blanks(text + used, size - used);
    hl_dims own = {0, 0, 0, 0, 0}, stated = own;
    double own_scale = 1, scale = 1;
    bool plain = fact->unit[0] == '\0' || read_unit(&own, &own_scale, fact->unit);
    if (text[used] == '\0') {
        scale = own_scale;
    } else if (!plain || !read_unit(&stated, &scale, text + used) || !hl__dims_equal(own, stated)) {
        return refuse_unit(fact, text + used, bad);
    }
    double part = number.down == 0 ? 0 : (double)number.up / (double)number.down;
    *out = number.sign * ((double)number.whole + part) * scale;
    return HL_OK;
}

#define FACT_SPAN 8 /* times the book's own figure, up or down */

/* A share may be none at all; a ratio, a length or a pitch can't. */
static bool may_be_nought(const hl_fact *fact)
{
    return strcmp(fact->unit, "ratio") == 0 && fact->has_value && fact->value[0] > 0 && fact->value[0] < 0.25;
}

/* A wrong sign or size in a fact turns corrections round or makes them wild, and nothing else would show it.
 */
static hl_code check_plausible(const hl_fact *fact, double value, hl_err *bad)
{
    const double own = fact->has_value ? fact->value[0] : 0;
    const bool measure = fact->unit[0] != '\0';
    if (own != 0 && !(value == 0 && may_be_nought(fact)) &&
        (value / own < 1.0 / FACT_SPAN || value / own > FACT_SPAN)) {
        hl__fail(bad, HL_E_SHEET, "the fact %s can hardly be %g, where the book has %g", fact->id, value,
                 own);
        return hl__todo(bad, value / own <= 0 ? "measure it again; it has the other sign, or is nought"
                                              : "measure it again, and look at its unit");
    }
    if (own == 0 && measure && value < 0) {
        hl__fail(bad, HL_E_SHEET, "the fact %s can't be less than nothing", fact->id);
        return hl__todo(bad, "write it without a sign");
    }
    return HL_OK;
}

static hl_code state_number(hl_sheet *sheet, int index, const hl_stated_fact *stated, hl_err *bad)
{
    const hl_fact *fact = &sheet->book->facts[index];
    double value = 0;
    if (read_fact_value(sheet, fact, stated->value, &value, bad) != HL_OK) {
        char what[sizeof bad->what], todo[sizeof bad->todo];
        memcpy(what, bad->what, sizeof what);
        memcpy(todo, bad->todo, sizeof todo);
        hl__fail(bad, bad->code, "the fact %s: %s", fact->id, what);
        return hl__todo(bad, "%s", todo);
    }
    if (check_plausible(fact, value, bad) != HL_OK) {
        return bad->code;
    }
    for (int colour = 0; colour < 2; colour++) {
        if (stated->colour == 0 || stated->colour == colour + 1) {
            sheet->values[index][colour] = value;
            sheet->assumed[index][colour] = false;
        }
    }
    return HL_OK;
}

static hl_code state_shaping(hl_sheet *sheet, const hl_stated_fact *fact, bool late, hl_err *bad)
{
    if (fact->colour != 0) {
        hl__fail(bad, HL_E_SHEET, "%s has no colour", fact->id);
        return hl__todo(bad, "state it once for all keys");
    }
    if (strcmp(fact->id, "breaks") == 0) {
        return hl__sheet_read_breaks(sheet, fact->value, bad);
    }
    if (strcmp(fact->id, "dampers") == 0) {
        return hl__sheet_read_dampers(sheet, fact->value, bad);
    }
    if (strcmp(fact->id, "samples") == 0) {
        return hl__sheet_read_samples(sheet, fact->value, bad);
    }
    if (late) {
        hl__fail(bad, HL_E_SHEET, "%s can't change in the middle of a sheet", fact->id);
        return hl__todo(bad, "state it above the header");
    }
    if (strcmp(fact->id, "compass") == 0) {
        return hl__sheet_read_compass(&sheet->compass, fact->value, bad);
    }
    return HL_OK;
}

static hl_code check_slip(const hl_sheet *sheet, const hl_stated_fact *fact, hl_err *bad)
{
    hl_suggest suggest = {fact->id, NULL, 0};
    for (size_t i = 0; i < COUNT(SHAPING); i++) {
        hl__suggest_offer(&suggest, SHAPING[i]);
    }
    for (int i = 0; i < sheet->book->n_facts; i++) {
        hl__suggest_offer(&suggest, sheet->book->facts[i].id);
    }
    for (int i = 0; i < sheet->book->n_renamed; i++) {
        hl__suggest_offer(&suggest, sheet->book->renamed[i].was);
    }
    for (size_t i = 0; i < COUNT(RECORD); i++) {
        hl__suggest_offer(&suggest, RECORD[i]);
    }
    if (suggest.best == NULL) {
        return HL_OK;
    }
    const char *now = hl__book_new_name(sheet->book, suggest.best);
    hl__fail(bad, HL_E_SHEET, "there is no fact '%s'", fact->id);
    return hl__todo(bad, "did you mean '%s'? A remark begins with '##'", now != NULL ? now : suggest.best);
}

static bool is_climate(const char *id)
{
    return strcmp(id, "humidity") == 0 || strcmp(id, "temperature") == 0;
}

/* Climate is a number, so that it can be compared between passes: "46 %", "20.5 C", "69 F". */
static hl_code check_climate(hl_sheet *sheet, const hl_stated_fact *fact, hl_err *bad)
{
    const bool humid = strcmp(fact->id, "humidity") == 0;
    hl_number number;
    size_t used = 0;
    const size_t size = strlen(fact->value);
    if (hl__number_read(&number, fact->value, size, &used, bad) != HL_OK) {
        hl__fail(bad, HL_E_SHEET, "%s is a number, not '%s'", fact->id, hl__sheet_show(fact->value).text);
        return hl__todo(bad, humid ? "write it as 46 %%" : "write it as 20.5 C");
    }
    if (hl__cell_mark(sheet, &sheet->fact_mark, &number, bad) != HL_OK) {
        return bad->code;
    }
    used += hl__text_blanks(fact->value + used, size - used);
    const char *unit = fact->value + used;
    const bool fahrenheit = unit[0] == 'F' || unit[0] == 'f' ||
                            strncmp(unit,
                                    "\xC2\xB0"
                                    "F",
                                    3) == 0;
    const double part = number.down == 0 ? 0 : (double)number.up / (double)number.down;
    const double value = number.sign * ((double)number.whole + part);
    const double low = humid ? 0 : fahrenheit ? -4 : -20, high = humid ? 100 : fahrenheit ? 140 : 60;
    if (value >= low && value <= high) {
        return HL_OK;
    }
    hl__fail(bad, HL_E_SHEET, "no workshop has a %s of %s", fact->id, hl__sheet_show(fact->value).text);
    return hl__todo(bad, humid ? "write the relative humidity, 0 to 100 %%"
                               : "write the room's temperature, as in 20.5 C or 69 F");
}

hl_code hl__sheet_state(hl_sheet *sheet, const hl_stated_fact *fact, bool late, hl_err *bad)
{
    if (is_listed(SHAPING, COUNT(SHAPING), fact->id)) {
        return state_shaping(sheet, fact, late, bad);
    }
    int index = hl__book_find_fact(sheet->book, fact->id);
    if (index >= 0) {
        return state_number(sheet, index, fact, bad);
    }
    bool known = false;
    hl_code code = hl__sheet_state_go_gauge(sheet, fact, &known, bad);
    if (!known) {
        code = hl__sheet_state_gauge(sheet, fact, &known, bad);
    }
    if (known) {
        return code;
    }
    if (is_climate(fact->id)) {
        return check_climate(sheet, fact, bad);
    }
    known = is_listed(RECORD, COUNT(RECORD), fact->id) || is_listed(ALSO, COUNT(ALSO), fact->id);
    return known ? HL_OK : check_slip(sheet, fact, bad);
}

/* Two values for one fact above the header: neither can be trusted. */
static hl_code check_twice(const hl_sheet *sheet, size_t i, hl_err *bad)
{
    const hl_stated_fact *fact = &sheet->facts[i];
    if (!is_listed(SHAPING, COUNT(SHAPING), fact->id) && hl__book_find_fact(sheet->book, fact->id) < 0 &&
        hl__sheet_gauge_step(sheet, fact) < 0) {
        return HL_OK;
    }
    for (size_t k = 0; k < i; k++) {
        const hl_stated_fact *other = &sheet->facts[k];
        if (other->colour == fact->colour && strcmp(other->id, fact->id) == 0) {
            hl__fail(bad, HL_E_SHEET, "%s is stated twice, first on line %d", fact->id, other->line);
            return hl__todo(bad, "keep one of the two lines");
        }
    }
    return HL_OK;
}

static hl_code make_values(hl_sheet *sheet, hl_err *err)
{
    const hl_book *book = sheet->book;
    size_t n = (size_t)book->n_facts;
    sheet->values = hl__arena_array(&sheet->arena, n + 1, sizeof *sheet->values);
    sheet->assumed = hl__arena_array(&sheet->arena, n + 1, sizeof *sheet->assumed);
    sheet->gauges = hl__arena_array(&sheet->arena, (size_t)book->n_steps + 1, sizeof *sheet->gauges);
    sheet->go_gauges = hl__arena_array(&sheet->arena, (size_t)book->n_steps + 1, sizeof *sheet->go_gauges);
    if (sheet->values == NULL || sheet->assumed == NULL || sheet->gauges == NULL ||
        sheet->go_gauges == NULL) {
        return hl__no_memory(err);
    }
    for (size_t i = 0; i < n; i++) {
        for (int colour = 0; colour < 2; colour++) {
            bool has = book->facts[i].has_value;
            sheet->values[i][colour] = has ? book->facts[i].value[colour] : (double)NAN;
            sheet->assumed[i][colour] = has;
        }
    }
    return HL_OK;
}

/* The compass first, for the others name notes in it; then common facts, then those of a colour. */
static int find_turn(const hl_stated_fact *fact)
{
    return strcmp(fact->id, "compass") == 0 ? 0 : fact->colour == 0 ? 1 : 2;
}

hl_code hl__sheet_read_facts(hl_sheet *sheet, hl_err *err)
{
    sheet->compass = sheet->book->compass;
    hl_code code = make_values(sheet, err);
    for (int turn = 0; turn < 3; turn++) {
        for (size_t i = 0; code == HL_OK && i < sheet->n_facts; i++) {
            hl_stated_fact *fact = &sheet->facts[i];
            hl_err bad = {0};
            if (!hl__sheet_rename_fact(sheet, fact)) {
                return hl__no_memory(err);
            }
            if (find_turn(fact) != turn || fact->value[0] == '\0') {
                continue; /* left empty on a form: not stated */
            }
            code = check_twice(sheet, i, &bad);
            if (code == HL_OK) {
                code = hl__sheet_state(sheet, fact, false, &bad);
            }
            if (code == HL_E_MEMORY) {
                *err = bad;
            } else if (code != HL_OK) {
                hl__at(&bad, sheet->name, fact->line, fact->column);
                code = hl__sheet_complain(sheet, &bad, err);
            }
        }
    }
    return code;
}
