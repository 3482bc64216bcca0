/* lua_to_value.c - from Lua values to plain C and to entries (layer: host/words).  All copies are the
 * arena's, and count against the sandbox's cap. */
#include "lua_to_value.h"

#include "sandbox.h"
#include "scan.h"
#include "text.h"

#include <lauxlib.h>
#include <stdlib.h>
#include <string.h>

#define DEPTH 6 /* of tables inside tables */

hl_origin hl__lift_origin(lua_State *L)
{
    hl_sandbox *box = hl__sandbox_of(L);
    int line = hl__sandbox_line(L);
    box->line = line != 0 ? line : box->line;
    return (hl_origin){box->file, box->line};
}

const char *hl__lift_text(lua_State *L, int index)
{
    size_t size;
    const char *text = lua_tolstring(L, index, &size);
    for (size_t i = 0; i < size;) {
        uint32_t point;
        int n = text[i] == '\0' ? 0 : hl__utf8_next(text + i, size - i, &point);
        if (n == 0)
            hl__sandbox_error(L, "write the characters themselves",
                              text[i] == '\0' ? "a text here holds a zero byte" : "a text here is not UTF-8");
        i += (size_t)n;
    }
    char *copy = hl__sandbox_take(L, size + 1, 1);
    memcpy(copy, text, size);
    return copy;
}

hl_entry *hl__lift_entry(lua_State *L, int index)
{
    /* Rule files cannot make light userdata: each one is an entry that a word gave out. */
    return lua_type(L, index) == LUA_TLIGHTUSERDATA ? lua_touserdata(L, index) : NULL;
}

void hl__entry_made(lua_State *L, hl_entry *entry)
{
    hl_sandbox *box = hl__sandbox_of(L);
    entry->next = box->made;
    box->made = entry;
}

hl_entry *hl__make_entry(lua_State *L, hl_rule_word word, int n_values)
{
    hl_entry *entry = hl__sandbox_take(L, 1, sizeof *entry);
    entry->word = word;
    entry->origin = hl__lift_origin(L);
    entry->n_values = n_values;
    entry->values = hl__sandbox_take(L, (size_t)n_values, sizeof *entry->values);
    hl__entry_made(L, entry);
    return entry;
}

/* A function as a target.  Which notes it is asked for is known once the book is put together, so Lua keeps
 * it until then. */
static hl_entry *keep_function(lua_State *L, int index)
{
    luaL_checkstack(L, 2, NULL);
    lua_Debug about;
    lua_pushvalue(L, index);
    lua_getinfo(L, ">S", &about);
    hl_entry *entry = hl__make_entry(L, HL_W_FUNCTION, 0);
    if (about.linedefined > 0)
        entry->origin.line = about.linedefined;
    entry->anchors = hl__sandbox_take(L, HL_PITCHES, sizeof *entry->anchors);
    entry->n_anchors = HL_PITCHES;
    lua_pushvalue(L, index);
    entry->function = luaL_ref(L, LUA_REGISTRYINDEX);
    return entry;
}

#define MOST_LINES 200 /* named items of one table whose own lines are looked for */

/* What holds for a table and all inside it.  `targets`: a function under any name is a target, not only under
 * `target`. */
typedef struct lifting {
    lua_State *L;
    bool targets;
    hl_origin origin; /* of the call */
    const hl_outline *outline;
} lifting;

static void lift(const lifting *l, int index, const char *key, int depth, int written, hl_value *out);

static int by_key(const void *a, const void *b)
{
    const hl_value *x = a, *y = b;
    return strcmp(x->key, y->key);
}

/* How many entries the table has; refuses keys that are neither names nor list places. */
static lua_Integer count_items(lua_State *L, int table, lua_Integer n_list)
{
    lua_Integer n = 0;
    for (lua_pushnil(L); lua_next(L, table) != 0; lua_pop(L, 1)) {
        n++;
        if (lua_type(L, -2) == LUA_TSTRING)
            continue;
        int whole = 0;
        lua_Integer place = lua_type(L, -2) == LUA_TNUMBER ? lua_tointegerx(L, -2, &whole) : 0;
        if (!whole)
            hl__sandbox_error(L, "fields have names; items of a list have none", "a key here is a %s",
                              luaL_typename(L, -2));
        if (place < 1 || place > n_list)
            hl__sandbox_error(L, "take out the nil before it", "item %d is after an empty place",
                              (int)(place < 0       ? -1
                                    : place > 99999 ? 99999
                                                    : place));
    }
    if (n > HL_MOST_ITEMS)
        hl__sandbox_error(L, "split it", "a table with more than %d items", HL_MOST_ITEMS);
    return n;
}

