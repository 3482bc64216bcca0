/* sheet.h - one instrument's readings, each with its place in the file (layer: sheet).
 *
 * A sheet owns one arena; all strings live as long as the sheet.  Events keep the file's order,
 * which is time order; `latest` finds the one that counts. */
#ifndef HL_SHEET_H
#define HL_SHEET_H

#include "arena.h"
#include "book.h"
#include "hammerline/sheet.h"
#include "places.h"

#include <stdint.h>

#define HL_ERRORS_MOST 1000 /* bad rows listed; one more record says how many are not */
#define HL_FACTS_MOST  1000 /* fact lines above the header */
#define HL_BREAKS_MOST 16
#define HL_ID_MOST     64 /* bytes of an id, with its NUL */
#define HL_SPARE       64 /* bytes behind a sheet's that may be looked at */

typedef enum hl_event_kind {
    HL_EVENT_VALUE,  /* amount */
    HL_EVENT_WORD,   /* word: -1 = ok, else index into the step's words */
    HL_EVENT_WITHIN, /* go/no-go by the gauge in `method` */
    HL_EVENT_OVER,
    HL_EVENT_UNDER,
    HL_EVENT_VOID,       /* withdraws a reading of this step and note: amount is 1 + its index among the
                            events; 0: the latest */
    HL_EVENT_SKIP,       /* left out at the bench; why in remark */
    HL_EVENT_ADJUSTMENT, /* `step` is an adjuster's index; amount signed, + = `more`; no_amount:
                            `word` tells the way, 1 more, -1 less, 0 not said */
    HL_EVENT_QUERY,      /* remark = the text; closed when `word` is 1 */
    HL_EVENT_PASS,       /* begins a pass; remark = its name */
    HL_EVENT_CONFIRM,    /* the reading of step at the note is right as it was read; remark = why */
    HL_EVENT_ACCEPTED,   /* it is accepted as it is; remark = why */
    HL_EVENT_FACT,       /* a fact stated from here on; remark = "id = value" */
} hl_event_kind;

/* One row, or one cell of a wide sheet.  Texts are places in the sheet's `texts`, asked for by hl__text_at():
 * few rows have any, and equal ones in a row are kept once.  Numbers stand in an order without gaps. */
typedef struct hl_event {
    hl_amount amount;
    uint32_t time, by, method, remark; /* 0 = not given */
    int step; /* step index, or adjuster index for an adjustment; -1 for query, pass, fact */
    int line;
    int before; /* the reading that counted before this one, or -1 */
    int pass;   /* index into sheet->passes */
    int word;
    unsigned char kind; /* hl_event_kind */
    unsigned char note; /* 1 ... keys; 0 = the instrument */
    bool no_amount;     /* adjustment without an amount ("done") */
    bool withdrawn;     /* a later `void` took it back: it takes no part in anything */
} hl_event;

/* A reading of a usual row, the first one at its place, with no text beside it: all that its event could say.
 * Most sheets hold nothing else, and no fleet asks for their events. */
typedef struct hl_usual {
    hl_amount value;
    int place, line;
} hl_usual;

/* A fact line as written. */
typedef struct hl_sheet_fact {
    const char *id;    /* lower case, blanks turned into '_', without the colour */
    const char *value; /* trimmed */
    int colour;        /* 0 both, 1 naturals, 2 sharps */
    int line, column;
    bool renamed; /* it was written with a name of before; `id` is the new one */
} hl_stated_fact;

/* A go/no-go gauge: "# go gauge let_off: strip, 1.6-2.8 mm". */
typedef struct hl_go_gauge {
    bool stated;
    hl_amount low, high;
    const char *name;
} hl_go_gauge;

