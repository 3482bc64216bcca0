/* form_page.c - a blank form of a book for the bench, to print: a page a stage (layer: render/html).
 *
 * Above, what to do and what is wanted, with the cautions; below, a row a note to write in.  What the
 * book computes is not on it: paper does no arithmetic. */
#include "page_frame.h"

#include "leaf.h"
#include "sentence.h"

#define BLOCKS 2 /* of notes, side by side */

/* ---- what is on a stage's page ------------------------------------------------------------------ */

static bool is_asked(const hl_step *step, int stage)
{
    return step->stage == stage && !step->skipped && step->kind != HL_DERIVED &&
           step->need != HL_NEED_OPTIONAL;
}

/* A column of the grid; the others have a line of their own. */
static bool is_column(const hl_step *step)
{
    return step->scope != HL_ONCE && step->scope != HL_SECTIONS && step->need != HL_NEED_SAMPLES;
}

static int count_asked(const hl_book *book, int stage, bool columns)
{
    int n = 0;
    for (int i = 0; i < book->n_steps; i++)
        n += is_asked(&book->steps[i], stage) && is_column(&book->steps[i]) == columns;
    return n;
}

/* ---- the head ----------------------------------------------------------------------------------- */

static void add_blank(hl_html *html, const char *label)
{
    hl__html_open(html, "span", NULL);
    hl__html_text(html, label);
    hl__html_leaf(html, "i", NULL, "");
    hl__html_close(html);
}

static void add_head(hl_html *html, const hl_book *book, const hl_stage *stage, int page, int pages)
{
    static const char *const blanks[] = {"Piano", "Date", "By", "Temperature", "Humidity"};
    hl_text line = {0};
    hl__html_leaf(html, "h2", NULL, stage->title);
    hl__html_open(html, "p", "class", "blanks", NULL);
    for (size_t i = 0; i < sizeof blanks / sizeof *blanks; i++)
        add_blank(html, blanks[i]);
    hl__html_close(html);
    if (stage->caution[0]) {
        hl__text_add(&line, "Careful: ");
        hl__text_safe(&line, stage->caution);
        hl__paragraph(html, "careful", &line);
    }
    hl__text_safe(&line, book->id);
    hl__text_printf(&line, ", sheet %d of %d", page, pages);
    hl__paragraph(html, "sheet", &line);
}

/* ---- what to do ------------------------------------------------------------------------------------ */

static void say_wanted(hl_text *out, const hl_book *book, const hl_step *step)
{
    if (step->kind != HL_JUDGED) {
        hl__say_targets(out, book, step);
        return;
    }
    hl__text_add(out, "ok");
    for (int i = 0; i < step->n_words; i++) {
        hl__text_add(out, i == step->n_words - 1 ? " or " : ", ");
        hl__text_safe(out, step->words[i].word);
    }
}

static void add_task(hl_html *html, const hl_book *book, const hl_step *step, int letter)
{
    hl_text line = {0};
    hl__html_open(html, "li", NULL);
    if (letter > 0)
        hl__text_printf(&line, "%d. ", letter);
    hl__text_safe(&line, step->title);
    hl__html_leaf_take(html, "strong", NULL, &line);
    hl__text_add(&line, ": ");
    say_wanted(&line, book, step);
    hl__text_add(&line, ". ");
    hl__text_safe(&line, step->ask);
    hl__html_take(html, &line);
    if (step->caution[0]) {
        hl__text_add(&line, " Careful: ");
        hl__text_safe(&line, step->caution);
        hl__html_leaf_take(html, "em", NULL, &line);
    }
    if (letter == 0) {
        hl__html_text(html, step->scope == HL_ONCE ? " " : " Notes and readings: ");
        hl__html_leaf(html, "i", step->scope == HL_ONCE ? "short" : "long", "");
    }
    hl__html_close(html);
    hl__html_line(html);
}

static void add_tasks(hl_html *html, const hl_book *book, int stage)
{
    int column = 0;
    hl__html_open(html, "ul", "class", "tasks", NULL);
    for (int i = 0; i < book->n_steps; i++)
        if (is_asked(&book->steps[i], stage))
            add_task(html, book, &book->steps[i], is_column(&book->steps[i]) ? ++column : 0);
    hl__html_close(html);
}

/* ---- the grid ------------------------------------------------------------------------------------ */

static void add_grid_head(hl_html *html, int columns)
{
    hl__html_open(html, "tr", NULL);
    for (int block = 0; block < BLOCKS; block++) {
        hl__html_leaf(html, "th", NULL, "Note");
        for (int i = 1; i <= columns; i++) {
            hl_text name = {0};
            hl__text_printf(&name, "%d", i);
            hl__html_leaf_take(html, "th", NULL, &name);
        }
    }
    hl__html_close(html);
    hl__html_line(html);
}

static void add_cells(hl_html *html, const hl_book *book, int stage, int note)
{
    const int pitch = hl_note_pitch(book->compass, note);
    hl__html_open(html, "th", "class", hl_pitch_is_sharp(pitch) ? "sharp" : NULL, NULL);
    hl__html_text(html, hl_pitch_name(pitch));
    hl__html_close(html);
    for (int i = 0; i < book->n_steps; i++) {
        const hl_step *step = &book->steps[i];
        if (!is_asked(step, stage) || !is_column(step))
            continue;
        const bool here = hl__step_at_pitch(step, pitch);
        hl__html_leaf(html, "td", here ? NULL : "shut", here ? "" : "\xE2\x80\x93");
    }
}

static void add_grid(hl_html *html, const hl_book *book, int stage)
{
    const int columns = count_asked(book, stage, true), keys = book->compass.keys;
    const int rows = (keys + BLOCKS - 1) / BLOCKS;
    if (columns == 0)
        return;
    hl__html_open(html, "table", "class", "bench", NULL);
    hl__html_open(html, "thead", NULL);
    add_grid_head(html, columns);
    hl__html_close(html);
    hl__html_open(html, "tbody", NULL);
    hl__html_line(html);
    for (int row = 1; row <= rows; row++) {
        hl__html_open(html, "tr", NULL);
        for (int block = 0; block < BLOCKS; block++)
            if (row + block * rows <= keys)
                add_cells(html, book, stage, row + block * rows);
        hl__html_close(html);
        hl__html_line(html);
    }
    hl__html_close(html);
    hl__html_close(html);
}

static bool has_page(const hl_book *book, int stage)
{
    return count_asked(book, stage, true) + count_asked(book, stage, false) > 0;
}

hl_code hl_form_html(char **out, size_t *size, const hl_book *book, hl_err *err)
{
    hl_text text = {0}, title = {0};
    hl_html html = {.out = &text};
    int pages = 0, page = 0;
    *out = NULL;
    for (int i = 0; i < book->n_stages; i++)
        pages += has_page(book, i);
    hl__text_add(&title, "Bench form: ");
    hl__text_safe(&title, book->title);
    hl__page_start(&html, title.data ? title.data : "", "form", NULL);
    hl__html_leaf_take(&html, "h1", NULL, &title);
    for (int i = 0; i < book->n_stages; i++) {
        if (!has_page(book, i))
            continue;
        hl__html_open(&html, "section", "class", "stage", NULL);
        add_head(&html, book, &book->stages[i], ++page, pages);
        add_tasks(&html, book, i);
        add_grid(&html, book, i);
        hl__html_close(&html);
        hl__html_line(&html);
    }
    hl__page_end(&html);
    return hl__text_take(&text, out, size, err);
}
