/* sandbox.c - capped allocator, counting hook with a clock behind it, one protected call
 * (layer: host/sandbox).  The box is the caller's; the state is freed by hl__sandbox_close(). */
#include "sandbox.h"

#include "ascii.h"
#include "complaints.h"

#include <lauxlib.h>
#include <limits.h>
#include <locale.h>
#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#define HOOK_EVERY 1000
/* No rule needs a table or a text this large; it bounds how long one string operation, which the
 * hook cannot see, may take. */
#define AT_ONCE ((size_t)1 << 20)

static double now(void)
{
    struct timespec t;
    if (clock_gettime(CLOCK_MONOTONIC, &t) != 0)
        return 0;
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static bool may_grow(hl_sandbox *box, size_t by, size_t size)
{
    size_t taken = box->used + box->arena->taken;
    if (size > AT_ONCE)
        box->denied = HL_TRIP_AT_ONCE;
    else if (by > box->memory || taken > box->memory - by)
        box->denied = HL_TRIP_MEMORY;
    else
        return true;
    return false;
}

static void *allocate(void *context, void *block, size_t old, size_t size)
{
    hl_sandbox *box = context;
    if (block == NULL)
        old = 0; /* Lua passes a type tag here, not a size */
    if (size == 0) {
        free(block);
        box->used -= old;
        return NULL;
    }
    if (size > old && !may_grow(box, size - old, size))
        return NULL;
    void *moved = realloc(block, size);
    if (moved == NULL && size > old) {
        box->denied = HL_TRIP_MACHINE;
        return NULL;
    }
    box->used = box->used - old + size;
    return moved != NULL ? moved : block; /* a block that would not shrink is still good */
}

hl_sandbox *hl__sandbox_of(lua_State *L)
{
    void *box;
    (void)lua_getallocf(L, &box);
    return box;
}

int hl__sandbox_line(lua_State *L)
{
    lua_Debug at;
    for (int level = 0; lua_getstack(L, level, &at); level++) {
        lua_getinfo(L, "Sl", &at);
        if (at.currentline > 0)
            return at.currentline;
    }
    return 0;
}

static _Noreturn void raise_trip(lua_State *L, hl_trip trip);

static void set_place(lua_State *L, hl_sandbox *box)
{
    if (box->err.file[0] != '\0' || box->file == NULL)
        return;
    int line = hl__sandbox_line(L);
    hl__at(&box->err, box->file, line != 0 ? line : box->line, 0);
}

void hl__sandbox_note_err(lua_State *L)
{
    hl_sandbox *box = hl__sandbox_of(L);
    set_place(L, box);
    if (box->all == NULL || box->all->n >= HL_BOOK_ERRORS_MOST)
        hl__sandbox_raise(L);
    if (hl__complaints_add(box->all, &box->err) != HL_OK)
        raise_trip(L, HL_TRIP_MACHINE);
    box->err = (hl_err){0};
}

void hl__sandbox_raise(lua_State *L)
{
    hl_sandbox *box = hl__sandbox_of(L);
    set_place(L, box);
    lua_pushlightuserdata(L, box);
    lua_error(L);
    abort(); /* not reached: lua_error does not return */
}

/* Lua's own formatting: its texts may be of any length, and no locale is asked. */
static void fill_error(lua_State *L, const char *todo, const char *what, va_list arguments)
{
    hl_sandbox *box = hl__sandbox_of(L);
    char text[sizeof box->err.what];
    lua_pushvfstring(L, what, arguments);
    const char *made = lua_tostring(L, -1);
    size_t size = strlen(made);
    size = size < sizeof text ? size : sizeof text - 1;
    memcpy(text, made, size);
    text[size] = '\0';
    hl__fail(&box->err, HL_E_RULE, "%s", text);
    hl__todo(&box->err, "%s", todo);
    lua_pop(L, 1);
}

void hl__sandbox_error(lua_State *L, const char *todo, const char *what, ...)
{
    va_list arguments;
    va_start(arguments, what);
    fill_error(L, todo, what, arguments);
    va_end(arguments);
    hl__sandbox_raise(L);
}

void hl__sandbox_note(lua_State *L, const char *todo, const char *what, ...)
{
    va_list arguments;
    va_start(arguments, what);
    fill_error(L, todo, what, arguments);
    va_end(arguments);
    hl__sandbox_note_err(L);
}

/* What all calls together may use of a limit that holds for one. */
static long steps_together(const hl_sandbox *box)
{
    return box->steps > LONG_MAX / HL_SANDBOX_TOGETHER ? LONG_MAX : box->steps * HL_SANDBOX_TOGETHER;
}

static void fill_too_long(hl_sandbox *box, bool together, long limit, const char *unit)
{
    hl__fail(&box->err, HL_E_RULE, "the rule file%s ran too long (more than %ld %s)",
             together ? "s of this book together" : "", limit, unit);
    hl__todo(&box->err, "look for a loop that does not end");
}

static void fill_trip(hl_sandbox *box, hl_trip trip)
{
    switch (trip) {
    case HL_TRIP_STEPS:
        if (steps_together(box) - box->spent_steps < box->steps)
            fill_too_long(box, true, steps_together(box), "steps of work");
        else
            fill_too_long(box, false, box->steps, "steps of work");
        break;
    case HL_TRIP_TIME:
        if (box->spent_seconds > box->seconds * (HL_SANDBOX_TOGETHER - 1))
            fill_too_long(box, true, (long)(box->seconds * HL_SANDBOX_TOGETHER * 1000), "ms");
        else
            fill_too_long(box, false, (long)(box->seconds * 1000), "ms");
        break;
    case HL_TRIP_MACHINE:
        hl__no_memory(&box->err);
        break;
    case HL_TRIP_AT_ONCE:
        hl__fail(&box->err, HL_E_RULE, "the rule file asks for more than %zu KiB of memory at once",
                 AT_ONCE >> 10);
        hl__todo(&box->err, "look for a text, a table or a recursion that grows without end");
        break;
    default:
        hl__fail(&box->err, HL_E_RULE, "the rule file takes more than %zu KiB of memory", box->memory >> 10);
        hl__todo(&box->err, "look for a text or a table that grows without end");
        break;
    }
}

static void watch(lua_State *L, lua_Debug *at)
{
    (void)at;
    hl_sandbox *box = hl__sandbox_of(L);
    box->line = hl__sandbox_line(L);
    if (box->trip != HL_TRIP_NONE)
        raise_trip(L, box->trip);
    hl__sandbox_charge(L, HOOK_EVERY);
}

static void raise_trip(lua_State *L, hl_trip trip)
{
    hl_sandbox *box = hl__sandbox_of(L);
    box->trip = trip;
    lua_sethook(L, watch, LUA_MASKCOUNT, 1);
    fill_trip(box, trip);
    hl__sandbox_raise(L);
}

void hl__sandbox_charge(lua_State *L, size_t amount)
{
    hl_sandbox *box = hl__sandbox_of(L);
    box->left = amount > (size_t)box->left ? 0 : box->left - (long)amount;
    if (box->left == 0)
        raise_trip(L, HL_TRIP_STEPS);
    if (amount >= HOOK_EVERY && now() > box->deadline)
        raise_trip(L, HL_TRIP_TIME);
}

void *hl__sandbox_take(lua_State *L, size_t n, size_t size)
{
    hl_sandbox *box = hl__sandbox_of(L);
    if (n != 0 && size > AT_ONCE / n)
        raise_trip(L, HL_TRIP_AT_ONCE);
    if (!may_grow(box, n * size, n * size))
        raise_trip(L, HL_TRIP_MEMORY);
    void *room = hl__arena_array(box->arena, n > 0 ? n : 1, size);
    if (room == NULL)
        raise_trip(L, HL_TRIP_MACHINE);
    return room;
}

/* Lua's own errors begin "rule:12: "; returns the rest and sets the line. */
static const char *strip_place(const char *text, int *line)
{
    static const char start[] = HL_SANDBOX_CHUNK ":";
    if (strncmp(text, start, sizeof start - 1) != 0)
        return text;
    const char *at = text + sizeof start - 1;
    int n = 0;
    while (hl__is_digit(*at) && n < 100000000)
        n = n * 10 + (*at++ - '0');
    if (n == 0 || at[0] != ':' || at[1] != ' ')
        return text;
    *line = n;
    return at + 2;
}

/* The message handler: runs at the throw point, while the stack still tells the line. */
static int explain(lua_State *L)
{
    hl_sandbox *box = hl__sandbox_of(L);
    if (lua_touserdata(L, 1) == box)
        return 1;
    int line = hl__sandbox_line(L);
    hl_err *err = &box->err;
    if (lua_isstring(L, 1)) {
        const char *text = strip_place(lua_tostring(L, 1), &line);
        if (strstr(text, "stack overflow") != NULL) {
            hl__fail(err, HL_E_RULE, "calls, or brackets, are too deep inside each other");
            hl__todo(err, "look for a recursion that does not end");
        } else {
            hl__fail(err, HL_E_RULE, "%s", text);
        }
    } else {
        hl__fail(err, HL_E_RULE, "the rule file raised an error that is a %s", luaL_typename(L, 1));
        hl__todo(err, "give error() a text");
    }
    hl__at(err, box->file, line != 0 ? line : box->line, 0);
    lua_pushlightuserdata(L, box);
    return 1;
}

hl_code hl__sandbox_open(hl_sandbox *box, hl_arena *arena, const hl_shelf *shelf, hl_err *err)
{
    *box = (hl_sandbox){.arena = arena,
                        .memory = HL_SANDBOX_MEMORY,
                        .steps = HL_SANDBOX_STEPS,
                        .seconds = HL_SANDBOX_SECONDS};
    if (shelf != NULL && shelf->memory > 0)
        box->memory = shelf->memory;
    if (shelf != NULL && shelf->steps > 0)
        box->steps = shelf->steps;
    if (shelf != NULL && shelf->seconds > 0)
        box->seconds = shelf->seconds;
    box->L = lua_newstate(allocate, box);
    if (box->L != NULL)
        return HL_OK;
    fill_trip(box, box->denied);
    *err = box->err;
    return err->code;
}

void hl__sandbox_close(hl_sandbox *box)
{
    if (box->L != NULL)
        lua_close(box->L);
    box->L = NULL;
}

/* What an error that came without an explanation means. */
static void fill_status(hl_sandbox *box, int status)
{
    if (status == LUA_ERRMEM || box->denied == HL_TRIP_MACHINE) {
        fill_trip(box, box->denied);
    } else {
        hl__fail(&box->err, HL_E_RULE, "the rule file failed while an error was being reported");
        hl__todo(&box->err, "look for a recursion that does not end");
    }
    hl__at(&box->err, box->file, box->line, 0);
}

static long least_long(long a, long b)
{
    return a < b ? a : b;
}

hl_code hl__sandbox_call(hl_sandbox *box, lua_CFunction inside, void *argument, const char *file, hl_err *err)
{
    /* Lua prints and reads numbers by the locale; this thread uses "C" while it runs. */
    locale_t plain = newlocale(LC_ALL_MASK, "C", (locale_t)0);
    if (plain == (locale_t)0)
        return hl__no_memory(err);
    locale_t before = uselocale(plain);
    lua_State *L = box->L;
    box->file = file;
    box->line = 1;
    const double start = now();
    box->left = least_long(box->steps, steps_together(box) - box->spent_steps);
    const long allowed = box->left;
    box->denied = HL_TRIP_NONE;
    box->deadline = start + fmin(box->seconds, box->seconds * HL_SANDBOX_TOGETHER - box->spent_seconds);
    box->err = (hl_err){0};
    lua_settop(L, 0);
    lua_pushcfunction(L, explain); /* a light function: allocates nothing */
    lua_pushcfunction(L, inside);
    lua_pushlightuserdata(L, argument);
    lua_sethook(L, watch, LUA_MASKCOUNT, box->trip != HL_TRIP_NONE ? 1 : HOOK_EVERY);
    int status = lua_pcall(L, 1, 0, 1);
    lua_sethook(L, NULL, 0, 0);
    if (status != LUA_OK && lua_touserdata(L, -1) != box)
        fill_status(box, status);
    lua_settop(L, 0);
    box->spent_steps += allowed - box->left;
    box->spent_seconds += now() - start;
    uselocale(before);
    freelocale(plain);
    if (status == LUA_OK)
        return HL_OK;
    *err = box->err;
    return err->code;
}
