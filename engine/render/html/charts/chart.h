/* chart.h - readings along the compass as drawings (layer: render/html).
 *
 * A series is what one step says at every note; a frame turns notes and amounts into places.
 * Naturals are discs, sharps diamonds; a note out of its limits is ringed and crossed, an uneven one in a
 * triangle; both are in a hatched column and are named; so a chart can be read in grey, and without any
 * colour. */
#ifndef HL_CHART_H
#define HL_CHART_H

#include "audit.h"
#include "hammerline/print.h"
#include "svg.h"

typedef struct hl_spot {
    const hl_finding *finding; /* NULL: the step has nothing to say at this note */
    bool has_before;
    hl_amount before; /* the first reading, of an earlier pass */
} hl_spot;

/* Owns `spots`. */
typedef struct hl_series {
    const hl_audit *audit;
    const hl_step *step;
    int index; /* of the step */
    int keys;
    hl_spot *spots; /* [keys + 1]; the first is not used */
    int n_numbers;  /* readings with a number, computed ones too */
    int n_go;       /* go/no-go readings */
    int n_before;
} hl_series;

/* False = no memory.  Frees nothing of the audit's. */
bool hl__series_start(hl_series *series, const hl_audit *audit, int step);
void hl__series_free(hl_series *series);
/* Is there a number or a go/no-go reading at some note? */
bool hl__series_drawable(const hl_series *series);
/* Is some note inside its limits and out because it stands out from its neighbours? */
bool hl__series_any_uneven(const hl_series *series);
/* Does this verdict ask for something?  Such notes are hatched and named. */
bool hl__spot_out(const hl_spot *spot);

/* Least and most of an axis and its ticks. */
typedef struct hl_scale {
    hl_amount low, high, tick;
} hl_scale;
/* From the readings and targets; a reading many bands away does not flatten the others: it is drawn at
 * the edge with an arrow. */
hl_scale hl__series_scale(const hl_series *series);
/* The scale that holds low ... high, with ticks of 1, 2 or 5 in the unit. */
hl_scale hl__scale_around(hl_amount low, hl_amount high, hl_unit unit);

/* ---- the frame (chart_frame.c) ----------------------------------------------------------------- */

typedef struct hl_frame {
    hl_html *html;
    const hl_sheet *sheet;
    hl_unit unit;
    hl_scale scale;
    int id;            /* of the chart in its page, from 1 */
    int top, bottom;   /* of the plot */
    int left, right;   /* the same in every chart of a page */
    int keys, breadth; /* breadth of a note */
    bool small;        /* half as wide, without a keyboard: several share a row of the page */
} hl_frame;

enum { HL_CHART_WIDTH = 7800, HL_CHART_SMALL = 4000 };

hl_frame hl__frame_at(hl_html *html, const hl_audit *audit, hl_unit unit, hl_scale scale, int top, int height,
                      bool small);
int hl__frame_x(const hl_frame *frame, int note);             /* the note's middle */
int hl__frame_y(const hl_frame *frame, hl_amount value);      /* kept inside the plot */
int hl__frame_beyond(const hl_frame *frame, hl_amount value); /* 1 above, -1 below, 0 inside */
bool hl__frame_is_sharp(const hl_frame *frame, int note);
/* Amount axis with its lines; section breaks; the plot's outline. */
void hl__frame_axes(const hl_frame *frame);
/* The keyboard under the lowest plot, with note names; returns the y below it. */
int hl__frame_keys(const hl_frame *frame);
int hl__frame_keys_height(bool small);

/* Columns behind notes that are out, and their names above the plot.  `out` tells which, [keys + 1].
 * Names that would touch are put in rows: measure first, so that the plot knows its place. */
int hl__names_height(const hl_audit *audit, const bool *out);
void hl__names_draw(const hl_frame *frame, const bool *out, int y);
void hl__frame_hatch(const hl_frame *frame, const bool *out);

/* A mark for each reading of a series (chart_marks.c): what passes, what is out of its limits, uneven, in
 * doubt, to be read again or not measured. */
void hl__marks_draw(const hl_frame *frame, const hl_series *series);
/* The shape of a key's colour, at a height of the plot. */
void hl__mark_shape(const hl_frame *frame, hl_text *way, int note, int y);

/* The target band of a step (chart_band.c).  Where sharps have limits of their own, theirs are broken
 * lines and the naturals' are grey. */
void hl__band_draw(const hl_frame *frame, const hl_series *series);
bool hl__band_is_split(const hl_series *series);

/* ---- the board (chart_board.c) ------------------------------------------------------------------ */

/* Steps down, notes across: every reading as a mark of its state. */
void hl__chart_board(hl_html *html, const hl_audit *audit, int id);

/* ---- charts -------------------------------------------------------------------------------------- */

/* One step: band, readings before and now, joined within a section.  Small: of a step that passes wholly. */
void hl__chart_step(hl_html *html, const hl_series *series, int id, bool small);
/* Is there a touchweight chart in this audit?  Downweight and upweight, of which some are read. */
bool hl__chart_has_touch(const hl_audit *audit);
/* Touchweight: a mark at downweight and at upweight, joined by a thin line, its middle ticked; friction
 * below. */
void hl__chart_touch(hl_html *html, const hl_audit *audit, int id);
/* Is the step's chart part of the touchweight chart? */
bool hl__chart_in_touch(const hl_audit *audit, int step);
/* What the shapes mean; `befores`: some charts show readings of an earlier pass. */
void hl__chart_legend(hl_html *html, bool befores);
/* The same of the board. */
void hl__board_legend(hl_html *html);

/* <svg>, its title and description; the description is emptied.  The ids are made of `id`. */
void hl__chart_open(hl_html *html, int id, int height, const char *title, hl_text *description);

/* The numbers of a chart, a row a note. */
void hl__chart_table(hl_html *html, const hl_series *series, int id);

#endif
