/* sheet_gauges.c - what a sheet says of its gauges: "# gauge key_dip: 0.1 mm" (layer: sheet/head).
 *
 * The number is the uncertainty of one reading, about 95 %: what the gauge and the hand together are
 * good to.  It replaces the book's `gauge` for this sheet. */
#include "errors.h"
#include "nearest_name.h"
#include "sheet_parts.h"

#include <string.h>

#define HEAD "gauge_"

static const char *find_name(const hl_stated_fact *fact)
{
    const size_t size = sizeof HEAD - 1;
    return strncmp(fact->id, HEAD, size) == 0 && fact->id[size] != '\0' ? fact->id + size : NULL;
}

int hl__sheet_gauge_step(const hl_sheet *sheet, const hl_stated_fact *fact)
{
    const char *name = find_name(fact);
    return name == NULL ? -1 : hl_book_find_step(sheet->book, name);
}

/* "gauge maker" is a remark for the record; a number, or nearly a step's name, is a slip. */
static hl_code check_slip(const hl_sheet *sheet, const hl_stated_fact *fact, bool *known, hl_err *bad)
{
    const char *name = find_name(fact);
    hl_suggest suggest = {name, NULL, 0};
    for (int i = 0; i < sheet->book->n_steps; i++) {
        hl__suggest_offer(&suggest, sheet->book->steps[i].id);
    }
    bool number = fact->value[0] != '\0' && strchr("0123456789.,+-", fact->value[0]) != NULL;
    *known = suggest.best != NULL || number;
    if (!*known) {
        return HL_OK;
    }
    hl__fail(bad, HL_E_SHEET, "there is no step '%s' that a gauge could read", name);
    return suggest.best != NULL ? hl__todo(bad, "did you mean 'gauge %s'?", suggest.best)
                                : hl__todo(bad, "write 'gauge' and the id of a step, as in 'gauge key_dip'");
}

/* Wider than the limits everywhere: then no reading can show anything. */
static bool is_too_coarse(const hl_step *step, hl_amount amount)
{
    bool any = false;
    for (int pitch = 0; pitch <= HL_PITCHES; pitch++) {
        const hl_target *target = &step->targets[pitch];
        if (!target->has_low || !target->has_high)
            continue;
        any = true;
        if (target->high - target->low > amount)
            return false;
    }
    return any;
}

static hl_code read_uncertainty(hl_sheet *sheet, int index, const char *text, hl_err *bad)
{
    const hl_step *step = &sheet->book->steps[index];
    hl_number number;
    hl_amount amount = 0;
    hl_code code = hl__quantity_read(&amount, text, step->unit, HL_E_SHEET, &number, bad);
    if (code == HL_OK) {
        code = hl__cell_mark(sheet, &sheet->fact_mark, &number, bad);
    }
    if (code != HL_OK) {
        return code;
    }
    if (amount <= 0) {
        hl__fail(bad, HL_E_SHEET, "the gauge of %s can't be good to %s", step->id, hl__sheet_show(text).text);
        return hl__todo(bad, "write how far one reading may be from the truth, more than 0");
    }
    if (is_too_coarse(step, amount)) {
        hl__fail(bad, HL_E_SHEET, "a gauge good to %s shows nothing of %s, whose limits are nearer together",
                 hl__sheet_show(text).text, step->id);
        return hl__todo(bad,
                        "write how far one reading may be from the truth, or read it with a finer gauge");
    }
    sheet->gauges[index] = amount;
    return HL_OK;
}

hl_code hl__sheet_state_gauge(hl_sheet *sheet, const hl_stated_fact *fact, bool *known, hl_err *bad)
{
    int index = hl__sheet_gauge_step(sheet, fact);
    *known = find_name(fact) != NULL;
    if (!*known) {
        return HL_OK;
    }
    if (index < 0) {
        return check_slip(sheet, fact, known, bad);
    }
    const hl_step *step = &sheet->book->steps[index];
    if (step->kind == HL_JUDGED) {
        hl__fail(bad, HL_E_SHEET, "%s is judged in words, no gauge reads it", step->id);
        return hl__todo(bad, "leave this line out");
    }
    if (step->kind == HL_DERIVED) {
        hl__fail(bad, HL_E_SHEET, "%s is computed from other readings", step->id);
        return hl__todo(bad, "state the gauges of those readings; its uncertainty follows from them");
    }
    if (fact->colour != 0) {
        hl__fail(bad, HL_E_SHEET, "a gauge has no colour");
        return hl__todo(bad, "state it once for all keys");
    }
    return read_uncertainty(sheet, index, fact->value, bad);
}

