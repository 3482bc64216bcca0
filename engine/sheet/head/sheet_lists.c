/* sheet_lists.c - facts that are lists of notes: compass, breaks, dampers, samples (layer: sheet/head). */
#include "errors.h"
#include "sheet_parts.h"

#include <stdlib.h>
#include <string.h>

/* Every pitch there is: names read against it do not depend on the sheet's compass. */
static const hl_compass ALL = {0, HL_PITCHES};

#define ITEM_MOST 32

static bool is_dash(const char *p)
{
    return *p == '-' || strncmp(p, "\xE2\x80\x93", 3) == 0; /* an en dash is what some keyboards write */
}

/* The next item of a list whose items stand apart by blanks, commas or semicolons; blanks around a
 * dash do not part.  False at the end. */
static bool next_item(const char **at, char item[ITEM_MOST])
{
    static const char PARTING[] = " \t,;";
    size_t n = 0;
    const char *p = *at + strspn(*at, PARTING);
    while (*p != '\0') {
        const char *after = p + strspn(p, " \t");
        if (is_dash(after)) {
            p = after + (*after == '-' ? 1 : 3);
            p += strspn(p, " \t");
            after = "-";
        } else if (strchr(PARTING, *p) != NULL) {
            break;
        } else {
            after = p++;
        }
        if (n < ITEM_MOST - 1) {
            item[n++] = *after;
        }
    }
    item[n] = '\0';
    *at = p;
    return n > 0;
}

/* "A0-D6" into its ends; false when there are not just two.  Cuts the item. */
static bool split_range(char *item, char **last)
{
    char *dash = strchr(item, '-');
    if (dash == NULL || dash == item || dash[1] == '\0' || strchr(dash + 1, '-') != NULL) {
        return false;
    }
    *dash = '\0';
    *last = dash + 1;
    return true;
}

static hl_code refuse_compass(const char *text, hl_err *bad)
{
    hl__fail(bad, HL_E_SHEET, "'%s' is not a compass", hl__sheet_show(text).text);
    return hl__todo(bad, "write the lowest and the highest key, 'A0-C8', or '88 from A0'");
}

static bool read_keys(const char *text, int *keys)
{
    int n = 0;
    for (; *text >= '0' && *text <= '9' && n < 1000; text++) {
        n = n * 10 + (*text - '0');
    }
    *keys = n;
    return *text == '\0' && n >= 1 && n <= HL_PITCHES;
}

static int read_pitch(const char *name)
{
    return name[0] >= '0' && name[0] <= '9' ? -1 : hl_note_parse(ALL, name) - 1;
}

hl_code hl__sheet_read_compass(hl_compass *out, const char *text, hl_err *bad)
{
    char items[4][ITEM_MOST];
    const char *at = text;
    int n = 0, lowest = -1, keys = 0;
    while (n < 4 && next_item(&at, items[n])) {
        n++;
    }
    char *last = NULL;
    if (n == 1 && split_range(items[0], &last)) {
        lowest = read_pitch(items[0]);
        keys = lowest < 0 ? 0 : read_pitch(last) - lowest + 1;
    } else if ((n == 3 && strcmp(items[1], "from") == 0) ||
               (n == 4 && strcmp(items[1], "keys") == 0 && strcmp(items[2], "from") == 0)) {
        lowest = read_pitch(items[n - 1]);
        if (!read_keys(items[0], &keys)) {
            keys = 0;
        }
    }
    if (next_item(&at, items[0]) || lowest < 0 || keys < 1 || lowest + keys > HL_PITCHES) {
        return refuse_compass(text, bad);
    }
    *out = (hl_compass){lowest, keys};
    return HL_OK;
}

