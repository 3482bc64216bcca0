/* library.c - the short list of pure functions that rule files may call (layer: host/sandbox).
 *
 * Not offered, each for a hole that was measured: pcall and its like (they outlive a limit),
 * metatables and __gc (hooks are off in finalizers), patterns and rep (endless inside C), load and
 * bytecode, coroutine, os, io, debug, package, next (order differs from run to run). */
#include "library.h"

#include "ascii.h"
#include "fields.h"
#include "format.h"
#include "host.h"
#include "nearest_name.h"
#include "sandbox.h"

#include <lauxlib.h>
#include <lualib.h>
#include <string.h>

static const char *const from_base[] = {"assert", "error", "ipairs", "select", "type", NULL};
static const char *const from_math[] = {"floor", "ceil", "abs",  "min",       "max",  "sqrt",
                                        "huge",  "pi",   "fmod", "tointeger", "type", "exp",
                                        "log",   "sin",  "cos",  "tan",       NULL};
static const char *const from_string[] = {"len", "lower", "upper", "sub", NULL};
static const char *const refused[] = {
    "print",        "require",      "load",   "loadfile", "dofile",    "pcall",  "xpcall",
    "os",           "io",           "debug",  "package",  "coroutine", "utf8",   "collectgarbage",
    "setmetatable", "getmetatable", "rawget", "rawset",   "rawequal",  "rawlen", "next",
    "_G",           "_VERSION",     "warn",   NULL};

/* ---- reading and writing names --------------------------------------------------------------- */

static const char *nearest_name(lua_State *L, int table, const char *asked)
{
    hl_suggest suggest = {asked, NULL, 0};
    for (lua_pushnil(L); lua_next(L, table) != 0; lua_pop(L, 1)) {
        if (lua_type(L, -2) == LUA_TSTRING)
            hl__suggest_offer(&suggest, lua_tostring(L, -2));
    }
    return suggest.best;
}

static bool is_field(const char *name)
{
    for (hl_rule_word word = HL_W_STEP; word < HL_ALL_WORDS; word++)
        if (hl__word_find(word, name) >= 0)
            return true;
    return false;
}

/* What other languages and spreadsheets call yes, no and nothing. */
static const char *find_constant(const char *name)
{
    static const char *const names[][2] = {
        {"true", "write true, in small letters"},
        {"false", "write false, in small letters"},
        {"yes", "write true"},
        {"no", "write false"},
        {"none", "leave the field out"},
        {"null", "leave the field out"},
        {"undefined", "leave the field out"},
        {"nan", "write a number"},
    };
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (hl__same_word(name, names[i][0]))
            return names[i][1];
    return NULL;
}

static _Noreturn void refuse_name(lua_State *L, const char *name)
{
    static const char what[] = "'%s' is not defined here";
    const char *constant = find_constant(name), *nearest = nearest_name(L, 1, name);
    for (int i = 0; refused[i] != NULL; i++) {
        if (strcmp(refused[i], name) == 0)
            hl__sandbox_error(L, "rule files compute; they do not reach outside",
                              "%s is not offered to rule files", name);
    }
    if (constant != NULL)
        hl__sandbox_error(L, constant, what, name);
    if (is_field(name))
        hl__sandbox_error(L, lua_pushfstring(L, "a field is given inside { } with one =: %s = ...", name),
                          what, name);
    if (nearest != NULL)
        hl__sandbox_error(L, lua_pushfstring(L, "did you mean '%s'?", nearest), what, name);
    hl__sandbox_error(
        L,
        lua_pushfstring(L,
                        "write a name or a text in quotes: \"%s\"; write 'local' where a value of "
                        "your own is made",
                        name),
        what, name);
}

/* __index of the table of names (upvalue 1: "" or the library's name). */
static int miss_name(lua_State *L)
{
    const char *library = lua_tostring(L, lua_upvalueindex(1));
    if (lua_type(L, 2) != LUA_TSTRING)
        hl__sandbox_error(L, "", "a name is a text, not a %s", luaL_typename(L, 2));
    const char *name = lua_tostring(L, 2);
    if (library[0] == '\0')
        refuse_name(L, name);
    const char *nearest = nearest_name(L, 1, name);
    hl__sandbox_error(L,
                      nearest != NULL ? lua_pushfstring(L, "did you mean '%s'?", nearest)
                                      : "rule files compute; rules/meta/words.lua lists what they can call",
                      "%s.%s is not offered to rule files", library, name);
}

