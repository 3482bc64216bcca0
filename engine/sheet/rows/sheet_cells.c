/* sheet_cells.c - one cell at a time: a note, a reading (layer: sheet/rows).
 *
 * What a cell may hold depends on its step only, never on its neighbours; nothing is guessed. */
#include "errors.h"
#include "nearest_name.h"
#include "sheet_parts.h"

#include <string.h>

static hl_code refuse_outside(const hl_sheet *sheet, const char *text, hl_err *bad)
{
    hl_compass compass = sheet->compass;
    const char *lowest = hl_pitch_name(compass.lowest);
    const char *highest = hl_pitch_name(hl_note_pitch(compass, compass.keys));
    bool number = text[0] >= '0' && text[0] <= '9';
    hl__fail(bad, HL_E_SHEET, "%s%s is outside this piano's %d keys (%s-%s)", number ? "note " : "",
             hl__sheet_show(text).text, compass.keys, lowest, highest);
    return hl__todo(bad, "check the note; if the piano has other keys, state '# compass: A0-C8'");
}

hl_code hl__cell_note(int *out, const hl_sheet *sheet, const char *text, hl_err *bad)
{
    static const hl_compass ALL = {0, HL_PITCHES};
    *out = 0;
    if (text[0] == '\0') {
        return HL_OK;
    }
    *out = hl_note_parse(sheet->compass, text);
    if (*out > 0) {
        return HL_OK;
    }
    if (strspn(text, "0123456789") == strlen(text) || hl_note_parse(ALL, text) > 0) {
        return refuse_outside(sheet, text, bad);
    }
    hl__fail(bad, HL_E_SHEET, "'%s' is not a note", hl__sheet_show(text).text);
    return hl__todo(bad, "write a name such as C4, F#3 or Gb3, or a number from 1 to %d",
                    sheet->compass.keys);
}

hl_code hl__cell_fits(const hl_sheet *sheet, int index, int note, hl_err *bad)
{
    const hl_step *step = &sheet->book->steps[index];
    if (step->kind == HL_DERIVED) {
        hl__fail(bad, HL_E_SHEET, "%s is computed from other readings", step->id);
        return hl__todo(bad, "leave it out");
    }
    if (note == 0) {
        if (step->scope == HL_ONCE) {
            return HL_OK;
        }
        hl__fail(bad, HL_E_SHEET, "%s is read note by note, but no note is named", step->id);
        return hl__todo(bad, "name the note");
    }
    int pitch = hl_note_pitch(sheet->compass, note);
    if (step->scope == HL_ONCE) {
        hl__fail(bad, HL_E_SHEET, "%s is read once for the piano, not at %s", step->id, hl_pitch_name(pitch));
        return hl__todo(bad, "write it in a row whose note is empty");
    }
    if (hl__step_at_pitch(step, pitch)) {
        return HL_OK;
    }
    bool sharp = hl_pitch_is_sharp(pitch);
    hl__fail(bad, HL_E_SHEET, "%s is read on %s only, and %s is a %s", step->id,
             sharp ? "naturals" : "sharps", hl_pitch_name(pitch), sharp ? "sharp" : "natural");
    return hl__todo(bad, "leave it blank here, or check the note");
}

/* Put the note and the step in front of what is wrong. */
static hl_code name_place(const hl_sheet *sheet, const hl_event *event, hl_err *bad)
{
    char what[sizeof bad->what], todo[sizeof bad->todo];
    memcpy(what, bad->what, sizeof what);
    memcpy(todo, bad->todo, sizeof todo);
    const char *note = event->note == 0 ? "" : hl_pitch_name(hl_note_pitch(sheet->compass, event->note));
    hl__fail(bad, bad->code, "%s%s%s: %s", note, event->note == 0 ? "" : " ",
             sheet->book->steps[event->step].id, what);
    return hl__todo(bad, "%s", todo);
}

