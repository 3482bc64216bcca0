/* words_target.c - range, at_least, at_most, about, by_colour, zones, graded, and functions of the
 * note (layer: host/words).  What they make lives in the arena of the sandbox. */
#include "ascii.h"
#include "errors.h"
#include "words.h"

#include "lua_to_value.h"
#include "nearest_name.h"

#include <lauxlib.h>
#include <math.h>
#include <string.h>

/* What more numbers than a target has are mostly from. */
#define DECIMALS "; decimals are written with a point: 0.5"

static const hl_compass every_pitch = {0, HL_PITCHES};

/* Pitch of a note name; -1 when it is none.  A bare number is no name: whose would it be? */
static int read_pitch(const char *name)
{
    if (hl__is_digit(name[0]))
        return -1;
    return hl_note_parse(every_pitch, name) - 1;
}

/* ---- range, at_least, at_most, about --------------------------------------------------------- */

static const char *shape_of(hl_rule_word word)
{
    switch (word) {
    case HL_W_RANGE:
        return "range(low, high) or range(low, high, aim)";
    case HL_W_AT_LEAST:
        return "at_least(low) or at_least(low, aim)";
    case HL_W_AT_MOST:
        return "at_most(high) or at_most(high, aim)";
    default:
        return "about(aim, tolerance)";
    }
}

/* False when an error was kept. */
static bool check_number(lua_State *L, const hl_value *value, hl_rule_word word)
{
    const char *name = hl__word_name(word);
    if (value->kind == HL_IS_NUMBER && isfinite(value->number) && fabs(value->number) <= 1e6)
        return true;
    if (value->kind == HL_IS_TEXT && value->text[0] != '\0')
        return true;
    if (value->kind == HL_IS_NUMBER)
        hl__sandbox_note(L, "numbers go up to a million", "%s: %f is no target", name, value->number);
    else
        hl__sandbox_note(
            L, lua_pushfstring(L, "write %s; each a number, or a text such as \"1/16 in\"", shape_of(word)),
            "%s takes numbers, not %s", name, hl__value_kind_name(value));
    return false;
}

/* The order of plain numbers shows here, at the call; that of texts once the unit is known. */
static bool check_order(lua_State *L, hl_rule_word word, const hl_value *v, int n)
{
    bool low = v[0].kind == HL_IS_NUMBER, second = n > 1 && v[1].kind == HL_IS_NUMBER;
    bool third = n > 2 && v[2].kind == HL_IS_NUMBER;
    if (word == HL_W_RANGE && low && second && v[0].number > v[1].number)
        hl__sandbox_note(L, "the low end comes first", "range(%f, %f) is upside down", v[0].number,
                         v[1].number);
    else if (word == HL_W_RANGE && third &&
             ((low && v[2].number < v[0].number) || (second && v[2].number > v[1].number)))
        hl__sandbox_note(L, "the aim is the third number and lies between low and high",
                         "range: the aim %f lies outside", v[2].number);
    else if (word == HL_W_AT_LEAST && low && second && v[1].number < v[0].number)
        hl__sandbox_note(L, "the aim lies at the limit or above", "at_least: the aim %f lies outside",
                         v[1].number);
    else if (word == HL_W_AT_MOST && low && second && v[1].number > v[0].number)
        hl__sandbox_note(L, "the aim lies at the limit or below", "at_most: the aim %f lies outside",
                         v[1].number);
    else if (word == HL_W_ABOUT && second && v[1].number <= 0)
        hl__sandbox_note(L, "the tolerance is how far to either side",
                         "about: the tolerance %f is not above zero", v[1].number);
    else
        return true;
    return false;
}

static int call_simple(lua_State *L)
{
    hl_rule_word word = (hl_rule_word)lua_tointeger(L, lua_upvalueindex(1));
    int n = lua_gettop(L);
    int least = word == HL_W_RANGE || word == HL_W_ABOUT ? 2 : 1;
    int most = word == HL_W_RANGE ? 3 : 2;
    hl_entry *entry = hl__make_entry(L, word, 3);
    entry->bad = n < least || n > most;
    if (entry->bad)
        hl__sandbox_note(L, lua_pushfstring(L, "write %s%s", shape_of(word), n > most ? DECIMALS : ""),
                         "%s was given %d values", hl__word_name(word), n);
    for (int i = 0; !entry->bad && i < n; i++) {
        hl__lift(L, i + 1, NULL, &entry->values[i]);
        entry->bad = !check_number(L, &entry->values[i], word);
    }
    if (!entry->bad)
        entry->bad = !check_order(L, word, entry->values, n);
    lua_pushlightuserdata(L, entry);
    return 1;
}

/* ---- zones and graded ------------------------------------------------------------------------ */

