/* chart_names.c - the notes that are out: a hatched column behind, a name above (layer: render/html).
 *
 * Neighbours share one name ("E5-G#5").  Names that would touch each other are put in rows. */
#include "chart.h"

#include <string.h>

enum { LETTER = 62, SPACE = 60, ROW = 110, ROWS_MOST = 6 };

typedef struct run {
    int first, last; /* notes; 0 after the last run */
} run;

static run find_run(const bool *out, int keys, int from)
{
    run found = {0, 0};
    for (int note = from; note <= keys; note++) {
        if (out[note]) {
            found.first = found.first ? found.first : note;
            found.last = note;
        } else if (found.first) {
            break;
        }
    }
    return found;
}

static void name_run(char *room, size_t size, hl_compass compass, run of)
{
    hl_text name = {0};
    hl__text_add(&name, hl_pitch_name(hl_note_pitch(compass, of.first)));
    if (of.last > of.first) {
        hl__text_add(&name, of.last > of.first + 1 ? "-" : " ");
        hl__text_add(&name, hl_pitch_name(hl_note_pitch(compass, of.last)));
    }
    room[0] = '\0';
    if (!name.failed && name.size < size)
        memcpy(room, name.data, name.size + 1);
    hl__text_free(&name);
}

/* The lowest row in which the name has room; `ends` tells where each row is taken up to. */
static int choose_row(int *ends, int x, int width)
{
    for (int row = 0; row < ROWS_MOST; row++) {
        if (x - width / 2 < ends[row])
            continue;
        ends[row] = x + width / 2 + SPACE;
        return row;
    }
    return -1;
}

/* Calls draw for each name that has room; returns how many rows they take. */
typedef void name_drawer(const hl_frame *frame, const char *name, int x, int row, int y);

static int lay_names(const hl_frame *frame, const bool *out, name_drawer *draw, int y)
{
    int ends[ROWS_MOST], rows = 0;
    for (int i = 0; i < ROWS_MOST; i++)
        ends[i] = -HL_CHART_WIDTH;
    for (run at = find_run(out, frame->keys, 1); at.first; at = find_run(out, frame->keys, at.last + 1)) {
        char name[24];
        name_run(name, sizeof name, frame->sheet->compass, at);
        const int x = (hl__frame_x(frame, at.first) + hl__frame_x(frame, at.last)) / 2;
        const int row = choose_row(ends, x, LETTER * (int)strlen(name));
        if (row < 0)
            continue;
        rows = row + 1 > rows ? row + 1 : rows;
        if (draw)
            draw(frame, name, x, row, y);
    }
    return rows;
}

int hl__names_height(const hl_audit *audit, const bool *out)
{
    const hl_frame frame = hl__frame_at(NULL, audit, HL_NO_UNIT, (hl_scale){0, 1, 1}, 0, 1, false);
    return ROW * lay_names(&frame, out, NULL, 0);
}

/* A short line ties a name of an upper row to its column. */
static void draw_name(const hl_frame *frame, const char *name, int x, int row, int y)
{
    hl__svg_text(frame->html, "out", x, y - ROW * row - 25, name);
    if (row > 0)
        hl__svg_line(frame->html, "tie", x, y - ROW * row - 15, x, y);
}

void hl__names_draw(const hl_frame *frame, const bool *out, int y)
{
    lay_names(frame, out, draw_name, y);
}

void hl__frame_hatch(const hl_frame *frame, const bool *out)
{
    enum { SLANT = 60 };
    hl_text edge = {0}, lines = {0};
    const int height = frame->bottom - frame->top;
    for (run at = find_run(out, frame->keys, 1); at.first; at = find_run(out, frame->keys, at.last + 1)) {
        const int left = frame->left + frame->breadth * (at.first - 1);
        const int right = frame->left + frame->breadth * at.last;
        hl__way_box(&edge, left, frame->top, right - left, height);
        /* Lines of 45 degrees, cut at the column's edges: no pattern fill, which some printers drop. */
        for (int c = left - height; c < right; c += SLANT) {
            const int from = c > left ? c : left, to = c + height < right ? c + height : right;
            if (from >= to)
                continue;
            hl__way_move(&lines, from, frame->bottom - (from - c));
            hl__way_line(&lines, to, frame->bottom - (to - c));
        }
    }
    hl__svg_path(frame->html, "column", &edge);
    hl__svg_path(frame->html, "hatch", &lines);
}
