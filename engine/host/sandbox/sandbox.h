/* sandbox.h - a Lua state with limits, entered through one protected call (layer: host/sandbox).
 *
 * Rule files are strangers' code.  Nothing of Lua that can allocate or fail is called outside
 * hl__sandbox_call(); inside it, results go into the arena, so that an error that jumps out leaves
 * nothing to release. */
#ifndef HL_SANDBOX_H
#define HL_SANDBOX_H

#include "arena.h"
#include "errors.h"
#include "hammerline/book.h"

#include <lua.h>

#define HL_SANDBOX_MEMORY  ((size_t)16 << 20)
#define HL_SANDBOX_STEPS   2000000L
#define HL_SANDBOX_SECONDS 1.0
/* All files of a book together may take this many times as much as one. */
#define HL_SANDBOX_TOGETHER 5
/* The name under which every chunk is loaded; the true file is hl_sandbox.file.  Lua would cut a
 * long path to 60 characters. */
#define HL_SANDBOX_CHUNK "rule"

typedef enum hl_trip {
    HL_TRIP_NONE,
    HL_TRIP_STEPS,   /* the instruction budget */
    HL_TRIP_TIME,    /* the clock behind it */
    HL_TRIP_MEMORY,  /* the cap of the whole state */
    HL_TRIP_AT_ONCE, /* one piece larger than any rule file needs */
    HL_TRIP_MACHINE, /* malloc itself failed */
} hl_trip;

typedef struct hl_sandbox {
    lua_State *L;
    hl_arena *arena; /* the caller's; what the words copy into it counts against the cap */
    size_t memory, used;
    long steps, left;
    double seconds, deadline;
    long spent_steps; /* by all calls so far: many slow files may not take many times what one may */
    double spent_seconds;
    hl_trip trip;               /* sticky: after the first trip every instruction trips again */
    hl_trip denied;             /* why the last allocation failed */
    const char *file;           /* the rule file that runs */
    struct hl_outline *outline; /* its text as it is written (scan.h), or NULL */
    struct hl_entry *made;      /* by it, latest first */
    hl_complaints *all;         /* errors are kept here and the file runs on; NULL: the first one ends it */
    int line;                   /* the last line seen, for errors that come without one */
    hl_err err;                 /* filled at the point of the throw */
} hl_sandbox;

/* Start a state with nothing in it; limits from the shelf (NULL or 0 = the default). */
hl_code hl__sandbox_open(hl_sandbox *box, hl_arena *arena, const hl_shelf *shelf, hl_err *err);
void hl__sandbox_close(hl_sandbox *box);

/* Enter Lua: runs `inside` with `argument` as its light userdata, counting afresh. */
hl_code hl__sandbox_call(hl_sandbox *box, lua_CFunction inside, void *argument, const char *file,
                         hl_err *err);

/* The functions below are for code that runs inside the call. */

hl_sandbox *hl__sandbox_of(lua_State *L);
/* The line of the innermost rule function that runs; 0 when none does. */
int hl__sandbox_line(lua_State *L);
/* Throw box->err; adds file and line when they are not set. */
_Noreturn void hl__sandbox_raise(lua_State *L);
/* Throw "what; todo" at the running line. */
_Noreturn void hl__sandbox_error(lua_State *L, const char *todo, const char *what, ...) HL_PRINTF(3, 4);
/* The same for a word whose entry is wrong: when errors are collected, keep this one and return, so that the
 * rest of the file is looked at too; else it ends the run. */
void hl__sandbox_note(lua_State *L, const char *todo, const char *what, ...) HL_PRINTF(3, 4);
/* box->err is filled; the same choice.  hl__sandbox_raise() when errors are not collected, or enough are. */
void hl__sandbox_note_err(lua_State *L);
/* Count work done in C as if it were instructions. */
void hl__sandbox_charge(lua_State *L, size_t amount);
/* Zeroed room for n items of the arena, within the cap; never NULL. */
void *hl__sandbox_take(lua_State *L, size_t n, size_t size);

#endif