struct hl_sheet {
    hl_arena arena;
    hl_arena row_arena; /* of what the rows bring */
    const char *name;
    const char *title; /* what people call it: its name, and its part of a file of many */
    const char *part;  /* what its rows say in a column `sheet`; NULL: not known yet */
    int part_line;     /* line of a part's first row in its file; 0: the rows follow the header */
    char *bytes;       /* HL_SPARE zero bytes behind them may be looked at */
    size_t size;
    char separator;    /* ',' ';' or '\t' */
    char decimal_mark; /* '.' or ','; for all readings of the file */
    char fact_mark;    /* the same for the numbers in fact lines; 0 = none seen */
    bool tidy, read;
    int version; /* of the version line `# hammerline: tidy 2` that `walk` writes; 0: it has none */
    int torn;    /* line of the first row that was not saved to its end, else 0 */
    struct hl_entries *entries; /* what became of the rows with marks; NULL: no row can have one */
    const hl_book *book;
    hl_compass compass;
    hl_stated_fact *facts;
    size_t n_facts, room_facts;
    hl_usual *usual; /* readings of usual rows, until something asks for their events */
    size_t room_usual;
    bool expanded;    /* all events are there; else there are only usual readings, n_events of them */
    hl_event *events; /* in the file's order, which is time order */
    size_t n_events, room_events;
    char *texts; /* one after another, each with its NUL; the first byte is the empty text */
    size_t n_texts, room_texts;
    bool again;    /* something was read more than once, or taken back */
    int n_changes; /* adjustments */
    bool has_queries;
    bool has_words;      /* rows `confirm` or `accepted` */
    const char **passes; /* passes[0] = "" : before any pass was named */
    int n_passes;
    size_t room_passes;
    hl_err *errors;
    size_t n_errors, room_errors;
    size_t unlisted; /* bad rows past HL_ERRORS_MOST, counted only */
    int last_damped; /* last note with a damper; 0 = unknown */
    bool damped_given;
    unsigned char *undamped;    /* [keys + 1], 1 = no damper; NULL when unknown */
    int breaks[HL_BREAKS_MOST]; /* last note of each section but the final one, ascending */
    int n_breaks;
    int *samples; /* sample notes, ascending; NULL = not stated */
    int n_samples;
    double (*values)[2];        /* [book->n_facts][colour], base units; NaN = none */
    bool (*assumed)[2];         /* [book->n_facts][colour]: the book's default stands */
    hl_go_gauge *go_gauges;     /* [book->n_steps]: stated by "go gauge STEP" */
    hl_amount *gauges;          /* [book->n_steps]: uncertainty stated by "gauge STEP"; 0 = not stated */
    const hl_renamed *old_name; /* the first name of before that it uses, or NULL */
    int old_line;
    bool more_old;  /* it uses others too */
    int header_end; /* line of the header row */
    size_t head_at; /* its place in bytes */
    hl_places places;
    int *changes; /* [n_adjusters * HL_NOTES]: the last adjustment, -1 none; NULL: nothing was adjusted */
    struct hl_form *form; /* how the rows are read */
    size_t rows_at;       /* the first row below the header: in bytes, and its line */
    int rows_line;
    bool complete;  /* all rows were looked at, bad ones too */
    bool borrowed;  /* its facts are shared with other sheets, so no row may change one */
    bool needs_own; /* a row would have changed one: read it with facts of its own */
};

/* One sheet of a file of many: `top` is what stands above the file's rows, its header too; `rows` are
 * this sheet's, from `line` of the file on, and say `part` in the column `sheet`. */
typedef struct hl_part_text {
    const char *top, *rows;
    size_t top_size, rows_size;
    const char *part;
    int line;
} hl_part_text;
hl_code hl__sheet_open_part(hl_sheet **out, const char *name, const hl_part_text *text, hl_err *err);
/* The events of usual readings, made when they are first asked for.  False = no memory. */
bool hl__sheet_expand(hl_sheet *sheet);
/* Time, person, method or remark of an event; "" when not given.  Lives as long as the sheet. */
static inline const char *hl__text_at(const hl_sheet *sheet, uint32_t text)
{
    return text == 0 ? "" : sheet->texts + text;
}
/* The cell of the event's row that holds its reading, counted from 1. */
int hl__event_column(const hl_sheet *sheet, const hl_event *event);
/* Index of the event that counts for a step at a note (0 = instrument), or -1, once there are events.  A void
 * event withdraws the one before it and gives back the one before that. */
int hl__sheet_latest(const hl_sheet *sheet, int step, int note);
/* Is there a reading that counts?  Known while the rows are read. */
bool hl__sheet_was_read(const hl_sheet *sheet, int step, int note);
/* The same of an adjuster's last adjustment at a note. */
int hl__sheet_latest_change(const hl_sheet *sheet, int adjuster, int note);
/* Was a reading taken back by `void`, so that none is left? */
bool hl__sheet_withdrawn(const hl_sheet *sheet, int step, int note);
/* Is this note in the scope of the step (colour, dampers)?  Note 0 only for HL_ONCE. */
bool hl__sheet_applies(const hl_sheet *sheet, const hl_step *step, int note);
/* Section (0 ...) of a note by the fact `breaks`. */
int hl__sheet_section(const hl_sheet *sheet, int note);
/* Is this a sample note?  Stated by `samples`; else the first and last natural of each section,
 * and with no breaks also the middle natural. */
bool hl__sheet_is_sample(const hl_sheet *sheet, int note);
/* The fact's value for a note's colour (note 0: naturals); *assumed is set (never cleared) when
 * it is the book's default. */
double hl__sheet_value(const hl_sheet *sheet, int fact, int note, bool *assumed);

#endif