static int refuse_write(lua_State *L)
{
    const char *name = lua_type(L, 2) == LUA_TSTRING ? lua_tostring(L, 2) : "that";
    hl__sandbox_error(L, lua_pushfstring(L, "write 'local %s = ...'", name), "'%s' is not a local name",
                      name);
}

static int refuse_library_write(lua_State *L)
{
    hl__sandbox_error(L, "write a local function instead", "the libraries cannot be changed");
}

/* Gives the table on top an __index that explains what is missing. */
static void explain_missing(lua_State *L, const char *library)
{
    lua_createtable(L, 0, 1);
    lua_pushstring(L, library);
    lua_pushcclosure(L, miss_name, 1);
    lua_setfield(L, -2, "__index");
    lua_setmetatable(L, -2);
}

/* Replaces the table on top by an empty one that reads it and cannot be written to. */
static void protect(lua_State *L, lua_CFunction write)
{
    lua_newtable(L);
    lua_createtable(L, 0, 2);
    lua_pushvalue(L, -3);
    lua_setfield(L, -2, "__index");
    lua_pushcfunction(L, write);
    lua_setfield(L, -2, "__newindex");
    lua_setmetatable(L, -2);
    lua_remove(L, -2);
}

/* ---- our own versions ------------------------------------------------------------------------ */

static int rank(lua_State *L, int index)
{
    return lua_type(L, index) == LUA_TNUMBER ? 0 : 1;
}

static bool comes_before(lua_State *L, int a, int b)
{
    if (rank(L, a) != rank(L, b))
        return rank(L, a) < rank(L, b);
    return lua_compare(L, a, b, LUA_OPLT) != 0;
}

/* Sift down in a heap of keys at stack index `keys`, items 1 ... n. */
static void sift(lua_State *L, int keys, lua_Integer at, lua_Integer n)
{
    while (2 * at <= n) {
        lua_Integer child = 2 * at;
        lua_rawgeti(L, keys, child);
        if (child < n) {
            lua_rawgeti(L, keys, child + 1);
            if (comes_before(L, -2, -1)) {
                lua_remove(L, -2);
                child++;
            } else {
                lua_pop(L, 1);
            }
        }
        lua_rawgeti(L, keys, at);
        if (!comes_before(L, -1, -2)) {
            lua_pop(L, 2);
            return;
        }
        lua_rawseti(L, keys, child);
        lua_rawseti(L, keys, at);
        at = child;
    }
}

static void sort_keys(lua_State *L, int keys, lua_Integer n)
{
    for (lua_Integer at = n / 2; at >= 1; at--)
        sift(L, keys, at, n);
    for (lua_Integer last = n; last > 1; last--) {
        lua_rawgeti(L, keys, 1);
        lua_rawgeti(L, keys, last);
        lua_rawseti(L, keys, 1);
        lua_rawseti(L, keys, last);
        sift(L, keys, 1, last - 1);
    }
}

/* The step of the loop: upvalues are the table, its sorted keys, and how many were given. */
static int give_next(lua_State *L)
{
    lua_Integer at = lua_tointeger(L, lua_upvalueindex(3)) + 1;
    lua_pushinteger(L, at);
    lua_replace(L, lua_upvalueindex(3));
    if (lua_rawgeti(L, lua_upvalueindex(2), at) == LUA_TNIL)
        return 1;
    lua_pushvalue(L, -1);
    lua_rawget(L, lua_upvalueindex(1));
    return 2;
}

/* pairs in one order, always: numbers ascending, then texts. */
static int sorted_pairs(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    lua_settop(L, 1);
    lua_newtable(L);
    lua_Integer n = 0;
    for (lua_pushnil(L); lua_next(L, 1) != 0;) {
        lua_pop(L, 1);
        int type = lua_type(L, -1);
        if (type != LUA_TNUMBER && type != LUA_TSTRING)
            hl__sandbox_error(L, "use texts or numbers as keys", "pairs: a key that is a %s has no order",
                              lua_typename(L, type));
        lua_pushvalue(L, -1);
        lua_rawseti(L, 2, ++n);
        /* Sorting is work that the hook does not see. */
        hl__sandbox_charge(L, n % 1000 == 0 ? 20000 : 0);
    }
    hl__sandbox_charge(L, (size_t)(n % 1000) * 20);
    sort_keys(L, 2, n);
    lua_pushinteger(L, 0);
    lua_pushcclosure(L, give_next, 3);
    return 1;
}