hl_code hl__cell_mark(const hl_sheet *sheet, char *seen, const hl_number *number, hl_err *bad)
{
    char mark = number->mark;
    if (mark == 0) {
        return HL_OK;
    }
    if (mark == ',' && sheet->separator == ',' && number->decimals == 3 && number->whole != 0) {
        hl__fail(bad, HL_E_SHEET, "a comma before three digits can be read in two ways");
        return hl__todo(bad, "write decimals with a point");
    }
    if (*seen != 0 && *seen != mark) {
        hl__fail(bad, HL_E_SHEET, "a decimal %s, after numbers with a decimal %s",
                 mark == '.' ? "point" : "comma", mark == '.' ? "comma" : "point");
        return hl__todo(bad, "use one decimal mark in the whole sheet");
    }
    *seen = mark;
    return HL_OK;
}

/* Was the unit written in the cell itself? */
static bool has_unit(const char *text)
{
    size_t n = strlen(text);
    return n > 0 && strchr("0123456789.,", text[n - 1]) == NULL;
}

/* How many times `big` is `small`, when that is about the 25.4 of an inch; else 0. */
static int count_times(hl_amount big, hl_amount small)
{
    if (small <= 0 || big < 20 * small || big > 30 * small) {
        return 0;
    }
    return (int)((big + small / 2) / small);
}

static bool lies_in(const hl_target *target, hl_amount value)
{
    return (target->has_low || target->has_high) && (!target->has_low || value >= target->low) &&
           (!target->has_high || value <= target->high);
}

/* About zero, as with a key's level, any small number would fit. */
bool hl__cell_asks_unit(const hl_target *target, hl_amount value, hl_unit unit, int *times)
{
    bool below = target->has_low && value < target->low;
    bool above = target->has_high && value > target->high;
    *times = 0;
    if ((!below && !above) || (unit != HL_MM && unit != HL_IN)) {
        return false;
    }
    *times = below ? count_times(target->aim, value) : count_times(value, target->aim);
    return *times > 0 || (!lies_in(target, 0) && lies_in(target, hl__amount_in_other(value, unit)));
}

/* An inch typed among millimetres, or the reverse, is off by 25.4: it fits the target in the other unit,
 * or is that many times off.  Asked only when the reading is out of its target and names no unit. */
static hl_code check_inches(const hl_sheet *sheet, const hl_event *event, hl_unit unit, const char *text,
                            hl_err *bad)
{
    int pitch = event->note == 0 ? -1 : hl_note_pitch(sheet->compass, event->note), times = 0;
    const hl_target *target = hl__book_target(sheet->book, event->step, pitch);
    if (has_unit(text) || !hl__cell_asks_unit(target, event->amount, unit, &times)) {
        return HL_OK;
    }
    const char *own = hl_unit_name(unit), *other = hl_unit_name(unit == HL_MM ? HL_IN : HL_MM);
    hl_shown shown = hl__sheet_show(text);
    if (times > 0) {
        bool below = target->has_low && event->amount < target->low;
        hl__fail(bad, HL_E_SHEET, "%s %s is about %d times %s the target", shown.text, own, times,
                 below ? "below" : "above");
    } else {
        hl__fail(bad, HL_E_SHEET, "%s %s is out of range, but %s %s would fit", shown.text, own, shown.text,
                 other);
    }
    return hl__todo(bad, "is it %s %s? Write '%s %s', or '%s %s' if it is so", shown.text, other, shown.text,
                    other, shown.text, own);
}

static hl_code read_number(hl_sheet *sheet, hl_event *event, hl_unit unit, const char *text, hl_err *bad)
{
    hl_number number;
    event->kind = HL_EVENT_VALUE;
    hl_code code = hl__quantity_read(&event->amount, text, unit, HL_E_SHEET, &number, bad);
    if (code == HL_OK) {
        code = hl__cell_mark(sheet, &sheet->decimal_mark, &number, bad);
    }
    return code == HL_OK ? check_inches(sheet, event, unit, text, bad) : code;
}

static void list_words(char *out, size_t room, const hl_step *step)
{
    size_t n = 0;
    out[0] = '\0';
    for (int i = 0; i < step->n_words; i++) {
        size_t size = strlen(step->words[i].word);
        if (n + size + 3 > room) {
            break;
        }
        memcpy(out + n, ", ", 2);
        memcpy(out + n + 2, step->words[i].word, size + 1);
        n += size + 2;
    }
}