/* The item behind `item` (from the first when NULL) that has no name. */
static const hl_outline_item *next_unnamed(const hl_outline *outline, int written,
                                           const hl_outline_item *item)
{
    int i = item != NULL ? item->next : written >= 0 ? outline->tables[written].first : -1;
    while (i >= 0 && outline->items[i].key != NULL)
        i = outline->items[i].next;
    return i >= 0 ? &outline->items[i] : NULL;
}

static void lift_item(const lifting *l, const char *key, int depth, const hl_outline_item *written,
                      hl_value *out)
{
    lift(l, lua_gettop(l->L), key, depth + 1, written != NULL ? written->table : -1, out);
    if (written != NULL && out->kind != HL_IS_ENTRY)
        out->origin.line = written->line;
}

/* `written`: the table's place in the outline, or -1. */
static void lift_table(const lifting *l, int table, int depth, int written, hl_value *out)
{
    lua_State *L = l->L;
    if (depth >= DEPTH)
        hl__sandbox_error(L, "", "tables are more than %d deep inside each other", DEPTH);
    luaL_checkstack(L, 8, NULL);
    lua_Integer n_list = (lua_Integer)lua_rawlen(L, table);
    lua_Integer n = count_items(L, table, n_list);
    hl__sandbox_charge(L, (size_t)n * 20);
    out->kind = HL_IS_TABLE;
    out->items = hl__sandbox_take(L, (size_t)n, sizeof *out->items);
    out->n_list = (int)n_list;
    const hl_outline_item *item = NULL;
    for (lua_Integer i = 1; i <= n_list; i++) {
        lua_rawgeti(L, table, i);
        if (lua_isnil(L, -1))
            hl__sandbox_error(L, "take it out", "item %d is nil", (int)i);
        item = i == 1 || item != NULL ? next_unnamed(l->outline, written, item) : NULL;
        lift_item(l, NULL, depth, item, &out->items[i - 1]);
        lua_pop(L, 1);
    }
    out->n_items = (int)n_list;
    bool few = n - n_list <= MOST_LINES;
    for (lua_pushnil(L); lua_next(L, table) != 0; lua_pop(L, 1)) {
        if (lua_type(L, -2) != LUA_TSTRING || out->n_items >= n)
            continue;
        const char *key = hl__lift_text(L, lua_gettop(L) - 1);
        item = few && written >= 0 ? hl__outline_item(l->outline, written, key) : NULL;
        lift_item(l, key, depth, item, &out->items[out->n_items++]);
    }
    if (out->n_items > out->n_list)
        qsort(out->items + out->n_list, (size_t)(out->n_items - out->n_list), sizeof *out->items, by_key);
}

static void lift(const lifting *l, int index, const char *key, int depth, int written, hl_value *out)
{
    lua_State *L = l->L;
    *out = (hl_value){.origin = l->origin, .key = key};
    switch (lua_type(L, index)) {
    case LUA_TNIL:
        break;
    case LUA_TSTRING:
        out->kind = HL_IS_TEXT;
        out->text = hl__lift_text(L, index);
        break;
    case LUA_TNUMBER:
        out->kind = HL_IS_NUMBER;
        out->number = lua_tonumber(L, index);
        break;
    case LUA_TBOOLEAN:
        out->kind = HL_IS_BOOLEAN;
        out->flag = lua_toboolean(L, index) != 0;
        break;
    case LUA_TTABLE:
        lift_table(l, index, depth, written, out);
        break;
    case LUA_TLIGHTUSERDATA:
        out->kind = HL_IS_ENTRY;
        out->entry = lua_touserdata(L, index);
        out->origin = out->entry->origin;
        break;
    case LUA_TFUNCTION:
        out->kind = HL_IS_OTHER;
        if (key != NULL && (l->targets || strcmp(key, "target") == 0 || strcmp(key, "naturals") == 0 ||
                            strcmp(key, "sharps") == 0)) {
            out->kind = HL_IS_ENTRY;
            out->entry = keep_function(L, index);
        }
        break;
    default:
        out->kind = HL_IS_OTHER;
        break;
    }
}

static void lift_from(lua_State *L, int index, const char *word, bool targets, hl_value *out)
{
    hl_outline *outline = hl__sandbox_of(L)->outline;
    const lifting l = {L, targets, hl__lift_origin(L), outline};
    const int written = outline != NULL && word != NULL ? hl__outline_find(outline, word, l.origin.line) : -1;
    lift(&l, lua_absindex(L, index), NULL, 0, written, out);
}

void hl__lift(lua_State *L, int index, const char *word, hl_value *out)
{
    lift_from(L, index, word, false, out);
}

void hl__lift_options(lua_State *L, int index, const char *word, hl_value *out)
{
    lift_from(L, index, word, true, out);
}