static bool read_zone(lua_State *L, const char *text, hl_anchor *anchor)
{
    char low[8] = "";
    const char *dash = strchr(text, '-');
    size_t n = dash != NULL ? (size_t)(dash - text) : strlen(text);
    if (n < sizeof low)
        memcpy(low, text, n);
    anchor->from = read_pitch(low);
    anchor->to = dash != NULL ? read_pitch(dash + 1) : anchor->from;
    if (anchor->from < 0 || anchor->to < 0)
        hl__sandbox_note(L, "write two notes from C0 to B8: \"A0-B2\"", "zones: '%s' is no zone", text);
    else if (anchor->from > anchor->to)
        hl__sandbox_note(L, "the low note comes first", "zones: '%s' is upside down", text);
    else
        return true;
    return false;
}

static bool check_neighbours(lua_State *L, const hl_anchor *before, const hl_anchor *anchor, bool zones)
{
    if (!zones && anchor->from <= before->to)
        hl__sandbox_note(L, "list the anchors from low to high, each once", "graded: %s comes after %s",
                         hl_pitch_name(anchor->from), hl_pitch_name(before->to));
    else if (zones && anchor->from <= before->to)
        hl__sandbox_note(L, "list the zones from low to high, each note in one of them",
                         "zones: %s is in two zones, or out of order", hl_pitch_name(anchor->from));
    else if (zones && anchor->from > before->to + 1)
        hl__sandbox_note(L, "begin a zone one key above the end of the one before", "zones: no zone holds %s",
                         hl_pitch_name(before->to + 1));
    else
        return true;
    return false;
}

static bool take_row(lua_State *L, const hl_value *row, bool zones, hl_anchor *anchor)
{
    const char *name = zones ? "zones" : "graded";
    const char *shape = zones ? "write { \"A0-B2\", range(...) }" : "write { \"A0\", range(...) }";
    bool good = row->kind == HL_IS_TABLE && row->n_list == 2 && row->n_items == 2 &&
                row->items[0].kind == HL_IS_TEXT && row->items[1].kind == HL_IS_ENTRY;
    if (!good) {
        hl__sandbox_note(L, shape, "%s: each row is a pair", name);
        return false;
    }
    anchor->target = row->items[1].entry;
    if (!hl__is_simple_target(anchor->target)) {
        hl__sandbox_note(L, "use range, at_least, at_most or about here; by_colour goes outside",
                         "%s: a row cannot hold %s", name, hl__word_name(anchor->target->word));
        return false;
    }
    if (zones)
        return read_zone(L, row->items[0].text, anchor) && !anchor->target->bad;
    anchor->from = anchor->to = read_pitch(row->items[0].text);
    if (anchor->from < 0)
        hl__sandbox_note(L, "write a note from C0 to B8: \"A0\"", "graded: '%s' is no note",
                         row->items[0].text);
    return anchor->from >= 0 && !anchor->target->bad;
}

static int sides(const hl_entry *target)
{
    return target->word == HL_W_AT_LEAST ? 1 : target->word == HL_W_AT_MOST ? 2 : 3;
}

static int call_rows(lua_State *L)
{
    hl_rule_word word = (hl_rule_word)lua_tointeger(L, lua_upvalueindex(1));
    bool zones = word == HL_W_ZONES;
    const char *name = hl__word_name(word);
    if (lua_gettop(L) != 1 || lua_type(L, 1) != LUA_TTABLE)
        hl__sandbox_error(L, lua_pushfstring(L, "write %s { ... }", name), "%s takes one table", name);
    hl_value table;
    hl__lift(L, 1, name, &table);
    hl_entry *entry = hl__make_entry(L, word, 0);
    int least = zones ? 1 : 2;
    entry->bad = table.n_items > table.n_list || table.n_list < least;
    if (table.n_items > table.n_list)
        hl__sandbox_note(L, "its rows have no names", "%s takes no '%s'", name,
                         table.items[table.n_list].key);
    else if (table.n_list < least)
        hl__sandbox_note(L, zones ? "write at least one zone" : "write the lowest and the highest note",
                         "%s has too few rows", name);
    entry->anchors = hl__sandbox_take(L, (size_t)table.n_list, sizeof *entry->anchors);
    for (int i = 0; !entry->bad && i < table.n_list; i++) {
        entry->bad = !take_row(L, &table.items[i], zones, &entry->anchors[i]) ||
                     (i > 0 && !check_neighbours(L, &entry->anchors[i - 1], &entry->anchors[i], zones));
        if (!entry->bad && !zones && sides(entry->anchors[i].target) != sides(entry->anchors[0].target)) {
            hl__sandbox_note(
                L, "use the same word at every anchor", "graded: %s and %s cannot be joined by a line",
                hl__word_name(entry->anchors[0].target->word), hl__word_name(entry->anchors[i].target->word));
            entry->bad = true;
        }
        entry->n_anchors++;
    }
    lua_pushlightuserdata(L, entry);
    return 1;
}

/* ---- by_colour and functions ----------------------------------------------------------------- */

