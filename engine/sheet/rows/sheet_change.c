/* sheet_change.c - an adjustment made, read in the words of its adjuster (layer: sheet/rows).
 *
 * "+1/4 turn", "-.25 mm", "raise 1/4 turn", "stronger", "done".  A bare amount is toward `more`,
 * for spreadsheets eat the plus sign. */
#include "ascii.h"
#include "errors.h"
#include "nearest_name.h"
#include "quantity.h"
#include "sheet_parts.h"
#include "text.h"

#include <stdio.h>
#include <string.h>

/* Length of `word` when the text begins with it as a word of its own, else 0. */
static size_t match_word(const char *text, const char *word)
{
    size_t n = 0;
    for (; word[n] != '\0'; n++) {
        if (hl__lower(text[n]) != hl__lower(word[n])) {
            return 0;
        }
    }
    return text[n] == '\0' || text[n] == ' ' ? n : 0;
}

static const char *skip_blanks(const char *text)
{
    while (*text == ' ') {
        text++;
    }
    return text;
}

static bool is_signed(const char *text)
{
    return *text == '+' || *text == '-' || strncmp(text, "\xE2\x88\x92", 3) == 0;
}

static hl_code refuse_way(const hl_adjuster *adjuster, const char *text, hl_err *bad)
{
    hl_suggest suggest = {text, NULL, 0};
    hl__suggest_offer(&suggest, adjuster->more);
    hl__suggest_offer(&suggest, adjuster->less);
    hl__suggest_offer(&suggest, "done");
    hl__fail(bad, HL_E_SHEET, "%s: '%s' is not an adjustment", adjuster->id, hl__sheet_show(text).text);
    if (suggest.best != NULL) {
        return hl__todo(bad, "did you mean '%s'?", suggest.best);
    }
    if (adjuster->unit == HL_NO_UNIT) {
        return hl__todo(bad, "write '%s', '%s' or 'done'", adjuster->more, adjuster->less);
    }
    const char *unit = hl_unit_name(adjuster->unit);
    return hl__todo(bad, "write '+1 %s', '%s 1 %s', '%s 1 %s' or 'done'", unit, adjuster->more, unit,
                    adjuster->less, unit);
}

/* What a bare number was perhaps meant for: 38 for 3/8, with the stroke left out, and 5 for a five, as
 * the trade calls .005 in.  False: nothing comes near that is within the reach. */
static bool guess_bare(const hl_adjuster *adjuster, const hl_number *number, hl_shown *meant)
{
    int64_t whole = number->whole, up = whole / 10, down = whole % 10;
    bool parts = down == 2 || down == 4 || down == 8;
    if (number->fraction || number->decimals > 0) {
        return false;
    }
    if (adjuster->unit == HL_TURN && whole < 100 && parts && up > 0 && up < down) {
        snprintf(meant->text, sizeof meant->text, "%d/%d", (int)up, (int)down);
        return HL_ONE * up / down <= adjuster->reach;
    }
    if (adjuster->unit == HL_MM && whole < 1000) {
        snprintf(meant->text, sizeof meant->text, ".%03d in", (int)whole);
        return whole * 25400 <= adjuster->reach;
    }
    return false;
}

/* More than the adjuster can do: says how the number was understood. */
static hl_code refuse_far(const hl_adjuster *adjuster, const char *text, const hl_number *number,
                          hl_amount given, hl_err *bad)
{
    hl_text amount = {0}, reach = {0};
    hl_shown shown = hl__sheet_show(text), meant;
    bool bare = strspn(text, "0123456789.,/+- \xE2\x88\x92") == strlen(text);
    hl__text_amount(&amount, given < 0 ? -given : given, adjuster->unit, 0, true);
    hl__text_amount(&reach, adjuster->reach, adjuster->unit, 0, true);
    if (amount.failed || reach.failed) {
        hl__no_memory(bad);
    } else if (!bare) {
        hl__fail(bad, HL_E_SHEET, "%s: %s is more than it can do; its reach is %s", adjuster->id, shown.text,
                 reach.data);
        hl__todo(bad, "check the unit");
    } else {
        hl__fail(bad, HL_E_SHEET, "%s: %s without a unit is %s, and its reach is %s", adjuster->id,
                 shown.text, amount.data, reach.data);
        if (guess_bare(adjuster, number, &meant)) {
            hl__todo(bad, "did you mean %s?", meant.text);
        } else {
            hl__todo(bad, "%s",
                     adjuster->unit == HL_TURN ? "write the part of a turn, such as 1/8"
                     : adjuster->unit == HL_MM ? "write the unit with it, such as '.005 in'"
                                               : "check the number");
        }
    }
    hl__text_free(&amount);
    hl__text_free(&reach);
    return bad->code;
}

static hl_code read_amount(hl_sheet *sheet, const hl_adjuster *adjuster, hl_event *event, int way,
                           const char *text, hl_err *bad)
{
    hl_number number;
    if (adjuster->unit == HL_NO_UNIT) {
        hl__fail(bad, HL_E_SHEET, "%s is moved by judgement and has no amount", adjuster->id);
        return hl__todo(bad, "write '%s', '%s' or 'done'", adjuster->more, adjuster->less);
    }
    if (way != 0 && is_signed(text)) {
        hl__fail(bad, HL_E_SHEET, "%s: a way and a sign together can be read in two ways", adjuster->id);
        return hl__todo(bad, "write '%s' without a sign", way > 0 ? adjuster->more : adjuster->less);
    }
    hl_code code = hl__quantity_read(&event->amount, text, adjuster->unit, HL_E_SHEET, &number, bad);
    if (code == HL_OK) {
        code = hl__cell_mark(sheet, &sheet->decimal_mark, &number, bad);
    }
    if (code == HL_OK && adjuster->reach > 0 &&
        (event->amount > adjuster->reach || event->amount < -adjuster->reach)) {
        return refuse_far(adjuster, text, &number, event->amount, bad);
    }
    if (way < 0) {
        event->amount = -event->amount;
    }
    return code;
}

/* A way of several words may be written without its first ones: "right side" for "on its right side". */
static size_t match_way(const char *text, const char *way)
{
    while (way != NULL && *way != '\0') {
        const size_t n = match_word(text, way);
        if (n > 0) {
            return n;
        }
        way = strchr(way, ' ');
        way = way != NULL ? way + 1 : NULL;
    }
    return 0;
}

hl_code hl__cell_adjustment(hl_sheet *sheet, hl_event *event, const char *text, hl_err *bad)
{
    const hl_adjuster *adjuster = &sheet->book->adjusters[event->step];
    event->kind = HL_EVENT_ADJUSTMENT;
    event->word = 0;
    if (match_word(text, "done") == strlen(text)) {
        event->no_amount = true;
        return HL_OK;
    }
    const char *at = skip_blanks(text + match_word(text, adjuster->verb));
    size_t more = match_way(at, adjuster->more), less = match_way(at, adjuster->less);
    int way = more > less ? 1 : less > 0 ? -1 : 0;
    const char *rest = skip_blanks(at + (more > less ? more : less));
    if (*rest == '\0' && way != 0) {
        event->no_amount = true;
        event->word = way;
        return HL_OK;
    }
    bool number = is_signed(rest) || (*rest != '\0' && strchr("0123456789.,", *rest) != NULL);
    return number ? read_amount(sheet, adjuster, event, way, rest, bad) : refuse_way(adjuster, text, bad);
}