/* ---- go and no-go -------------------------------------------------------------------------------------- */

#define GO_HEAD "go_gauge_"

static hl_code refuse_go(const hl_step *step, const char *why, hl_err *bad)
{
    hl__fail(bad, HL_E_SHEET, "the go gauge of %s %s", step->id, why);
    return hl__todo(bad, "write its name and limits, as in '# go gauge %s: strip, 1.6-2.8 mm'", step->id);
}

/* "1.6-2.8 mm": both ends in the unit at the end. */
static hl_code read_limits(hl_sheet *sheet, const hl_step *step, const char *text, hl_go_gauge *out,
                           hl_err *bad)
{
    char low[HL_ID_MOST];
    hl_number number;
    size_t dash = strcspn(text, "-");
    if (dash == 0 && text[0] == '-') { /* the lower end may be below nought */
        dash = 1 + strcspn(text + 1, "-");
    }
    const char *high = text + dash + 1;
    const size_t digits = strspn(high, "-0123456789.,/ ");
    if (text[dash] == '\0' || dash + strlen(high + digits) + 2 > sizeof low) {
        return refuse_go(step, "has no limits", bad);
    }
    memcpy(low, text, dash);
    strcpy(low + dash, high + digits);
    hl_code code = hl__quantity_read(&out->low, low, step->unit, HL_E_SHEET, &number, bad);
    if (code == HL_OK) {
        code = hl__cell_mark(sheet, &sheet->fact_mark, &number, bad);
    }
    if (code == HL_OK) {
        code = hl__quantity_read(&out->high, high, step->unit, HL_E_SHEET, &number, bad);
    }
    if (code == HL_OK && out->low >= out->high) {
        return refuse_go(step, "has its limits the wrong way round", bad);
    }
    return code;
}

hl_code hl__sheet_state_go_gauge(hl_sheet *sheet, const hl_stated_fact *fact, bool *known, hl_err *bad)
{
    *known = strncmp(fact->id, GO_HEAD, sizeof GO_HEAD - 1) == 0;
    if (!*known) {
        return HL_OK;
    }
    const char *id = fact->id + sizeof GO_HEAD - 1;
    const int index = hl_book_find_step(sheet->book, id);
    if (index < 0) {
        hl_suggest suggest = {id, NULL, 0};
        for (int i = 0; i < sheet->book->n_steps; i++) {
            hl__suggest_offer(&suggest, sheet->book->steps[i].id);
        }
        hl__fail(bad, HL_E_SHEET, "there is no step '%s' that a go gauge could be for", id);
        return suggest.best != NULL ? hl__todo(bad, "did you mean 'go gauge %s'?", suggest.best)
                                    : hl__todo(bad, "write the id of a step, as in 'go gauge key_dip'");
    }
    const hl_step *step = &sheet->book->steps[index];
    const char *comma = strchr(fact->value, ',');
    if (step->kind != HL_MEASURED) {
        hl__fail(bad, HL_E_SHEET, "%s is not measured, so no go gauge reads it", step->id);
        return hl__todo(bad, "leave this line out");
    }
    if (comma == NULL || comma == fact->value) {
        return refuse_go(step, comma == NULL ? "has no limits" : "has no name", bad);
    }
    hl_go_gauge gauge = {.stated = true};
    hl_code code = read_limits(sheet, step, comma + 1 + strspn(comma + 1, " "), &gauge, bad);
    if (code != HL_OK) {
        return code;
    }
    size_t size = (size_t)(comma - fact->value);
    gauge.name = hl__arena_copy_n(&sheet->arena, fact->value, size);
    if (gauge.name == NULL) {
        return hl__no_memory(bad);
    }
    sheet->go_gauges[index] = gauge;
    return HL_OK;
}