static int call_by_colour(lua_State *L)
{
    if (lua_gettop(L) != 1 || lua_type(L, 1) != LUA_TTABLE)
        hl__sandbox_error(L, "write by_colour { naturals = range(...), sharps = range(...) }",
                          "by_colour takes one table");
    hl_value table;
    hl__lift(L, 1, "by_colour", &table);
    hl_sandbox *box = hl__sandbox_of(L);
    hl_entry *taken;
    if (hl__entry_take(&taken, box->arena, HL_W_BY_COLOUR, &table, box->all, &box->err) != HL_OK)
        hl__sandbox_raise(L);
    hl_entry *entry = hl__make_entry(L, HL_W_BY_COLOUR, 0);
    entry->anchors = hl__sandbox_take(L, COLOUR_FIELDS, sizeof *entry->anchors);
    entry->bad = taken->bad;
    for (int i = 0; !entry->bad && i < COLOUR_FIELDS; i++) {
        entry->anchors[i].target = taken->values[i].entry;
        if (taken->values[i].entry->word == HL_W_BY_COLOUR) {
            hl__sandbox_note(L, "say each colour once", "by_colour cannot hold by_colour");
            entry->bad = true;
        }
    }
    entry->n_anchors = COLOUR_FIELDS;
    lua_pushlightuserdata(L, entry);
    return 1;
}

static const char *const note_fields[] = {"name", "number", "colour", "octave", NULL};

/* note.color: Lua would go on with nil. */
static int miss_field(lua_State *L)
{
    hl_suggest suggest = {lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "", NULL, 0};
    for (int i = 0; note_fields[i] != NULL; i++)
        hl__suggest_offer(&suggest, note_fields[i]);
    if (suggest.best != NULL)
        hl__sandbox_error(L, lua_pushfstring(L, "did you mean note.%s?", suggest.best), "a note has no '%s'",
                          suggest.asked);
    hl__sandbox_error(L, "it has name, number, colour and octave", "a note has no '%s'", suggest.asked);
}

static void push_note(lua_State *L, int pitch)
{
    lua_createtable(L, 0, 4);
    lua_pushstring(L, hl_pitch_name(pitch));
    lua_setfield(L, -2, note_fields[0]);
    lua_pushinteger(L, pitch - HL_A0 + 1);
    lua_setfield(L, -2, note_fields[1]);
    lua_pushstring(L, hl_pitch_is_sharp(pitch) ? "sharp" : "natural");
    lua_setfield(L, -2, note_fields[2]);
    lua_pushinteger(L, pitch / 12);
    lua_setfield(L, -2, note_fields[3]);
    lua_createtable(L, 0, 1);
    lua_pushcfunction(L, miss_field);
    lua_setfield(L, -2, "__index");
    lua_setmetatable(L, -2);
}

typedef struct question {
    hl_entry *function;
    const bool *wanted;
    int pitch; /* that is being asked */
} question;

static int ask_function(lua_State *L)
{
    question *q = lua_touserdata(L, 1);
    hl_entry *entry = q->function;
    luaL_checkstack(L, 8, NULL);
    for (int pitch = 0; pitch < HL_PITCHES; pitch++) {
        if (!q->wanted[pitch])
            continue;
        q->pitch = pitch;
        lua_rawgeti(L, LUA_REGISTRYINDEX, entry->function);
        push_note(L, pitch);
        lua_call(L, 1, 1);
        hl_entry *target = hl__lift_entry(L, -1);
        hl__sandbox_of(L)->line = entry->origin.line;
        if (target != NULL ? !hl__is_simple_target(target) : !lua_isnil(L, -1))
            hl__sandbox_error(L, "return range, at_least, at_most or about", "the target function gave %s%s",
                              target != NULL ? "" : "a ",
                              target != NULL ? hl__word_name(target->word) : luaL_typename(L, -1));
        entry->anchors[pitch] = (hl_anchor){pitch, pitch, target};
        lua_pop(L, 1);
    }
    return 0;
}

hl_code hl__target_ask(hl_sandbox *box, hl_entry *function, const bool wanted[HL_PITCHES], hl_err *err)
{
    question q = {function, wanted, 0};
    hl_complaints *all = box->all;
    box->all = NULL; /* the first error ends it: the same one would come at every note */
    hl_code code = hl__sandbox_call(box, ask_function, &q, function->origin.file, err);
    box->all = all;
    if (code != HL_E_RULE)
        return code;
    const hl_err inner = *err; /* the words are set from the older ones */
    hl__fail(err, code, "%s, asked for %s", inner.what, hl_pitch_name(q.pitch));
    hl__todo(err, "%s", inner.todo);
    return hl__at(err, inner.file, inner.line, 0);
}

lua_CFunction hl__target_word(hl_rule_word word)
{
    switch (word) {
    case HL_W_RANGE:
    case HL_W_AT_LEAST:
    case HL_W_AT_MOST:
    case HL_W_ABOUT:
        return call_simple;
    case HL_W_ZONES:
    case HL_W_GRADED:
        return call_rows;
    case HL_W_BY_COLOUR:
        return call_by_colour;
    default:
        return NULL;
    }
}
