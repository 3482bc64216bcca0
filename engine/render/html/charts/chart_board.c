/* chart_board.c - the piano at a glance: steps down, notes across, one mark a reading (layer:
 * render/html/charts).
 *
 * Each state has a shape of its own, so that the board is read in grey and without colour.  Steps of which
 * nothing is asked or read are left out. */
#include "chart.h"

#include "sentence.h"

enum {
    TITLE = 2080, /* breadth of the titles */
    PIANO = 160,  /* breadth of the column of what is read once */
    ROW = 96,     /* height of a step */
    HEAD = 130,   /* note names above */
    FOOT = 20,
    HALF = 24,  /* of a mark */
    STAGE = 60, /* room above the first step of a stage */
};

typedef struct board {
    hl_html *html;
    const hl_audit *audit;
    int keys, breadth;
    hl_text pass, go, out, uneven, doubt, again, missing, skipped, breaks, rules;
} board;

static bool is_shown(const hl_audit *audit, int step)
{
    const int *count = audit->tallies[step].count;
    int n = 0;
    for (int i = 0; i < HL_VERDICTS; i++)
        n += i == HL_NOT_APPLICABLE ? 0 : count[i];
    return n > 0;
}

static int find_x(const board *b, int note)
{
    return note == 0 ? TITLE + PIANO / 2 : TITLE + PIANO + b->breadth * (note - 1) + b->breadth / 2;
}

static void add_mark(board *b, const hl_finding *finding, int x, int y)
{
    switch (finding->verdict) {
    case HL_PASS:
        if (finding->go)
            hl__way_box(&b->go, x - 4, y - HALF, 8, 2 * HALF);
        else
            hl__way_disc(&b->pass, x, y, 13);
        break;
    case HL_FAIL:
        if (finding->why == HL_WHY_UNEVEN) {
            hl__way_triangle(&b->uneven, x, y, HALF + 6);
        } else {
            hl__way_box(&b->out, x - HALF, y - HALF, 2 * HALF, 2 * HALF);
        }
        break;
    case HL_DOUBTFUL:
        hl__way_disc(&b->doubt, x, y, HALF);
        break;
    case HL_STALE:
        for (int k = -1; k <= 1; k++) {
            hl__way_move(&b->again, x - HALF + 16 * k, y + HALF);
            hl__way_line(&b->again, x + HALF + 16 * k, y - HALF);
        }
        break;
    case HL_MISSING:
        if (finding->why == HL_WHY_SKIPPED)
            hl__way_cross(&b->skipped, x, y, HALF);
        else
            hl__way_box(&b->missing, x - HALF, y - HALF, 2 * HALF, 2 * HALF);
        break;
    case HL_ACCEPTED:
        hl__way_box(&b->pass, x - HALF, y - 6, 2 * HALF, 12);
        break;
    case HL_NOT_APPLICABLE:
        break;
    }
}

static void draw_names(const board *b)
{
    const hl_sheet *sheet = b->audit->sheet;
    hl__svg_text(b->html, "name", find_x(b, 0), HEAD - 40, "piano");
    for (int note = 1; note <= b->keys; note++)
        if (hl_note_pitch(sheet->compass, note) % 12 == 0)
            hl__svg_text(b->html, "name", find_x(b, note), HEAD - 40,
                         hl_pitch_name(hl_note_pitch(sheet->compass, note)));
}

static void draw_breaks(board *b, int bottom)
{
    const hl_sheet *sheet = b->audit->sheet;
    for (int i = 0; i < sheet->n_breaks; i++) {
        const int x = TITLE + PIANO + b->breadth * sheet->breaks[i];
        hl__way_move(&b->breaks, x, HEAD - 20);
        hl__way_line(&b->breaks, x, bottom);
    }
}

static void draw_shapes(board *b)
{
    hl__svg_path(b->html, "rule", &b->rules);
    hl__svg_path(b->html, "break", &b->breaks);
    hl__svg_path(b->html, "good", &b->pass);
    hl__svg_path(b->html, "good", &b->go);
    hl__svg_path(b->html, "good", &b->out);
    hl__svg_path(b->html, "good", &b->uneven);
    hl__svg_path(b->html, "doubt", &b->doubt);
    hl__svg_path(b->html, "cross", &b->again);
    hl__svg_path(b->html, "none", &b->missing);
    hl__svg_path(b->html, "cross", &b->skipped);
}

static void say_board(hl_text *out, const hl_audit *audit)
{
    const int *count = audit->total.count;
    hl__say_count(out, count[HL_PASS], "reading passes", "readings pass");
    hl__text_printf(out, ", %d out, %d in doubt, %d to read again, %d not read.", count[HL_FAIL],
                    count[HL_DOUBTFUL], count[HL_STALE], count[HL_MISSING]);
}

static int measure(const hl_audit *audit)
{
    int height = HEAD + FOOT, stage = -1;
    for (int step = 0; step < audit->book->n_steps; step++) {
        if (!is_shown(audit, step))
            continue;
        height += ROW + (audit->book->steps[step].stage != stage && stage >= 0 ? STAGE : 0);
        stage = audit->book->steps[step].stage;
    }
    return height;
}

void hl__chart_board(hl_html *html, const hl_audit *audit, int id)
{
    board b = {.html = html, .audit = audit, .keys = audit->sheet->compass.keys};
    b.breadth = (HL_CHART_WIDTH - TITLE - PIANO - 40) / b.keys;
    hl_text about = {0};
    say_board(&about, audit);
    hl__chart_open(html, id, measure(audit), "Every step at every note", &about);
    draw_names(&b);
    int y = HEAD, stage = -1;
    for (int step = 0; step < audit->book->n_steps; step++) {
        if (!is_shown(audit, step))
            continue;
        if (audit->book->steps[step].stage != stage && stage >= 0)
            y += STAGE;
        stage = audit->book->steps[step].stage;
        hl_text title = {0};
        hl__text_safe(&title, audit->book->steps[step].title);
        hl__svg_text(html, "step", 0, y + ROW / 2 + 32, title.data ? title.data : "");
        hl__text_free(&title);
        hl__way_move(&b.rules, TITLE, y + ROW / 2);
        hl__way_line(&b.rules, find_x(&b, b.keys), y + ROW / 2);
        for (size_t i = audit->findings.first[step]; i < audit->findings.first[step + 1]; i++)
            add_mark(&b, &audit->findings.items[i], find_x(&b, audit->findings.items[i].note), y + ROW / 2);
        y += ROW;
    }
    draw_breaks(&b, y);
    draw_shapes(&b);
    hl__html_close(html);
}
