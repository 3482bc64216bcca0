/* words.c - step, book, use, change, adjuster, skip, fact, stage, float, acknowledge, diagnosis, source
 * and tests (layer: host/words).  What they make lives in the arena of the sandbox. */
#include "words.h"

#include "lua_to_value.h"

#include <lauxlib.h>
#include <stddef.h>

/* Gather the entries in a book's list. */
static void take_items(lua_State *L, hl_entry *book, const hl_value *table)
{
    book->items = hl__sandbox_take(L, (size_t)table->n_list, sizeof *book->items);
    for (int i = 0; i < table->n_list; i++) {
        const hl_value *item = &table->items[i];
        bool fits = item->kind == HL_IS_ENTRY && hl__is_book_item(item->entry);
        if (!fits && item->kind == HL_IS_ENTRY && item->entry->word == HL_W_STEP)
            hl__sandbox_note(L, "put it in a file of its own and write use \"its_name\"",
                             "item %d of book is a step", i + 1);
        else if (!fits)
            hl__sandbox_note(L,
                             "a book's list holds use, stage, change, adjuster, skip, fact, float, "
                             "acknowledge, choice, choose, diagnosis, source and renamed",
                             "item %d of book is %s", i + 1, hl__value_kind_name(item));
        else if (item->entry->placed)
            hl__sandbox_note(L, "write it once", "item %d of book (%s) is in a book already", i + 1,
                             hl__word_name(item->entry->word));
        if (item->kind == HL_IS_ENTRY)
            item->entry->placed = true;
        if (fits)
            book->items[book->n_items++] = item->entry;
    }
}

/* The words that take one table; upvalue 1 is the word. */
static int call_table_word(lua_State *L)
{
    hl_rule_word word = (hl_rule_word)lua_tointeger(L, lua_upvalueindex(1));
    const char *name = hl__word_name(word);
    if (lua_gettop(L) != 1 || lua_type(L, 1) != LUA_TTABLE)
        hl__sandbox_error(L, lua_pushfstring(L, "write %s { ... }", name), "%s takes one table", name);
    hl_value table;
    hl__lift(L, 1, name, &table);
    hl_sandbox *box = hl__sandbox_of(L);
    hl_entry *entry;
    if (hl__entry_take(&entry, box->arena, word, &table, box->all, &box->err) != HL_OK)
        hl__sandbox_raise(L);
    if (word == HL_W_BOOK)
        take_items(L, entry, &table);
    hl__entry_made(L, entry);
    lua_pushlightuserdata(L, entry);
    return 1;
}

static hl_entry *take_name(lua_State *L, hl_rule_word word, const char *shape)
{
    if (lua_gettop(L) != 1 || lua_type(L, 1) != LUA_TSTRING)
        hl__sandbox_error(L, shape, "%s takes one name", hl__word_name(word));
    hl_entry *entry = hl__make_entry(L, word, 1);
    hl__lift(L, 1, NULL, &entry->values[0]);
    return entry;
}

static int call_use(lua_State *L)
{
    lua_pushlightuserdata(L, take_name(L, HL_W_USE, "write use \"name\""));
    return 1;
}

/* The second half of: tests "grand" { ... }.  Upvalue 1 is the entry. */
static int call_cases(lua_State *L)
{
    hl_entry *tests = lua_touserdata(L, lua_upvalueindex(1));
    if (lua_gettop(L) != 1 || lua_type(L, 1) != LUA_TTABLE || tests->n_items > 0)
        hl__sandbox_error(L, "write tests \"book\" { { \"step\", \"A4\", reads = 1, want = \"pass\" } }",
                          "tests takes one table of cases");
    hl_value table;
    hl__lift(L, 1, "tests", &table);
    if (table.n_list == 0)
        hl__sandbox_error(L, "a test file without a case proves nothing", "tests holds no case");
    if (table.n_items > table.n_list)
        hl__sandbox_error(L, "a case is a table of its own", "tests takes cases, not '%s'",
                          table.items[table.n_list].key);
    hl_sandbox *box = hl__sandbox_of(L);
    tests->items = hl__sandbox_take(L, (size_t)table.n_list, sizeof *tests->items);
    for (int i = 0; i < table.n_list; i++) {
        if (table.items[i].kind != HL_IS_TABLE) {
            hl__sandbox_note(L, "write { \"step\", \"A4\", reads = 1, want = \"pass\" }", "case %d is %s",
                             i + 1, hl__value_kind_name(&table.items[i]));
            continue;
        }
        hl_entry **place = &tests->items[tests->n_items];
        if (hl__entry_take(place, box->arena, HL_W_CASE, &table.items[i], box->all, &box->err) != HL_OK)
            hl__sandbox_raise(L);
        tests->n_items++;
    }
    lua_pushlightuserdata(L, tests);
    return 1;
}

static int call_tests(lua_State *L)
{
    hl_entry *entry = take_name(L, HL_W_TESTS, "write tests \"book\" { ... }");
    lua_pushlightuserdata(L, entry);
    lua_pushcclosure(L, call_cases, 1);
    return 1;
}

/* by_choice { "choice", option = value, ... }: values[0] is the choice, the others are named like
 * its options. */
static int call_by_choice(lua_State *L)
{
    static const char shape[] = "write by_choice { \"choice\", option = ..., other = ... }";
    if (lua_gettop(L) != 1 || lua_type(L, 1) != LUA_TTABLE)
        hl__sandbox_error(L, shape, "by_choice takes one table");
    hl_value table;
    hl__lift_options(L, 1, "by_choice", &table);
    hl_sandbox *box = hl__sandbox_of(L);
    if (table.n_list != 1 || table.n_items < 2)
        hl__sandbox_error(L, shape, "by_choice takes the choice's name, then a value for each option");
    if (hl__value_check(box->arena, HL_W_BY_CHOICE, hl__word_field(HL_W_BY_CHOICE, 0), &table.items[0],
                        &box->err) != HL_OK)
        hl__sandbox_raise(L);
    hl_entry *entry = hl__make_entry(L, HL_W_BY_CHOICE, 0);
    entry->values = table.items;
    entry->n_values = table.n_items;
    for (int i = 1; i < entry->n_values; i++)
        entry->bad = entry->bad || (entry->values[i].kind == HL_IS_ENTRY && entry->values[i].entry->bad);
    lua_pushlightuserdata(L, entry);
    return 1;
}

void hl__words_add(lua_State *L)
{
    for (hl_rule_word word = HL_W_STEP; word < HL_WORDS; word++) {
        lua_CFunction target = hl__target_word(word);
        lua_pushinteger(L, (lua_Integer)word);
        if (target != NULL)
            lua_pushcclosure(L, target, 1);
        else if (word == HL_W_USE)
            lua_pushcclosure(L, call_use, 1);
        else if (word == HL_W_TESTS)
            lua_pushcclosure(L, call_tests, 1);
        else if (word == HL_W_BY_CHOICE)
            lua_pushcclosure(L, call_by_choice, 1);
        else
            lua_pushcclosure(L, call_table_word, 1);
        lua_setfield(L, -2, hl__word_name(word));
    }
}