static hl_code refuse_word(const hl_step *step, const char *text, const char *id, int hits, hl_err *bad)
{
    char words[200];
    hl_suggest suggest = {id, NULL, 0};
    hl__suggest_offer(&suggest, "ok");
    for (int i = 0; i < step->n_words; i++) {
        hl__suggest_offer(&suggest, step->words[i].word);
    }
    list_words(words, sizeof words, step);
    hl__fail(bad, HL_E_SHEET, hits > 1 ? "'%s' begins more than one word" : "'%s' is not a word of this step",
             hl__sheet_show(text).text);
    if (suggest.best != NULL && hits == 0) {
        return hl__todo(bad, "did you mean '%s'? The words are: ok%s", suggest.best, words);
    }
    return hl__todo(bad, "write one of: ok%s", words);
}

/* A word in full, or so much of it that no other begins alike; `ok` always in full. */
static hl_code read_word(const hl_step *step, hl_event *event, const char *text, const char *id, hl_err *bad)
{
    int hits = 0;
    event->kind = HL_EVENT_WORD;
    event->word = -1;
    if (strcmp(id, "ok") == 0) {
        return HL_OK;
    }
    for (int i = 0; i < step->n_words; i++) {
        char word[HL_ID_MOST];
        hl__sheet_id(word, step->words[i].word, strlen(step->words[i].word));
        if (strcmp(word, id) == 0) {
            event->word = i;
            return HL_OK;
        }
        if (id[0] != '\0' && strncmp(word, id, strlen(id)) == 0) {
            event->word = i;
            hits++;
        }
    }
    return hits == 1 ? HL_OK : refuse_word(step, text, id, hits, bad);
}

/* The reserved word that a cell is, or -1. */
static int find_reserved(const char *id)
{
    static const struct {
        const char *word;
        hl_event_kind kind;
    } WORDS[] = {{"void", HL_EVENT_VOID},
                 {"skip", HL_EVENT_SKIP},
                 {"within", HL_EVENT_WITHIN},
                 {"over", HL_EVENT_OVER},
                 {"under", HL_EVENT_UNDER}};
    for (size_t i = 0; i < sizeof WORDS / sizeof *WORDS; i++) {
        if (strcmp(WORDS[i].word, id) == 0) {
            return (int)WORDS[i].kind;
        }
    }
    return -1;
}

hl_code hl__cell_reading(hl_sheet *sheet, hl_event *event, hl_unit unit, const char *text, hl_err *bad)
{
    const hl_step *step = &sheet->book->steps[event->step];
    char id[HL_ID_MOST];
    hl_code code = hl__cell_fits(sheet, event->step, event->note, bad);
    if (code != HL_OK) {
        return code;
    }
    int reserved = hl__sheet_id(id, text, strlen(text)) ? find_reserved(id) : -1;
    bool judged = step->kind == HL_JUDGED;
    if (reserved == HL_EVENT_VOID || reserved == HL_EVENT_SKIP || (reserved >= 0 && !judged)) {
        event->kind = (unsigned char)reserved;
        return HL_OK;
    }
    code = judged ? read_word(step, event, text, id, bad) : read_number(sheet, event, unit, text, bad);
    return code == HL_OK ? code : name_place(sheet, event, bad);
}

hl_code hl__sheet_check_part(hl_sheet *sheet, const char *text, hl_err *bad)
{
    if (text[0] == '\0') {
        hl__fail(bad, HL_E_SHEET, "the row does not say of which sheet it is");
        return hl__todo(bad, "name the sheet, or delete the column 'sheet'");
    }
    if (sheet->part == NULL) {
        sheet->part = hl__arena_copy(&sheet->row_arena, text);
        return sheet->part != NULL ? HL_OK : hl__no_memory(bad);
    }
    if (strcmp(sheet->part, text) == 0) {
        return HL_OK;
    }
    hl__fail(bad, HL_E_SHEET, "this row is of another sheet, '%s'", hl__sheet_show(text).text);
    return hl__todo(bad, "only 'hammerline audit' reads a file of many sheets; make it a file a sheet");
}