static int plain_tostring(lua_State *L)
{
    luaL_checkany(L, 1);
    int type = lua_type(L, 1);
    if (type == LUA_TSTRING || type == LUA_TNUMBER || type == LUA_TBOOLEAN || type == LUA_TNIL)
        luaL_tolstring(L, 1, NULL);
    else
        lua_pushstring(L, lua_typename(L, type)); /* an address would differ from run to run */
    return 1;
}

static int plain_tonumber(lua_State *L)
{
    luaL_checkany(L, 1);
    if (!lua_isnoneornil(L, 2))
        hl__sandbox_error(L, "write the number in decimals", "tonumber takes no base in rule files");
    size_t size = 0;
    if (lua_type(L, 1) == LUA_TNUMBER) {
        lua_settop(L, 1);
        return 1;
    }
    const char *text = lua_type(L, 1) == LUA_TSTRING ? lua_tolstring(L, 1, &size) : NULL;
    if (text == NULL || size > 200 || lua_stringtonumber(L, text) != size + 1)
        lua_pushnil(L);
    return 1;
}

/* A table function of Lua (upvalue 1) with its work counted. */
static int counted(lua_State *L)
{
    luaL_checktype(L, 1, LUA_TTABLE);
    hl__sandbox_charge(L, (size_t)lua_rawlen(L, 1));
    lua_pushvalue(L, lua_upvalueindex(1));
    lua_insert(L, 1);
    lua_call(L, lua_gettop(L) - 1, LUA_MULTRET);
    return lua_gettop(L);
}

/* ---- putting it together --------------------------------------------------------------------- */

static void copy_names(lua_State *L, int from, int to, const char *const *names)
{
    for (int i = 0; names[i] != NULL; i++) {
        lua_getfield(L, from, names[i]);
        lua_setfield(L, to, names[i]);
    }
}

static void add_tables(lua_State *L, int words)
{
    static const char *const names[] = {"concat", "insert", "remove", "unpack", NULL};
    luaL_requiref(L, LUA_TABLIBNAME, luaopen_table, 0);
    lua_newtable(L);
    for (int i = 0; names[i] != NULL; i++) {
        lua_getfield(L, -2, names[i]);
        lua_pushcclosure(L, counted, 1);
        lua_setfield(L, -2, names[i]);
    }
    explain_missing(L, "table");
    protect(L, refuse_library_write);
    lua_setfield(L, words, "table");
    lua_pop(L, 1);
}

static void add_strings(lua_State *L, int words)
{
    luaL_requiref(L, LUA_STRLIBNAME, luaopen_string, 0);
    lua_newtable(L);
    copy_names(L, lua_gettop(L) - 1, lua_gettop(L), from_string);
    lua_getfield(L, -2, "format");
    lua_pushcclosure(L, hl__format, 1);
    lua_setfield(L, -2, "format");
    explain_missing(L, "string");
    protect(L, refuse_library_write);
    /* Methods of texts come from the same short list; arithmetic on texts is gone. */
    lua_pushliteral(L, "");
    lua_createtable(L, 0, 1);
    lua_pushvalue(L, -3);
    lua_setfield(L, -2, "__index");
    lua_setmetatable(L, -2);
    lua_pop(L, 1);
    lua_setfield(L, words, "string");
    lua_pop(L, 1);
}

static void add_math(lua_State *L, int words)
{
    luaL_requiref(L, LUA_MATHLIBNAME, luaopen_math, 0);
    lua_newtable(L);
    copy_names(L, lua_gettop(L) - 1, lua_gettop(L), from_math);
    explain_missing(L, "math");
    protect(L, refuse_library_write);
    lua_setfield(L, words, "math");
    lua_pop(L, 1);
}

void hl__library_push(lua_State *L)
{
    luaL_requiref(L, LUA_GNAME, luaopen_base, 0);
    lua_newtable(L);
    int words = lua_gettop(L);
    copy_names(L, words - 1, words, from_base);
    lua_remove(L, words - 1);
    words--;
    lua_pushcfunction(L, sorted_pairs);
    lua_setfield(L, words, "pairs");
    lua_pushcfunction(L, plain_tostring);
    lua_setfield(L, words, "tostring");
    lua_pushcfunction(L, plain_tonumber);
    lua_setfield(L, words, "tonumber");
    add_math(L, words);
    add_strings(L, words);
    add_tables(L, words);
    explain_missing(L, "");
}

void hl__library_push_environment(lua_State *L, int index)
{
    lua_pushvalue(L, index);
    protect(L, refuse_write);
}
