/* walk_entry.h - one typed line and what is meant by it (layer: cli/walk).
 *
 * No engine call but note names: the same line means the same whatever the sheet holds.  A line that
 * could be half of something, or is more than it seems, is refused and never guessed. */
#ifndef HL_WALK_ENTRY_H
#define HL_WALK_ENTRY_H

#include "hammerline.h"

#define ENTRY_MOST 400

typedef enum entry_kind {
    ENTRY_EMPTY, /* records nothing */
    ENTRY_BAD,   /* `what` and `todo` say why */
    ENTRY_READING,
    ENTRY_NOTE, /* a note alone: go there */
    ENTRY_COMMAND,
} entry_kind;

typedef enum command_id {
    COMMAND_NONE,
    COMMAND_HELP,
    COMMAND_HOW,
    COMMAND_NEAR,
    COMMAND_LIST,
    COMMAND_NEXT,
    COMMAND_BACK,
    COMMAND_GO,
    COMMAND_AGAIN,
    COMMAND_ONWARD,
    COMMAND_SKIP,
    COMMAND_UNDO,
    COMMAND_WITHDRAW,
    COMMAND_REMARK,
    COMMAND_QUERY,
    COMMAND_CLOSED,
    COMMAND_DONE,
    COMMAND_BETWEEN,
    COMMAND_WITH,
    COMMAND_PASS,
    COMMAND_QUIT,
} command_id;

/* Which notes a line is about; several narrow each other. */
enum {
    SELECT_HERE = 0, /* no note named */
    SELECT_SPAN = 1, /* from ... to */
    SELECT_NATURALS = 2,
    SELECT_SHARPS = 4,
    SELECT_SAMPLES = 8,
    SELECT_SECTION = 16,
    SELECT_REST = 32, /* what is still open */
    SELECT_ALL = 64,
};

typedef struct entry {
    entry_kind kind;
    command_id command;
    unsigned select;
    int from, to;
    bool replaces;             /* readings that are there already */
    bool same;                 /* the reading is the last one's */
    char text[ENTRY_MOST + 1]; /* the reading as the sheet's reader takes it; or what follows a command */
    char notes[64];            /* the notes as they were typed, "" when none were */
    char what[160], todo[160];
} entry;

typedef struct entry_word {
    const char *name, *usage, *about;
    command_id command;
    bool often; /* on the first page of help */
} entry_word;

/* Every command with what it does, ended by a row without a name; aliases have no `about`. */
extern const entry_word entry_words[];

/* `step` is where the walk is; NULL: nowhere. */
void entry_read(entry *out, const char *line, hl_compass compass, const hl_step *step);

#endif