hl_code hl__sheet_read_breaks(hl_sheet *sheet, const char *text, hl_err *bad)
{
    char item[ITEM_MOST];
    int breaks[HL_BREAKS_MOST], n = 0;
    while (next_item(&text, item)) {
        int note = 0;
        if (hl__cell_note(&note, sheet, item, bad) != HL_OK) {
            return bad->code;
        }
        if (n == HL_BREAKS_MOST) {
            hl__fail(bad, HL_E_SHEET, "more than %d breaks", HL_BREAKS_MOST);
            return hl__todo(bad, "give the last note of each section of strings");
        }
        if (note == sheet->compass.keys || (n > 0 && note <= breaks[n - 1])) {
            hl__fail(bad, HL_E_SHEET, "the break '%s' is out of order", item);
            return hl__todo(bad, "give the last note of each section but the final one, from the bass up");
        }
        breaks[n++] = note;
    }
    memcpy(sheet->breaks, breaks, sizeof breaks[0] * (size_t)n);
    sheet->n_breaks = n;
    return HL_OK;
}

static hl_code refuse_dampers(const char *item, hl_err *bad)
{
    hl__fail(bad, HL_E_SHEET, "'%s' does not say which notes have dampers", item);
    return hl__todo(bad, "write a range, '1-66' or 'A0-D6', or 'all'");
}

static hl_code read_damper_range(hl_sheet *sheet, char *item, unsigned char *undamped, hl_err *bad)
{
    char shown[ITEM_MOST], *high = NULL;
    memcpy(shown, item, ITEM_MOST);
    int first = 0, last = 0;
    /* One note alone is more often the last damper than the only one: it would excuse the rest. */
    if (!split_range(item, &high)) {
        return refuse_dampers(shown, bad);
    }
    if (hl__cell_note(&first, sheet, item, bad) != HL_OK || hl__cell_note(&last, sheet, high, bad) != HL_OK) {
        return bad->code;
    }
    if (last < first) {
        return refuse_dampers(shown, bad);
    }
    memset(undamped + first, 0, (size_t)(last - first + 1));
    sheet->last_damped = last > sheet->last_damped ? last : sheet->last_damped;
    return HL_OK;
}

hl_code hl__sheet_read_dampers(hl_sheet *sheet, const char *text, hl_err *bad)
{
    char item[ITEM_MOST];
    size_t keys = (size_t)sheet->compass.keys;
    unsigned char *undamped = hl__arena_take(&sheet->arena, keys + 1);
    if (undamped == NULL) {
        return hl__no_memory(bad);
    }
    memset(undamped, 1, keys + 1);
    sheet->last_damped = 0;
    while (next_item(&text, item)) {
        hl_code code = HL_OK;
        if (strcmp(item, "all") == 0) {
            memset(undamped, 0, keys + 1);
            sheet->last_damped = (int)keys;
        } else {
            code = read_damper_range(sheet, item, undamped, bad);
        }
        if (code != HL_OK) {
            sheet->last_damped = 0;
            return code;
        }
    }
    if (sheet->last_damped == 0) {
        return refuse_dampers("", bad);
    }
    sheet->undamped = undamped;
    sheet->damped_given = true;
    return HL_OK;
}

hl_code hl__sheet_read_samples(hl_sheet *sheet, const char *text, hl_err *bad)
{
    char item[ITEM_MOST];
    size_t keys = (size_t)sheet->compass.keys;
    unsigned char *chosen = hl__arena_take(&sheet->arena, keys + 1);
    int *samples = hl__arena_array(&sheet->arena, keys + 1, sizeof *samples);
    if (chosen == NULL || samples == NULL) {
        return hl__no_memory(bad);
    }
    int n = 0;
    while (next_item(&text, item)) {
        int note = 0;
        if (hl__cell_note(&note, sheet, item, bad) != HL_OK) {
            return bad->code;
        }
        chosen[note] = 1;
    }
    for (size_t note = 1; note <= keys; note++) {
        if (chosen[note]) {
            samples[n++] = (int)note;
        }
    }
    if (n == 0) {
        hl__fail(bad, HL_E_SHEET, "the list of samples is empty");
        return hl__todo(bad, "write the sample notes, 'A0 C4 C8', or leave the line out");
    }
    sheet->samples = samples;
    sheet->n_samples = n;
    return HL_OK;
}
